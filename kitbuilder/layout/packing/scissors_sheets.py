"""A demand on the least sheets, each in columns for a pair of scissors, with few cuts."""

from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache

from kitbuilder.layout.packing.distribute import fill_greedily, spread
from kitbuilder.layout.packing.fewest_layouts import fewest_layouts
from kitbuilder.layout.packing.grid import Counts, Grid, holds, needs
from kitbuilder.layout.packing.guillotine import Part, cut_types
from kitbuilder.layout.packing.scissors_columns import LETTER_ROOM, Step, column_sheet

DEARER = 1.1
"""How many cuts a way may take, in parts of the fewest, if every line has room for its letter."""

Layouts = tuple[tuple[int, Counts], ...]

TRIED = 6
"""Ways to share the demand between equally few different sheets."""

MOST_SLIM = 40
"""Sheets of which the last may need narrow columns; more are not tried."""


def scissors_sheets(
    demand: Counts, grid: Grid, sheets: int, *, alike: bool = False
) -> list[tuple[int, Part]]:
    """Return (copies, tree) pairs for ``demand`` on exactly ``sheets`` sheets.

    Few cuts come first, then few different sheets; with ``alike`` the other way round. For a
    few cuts more every sheet has room for the letters of its lines and for a foot.
    """

    def rank(way: list[tuple[int, Part]]) -> tuple[int, int]:
        both = cut_types(way).total(), len(way)
        return both[::-1] if alike else both

    best = min(_built(_ways(demand, grid, sheets, alike), grid), key=rank)
    low = replace(grid, down=min(grid.down, _lettered_rows(grid)))
    if _lettered(best) or not _enough(demand, sheets, low):
        return best
    most = DEARER * cut_types(best).total()
    lettered = _built(_ways(demand, low, sheets, alike), low, footed=True)
    return min((w for w in lettered if cut_types(w).total() <= most), key=rank, default=best)


def _built(
    ways: Iterator[Layouts], grid: Grid, *, footed: bool = False
) -> list[list[tuple[int, Part]]]:
    """Return copies and trees for each of ``ways`` of which every sheet can be built."""
    found = [[(n, _tree(counts, grid, footed)) for n, counts in way] for way in dict.fromkeys(ways)]
    return [[(n, tree) for n, tree in way if tree] for way in found if all(t for _, t in way)]


def _lettered_rows(grid: Grid) -> int:
    """Return how many rows leave room for letters above and below them."""
    return (grid.height - grid.y - grid.bottom - 2 * LETTER_ROOM) // grid.unit


def _lettered(way: list[tuple[int, Part]]) -> bool:
    """Say whether every sheet of ``way`` has a foot, and so room for the letters of its lines."""
    return all(tree.step == Step.FOOT for _, tree in way)


@lru_cache(maxsize=2048)
def _tree(counts: Counts, grid: Grid, footed: bool) -> Part | None:
    return column_sheet(counts, grid, footed=footed)


def _ways(demand: Counts, grid: Grid, sheets: int, alike: bool) -> Iterator[Layouts]:
    """Yield what each sheet may hold: as few of them as can be need a narrow column."""
    if alike:
        yield from fewest_layouts(demand, sheets, grid.across, grid.down, TRIED)
    found = spread(demand, sheets, grid.across, grid.down)
    if found:
        yield found.layouts
    for slim in (
        (grid.across // 10 * 10, grid.down),
        (grid.across, grid.down // 10 * 10),
        (grid.across, grid.down),
    ):
        for many in range(sheets, max(-1, sheets - MOST_SLIM), -1):
            first, left, over = fill_greedily(demand, many, *slim)
            rest, left, more = fill_greedily(left, sheets - many, grid.across, grid.down)
            if not (any(left) or over or more):
                yield (*first, *rest)
                break


def _enough(demand: Counts, sheets: int, grid: Grid) -> bool:
    """Say whether so many sheets of ``grid`` hold ``demand``."""
    room = holds(grid.across, grid.down)
    return all(need <= sheets * most for need, most in zip(needs(demand), room, strict=True))
