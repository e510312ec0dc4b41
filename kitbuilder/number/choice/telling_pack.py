"""Packs of sums that tell every two mistakes apart, as often as their number allows."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import islice
from random import Random

from kitbuilder.number.choice.patterns import PATTERNS
from kitbuilder.number.choice.pool import Pool, Wish
from kitbuilder.number.mistakes.foreseen import shown
from kitbuilder.number.mistakes.habits import HABITS
from kitbuilder.number.mistakes.profiles import PROFILES, answers
from kitbuilder.number.mistakes.separation import (
    Levels,
    levels,
    lowered_to_zero,
    short_by_five_when_reached,
    told_apart,
)
from kitbuilder.number.sums import Sum

LOOKED_AT = 6000
"""Sums of a wish that are looked at for those that tell most."""

KEPT = 3
"""Sums kept of those that tell the same mistakes apart."""

MOST = 36
"""Sums in a pack that are chosen for what they tell."""

BETTERED = 3
"""How many times each sum of a pack is tried against all others."""

LEFT_CONFUSED = 0.2
"""Share of children in whom two mistakes stay confused for each sum that tells them apart."""

CONFUSED_SIMPLE, CONFUSED_PAIRS = 0.3, 0.005
"""How much two mistakes confused weigh where one shows in a column only, or is a pair of habits,
against two of the single habits: so much rarer they are."""


@dataclass(frozen=True, slots=True)
class Candidate:
    """A sum, the ``singles`` that it tells apart, and all ``profiles`` that it does, as bits."""

    sum: Sum
    singles: int
    profiles: int


def plain_to_tell(whole: int, part: int) -> bool:
    """Say whether no two mistakes give one answer because of a single column: none is short by
    exactly 5, as written or when reached, and no digit is lowered to 0."""
    return not (short_by_five_when_reached(whole, part) or lowered_to_zero(whole, part))


def telling_pack(wish: Wish, count: int, seed: int) -> tuple[Sum, ...]:
    """Return up to ``count`` different sums of ``wish`` that tell mistakes apart.

    First every two of the single habits (and all right) are told apart as often as can be, then
    every two of all ways of working that any of the sums tells apart, pairs of habits too. The
    same seed gives the same sums. At most ``MOST``; further sums tell little more.
    """
    hand = list(_hand(wish, Random(seed)))
    if not hand:
        return ()
    every = _union(c.profiles for c in hand)
    wanted = _Wanted(_union(c.singles for c in hand), every, every & _simple_pairs())
    pack: list[Candidate] = []
    while len(pack) < min(count, len(hand), MOST):
        pack.append(_best(pack, hand, wanted))
    for _ in range(BETTERED):
        if not _bettered(pack, hand, wanted):
            break
    return tuple(c.sum for c in pack)


def candidates(wish: Wish, seed: int) -> tuple[Sum, ...]:
    """Return sums of ``wish`` that together tell all that its sums can tell, to choose among."""
    return tuple(c.sum for c in _hand(wish, Random(seed)))


def _stream(wish: Wish, random: Random) -> Iterator[Sum]:
    """Yield sums of the wish in random order, those that are plain to tell."""
    pool = Pool(wish)
    size = pool.count()
    numbers = random.sample(range(size), min(size, 4 * LOOKED_AT))
    for number in numbers:
        whole, part = pool.at(number)
        if plain_to_tell(whole, part):
            yield Sum(whole, part)


def _hand(wish: Wish, random: Random) -> Iterator[Candidate]:
    """Yield a few sums of each kind that tells other mistakes apart than the rest.

    Sums whose single habits are told apart by another sum, and more, are left out.
    """
    kinds: dict[int, list[Sum]] = {}
    for sum_ in islice(_stream(wish, random), LOOKED_AT):
        those = kinds.setdefault(told_apart(sum_.whole, sum_.part), [])
        if len(those) < 4 * KEPT:
            those.append(sum_)
    for mask, sums in kinds.items():
        fewer = any(mask != other and mask & other == mask for other in kinds)
        by_profiles: dict[int, Sum] = {}
        for sum_ in sums:
            by_profiles.setdefault(_profile_bits(sum_), sum_)
        for bits, sum_ in islice(by_profiles.items(), KEPT if fewer else None):
            yield Candidate(sum_, mask, bits)
        if not fewer:
            spare = (s for s in sums if s not in by_profiles.values())
            for sum_ in spare:
                yield Candidate(sum_, mask, _profile_bits(sum_))


@cache
def _kinds_of_profiles() -> tuple[int, ...]:
    """Return one profile for each that any three-place sum could tell from the others.

    Two profiles that answer a wide sample of sums alike are told as one.
    """
    random = Random(5)
    sample: list[tuple[int | None, ...]] = []
    while len(sample) < 400:
        whole, part = random.randrange(100, 1000), random.randrange(1, 1000)
        if random.random() < 0.5:
            whole = whole // 100 * 100 + whole % 10 if random.random() < 0.5 else whole // 10 * 10
        if part < whole:
            sample.append(answers(whole, part))
    seen: dict[tuple[int | None, ...], int] = {}
    for at in range(len(PROFILES)):
        seen.setdefault(tuple(given[at] for given in sample), at)
    return tuple(seen.values())


def _profile_bits(sum_: Sum) -> int:
    """Return which pairs of all kinds of profiles the sum tells apart, as bits.

    Two ways about the same habit need not be told apart.
    """
    given = answers(sum_.whole, sum_.part)
    found = 0
    for bit, (a, b) in enumerate(_profile_pairs()):
        if given[a] != given[b] and given[a] is not None and given[b] is not None:
            found |= 1 << bit
    return found


@cache
def _profile_pairs() -> tuple[tuple[int, int], ...]:
    kinds = _kinds_of_profiles()
    return tuple(
        (a, b)
        for k, a in enumerate(kinds)
        for b in kinds[k + 1 :]
        if {*PROFILES[a].keys} != {*PROFILES[b].keys}
    )


@cache
def _simple_pairs() -> int:
    """Return the pairs of profiles of one habit each at most, as bits."""
    found = 0
    for bit, (a, b) in enumerate(_profile_pairs()):
        if len(PROFILES[a].keys) < 2 and len(PROFILES[b].keys) < 2:
            found |= 1 << bit
    return found


def _union(masks: Iterable[int]) -> int:
    found = 0
    for mask in masks:
        found |= mask
    return found


@dataclass(frozen=True, slots=True)
class _Wanted:
    """Pairs of mistakes to tell apart, as bits: of the singles, of all profiles, and of those
    profiles that are one habit, in all columns or in one."""

    singles: int
    every: int
    simple: int

    def rank(self, one: Levels, all_: Levels, size: int) -> tuple[float, ...]:
        """Return the order of packs of ``size`` sums, the larger the better.

        First the singles are told apart once for every two sums, then all profiles as often as
        can be; then the fewest confusions are left, if each further sum leaves one in five.
        """
        confused = (
            _left(one, self.singles)
            + CONFUSED_SIMPLE * _left(all_, self.simple)
            + CONFUSED_PAIRS * _left(all_, self.every)
        )
        least = min(one.least(self.singles), size // 2)
        return (least, min(all_.least(self.every), size // 6), -confused)


def _left(found: Levels, wanted: int) -> float:
    """Return the pairs of ``wanted`` that stay confused, each so often told apart counting less."""
    counts = [wanted.bit_count(), *((bits & wanted).bit_count() for bits in found.bits), 0]
    return sum((counts[k] - counts[k + 1]) * LEFT_CONFUSED**k for k in range(len(counts) - 1))


def _best(pack: Sequence[Candidate], hand: Sequence[Candidate], wanted: _Wanted) -> Candidate:
    held = {c.sum for c in pack}
    one, all_ = levels(c.singles for c in pack), levels(c.profiles for c in pack)

    def worth(candidate: Candidate) -> tuple[float, ...]:
        after, whole = one.after(candidate.singles), all_.after(candidate.profiles)
        return wanted.rank(after, whole, len(pack) + 1)

    return max((c for c in hand if c.sum not in held), key=worth)


def _score(pack: Sequence[Candidate], wanted: _Wanted) -> tuple[float, ...]:
    one, all_ = levels(c.singles for c in pack), levels(c.profiles for c in pack)
    return wanted.rank(one, all_, len(pack))


def _bettered(pack: list[Candidate], hand: Sequence[Candidate], wanted: _Wanted) -> bool:
    """Exchange sums of ``pack`` for others where that makes it better; say whether any was."""
    changed = False
    for at in range(len(pack)):
        rest = pack[:at] + pack[at + 1 :]
        other = _best(rest, hand, wanted)
        if _score([*rest, other], wanted) > _score(pack, wanted):
            pack[at] = other
            changed = True
    return changed


def hidden(places: int) -> tuple[str, ...]:
    """Return the keys of the habits that no sum of ``places`` places can show.

    Tried on the sums plain to tell; two places never show the habits at a zero or far left.
    """
    wish = Wish(places, PATTERNS)
    seen: set[str] = set()
    for sum_ in islice(_stream(wish, Random(1)), LOOKED_AT // 4):
        seen |= {key for key, _ in shown(sum_.whole, sum_.part)}
    return tuple(habit.key for habit in HABITS if habit.key not in seen)
