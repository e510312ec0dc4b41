"""Guillotine trees for the fewest different sheets, cut by few strokes."""

from collections.abc import Iterator

from kitbuilder.layout.packing.block_tree import Builder
from kitbuilder.layout.packing.column_block import best_block
from kitbuilder.layout.packing.fewest_layouts import fewest_layouts
from kitbuilder.layout.packing.grid import Counts, Grid
from kitbuilder.layout.packing.guillotine import Part
from kitbuilder.layout.packing.panels import divisions, panelled
from kitbuilder.layout.packing.stacking import Sheets, ranked, stack_up, whole_sheet

TRIED = 6  # ways to share the demand between equally few different sheets


def stack_alike(demand: Counts, grid: Grid, sheets: int, layers: int) -> Sheets:
    """Return trees for ``demand`` on exactly ``sheets`` sheets, as few of them different as can be.

    Among those few strokes come first, then the shortest cut.
    """
    builder = Builder(grid.unit)
    ways = [stack_up(demand, grid, sheets, layers)]
    for layouts in fewest_layouts(demand, sheets, grid.across, grid.down, TRIED):
        choices = [_trees(counts, copies, grid, layers, builder) for copies, counts in layouts]
        ways.append(
            [(copies, trees[0]) for (copies, _), trees in zip(layouts, choices, strict=True)]
        )
        if layers > 1:
            ways.append(
                [
                    (copies, min(trees, key=lambda tree: ranked([(copies, tree)], layers).rank))
                    for (copies, _), trees in zip(layouts, choices, strict=True)
                ]
            )
    return min(ways, key=lambda way: (len(way), ranked(way, layers).rank))


def _trees(counts: Counts, copies: int, grid: Grid, layers: int, builder: Builder) -> list[Part]:
    """Return ways to cut a sheet that holds ``counts``: in one block, then others."""
    trees = [whole_sheet(builder, grid, counts)]
    if layers > 1 and copies == 1:
        trees += [tree for _, tree in stack_up(counts, grid, 1, layers)]
    elif layers > 1:
        trees += _panelled(counts, copies, grid, layers, builder)
    return trees


def _panelled(
    counts: Counts, copies: int, grid: Grid, layers: int, builder: Builder
) -> Iterator[Part]:
    """Yield the sheet in panels that are all alike, a few of them left empty."""
    for division in divisions(copies, layers):
        for filled in range(division.panels // 2 + 1, division.panels + 1):
            share = tuple(-(-count // filled) for count in counts)
            block = best_block((share[0], share[1], share[2]), *division.room(grid))
            if block:
                panel = builder.block(block)
                panels = [panel] * filled + [None] * (division.panels - filled)
                yield panelled(grid, division, block.across, block.down, panels)
