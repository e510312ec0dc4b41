"""The mistaken habits of written columns: which digit each writes in a column.

A habit is a rule for one column, worked ones first. It is given the top and the bottom digit
(0 where the part has none), the pieces the columns before it still want from it, whether the
part has no digit here, and whether this is the leftmost column; it returns the digit written
and the pieces wanted from the next column. Everything a habit does not spoil is done right.

Published examples stand with each habit; the sources are
Brown & Burton 1978, Cognitive Science 2:155-192; Resnick 1982; VanLehn 1990, Mind Bugs.
"""

from collections.abc import Callable
from functools import cache, lru_cache

from kitbuilder.frozen import frozen
from kitbuilder.number.exchange import work
from kitbuilder.number.sums import PLACES

Column = Callable[[int, int, int, bool, bool], tuple[int, int]]


SPARED = -1
"""Pieces wanted for a zero that became 9: none, but a zero beside it becomes 9 too."""


def right(top: int, bottom: int, lent: int, empty: bool, last: bool) -> tuple[int, int]:
    """The written method done right."""
    held, lends = work(top, bottom, lent)
    return held - bottom, lends


def turned(top: int, bottom: int, lent: int, empty: bool, last: bool) -> tuple[int, int]:
    """Turned digits: 8 − 4 done where 4 − 8 stands. 63 − 29 = 46."""
    return abs(top - bottom), 0


def not_lowered(top: int, bottom: int, lent: int, empty: bool, last: bool) -> tuple[int, int]:
    """Ten added in a short column, the next one never lowered. 81 − 38 = 53.

    Working from left to right and forgetting to go back gives the same answer; only watching
    the child tells the two apart.
    """
    return (top - bottom) % 10, 0


def zero_becomes_ten(top: int, bottom: int, lent: int, empty: bool, last: bool) -> tuple[int, int]:
    """A zero that lends becomes 10 and is not lowered to 9. 702 − 368 = 344.

    Where nothing is taken from the ten, it counts as ten pieces of its place.
    """
    if lent and not top:
        return 10 - bottom, 1
    return right(top, bottom, lent, empty, last)


def zero_becomes_nine(top: int, bottom: int, lent: int, empty: bool, last: bool) -> tuple[int, int]:
    """A zero that lends becomes 9, and nothing further is taken. 103 − 45 = 158.

    All zeros in a row become 9: 3006 − 1807 = 2199 (VanLehn 1990, from memory). What the last
    of them wants is ``SPARED``.
    """
    if lent and not top:
        return 9 - bottom, SPARED
    return right(top, bottom, max(lent, 0), empty, last)


def zero_skipped(top: int, bottom: int, lent: int, empty: bool, last: bool) -> tuple[int, int]:
    """A zero that should lend is skipped; below it 0 − 7 is then answered 7. 304 − 75 = 279.

    A child who skips the zero and later exchanges once more for the zero's own column gives,
    in three places, the answer of ``from_leftmost``.
    """
    if lent and not top:
        return bottom, lent
    return right(top, bottom, lent, empty, last)


def zero_top_bottom(top: int, bottom: int, lent: int, empty: bool, last: bool) -> tuple[int, int]:
    """A zero on top is answered by the digit below it. 140 − 21 = 121.

    A zero that an exchange has crossed is no zero any more when it is worked.
    """
    if not top and not lent:
        return bottom, 0
    return right(top, bottom, lent, empty, last)


def zero_top_zero(top: int, bottom: int, lent: int, empty: bool, last: bool) -> tuple[int, int]:
    """A zero on top is answered 0. 140 − 21 = 120."""
    if not top and not lent:
        return 0, 0
    return right(top, bottom, lent, empty, last)


def empty_not_lowered(top: int, bottom: int, lent: int, empty: bool, last: bool) -> tuple[int, int]:
    """A column with nothing below is not lowered when it lends. 347 − 9 = 348."""
    if empty:
        return top, 0
    return right(top, bottom, lent, empty, last)


def from_leftmost(top: int, bottom: int, lent: int, empty: bool, last: bool) -> tuple[int, int]:
    """Every ten is taken from the leftmost column. 733 − 216 = 427."""
    if last:
        return top - lent - bottom, 0
    held, lends = work(top, bottom, 0)
    return held - bottom, lent + lends


def zero_when_short(top: int, bottom: int, lent: int, empty: bool, last: bool) -> tuple[int, int]:
    """0 is written wherever the bottom digit is bigger. 326 − 117 = 210."""
    return max(top - bottom, 0), 0


def added(top: int, bottom: int, lent: int, empty: bool, last: bool) -> tuple[int, int]:
    """The two numbers are added instead. 54 − 38 = 92."""
    total = top + bottom + lent
    return (total, 0) if last else (total % 10, total // 10)


def n_minus_zero(top: int, bottom: int, lent: int, empty: bool, last: bool) -> tuple[int, int]:
    """A printed 0 below is answered 0, as if it took all there is. 475 − 203 = 202."""
    held, lends = work(top, bottom, lent)
    return (held - bottom if bottom or empty else 0), lends


def top_not_brought(top: int, bottom: int, lent: int, empty: bool, last: bool) -> tuple[int, int]:
    """Nothing is written where nothing stands below. 253 − 38 = 15."""
    if empty:
        return 0, 0
    return right(top, bottom, lent, empty, last)


def turned_lowered(top: int, bottom: int, lent: int, empty: bool, last: bool) -> tuple[int, int]:
    """Turned digits, and the next column lowered all the same. 71 − 48 = 27."""
    held, lends = work(top, bottom, lent)
    return (bottom - max(top - lent, 0) if lends else held - bottom), lends


def handed_no_fetch(top: int, bottom: int, lent: int, empty: bool, last: bool) -> tuple[int, int]:
    """One handed in, no ten fetched: all that lies there is taken. 71 − 48 = 20.

    The tens are lowered to 6; of the 1 one, 8 cannot come out, so none is left.
    """
    held, lends = work(top, bottom, lent)
    return (0 if lends else held - bottom), lends


@frozen
class Habit:
    """A mistaken habit.

    ``key`` names its words, ``column`` is its rule, ``source`` who told it. ``per_cent`` is the
    share of children who follow it, ``special`` says that it needs a zero or an empty place.
    """

    key: str
    column: Column
    source: str
    per_cent: float
    special: bool = False


HABITS = (
    Habit("turned", turned, "Brown & Burton 1978; VanLehn 1983 in Ben-Zeev 1996", 9),
    Habit("not-lowered", not_lowered, "Brown & Burton 1978; VanLehn 1990", 8),
    Habit("zero-becomes-nine", zero_becomes_nine, "Brown & Burton 1978", 7, True),
    Habit("zero-becomes-ten", zero_becomes_ten, "Resnick 1982", 4, True),
    Habit("zero-skipped", zero_skipped, "Brown & Burton 1978", 3, True),
    Habit("zero-top-bottom", zero_top_bottom, "Brown & Burton 1978", 3, True),
    Habit("zero-top-zero", zero_top_zero, "Brown & Burton 1978", 2, True),
    Habit("empty-not-lowered", empty_not_lowered, "VanLehn 1990", 3, True),
    Habit("from-leftmost", from_leftmost, "VanLehn 1990", 1),
    Habit("zero-when-short", zero_when_short, "Resnick 1982", 1),
    Habit("added", added, "VanLehn 1990", 1),
)
"""The foreseen habits, most likely first. The order is reasoned, not measured:

1. Habits of every short column come before those that need a zero or an empty place, for a
   child meets the chance more often. Turned digits lead: in every study the commonest. A
   column not lowered is the next step forgotten.
2. Of those that need a zero, the mishandled exchange across it comes before a habit about
   zeros on top, for it is the hardest thing in the method: the sum across a zero was right in
   57 of 100 cases, the others in 76 to 90 (de Chiusole & Stefanutti 2013, Electronic Notes in
   Discrete Mathematics 42:41-48). To stop at 9 is less work than to turn the zero into 10,
   and both hold on to more of the method than skipping it.
3. Then what needs an empty place below; then the leftmost, which shows only where the leftmost
   is not next door; then 0 wherever short; last adding, which is a sign misread.

The first three shares are measured: 9, 8 and 7 of 100 children of 8 to 10 without a learning
difficulty (Raghubar et al. 2009, Journal of Learning Disabilities; 291 children; second-hand).
With a difficulty in mathematics they are 25, 18 and 16. The others are ours, falling in the
order above; what a child's answers say soon outweighs them.
"""

RARER = (
    Habit(
        "turned-lowered",
        turned_lowered,
        "Vermeulen et al. 2020, Frontiers in Education (second-hand)",
        1.5,
    ),
    Habit("n-minus-0", n_minus_zero, "VanLehn 1990 (from memory)", 1, True),
    Habit("top-not-brought", top_not_brought, "VanLehn 1990 (from memory)", 1, True),
    Habit("handed-no-fetch", handed_no_fetch, "common practice", 0.5),
)
"""Further habits that a child's paper is read for, most likely first; no answer sheet lists them.

Shares as above, ours."""

ALL_HABITS = HABITS + RARER


def outcomes(whole: int, part: int) -> list[int | None]:
    """Return the answer each of ``HABITS`` gives to ``whole`` − ``part``, in their order.

    It may be the right answer, where the sum gives the habit nothing to spoil, and is None
    where the habit gets stuck: the leftmost column may have nothing left to hand over.
    Plain numbers (0 ≤ part ≤ whole ≤ 9999), for going through many sums.
    """
    worth = 1
    while whole >= 10 * worth:
        worth *= 10
    top, low_whole = divmod(whole, worth)
    bottom, low_part = divmod(part, worth)
    leftmost = _leftmost(top, bottom, part < worth)
    before = _before(low_whole, low_part, worth, bottom > 0)
    return [
        None if (digit := digits[lent]) < 0 else total + digit * worth
        for digits, (total, lent) in zip(leftmost, before, strict=True)
    ]


@cache
def _leftmost(top: int, bottom: int, empty: bool) -> tuple[tuple[int, ...], ...]:
    """Return the digit each habit writes in the leftmost column: [habit][lent]."""
    return tuple(
        tuple(
            habit.column(top, bottom, lent, empty, True)[0]
            for lent in (*range(len(PLACES)), SPARED)
        )
        for habit in HABITS
    )


@lru_cache(maxsize=1 << 14)  # every pair of last two digits, with room for empty places below
def _before(whole: int, part: int, worth: int, full: bool) -> tuple[tuple[int, int], ...]:
    """Return, for each habit, the worth of what it writes before the column of ``worth``, and
    the pieces still wanted. ``full``: the part goes on, so no column here is empty."""
    seats = []
    while worth > 1:
        seats.append((whole % 10, part % 10, not part and not full))
        whole, part, worth = whole // 10, part // 10, worth // 10
    found = []
    for habit in HABITS:
        total = lent = 0
        place = 1
        for top, bottom, empty in seats:
            digit, lent = habit.column(top, bottom, lent, empty, False)
            total += digit * place
            place *= 10
        found.append(_written(total, lent))
    return tuple(found)


@cache
def _written(total: int, lent: int) -> tuple[int, int]:
    """Return both as one record: thousands of sums share a few hundred."""
    return total, lent
