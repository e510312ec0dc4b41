"""Packs of sums that tell every two mistakes apart, as often as their number allows."""

from collections.abc import Iterator, Sequence
from functools import reduce
from itertools import islice
from operator import or_
from random import Random

from kitbuilder.frozen import frozen
from kitbuilder.number.choice.fives import short_by_five
from kitbuilder.number.choice.patterns import PATTERNS
from kitbuilder.number.choice.pool import Pool, Wish
from kitbuilder.number.mistakes.foreseen import shown
from kitbuilder.number.mistakes.habits import HABITS, outcomes
from kitbuilder.number.mistakes.separation import (
    WEIGHTS,
    Levels,
    groups_of_pairs,
    levels,
    lowered_to_zero,
    told_apart,
    wanted_pairs,
)
from kitbuilder.number.sums import Sum

LOOKED_AT = 6000
"""Sums of a wish that are looked at for those that tell most."""

KEPT = 12
"""Sums kept of those to which the single habits give right or equal answers alike."""

MOST = 36
"""Sums in a pack that are chosen for what they tell."""

BETTERED, BETTERED_TO = 4, 18
"""How many times each sum of a pack is tried against all others; larger packs are not."""

LEFT_CONFUSED = 0.6
"""Share of children in whom two mistakes stay confused after a sum to which one of them gives the
right answer; its third power where both give wrong ones. Ours, near what 85 of 100 sums done by
the habit and 10 slips in 100 facts leave (Bhattacharyya's coefficient)."""

CLEAR = 3
"""How many times as much two wrong answers tell as one."""


@frozen
class Candidate:
    """A sum, the pairs of kinds that it tells ``apart``, and those of them that are ``clear``."""

    sum: Sum
    apart: int
    clear: int


def plain_to_tell(whole: int, part: int) -> bool:
    """Say whether no two mistakes give one answer because of a single column: none is short by
    exactly 5, as written or when reached, and no digit is lowered to 0."""
    return not (short_by_five(whole, part) or lowered_to_zero(whole, part))


def telling_pack(wish: Wish, count: int, seed: int) -> tuple[Sum, ...]:
    """Return up to ``count`` different sums of ``wish`` that tell mistakes apart.

    First every two of the single habits (and all right) are told apart once for every two sums,
    up to six, and every two pairs of habits once for every three; then the fewest children are
    left confused. The same seed gives the same sums. At most ``MOST``; further sums tell little
    more.
    """
    hand = tuple(_hand(wish, Random(seed)))
    within = reduce(or_, (c.apart for c in hand), 0)
    wanted = _Wanted(*(pairs & within for pairs in wanted_pairs()))
    pack: list[Candidate] = []
    while len(pack) < min(count, len(hand), MOST):
        pack.append(_best(pack, hand, wanted))
    for _ in range(BETTERED if len(pack) <= BETTERED_TO else 0):
        before = list(pack)
        for at in range(len(pack)):
            pack[at : at + 1] = [_best(pack[:at] + pack[at + 1 :], hand, wanted)]
        if pack == before:
            break
    return tuple(c.sum for c in pack)


def candidates(wish: Wish, seed: int) -> tuple[Sum, ...]:
    """Return sums of ``wish`` that together tell all that its sums can tell, to choose among."""
    return tuple(c.sum for c in _hand(wish, Random(seed)))


def _stream(wish: Wish, random: Random) -> Iterator[Sum]:
    """Yield sums of the wish in random order, those that are plain to tell."""
    pool = Pool(wish)
    size = pool.count()
    for number in random.sample(range(size), min(size, 4 * LOOKED_AT)):
        whole, part = pool.at(number)
        if plain_to_tell(whole, part):
            yield Sum(whole, part)


def _hand(wish: Wish, random: Random) -> Iterator[Candidate]:
    """Yield a few sums of each kind that tells other mistakes apart than the rest."""
    alike: dict[tuple[int, ...], list[Sum]] = {}
    for sum_ in islice(_stream(wish, random), LOOKED_AT):
        given = (sum_.rest, *outcomes(sum_.whole, sum_.part))
        those = alike.setdefault(tuple(map(given.index, given)), [])
        if len(those) < KEPT:
            those.append(sum_)
    for those in alike.values():
        for sum_ in those:
            yield Candidate(sum_, *told_apart(sum_.whole, sum_.part))


@frozen
class _Wanted:
    """Pairs that some sum tells apart, as bits: of single habits, and of pairs of habits too."""

    single: int
    every: int

    def rank(self, often: Levels, clearly: Levels, size: int) -> tuple[float, ...]:
        """Return the order of packs of ``size`` sums, the larger the better."""
        confused = sum(
            WEIGHTS[name] * clearly.left(mask, LEFT_CONFUSED)
            for name, mask in groups_of_pairs().items()
        )
        single = min(often.least(self.single), min(size, 6) // 2)
        return (single, min(often.least(self.every), size // 3), -confused)


def _best(pack: Sequence[Candidate], hand: Sequence[Candidate], wanted: _Wanted) -> Candidate:
    """Return the candidate that makes the best pack with those of ``pack``."""
    held = {c.sum for c in pack}
    often = levels(c.apart for c in pack)
    clearly = levels(mask for c in pack for mask in _evidence(c))
    ranks: dict[tuple[int, int], tuple[float, ...]] = {}

    def rank(c: Candidate) -> tuple[float, ...]:
        key = (c.apart, c.clear)
        if key not in ranks:
            after = clearly
            for mask in _evidence(c):
                after = after.after(mask)
            ranks[key] = wanted.rank(often.after(c.apart), after, len(pack) + 1)
        return ranks[key]

    return max((c for c in hand if c.sum not in held), key=rank)


def _evidence(c: Candidate) -> tuple[int, ...]:
    return (c.apart, *(c.clear,) * (CLEAR - 1))


def hidden(places: int) -> tuple[str, ...]:
    """Return the keys of the habits that no sum of ``places`` places can show.

    Tried on the sums plain to tell; two places never show the habits at a zero or far left.
    """
    wish = Wish(places, PATTERNS)
    seen: set[str] = set()
    for sum_ in islice(_stream(wish, Random(1)), LOOKED_AT // 4):
        seen |= {key for key, _ in shown(sum_.whole, sum_.part)}
    return tuple(habit.key for habit in HABITS if habit.key not in seen)
