"""Turns the tiles of a mat into joins: which edges butt, and where their marks stand."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations, product

from kitbuilder.layout.mat.mat_records import Edge, Join, Mat, MatText
from kitbuilder.layout.model import Rect

DIAMOND = 3.0
"""Half the length in mm of the diamond that two edges laid together show."""

SKETCH_GAP = 1.5
"""Space in mm between the word before a sketch and the sketch."""

_EDGE = 1e-6
_CLEAR = 1.5
_APART = 5.0
_STEP = 4.0
# In mm: where a length is none; clear space beside lines and words; from place to place tried.

_NEAR = 0.15
_TRIED = 5
# How far from its best place a diamond may stand so that no line crosses it, as a part of the
# edge's length; and how many such places are tried.


def joins(mat: Mat, text: MatText) -> tuple[tuple[Join, ...], ...]:
    """Return, for each tile, the joins at its edges; both sides of one bear the same number."""
    found: list[list[Join]] = [[] for _ in mat.tiles]
    number = 0
    for i, j in combinations(range(len(mat.tiles)), 2):
        edge, start, end = _shared(mat.tiles[i], mat.tiles[j])
        if edge is None:
            continue
        number += 1
        sides = (_Side(i, edge, start, end), _Side(j, _OPPOSITE[edge], start, end))
        for side, join in zip(sides, _best(mat, text, number, sides, found), strict=True):
            found[side.index].append(join)
    return tuple(tuple(each) for each in found)


@dataclass(frozen=True, slots=True)
class _Side:
    """One side of a join: the tile's index, its edge, and from where to where, mm."""

    index: int
    edge: Edge
    start: float
    end: float


def _best(
    mat: Mat, text: MatText, number: int, sides: Sequence[_Side], found: Sequence[Sequence[Join]]
) -> list[Join]:
    """Return both sides of a join: the first places where nothing clashes and words have room."""
    size = (len(str(number)) * text.mark_width, text.join_height)
    said = text.join.replace("{number}", str(number))
    best: tuple[int, list[Join]] | None = None
    for spots in _diamonds(mat, sides[0], size):
        cost, way = 0, []
        for side in sides:
            tile = mat.tiles[side.index]
            others = kept(tile, found[side.index])
            marks = tuple(
                mark
                for mark in (_mark(tile, side.edge, spot, size) for spot in spots)
                if not _on_words(mat, mark) and not any(mark.overlaps(other) for other in others)
            )
            own = (*marks, *(_at(tile, side.edge, spot) for spot in spots))
            box = _box(mat, tile, side, (text.join_width, text.join_height), (*own, *others))
            cost += 2 * sum(mark.overlaps(other) for mark in own for other in others)
            cost += (box is None) + 2 * (len(spots) - len(marks))
            way.append(Join(number, side.edge, spots, marks, said, box))
        if best is None or cost < best[0]:
            best = (cost, way)
        if not cost:
            break
    assert best is not None  # there is a place for diamonds, if it is not a good one
    return best[1]


def kept(tile: Rect, meeting: Sequence[Join]) -> tuple[Rect, ...]:
    """Return what marks and words of the joins ``meeting`` at ``tile`` take."""
    words = [join.box for join in meeting if join.box]
    marks = [mark for join in meeting for mark in join.marks]
    return (*words, *marks, *(_at(tile, j.edge, spot) for j in meeting for spot in j.diamonds))


def sketch(mat: Mat, text: MatText, meeting: Sequence[Sequence[Join]]) -> tuple[int, Rect] | None:
    """Return the tile that has room for a sketch of all tiles, and where, the word before it.

    None for a mat of one tile, and where no tile has room.
    """
    if len(mat.tiles) < 2:
        return None
    digits = 2.6 * text.mark_width  # two, with space beside them
    scale = max(max(digits / t.width, text.join_height / t.height) for t in mat.tiles)
    wide, high = text.pages_width + SKETCH_GAP + scale * mat.width, scale * mat.height
    for index, tile in enumerate(mat.tiles):
        found = free_box(mat, tile, (wide + 2 * _CLEAR, high), kept(tile, meeting[index]))
        if found is not None:
            return index, Rect(found.x + _CLEAR, found.y, wide, high)
    return None


def free_box(mat: Mat, area: Rect, size: tuple[float, float], taken: Sequence[Rect]) -> Rect | None:
    """Return a box in ``area``, as far up and then left as words, lines and guides allow.

    It keeps clear of what is ``taken``.
    """
    width, height = size
    for y in _spots(area.y + _CLEAR, area.bottom - height - _CLEAR, _STEP):
        for x in _spots(area.x + _STEP, area.right - width - _CLEAR, _STEP):
            box = Rect(x, y, width, height)
            wide = Rect(x - _APART, y, width + 2 * _APART, height)
            free = not any(other.overlaps(wide) for other in taken)
            if free and not _on_words(mat, box) and not _on_lines(mat, box):
                return box
    return None


_OPPOSITE: dict[Edge, Edge] = {"left": "right", "right": "left", "top": "bottom", "bottom": "top"}


def _shared(a: Rect, b: Rect) -> tuple[Edge | None, float, float]:
    """Return the edge of ``a`` that butts against ``b``, and from where to where, mm."""
    top, bottom = max(a.y, b.y), min(a.bottom, b.bottom)
    left, right = max(a.x, b.x), min(a.right, b.right)
    if bottom - top > _EDGE:
        if abs(a.right - b.x) < _EDGE:
            return "right", top, bottom
        if abs(b.right - a.x) < _EDGE:
            return "left", top, bottom
    if right - left > _EDGE:
        if abs(a.bottom - b.y) < _EDGE:
            return "bottom", left, right
        if abs(b.bottom - a.y) < _EDGE:
            return "top", left, right
    return None, 0.0, 0.0


def _diamonds(mat: Mat, side: _Side, size: tuple[float, float]) -> Iterator[tuple[float, ...]]:
    """Yield where along the edge diamonds may stand, near both ends, the best places first.

    They are clear of words if any place is, and if it can be of lines. Two that would stand close
    together hold no better than one.
    """
    tile, long = mat.tiles[side.index], side.end - side.start
    after = DIAMOND + (size[0] if side.edge in ("top", "bottom") else size[1])
    every = _spots(side.start + DIAMOND, side.end - after, _STEP) or [side.start + long / 2]
    clear = [s for s in every if _is_clear(mat, tile, side.edge, s, size)] or every

    def nearest(ideal: float) -> list[float]:
        by_distance = sorted(clear, key=lambda s: abs(s - ideal))
        many = sum(abs(s - ideal) <= long * _NEAR for s in by_distance)
        near, far = by_distance[:many], by_distance[many:]
        near.sort(key=lambda s: _is_crossed(mat, side.edge, s - DIAMOND, s + after))
        return [*near[:_TRIED], *far[::3]]

    for one, other in product(nearest(side.start + long / 6), nearest(side.end - long / 6)):
        yield (one, other) if abs(other - one) >= long / 6 else (one,)


def _is_clear(mat: Mat, tile: Rect, edge: Edge, spot: float, size: tuple[float, float]) -> bool:
    """Say whether a diamond and its numbers keep clear of words on both sides of the edge."""
    line = {"left": tile.x, "right": tile.right, "top": tile.y, "bottom": tile.bottom}[edge]
    level = edge in ("top", "bottom")
    across, down = size
    mark = (
        Rect(spot - DIAMOND, line - down, 2 * DIAMOND + across, 2 * down)
        if level
        else Rect(
            line - DIAMOND - across, spot - DIAMOND, 2 * (DIAMOND + across), 2 * DIAMOND + down
        )
    )
    return not _on_words(mat, mark)


def _is_crossed(mat: Mat, edge: Edge, start: float, end: float) -> bool:
    """Say whether a line between zones meets the edge between ``start`` and ``end``."""
    level = edge in ("top", "bottom")
    rects = (*(zone.rect for zone in mat.zones), *mat.outlines)
    ends = [e for r in rects for e in ((r.x, r.right) if level else (r.y, r.bottom))]
    return any(start - _CLEAR < at < end + _CLEAR for at in ends)


def _mark(tile: Rect, edge: Edge, spot: float, size: tuple[float, float]) -> Rect:
    """Return the box of a join's number on this side: after the diamond, along the edge."""
    across, down = size
    if edge in ("left", "right"):
        x = tile.x + _CLEAR if edge == "left" else tile.right - _CLEAR - across
        return Rect(x, spot + DIAMOND, across, down)
    y = tile.y if edge == "top" else tile.bottom - down
    return Rect(spot + DIAMOND, y, across, down)


def _at(tile: Rect, edge: Edge, spot: float) -> Rect:
    size = 2 * DIAMOND
    if edge in ("left", "right"):
        x = tile.x if edge == "left" else tile.right
        return Rect(x - DIAMOND, spot - DIAMOND, size, size)
    y = tile.y if edge == "top" else tile.bottom
    return Rect(spot - DIAMOND, y - DIAMOND, size, size)


def _box(
    mat: Mat, tile: Rect, side: _Side, size: tuple[float, float], marks: Sequence[Rect]
) -> Rect | None:
    """Return a box for words along the edge, as near its middle as words, marks, lines allow."""
    width, height = size
    edge, start, end = side.edge, side.start, side.end
    along = width if edge in ("top", "bottom") else height
    middle = (start + end - along) / 2
    spots = _spots(start + _CLEAR, end - along - _CLEAR, _STEP)
    boxes = []
    for deep in (_CLEAR, DIAMOND + _CLEAR):  # beside the diamonds, or past them
        for spot in sorted(spots, key=lambda s: (abs(s - middle), s)):
            if edge in ("top", "bottom"):
                y = tile.y + deep if edge == "top" else tile.bottom - deep - height
                boxes.append(Rect(spot, y, width, height))
            else:
                x = tile.x + deep if edge == "left" else tile.right - deep - width
                boxes.append(Rect(x, spot, width, height))
    unmarked = [box for box in boxes if not any(mark.overlaps(box) for mark in marks)]
    free = [box for box in unmarked if not _on_words(mat, box)]
    clear = [box for box in free if not _on_lines(mat, box)]
    return next(iter((*clear, *free)), None)


def _spots(low: float, high: float, step: float) -> Sequence[float]:
    return [low + i * step for i in range(int((high - low) / step) + 1)] if high >= low else []


def _on_words(mat: Mat, box: Rect) -> bool:
    wide = Rect(box.x - _APART, box.y, box.width + 2 * _APART, box.height)
    return any(label.rect.overlaps(wide) for label in mat.labels)


def _on_lines(mat: Mat, box: Rect) -> bool:
    """Say whether lines between zones or guides for pieces run through the box."""
    lines = []
    for rect in (*(z.rect for z in mat.zones), *mat.outlines):
        lines.append(Rect(rect.x, rect.y - _CLEAR, rect.width, 2 * _CLEAR))
        lines.append(Rect(rect.x - _CLEAR, rect.y, 2 * _CLEAR, rect.height))
        lines.append(Rect(rect.x, rect.bottom - _CLEAR, rect.width, 2 * _CLEAR))
    guides = [slot for z in mat.zones for slot in (z.slots[:1] if z.place else z.slots)]
    return any(rect.overlaps(box) for rect in (*lines, *guides))
