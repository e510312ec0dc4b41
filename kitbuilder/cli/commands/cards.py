"""``kitbuilder cards``: packs of cards without a kit."""

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import click

from kitbuilder.cli.grouped import Grouped
from kitbuilder.cli.options import (
    SUMS_SETTINGS,
    out_option,
    point_of,
    printed,
    printing_options,
    read_input,
    sum_words,
    sums_given,
    where_from,
)
from kitbuilder.cli.progress import progress
from kitbuilder.cli.told.report import report
from kitbuilder.cli.typed import Typed, card_options
from kitbuilder.cli.voice import tell
from kitbuilder.errors import NameTooWideError, RefusedError, Said, Where

if TYPE_CHECKING:
    from kitbuilder.kit.card_records import Pupil, Stage
    from kitbuilder.press.printing import Printing
    from kitbuilder.request.request import Request

_RECORD, _DECIMALS = "cards.json", "decimals"


@click.command(cls=Grouped, context_settings=SUMS_SETTINGS)
@click.argument("what", nargs=-1, metavar="[SUM]...")
@click.option("--sums", metavar="FILE", help="File with one sum a line; - is standard input.")
@click.option("--pupils", metavar="FILE", help="CSV table: name,sum[,stage]; - is standard input.")
@click.option("--each", is_flag=True, help="With --pupils: a file for each pupil too.")
@click.option("--money", metavar="CUR", help="Amounts, without stories: GBP, EUR, USD or MXN.")
@click.option("--no-headings", is_flag=True, help="Columns without H T O above them.")
@card_options
@printing_options("paper", "margin", "printer", "look", "words", "picture")
@out_option("cards")
def cards(
    what: tuple[str, ...],
    sums: str | None,
    pupils: str | None,
    each: bool,
    money: str | None,
    no_headings: bool,
    card: Typed,
    printing: "Printing",
    out: Path,
) -> None:
    """Print cards without a kit: for the sums given, or a pack for each pupil.

    Without sums it takes those of the ready-made first kit.
    """
    from kitbuilder.output.store.earlier import earlier
    from kitbuilder.output.store.folder import may_take
    from kitbuilder.request.file import first_wishes
    from kitbuilder.request.request import Request, card_wish, currency

    point = point_of(printing.get("words"))
    given = sums_given(sum_words(what), sums, point)
    if pupils is not None and given:
        raise RefusedError("option.sums-or", option="pupils")
    if each and pupils is None:
        raise RefusedError("pupil.each", option="each", needed="pupils")
    card["kinds"] = card["kinds"] or "tasks"
    wish = card_wish(**card, headings=not no_headings, each=each)
    usual = () if pupils else first_wishes(money=money is not None).sums
    paper, press = printed(printing)
    table, where = _table(pupils, wish.stage, point) if pupils else (), where_from(pupils or "")
    wanted = partial(
        Request,
        given or usual,
        paper,
        press=press,
        parts=("cards",),
        cards=wish,
        name="cards",
        each=each,
        money=currency(money),
    )
    try:
        requests = _requests(wanted, table, out)
    except RefusedError as error:
        raise error.in_table(where) from None
    for folder in requests:
        may_take(folder, ("cards.pdf", _RECORD))  # of two, none is written where one cannot be
    for folder, request in requests.items():
        _build(request, where, folder)
    if (older := out / _DECIMALS) not in requests and earlier(older, _RECORD).recorded:
        tell(Said("note.older", folder=older), err=True)


def _requests(
    wanted: "Callable[..., Request]", table: "tuple[Pupil, ...]", out: Path
) -> "dict[Path, Request]":
    """Return what is asked for, by its folder: whole numbers that are too large beside decimals
    stand in packs of their own."""
    try:
        return {out: wanted(pupils=table)}
    except RefusedError as error:
        if error.code != "decimals.pupils":
            raise
    from kitbuilder.request.pupils import of_kind

    whole, parts = of_kind(table, decimals=False), of_kind(table, decimals=True)
    return {out: wanted(pupils=whole), out / _DECIMALS: wanted(pupils=parts)}


def _build(request: "Request", where: Where, out: Path) -> None:
    """Build packs and tell of them; lines of the table, which is called ``where``, are named."""
    from kitbuilder.pipeline import build

    tasks = sorted((t for one in request.pupils for t in one.tasks), key=lambda task: task.line)
    asked = ((Said("note.row", where=where, line=t.line, sum=t.sum), t.sum) for t in tasks)
    try:
        report(build(request, out, progress), request, asked)
    except NameTooWideError as error:
        line = next(one.tasks[0].line for one in request.pupils if one.name == error.name)
        raise error.at(where, line) from None


def _table(pupils: str, stage: "Stage", point: str) -> "tuple[Pupil, ...]":
    """Return the pupils in the file named, or in standard input for ``-``."""
    from kitbuilder.request.pupils import LARGEST_TABLE
    from kitbuilder.request.pupils import pupils as read

    return read(read_input(pupils, LARGEST_TABLE), where_from(pupils), stage, point)
