"""Turns a tile of a mat into marks: zones, headings, lines to write on, and marks to join."""

from itertools import pairwise

from kitbuilder.design import metrics
from kitbuilder.draw.canvas import Canvas, Segment
from kitbuilder.draw.piece_grids import grid, merged, outline
from kitbuilder.layout.mat.exchange_board import Board
from kitbuilder.layout.mat.joins import DIAMOND, SKETCH_GAP
from kitbuilder.layout.mat.mat_records import FINGER, Join, Label, Mat, MatTile, Zone
from kitbuilder.layout.model import Rect

_INSIDE = 1.0
"""A zone's outline is drawn this many mm inside it, so that a join never runs along one."""

_TICK = 2.0
"""Length in mm of the ticks that show how far the hundreds of a fan lie apart."""


def draw_mat_tile(canvas: Canvas, tile: MatTile, rect: Rect, page: int) -> None:
    """Draw what of the mat lies on this tile, which is page ``page``."""
    mat, look = tile.mat, canvas.look
    dx, dy = rect.x - tile.area.x, rect.y - tile.area.y

    def lines(segments: list[Segment], width: float, colour: str) -> None:
        kept = [s for s in (_clipped(s, tile.area) for s in segments) if s]
        moved = [(x1 + dx, y1 + dy, x2 + dx, y2 + dy) for x1, y1, x2, y2 in kept]
        canvas.lines(merged(moved), width, colour)

    lines(_guides(mat), look.lines_mm.grid, look.ink.grid)
    tens = [
        s for z in mat.zones if z.place == 0 for b in _tens_of_ones(z, mat.unit) for s in outline(b)
    ]
    lines(tens, look.lines_mm.frame, look.ink.frame)
    lines(_columns(mat), look.lines_mm.guide, look.ink.frame)
    frames = [s for box in mat.outlines for s in outline(box.inset(_INSIDE))]
    lines(frames, 2 * look.lines_mm.frame, look.ink.frame)
    for label in mat.labels:
        if tile.area.holds(label.rect):
            _label(canvas, label, label.rect.moved(dx, dy))
    for join in tile.joins:
        _join(canvas, join, rect, dx, dy)
    if tile.sketch:
        _sketch(canvas, tile, tile.sketch.moved(dx, dy), page - tile.number + 1)


def draw_board(canvas: Canvas, board: Board, unit: float) -> None:
    """Draw an exchange board: the bank's boxes and the frames to fill, at true size."""
    look = canvas.look
    for box in board.boxes:
        canvas.box(box.inset(_INSIDE), stroke=look.ink.frame, width=2 * look.lines_mm.frame)
    for label in board.labels:
        _label(canvas, label, label.rect)
    for frame in board.frames:
        cells = merged(s for slot in frame.slots for s in outline(slot))
        canvas.lines(cells, look.lines_mm.guide, look.ink.guide)
        canvas.lines(outline(frame.rect), 2 * look.lines_mm.frame, look.ink.frame)


def _guides(mat: Mat) -> list[Segment]:
    """Return where pieces lie: tens of ones in rows of five, the first ten, the first hundred."""
    found: list[Segment] = []
    for zone in mat.zones:
        if zone.place > 0:
            found += _first(zone)
        else:
            for block in _tens_of_ones(zone, mat.unit):
                found += [*grid(block, mat.unit), *outline(block)]
    return found


def _first(zone: Zone) -> list[Segment]:
    """Return the outline of the first piece, and a tick for each other one of a fan."""
    if not zone.slots:
        return []
    first = zone.slots[0]
    found = [*outline(first)]
    if zone.way == "fan":
        for slot in zone.slots[1:]:
            if slot.x == first.x:
                ends = ((slot.x - _TICK, slot.x), (slot.right, slot.right + _TICK))
                found += [(left, slot.y, right, slot.y) for left, right in ends]
            elif slot.y == first.y:
                ends = ((slot.y - _TICK, slot.y), (slot.bottom, slot.bottom + _TICK))
                found += [(slot.x, top, slot.x, bottom) for top, bottom in ends]
    return found


def _tens_of_ones(zone: Zone, unit: float) -> list[Rect]:
    if not zone.slots:
        return []
    first = zone.slots[0]
    rows = -(-len(zone.slots) // 5)
    room = int((zone.rect.bottom - FINGER - first.y + 1e-6) / unit)
    rows = min(rows + rows % 2, room)
    return [
        Rect(first.x, first.y + row * unit, 5 * unit, min(2, rows - row) * unit)
        for row in range(0, rows, 2)
    ]


def _columns(mat: Mat) -> list[Segment]:
    """Return the line under each role's label and the lines between its columns."""
    found: list[Segment] = []
    for box in mat.outlines:
        cells = [z.rect for z in mat.zones if box.holds(z.rect)]
        top = min(c.y for c in cells)
        found.append((box.x + _INSIDE, top, box.right - _INSIDE, top))
        for left, right in pairwise(sorted(cells, key=lambda c: c.x)):
            found.append((right.x, left.y, right.x, left.bottom - _INSIDE))
    return found


def _label(canvas: Canvas, label: Label, rect: Rect) -> None:
    look = canvas.look
    child, adult = look.type_mm.child, look.type_mm.adult
    if label.kind == "heading":
        middle = rect.y + (rect.height + metrics.digit_height(child)) / 2
        canvas.text(rect.x + rect.width / 2, middle, label.text, child, align="centre")
    elif label.kind == "role":
        canvas.text(rect.x, rect.y + 1.05 * child, label.text, child)
        canvas.text(rect.x, rect.bottom - 0.4 * adult, label.hint, adult)
    elif label.kind in ("fan", "again"):
        base = rect.bottom - 0.4 * adult
        canvas.text(rect.x, base, label.hint, adult, colour=look.ink.quiet)
    else:
        base = rect.bottom - 3.0
        canvas.text(rect.x, base, label.hint, adult, colour=look.ink.quiet)
        start = rect.x + metrics.width(label.hint, adult) + 1.5
        canvas.lines([(start, base, rect.right, base)], look.lines_mm.frame, look.ink.frame)


def _join(canvas: Canvas, join: Join, rect: Rect, dx: float, dy: float) -> None:
    look = canvas.look
    for mark in join.marks:
        _small(canvas, mark.moved(dx, dy), str(join.number))
    for spot in join.diamonds:
        canvas.shape(_half_diamond(join, spot, rect, dx, dy), look.ink.quiet)
    sides = dict(zip(("top", "bottom", "left", "right"), outline(rect), strict=True))
    canvas.lines([sides[join.edge]], look.lines_mm.grid, look.ink.quiet, layer="cut", dash="3 2")
    if join.box is not None:
        _small(canvas, join.box.moved(dx, dy), join.text)


def _small(canvas: Canvas, box: Rect, text: str) -> None:
    """Write ``text`` for the adult in the middle of ``box``, which is one line high."""
    look = canvas.look
    size, middle = look.type_mm.adult, box.x + box.width / 2
    base = box.y + (box.height + metrics.digit_height(size)) / 2
    canvas.text(middle, base, text, size, align="centre", colour=look.ink.quiet)


def _sketch(canvas: Canvas, tile: MatTile, rect: Rect, first: int) -> None:
    """Draw the sheets of the mat small, as they lie joined, each with its page's number."""
    look, mat = canvas.look, tile.mat
    scale = rect.height / mat.height
    left = rect.right - scale * mat.width
    word = Rect(rect.x, rect.y, left - SKETCH_GAP - rect.x, rect.height)
    _small(canvas, word, tile.pages)
    for number, area in enumerate(mat.tiles, first):
        small = Rect(
            left + scale * area.x, rect.y + scale * area.y, scale * area.width, scale * area.height
        )
        canvas.box(small, stroke=look.ink.quiet, width=look.lines_mm.guide)
        _small(canvas, small, str(number))


def _half_diamond(
    join: Join, spot: float, rect: Rect, dx: float, dy: float
) -> tuple[tuple[float, float], ...]:
    if join.edge in ("left", "right"):
        x, way = (rect.x, DIAMOND) if join.edge == "left" else (rect.right, -DIAMOND)
        y = spot + dy
        return ((x, y - DIAMOND), (x + way, y), (x, y + DIAMOND))
    y, way = (rect.y, DIAMOND) if join.edge == "top" else (rect.bottom, -DIAMOND)
    x = spot + dx
    return ((x - DIAMOND, y), (x, y + way), (x + DIAMOND, y))


def _clipped(segment: Segment, area: Rect) -> Segment | None:
    """Return the part of a straight segment on ``area``, or None; segments run across or down."""
    x1, y1, x2, y2 = segment
    left, right = max(min(x1, x2), area.x), min(max(x1, x2), area.right)
    top, bottom = max(min(y1, y2), area.y), min(max(y1, y2), area.bottom)
    if left > right or top > bottom or (left == right and top == bottom):
        return None
    return (left, top, right, bottom)
