"""Slips: one small fact miscounted, digits swapped, or an answer that nothing explains."""

from functools import lru_cache
from math import factorial

from kitbuilder.number.mistakes.habits import right

ONE_OUT = 0.4
"""Share of slips in a fact that are one more, and that are one less. The rest are further out.

Ours: most slips in a small fact are counting errors of one (common practice).
"""

COPIED = 0.1
"""How likely a digit that is only copied goes wrong, against a digit that is worked out. Ours."""

LOWERED = 0.5
"""The same of a column that hands in one with nothing to take: what stands one too high there is
likelier forgotten than miscounted (common practice). The half is ours."""

SWAPPED = 0.01
"""Chance that the right digits are written in another order. Ours."""

STRAY = 0.01
"""Chance of an answer that has nothing to do with the sum. Ours."""

FURTHER = 1 - 2 * ONE_OUT
"""Share of slips further out than one, over the digits that are left."""


def fact_places(whole: int, part: int) -> tuple[int, ...]:
    """Return the columns in which something is worked out, ones first: a digit to take, or a ten
    handed in; the others are copied."""
    found = []
    lent = 0
    for k in range(len(str(whole))):
        top, bottom = whole // 10**k % 10, part // 10**k % 10
        if bottom or lent:
            found.append(k)
        lent = right(top, bottom, lent, False, False)[1]
    return tuple(found)


def slip_place(whole: int, part: int, base: int, answer: int) -> int | None:
    """Return the column in which ``answer`` is one more or one less than ``base``, None if none.

    Only a column that holds a fact counts, and only a digit changes: nothing is carried.
    """
    for k in fact_places(whole, part):
        change = answer - base
        if abs(change) == 10**k and 0 <= base // 10**k % 10 + change // 10**k <= 9:
            return k
    return None


def swapped(base: int, answer: int) -> bool:
    """Say whether ``answer`` is ``base`` with its digits in another order; 012 reads as 12."""
    digits = str(base)
    given = str(answer).zfill(len(digits))
    return given != digits and sorted(given) == sorted(digits)


@lru_cache(maxsize=1 << 16)
def chance(whole: int, part: int, base: int | None, answer: int, rate: float) -> float:
    """Return the chance that a child whose way gives ``base`` to the sum writes ``answer``.

    ``rate`` is the chance of a slip in each small fact; ``base`` is None where the way gets
    stuck, and anything may follow. Digits slip by themselves: one out in most cases, else to
    any other digit. Exact, up to the rounding of a float.
    """
    places = len(str(max(whole, answer, base or 0)))
    stray = STRAY / float(10**places)
    if base is None:
        return stray
    worked = fact_places(whole, part)
    through = 1.0
    for k in range(places):
        eased = 1.0 if part // 10**k % 10 else LOWERED if k in worked else COPIED
        through *= _digit(base // 10**k % 10, answer // 10**k % 10, rate * eased)
    ways = factorial(len(str(base)))
    order = SWAPPED / ways if swapped(base, answer) else 0.0
    return float(1 - SWAPPED - STRAY) * through + order + stray


def _digit(base: int, written: int, rate: float) -> float:
    if base == written:
        return 1 - rate
    near = [digit for digit in (base - 1, base + 1) if 0 <= digit <= 9]
    if written in near:
        return rate * 2 * ONE_OUT / len(near)
    return rate * FURTHER / (9 - len(near))
