"""``kitbuilder kit``: a kit in a folder."""

from dataclasses import fields, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click
from click.core import ParameterSource

from kitbuilder.cli.grouped import Grouped
from kitbuilder.cli.options import (
    SUMS_SETTINGS,
    WHOLE,
    out_option,
    print_options,
    read_input,
    sum_words,
)
from kitbuilder.cli.progress import progress
from kitbuilder.cli.told.report import report
from kitbuilder.cli.typed import (
    CardTyped,
    MatTyped,
    SetTyped,
    WeeksTyped,
    card_options,
    mat_options,
    set_options,
    weeks_options,
)
from kitbuilder.errors import RefusedError

if TYPE_CHECKING:
    from kitbuilder.number.course.schedule import Task
    from kitbuilder.press.printing import Printing
    from kitbuilder.request.file import Wishes

Typed = TypeVar("Typed", MatTyped, SetTyped, CardTyped, WeeksTyped)

_PARTS = "pieces,mats,cards,week,guide,progress,evening,outline"


@click.command(cls=Grouped, context_settings=SUMS_SETTINGS)
@click.argument("what", nargs=-1, metavar="[SUM | REQUEST.toml]...")
@click.option("--sums", metavar="FILE", help="File with one sum a line; - is standard input.")
@click.option("--plan", metavar="FILE", help="Practice plan (CSV); see: kitbuilder plan.")
@click.option("--mini", is_flag=True, help="The least kit for one sum, on the fewest sheets.")
@click.option("--within", type=WHOLE, metavar="LIMIT", help="Pieces for any sum below LIMIT.")
@click.option("--only", metavar="PARTS", help=f"Only these: {_PARTS}.")
@weeks_options(None)
@mat_options
@set_options
@card_options
@print_options
@out_option("kit")
def kit(
    what: tuple[str, ...],
    sums: str | None,
    plan: str | None,
    mini: bool,
    within: int | None,
    only: str | None,
    practice: WeeksTyped,
    mat: MatTyped,
    of_set: SetTyped,
    card: CardTyped,
    printing: "Printing",
    out: Path,
) -> None:
    """Build a kit for the sums given, such as "634 - 258", and write it into a folder.

    Without sums it builds the ready-made first kit. A request file (TOML) holds the same
    wishes as the options; an option given here wins.
    """
    from kitbuilder.kit.course.plan_words import plan_sums
    from kitbuilder.pipeline import build
    from kitbuilder.request.request import Request, read_parts

    wishes = asked_for(sum_words(what), sums, within)
    said = wished(wishes)
    mat, of_set, card = over(mat, said), over(of_set, said), over(card, said)
    mini = mini or bool(said.get("mini"))
    practice = over(practice, said)
    tasks = _planned(practice, wishes, typed=bool(what) or sums is not None)
    tasks = tasks or _tasks(plan, what, sums)
    if plan is not None and practice.weeks is not None:
        raise RefusedError("plan.twice", option="weeks", other="plan")
    if mini and (what or sums is not None) and len(wishes.sums) > 1:
        raise RefusedError("mini.many-sums", option="mini", count=len(wishes.sums))
    how = printing.over(wishes.printing)
    request = Request(
        sums=plan_sums(tasks) if tasks else wishes.sums,
        plan=tasks,
        mini=mini,
        paper=how.fitted(),
        within=wishes.within if within is None else within,
        parts=wishes.parts if only is None else read_parts(n.strip() for n in only.split(",")),
        mats=mat.wish(),
        cutting=of_set.cutting(),
        estimate=of_set.estimate(),
        piles=of_set.piled(),
        press=how.press(),
        cards=card.wish(),
    )
    report(build(request, out, progress), request)


def wished(wishes: "Wishes") -> dict[str, Any]:
    """Return the request file's options that were not given on the command line."""
    source = click.get_current_context().get_parameter_source
    named = (("first" if name == "from" else name, value) for name, value in wishes.options)
    return {k: v for k, v in named if source(k) in (None, ParameterSource.DEFAULT)}


def over(typed: Typed, said: dict[str, Any]) -> Typed:
    """Return ``typed`` with what a request file ``said`` and nobody typed."""
    return replace(typed, **{f.name: said[f.name] for f in fields(typed) if f.name in said})


def _tasks(plan: str | None, what: tuple[str, ...], sums: str | None) -> "tuple[Task, ...]":
    """Return the tasks of the plan file named, if one is; it brings its own sums."""
    from kitbuilder.formats.plan_csv import LARGEST_PLAN, read_plan

    if plan is None:
        return ()
    if what or sums is not None:
        raise RefusedError("option.sums-or", option="plan")
    return read_plan(read_input(plan, LARGEST_PLAN))


def _planned(practice: WeeksTyped, wishes: "Wishes", *, typed: bool) -> "tuple[Task, ...]":
    """Return the tasks of the weeks asked for, if any are; sums that were typed open them."""
    from kitbuilder.number.course.schedule import plan

    if practice.weeks is None:
        for option in ("days", "start", "skip", "from"):
            if getattr(practice, "first" if option == "from" else option) != _usual(option):
                raise RefusedError("class.share-alone", option=option, needed="weeks")
        return ()
    return plan(practice.wish(wishes.sums if typed else ())).tasks


def _usual(option: str) -> object:
    return 5 if option == "days" else None


def asked_for(what: tuple[str, ...], sums: str | None, within: int | None) -> "Wishes":
    """Return the wishes of a request file, or the sums given, or the ready-made kit's."""
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
    return Wishes(sums=given) if given or within is not None else first_wishes()
