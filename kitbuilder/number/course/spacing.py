"""The small facts of each day: a few new ones, and those met longest ago.

Sources: a few minutes a day, common practice (about ten in a school's own lessons, WWC 2009,
practice guide NCEE 2009-4060); spaced rather than massed, Latimier et al. 2021 (abstract read),
who found no gain in gaps that grow.
"""

from collections.abc import Iterable

from kitbuilder.number.facts import TEN_AND_CROSSING, Fact, facts
from kitbuilder.number.sums import Sum

MOST_NEW = 5
MOST_BACK = 5


def crossing(sum_: Sum) -> set[Fact]:
    """Return the facts of ``sum_`` that cross ten."""
    return {fact for fact in facts(sum_) if fact.crosses_ten}


class FactList:
    """The facts met so far, and on which day each was met last."""

    def __init__(self) -> None:
        self._last: dict[Fact, int] = {}

    def unmet(self, wanted: Iterable[Fact]) -> list[Fact]:
        """Return those of ``wanted`` that no day so far has listed, in order."""
        return sorted(fact for fact in set(wanted) if fact not in self._last)

    def day(self, number: int, needed: Iterable[Fact], *, fresh: bool) -> tuple[Fact, ...]:
        """Return the facts of day ``number``: new ones first, then those met longest ago.

        ``needed`` must be known that day; where ``fresh``, others fill up what room is left.
        """
        new = self.unmet(needed)
        if fresh:
            others = (fact for fact in self.unmet(TEN_AND_CROSSING) if fact not in new)
            new += list(others)[: max(0, MOST_NEW - len(new))]
        oldest = sorted(self._last, key=lambda fact: (self._last[fact], fact))
        chosen = (*new, *oldest[:MOST_BACK])
        self._last |= dict.fromkeys(chosen, number)
        return chosen
