"""How far a child is and what comes next: each kind of sum with those the pieces can do."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from random import Random

from kitbuilder.design.load import Words
from kitbuilder.kit import phrases
from kitbuilder.kit.course.course_records import Road, RoadRow
from kitbuilder.number import PLACES, Pieces, Sum
from kitbuilder.number.choice.fives import short_by_five
from kitbuilder.number.course.going_on import sums_before_going_on
from kitbuilder.number.course.rungs import LADDER, Rung, rung_of, up_to
from kitbuilder.number.course.schedule import LESSONS
from kitbuilder.number.course.suitable_sums import NoSumError, Wanted, draw, suits
from kitbuilder.number.scale import WHOLE, Scale
from kitbuilder.number.sums import in_tenths

EXAMPLES = 4
"""Further sums listed of each kind that the pieces can do, or more until each box has its own."""

TENS_LESSON = Sum(427, 163)
"""What stands for the kind of sum that has no ready-made lesson."""

TWINS = Sum(42, 17)
"""A sum short by exactly 5, where two mistakes give one answer."""


def road(sums: Sequence[Sum], done: Sequence[Sum], pieces: Pieces, words: Words) -> Road:
    """Return the page of every kind of sum, begun with one of ``sums`` where one is of its kind.

    Where thousands come first, theirs is the last row. Those of ``done`` are not listed
    again. ``pieces`` are at hand.
    """
    scale = next((sum_.scale for sum_ in (*sums, *done)), WHOLE)
    tenths = in_tenths((*sums, *done))
    sums, done = (tuple(s.counted(WHOLE) for s in every) for every in (sums, done))
    first = next((rung for s in (*done, *sums) if (rung := rung_of(s))), LADDER[0])
    last = first if first not in LADDER else LADDER[-1]
    rows = [_row(rung, first, sums, done, pieces) for rung in up_to(last)[-len(LADDER) :]]
    if tenths:
        of_tenths = _tenths_row(sums, done, pieces)
        rows = [of_tenths if row.kind == of_tenths.kind else row for row in rows]
    own = next((s for s in sums if short_by_five(s.whole, s.part)), None)
    twins = (own or TWINS.times(10 if tenths else 1)).counted(scale)
    fives = words("onward.fives_own" if own else "onward.fives", twins=twins)
    reach = (*reach_said(pieces, words), fives) if pieces.value else ()
    begins = "" if first.key == rows[0].kind else first.key
    return Road(tuple(_written(row, scale) for row in rows), reach, begins)


def without_lesson(page: Road, taught: Sequence[Sum], words: Words, *, weeks: bool) -> Road:
    """Return ``page`` with a word by each kind that comes after all those of ``taught``.

    It names the kit that teaches that kind: for such a sum, or where this one is of ``weeks``,
    for more of them.
    """
    kinds = [rung.key for s in taught if (rung := rung_of(s.counted(WHOLE)))]
    last = max((k for k, row in enumerate(page.rows) if row.kind in kinds), default=len(page.rows))
    code = "road.more_weeks" if weeks else "road.own_kit"
    rows = list(page.rows)
    for k, row in enumerate(rows):
        if k > last and (weeks or row.reached):
            rows[k] = replace(row, told=words(code, sum=row.opening))
    return replace(page, rows=tuple(rows))


def _written(row: RoadRow, scale: Scale) -> RoadRow:
    """Return ``row`` with its sums written on ``scale``."""
    opening = row.opening and row.opening.counted(scale)
    return replace(row, opening=opening, more=tuple(s.counted(scale) for s in row.more))


def _tenths_row(sums: Sequence[Sum], done: Sequence[Sum], pieces: Pieces) -> RoadRow:
    """Return the row of tenths alone: those of two places, counted by tens."""
    two = LADDER[0]
    sums, done = (tuple(s.per(10) for s in every) for every in (sums, done))
    row = _row(two, two, sums, done, pieces.moved)
    opening = row.opening and row.opening.times(10)
    return replace(row, kind="tens", opening=opening, more=tuple(s.times(10) for s in row.more))


def _row(
    rung: Rung, first: Rung, sums: Sequence[Sum], done: Sequence[Sum], pieces: Pieces
) -> RoadRow:
    opening = next((s for s in (*sums, *done[:1], *LESSONS) if rung_of(s) == rung), None)
    counts = sums_before_going_on(rung, first)
    reached = opening is not None and suits(opening, rung, "pieces", pieces)
    known = {s for s in (*done, *([opening] if reached else ())) if rung_of(s) == rung}
    wanted = max(EXAMPLES + (not reached), sum(counts.values()) - len(known))
    more: list[Sum] = []
    random = Random(1)
    while len(more) < wanted:
        try:
            more.append(draw(rung, "pieces", pieces, random, _besides((*more, *done, *sums))))
        except NoSumError:
            break
    if not reached and more:
        opening = more.pop(0)
    reached = reached or bool(more) or opening in sums
    opening = opening if reached else opening or TENS_LESSON
    return RoadRow(rung.key, opening, tuple(more), tuple(counts.values()), reached)


def _besides(known: Sequence[Sum]) -> Wanted:
    return lambda sum_: sum_ not in known


def reach_said(pieces: Pieces, words: Words) -> Iterator[str]:
    """Yield in plain words which sums ``pieces`` can do: all those, and no others."""
    plain = Pieces(*(min(9, count) for count in pieces.counts))
    yield words("onward.any", pieces=phrases.pieces(words, plain))
    larger = next((k for k in range(len(PLACES) - 1, 0, -1) if pieces.counts[k]), 0)
    for place in range(larger):
        most = pieces.counts[place] - 10
        if most < 0:
            yield words("onward.never", place=words(f"place.{PLACES[place]}"))
        elif most == 0:
            yield words("onward.none", place=words(f"place.{PLACES[place]}"))
        elif most < 9:
            count = phrases.count(words, place, most)
            yield words("onward.short", place=words(f"place.{PLACES[place]}"), count=count)
