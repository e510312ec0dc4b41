"""The plan of cuts for pieces, and the units at which they fit a page."""

from kitbuilder.design.load import Paper
from kitbuilder.errors import RefusedError, Said
from kitbuilder.kit.records import CutWish
from kitbuilder.layout.cutting.cut_plan import CutPlan
from kitbuilder.layout.cutting.verify_cuts import check_plan
from kitbuilder.layout.packing.grid import KINDS, OUTLINE, WHAT_SAID, largest_unit
from kitbuilder.layout.pieces.pack_pieces import pack_pieces
from kitbuilder.layout.printable import Page
from kitbuilder.number import Pieces


def check_unit(pieces: Pieces, paper: Paper, kerf: float = 0.0) -> None:
    """Refuse a unit at which one of ``pieces``, with a ``kerf`` in mm, does not fit ``paper``."""
    page = Page.upright(paper)
    for what in KINDS:
        limit = largest_unit(page, OUTLINE[what], kerf)
        if getattr(pieces, what) and paper.unit_mm > limit:
            unit = Said("pieces.unit", unit=paper.unit_mm)
            if kerf:
                unit = Said("pieces.unit-and-kerf", unit=paper.unit_mm, kerf=kerf)
            raise RefusedError(
                "pieces.too-large",
                paper=paper.name,
                what=WHAT_SAID[what],
                unit=unit,
                option="unit",
                most=limit,
                repair=Said("repair.unit", unit=limit),
            )


def piece_plan(pieces: Pieces, paper: Paper, wish: CutWish) -> CutPlan | None:
    """Return the checked plan that cuts ``pieces`` as wished; None where there are none.

    Raises ``RefusedError`` where a piece does not fit the page, naming the largest unit.
    """
    if not pieces.value:
        return None
    check_unit(pieces, paper)
    plan = pack_pieces(pieces, Page.upright(paper), paper.unit_mm, wish)
    check_plan(plan)
    return plan
