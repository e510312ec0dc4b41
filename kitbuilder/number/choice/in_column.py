"""Practice of a mistake that a child makes in one column alone: sums that exchange there."""

from collections.abc import Set
from functools import lru_cache

from kitbuilder.number.mistakes.profiles import PROFILES, Profile
from kitbuilder.number.mistakes.reading import Reading
from kitbuilder.number.sums import Sum


def column_of(reading: Reading) -> int | None:
    """Return the only column in which the named habit shows; None where it shows in all."""
    return next((h.place for h in reading.habits if h.key in reading.named[:1]), None)


def shows(sum_: Sum, keys: Set[str], place: int | None) -> bool:
    """Say whether one of the habits ``keys`` gives ``sum_`` a wrong answer, if need be in a column.

    In one column alone a habit shows only where that column has too few.
    """
    given = (way.answer(sum_.whole, sum_.part) for way in _ways(frozenset(keys), place))
    return any(answer not in (None, sum_.rest) for answer in given)


@lru_cache(maxsize=1 << 6)
def _ways(keys: frozenset[str], place: int | None) -> tuple[Profile, ...]:
    """Return the way of working of each of ``keys`` alone, in one column or in all.

    Of two ways the first: zeros that are printed, not those that a digit was lowered to.
    """
    found: dict[str, Profile] = {}
    for way in PROFILES:
        if len(way.keys) == 1 and way.place == place and way.keys[0] in keys:
            found.setdefault(way.keys[0], way)
    return tuple(found.values())
