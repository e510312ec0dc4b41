"""A bar on a terminal for long work, and nothing in a pipe."""

import sys
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, TypeVar

import click

from kitbuilder.cli.voice import speak
from kitbuilder.errors import Said

if TYPE_CHECKING:
    from kitbuilder.output.watch import Work

Thing = TypeVar("Thing")

SHOWN_FROM = {"pages": 40, "pictures": 8, "packs": 8}
"""How many things of each kind a bar is shown for; fewer are done at once."""

LABELS = {
    "pages": Said("progress.pages"),
    "pictures": Said("progress.pictures"),
    "packs": Said("progress.packs"),
}
"""What is said before the bar."""


def progress(things: Iterable[Thing], total: int, work: "Work") -> Iterator[Thing]:
    """Pass ``things`` on, showing how many of ``total`` are done on standard error."""
    if total < SHOWN_FROM[work] or sys.stderr is None or not sys.stderr.isatty():
        yield from things
        return
    with click.progressbar(things, length=total, label=speak(LABELS[work]), file=sys.stderr) as bar:
        yield from bar
