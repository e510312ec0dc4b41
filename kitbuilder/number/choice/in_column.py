"""Practice of a mistake that a child makes in one column alone: sums that exchange there."""

from collections.abc import Set

from kitbuilder.number.mistakes.profiles import PROFILES, answers
from kitbuilder.number.mistakes.reading import Reading
from kitbuilder.number.sums import Sum


def column_of(reading: Reading) -> int | None:
    """Return the only column in which the named habit shows; None where it shows in all."""
    return next((h.place for h in reading.habits if h.key in reading.named[:1]), None)


def shows(sum_: Sum, keys: Set[str], place: int | None) -> bool:
    """Say whether one of the habits ``keys`` gives ``sum_`` a wrong answer, if need be in a column.

    In one column alone a habit shows only where that column has too few.
    """
    given = answers(sum_.whole, sum_.part)
    return any(
        len(profile.keys) == 1
        and profile.place == place
        and keys & {*profile.keys}
        and answer not in (None, sum_.rest)
        for profile, answer in zip(PROFILES, given, strict=True)
    )
