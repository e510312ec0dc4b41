"""Turns weeks, days, minutes and a start date into a practice plan: what to do on which day."""

from dataclasses import dataclass
from datetime import date, timedelta
from itertools import accumulate
from random import Random
from typing import Literal

from kitbuilder.number.course.ladder import Ladder, Rung, rungs
from kitbuilder.number.course.spacing import RETURN_GAPS, FactDay, fact_days
from kitbuilder.number.facts import TEN_AND_CROSSING, Fact
from kitbuilder.number.sums import Sum

Phase = Literal["practice", "check", "return"]
Kind = Literal["fact", "pieces", "written"]

CHECK_SUMS = 10
CHECK_FACTS = 10
LEAST_FACTS = 6
"""The facts a day must have room for beside one sum with pieces."""


LEAST_NEW = 3
"""New facts a day, or more where all must be met in the first three fifths of the days."""


@dataclass(frozen=True, slots=True)
class Pace:
    """Seconds for a sum with pieces, a written sum, and a small fact."""

    pieces: int = 300
    written: int = 120
    fact: int = 10

    def __post_init__(self) -> None:
        for name, least, most in (
            ("pieces", 60, 1800),
            ("written", 30, 1800),
            ("fact", 3, 60),
        ):
            if not least <= getattr(self, name) <= most:
                raise ValueError(
                    f"Pace.{name} is {getattr(self, name)} s; it must be {least} to {most} s"
                )


@dataclass(frozen=True, slots=True)
class PlanWish:
    """What a plan is made from.

    ``days`` a week, ``minutes`` a day, ``start`` is the first day. ``places`` is the most that
    a whole has, 2 or 3.
    """

    weeks: int
    days: int
    minutes: int
    start: date
    places: int = 3
    pace: Pace = Pace()

    def __post_init__(self) -> None:
        for name, least, most in (
            ("weeks", 1, 52),
            ("days", 1, 7),
            ("minutes", 1, 120),
            ("places", 2, 3),
        ):
            if not least <= getattr(self, name) <= most:
                raise ValueError(
                    f"PlanWish.{name} is {getattr(self, name)}; it must be {least} to {most}"
                )


@dataclass(frozen=True, slots=True)
class Task:
    """One thing to do on a day: a sum (``pieces`` or ``written``) or a small fact.

    ``week`` counts from 1; returns later in the year fall in later weeks. ``day`` counts the
    days of practice in that week, from 1.
    """

    when: date
    week: int
    day: int
    phase: Phase
    kind: Kind
    item: Sum | Fact
    seconds: int

    def __post_init__(self) -> None:
        if (self.kind == "fact") != isinstance(self.item, Fact):
            raise ValueError(f"Task.item is {self.item}; a {self.kind} cannot be one")


@dataclass(frozen=True, slots=True)
class Plan:
    """The tasks in order of date, and what there was no time for.

    ``rungs_left`` are kinds of sums and ``facts_left`` facts never met; ``not_back`` are facts
    that no return later in the year brings back.
    """

    tasks: tuple[Task, ...]
    rungs_left: tuple[Rung, ...]
    facts_left: tuple[Fact, ...]
    not_back: tuple[Fact, ...] = ()


class PlanTooSmallError(Exception):
    """The time is too short; ``name`` (``minutes`` or ``days``, in all) must be ``least``."""

    def __init__(self, name: str, least: int) -> None:
        super().__init__(name, least)
        self.name = name
        self.least = least


@dataclass(frozen=True, slots=True)
class _Day:
    when: date
    week: int
    day: int
    phase: Phase


def plan(wish: PlanWish, seed: int) -> Plan:
    """Return the practice plan for ``wish``; the same seed gives the same plan.

    Every day starts with small facts (about a third of the day at most), which come back at
    growing gaps. Then kinds of sums are met from easy to hard, each first with pieces, then
    written; after that all kinds are mixed, with pieces every other day. The last days hold
    the readiness check: ten sums that tell mistakes apart, and ten facts. Three returns
    follow later in the year; they and the check are written. No sum comes twice within seven
    days.
    Sources: daily practice for some weeks, then again later, is common practice; ten minutes
    a day on facts at most, WWC 2009, practice guide NCEE 2009-4060; for the gaps see
    ``spacing``. Raises ``PlanTooSmallError``.
    """
    days = _days(wish)
    random = Random(seed)
    facts = fact_days(_room_for_facts(wish, days), TEN_AND_CROSSING, random)
    practice = sum(day.phase == "practice" for day in days)
    ladder = Ladder(rungs(wish.places), practice, random)
    shares = iter(_shares(CHECK_SUMS, _check_days(wish)))
    tasks: list[Task] = []
    for number, (day, those) in enumerate(zip(days, facts, strict=True)):
        for fact in those:
            tasks.append(_task(day, "fact", fact, wish.pace))
        if day.phase == "check":
            pieces, written = 0, next(shares)
        else:
            spare = wish.minutes * 60 - len(those) * wish.pace.fact
            hands = day.phase == "practice" and ladder.with_pieces(number)
            pieces, written = _room_for_sums(wish.pace, spare, hands)
        tell = day.phase == "check"
        chosen = ladder.sums(number, day.when, pieces + written, tell=tell)
        for at, sum_ in enumerate(chosen):
            tasks.append(_task(day, "pieces" if at < pieces else "written", sum_, wish.pace))
    met = {task.item for task in tasks}
    facts_left = tuple(fact for fact in TEN_AND_CROSSING if fact not in met)
    back = {task.item for task in tasks if task.phase == "return"}
    not_back = tuple(f for f in TEN_AND_CROSSING if f in met and f not in back)
    return Plan(tuple(tasks), ladder.left_out, facts_left, not_back)


def _days(wish: PlanWish) -> list[_Day]:
    """Return the days of practice, of the check, and of the returns, in order."""
    _refuse_short_days(wish)
    dates = [
        (wish.start + timedelta(days=7 * week + offset), week + 1, day + 1)
        for week in range(wish.weeks)
        for day, offset in enumerate(_offsets(wish))
    ]
    check = _check_days(wish)
    practice = len(dates) - check
    if practice < check:
        raise PlanTooSmallError("days", 2 * check)
    days = [
        _Day(*those, phase="practice" if number < practice else "check")
        for number, those in enumerate(dates)
    ]
    for gap in accumulate(RETURN_GAPS):
        weeks = gap.days // 7
        days.append(_Day(dates[-1][0] + gap, wish.weeks + weeks, 1, "return"))
    return days


def _offsets(wish: PlanWish) -> list[int]:
    """Return the days of a week from its first: spread out, and off at weekends if they can be."""
    weekend = wish.days > 5 or wish.start.weekday() > 4
    open_days = [k for k in range(7) if weekend or (wish.start.weekday() + k) % 7 < 5]
    return [open_days[-(-k * len(open_days) // wish.days)] for k in range(wish.days)]


def _refuse_short_days(wish: PlanWish) -> None:
    pace = wish.pace
    least = max(pace.pieces + LEAST_FACTS * pace.fact, pace.written + pace.fact)
    if wish.minutes * 60 < least:
        raise PlanTooSmallError("minutes", -(-least // 60))


def _check_days(wish: PlanWish) -> int:
    """Return on how few days, in even shares, the check fits."""
    each = wish.pace.written + wish.pace.fact
    return -(-CHECK_SUMS // min(CHECK_SUMS, wish.minutes * 60 // each))


def _shares(count: int, days: int) -> list[int]:
    return [count * (k + 1) // days - count * k // days for k in range(days)]


def _room_for_facts(wish: PlanWish, days: list[_Day]) -> list[FactDay]:
    seconds, pace = wish.minutes * 60, wish.pace
    most = min((seconds - pace.pieces) // pace.fact, max(LEAST_FACTS, seconds // 3 // pace.fact))
    practice = sum(day.phase == "practice" for day in days)
    new = max(LEAST_NEW, -(-len(TEN_AND_CROSSING) * 5 // (practice * 3)))
    back = (seconds - pace.written) // pace.fact  # a return brings what it must
    most = min(most, 3 * new)  # the load stays even: those not due yet wait a little longer
    shares = iter(_shares(CHECK_FACTS, _check_days(wish)))
    return [
        FactDay(day.when, next(shares), 0, check=True)
        if day.phase == "check"
        else FactDay(day.when, back, 0, back=True)
        if day.phase == "return"
        else FactDay(day.when, most, new)
        for day in days
    ]


def _room_for_sums(pace: Pace, spare: int, with_pieces: bool) -> tuple[int, int]:
    """Return how many sums with pieces and how many written ones fit into ``spare`` seconds."""
    pieces = max(1, spare // 2 // pace.pieces) if with_pieces else 0
    return pieces, (spare - pieces * pace.pieces) // pace.written


def _task(day: _Day, kind: Kind, item: Sum | Fact, pace: Pace) -> Task:
    return Task(day.when, day.week, day.day, day.phase, kind, item, getattr(pace, kind))
