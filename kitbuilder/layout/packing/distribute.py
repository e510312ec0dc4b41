"""How a demand is distributed over the least sheets, with few offcuts and few layouts."""

from collections.abc import Iterator
from itertools import chain

from kitbuilder.frozen import frozen
from kitbuilder.layout.packing.column_block import best_block
from kitbuilder.layout.packing.grid import Counts, holds, least_sheets

NEAREST = 12  # blocks close to an even share that are tried
TRIALS = 40  # ways of the first sheet tried before the best so far is taken

Layouts = tuple[tuple[int, Counts], ...]
"""Pairs of (copies, counts on each copy)."""


@frozen
class Spread:
    """A demand spread over sheets; ``offcuts`` counts inner offcuts over all copies."""

    layouts: Layouts
    offcuts: int

    @property
    def rank(self) -> tuple[int, int]:
        """Offcuts, then different sheets; lower is better."""
        return self.offcuts, len(self.layouts)


def fill_greedily(
    demand: Counts, sheets: int, across: int, down: int
) -> tuple[Layouts, Counts, int]:
    """Fill each sheet with hundreds, then tens, then ones; return also pieces and sheets left.

    It never needs more than ``grid.least_sheets``, because the three bounds are nested.
    """
    most, strips, area = holds(across, down)
    left = demand
    filled: list[tuple[int, Counts]] = []
    while sheets and any(left):
        h = min(left[0], most)
        t = min(left[1], strips - 10 * h)
        o = min(left[2], area - 100 * h - 10 * t)
        if not (h or t or o):
            break
        alike = min(have // need for have, need in zip(left, (h, t, o), strict=True) if need)
        copies = min(alike, sheets)
        filled.append((copies, (h, t, o)))
        left = _less(left, (h, t, o), copies)
        sheets -= copies
    return tuple(filled), left, sheets


def spread_greedily(demand: Counts, sheets: int, across: int, down: int) -> Spread | None:
    """Return the spread by :func:`fill_greedily`; None where it leaves a piece or a sheet over."""
    filled, left, over = fill_greedily(demand, sheets, across, down)
    return None if over or any(left) else _spread(filled, across, down)


def spread(demand: Counts, sheets: int, across: int, down: int) -> Spread | None:
    """Return a spread over exactly ``sheets`` with as few inner offcuts as is found.

    None if the demand does not fit, or no way is found that leaves no sheet empty; on the least
    sheets there is always one.

    Tried are sheets full of hundreds with whole bands of tens beside them, and blocks near an
    even share; each is repeated as often as it can be, and what is left is spread again.
    """
    return _search(demand, sheets, across, down, (TRIALS, TRIALS // 6))


def _search(
    demand: Counts,
    sheets: int,
    across: int,
    down: int,
    trials: tuple[int, ...],
) -> Spread | None:
    """Return the best spread found; ``trials`` are for the first layout, the second, and so on."""
    best = spread_greedily(demand, sheets, across, down)
    if sheets == 1 or not trials:
        return best
    tried = 0
    for main in _mains(demand, sheets, across, down):
        for copies in _repeats(main, demand, sheets, across, down):
            left = _less(demand, main, copies)
            rest: Spread | None = Spread((), 0)
            if any(left):
                rest = _search(left, sheets - copies, across, down, trials[1:])
            tried += 1
            if rest is None:
                continue
            found = Spread(_merged(((copies, main), *rest.layouts)), rest.offcuts)
            if best is None or found.rank < best.rank:
                best = found
        if tried >= trials[0] or (best and best.rank <= (0, 2)):
            break
    return best


def _repeats(main: Counts, demand: Counts, sheets: int, across: int, down: int) -> list[int]:
    """Return how often ``main`` may be repeated: as often as can be, and once less."""
    most = min(have // need for have, need in zip(demand, main, strict=True) if need)
    if most >= sheets and _less(demand, main, sheets) == (0, 0, 0):
        return [sheets]
    most = min(most, sheets - 1)
    return [
        copies
        for copies in (most, most - 1)
        if copies > 0
        and any(left := _less(demand, main, copies))
        and least_sheets(left, across, down) <= sheets - copies <= sum(left)
    ]


def _mains(demand: Counts, sheets: int, across: int, down: int) -> Iterator[Counts]:
    """Yield counts that fill a block wholly, the most promising first, each once."""
    seen: dict[Counts, None] = {}
    for counts in chain(_banded(across, down), _even(demand, sheets, across, down)):
        fits = all(0 <= need <= have for need, have in zip(counts, demand, strict=True))
        if fits and any(counts) and counts not in seen:
            seen[counts] = None
            yield counts


def _banded(across: int, down: int) -> Iterator[Counts]:
    """Yield full sheets of hundreds beside whole bands of tens, the widest band first."""
    most = holds(across, down)[0]
    if not most:
        return
    bands = {0}
    for a, b in ((across, down), (down, across)):
        bands |= {a // 10 * rows for rows in range(1, b % 10 + 1)}
    for tens in sorted(bands, reverse=True):
        yield most, tens, 0


def _even(demand: Counts, sheets: int, across: int, down: int) -> Iterator[Counts]:
    """Yield the full blocks nearest to an even share of the demand."""
    hundreds, tens, ones = demand
    shares = {-(-hundreds // sheets), hundreds // sheets}
    share = (100 * hundreds + 10 * tens + ones) / sheets
    near: dict[Counts, float] = {}
    for a, b in ((across, down), (down, across)):
        for wide in range(a // 10 + 1):
            for narrow in range(min(9, a - 10 * wide) + 1):
                middle = round(share / max(1, 10 * wide + narrow))
                for rows in range(max(1, middle - 3), min(b, middle + 3) + 1):
                    for held in sorted(shares):
                        if held > wide * (rows // 10):
                            continue
                        corner = narrow * (rows % 10)
                        strips = wide * rows - 10 * held + narrow * (rows // 10)
                        loose = min(strips, max(0, round((ones / sheets - corner) / 10)))
                        counts = (held, strips - loose, corner + 10 * loose)
                        gap = abs(counts[1] - tens / sheets) + abs(counts[2] - ones / sheets) / 10
                        near[counts] = gap
    yield from sorted(near, key=lambda counts: (near[counts], counts))[:NEAREST]


def _spread(filled: Layouts, across: int, down: int) -> Spread:
    offcuts = 0
    for copies, counts in filled:
        block = best_block(counts, across, down)
        if block is None:
            raise ValueError(f"no block for {counts} within {across} by {down}")
        offcuts += copies * block.offcuts
    return Spread(_merged(filled), offcuts)


def _merged(filled: Layouts) -> Layouts:
    merged: dict[Counts, int] = {}
    for copies, counts in filled:
        merged[counts] = merged.get(counts, 0) + copies
    return tuple((copies, counts) for counts, copies in merged.items())


def _less(demand: Counts, counts: Counts, copies: int = 1) -> Counts:
    return (
        demand[0] - copies * counts[0],
        demand[1] - copies * counts[1],
        demand[2] - copies * counts[2],
    )
