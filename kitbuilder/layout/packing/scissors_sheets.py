"""A demand on the least sheets, each in columns for a pair of scissors, with few cuts."""

from collections.abc import Iterator
from functools import lru_cache

from kitbuilder.layout.packing.distribute import fill_greedily, spread
from kitbuilder.layout.packing.fewest_layouts import fewest_layouts
from kitbuilder.layout.packing.grid import Counts, Grid
from kitbuilder.layout.packing.guillotine import Part, cut_types
from kitbuilder.layout.packing.scissors_columns import column_sheet

Layouts = tuple[tuple[int, Counts], ...]

TRIED = 6
"""Ways to share the demand between equally few different sheets."""

MOST_SLIM = 40
"""Sheets of which the last may need narrow columns; more are not tried."""


def scissors_sheets(
    demand: Counts, grid: Grid, sheets: int, *, alike: bool = False
) -> list[tuple[int, Part]]:
    """Return (copies, tree) pairs for ``demand`` on exactly ``sheets`` sheets.

    Few cuts come first, then few different sheets; with ``alike`` the other way round.
    """
    ways = dict.fromkeys(_ways(demand, grid, sheets, alike))
    built = [[(copies, _sheet(counts, grid)) for copies, counts in way] for way in ways]

    def rank(way: list[tuple[int, Part]]) -> tuple[int, int]:
        both = cut_types(way).total(), len(way)
        return both[::-1] if alike else both

    return min(built, key=rank)


def _sheet(counts: Counts, grid: Grid) -> Part:
    tree = _tree(counts, grid)
    if tree is None:
        raise ValueError(f"{counts} do not fit in columns on {grid}")
    return tree


@lru_cache(maxsize=2048)
def _tree(counts: Counts, grid: Grid) -> Part | None:
    return column_sheet(counts, grid)


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
