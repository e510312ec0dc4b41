"""``kitbuilder kit``: a kit in a folder."""

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import click

from kitbuilder.cli.grouped import Grouped
from kitbuilder.cli.options import (
    SUMS_SETTINGS,
    WHOLE,
    out_option,
    point_of,
    print_options,
    printed,
    read_input,
    sum_words,
    sums_given,
    where_from,
)
from kitbuilder.cli.progress import progress
from kitbuilder.cli.told.report import report
from kitbuilder.cli.typed import (
    Typed,
    card_options,
    cutting_options,
    filled,
    gathered,
    mat_options,
    weeks_options,
    wished,
)
from kitbuilder.cli.voice import tell
from kitbuilder.errors import RefusedError, Said

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
@click.option(
    "--piles",
    metavar="ORDER",
    help="Also the whole pile, for a print shop: sheets (sheet by sheet) or sets (set by set).",
)
@gathered("asked", "sums", "plan", "mini", "within", "pieces", "money", "metre", "only", "piles")
@weeks_options(None)
@mat_options
@cutting_options
@card_options
@print_options
@out_option("kit")
def kit(
    what: tuple[str, ...],
    asked: Typed,
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

    typed = bool(what) or asked["sums"] is not None
    extra = None if asked["pieces"] is None else reading.read_pieces(asked["pieces"])
    wishes = _wishes(sum_words(what), asked, extra, point_of(printing.get("words")))
    said = wished(wishes)
    asked, practice, cutting = (filled(one, said) for one in (asked, practice, cutting))
    tasks = _tasks(practice, asked, wishes, typed=typed)
    many = asked["mini"] and typed and len(wishes.sums) > 1
    if many and all(sum_.places < 4 for sum_ in wishes.sums):  # else the request says what it holds
        raise RefusedError("mini.many-sums", option="mini", count=len(wishes.sums))
    paper, press = printed(printing, wishes.printing)
    parts = asked["only"] and reading.read_parts(map(str.strip, asked["only"].split(",")))
    request = reading.Request(
        sums=plan_sums(tasks) or wishes.sums,
        plan=tasks,
        mini=asked["mini"],
        paper=paper,
        within=wishes.within if asked["within"] is None else asked["within"],
        extra=extra or Pieces(),
        parts=parts or wishes.parts,
        mats=reading.mat_wish(**filled(mat, said)),
        cutting=reading.cut_wish(**cutting),
        estimate=reading.estimate_wish(said),
        piles=reading.piled(asked["piles"]),
        metre=asked["metre"],
        money=reading.currency(asked["money"]),
        press=press,
        cards=reading.card_wish(**filled(card, said)),
    )
    report(build(request, out, progress), request)
    if practice["start"] is not None and not any(task.when for task in request.plan):
        tell(Said("note.no-dates", option="start"), err=True)
    children, share = cutting["children"], cutting["share"]
    if share and share > children:
        note = Said("note.share", option="share", share=share, other="children", children=children)
        tell(note, err=True)


def _tasks(practice: Typed, asked: Typed, wishes: "Wishes", *, typed: bool) -> "tuple[Task, ...]":
    """Return the tasks of the weeks asked for, or of the plan file named, if one is.

    Sums that were ``typed`` open the weeks; a plan brings its own.
    """
    from kitbuilder.formats.plan_csv import LARGEST_PLAN, read_plan
    from kitbuilder.kit.course.plan_words import plan_sums
    from kitbuilder.request.weeks import plan_wish, planned

    if practice["weeks"] is None:
        usual = {"weeks": None, "days": 5, "start": None, "skip": None, "first": None}
        for option, value in practice.items():
            if value != usual[option]:
                named = "from" if option == "first" else option
                if asked["plan"] is not None:
                    raise RefusedError("plan.twice", option=named, other="plan")
                raise RefusedError("class.share-alone", option=named, needed="weeks")
        if asked["plan"] is None:
            return ()
        if typed:
            raise RefusedError("option.sums-or", option="plan")
        where = where_from(asked["plan"])
        try:
            return read_plan(read_input(asked["plan"], LARGEST_PLAN), where)
        except RefusedError as error:
            raise error.in_table(where) from None
    if asked["mini"]:
        raise RefusedError("mini.leave-out", option="weeks")
    if asked["plan"] is not None:
        raise RefusedError("plan.twice", option="weeks", other="plan")
    sums = wishes.sums if typed else ()
    tasks = planned(partial(plan_wish, **practice), sums)
    if asked["money"] is not None and not any(s.scale.decimals for s in plan_sums(tasks)):
        raise RefusedError("decimals.weeks", option="weeks")
    return tasks


def _wishes(what: tuple[str, ...], asked: Typed, extra: "Pieces | None", point: str) -> "Wishes":
    """Return the wishes of a request file, or the sums given, or the ready-made kit's.

    The ready-made kit's are amounts where money is wished for. Where nothing but ``extra``
    pieces is asked for, these pieces are the whole kit.
    """
    from kitbuilder.request.file import Wishes, first_wishes, read_wishes

    files = [word for word in what if word.lower().endswith(".toml")]
    if len(files) > 1:
        raise RefusedError("request.many-files", count=len(files))
    if files and (len(what) > 1 or asked["sums"] is not None):
        raise RefusedError("request.file-or-sums")
    if files:
        return read_wishes(Path(files[0]))
    given = sums_given(what, asked["sums"], point)
    if not given and asked["within"] is None:
        money = asked["money"] is not None
        return Wishes(parts=("pieces",)) if extra else first_wishes(money=money)
    return Wishes(sums=given)
