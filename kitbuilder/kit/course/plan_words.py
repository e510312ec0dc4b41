"""What a practice plan is called in words: its days, stages, kinds of sums and small facts."""

from collections.abc import Sequence
from datetime import date

from kitbuilder.design.load import Words
from kitbuilder.number import Sum
from kitbuilder.number.choice.patterns import pattern
from kitbuilder.number.course.rungs import Rung
from kitbuilder.number.course.schedule import Kind, Task
from kitbuilder.number.course.stages import STAGES, Stage
from kitbuilder.number.facts import Fact

HALF_A_YEAR = 26
"""Weeks."""


def plan_sums(plan: Sequence[Task]) -> tuple[Sum, ...]:
    """Return the sums of ``plan``, each once, in order."""
    return tuple(dict.fromkeys(task.item for task in plan if isinstance(task.item, Sum)))


def stage_of(task: Task) -> Stage:
    """Return the stage of a sum in a plan."""
    return next(stage for stage in STAGES if stage == task.kind)


def kind_name(kind: Kind, words: Words) -> str:
    """Return what a plan calls small facts, or sums at a stage."""
    return words("plan.fact" if kind == "fact" else f"stages.{kind}")


def day_said(task: Task, words: Words) -> str:
    """Return the day of ``task`` as words: weekday and date, or which of the week's it is.

    One that comes later in the year may be any day of its week.
    """
    if task.when is None:
        later = task.phase == "return"
        return words("plan.one_day") if later else words("plan.number", number=task.day)
    weekday = words.lines("plan.weekdays")[task.when.weekday()]
    return words("plan.day", weekday=weekday, date=date_said(task.when, words))


def later_said(weeks: int, words: Words) -> str:
    """Return how long after the readiness check a day comes that is ``weeks`` later."""
    if weeks == HALF_A_YEAR:
        return words("plan.half_year")
    return words.count("plan.later", weeks)


def date_said(when: date, words: Words) -> str:
    """Return a date as the language writes it."""
    month = words.lines("plan.months")[when.month - 1]
    return words("plan.date", day=when.day, month=month, year=when.year)


def item_said(item: Sum | Fact, words: Words) -> str:
    """Return a sum, or a small fact with its two steps through ten if it has them."""
    if isinstance(item, Fact) and item.crosses_ten:
        first, second = item.through_ten
        return words("plan.steps", fact=item, first=first, second=second)
    return str(item)


def kind_said(sum_: Sum, words: Words) -> str:
    """Return the kind of a sum: how many places it is written with and where it exchanges."""
    return _kind(sum_.short().places, pattern(sum_).name, words)


def rung_said(rung: Rung, words: Words) -> str:
    """Return a kind of sum of the ladder, as ``kind_said`` does."""
    return _kind(rung.places, rung.pattern, words)


def _kind(places: int, name: str, words: Words) -> str:
    return words("plan.kind", places=places, pattern=words(f"patterns.{name}"))
