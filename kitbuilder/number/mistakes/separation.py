"""Which mistakes a pack of sums tells apart, how often, and how clearly."""

from collections.abc import Iterable, Sequence
from functools import cache
from itertools import combinations
from random import Random

from kitbuilder.frozen import frozen
from kitbuilder.number.mistakes.habits import HABITS
from kitbuilder.number.mistakes.profiles import PROFILES, Profile
from kitbuilder.number.sums import Sum

WEIGHTS = {"right": 4.0, "single": 1.0, "column": 0.3, "pair": 0.3, "rarer": 0.05}
"""How much it matters that two kinds are told apart: a habit from all right, from another, from
one that shows in a column alone, from a pair of habits, from one of the rarer habits. Ours: with
these the habit named least often is named most often (tests/bench)."""


@cache
def kinds() -> tuple[Profile, ...]:
    """Return all right, each habit, those in one column, and the pairs of ``HABITS`` that differ.

    Two pairs that answer a wide sample of three-place sums alike count as one, and so does one
    that answers as a single habit does.
    """
    common = {habit.key for habit in HABITS}
    seen: dict[tuple[int | None, ...], Profile] = {}
    for profile in PROFILES:
        alone = len(profile.keys) < 2 and profile.place in (None, 0, 1)
        if alone or ({*profile.keys} <= common and profile.place is None):
            given = tuple(profile.answer(whole, part) for whole, part in _sample())
            seen.setdefault(given, profile)
    return tuple(seen.values())


@cache
def _sample() -> tuple[tuple[int, int], ...]:
    random = Random(5)
    found: list[tuple[int, int]] = []
    while len(found) < 200:
        whole = int("".join(random.choice(digits) for digits in ("123456789", "0005", "0036")))
        part = random.randrange(1, 1000)
        if part < whole and not lowered_to_zero(whole, part):
            found.append((whole, part))
    return tuple(found)


@cache
def _pairs() -> tuple[tuple[int, int], ...]:
    """Return the pairs of kinds that are about other habits, in the order of their bits."""
    those = enumerate(kinds())
    return tuple((i, j) for (i, a), (j, b) in combinations(those, 2) if {*a.keys} != {*b.keys})


@cache
def groups_of_pairs() -> dict[str, int]:
    """Return the pairs of kinds, as bits, by the names of ``WEIGHTS``."""
    found = dict.fromkeys(WEIGHTS, 0)
    for bit, (i, j) in enumerate(_pairs()):
        found[_group(kinds()[i], kinds()[j])] |= 1 << bit
    return found


def _group(first: Profile, last: Profile) -> str:
    common = {habit.key for habit in HABITS}
    if not {*first.keys, *last.keys} <= common:
        return "rarer"
    if len(first.keys) > 1 or len(last.keys) > 1:
        return "pair"
    if not first.keys:
        return "right"
    return "single" if first.place is last.place is None else "column"


def wanted_pairs() -> tuple[int, int]:
    """Return two sets of pairs, as bits: of single habits, and of pairs of ``HABITS`` as well."""
    single = every = 0
    for bit, (i, j) in enumerate(_pairs()):
        both = (kinds()[i], kinds()[j])
        if all({*p.keys} <= {h.key for h in HABITS} and p.place is None for p in both):
            every |= 1 << bit
            if all(p.simple for p in both):
                single |= 1 << bit
    return single, every


def told_apart(whole: int, part: int) -> tuple[int, int]:
    """Return which pairs of kinds give different answers to the sum, as bits, and which of them
    give two wrong ones.

    Two answers differ only where both are given: one who is stuck leaves a blank, which
    separates nothing. One that is right says less, for no habit is followed always.
    """
    given = [kind.answer(whole, part) for kind in kinds()]
    apart = clear = 0
    for bit, (i, j) in enumerate(_pairs()):
        a, b = given[i], given[j]
        if a != b and a is not None and b is not None:
            apart |= 1 << bit
            if whole - part not in (a, b):
                clear |= 1 << bit
    return apart, clear


OFTEN = 12
"""Times told apart beyond which it is not counted any further."""


@frozen
class Levels:
    """For each number of times from 1 to ``OFTEN``, the pairs told apart so often, as bits."""

    bits: tuple[int, ...] = ()

    def after(self, mask: int) -> "Levels":
        """Return the levels once a sum more is given that tells apart the pairs of ``mask``."""
        grown = []
        carried = mask
        for level in self.bits:
            grown.append(level | carried)
            carried &= level
        return Levels((*grown, carried)[:OFTEN] if carried else tuple(grown))

    def least(self, wanted: int) -> int:
        """Return how often each pair of ``wanted`` is told apart at least."""
        return sum(level & wanted == wanted for level in self.bits)

    def left(self, wanted: int, each: float) -> float:
        """Return the pairs of ``wanted`` still confused, if each time leaves the share ``each``."""
        counts = [wanted.bit_count(), *((bits & wanted).bit_count() for bits in self.bits), 0]
        return sum((counts[k] - counts[k + 1]) * each**k for k in range(len(counts) - 1))


def levels(masks: Iterable[int]) -> Levels:
    """Return how often each pair is told apart by sums of these masks."""
    found = Levels()
    for mask in masks:
        found = found.after(mask)
    return found


def least_apart(sums: Sequence[Sum]) -> tuple[int, int]:
    """Return how often any two are told apart at least: of all right and single habits, and of
    pairs of habits as well."""
    found = levels(told_apart(s.whole, s.part)[0] for s in sums)
    single, every = wanted_pairs()
    return found.least(single), found.least(every)


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
