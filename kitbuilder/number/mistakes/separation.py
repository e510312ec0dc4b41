"""Which mistakes a pack of sums tells apart, and how often."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import combinations

from kitbuilder.number.mistakes.habits import HABITS, outcomes
from kitbuilder.number.mistakes.profiles import PROFILES, answers
from kitbuilder.number.sums import Sum

SINGLES = 1 + len(HABITS)
"""All right, and each of ``HABITS`` alone: the kinds that a telling pack must tell apart first."""

_PAIRS = tuple(combinations(range(SINGLES), 2))
_ALL_PAIRS = tuple(combinations(range(len(PROFILES)), 2))


@lru_cache(maxsize=1 << 15)
def told_apart(whole: int, part: int) -> int:
    """Return which pairs of the ``SINGLES`` give different answers to the sum, as bits.

    Two answers differ only where both are given: one who is stuck leaves a blank, which
    separates nothing.
    """
    given = (whole - part, *outcomes(whole, part))
    return _bits(given, _PAIRS)


def _bits(given: Sequence[int | None], pairs: Sequence[tuple[int, int]]) -> int:
    found = 0
    for bit, (a, b) in enumerate(pairs):
        if given[a] != given[b] and given[a] is not None and given[b] is not None:
            found |= 1 << bit
    return found


@dataclass(frozen=True, slots=True)
class Levels:
    """For each number of times from 1, the pairs that are told apart so often, as bits."""

    bits: tuple[int, ...] = ()

    def after(self, mask: int) -> "Levels":
        """Return the levels once a sum more is given that tells apart the pairs of ``mask``."""
        grown = []
        carried = mask
        for level in self.bits:
            grown.append(level | carried)
            carried &= level
        return Levels((*grown, carried) if carried else tuple(grown))

    def least(self, wanted: int) -> int:
        """Return how often each pair of ``wanted`` is told apart at least."""
        return sum(level & wanted == wanted for level in self.bits)


def levels(masks: Iterable[int]) -> Levels:
    """Return how often each pair is told apart by sums of these masks."""
    found = Levels()
    for mask in masks:
        found = found.after(mask)
    return found


def least_apart(sums: Iterable[Sum], among: int = SINGLES) -> int:
    """Return how often any two of the first ``among`` profiles are told apart at least."""
    pairs = tuple(combinations(range(among), 2))
    masks = [_bits(answers(s.whole, s.part)[:among], pairs) for s in sums]
    return levels(masks).least((1 << len(pairs)) - 1)


def lowered_to_zero(whole: int, part: int) -> bool:
    """Say whether a 1 hands its one piece on, so that a 0 nobody printed stands on top.

    714 − 618: habits about zeros may then show or not. Such a sum does not tell.
    """
    lent = 0
    while part > 0 or lent:
        top, bottom = whole % 10, part % 10
        if top == lent == 1:
            return True
        lent = int(top - lent < bottom)
        whole, part = whole // 10, part // 10
    return False


def short_by_five_when_reached(whole: int, part: int) -> bool:
    """Say whether some column, lowered or not, is short by exactly 5: two mistakes then agree."""
    lent = 0
    while part > 0:
        top, bottom = whole % 10, part % 10
        if 5 in (bottom - top, bottom - top + lent):
            return True
        lent = int(top - lent < bottom)
        whole, part = whole // 10, part // 10
    return False
