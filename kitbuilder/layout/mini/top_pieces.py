"""The pieces of one sum on the top of a page, in columns, with the letters of the first cuts."""

from kitbuilder.design.style import Style
from kitbuilder.frozen import frozen
from kitbuilder.kit.records import CutWish
from kitbuilder.layout.cutting.cut_marks import CutMark, lettered_cuts, with_cut_marks
from kitbuilder.layout.cutting.cut_plan import Count, CutPlan, make_plan
from kitbuilder.layout.cutting.verify_cuts import check_plan
from kitbuilder.layout.model import Item, Sheet
from kitbuilder.layout.packing.grid import KINDS, grid_for
from kitbuilder.layout.packing.scissors_columns import Step, upright_sheet
from kitbuilder.layout.pieces.hatched import with_hatched
from kitbuilder.layout.printable import Page
from kitbuilder.number import Pieces


@frozen
class TopPieces:
    """The plan that cuts the pieces off, its sheet with its marks, and where the rest begins.

    ``foot`` is the y of the cut below them in mm; ``letters`` are those of all first cuts.
    """

    plan: CutPlan
    sheet: Sheet
    foot: float
    letters: tuple[str, ...]

    @property
    def marks(self) -> tuple[Item, ...]:
        """The letters with their scissors."""
        return tuple(item for item in self.sheet.items if isinstance(item.content, CutMark))


def top_pieces(pieces: Pieces, style: Style) -> TopPieces | None:
    """Return ``pieces`` on the top of one page, or None where they leave nothing below."""
    page = Page.upright(style.paper)
    counts = (pieces.hundreds, pieces.tens, pieces.ones)
    if not any(counts):
        return None
    tree = upright_sheet(counts, grid_for(page, style.paper.unit_mm, counts))
    if tree is None:
        return None
    bag = tuple(map(Count, KINDS, counts))
    plan = make_plan(page, style.paper.unit_mm, [(1, tree)], bag, CutWish())
    (plain,) = with_hatched(plan.printed, plan)
    sheet = with_cut_marks(plain, page.inside, style.look.type_mm.least)
    both = zip(sheet.stops, sheet.cuts, strict=True)
    foot = next((cut.y1 for stop, cut in both if stop == Step.FOOT), None)
    if foot is None:
        return None
    check_plan(plan)
    return TopPieces(plan, sheet, foot, tuple(letter for letter, _ in lettered_cuts(sheet)))
