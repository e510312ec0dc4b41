"""Sturdier pieces: folded double and glued, or with grids on both sides.

A folded hundred is printed as two hundreds side by side, a folded ten as two tens; the line
between them is folded. Sheets are filled one by one, large pieces first: few, not proven least.
"""

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import replace

from kitbuilder.design.load import Margins, Paper
from kitbuilder.errors import RefusedError, Said
from kitbuilder.kit.records import CutWish
from kitbuilder.layout.cutting.cut_plan import Count, CutPlan, make_plan
from kitbuilder.layout.cutting.folded_pieces import FOLDED, fold_line
from kitbuilder.layout.cutting.verify_cuts import check_plan
from kitbuilder.layout.model import Cut, Sheet
from kitbuilder.layout.packing.grid import Counts, Grid, counts_of, largest_unit
from kitbuilder.layout.packing.guillotine import Part
from kitbuilder.layout.packing.scissors_columns import DOUBLED, column_sheet, fits
from kitbuilder.layout.printable import Page
from kitbuilder.number import Pieces


def fold_plan(pieces: Pieces, paper: Paper, wish: CutWish) -> CutPlan | None:
    """Return the checked plan that cuts ``pieces``, hundreds and tens doubled for folding.

    None where there are none. Raises ``RefusedError`` where a folded piece does not fit.
    """
    if not pieces.value:
        return None
    page = Page.upright(paper)
    grid = Grid.of(page, paper.unit_mm)
    bag, need = counts_of(pieces), [*counts_of(wish.total(pieces))]
    for count, what, one in zip(
        need, DOUBLED.names, ((1, 0, 0), (0, 1, 0), (0, 0, 1)), strict=True
    ):
        if count and not fits(one, grid, DOUBLED):
            most = largest_unit(page, FOLDED.get(what, (1, 1)))
            raise RefusedError(
                "pieces.doubled",
                unit=paper.unit_mm,
                paper=paper.name,
                option="unit",
                most=most,
                other="sturdy",
            )
    trees: list[tuple[int, Part]] = []
    while any(need):
        held = _most(need, grid)
        tree = column_sheet(held, grid, DOUBLED)
        if tree is None:
            raise ValueError(f"fold_plan: {held} do not fit")
        copies = min(have // each for have, each in zip(need, held, strict=True) if each)
        need = [have - copies * each for have, each in zip(need, held, strict=True)]
        trees.append((copies, tree))
    counts = [Count(what, count) for what, count in zip(DOUBLED.names, bag, strict=True)]
    plan = make_plan(page, 0, trees, counts, wish)
    check_plan(plan)
    return plan


def _most(need: Sequence[int], grid: Grid) -> Counts:
    """Return as much of ``need`` as one sheet holds, larger pieces first."""
    held = [0, 0, 0]
    for kind, count in enumerate(need):

        def full(more: int, kind: int = kind) -> bool:
            counts = (*held[:kind], more, *held[kind + 1 :])
            return not fits((counts[0], counts[1], counts[2]), grid, DOUBLED)

        held[kind] = bisect_left(range(1, count + 1), True, key=full)
    return held[0], held[1], held[2]


def with_folds(sheets: Sequence[Sheet]) -> tuple[Sheet, ...]:
    """Return ``sheets`` with the folds of their doubled pieces."""

    def folds(sheet: Sheet) -> tuple[Cut, ...]:
        doubled = (item for item in sheet.items if item.what in FOLDED)
        return tuple(Cut(*fold_line(item.what, item.rect)) for item in doubled)

    return tuple(replace(sheet, folds=folds(sheet)) for sheet in sheets)


def two_sided(paper: Paper, slack: tuple[float, float] = (0.0, 0.0)) -> Paper:
    """Return ``paper`` with equal margins at left and right, so that a back fits its front.

    All margins grow by ``slack`` (across, down; mm), the room that the back's shift needs.
    """
    m = paper.margins_mm
    side = round(max(m.left, m.right) + slack[0], 2)
    ends = (round(m.top + slack[1], 2), round(m.bottom + slack[1], 2))
    try:
        return replace(paper, margins_mm=Margins(side, side, *ends))
    except RefusedError as error:
        raise error.at(Said("where.both-sides", paper=paper.name), field="paper") from None


def with_backs(sheets: Sequence[Sheet]) -> tuple[Sheet, ...]:
    """Return each sheet followed by its back, turned over on the long edge: left is right.

    A back has the number of its front: both sides are one sheet to cut.
    """
    both: list[Sheet] = []
    for sheet in sheets:
        items = tuple(
            i._replace(rect=i.rect.moved(sheet.width - i.rect.x - i.rect.right, 0))
            for i in sheet.items
        )
        both += (sheet, replace(sheet, items=items, cuts=(), stops=(), flip="long-edge"))
    return tuple(both)
