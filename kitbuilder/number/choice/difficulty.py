"""The order of sums from easy to hard."""

from collections.abc import Iterable
from dataclasses import dataclass

from kitbuilder.number.choice.patterns import pattern
from kitbuilder.number.facts import facts
from kitbuilder.number.sums import Sum


@dataclass(frozen=True, slots=True, order=True)
class Difficulty:
    """What makes a sum hard, the weightiest first; compared in this order.

    ``zeros``: zeros that an exchange goes across, by far the hardest thing in the results of
    294 pupils (de Chiusole & Stefanutti 2013, Electronic Notes in Discrete Mathematics
    42:41-48). ``exchanges``: each is one more thing to do and to remember. ``places``: how
    many columns there are. ``taking``: the columns in which something is taken; an empty
    column below is one less. ``crossing``: the size of the steps after ten in the facts that
    cross ten, all together (13 − 5 goes 2 beyond ten).
    """

    zeros: int
    exchanges: int
    places: int
    taking: int
    crossing: int


def difficulty(sum_: Sum) -> Difficulty:
    """Return how hard ``sum_`` is; easier compares as smaller."""
    found = pattern(sum_)
    held = facts(sum_)
    return Difficulty(
        zeros=len(found.crossed),
        exchanges=found.exchanges,
        places=sum_.places,
        taking=sum(fact.part > 0 for fact in held),
        crossing=sum(fact.through_ten[1] for fact in held if fact.crosses_ten),
    )


def easy_to_hard(sums: Iterable[Sum]) -> tuple[Sum, ...]:
    """Return ``sums`` from easy to hard; equally hard ones by whole, then part."""
    return tuple(sorted(sums, key=lambda s: (difficulty(s), s.whole, s.part)))
