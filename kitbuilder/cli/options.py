"""Turns the options that several commands share into wishes."""

import sys
from collections.abc import Callable, Sequence
from functools import wraps
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar, cast

import click

from kitbuilder.counting import counted, minutes_said
from kitbuilder.errors import RefusedError
from kitbuilder.printing import Printing
from kitbuilder.textfile import LARGEST_FILE, LARGEST_NUMBER, decode, read_text

if TYPE_CHECKING:
    from kitbuilder.number import Sum
    from kitbuilder.road import Built
    from kitbuilder.sheet.estimate import Estimate
    from kitbuilder.sheet.plan import CutPlan

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
            number = int(str(value))
            if abs(number) < LARGEST_NUMBER:
                return number
            raise ValueError(value)
        except ValueError:
            option = param.opts[0] if param else "The number"
            raise RefusedError(
                f"{option} was {str(value)[:40]!r}; give a whole number, such as 12."
            ) from None


class Number(click.ParamType[float]):
    """A number; a decimal comma is understood."""

    name = "number"

    def convert(
        self, value: Any, param: click.Parameter | None, ctx: click.Context | None
    ) -> float:
        """Return the number typed; refuse anything else."""
        try:
            return float(str(value).replace(",", "."))
        except ValueError:
            option = param.opts[0] if param else "The number"
            raise RefusedError(
                f"{option} was {str(value)[:40]!r}; give a number, such as 0.5."
            ) from None


MM = Millimetres()
NUMBER = Number()
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


_FLAG: dict[str, Any] = {"is_flag": True, "default": None}
_PRINTING: dict[str, dict[str, Any]] = {
    "paper": {"metavar": "PAPER", "help": "Name, size as 215x330mm, or profile file."},
    "margin": {"type": MM, "metavar": "MM", "help": "Unprinted margin on all sides."},
    "unit": {"type": MM, "metavar": "MM", "help": "Width of a one, in millimetres."},
    "printer": {"metavar": "NAME", "help": "Printer measured with check-print."},
    "look": {"metavar": "LOOK", "help": "plain, spare, bold, outline, or a look file."},
    "words": {"metavar": "WORDS", "help": "Language of what is printed, or a words file."},
    "sturdy": {"metavar": "HOW", "help": "Stiffer pieces: fold (and glue), or backs."},
    "svg": {**_FLAG, "help": "Also each sheet as SVG for a cutter."},
    "kerf": {"type": MM, "metavar": "MM", "help": "Width that the cutting tool takes away."},
    "dxf": {**_FLAG, "help": "Also the lines of each sheet as DXF."},
    "png": {**_FLAG, "help": "Also a picture of each page."},
    "dpi": {"type": WHOLE, "metavar": "DOTS", "help": "Dots per inch of the pictures (150)."},
    "ink": {**_FLAG, "help": "Tell how much of each page is inked."},
}


def printing_options(*names: str) -> Callable[[Command], Command]:
    """Return what adds the named options of how to print; the command gets one ``printing``."""

    def add(command: Command) -> Command:
        @wraps(command)
        def with_printing(**given: Any) -> Any:
            said = {name: given.pop(name) for name in names}
            return command(printing=Printing(**said), **given)

        wrapped = cast(Command, with_printing)
        for name in reversed(names):
            wrapped = click.option(f"--{name}", **_PRINTING[name])(wrapped)
        return wrapped

    return add


print_options = printing_options(*_PRINTING)
"""Adds every option of how to print; the command gets them as one ``printing``."""


def mat_options(command: Command) -> Command:
    """Add the options that choose mats."""
    for option in (
        click.option("--headings", default="words", metavar="WAY", help="words, numbers, letters."),
        click.option("--mats", metavar="KINDS", help="Mats to print: subtract, add, exchange."),
        click.option("--mat", default="two", metavar="WAY", help="Zones: two, three or beside."),
    ):
        command = option(command)
    return command


def card_options(command: Command) -> Command:
    """Add the options that choose kinds, stage and backs of cards."""
    for option in (
        click.option("--facts", default="crossing-ten", metavar="PACK", help=FACTS_HELP),
        click.option("--backs", default="separate", metavar="WAY", help=BACKS_HELP),
        click.option("--stage", default="build", metavar="STAGE", help="build, both or written."),
        click.option("--kinds", metavar="KINDS", help=KINDS_HELP),
    ):
        command = option(command)
    return command


KINDS_HELP = "Kinds of cards: exchange,tasks,facts,arrows,digits,record."
BACKS_HELP = "Where answers go: separate, long-edge, short-edge or fold."
FACTS_HELP = "Small facts: crossing-ten (36) or ten-and-crossing (45)."


def out_option(default: str) -> Callable[[Command], Command]:
    """Add the option that names the folder to write into."""
    return click.option(
        "--out",
        type=click.Path(path_type=Path),
        default=default,
        show_default=True,
        help="Folder to write into; other files in it are left alone.",
    )


def new_file(path: Path, option: str) -> Path:
    """Return ``path``, named with ``option``; refuse what no file may take the place of."""
    if path.name in ("", "..") or (path.exists() and not path.is_file()):
        raise RefusedError(f"{option} was {str(path)[:200]!r}; give the name of a file to write.")
    return path


def read_input(source: str, largest: int = LARGEST_FILE) -> str:
    """Return the text of the file named ``source``, or of standard input for ``-``.

    It may have ``largest`` bytes.
    """
    if source != "-":
        return read_text(Path(source), largest)
    if sys.stdin is None:
        raise RefusedError("Standard input is closed; give the name of a file instead of -.")
    return decode(sys.stdin.buffer.read(largest + 1), "Standard input", largest)


NOTES = 5
"""Sums that are noted one by one before the rest are counted."""


def report(built: "Built", asked: Sequence[tuple[str, "Sum"]] = ()) -> None:
    """Say what was written and what to print, and why some sums teach little.

    Besides the kit's own sums those ``asked`` are noted, each under the name it comes with.
    """
    from kitbuilder import designs
    from kitbuilder.bind.cairo import lacking
    from kitbuilder.cli.mats import said, said_board
    from kitbuilder.cli.written import found_there, wrote
    from kitbuilder.kit.cards import note

    words = designs.words()
    sums = (*((str(sum_), sum_) for sum_ in built.kit.sums), *asked)
    noted = [(name, key) for name, sum_ in sums if (key := note(sum_))]
    for name, key in noted[:NOTES]:
        click.echo(f"Note on {name}: {words(key)}", err=True)
    if noted[NOTES:]:
        more = len(noted) - NOTES
        said_more = "1 more sum teaches" if more == 1 else f"{more} more sums teach"
        click.echo(f"{said_more} little in the same ways.", err=True)
    for plan in built.laid.mats.plans:
        click.echo(said(plan))
    sheets = built.laid.sheets
    if boards := sum(sheet.title == "exchange_board" for sheet in sheets):
        click.echo(said_board(boards))
    pages = len(sheets)
    card = sum(sheet.stock == "card" for sheet in sheets)
    for line in found_there(built.written):
        click.echo(line, err=True)
    click.echo(wrote(built.written.files))
    if all(path.suffix != ".pdf" for path in built.written.files):
        click.echo(f"No PDF and no picture was made. {lacking()}", err=True)
    for page, share in enumerate(built.inked, 1):
        click.echo(f"Page {page}: {share:.1f} % inked.")
    click.echo(
        f"{counted(pages, 'page')}: {card} on card, {pages - card} on paper. "
        "Print at actual size; page 1 says how."
    )
    for line in (*estimate_said(built.takes), *cutting_said(built.laid.cutting)):
        click.echo(line)


def estimate_said(takes: "Estimate") -> list[str]:
    """Return what printing and cutting everything takes, in plain lines."""
    said = [
        f"To print: {counted(takes.card, 'sheet')} of card, {takes.paper} of paper; "
        f"ink covers {takes.ink_mm2 / 100:.0f} cm² ({takes.ink_per_cent:.1f} %).",
    ]
    if takes.cuts:  # none where a machine cuts
        said.append(
            f"To cut: {counted(takes.cuts, 'straight cut')}, "
            f"{minutes_said(takes.minutes)} at {takes.wish.cuts_per_minute:g} a minute."
        )
    if takes.card_grams is not None:
        said.append(f"The card weighs {takes.card_grams:.0f} g at {takes.wish.grammage:g} g/m².")
    if takes.cost is not None:
        said.append(f"The sheets cost {takes.cost:.2f} at {takes.wish.per_sheet:g} each.")
    return said


def cutting_said(plan: "CutPlan | None") -> list[str]:
    """Return how many cuts the pieces take at least, and what to know of stacks."""
    if plan is None:
        return []
    said = [
        f"The pieces take {counted(plan.strokes, 'cut')}; fewer than {plan.stroke_bound} is "
        "impossible with these sheets."
    ]
    if plan.layers > 1:
        said.append(
            "In a stack only the top lines guide the cut, so sizes are as good as the "
            "printer places each sheet."
        )
    elif plan.kits > 1:
        said.append(
            "With a guillotine, --layers 3 cuts stacks of three at once, in far fewer "
            "cuts; in a stack only the top lines guide."
        )
    return said
