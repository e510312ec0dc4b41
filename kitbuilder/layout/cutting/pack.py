"""The way in to packing: a demand of pieces on the least sheets, with few strokes."""

from kitbuilder.errors import RefusedError
from kitbuilder.kit.records import CutWish
from kitbuilder.layout.cutting.cut_plan import Count, CutPlan, make_plan
from kitbuilder.layout.packing.grid import (
    KINDS,
    Counts,
    grid_for,
    least_sheets,
)
from kitbuilder.layout.packing.scissors_sheets import scissors_sheets
from kitbuilder.layout.page import Page
from kitbuilder.number.sums import Pieces

MOST_KITS = 200
MOST_LAYERS = 20


def _out_of_range(option: str, given: int, most: int) -> RefusedError:
    return RefusedError("option.range", option=option, given=given, least=1, most=most)


def pack_pieces(
    demand: Pieces,
    page: Page,
    unit_mm: float,
    *,
    kits: int = 1,
    layers: int = 1,
    same_sheets: bool = False,
    extra: Pieces = Pieces(),
) -> CutPlan:
    """Return the plan that prints and cuts ``kits`` times ``demand`` on the least sheets.

    ``extra`` pieces are added to all kits together; they come out among the spares.
    ``unit_mm`` and the page are in mm with at most two decimals; ``layers`` is how many parts
    a stroke goes through at most. Among plans of the least sheets the fewest strokes come
    first, then the fewest different sheets, then the shortest cut; with ``same_sheets`` the
    fewest different sheets come first. Raises RefusedError for what no page can hold and for
    sizes past the limits; ValueError for thousands (never packed) and for an empty demand.
    """
    if demand.thousands:
        raise ValueError(f"pack_pieces: {demand.thousands} thousands; thousands are not packed")
    if not 1 <= kits <= MOST_KITS:
        raise _out_of_range("kits", kits, MOST_KITS)
    if not 1 <= layers <= MOST_LAYERS:
        raise _out_of_range("layers", layers, MOST_LAYERS)
    bag: Counts = (demand.hundreds, demand.tens, demand.ones)
    more: Counts = (extra.hundreds, extra.tens, extra.ones)
    total: Counts = (bag[0] * kits + more[0], bag[1] * kits + more[1], bag[2] * kits + more[2])
    if not any(total):
        raise ValueError("pack_pieces: the demand is empty")
    grid = grid_for(page, unit_mm, total)
    sheets = least_sheets(total, grid.across, grid.down)
    if layers == 1:
        trees = scissors_sheets(total, grid, sheets, alike=same_sheets)
    else:
        from kitbuilder.layout.packing.same_sheets import stack_alike
        from kitbuilder.layout.packing.stacking import stack_up

        trees = (stack_alike if same_sheets else stack_up)(total, grid, sheets, layers)
    wish = CutWish(kits, layers)
    return make_plan(page, unit_mm, trees, tuple(map(Count, KINDS, bag)), wish)
