"""The way in to packing: a demand of pieces on the least sheets, with few strokes."""

from kitbuilder.kit.records import CutWish
from kitbuilder.layout.cutting.cut_plan import Count, CutPlan, make_plan
from kitbuilder.layout.packing.grid import KINDS, counts_of, grid_for, least_sheets
from kitbuilder.layout.packing.scissors_sheets import scissors_sheets
from kitbuilder.layout.printable import Page
from kitbuilder.number.sums import Pieces

ONE_KIT = CutWish()


def pack_pieces(demand: Pieces, page: Page, unit_mm: float, wish: CutWish = ONE_KIT) -> CutPlan:
    """Return the plan that prints and cuts ``demand`` for all kits of ``wish`` on the least sheets.

    ``unit_mm`` and the page are in mm with at most two decimals. Among plans of the least sheets
    the fewest strokes come first, then the fewest different sheets, then the shortest cut; with
    ``wish.same_sheets`` the fewest different sheets come first. Raises ``RefusedError`` for what
    no page can hold; ``ValueError`` for thousands (never packed) and for an empty demand.
    """
    if demand.thousands:
        raise ValueError(f"pack_pieces: {demand.thousands} thousands; thousands are not packed")
    if not any(demand.counts):
        raise ValueError("pack_pieces: the demand is empty")
    bag, total = counts_of(demand), counts_of(wish.total(demand))
    grid = grid_for(page, unit_mm, total)
    sheets = least_sheets(total, grid.across, grid.down)
    if wish.layers == 1:
        trees = scissors_sheets(total, grid, sheets, alike=wish.same_sheets)
    else:
        from kitbuilder.layout.packing.same_sheets import stack_alike
        from kitbuilder.layout.packing.stacking import stack_up

        stack = stack_alike if wish.same_sheets else stack_up
        trees = stack(total, grid, sheets, wish.layers)
    return make_plan(page, unit_mm, trees, tuple(map(Count, KINDS, bag)), wish)
