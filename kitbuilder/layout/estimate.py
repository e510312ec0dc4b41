"""What printing and cutting takes: sheets, cuts, minutes, ink, weight and cost."""

from collections.abc import Sequence
from dataclasses import replace
from math import fsum

from kitbuilder.counting import nearest
from kitbuilder.frozen import frozen
from kitbuilder.kit.records import EstimateWish
from kitbuilder.layout.cutting.cut_tree import strokes
from kitbuilder.layout.model import Sheet, SheetKind

FOLD_MINUTES = 2
"""Minutes in which a thousand is folded and has its band glued (from memory: about two)."""


@frozen
class Estimate:
    """What printing and cutting everything takes: sheets of card and of paper, and the rest.

    ``cuts`` are straight cuts, a stack counted once, at ``wish.cuts_per_minute``. ``ink_mm2`` is
    the covered area of all copies of all sheets but the print run, whose words tell it.
    ``folded`` thousands are to be folded, which takes time as well.
    ``card_grams`` and ``cost`` are None where no grammage and no price were given.
    """

    wish: EstimateWish
    card: int
    paper: int
    cuts: int
    ink_mm2: float
    ink_per_cent: float
    card_grams: float | None
    cost: float | None
    folded: int = 0

    @property
    def fold_minutes(self) -> int:
        """Minutes of folding thousands and of putting bands round them."""
        return FOLD_MINUTES * self.folded

    @property
    def minutes(self) -> float:
        """Minutes of cutting."""
        return self.cuts / self.wish.cuts_per_minute

    @property
    def whole_minutes(self) -> int:
        """Minutes of cutting as they are told: at least one where there is a cut."""
        return max(1, nearest(self.minutes)) if self.cuts else 0

    def with_paper(self, sheets: int) -> "Estimate":
        """Return the estimate with so many more sheets of paper to print."""
        paper = self.paper + sheets
        return replace(self, paper=paper, cost=_cost(self.card + paper, self.wish))


def estimate(
    sheets: Sequence[Sheet],
    inks: Sequence[float],
    layers: int,
    wish: EstimateWish,
) -> Estimate:
    """Return the estimate for ``sheets``, whose marks cover ``inks`` mm² each.

    Cuts are counted by ``cut_tree.strokes``, up to ``layers`` parts at a time. Card weighs its
    area times its grammage in g/m² (ISO 536). The print run itself counts as paper, but its ink
    is left out. It is summed exactly: Python 3.12 and 3.11 differ in how they round on the way.
    """
    run = sum(sheet.kind == SheetKind.PRINT_RUN for sheet in sheets)
    inks = [
        ink for ink, sheet in zip(inks, sheets, strict=True) if sheet.kind != SheetKind.PRINT_RUN
    ]
    sheets = [sheet for sheet in sheets if sheet.kind != SheetKind.PRINT_RUN]
    fronts = [sheet for sheet in sheets if sheet.flip is None]
    copies = {
        stock: sum(sheet.copies for sheet in fronts if sheet.stock == stock)
        for stock in ("card", "paper")
    }
    area = sum(sheet.width * sheet.height * sheet.copies for sheet in sheets)
    ink = fsum(ink * sheet.copies for ink, sheet in zip(inks, sheets, strict=True))
    card_area = sum(s.width * s.height * s.copies for s in fronts if s.stock == "card")
    grams = None if wish.grammage is None else round(card_area / 1e6 * wish.grammage, 1)
    takes = Estimate(
        wish,
        copies["card"],
        copies["paper"],
        strokes(fronts, layers),
        round(ink, 1),
        round(100 * ink / area, 2) if area else 0.0,
        grams,
        _cost(sum(copies.values()), wish),
        sum(s.copies for s in fronts for item in s.items if item.what == "thousand"),
    )
    return takes.with_paper(run)


def printed_now(sheets: Sequence[Sheet], layers: int) -> Estimate:
    """Return what ``sheets`` take before the first use; what is printed only later is left out.

    Of ink and cost it tells nothing.
    """
    now = [sheet for sheet in sheets if not sheet.later]
    return estimate(now, [0.0] * len(now), layers, EstimateWish())


def _cost(sheets: int, wish: EstimateWish) -> float | None:
    return None if wish.per_sheet is None else round(sheets * wish.per_sheet, 2)
