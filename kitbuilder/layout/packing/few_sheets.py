"""Turns a demand on fewer sheets than a stack holds into trees, by searches for few strokes."""

from collections.abc import Iterator

from kitbuilder.layout.packing.bar_layout import barred, barred_sheets
from kitbuilder.layout.packing.block_tree import Builder
from kitbuilder.layout.packing.grid import Counts, Grid
from kitbuilder.layout.packing.guillotine import Part, cut_types, strokes_needed
from kitbuilder.layout.packing.hand_sheets import hand_sheets
from kitbuilder.layout.packing.hands import followed
from kitbuilder.layout.packing.lower_bound import least_strokes

MOST_IN_BARS = 400  # pieces; beyond, panels lose next to nothing
MOST_FOLLOWED = 100  # pieces; beyond, bars lose little
FAR = 1.15  # times the bound, from where the parts in hand are followed one by one


def few_sheets(
    demand: Counts, grid: Grid, sheets: int, layers: int, most: int, builder: Builder
) -> Iterator[list[tuple[int, Part]]]:
    """Yield (copies, tree) pairs for ``sheets`` sheets, cut by ``most`` strokes at most."""
    if sum(demand) <= MOST_IN_BARS:
        for bars in barred(demand, grid, sheets, layers, most):
            made = barred_sheets(bars, demand, grid, sheets, builder)
            if made:
                most = min(most, strokes_needed(cut_types(made), layers))
                yield made
    least = least_strokes(sum(demand), sheets, layers, grid.trims)
    if sum(demand) <= MOST_FOLLOWED and most > FAR * least:
        way = followed(demand, grid, sheets, layers, most - 1)
        made = hand_sheets(way, demand, grid, sheets, builder) if way else []
        if made:
            yield made
