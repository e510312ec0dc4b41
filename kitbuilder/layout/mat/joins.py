"""How the sheets of a mat join: which edges are cut and glued, and the faces that become whole."""

from collections.abc import Sequence

from kitbuilder.layout.mat.mat_records import Edge, Join, Mat, MatTile
from kitbuilder.layout.mat.tiling import Grid
from kitbuilder.layout.model import Cut, Item, Rect, Sheet, SheetKind

FACE = 8.0
"""Radius in mm of a face whose halves are printed on two sheets."""

_STEP = 2.0
_APART = 40.0
_IDEALS = (0.34, 0.8)
_WORD, _PIECE = 40, 4
# In mm: from place to place tried, and least between two faces; the best places along an edge; and
# what it costs to stand on a word or a box, and on a piece.


def joins(mat: Mat) -> tuple[tuple[Join, ...], ...]:
    """Return, for each tile, its joins: right, bottom, left, top where it has such a one."""
    found: list[list[Join]] = [[] for _ in mat.tiles]
    for index, tile in enumerate(mat.tiles):
        if (index + 1) % mat.across:
            faces = _faces(mat, tile.right, tile.y, tile.bottom, upright=True)
            found[index].append(Join(index + 2, "right", True, faces))
            found[index + 1].append(Join(index + 1, "left", False, faces))
    for index, tile in enumerate(mat.tiles[: -mat.across]):
        below = index + mat.across
        faces = _faces(mat, tile.bottom, tile.x, tile.right, upright=False)
        found[index].append(Join(below + 1, "bottom", True, faces))
        found[below].append(Join(index + 1, "top", False, faces))
    return tuple(map(tuple, found))


def tile_sheets(mat: Mat, grid: Grid) -> tuple[Sheet, ...]:
    """Return one sheet for each tile of ``mat``, cut along the edges others are glued under."""
    kind = SheetKind.ADDITION_MAT if mat.arrangement == "add" else SheetKind.MAT
    sheets = []
    for index, (tile, meeting) in enumerate(zip(mat.tiles, joins(mat), strict=True)):
        rect = Rect(*grid.spot(index), tile.width, tile.height)
        cut: list[Edge] = [join.edge for join in meeting if join.cut]
        cuts = _cuts(rect, cut, grid)
        lines = tuple((one.x1, one.y1, one.x2, one.y2) for one in cuts)
        content = MatTile(mat, index + 1, tile, meeting, lines)
        size, item = (grid.page.width, grid.page.height), Item("mat", rect, content)
        sheets.append(Sheet(kind, index + 1, "paper", *size, (item,), cuts))
    return tuple(sheets)


def _cuts(rect: Rect, edges: Sequence[Edge], grid: Grid) -> tuple[Cut, ...]:
    """Return the cuts: the right edge first, then the bottom as far as paper is left."""
    wide, high = grid.page.width, grid.page.height
    cuts = [Cut(rect.right, 0, rect.right, high)] if "right" in edges else []
    if "bottom" in edges:
        cuts.append(Cut(0, rect.bottom, rect.right if cuts else wide, rect.bottom))
    return tuple(cuts)


def _faces(mat: Mat, at: float, start: float, end: float, *, upright: bool) -> tuple[float, ...]:
    """Return where along an edge two faces stand clear of words, boxes, lines and pieces.

    Where there is no such place for the second, one is enough.
    """
    spots = [start + FACE + 1 + k * _STEP for k in range(int((end - start - 2 * FACE - 2) / _STEP))]
    across = Rect(at - FACE - 1, start, 2 * FACE + 2, end - start)
    along = Rect(start, at - FACE - 1, end - start, 2 * FACE + 2)
    near = _near(mat, across if upright else along, upright)
    costs = {spot: _in_the_way(near, *((at, spot) if upright else (spot, at))) for spot in spots}
    chosen: list[float] = []
    for ideal in _IDEALS:
        best = start + ideal * (end - start)
        ranked = sorted(spots, key=lambda s: (costs[s], abs(s - best)))
        far = (s for s in ranked if all(abs(s - c) >= _APART for c in chosen))
        spot = next(far, None)
        if spot is not None and costs[spot] < (_PIECE if chosen else _WORD):
            chosen.append(spot)
    return tuple(sorted(chosen))


def _near(mat: Mat, band: Rect, upright: bool) -> list[tuple[Rect, int]]:
    """Return what lies in a band along an edge, and what it costs: a line 1, others more."""
    words = (*mat.marked, *(zone.box for zone in mat.zones))
    slots = [slot for zone in mat.zones for slot in zone.slots]
    edges = [Rect(zone.rect.right - 0.1, zone.rect.y, 0.2, zone.rect.height) for zone in mat.zones]
    edges += [Rect(r.x, r.bottom - 0.1, r.width, 0.2) for r in mat.strips if upright]
    lines = [e for e in edges if upright or e.right < mat.width - 1]
    costly = ((words, _WORD), (slots, _PIECE), (lines, 1))
    found = [(rect, cost) for rects, cost in costly for rect in rects]
    return [(rect, cost) for rect, cost in found if band.overlaps(rect)]


def _in_the_way(near: Sequence[tuple[Rect, int]], x: float, y: float) -> int:
    """Return what a face with its middle at (x, y) would stand on, as ``near`` counts it."""
    face = Rect(x - FACE - 1, y - FACE - 1, 2 * FACE + 2, 2 * FACE + 2)
    return sum(cost for rect, cost in near if face.overlaps(rect))
