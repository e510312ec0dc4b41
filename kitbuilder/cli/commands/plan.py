"""Turns the words after ``kitbuilder plan`` into a practice plan: a table, or a file of it."""

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from kitbuilder.cli.facts_listed import facts_listed
from kitbuilder.cli.options import WHOLE, new_file
from kitbuilder.cli.plain import plain
from kitbuilder.counting import counted
from kitbuilder.errors import RefusedError

if TYPE_CHECKING:
    from datetime import date

    from kitbuilder.design.load import Words
    from kitbuilder.number.course.schedule import Plan, PlanWish

SEED = 1


@click.command()
@click.option("--start", metavar="DATE", help="The first day, such as 2027-01-11.")
@click.option("--weeks", type=WHOLE, default=4, show_default=True, help="Weeks of practice.")
@click.option("--days", type=WHOLE, default=5, show_default=True, help="Days a week.")
@click.option("--minutes", type=WHOLE, default=10, show_default=True, help="Minutes a day.")
@click.option("--places", type=WHOLE, default=3, show_default=True, help="Places: 2 or 3.")
@click.option("--pieces-minutes", default="5", show_default=True, help="For a sum with pieces.")
@click.option("--written-minutes", default="2", show_default=True, help="For a written sum.")
@click.option("--fact-seconds", default="10", show_default=True, help="For a small fact.")
@click.option(
    "--csv",
    "csv_",
    metavar="FILE",
    help="Write the plan into FILE for kit --plan; - is standard output.",
)
@click.option(
    "--seed", type=WHOLE, default=SEED, show_default=True, help="Another seed, other sums."
)
def plan(start: str | None, csv_: str | None, seed: int, **asked: Any) -> None:  # noqa: ANN401
    """Plan some weeks of practice: which sums and small facts on which day.

    Facts come back at growing gaps, kinds of sums go from easy to hard and are then mixed; a
    readiness check ends it, and three returns follow later in the year.
    """
    from kitbuilder.cli.plan_lines import plan_lines
    from kitbuilder.design import load as designs
    from kitbuilder.number.course.schedule import PlanTooSmallError
    from kitbuilder.number.course.schedule import plan as make

    if seed < 0:
        raise RefusedError(f"--seed was {seed}; give 0 or a larger whole number.")
    wish = _wish(start, **asked)
    try:
        made = make(wish, seed)
    except PlanTooSmallError as error:
        raise _too_small(error.name, error.least, wish) from None
    if csv_ is not None:
        _write(csv_, made)
    if csv_ != "-":
        click.echo("\n".join(plan_lines(made, designs.words())))
    for line in _notes(made, designs.words()):
        click.echo(line, err=True)
    click.echo(f"Seed {seed}: the same seed gives the same plan.", err=True)


def _wish(
    start: str | None,
    weeks: int,
    days: int,
    minutes: int,
    places: int,
    pieces_minutes: str,
    written_minutes: str,
    fact_seconds: str,
) -> "PlanWish":
    """Return what was asked for, checked; each refusal names the option and what it may be."""
    from kitbuilder.number.course.schedule import Pace, PlanWish

    for option, value, least, most in (
        ("--weeks", weeks, 1, 52),
        ("--days", days, 1, 7),
        ("--minutes", minutes, 1, 120),
        ("--places", places, 2, 3),
    ):
        if not least <= value <= most:
            raise RefusedError(f"{option} was {value}; give {least} to {most}.")
    pace = Pace(
        pieces=_seconds("--pieces-minutes", pieces_minutes, 60, 60, 1800),
        written=_seconds("--written-minutes", written_minutes, 60, 30, 1800),
        fact=_seconds("--fact-seconds", fact_seconds, 1, 3, 60),
    )
    return PlanWish(weeks, days, minutes, _start(start), places, pace)


def _seconds(option: str, typed: str, unit: int, least: int, most: int) -> int:
    """Return ``typed`` times ``unit`` seconds, refusing what is not from ``least`` to ``most``."""
    try:
        seconds = float(typed.replace(",", ".")) * unit
        if least <= seconds <= most:
            return round(seconds)
    except ValueError:
        pass
    raise RefusedError(
        f"{option} was {typed[:40]!r}; give {least / unit:g} to {most / unit:g}."
    ) from None


def _start(typed: str | None) -> "date":
    from kitbuilder.formats.plan_csv import read_date

    if typed is None:
        raise RefusedError("Say on which day the plan begins, such as --start 2027-01-11.")
    try:
        start = read_date(typed.strip())
        if 1900 <= start.year <= 2999:
            return start
    except ValueError:
        pass
    raise RefusedError(
        f"--start was {typed[:40]!r}; give a date from 1900 to 2999 as year-month-day, "
        "such as 2027-01-11."
    )


def _too_small(name: str, least: int, wish: "PlanWish") -> RefusedError:
    if name == "minutes":
        return RefusedError(
            f"--minutes was {wish.minutes}, but a day must hold one sum and a few small facts at "
            f"this pace; give {least} or more, or a quicker pace."
        )
    minutes = counted(wish.minutes, "minute")
    return RefusedError(
        f"--weeks {wish.weeks} and --days {wish.days} of {minutes} each are too few for "
        f"practice and the readiness check after it; give {least} days or more in all, "
        "or more minutes a day."
    )


def _write(where: str, made: "Plan") -> None:
    from kitbuilder.formats.plan_csv import COLUMNS, plan_table
    from kitbuilder.output.folder import write

    text = plan_table(made.tasks)
    if where == "-":
        click.echo(text, nl=False)
        return
    path = new_file(Path(where), "--csv", ",".join(COLUMNS).encode())
    write(path.parent, [(path.name, text.encode())], advice="choose another with --csv")
    click.echo(plain(f"Wrote {path}."), err=True)


def _notes(made: "Plan", words: "Words") -> Iterator[str]:
    """Yield what the plan had no room for."""
    if made.rungs_left:
        kinds = "; ".join(
            words("plan.kind", places=rung.places, pattern=words(f"patterns.{rung.pattern}"))
            for rung in made.rungs_left
        )
        yield f"Too few days for these kinds of sums: {kinds}. Give more weeks or days."
    if made.facts_left:
        yield (
            f"Too little time for these small facts: {facts_listed(made.facts_left)}. "
            "Give more minutes, weeks or days."
        )
    if made.not_back:
        yield (
            "Too little time for these small facts to come back later in the year: "
            f"{facts_listed(made.not_back)}. Give more minutes a day."
        )
