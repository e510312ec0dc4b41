"""``kitbuilder kit``: a kit in a folder."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from kitbuilder.cli.grouped import Grouped
from kitbuilder.cli.options import (
    SUMS_SETTINGS,
    WHOLE,
    out_option,
    print_options,
    printed,
    read_input,
    sum_words,
)
from kitbuilder.cli.progress import progress
from kitbuilder.cli.told.report import report
from kitbuilder.cli.typed import (
    Typed,
    card_options,
    cutting_options,
    filled,
    mat_options,
    weeks_options,
    wished,
)
from kitbuilder.errors import RefusedError

if TYPE_CHECKING:
    from kitbuilder.number import Pieces
    from kitbuilder.number.course.schedule import Task
    from kitbuilder.press.printing import Printing
    from kitbuilder.request.file import Wishes

_PARTS = "pieces,mats,cards,week,guide,progress,differently,evening,outline,demonstration"


@click.command(cls=Grouped, context_settings=SUMS_SETTINGS)
@click.argument("what", nargs=-1, metavar="[SUM | REQUEST.toml]...")
@click.option("--sums", metavar="FILE", help="File with one sum a line; - is standard input.")
@click.option("--plan", metavar="FILE", help="Practice plan (CSV); see: kitbuilder plan.")
@click.option("--mini", is_flag=True, help="The least kit for one sum, on the fewest sheets.")
@click.option("--within", type=WHOLE, metavar="LIMIT", help="Pieces for any sum below LIMIT.")
@click.option(
    "--pieces",
    metavar="[TH,]H,T,O",
    help="Hundreds, tens, ones on top; without a sum just these, as for lost ones: 0,2,10.",
)
@click.option("--money", metavar="CUR", help="Numbers are amounts: GBP, EUR, USD or MXN.")
@click.option("--metre", is_flag=True, help="Also a metre to glue, for tenths and hundredths.")
@click.option("--only", metavar="PARTS", help=f"Only these: {_PARTS}.")
@weeks_options(None)
@mat_options
@cutting_options
@click.option(
    "--piles",
    metavar="ORDER",
    help="Also the whole pile, for a print shop: sheets (sheet by sheet) or sets (set by set).",
)
@card_options
@print_options
@out_option("kit")
def kit(
    what: tuple[str, ...],
    sums: str | None,
    plan: str | None,
    mini: bool,
    within: int | None,
    pieces: str | None,
    money: str | None,
    metre: bool,
    only: str | None,
    piles: str | None,
    practice: Typed,
    mat: Typed,
    cutting: Typed,
    card: Typed,
    printing: "Printing",
    out: Path,
) -> None:
    """Build a kit for the sums given, such as "634 - 258", and write it into a folder.

    Without sums it builds the ready-made first kit. A request file (TOML) holds the same
    wishes as the options; an option given here wins.
    """
    from kitbuilder.kit.course.plan_words import plan_sums
    from kitbuilder.number import Pieces
    from kitbuilder.pipeline import build
    from kitbuilder.request import request as reading

    extra = None if pieces is None else reading.read_pieces(pieces)
    wishes = asked_for(sum_words(what), sums, within, extra, money=money is not None)
    said = wished(wishes)
    mini, piles = mini or bool(said.get("mini")), filled({"piles": piles}, said)["piles"]
    practice, money = filled(practice, said), filled({"money": money}, said)["money"]
    if practice["weeks"] is not None and mini:
        raise RefusedError("mini.leave-out", option="weeks")
    tasks = _planned(practice, wishes, typed=bool(what) or sums is not None)
    if tasks and money is not None and not any(sum_.scale.decimals for sum_ in plan_sums(tasks)):
        raise RefusedError("decimals.weeks", option="weeks")
    tasks = tasks or _tasks(plan, what, sums)
    if plan is not None and practice["weeks"] is not None:
        raise RefusedError("plan.twice", option="weeks", other="plan")
    if mini and (what or sums is not None) and len(wishes.sums) > 1:
        raise RefusedError("mini.many-sums", option="mini", count=len(wishes.sums))
    paper, press = printed(printing, wishes.printing)
    request = reading.Request(
        sums=plan_sums(tasks) if tasks else wishes.sums,
        plan=tasks,
        mini=mini,
        paper=paper,
        within=wishes.within if within is None else within,
        extra=extra or Pieces(),
        parts=wishes.parts if only is None else reading.read_parts(map(str.strip, only.split(","))),
        mats=reading.mat_wish(**filled(mat, said)),
        cutting=reading.cut_wish(**filled(cutting, said)),
        estimate=reading.estimate_wish(said),
        piles=reading.piled(piles),
        metre=metre or bool(said.get("metre")),
        money=reading.currency(money),
        press=press,
        cards=reading.card_wish(**filled(card, said)),
    )
    report(build(request, out, progress), request)


def _tasks(plan: str | None, what: tuple[str, ...], sums: str | None) -> "tuple[Task, ...]":
    """Return the tasks of the plan file named, if one is; it brings its own sums."""
    from kitbuilder.formats.plan_csv import LARGEST_PLAN, read_plan

    if plan is None:
        return ()
    if what or sums is not None:
        raise RefusedError("option.sums-or", option="plan")
    return read_plan(read_input(plan, LARGEST_PLAN))


def _planned(practice: Typed, wishes: "Wishes", *, typed: bool) -> "tuple[Task, ...]":
    """Return the tasks of the weeks asked for, if any are; sums that were typed open them."""
    from kitbuilder.request.weeks import plan_wish, planned

    if practice["weeks"] is None:
        usual = {"weeks": None, "days": 5, "start": None, "skip": None, "first": None}
        for option, value in practice.items():
            if value != usual[option]:
                named = "from" if option == "first" else option
                raise RefusedError("class.share-alone", option=named, needed="weeks")
        return ()
    sums = wishes.sums if typed else ()
    return planned(plan_wish(**practice, sums=sums), sums)


def asked_for(
    what: tuple[str, ...],
    sums: str | None,
    within: int | None,
    extra: "Pieces | None",
    *,
    money: bool = False,
) -> "Wishes":
    """Return the wishes of a request file, or the sums given, or the ready-made kit's.

    The ready-made kit's are amounts where it is ``money`` that is wished for. Where nothing but
    ``extra`` pieces is asked for, these pieces are the whole kit.
    """
    from kitbuilder.request.file import Wishes, first_wishes, read_wishes
    from kitbuilder.request.request import read_sum, read_sums

    files = [word for word in what if word.lower().endswith(".toml")]
    if len(files) > 1:
        raise RefusedError("request.many-files", count=len(files))
    if files and (len(what) > 1 or sums is not None):
        raise RefusedError("request.file-or-sums")
    if files:
        return read_wishes(Path(files[0]))
    given = tuple(read_sum(word) for word in what)
    if sums is not None:
        given += read_sums(read_input(sums))
    if not given and within is None:
        return Wishes(parts=("pieces",)) if extra else first_wishes(money=money)
    return Wishes(sums=given)
