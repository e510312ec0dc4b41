"""The bar search: few strokes that cut bars of one width into lengths of ten and of one.

A demand on fewer sheets than a stack holds seldom falls into panels that are all alike. But
sheets fall into bars, and in a bar only lengths matter: if it is ten wide, a hundred is a length
of ten and a ten a length of one; if it is one wide, a ten is a length of ten and a one a length
of one. What a stroke does to the lengths in hand is searched breadth first, keeping the most
promising.
"""

from collections.abc import Iterator
from functools import lru_cache

from kitbuilder.frozen import frozen

EFFORT = 300  # pieces times states kept after each stroke, about

State = tuple[tuple[int, int], ...]
"""(length, how many) of the bars in hand, shortest first."""


@frozen
class BarMove:
    """One stroke: ``parts`` bars of ``length`` are cut at ``at``."""

    length: int
    at: int
    parts: int


@lru_cache(maxsize=512)
def fewest_moves(
    length: int, bars: int, hundreds: int, strips: int, layers: int, most: int = 40
) -> tuple[BarMove, ...] | None:
    """Return strokes that leave ``hundreds`` lengths of ten and ``strips`` of one, or None.

    Few, not proven to be fewest; None if ``most`` strokes are not found to be enough.
    """
    goal = _Goal(hundreds, strips, layers)
    level: dict[State, tuple[BarMove, ...]] = {((length, bars),): ()}
    if not goal.possible({length: bars}):
        return None
    width = max(2, min(10, EFFORT // (hundreds + strips)))
    for done in range(most + 1):
        following: dict[State, tuple[BarMove, ...]] = {}
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
    """Return the strokes that make at least ``pieces`` of ``parts``."""
    strokes = 0
    while parts < pieces:
        parts += min(parts, layers)
        strokes += 1
    return strokes


def short(count: int, layers: int) -> float:
    """Return how far strokes through ``count`` parts, then twice as many, fall short of K."""
    found = 0.0
    while 0 < count < layers:
        found += (layers - count) / layers
        count *= 2
    return found


@frozen
class _Goal:
    hundreds: int
    strips: int
    layers: int

    def possible(self, have: dict[int, int]) -> bool:
        tens = sum(length // 10 * many for length, many in have.items())
        room = sum(length * many for length, many in have.items())
        return tens >= self.hundreds and room - 10 * self.hundreds >= self.strips

    def moves(self, have: dict[int, int]) -> Iterator[tuple[BarMove, State]]:
        """Yield strokes through as many bars as the goal allows, and the bars after each."""
        spare = sum(length // 10 * many for length, many in have.items()) - self.hundreds
        for length, many in have.items():
            for at in self._places(have, length):
                parts = min(many, self.layers)
                if length // 10 > at // 10 + (length - at) // 10:  # it costs a hundred's room
                    parts = min(parts, spare)
                if not parts:
                    continue
                after = dict(have)
                after[length] -= parts
                for half in (at, length - at):
                    after[half] = after.get(half, 0) + parts
                left = ((size, count) for size, count in after.items() if count)
                yield BarMove(length, at, parts), tuple(sorted(left))

    def _places(self, have: dict[int, int], length: int) -> list[int]:
        places = {1, 2, 3, 4, 5, length // 2, *have}
        for tens in range(10, length, 10):
            places |= {tens, tens + 1, tens + 2, length - tens}
        return sorted({min(at, length - at) for at in places if 0 < at < length})

    def left(self, have: dict[int, int]) -> float:
        """Return about how many strokes are left: cuts to do, more where few bars are alike."""
        lacking = max(0, self.hundreds - have.get(10, 0)) + max(0, self.strips - have.get(1, 0))
        cuts = max(self.hundreds + self.strips - sum(have.values()), lacking / 2)
        slack = 0.0
        for length, many in have.items():
            loose = many - (self.hundreds if length == 10 else 0)
            if length > 1 and loose > 0:
                slack += short(loose, self.layers)
        return cuts / self.layers + slack / 3
