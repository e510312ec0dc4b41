"""How pieces are made: by hand or machine, single, folded or with a back."""

from dataclasses import replace
from itertools import chain
from typing import Literal

from kitbuilder.design.load import Paper
from kitbuilder.design.style import Style
from kitbuilder.frozen import frozen
from kitbuilder.kit.records import CutWish
from kitbuilder.layout.cutting.cut_marks import with_cut_marks
from kitbuilder.layout.cutting.cut_plan import Count, CutPlan
from kitbuilder.layout.model import Sheet
from kitbuilder.layout.pieces.foot_strip import with_foot_strips
from kitbuilder.layout.pieces.hatched import with_hatched
from kitbuilder.layout.pieces.piece_sheets import piece_plan
from kitbuilder.layout.pieces.sturdy import fold_plan, two_sided, with_backs, with_folds
from kitbuilder.layout.printable import Page
from kitbuilder.number import Pieces


@frozen
class Making:
    """How pieces are made.

    ``sturdy`` is "fold" or "backs" for stiffer ones. ``kerf_mm`` is what a cutting tool takes
    away: with it there is no plan of strokes. ``slack`` is how far (across, down; mm) a back
    is shifted into register. ``file`` is the kind of the files for cutters, "svg" or "dxf", if any.
    """

    sturdy: Literal["fold", "backs"] | None = None
    kerf_mm: float = 0.0
    slack: tuple[float, float] = (0.0, 0.0)
    file: str = ""

    def plan(self, pieces: Pieces, paper: Paper, wish: CutWish) -> CutPlan | None:
        """Return the plan of cuts by hand; None where there are no pieces, or for a machine.

        Thousands have sheets of their own; of them it tells only how many go into each bag.
        """
        others = replace(pieces, thousands=0)
        if self.kerf_mm:
            return None
        if self.sturdy == "fold":
            plan = fold_plan(others, paper, wish)
        else:
            single = two_sided(paper, self.slack) if self.sturdy == "backs" else paper
            plan = piece_plan(others, single, wish)
        if plan is None or not pieces.thousands:
            return plan
        return replace(plan, bag=(Count("thousands", pieces.thousands), *plan.bag))

    def thousands(self, count: int, style: Style) -> tuple[Sheet, ...]:
        """Return the sheets of so many thousands, printed flat."""
        if not count:
            return ()
        from kitbuilder.layout.pieces.thousand import thousand_sheets

        return thousand_sheets(count, style, self.kerf_mm)

    def sheets(
        self,
        plan: CutPlan | None,
        pieces: Pieces,
        style: Style,
        wish: CutWish,
    ) -> tuple[Sheet, ...]:
        """Return the sheets of pieces: those of ``plan``, or for a machine those with kerfs."""
        pieces = replace(pieces, thousands=0)
        if self.kerf_mm:
            from kitbuilder.layout.pieces.kerf import kerf_sheets

            return kerf_sheets(pieces, style.paper, wish, self.kerf_mm)
        sheets = plan.printed if plan else ()
        if self.sturdy == "fold":
            sheets = with_folds(sheets)
        elif self.sturdy == "backs":
            sheets = with_backs(sheets)
        elif plan and wish.layers == 1:
            sheets = with_hatched(sheets, plan)
        if wish.layers > 1:
            return sheets
        inside, least = Page.upright(style.paper).inside, style.look.type_mm.least
        fronts = [with_cut_marks(sheet, inside, least) for sheet in sheets if not sheet.flip]
        bag = plan.bag if plan and wish.kits == 1 else ()
        both = with_foot_strips(fronts, bag, style)
        backs = [sheet for sheet in sheets if sheet.flip]
        return tuple(chain(*zip(both, backs, strict=True))) if backs else both
