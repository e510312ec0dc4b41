"""Turns the options that several commands share into wishes."""

import sys
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

from kitbuilder.errors import RefusedError
from kitbuilder.textfile import LARGEST_FILE, decode, read_text

if TYPE_CHECKING:
    from kitbuilder.road import Built

Command = TypeVar("Command", bound=Callable[..., Any])


class Millimetres(click.ParamType[float]):
    """A length typed in millimetres; a decimal comma is understood."""

    name = "millimetres"

    def convert(
        self, value: Any, param: click.Parameter | None, ctx: click.Context | None
    ) -> float:
        """Return the number typed; refuse anything else."""
        try:
            return float(str(value).replace(",", "."))
        except ValueError:
            option = param.opts[0] if param else "The length"
            raise RefusedError(
                f"{option} was {str(value)[:40]!r}; give millimetres as a number, such as 10."
            ) from None


class WholeNumber(click.ParamType[int]):
    """A whole number."""

    name = "whole number"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> int:
        """Return the number typed; refuse anything else."""
        try:
            return int(str(value))
        except ValueError:
            option = param.opts[0] if param else "The number"
            raise RefusedError(
                f"{option} was {str(value)[:40]!r}; give a whole number, such as 12."
            ) from None


MM = Millimetres()
WHOLE = WholeNumber()

SUMS_SETTINGS = {"ignore_unknown_options": True}
"""Lets a negative number reach the sentence that refuses it."""


def sum_words(words: tuple[str, ...]) -> tuple[str, ...]:
    """Return the words that name sums or files; refuse a mistyped option among them."""
    for word in words:
        if word.startswith("--"):
            raise RefusedError(
                f"There is no option {word[:40]!r}; see what is allowed with --help."
            )
    return words


def paper_options(command: Command) -> Command:
    """Add the options that choose paper, margin and unit."""
    for option in (
        click.option("--unit", type=MM, metavar="MM", help="Width of a one, in millimetres."),
        click.option("--margin", type=MM, metavar="MM", help="Unprinted margin on all sides."),
        click.option("--paper", metavar="NAME", help="Paper to print on; see: kitbuilder papers."),
    ):
        command = option(command)
    return command


def out_option(default: str) -> Callable[[Command], Command]:
    """Add the option that names the folder to write into."""
    return click.option(
        "--out",
        type=click.Path(path_type=Path),
        default=default,
        show_default=True,
        help="Folder to write into; other files in it are left alone.",
    )


def read_input(source: str) -> str:
    """Return the text of the file named ``source``, or of standard input for ``-``."""
    if source != "-":
        return read_text(Path(source))
    return decode(sys.stdin.buffer.read(LARGEST_FILE + 1), "Standard input", LARGEST_FILE)


def report(built: "Built") -> None:
    """Say what was written and what to print, and why some sums teach little."""
    from kitbuilder import designs
    from kitbuilder.kit.contents import note

    words = designs.words()
    for sum_ in built.kit.sums:
        key = note(sum_)
        if key:
            click.echo(f"Note on {sum_}: {words(key)}", err=True)
    pages = len(built.sheets)
    card = sum(sheet.stock == "card" for sheet in built.sheets)
    click.echo(f"Wrote {' and '.join(str(path) for path in built.files)}.")
    click.echo(
        f"{pages} pages: {card} on card, {pages - card} on paper. "
        "Print at actual size; page 1 says how."
    )
