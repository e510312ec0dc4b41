"""Sheets of pieces for a cutting tool that takes a kerf away.

Neighbours stand one kerf apart and the tool runs midway, so that every finished piece is true.
The pieces are packed on the unit grid first and then moved apart; where that no longer fits,
the grid is made smaller, so the sheets are counted again. The tool follows its file, not print:
its lines may lie a kerf outside of what a printer reaches, so A4 holds two hundreds across.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from kitbuilder.design.load import Paper
from kitbuilder.errors import RefusedError
from kitbuilder.kit.records import CutWish
from kitbuilder.layout.cutting.cut_marks import around
from kitbuilder.layout.cutting.line_segments import Segment, outline
from kitbuilder.layout.cutting.machine_order import cutting_order
from kitbuilder.layout.cutting.verify_cuts import check_plan
from kitbuilder.layout.model import Cut, Item, Rect, Sheet, SheetKind
from kitbuilder.layout.packing.grid import OUTLINE, Grid, counts_of, grid_for, least_sheets
from kitbuilder.layout.pieces.pack_pieces import pack_pieces
from kitbuilder.layout.pieces.piece_sheets import check_unit
from kitbuilder.layout.printable import Page
from kitbuilder.number import Pieces

_TRIES = 6
"""Grids that are tried for each number of sheets."""

_BEYOND = 0.5
"""The most that lines may lie beyond the margins, in mm."""


def kerf_sheets(pieces: Pieces, paper: Paper, wish: CutWish, kerf: float) -> tuple[Sheet, ...]:
    """Return the sheets that hold ``pieces`` for ``wish.kits`` kits, ``kerf`` mm apart.

    Raises ``RefusedError`` where a piece and its kerf do not fit the page, naming the unit.
    """
    if not pieces.value:
        return ()
    check_unit(pieces, paper, kerf)
    inside = reach(paper, kerf)
    for page in _smaller(pieces, paper, wish, kerf):
        plan = pack_pieces(pieces, page, paper.unit_mm, replace(wish, layers=1))
        check_plan(plan)
        printed = plan.printed
        spread = [spread_out(layout.items, kerf, inside.x, inside.y) for layout in printed]
        if all(inside.holds(around([i.rect for i in items]).inset(-kerf / 2)) for items in spread):
            sheets = tuple(
                _sheet(number, items, layout.copies, paper, kerf)
                for number, (items, layout) in enumerate(zip(spread, printed, strict=True), 1)
            )
            for sheet in sheets:
                check_kerf(sheet, inside, paper.unit_mm)
            return sheets
    raise RefusedError(
        "pieces.kerf", kerf=kerf, unit=paper.unit_mm, paper=paper.name, option="unit"
    )


def reach(paper: Paper, kerf: float) -> Rect:
    """Return what a tool that takes ``kerf`` mm may cut of a sheet of ``paper``."""
    m = paper.margins_mm
    least = min(m.left, m.right, m.top, m.bottom)  # no line leaves the sheet
    return Page.upright(paper).inside.inset(-min(kerf, _BEYOND, least))


def _smaller(pieces: Pieces, paper: Paper, wish: CutWish, kerf: float) -> Iterator[Page]:
    """Yield pages of fewer and fewer units across and down, those of the fewest sheets first.

    A piece and its kerf always fit a grid whose unit is a kerf wider: no smaller one is tried.
    """
    m, unit = paper.margins_mm, paper.unit_mm
    page = Page.upright(paper)
    total = counts_of(wish.total(pieces))
    whole = grid_for(page, unit, total)
    safe = Grid.of(page, round(unit + kerf, 2))
    found: dict[int, list[tuple[int, int, int]]] = {}
    for across in range(safe.across, whole.across + 1):
        for down in range(safe.down, whole.down + 1):
            try:
                sheets = least_sheets(total, across, down)
            except ValueError:
                continue
            found.setdefault(sheets, []).append((across * down, across, down))
    for sheets in sorted(found):
        for _, across, down in sorted(found[sheets])[:_TRIES]:
            width = round(m.left + across * unit + m.right, 2)
            height = round(m.top + down * unit + m.bottom, 2)
            yield Page.sized(width, height, m.left, m.right, m.top, m.bottom)


def spread_out(items: Sequence[Item], kerf: float, x: float, y: float) -> tuple[Item, ...]:
    """Return ``items`` moved so that neighbours stand ``kerf`` mm apart, from (x, y) on.

    Half a kerf is left before the first ones. Raises ``ValueError`` for items that no straight
    cut divides.
    """
    return tuple(_spread(items, kerf, x + kerf / 2, y + kerf / 2)[0])


def _spread(
    items: Sequence[Item], kerf: float, x: float, y: float
) -> tuple[list[Item], float, float]:
    """Return ``items`` placed from (x, y) on, and the width and height that they take."""
    if len(items) == 1:
        (item,) = items
        rect = Rect(round(x, 3), round(y, 3), item.rect.width, item.rect.height)
        return [item._replace(rect=rect)], rect.width, rect.height
    for across in (True, False):
        groups = _divided(items, across)
        if len(groups) > 1:
            placed: list[Item] = []
            at, width, height = 0.0, 0.0, 0.0
            for group in groups:
                here = (x + at, y) if across else (x, y + at)
                moved, wide, high = _spread(group, kerf, *here)
                placed += moved
                width, height = max(width, wide), max(height, high)
                at += (wide if across else high) + kerf
            return (placed, at - kerf, height) if across else (placed, width, at - kerf)
    raise ValueError("these pieces cannot be divided by a straight cut")


def _divided(items: Sequence[Item], across: bool) -> list[list[Item]]:
    """Return ``items`` in groups, from left to right or top to bottom, with free lines between."""

    def span(item: Item) -> tuple[float, float]:
        rect = item.rect
        start, end = (rect.x, rect.right) if across else (rect.y, rect.bottom)
        return round(start, 2), round(end, 2)

    groups: list[list[Item]] = []
    reached = float("-inf")
    for item in sorted(items, key=span):
        start, end = span(item)
        if start >= reached:
            groups.append([])
        groups[-1].append(item)
        reached = max(reached, end)
    return groups


def kerf_lines(rects: Sequence[Rect], kerf: float) -> tuple[Segment, ...]:
    """Return the tool's lines half a ``kerf`` round each of ``rects``, in cutting order."""
    half = kerf / 2
    return cutting_order(
        side
        for r in rects
        for side in outline(
            *(round(at, 3) for at in (r.x - half, r.y - half, r.right + half, r.bottom + half))
        )
    )


def _sheet(number: int, items: tuple[Item, ...], copies: int, paper: Paper, kerf: float) -> Sheet:
    cuts = tuple(Cut(*line) for line in kerf_lines([item.rect for item in items], kerf))
    size = paper.width_mm, paper.height_mm
    return Sheet(SheetKind.PIECES, number, "card", *size, items, cuts, copies, kerf=kerf)


def check_kerf(sheet: Sheet, inside: Rect, unit: float) -> None:
    """Raise ``ValueError`` unless every piece is true, clear of the others and of the margins."""
    half = sheet.kerf / 2
    for item in sheet.items:
        sides = sorted((item.rect.width, item.rect.height), reverse=True)
        true = [side * unit for side in OUTLINE[item.what]]  # type: ignore[index]
        if any(abs(a - b) > 1e-6 for a, b in zip(sides, true, strict=True)):
            raise ValueError(f"{item.what} at {item.rect} is not of its true size")
        if not inside.holds(item.rect.inset(-half), 0.001):
            raise ValueError(f"{item.what} at {item.rect} and its kerf leave {inside}")
    ordered = sorted(sheet.items, key=lambda item: item.rect.y)
    for index, item in enumerate(ordered):
        grown = item.rect.inset(-half)
        for other in ordered[index + 1 :]:
            if other.rect.y - half > grown.bottom:
                break
            if grown.overlaps(other.rect.inset(-half), 0.002):
                raise ValueError(f"{item.what} and {other.what} stand closer than the kerf")
