"""Few sums that hold a list of small facts, with proof of how few will do."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from itertools import combinations, permutations
from random import Random

from kitbuilder.number.choice.difficulty import easy_to_hard
from kitbuilder.number.choice.matching import matching
from kitbuilder.number.choice.pick import shuffled
from kitbuilder.number.choice.pool import Pool, Wants, Wish
from kitbuilder.number.facts import Fact
from kitbuilder.number.mistakes.telling import tells_alone
from kitbuilder.number.sums import Sum

TRIES = 40
"""How many pairs of further facts are tried beside a fact before two in one sum will do."""

STARTS = 8
"""How many covers are built when no proof of the least is at hand."""


@dataclass(frozen=True, slots=True)
class Cover:
    """Sums, easy to hard, that hold every fact wanted, and the number no cover can be below."""

    sums: tuple[Sum, ...]
    least: int

    def __post_init__(self) -> None:
        if len(self.sums) < self.least:
            raise ValueError(f"Cover has {len(self.sums)} sums, fewer than its least {self.least}")


class NoSumHoldsError(Exception):
    """No sum of the wish holds the ``facts``."""

    def __init__(self, facts: tuple[Fact, ...]) -> None:
        super().__init__(facts)
        self.facts = facts


def cover(wish: Wish, wanted: Iterable[Fact], seed: int) -> Cover:
    """Return few sums of ``wish`` that hold every fact of ``wanted`` (wholes 10 to 18).

    The least, with its argument: such a fact stands only in a column that receives ten
    pieces and is no crossed zero (which holds 9), so a sum of n places holds at most n − 1.
    18 sums of three places hold all 36 facts that cross ten, and no fewer can; 45 need 23.
    They suffice, for any two of these facts, a − b for the ones and c − d for the tens, stand
    in one sum: above, the digits a − 10 and c − 9, below, b and d, and hundreds to lend one.

    Where a wish lets a sum hold two at most, join by an edge any two facts that share a sum:
    a cover of f facts with s sums gives a matching of f − s edges at least, and the other way
    round, so f less a largest matching is the least. Where three can share a sum, covers are
    built greedily, and ``least`` counts the facts that only some columns hold.
    Raises ``NoSumHoldsError`` with the facts that cannot occur.
    """
    facts = tuple(dict.fromkeys(wanted))
    holder = _Holder(wish, Random(seed))
    seats = {fact: holder.places(fact) for fact in facts}
    lost = tuple(fact for fact in facts if not seats[fact])
    if lost:
        raise NoSumHoldsError(lost)
    most = min(holder.most, len({place for those in seats.values() for place in those}))
    if most <= 2:
        groups = _paired(facts, holder, most)
        return _cover(groups, holder, len(groups))
    full = {fact: holder.places(fact, short=most) for fact in facts}
    least = _bound(seats, full)
    best = _greedy(seats, holder, Random(seed))
    for start in range(1, STARTS):
        if len(best) > least:
            best = min(best, _greedy(seats, holder, Random(seed + start)), key=len)
    return _cover(best, holder, least)


class _Holder:
    """Finds sums of a wish that hold given facts together."""

    def __init__(self, wish: Wish, random: Random) -> None:
        self._wish = wish
        self._random = random
        self._pools = cache(lambda short: Pool(wish, short))
        self._alone = not {"none", "both", "across-zero"} & set(wish.patterns)
        self.hold = cache(self._hold)

    @property
    def most(self) -> int:
        """The most facts with a whole of ten or more that a sum of the wish, if any, can hold."""
        return max(len(found.short) for found in self._pools(0).patterns())

    def places(self, fact: Fact, short: int = 0) -> tuple[int, ...]:
        """Return the places in which a sum with ``short`` columns short or more holds ``fact``."""
        seats = range(self._wish.places - 1)
        if self._wish.telling and self._alone and not tells_alone(fact):
            return ()  # known without a look through millions of sums
        return tuple(k for k in seats if self._first((None,) * k + (fact,), short))

    def _hold(self, facts: frozenset[Fact]) -> Sum | None:
        """Return some sum that holds all ``facts``, None if there is none."""
        empty = (None,) * (self._wish.places - 1 - len(facts))
        ways = list(dict.fromkeys(permutations((*sorted(facts), *empty))))
        self._random.shuffle(ways)
        for wants in ways:
            found = self._first(wants)
            if found:
                return Sum(*found)
        return None

    def _first(self, wants: Wants, short: int = 0) -> tuple[int, int] | None:
        return next(shuffled(self._pools(short), self._wish, self._random, wants), None)


Group = frozenset[Fact]


def _paired(facts: tuple[Fact, ...], holder: _Holder, most: int) -> list[Group]:
    """Return the facts in pairs that share a sum, as many as can be, and the rest alone."""
    if most == 1:
        return [frozenset({fact}) for fact in facts]
    joined = {
        pair for pair in combinations(range(len(facts)), 2) if holder.hold(_group(facts, pair))
    }
    partner = matching(
        [
            [b for b in range(len(facts)) if (min(a, b), max(a, b)) in joined]
            for a in range(len(facts))
        ]
    )
    return [_group(facts, {a, b} - {-1}) for a, b in enumerate(partner) if not 0 <= b < a]


def _group(facts: tuple[Fact, ...], numbers: Iterable[int]) -> Group:
    return frozenset(facts[number] for number in numbers)


def _greedy(seats: dict[Fact, tuple[int, ...]], holder: _Holder, random: Random) -> list[Group]:
    """Return groups of up to three facts that share a sum, those with few places first."""
    left = list(seats)
    random.shuffle(left)
    left.sort(key=lambda fact: len(seats[fact]))
    groups = []
    while left:
        first, *others = left
        group = next(_sharing(first, others, holder, random))
        groups.append(group)
        left = [fact for fact in left if fact not in group]
    return groups


def _sharing(first: Fact, others: list[Fact], holder: _Holder, random: Random) -> Iterator[Group]:
    """Yield groups that share a sum with ``first``: some of three facts, of two, then it alone."""
    for size in (2, 1):
        for _ in range(TRIES if len(others) >= size else 0):
            group = frozenset({first, *random.sample(others, size)})
            if holder.hold(group):
                yield group
    yield frozenset({first})


def _bound(seats: dict[Fact, tuple[int, ...]], full: dict[Fact, tuple[int, ...]]) -> int:
    """Return a number of sums that no cover can be below, where a sum may hold three facts.

    A sum has each column once. Facts that stand in one column alone need a sum each. ``full``
    has the columns where a fact stands in sums that hold three: of facts that there stand in
    no more than two columns, no sum holds more than two.
    """
    alone = max(sum(those == (place,) for those in seats.values()) for place in range(3))
    pairs = max(
        sum(set(those) <= set(two) for those in full.values()) for two in combinations(range(3), 2)
    )
    return max(alone, -(-pairs // 2), -(-len(seats) // 3))


def _cover(groups: list[Group], holder: _Holder, least: int) -> Cover:
    found = [sum_ for group in groups if (sum_ := holder.hold(group))]
    return Cover(easy_to_hard(found), least)
