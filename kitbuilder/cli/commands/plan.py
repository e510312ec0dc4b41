"""``kitbuilder plan``: a practice plan as lines, or as a file of it."""

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from kitbuilder.cli.facts_listed import facts_listed
from kitbuilder.cli.options import WHOLE, new_file, words_option
from kitbuilder.cli.voice import tell
from kitbuilder.errors import RefusedError, Said

if TYPE_CHECKING:
    from datetime import date

    from kitbuilder.design.load import Words
    from kitbuilder.number.course.schedule import Plan, PlanWish

_KINDS = "two,ones,tens,both,across-zero"
_STAGES = "pieces, both, drawn or written"


@click.command()
@click.option("--start", metavar="DATE", help="The first day, such as 2027-01-11.")
@click.option("--weeks", type=WHOLE, default=4, show_default=True, help="Weeks of practice.")
@click.option("--days", type=WHOLE, default=5, show_default=True, help="Days a week.")
@click.option("--skip", metavar="KINDS", help=f"Kinds of sums done before: {_KINDS}.")
@click.option("--from", "first", metavar="STAGE", help=f"Where the first begins: {_STAGES}.")
@click.option(
    "--csv",
    "csv_",
    metavar="FILE",
    help="Write the plan into FILE for kit --plan; - is standard output.",
)
@click.option("--seed", type=WHOLE, default=1, show_default=True, help="Another seed, other sums.")
@words_option
def plan(csv_: str | None, seed: int, words: "Words", **asked: Any) -> None:  # noqa: ANN401
    """Plan some weeks of practice: which sums and small facts on which day.

    Each kind of sum begins with pieces alone, then pieces and pencil together, then drawing,
    then writing. A readiness check ends it, and three returns follow later in the year.
    kit --weeks N makes such a plan and everything for it at once.
    """
    from kitbuilder.cli.plan_lines import plan_lines
    from kitbuilder.number.course.schedule import plan as make

    if seed < 0:
        raise RefusedError("option.seed", option="seed", given=seed)
    made = make(plan_wish(**asked), seed)
    if csv_ is not None:
        _write(csv_, made)
    if csv_ != "-":
        click.echo("\n".join(plan_lines(made, words)))
    for note in left_out(made, words):
        tell(note, err=True)
    tell(Said("told.seed-plan", seed=seed), err=True)


def plan_wish(
    start: str | None, weeks: int, days: int, skip: str | None, first: str | None
) -> "PlanWish":
    """Return what was asked for, checked; each refusal names the option and what it may be."""
    from kitbuilder.number.course.outline import Span
    from kitbuilder.number.course.rungs import LADDER, RUNG_KEYS
    from kitbuilder.number.course.schedule import PlanWish
    from kitbuilder.number.course.stages import STAGES

    for option, value, most in (("weeks", weeks, 52), ("days", days, 7)):
        if not 1 <= value <= most:
            raise RefusedError("option.range", option=option, given=value, least=1, most=most)
    skipped = [name.strip() for name in skip.split(",")] if skip is not None else []
    for name in skipped:
        if name not in RUNG_KEYS:
            raise RefusedError("option.choice", option="skip", given=name, known=RUNG_KEYS)
    rungs = tuple(rung for rung in LADDER if rung.key not in skipped)
    if not rungs:
        raise RefusedError("plan.skips-all", option="skip")
    if first is not None and first not in STAGES:
        raise RefusedError("option.choice", option="from", given=first, known=STAGES)
    begin = next((stage for stage in STAGES if stage == first), STAGES[0])
    return PlanWish(Span(weeks, days, _start(start)), rungs, begin)


def _start(typed: str | None) -> "date | None":
    from kitbuilder.formats.plan_csv import read_date

    if typed is None:
        return None
    try:
        start = read_date(typed.strip())
        if 1900 <= start.year <= 2999:
            return start
    except ValueError:
        pass
    raise RefusedError("plan.start", option="start", given=typed)


def _write(where: str, made: "Plan") -> None:
    from kitbuilder.formats.plan_csv import plan_table
    from kitbuilder.output.folder import write_new

    text = plan_table(made.tasks)
    if where == "-":
        click.echo(text, nl=False)
        return
    path = new_file(Path(where), "csv")
    write_new(path, text.encode(), "csv")
    tell(Said("told.wrote-one", path=path), err=True)


def left_out(made: "Plan", words: "Words") -> Iterator[Said]:
    """Yield what the plan had no room for."""
    from kitbuilder.kit.plan_page import rung_said

    if made.rungs_left:
        kinds = "; ".join(rung_said(rung, words) for rung in made.rungs_left)
        yield Said("note.kinds-left", kinds=kinds)
    if made.facts_left:
        yield Said("note.facts-left", facts=facts_listed(made.facts_left))
