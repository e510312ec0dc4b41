"""The sums that meet a wish: counted exactly, each found by its number."""

from bisect import bisect_right
from functools import cache
from itertools import accumulate
from typing import NamedTuple

from kitbuilder.frozen import frozen
from kitbuilder.number.choice.patterns import BY_MASKS, PATTERNS, Pattern
from kitbuilder.number.exchange import work
from kitbuilder.number.facts import Fact
from kitbuilder.number.sums import PLACES


@frozen
class Wish:
    """Which sums are wanted.

    ``places``: of the whole, 2 to 4; the part has as many or one fewer, and 13 − 5, being a
    small fact itself, is no sum. ``patterns``: names
    from ``PATTERNS``, any of which will do. ``below``: every whole is smaller than this.
    ``telling``: only sums in which every habit that shows has a wrong answer of its own. Sums in
    which a column is short by exactly 5, where two mistakes give one answer, are none.
    """

    places: int = 3
    patterns: tuple[str, ...] = PATTERNS[1:]
    below: int = 10 ** len(PLACES)
    telling: bool = False

    def __post_init__(self) -> None:
        if not 2 <= self.places <= len(PLACES):
            raise ValueError(f"Wish.places is {self.places}; it must be 2 to {len(PLACES)}")
        if not self.patterns or not set(self.patterns) <= set(PATTERNS):
            raise ValueError(f"Wish.patterns is {self.patterns}; names must be of {PATTERNS}")
        if self.below < 0:
            raise ValueError(f"Wish.below is {self.below}; it must be 0 or more")


Wants = tuple[Fact | None, ...]
"""The fact each column must hold, ones first; None, or nothing said, where any will do."""


class _State(NamedTuple):
    """How far a sum is built, ones first: all that the columns to come need to know.

    ``receives`` and ``crossed`` are bits as in ``patterns.masks``. ``reaches``: the last digits
    of the whole are not below those of the ceiling. ``digit``: the part has a digit other than
    0 in the place before. ``left``: something is left in a place so far. ``wants``: the fact
    each column from here on must hold, None where any will do.
    """

    place: int = 0
    receives: int = 0
    crossed: int = 0
    reaches: bool = True
    digit: bool = False
    left: bool = False
    wants: Wants = ()


class Pool:
    """All sums of a wish, leaving ``telling`` aside, numbered from 0 in a fixed order.

    The numbering goes through the columns as the written method does. For each state it is
    known how many sums lead on from it, so the count is exact and nothing is tried in vain.
    ``wants`` narrows the pool to sums that hold the given fact in the given column.
    """

    def __init__(self, wish: Wish) -> None:
        self._wish = wish
        self._size = cache(self._find_size)
        self._ways = cache(self._find_ways)

    def count(self, wants: Wants = ()) -> int:
        """Return how many sums there are."""
        return self._size(_State(wants=wants))

    def at(self, number: int, wants: Wants = ()) -> tuple[int, int]:
        """Return (whole, part) of the sum with this number, 0 to ``count`` − 1."""
        if not 0 <= number < self.count(wants):
            raise ValueError(f"Pool.at: number is {number}; it must be below {self.count(wants)}")
        state = _State(wants=wants)
        whole = part = 0
        for place in range(self._wish.places):
            ways, ends = self._ways(state)
            at = bisect_right(ends, number)
            number -= ends[at - 1] if at else 0
            top, bottom, state = ways[at]
            whole += top * 10**place
            part += bottom * 10**place
        return whole, part

    def patterns(self) -> tuple[Pattern, ...]:
        """Return the exchange patterns that occur in the pool, each once."""
        states = {_State()} if self.count() else set()
        for _ in range(self._wish.places):
            states = {after for state in states for _, _, after in self._ways(state)[0]}
        ends = sorted({(state.receives, state.crossed) for state in states})
        return tuple(BY_MASKS[end] for end in ends)

    def _find_size(self, state: _State) -> int:
        if state.place < self._wish.places:
            ends = self._ways(state)[1]
            return ends[-1] if ends else 0
        if BY_MASKS[state.receives, state.crossed].name not in self._wish.patterns:
            return 0
        limited = self._wish.below < 10**self._wish.places
        return int(state.left and not (limited and state.reaches))

    def _find_ways(self, state: _State) -> tuple[list[tuple[int, int, _State]], list[int]]:
        """Return the columns that lead on to a sum, and the number each one's sums end at."""
        ways = []
        want = state.wants[0] if state.wants else None
        for top in range(10):
            for bottom in (want.part,) if want else range(10):
                after = self._after(state, top, bottom)
                if after and self._size(after):
                    ways.append((top, bottom, after))
        return ways, list(accumulate(self._size(after) for _, _, after in ways))

    def _after(self, state: _State, top: int, bottom: int) -> _State | None:
        place = state.place
        lent = state.receives >> place - 1 & 1 if place else 0
        held, lends = work(top, bottom, lent)
        if bottom - top == 5:
            return None
        want = state.wants[0] if state.wants else None
        if want and (held, bottom) != (want.whole, want.part):
            return None
        last = place == self._wish.places - 1
        if last and (lends or not top or not (bottom or state.digit)):
            return None
        if last and place == 1 and top == 1 and not bottom:
            return None
        limit = self._wish.below // 10**place % 10
        return _State(
            place + 1,
            state.receives | lends << place,
            state.crossed | (lent and lends and not top) << place,
            top > limit or (top == limit and state.reaches),
            bottom > 0,
            state.left or held > bottom,
            state.wants[1:] if any(state.wants[1:]) else (),
        )
