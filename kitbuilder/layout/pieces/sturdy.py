"""Turns pieces into sturdier ones: folded double and glued, or with grids on both sides.

A folded hundred is printed as two hundreds side by side, a folded ten as two tens; the line
between them is folded. The sheets are filled row by row, so they are few but not proven least.
"""

from collections.abc import Sequence
from dataclasses import replace

from kitbuilder.design.load import Margins, Paper
from kitbuilder.errors import RefusedError
from kitbuilder.kit.records import CutWish
from kitbuilder.layout.cutting.cut_plan import Count, CutPlan, Wish, make_plan
from kitbuilder.layout.cutting.verify_cuts import check_plan
from kitbuilder.layout.model import Cut, Rect, Sheet
from kitbuilder.layout.packing.grid import Grid, Page, largest_unit
from kitbuilder.layout.packing.guillotine import OFFCUT, Part, join, leaf, line_up, trimmed, walk
from kitbuilder.number import Pieces

FOLDED = {"folded_hundreds": (20, 10), "folded_tens": (10, 2)}
"""What a folded piece is called, and its outline flat on the sheet, in units."""

_SHAPES = {**FOLDED, "ones": (1, 1)}


def fold_line(what: str, rect: Rect) -> tuple[float, float, float, float]:
    """Return the line (x1, y1, x2, y2) that a folded piece is folded on.

    A hundred is folded across its longer side, a ten along it.
    """
    x, y = rect.x + rect.width / 2, rect.y + rect.height / 2
    lying = rect.width > rect.height
    if lying == (what == "folded_hundreds"):
        return (x, rect.y, x, rect.bottom)
    return (rect.x, y, rect.right, y)


def fold_plan(pieces: Pieces, paper: Paper, wish: CutWish) -> CutPlan | None:
    """Return the checked plan that cuts ``pieces``, hundreds and tens doubled for folding.

    None where there are none. Raises ``RefusedError`` where a folded piece does not fit.
    """
    if not pieces.value:
        return None
    page = Page.of(paper)
    grid = Grid.of(page, paper.unit_mm)
    names = ("folded_hundreds", "folded_tens", "ones")
    bag = dict(zip(names, (pieces.hundreds, pieces.tens, pieces.ones), strict=True))
    more = wish.extra(pieces)
    extra = dict(zip(names, (more.hundreds, more.tens, more.ones), strict=True))
    need = {what: count * wish.kits + extra[what] for what, count in bag.items()}
    for what, count in need.items():
        if count and not any(_shapes(what, grid.across, grid.down)):
            shape = FOLDED.get(what, (1, 1))
            raise RefusedError(
                f"At a unit of {paper.unit_mm:g} mm a doubled piece does not fit {paper.name}: "
                f"choose --unit {largest_unit(page, shape):g} or less, or --sturdy backs."
            )
    trees: list[tuple[int, Part]] = []
    while any(need.values()):
        core = _fill(grid.across, grid.down, need, grid.unit)
        sheet = trimmed(core, grid.width, grid.height, grid.x, grid.y)
        if trees and _same(trees[-1][1], sheet):
            trees[-1] = (trees[-1][0] + 1, trees[-1][1])
        else:
            trees.append((1, sheet))
    counts = tuple(Count(what, count) for what, count in bag.items())
    plan = make_plan(Wish(page, 0, wish.kits, wish.layers, counts), trees)
    check_plan(plan)
    return plan


def _shapes(what: str, across: int, down: int) -> list[tuple[int, int]]:
    """Return the ways a piece lies in a region of whole units, the one that fits most first."""
    long, short = _SHAPES[what]
    ways = [(w, h) for w, h in ((long, short), (short, long)) if w <= across and h <= down]
    return sorted(ways, key=lambda way: -(across // way[0]) * (down // way[1]))


def _fill(across: int, down: int, need: dict[str, int], unit: int) -> Part:
    """Return a region filled row by row, large pieces first; takes them out of ``need``."""
    if across <= 0 or down <= 0:
        raise ValueError(f"_fill: a region of {across} by {down} units")
    for what in _SHAPES:
        ways = _shapes(what, across, down)
        if not need[what] or not ways:
            continue
        wide, high = ways[0]
        count = min(across // wide, need[what])
        need[what] -= count
        row = line_up("x", [leaf(what, wide * unit, high * unit)] * count)
        if count * wide < across:
            row = join("x", row, _fill(across - count * wide, high, need, unit))
        return join("y", row, _fill(across, down - high, need, unit)) if high < down else row
    return leaf(OFFCUT, across * unit, down * unit)


def _same(one: Part, other: Part) -> bool:
    def shape(part: Part) -> list[tuple[int, int, int, int, str]]:
        return [(x, y, p.width, p.height, p.what) for x, y, p in walk(part)]

    return shape(one) == shape(other)


def with_folds(sheets: Sequence[Sheet]) -> tuple[Sheet, ...]:
    """Return ``sheets`` with the folds of their doubled pieces."""
    return tuple(
        replace(
            sheet,
            folds=tuple(Cut(*fold_line(i.what, i.rect)) for i in sheet.items if i.what in FOLDED),
        )
        for sheet in sheets
    )


def two_sided(paper: Paper, slack: tuple[float, float] = (0.0, 0.0)) -> Paper:
    """Return ``paper`` with equal margins at left and right, so that a back fits its front.

    All margins grow by ``slack`` (across, down; mm), the room that the back's shift needs.
    """
    m = paper.margins_mm
    side = round(max(m.left, m.right) + slack[0], 2)
    ends = (round(m.top + slack[1], 2), round(m.bottom + slack[1], 2))
    try:
        return replace(paper, margins_mm=Margins(side, side, *ends))
    except ValueError as error:
        raise RefusedError(f"{paper.name} cannot be printed on both sides: {error}.") from None


def with_backs(sheets: Sequence[Sheet]) -> tuple[Sheet, ...]:
    """Return each sheet followed by its back, turned over on the long edge: left is right.

    A back has the number of its front: both sides are one sheet to cut.
    """
    both: list[Sheet] = []
    for sheet in sheets:
        items = tuple(
            replace(i, rect=i.rect.moved(sheet.width - i.rect.x - i.rect.right, 0))
            for i in sheet.items
        )
        both += (sheet, replace(sheet, items=items, cuts=(), stops=(), flip="long-edge"))
    return tuple(both)
