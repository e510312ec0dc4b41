"""A practice plan: which sum and which small facts on which day."""

from collections.abc import Callable, Iterator
from contextlib import suppress
from dataclasses import replace
from datetime import date
from functools import partial
from random import Random
from typing import Literal

from kitbuilder.frozen import frozen
from kitbuilder.number.course.course_outline import Day, Phase, Slot, Span, outline
from kitbuilder.number.course.rungs import LADDER, Rung, rung_of
from kitbuilder.number.course.spacing import MOST_NEW, FactList, crossing
from kitbuilder.number.course.stages import Stage
from kitbuilder.number.course.suitable_sums import NoSumError, Wanted, covers, draw, suits
from kitbuilder.number.facts import TEN_AND_CROSSING, Fact, facts
from kitbuilder.number.stock import stock, stock_within
from kitbuilder.number.sums import LARGEST, Pieces, Sum

Kind = Literal["fact", "pieces", "both", "drawn", "written"]

SEED = 1

VARIED = 3
"""Ones added to those that a family's own sums need; more tens would need a larger mat (tried)."""

APART = 2
"""Sums before one that have other facts, so that no digit of an answer is written from habit."""

LOOKS = 20
"""Sums looked at for one of a whole that is new."""

FOUR_WEEKS = Span()

LESSONS = (Sum(43, 17), Sum(254, 38), Sum(431, 257), Sum(305, 148))
"""The sums of the ready-made lessons: they open their kinds where the pieces allow it."""

THOUSANDS_LESSONS = (Sum(4231, 1864), Sum(1211, 345), Sum(1000, 346))
"""Lessons with thousands, the first below a limit to be taken: each opens a thousand."""

READY_PIECES = stock(LESSONS)
"""4 hundreds, 13 tens and 15 ones."""

READY_WEEK = (
    *(Sum(43, 17), Sum(52, 24), Sum(61, 34), Sum(54, 38), Sum(72, 39)),
    *(Sum(64, 27), Sum(85, 47), Sum(41, 12), Sum(53, 29), Sum(75, 28)),
)
"""The ready-made first week: two sums a day for five days, the lesson's first."""


@frozen
class PlanWish:
    """What a plan is made from.

    ``rungs`` are the kinds of sums to learn, easy to hard, the first begun at the stage
    ``first``; ``pieces`` are those at hand; ``lessons`` open their
    kinds, and where there are more of a kind they follow. Those of ``own`` come before all others,
    of whatever kind; the sums after them differ in their wholes.
    """

    span: Span = FOUR_WEEKS
    rungs: tuple[Rung, ...] = LADDER
    first: Stage = "pieces"
    pieces: Pieces = READY_PIECES
    lessons: tuple[Sum, ...] = LESSONS
    own: tuple[Sum, ...] = ()

    def __post_init__(self) -> None:
        taught = tuple(r for r in LADDER if r in self.rungs)
        if (
            not self.rungs
            or taught != self.rungs[: len(taught)]
            or len(self.rungs) > len(taught) + 1
        ):
            raise ValueError(f"PlanWish.rungs is {self.rungs}; name kinds once, easy to hard")


@frozen
class Task:
    """One thing to do on a day: a sum at a stage, or a small fact.

    ``when`` is None where the plan begins on no date. ``week`` counts from 1; returns later in
    the year fall in later weeks. ``day`` counts the days of practice in that week, from 1.
    """

    when: date | None
    week: int
    day: int
    phase: Phase
    kind: Kind
    item: Sum | Fact

    def __post_init__(self) -> None:
        if (self.kind == "fact") != isinstance(self.item, Fact):
            raise ValueError(f"Task.item is {self.item}; a {self.kind} cannot be one")


@frozen
class Plan:
    """The tasks in order, the kinds of sums not finished, and the facts never met."""

    tasks: tuple[Task, ...]
    rungs_left: tuple[Rung, ...]
    facts_left: tuple[Fact, ...]


def plan(wish: PlanWish, seed: int = SEED) -> Plan:
    """Return the practice plan for ``wish``; the same seed gives the same plan.

    The facts that cross ten in a day's sums with a pencil are listed by that day. No rest comes
    twice in a week. Where the pieces do not give the sums of a kind, as many more as that takes
    are reckoned with. Raises ``NoSumError`` where ten more of each do not.
    """
    drawn = outline(wish.span, wish.rungs, wish.first)
    places = max(rung.places for rung in wish.rungs)
    for more in range(10):
        enough = replace(wish, pieces=wish.pieces + Pieces.by_place((more,) * places))
        filler = _Filler(enough, Random(seed), _ready(enough, seed))
        with suppress(NoSumError):
            days = enumerate(drawn.days)
            tasks = tuple(task for number, day in days for task in filler.day(number, day))
            met = {task.item for task in tasks}
            left = tuple(fact for fact in TEN_AND_CROSSING if fact not in met)
            return Plan(tasks, drawn.unfinished, left)
    raise NoSumError


def week(lesson: Sum, pieces: Pieces, own: tuple[Sum, ...] = ()) -> Plan:
    """Return the first week with ``lesson``'s kind of sum, whose first sum it is.

    ``own`` come first instead, where they are given. Raises ``NoSumError`` where the ladder has no
    such kind of sum.
    """
    rung = rung_of(lesson)
    if rung is None:
        raise NoSumError
    return plan(PlanWish(Span(1), (rung,), pieces=pieces, lessons=(lesson,), own=own))


def varied(pieces: Pieces) -> Pieces:
    """Return ``pieces`` with a few more ones, so that other digits come too."""
    full = stock_within(LARGEST + 1)
    more = pieces + Pieces(ones=VARIED)
    return pieces.most(Pieces(*map(min, more.counts, full.counts)))


def _ready(wish: PlanWish, seed: int) -> tuple[Sum, ...]:
    """Return the sums of the ready-made first week where the plan begins with its lesson."""
    of_kind = {lesson for lesson in wish.lessons if rung_of(lesson) == wish.rungs[0]}
    opens = READY_WEEK[0] in of_kind <= {*READY_WEEK} and wish.own in ((), READY_WEEK[:1])
    enough = wish.pieces.most(stock(READY_WEEK)) == wish.pieces
    return READY_WEEK if opens and enough and (seed, wish.first) == (SEED, "pieces") else ()


def _opening(wish: PlanWish) -> tuple[Sum, ...]:
    """Return the lesson that opens the course though none like it is drawn: with a 0, or a small
    rest. The child has just worked it.
    """
    rung = wish.rungs[0]
    lesson = next((lesson for lesson in wish.lessons if rung_of(lesson) == rung), None)
    if lesson is None or not covers(wish.pieces, lesson):
        return ()
    return () if suits(lesson, rung, wish.first, wish.pieces) else (lesson,)


def _short_fact(sum_: Sum) -> Fact:
    """Return the fact of the first column that is short."""
    return next(fact for fact in facts(sum_) if fact in TEN_AND_CROSSING)


class _Filler:
    """Gives each day of an outline its sums and small facts."""

    def __init__(self, wish: PlanWish, random: Random, ready: tuple[Sum, ...]) -> None:
        self._pieces = wish.pieces
        self._random = random
        self._again = Random(0)  # one sum drawn again leaves those after it as they are
        self._ready = list(ready)
        self._lessons = list(dict.fromkeys(wish.lessons))
        self._varied = bool(wish.own)
        self._own = list(dict.fromkeys(wish.own or _opening(wish)))
        self._facts = FactList()
        self._used: set[Sum] = set()
        self._short: list[Fact] = []
        self._week = 0
        self._rests: set[int] = set()

    def day(self, number: int, day: Day) -> Iterator[Task]:
        """Yield the tasks of ``day``: its small facts, then its sums."""
        if day.week != self._week:
            self._week, self._rests = day.week, set()
        needed: set[Fact] = set()
        sums: list[tuple[Slot, Sum]] = []
        room = MOST_NEW if day.phase != "return" else 0
        for slot in day.slots:
            found = self._sum(slot, needed, room)
            sums.append((slot, found))
            if slot.stage != "pieces":
                needed |= crossing(found)
        for fact in self._facts.day(number, needed, fresh=day.phase != "return"):
            yield Task(day.when, day.week, day.day, day.phase, "fact", fact)
        for slot, sum_ in sums:
            yield Task(day.when, day.week, day.day, day.phase, slot.stage, sum_)

    def _sum(self, slot: Slot, needed: set[Fact], room: int) -> Sum:
        """Return the next sum for ``slot``; ``needed`` are the facts of the day's others."""
        found = self._given(slot) or self._drawn(slot, needed, room)
        self._used.add(found)
        self._short.append(_short_fact(found))
        self._rests.add(found.rest)
        return found

    def _drawn(self, slot: Slot, needed: set[Fact], room: int) -> Sum:
        """Return a sum that is new and brings at most ``room`` new facts with the day's others.

        Where there is none, sums come back; a course that begins with writing may also need
        more new facts on its first day than that has room for.
        """

        def wanted(room: int, sum_: Sum) -> bool:
            facts = needed if slot.stage == "pieces" else needed | crossing(sum_)
            known = len(self._facts.unmet(facts)) <= room
            return sum_ not in self._used and sum_.rest not in self._rests and known

        for most in (room, *range(room, 2 * MOST_NEW + 1)):
            with suppress(NoSumError):
                suited = partial(wanted, most)
                return self._unlike(slot, suited)
            self._used.clear()
        raise NoSumError

    def _unlike(self, slot: Slot, wanted: Wanted) -> Sum:
        """Return a sum that is ``wanted``, not with the fact of those before where there is one."""
        drawn = partial(draw, slot.rung, slot.stage, self._pieces)
        found = self._varying(partial(drawn, self._random), wanted)

        def other(apart: int, sum_: Sum) -> bool:
            return wanted(sum_) and _short_fact(sum_) not in self._short[-apart:]

        for apart in (APART, 1):
            if other(apart, found):
                break
            with suppress(NoSumError):
                return self._varying(partial(drawn, self._again), partial(other, apart))
        return found

    def _varying(self, drawn: Callable[[Wanted], Sum], wanted: Wanted) -> Sum:
        """Return what is ``drawn``: beside a family's own sums, one of a whole that is new."""
        found = drawn(wanted)
        wholes = {sum_.whole for sum_ in self._used}
        for _ in range(LOOKS if self._varied else 0):
            if found.whole not in wholes and found.part >= found.whole // 10:
                break
            found = drawn(wanted)
        return found

    def _given(self, slot: Slot) -> Sum | None:
        """Return the sum that is settled for ``slot``: ready-made, a family's own, or a lesson."""
        for settled in (self._ready, self._own):
            if settled:
                return settled.pop(0)
        for lesson in self._lessons:
            free = lesson not in self._used and lesson.rest not in self._rests
            if free and suits(lesson, slot.rung, slot.stage, self._pieces):
                self._lessons.remove(lesson)
                return lesson
        return None
