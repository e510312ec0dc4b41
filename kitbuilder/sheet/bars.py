"""Turns a few bars, ten units wide, into hundreds and strips by few strokes.

A demand on fewer sheets than a stack holds seldom falls into panels that are all alike. But
sheets fall into bars ten units wide, and in a bar only lengths matter: a hundred is a length
of ten, a strip (a ten, or ten ones) a length of one. Strips again are bars for ones. What a
stroke does to the lengths in hand is searched breadth first, keeping the most promising.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

EFFORT = 300  # pieces times states kept after each stroke, about

State = tuple[tuple[int, int], ...]
"""(length, how many) of the bars in hand, shortest first."""


@dataclass(frozen=True, slots=True)
class Move:
    """One stroke: ``parts`` bars of ``length`` are cut at ``at``."""

    length: int
    at: int
    parts: int


@lru_cache(maxsize=512)
def fewest_moves(
    length: int, bars: int, hundreds: int, strips: int, layers: int, most: int = 40
) -> tuple[Move, ...] | None:
    """Return strokes that leave ``hundreds`` lengths of ten and ``strips`` of one, or None.

    Few, not proven to be fewest; None if ``most`` strokes are not found to be enough.
    """
    goal = _Goal(hundreds, strips, layers)
    level: dict[State, tuple[Move, ...]] = {((length, bars),): ()}
    if not goal.possible({length: bars}):
        return None
    width = max(2, min(10, EFFORT // (hundreds + strips)))
    for done in range(most + 1):
        following: dict[State, tuple[Move, ...]] = {}
        for state, moves in level.items():
            have = dict(state)
            if have.get(10, 0) >= hundreds and have.get(1, 0) >= strips:
                return moves
            if done + growth(sum(have.values()), hundreds + strips, layers) > most:
                continue
            for move, after in goal.moves(have):
                following.setdefault(after, (*moves, move))
        best = sorted(following, key=lambda state: (goal.left(dict(state)), state))[:width]
        level = {state: following[state] for state in best}
    return None


def growth(parts: int, pieces: int, layers: int) -> int:
    """Return the strokes that make at least ``pieces`` of ``parts``: each adds as many as it cuts.

    It goes through no more than ``layers`` parts, and no more than there are.
    """
    strokes = 0
    while parts < pieces:
        parts += min(parts, layers)
        strokes += 1
    return strokes


@dataclass(frozen=True, slots=True)
class _Goal:
    hundreds: int
    strips: int
    layers: int

    def possible(self, have: dict[int, int]) -> bool:
        tens = sum(length // 10 * many for length, many in have.items())
        room = sum(length * many for length, many in have.items())
        return tens >= self.hundreds and room - 10 * self.hundreds >= self.strips

    def moves(self, have: dict[int, int]) -> Iterator[tuple[Move, State]]:
        """Yield strokes through as many bars as the goal allows, and the bars after each."""
        for length, many in have.items():
            for at in self._places(have, length):
                for parts in range(min(many, self.layers), 0, -1):
                    after = dict(have)
                    after[length] -= parts
                    for half in (at, length - at):
                        after[half] = after.get(half, 0) + parts
                    if self.possible(after):
                        left = ((size, count) for size, count in after.items() if count)
                        yield Move(length, at, parts), tuple(sorted(left))
                        break

    def _places(self, have: dict[int, int], length: int) -> list[int]:
        places = {1, 2, 3, 4, 5, length // 2, *have}
        for tens in range(10, length, 10):
            places |= {tens, length - tens}
        return sorted({min(at, length - at) for at in places if 0 < at < length})

    def left(self, have: dict[int, int]) -> float:
        """Return about how many strokes are left: cuts to do, more where few bars are alike."""
        cuts = self.hundreds + self.strips - sum(have.values())
        slack = 0.0
        for length, many in have.items():
            loose = many - (self.hundreds if length == 10 else 0)
            if length > 1 and loose > 0:
                while loose < self.layers:
                    slack += (self.layers - loose) / self.layers
                    loose *= 2
        return max(0, cuts) / self.layers + slack / 3
