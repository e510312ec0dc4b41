"""Turns a stock of pieces into sheets of card, with their cuts in order."""

from kitbuilder.designs import Paper
from kitbuilder.number import Pieces
from kitbuilder.sheet.checks import check_plan
from kitbuilder.sheet.grid import Page
from kitbuilder.sheet.packing import pack_pieces
from kitbuilder.sheet.plan import CutPlan
from kitbuilder.sheet.records import Sheet


def piece_plan(pieces: Pieces, paper: Paper, kits: int = 1, layers: int = 1) -> CutPlan | None:
    """Return the checked plan that cuts ``kits`` times ``pieces``; None where there are none.

    Raises ``RefusedError`` where a piece does not fit the page, naming the largest unit.
    """
    if not pieces.value:
        return None
    m = paper.margins_mm
    page = Page(paper.width_mm, paper.height_mm, m.left, m.right, m.top, m.bottom)
    plan = pack_pieces(pieces, page, paper.unit_mm, kits=kits, layers=layers)
    check_plan(plan)
    return plan


def piece_sheets(plan: CutPlan | None) -> tuple[Sheet, ...]:
    """Return the different sheets of ``plan``."""
    if plan is None:
        return ()
    return tuple(
        Sheet(
            "pieces",
            number,
            "card",
            plan.page.width,
            plan.page.height,
            layout.items,
            layout.cuts,
            layout.copies,
        )
        for number, layout in enumerate(plan.layouts, 1)
    )
