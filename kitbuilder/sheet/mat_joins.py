"""Turns the tiles of a mat into joins: which edges butt, and where their marks stand."""

from collections.abc import Iterator, Sequence
from itertools import combinations, count, product
from string import ascii_uppercase

from kitbuilder.sheet.mat_records import Edge, Join, Mat, MatText
from kitbuilder.sheet.records import Rect

DIAMOND = 3.0
"""Half the length in mm of the diamond that two edges laid together show."""

_EDGE = 1e-6
_CLEAR = 1.5
_APART = 5.0
_STEP = 4.0


def joins(mat: Mat, text: MatText) -> tuple[tuple[Join, ...], ...]:
    """Return, for each tile, the joins at its edges; both sides of one bear the same letter."""
    found: list[list[Join]] = [[] for _ in mat.tiles]
    letters = _letters()
    for (i, a), (j, b) in combinations(enumerate(mat.tiles), 2):
        edge, start, end = _shared(a, b)
        if edge is None:
            continue
        letter = next(letters)
        diamonds = _diamonds(mat, a, edge, start, end)
        for index, tile, side in ((i, a, edge), (j, b, _OPPOSITE[edge])):
            said = text.join.replace("{letter}", letter)
            box = _box(mat, tile, side, (start, end), (text.join_width, text.join_height))
            found[index].append(Join(letter, side, diamonds, said, box))
    return tuple(tuple(each) for each in found)


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


def _letters() -> Iterator[str]:
    for length in count(1):
        yield from ("".join(letters) for letters in product(ascii_uppercase, repeat=length))


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


def _diamonds(mat: Mat, tile: Rect, edge: Edge, start: float, end: float) -> tuple[float, ...]:
    """Return where along the edge diamonds stand: near both ends, clear of words."""
    found = []
    for ideal in (start + (end - start) / 6, end - (end - start) / 6):
        spots = sorted(_spots(start + DIAMOND, end - DIAMOND, _STEP), key=lambda s: abs(s - ideal))
        clear = [s for s in spots if not _on_words(mat, _at(tile, edge, s))]
        found += clear[:1] or spots[:1]
    return tuple(dict.fromkeys(found))


def _at(tile: Rect, edge: Edge, spot: float) -> Rect:
    size = 2 * DIAMOND
    if edge in ("left", "right"):
        x = tile.x if edge == "left" else tile.right
        return Rect(x - DIAMOND, spot - DIAMOND, size, size)
    y = tile.y if edge == "top" else tile.bottom
    return Rect(spot - DIAMOND, y - DIAMOND, size, size)


def _box(
    mat: Mat, tile: Rect, edge: Edge, span: tuple[float, float], size: tuple[float, float]
) -> Rect | None:
    """Return a box for words along the edge, as near its middle as words and lines allow."""
    width, height = size
    start, end = span
    along = width if edge in ("top", "bottom") else height
    middle = (start + end - along) / 2
    spots = _spots(start + _CLEAR, end - along - _CLEAR, _STEP)
    boxes = []
    for spot in sorted(spots, key=lambda s: (abs(s - middle), s)):
        if edge in ("top", "bottom"):
            y = tile.y + _CLEAR if edge == "top" else tile.bottom - _CLEAR - height
            boxes.append(Rect(spot, y, width, height))
        else:
            x = tile.x + _CLEAR if edge == "left" else tile.right - _CLEAR - width
            boxes.append(Rect(x, spot, width, height))
    free = [box for box in boxes if not _on_words(mat, box)]
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
