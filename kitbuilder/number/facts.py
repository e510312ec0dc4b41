"""The small facts that a sum practises, and the two steps of a fact above ten."""

from dataclasses import dataclass

from kitbuilder.number.exchange import work
from kitbuilder.number.sums import Sum


@dataclass(frozen=True, slots=True, order=True)
class Fact:
    """A subtraction fact: ``whole`` (0 to 18) − ``part``, with part and rest 0 to 9."""

    whole: int
    part: int

    def __post_init__(self) -> None:
        if not 0 <= self.part <= 9:
            raise ValueError(f"Fact.part is {self.part}; it must be 0 to 9")
        if not 0 <= self.rest <= 9:
            raise ValueError(f"Fact.whole is {self.whole}; it must be {self.part} to 9 more")

    @property
    def rest(self) -> int:
        """The other part: the answer."""
        return self.whole - self.part

    @property
    def crosses_ten(self) -> bool:
        """Whether the whole is above ten, so that the way down goes through ten."""
        return self.whole > 10

    @property
    def through_ten(self) -> tuple[int, int]:
        """The two steps of a fact that crosses ten: what reaches ten, and what is left to take.

        13 − 5: 3 to reach ten, then 2 more. Source: US CCSS 1.OA.C.6, "decomposing a number
        leading to a ten (13 − 4 = 13 − 3 − 1 = 10 − 1 = 9)".
        """
        if not self.crosses_ten:
            raise ValueError(f"Fact.through_ten: {self} does not cross ten")
        return self.whole - 10, 10 - self.rest

    def __str__(self) -> str:
        return f"{self.whole} − {self.part}"


ALL_FACTS = tuple(
    Fact(whole, part) for whole in range(19) for part in range(max(0, whole - 9), min(9, whole) + 1)
)
"""All 100 facts, by whole, then part."""

CROSSING_TEN = tuple(fact for fact in ALL_FACTS if fact.crosses_ten)
"""The 36 facts whose whole is 11 to 18."""

TEN_AND_CROSSING = tuple(fact for fact in ALL_FACTS if fact.whole >= 10)
"""The 45 facts whose whole is 10 to 18: those a column that received ten pieces can hold."""


def facts(sum_: Sum) -> tuple[Fact, ...]:
    """Return the fact of each column in which ``sum_`` takes a digit, ones first.

    A column that has lent counts as lowered and one that was short as ten more: in 420 − 157
    they are 10 − 7, 11 − 5 and 3 − 1. A column without a digit below holds no fact.
    """
    return tuple(Fact(*held) for held in facts_of(sum_.whole, sum_.part))


def facts_of(whole: int, part: int) -> list[tuple[int, int]]:
    """Return (whole, part) of each column's fact, ones first: ``facts`` in plain numbers."""
    found = []
    lends = 0
    while part > 0:
        held, lends = work(whole % 10, part % 10, lends)
        found.append((held, part % 10))
        whole //= 10
        part //= 10
    return found
