"""Pupils drawn from replayed papers, to try what is read from their answers.

A pupil works every sum on paper (``paper.py``, crossing out digits) with one habit or none. A
habit is followed in every sum, or in a share of them. Each fact that is worked out is one out with
the chance of a slip. Nothing here is shared with the model but the sums and the answers.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from random import Random

from paper import Paper

from kitbuilder.number import Sum
from kitbuilder.number.mistakes.asking import next_asked, settled
from kitbuilder.number.mistakes.posterior import Answered
from kitbuilder.number.mistakes.reading import Reading, Verdict, read

HABITS = (
    "turned",
    "not-lowered",
    "zero-becomes-nine",
    "zero-becomes-ten",
    "zero-skipped",
    "zero-top-bottom",
    "zero-top-zero",
    "empty-not-lowered",
    "from-leftmost",
    "zero-when-short",
    "added",
)


Given = tuple[tuple[Sum, int | None], ...]
"""Sums asked one by one and the answers, None where the child got stuck."""


@dataclass(frozen=True)
class Child:
    """A habit (none: all right; with a column: only there), how steady it is, and slips."""

    habit: str = ""
    steady: float = 1.0
    slips: float = 0.1
    column: int | None = None

    def answer(self, sum_: Sum, random: Random) -> int | None:
        habit = self.habit if random.random() < self.steady else ""
        found = Paper(sum_.whole, sum_.part, habit, self.column).answer()
        if found is None:
            return None
        digits = [int(c) for c in str(found).zfill(sum_.places)]
        below = str(sum_.part).rjust(sum_.places)
        for k, under in enumerate(below[::-1]):
            if under not in " 0" and random.random() < self.slips:
                at = len(digits) - 1 - k
                near = [d for d in (digits[at] - 1, digits[at] + 1) if 0 <= d <= 9]
                digits[at] = random.choice(near)
        return int("".join(map(str, digits)))

    def marked(self, sums: Sequence[Sum], random: Random) -> Reading:
        return _read(tuple((s, self.answer(s, random)) for s in sums))

    def asked(self, hand: tuple[Sum, ...], random: Random, most: int = 12) -> tuple[int, Reading]:
        """Return how many sums were asked one by one until it was sure, and what was read."""
        given: Given = ()
        while len(given) < most and not settled(_read(given)):
            sum_ = _next(given, hand)
            given = (*given, (sum_, self.answer(sum_, random)))
        return len(given), _read(given)


@lru_cache(maxsize=1 << 14)
def _read(given: Given) -> Reading:
    return read([Answered(s, a, k) for k, (s, a) in enumerate(given) if a is not None])


@lru_cache(maxsize=1 << 14)
def _next(given: Given, hand: tuple[Sum, ...]) -> Sum:
    """Return the next sum to ask; most children begin alike, so it is remembered."""
    return next_asked(_read(given), hand, [s for s, _ in given])


@dataclass
class Tally:
    """Pupils by habit, those of them named, and all those named with a habit not theirs."""

    pupils: dict[str, int] = field(default_factory=dict)
    named: dict[str, int] = field(default_factory=dict)
    wrong: int = 0

    def count(self, child: Child, reading: Reading) -> None:
        names = reading.named if reading.verdict is Verdict.HABIT else ()
        self.pupils[child.habit] = self.pupils.get(child.habit, 0) + 1
        self.named[child.habit] = self.named.get(child.habit, 0) + (child.habit in names)
        self.wrong += any(key != child.habit for key in names)

    @property
    def shares(self) -> dict[str, float]:
        """Per cent named, by habit."""
        return {habit: 100 * self.named[habit] / self.pupils[habit] for habit in self.pupils}

    @property
    def average(self) -> float:
        return 100 * sum(self.named.values()) / sum(self.pupils.values())

    @property
    def wrongly(self) -> float:
        """Per cent of all pupils named with a habit that is not theirs."""
        return 100 * self.wrong / sum(self.pupils.values())


def tally(children: Iterable[Child], each: int, sums: Sequence[Sum], seed: int) -> Tally:
    """Return the tally of ``each`` pupils like every one of ``children``."""
    random, found = Random(seed), Tally()
    for child in children:
        for _ in range(each):
            found.count(child, child.marked(sums, random))
    return found


def asked_tally(
    children: Iterable[Child], each: int, hand: tuple[Sum, ...], seed: int, most: int = 12
) -> tuple[float, Tally]:
    """Return how many sums ``each`` of ``children`` is asked one by one on average, and a tally."""
    random, found, steps = Random(seed), Tally(), 0
    for child in children:
        for _ in range(each):
            number, reading = child.asked(hand, random, most)
            steps += number
            found.count(child, reading)
    return steps / sum(found.pupils.values()), found
