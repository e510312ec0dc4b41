"""The course without its sums: which kind at which stage on which day."""

from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from itertools import accumulate, cycle, islice
from typing import Literal

from kitbuilder.frozen import frozen
from kitbuilder.number.course.rungs import Rung, before, up_to
from kitbuilder.number.course.stages import TEMPLATES, Stage, Template, template_from

Phase = Literal["practice", "check", "return"]

CHECK_SUMS = 10
MIXED_SUMS = 3
RETURNS = ((1, 10), (6, 5), (26, 5))
"""Weeks after the check, and how many sums are written then.

Meeting an idea again after weeks to months: IES 2007, practice guide NCER 2007-2004 (read);
these gaps are this project's own.
"""


@frozen
class Slot:
    """One sum to come: of which kind and at which stage."""

    rung: Rung
    stage: Stage


@frozen
class Day:
    """One day: its date if there is one, its week, which day of the week's it is, its sums."""

    when: date | None
    week: int
    day: int
    phase: Phase
    slots: tuple[Slot, ...]


@frozen
class Span:
    """How long a course runs: ``weeks`` of ``days`` days, from ``start`` if that is known."""

    weeks: int = 4
    days: int = 5
    start: date | None = None

    def __post_init__(self) -> None:
        for name, most in (("weeks", 52), ("days", 7)):
            if not 1 <= getattr(self, name) <= most:
                raise ValueError(f"Span.{name} is {getattr(self, name)}; it must be 1 to {most}")


@frozen
class CourseOutline:
    """The days in order, and the kinds of sums that there was no time to finish."""

    days: tuple[Day, ...]
    unfinished: tuple[Rung, ...]


def outline(span: Span, rungs: Sequence[Rung], first: Stage = "pieces") -> CourseOutline:
    """Return the course that teaches ``rungs``, the first of them begun at stage ``first``.

    Each kind goes through the stages in order; after the first one a written sum of an earlier
    kind comes with it every day. Where days are left, they mix all kinds, and the last is the
    readiness check with three returns later in the year.
    """
    course = [day for rung in rungs for day in _days_of(rung, rungs[0], first)]
    ends = list(accumulate(len(_template(rung, rungs[0], first)) for rung in rungs))
    total = span.weeks * span.days
    checked = len(course) < total
    practice = course[: total - checked]
    finished = [rung for rung, end in zip(rungs, ends, strict=True) if end <= len(practice)]
    if not checked and len(practice) - 1 in ends:
        practice.pop()  # no use in beginning a kind on the last day of all
    met = up_to(finished[-1] if finished else rungs[0])
    mixed = cycle(Slot(rung, "written") for rung in reversed(met))
    while len(practice) < total - checked:
        practice.append(tuple(islice(mixed, MIXED_SUMS)))
    days = [*practice, _even(met, CHECK_SUMS)] if checked else practice
    placed = list(_placed(days, span, checked=checked))
    if checked:
        placed += _later(placed[-1], met)
    return CourseOutline(tuple(placed), tuple(rung for rung in rungs if rung not in finished))


def _template(rung: Rung, opening: Rung, first: Stage) -> Template:
    return template_from(first) if rung == opening else TEMPLATES[rung.days]


def _days_of(rung: Rung, opening: Rung, first: Stage) -> Iterator[tuple[Slot, ...]]:
    """Yield the sums of each day of a kind: new ones, then one written of an earlier kind."""
    template = _template(rung, opening, first)
    earlier = before(rung)
    for number, stages in enumerate(template):
        slots = tuple(Slot(rung, stage) for stage in stages)
        if rung != opening:
            again = earlier[(number - 1) % len(earlier)]
            if number == 4:  # a fifth day ends the ladder, or the longest climb
                again = rung
            slots += (Slot(again, "written"),)
        yield slots


def _even(rungs: Sequence[Rung], count: int) -> tuple[Slot, ...]:
    """Return ``count`` written sums, as many of each kind as can be, the kinds in turn."""
    return tuple(islice(cycle(Slot(rung, "written") for rung in rungs), count))


def _placed(days: Sequence[tuple[Slot, ...]], span: Span, *, checked: bool) -> Iterator[Day]:
    offsets = day_offsets(span)
    for number, slots in enumerate(days):
        week, day = divmod(number, span.days)
        when = span.start and span.start + timedelta(days=7 * week + offsets[day])
        last = checked and number == len(days) - 1
        yield Day(when, week + 1, day + 1, "check" if last else "practice", slots)


def _later(check: Day, met: Sequence[Rung]) -> Iterator[Day]:
    for weeks, count in RETURNS:
        when = check.when and check.when + timedelta(weeks=weeks)
        yield Day(when, check.week + weeks, 1, "return", _even(met, count))


def day_offsets(span: Span) -> tuple[int, ...]:
    """Return the days of a week from its first: spread out, off at weekends if they can be."""
    weekday = span.start.weekday() if span.start else 0
    weekend = span.days > 5 or weekday > 4
    open_days = [k for k in range(7) if weekend or (weekday + k) % 7 < 5]
    return tuple(open_days[-(-k * len(open_days) // span.days)] for k in range(span.days))
