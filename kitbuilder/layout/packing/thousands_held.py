"""Thousands, printed flat as 20 × 50 units, on the least sheets.

A grid of a × b units, cut from edge to edge, holds as many thousands as a grid of ⌊a/10⌋ × ⌊b/10⌋
cells holds blocks of 2 × 5 cells. Proof: moved to the grid's lines (push all parts left and up),
a thousand covers exactly 2 × 5 of the points whose coordinates are both 9 more than a multiple of
ten, and every edge-to-edge cut between units is one between points; so no more fit, and at the
multiples of ten so many do.
Full sheets of thousands and the least sheets of all other pieces are then the least where nothing
else finds room beside thousands; on A4 at 5 mm so many are six for a full kit (see the tests).
"""

from functools import lru_cache
from typing import NamedTuple

FLAT = (20, 50)
"""Short and long side of a thousand printed flat, in units."""

_SHORT, _LONG = FLAT[0] // 10, FLAT[1] // 10


class PlacedThousand(NamedTuple):
    """A thousand on the grid, in units from its left and top."""

    x: int
    y: int
    width: int
    height: int


def thousands_held(across: int, down: int) -> int:
    """Return how many thousands a grid of so many units holds, cut from edge to edge."""
    return len(_blocks(across // 10, down // 10))


def thousands_on(across: int, down: int, count: int) -> tuple[PlacedThousand, ...]:
    """Return where the first ``count`` thousands stand on a grid of so many units."""
    blocks = sorted(_blocks(across // 10, down // 10), key=lambda block: (block[1], block[0]))
    return tuple(PlacedThousand(*(10 * side for side in block)) for block in blocks[:count])


@lru_cache(4096)
def _blocks(across: int, down: int) -> tuple[tuple[int, int, int, int], ...]:
    """Return the most blocks of 2 × 5 cells that edge-to-edge cuts free from so many cells."""
    if (across, down) in ((_SHORT, _LONG), (_LONG, _SHORT)):
        return ((0, 0, across, down),)
    if min(across, down) < _SHORT or max(across, down) < _LONG:
        return ()
    ways = [
        (*_blocks(x, down), *((a + x, b, w, h) for a, b, w, h in _blocks(across - x, down)))
        for x in range(across - 1, 0, -1)
    ]
    ways += [
        (*_blocks(across, y), *((a, b + y, w, h) for a, b, w, h in _blocks(across, down - y)))
        for y in range(down - 1, 0, -1)
    ]
    return max(ways, key=len)
