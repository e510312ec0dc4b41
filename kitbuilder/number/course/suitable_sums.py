"""Sums that suit a kind, a stage and the pieces at hand, drawn at random."""

from collections.abc import Callable
from functools import lru_cache
from itertools import product
from math import prod
from operator import le
from random import Random

from kitbuilder.number.choice.fives import short_by_five
from kitbuilder.number.choice.patterns import BY_MASKS, Pattern, pattern
from kitbuilder.number.course.rungs import Rung
from kitbuilder.number.course.stages import Stage
from kitbuilder.number.exchange import work
from kitbuilder.number.stock import stock
from kitbuilder.number.sums import PLACES, Pieces, Sum

LEAST_REST = 10
"""A rest that is a number of pieces to look at, not a small fact."""

TRIES, MOST_LOOKED_AT = 300, 100_000
"""Draws before every sum there is gets looked at, and the most that are looked at so.

Of four places there may be a million: one that twenty times as many draws do not meet is taken for
none, so that another is wanted.
"""

Wanted = Callable[[Sum], bool]


class NoSumError(Exception):
    """No sum of the kind suits the stage, the pieces, and what else was wanted."""


def suits(sum_: Sum, rung: Rung, stage: Stage, pieces: Pieces) -> bool:
    """Say whether ``sum_`` may be asked as one of ``rung`` at ``stage`` with these ``pieces``.

    It exchanges, no column is short by exactly 5 as written or worked, and the rest is 10 or
    more. Until it is written there is no 0 in whole, part or rest, but for the zero that is gone
    across.
    """
    shape = pattern(sum_)
    if (sum_.places, shape.name) != (rung.places, rung.pattern):
        return False
    if short_by_five(sum_.whole, sum_.part) or sum_.rest < LEAST_REST:
        return False
    if stage == "written":
        return covers(pieces, sum_)
    held = str(sum_.whole)
    if rung.places == len(PLACES):
        held = "".join(d for k, d in enumerate(reversed(held)) if k not in shape.crossed)
    elif rung.pattern == "across-zero":
        held = held[:-2] + held[-1]
    return "0" not in f"{held}{sum_.part}{sum_.rest}" and covers(pieces, sum_)


def covers(pieces: Pieces, sum_: Sum) -> bool:
    """Say whether ``pieces`` are enough for ``sum_``, whichever column comes first."""
    return all(map(le, stock((sum_,)).counts, pieces.counts))


def draw(rung: Rung, stage: Stage, pieces: Pieces, random: Random, wanted: Wanted) -> Sum:
    """Return a sum that suits and is ``wanted``. Raises ``NoSumError`` if there is none."""
    ways = _columns(rung, pieces)
    if not all(ways):
        raise NoSumError
    many = prod(map(len, ways)) > MOST_LOOKED_AT
    for _ in range(20 * TRIES if many else TRIES):
        found = _sum([random.choice(way) for way in ways])
        if found and suits(found, rung, stage, pieces) and wanted(found):
            return found
    every = [] if many else [one for one in suiting(rung, stage, pieces) if wanted(one)]
    if not every:
        raise NoSumError
    return random.choice(every)


@lru_cache(maxsize=4)  # days ask the same; tens of thousands may suit
def suiting(rung: Rung, stage: Stage, pieces: Pieces) -> tuple[Sum, ...]:
    """Return every sum of ``rung`` that suits ``stage`` and ``pieces``."""
    every = (_sum(digits) for digits in product(*_columns(rung, pieces)))
    return tuple(found for found in every if found and suits(found, rung, stage, pieces))


def _sum(digits: tuple[tuple[int, int], ...] | list[tuple[int, int]]) -> Sum | None:
    whole = sum(top * 10**k for k, (top, _) in enumerate(digits))
    part = sum(bottom * 10**k for k, (_, bottom) in enumerate(digits))
    return Sum(whole, part) if part <= whole else None


def _shape(rung: Rung) -> Pattern:
    """Return the exchanges of the sums drawn for ``rung``: of thousands, most columns run short."""
    shapes = [
        p for p in BY_MASKS.values() if p.name == rung.pattern and max(p.receives) < rung.places - 1
    ]
    if rung.places < len(PLACES):
        return shapes[0]
    return max(shapes, key=lambda p: (p.exchanges, -len(p.crossed)))


@lru_cache(1024)
def _columns(rung: Rung, pieces: Pieces) -> tuple[tuple[tuple[int, int], ...], ...]:
    """Return for each column, ones first, the digits above and below that may stand there."""
    shape = _shape(rung)
    receives = shape.receives
    found = []
    for place in range(rung.places):
        lent = int(place > 0 and place - 1 in receives)
        lends = int(place in receives)
        most = pieces.counts[place] - 10 * lends
        least = int(place == rung.places - 1)
        found.append(
            tuple(
                (top, bottom)
                for top in range(least, min(9, most) + 1)
                for bottom in range(10)
                if work(top, bottom, lent)[1] == lends and bottom - top != 5
                if not (top and place in shape.crossed and rung.places == len(PLACES))
            )
        )
    return tuple(found)
