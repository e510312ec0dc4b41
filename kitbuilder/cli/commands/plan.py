"""``kitbuilder plan``: a practice plan as lines, or as a file of it."""

from collections.abc import Iterator
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import click

from kitbuilder.cli.options import SUMS_SETTINGS, new_file, read_words, sum_words, words_option
from kitbuilder.cli.told.facts_listed import facts_listed
from kitbuilder.cli.typed import Typed, weeks_options
from kitbuilder.cli.voice import tell
from kitbuilder.errors import RefusedError, Said

if TYPE_CHECKING:
    from kitbuilder.design.load import Words
    from kitbuilder.number.course.schedule import Plan


@click.command(context_settings=SUMS_SETTINGS)
@click.argument("what", nargs=-1, metavar="[SUM]...")
@weeks_options(4)
@click.option(
    "--csv",
    "csv_",
    metavar="FILE",
    help="Write the plan into FILE for kit --plan; - is standard output.",
)
@words_option
def plan(what: tuple[str, ...], csv_: str | None, words: "Words", practice: Typed) -> None:
    """Plan some weeks of practice: which sums and small facts on which day.

    It begins with the kind of the SUMS given, such as "4002 - 1768" or "3 - 1.47".
    Each kind of sum begins with pieces alone, then pieces and pencil together, then drawing,
    then writing. A readiness check ends it, and three returns follow later in the year.
    kit --weeks N makes such a plan and everything for it at once.
    """
    from kitbuilder.cli.told.plan_lines import plan_lines
    from kitbuilder.number.course.schedule import plan as make
    from kitbuilder.request.weeks import plan_wish, planned

    sums = read_words(sum_words(what), words("number.point"))
    tasks = planned(partial(plan_wish, **practice), sums)
    made = replace(make(plan_wish(sums, **practice)), tasks=tasks)
    parts = next((sum_ for sum_ in sums if sum_.scale.decimals), None)
    if csv_ is not None and parts:
        raise RefusedError("plan.csv-decimals", sum=parts, option="csv", other="weeks")
    words = words.counting(parts.scale.decimals) if parts else words
    if csv_ is not None:
        _write(csv_, made)
    if csv_ != "-":
        click.echo("\n".join(plan_lines(made, words)))
    decimals = max((sum_.short().scale.decimals for sum_ in sums), default=0)
    for note in left_out(made, words.counting(decimals) if decimals else words):
        tell(note, err=True)


def _write(where: str, made: "Plan") -> None:
    from kitbuilder.formats.plan_csv import plan_table
    from kitbuilder.output.store.folder import write_new

    text = plan_table(made.tasks)
    if where == "-":
        click.echo(text, nl=False)
        return
    path = new_file(Path(where), "csv")
    write_new(path, text.encode(), "csv")
    tell(Said("told.wrote-one", path=path), err=True)


def left_out(made: "Plan", words: "Words") -> Iterator[Said]:
    """Yield what the plan had no room for."""
    from kitbuilder.kit.course.plan_words import rung_said

    if made.rungs_left:
        kinds = "; ".join(rung_said(rung, words) for rung in made.rungs_left)
        yield Said("note.kinds-left", kinds=kinds)
    if made.facts_left:
        yield Said("note.facts-left", facts=facts_listed(made.facts_left))
