"""How to print and cut pieces: sheets with their guillotine trees, bags and spares."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from kitbuilder.frozen import frozen
from kitbuilder.kit.records import CutWish
from kitbuilder.layout.cutting.cut_tree import CutSheet, items_of, placed, strokes
from kitbuilder.layout.cutting.stack_order import number_stops
from kitbuilder.layout.model import Sheet, SheetKind
from kitbuilder.layout.packing.guillotine import Part
from kitbuilder.layout.printable import Page


@frozen
class Count:
    """How many of the things named ``what``."""

    what: str
    count: int


@frozen
class CutPlan:
    """The different sheets of pieces and their trees; checked by ``verify_cuts.check_plan``.

    ``unit_mm`` is 0 where the pieces are no plain ones. ``bag`` goes into each of the ``kits``
    bags; ``spares`` is what is left when all are filled. Up to ``layers`` parts are cut at once.
    """

    page: Page
    unit_mm: float
    kits: int
    layers: int
    cut_sheets: tuple[CutSheet, ...]
    bag: tuple[Count, ...]
    spares: tuple[Count, ...]

    @property
    def printed(self) -> tuple[Sheet, ...]:
        """The different sheets, their cuts in order and numbered."""
        return tuple(one.printed for one in self.cut_sheets)

    @property
    def sheets(self) -> int:
        """Sheets to print in all."""
        return sum(one.sheet.copies for one in self.cut_sheets)

    @property
    def strokes(self) -> int:
        """Strokes in all, trims of the margins included."""
        return strokes(self.printed, self.layers)


def make_plan(
    page: Page,
    unit_mm: float,
    trees: Sequence[tuple[int, Part]],
    bag: Sequence[Count],
    wish: CutWish,
) -> CutPlan:
    """Return the plan that cuts ``trees``: pairs of copies and a tree as large as ``page``.

    What is made beyond the bags is told as spare, on the first sheets that hold it. Raises
    ``ValueError`` where too little is made.
    """
    roots = [placed(tree) for _, tree in trees]
    made = Counter[str]()
    for (copies, _), root in zip(trees, roots, strict=True):
        for item in items_of(root):
            made[item.what] += copies
    for wanted in bag:
        made[wanted.what] -= wanted.count * wish.kits
        if made[wanted.what] < 0:
            raise ValueError(f"make_plan: {-made[wanted.what]} {wanted.what} too few")
    spares = tuple(Count(wanted.what, made[wanted.what]) for wanted in bag)
    if wish.layers > 1:
        number_stops(roots)
    sheets = []
    for number, ((copies, _), root) in enumerate(zip(trees, roots, strict=True), 1):
        items, spare = items_of(root), []
        for item in items:
            spare.append(min(copies, made[item.what]))
            made[item.what] -= spare[-1]
        sheet = Sheet(SheetKind.PIECES, number, "card", page.width, page.height, items)
        sheets.append(CutSheet(replace(sheet, copies=copies, spare=tuple(spare)), root))
    return CutPlan(page, unit_mm, wish.kits, wish.layers, tuple(sheets), tuple(bag), spares)
