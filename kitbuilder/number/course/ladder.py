"""Turns days of practice into sums: kinds of sums from easy to hard, then mixed."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from random import Random

from kitbuilder.number.choice.pick import stream_of
from kitbuilder.number.choice.pool import Wish
from kitbuilder.number.sums import Sum

WEEK = timedelta(days=7)


@dataclass(frozen=True, slots=True)
class Rung:
    """A kind of sum: the places of the whole, and the exchange pattern's name."""

    places: int
    pattern: str


def rungs(places: int) -> tuple[Rung, ...]:
    """Return the kinds of sums with exchanges up to ``places`` (2 or 3), easy to hard."""
    two = (Rung(2, "ones"),)
    three = tuple(Rung(3, name) for name in ("ones", "tens", "both", "across-zero"))
    return two if places == 2 else two + three


class Ladder:
    """Gives the sums of each day: up the rungs for three fifths of the days, then mixed.

    With fewer days than rungs each day climbs one, and ``left_out`` holds those not reached.
    """

    def __init__(self, kinds: tuple[Rung, ...], days: int, random: Random) -> None:
        self._climb = min(days, max(len(kinds), days * 3 // 5))
        self._rungs = kinds[: self._climb]
        self.left_out = kinds[self._climb :]
        self._random = random
        self._bag: list[Rung] = []
        self._streams: dict[tuple[Rung, bool], Iterator[Sum]] = {}
        self._used: dict[Sum, date] = {}

    def with_pieces(self, number: int) -> bool:
        """Say whether day ``number`` (from 0) uses pieces: while climbing, then every other."""
        return number < self._climb or (number - self._climb) % 2 == 0

    def sums(self, number: int, when: date, count: int, *, tell: bool) -> tuple[Sum, ...]:
        """Return the sums of day ``number`` (from 0), a new rung's first.

        While climbing, every second sum is of the newest rung, the others of any rung so far.
        ``tell``: only sums that tell mistakes apart.
        """
        newest = number * len(self._rungs) // self._climb
        if newest >= len(self._rungs):
            return tuple(self._draw(self._mixed(self._rungs), when, tell) for _ in range(count))
        known = self._rungs[: newest + 1]
        return tuple(
            self._draw(self._mixed(known) if at % 2 else known[-1], when, tell)
            for at in range(count)
        )

    def _mixed(self, known: tuple[Rung, ...]) -> Rung:
        """Return rungs in a shuffled order, each once before any comes again."""
        if not self._bag:
            self._bag = list(known)
            self._random.shuffle(self._bag)
        return self._bag.pop()

    def _draw(self, rung: Rung, when: date, tell: bool) -> Sum:
        stream = self._streams.setdefault((rung, tell), self._endless(rung, tell))
        sum_ = next(s for s in stream if when - self._used.get(s, date.min) >= WEEK)
        self._used[sum_] = when
        return sum_

    def _endless(self, rung: Rung, tell: bool) -> Iterator[Sum]:
        seed = self._random.getrandbits(32)
        while True:
            yield from stream_of(Wish(rung.places, (rung.pattern,), telling=tell), Random(seed))
