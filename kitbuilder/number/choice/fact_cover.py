"""Few sums that hold a list of small facts."""

from collections.abc import Iterable, Iterator
from functools import cache
from itertools import permutations
from random import Random

from kitbuilder.number.choice.difficulty import easy_to_hard
from kitbuilder.number.choice.pick import shuffled
from kitbuilder.number.choice.pool import Pool, Wants, Wish
from kitbuilder.number.facts import Fact
from kitbuilder.number.mistakes.telling import tells_alone
from kitbuilder.number.sums import Sum

TRIES = 60
"""How many groups of further facts are tried beside a fact before a smaller group will do."""

STARTS = 8
"""How many covers are built, of which the smallest is kept."""


class NoSumHoldsError(Exception):
    """No sum of the wish holds the ``facts``."""

    def __init__(self, facts: tuple[Fact, ...]) -> None:
        super().__init__(facts)
        self.facts = facts


def cover(wish: Wish, wanted: Iterable[Fact], seed: int) -> tuple[Sum, ...]:
    """Return few sums of ``wish``, easy to hard, that hold every fact of ``wanted``.

    Such a fact stands only in a column that receives ten pieces and is no crossed zero (which
    holds 9), so a sum of n places holds at most n − 1. Groups of facts that share a sum are
    found greedily, those facts first that stand in few places.
    Raises ``NoSumHoldsError`` with the facts that cannot occur.
    """
    holder = _Holder(wish, Random(seed))
    seats = {fact: holder.places(fact) for fact in wanted}
    lost = tuple(fact for fact, places in seats.items() if not places)
    if lost:
        raise NoSumHoldsError(lost)
    most = min(holder.most, len({place for those in seats.values() for place in those}))
    best: list[Sum] = []
    for start in range(STARTS):
        found = list(_greedy(seats, holder, most, Random(seed + start)))
        best = min(best or found, found, key=len)
        if len(best) * most < len(seats) + most:
            break  # fewer cannot hold them
    return easy_to_hard(best)


class _Holder:
    """Finds sums of a wish that hold given facts together."""

    def __init__(self, wish: Wish, random: Random) -> None:
        self._wish = wish
        self._random = random
        self._pool = Pool(wish)
        self._alone = not {"none", "both", "across-zero"} & set(wish.patterns)
        self.hold = cache(self._hold)

    @property
    def most(self) -> int:
        """The most facts with a whole of ten or more that a sum of the wish, if any, can hold."""
        return max(len(found.short) for found in self._pool.patterns())

    def places(self, fact: Fact) -> tuple[int, ...]:
        """Return the places in which a sum holds ``fact``."""
        if self._wish.telling and self._alone and not tells_alone(fact):
            return ()  # known without a look through millions of sums
        seats = range(self._wish.places - 1)
        return tuple(k for k in seats if self._first((None,) * k + (fact,)))

    def _hold(self, facts: frozenset[Fact]) -> Sum | None:
        """Return some sum that holds all ``facts``, None if there is none."""
        empty = (None,) * (self._wish.places - 1 - len(facts))
        ways = list(dict.fromkeys(permutations((*sorted(facts), *empty))))
        self._random.shuffle(ways)
        return next((Sum(*found) for wants in ways if (found := self._first(wants))), None)

    def _first(self, wants: Wants) -> tuple[int, int] | None:
        return next(shuffled(self._pool, self._wish, self._random, wants), None)


def _greedy(
    seats: dict[Fact, tuple[int, ...]], holder: _Holder, most: int, random: Random
) -> Iterator[Sum]:
    """Yield sums that hold all facts, up to ``most`` in each; those with few places first."""
    left = list(seats)
    random.shuffle(left)
    left.sort(key=lambda fact: len(seats[fact]))
    while left:
        first, *others = left
        groups = _groups(first, others, most, random)
        found, group = next((sum_, group) for group in groups if (sum_ := holder.hold(group)))
        yield found
        left = [fact for fact in left if fact not in group]


def _groups(
    first: Fact, others: list[Fact], most: int, random: Random
) -> Iterator[frozenset[Fact]]:
    """Yield groups with ``first``: some of ``most`` facts, then smaller ones, then it alone."""
    for size in range(most - 1, 1, -1):
        for _ in range(TRIES if len(others) >= size else 0):
            yield frozenset({first, *random.sample(others, size)})
    if most > 1:
        yield from (frozenset({first, other}) for other in others)
    yield frozenset({first})
