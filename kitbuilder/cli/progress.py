"""Turns drawings on their way to paper into a bar on a terminal, and into nothing in a pipe."""

import sys
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from kitbuilder.draw.canvas import Drawing

SHOWN_FROM = 40
"""Pages from which a bar is shown; fewer are done at once."""


def progress(drawings: Iterable["Drawing"], total: int) -> Iterator["Drawing"]:
    """Pass ``drawings`` on, showing how many of ``total`` are done on standard error."""
    if total < SHOWN_FROM or sys.stderr is None or not sys.stderr.isatty():
        yield from drawings
        return
    with click.progressbar(drawings, length=total, label="Drawing pages", file=sys.stderr) as bar:
        yield from bar
