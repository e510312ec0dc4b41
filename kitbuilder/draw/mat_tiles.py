"""A sheet of a mat as marks: zones, frames for pieces, words, and halves of faces at the joins."""

import math

from kitbuilder.design import metrics
from kitbuilder.design.look import WHITE
from kitbuilder.draw.canvas import Canvas, Segment
from kitbuilder.draw.parts import shapes
from kitbuilder.draw.parts.pictograms import draw_pictogram
from kitbuilder.draw.piece_grids import grid, merged, outline
from kitbuilder.draw.primitives import Path
from kitbuilder.layout.mat.joins import FACE
from kitbuilder.layout.mat.mat_records import Icon, Join, Label, LabelKind, Mat, MatTile, Zone
from kitbuilder.layout.model import Rect

FRAME = 0.7
"""Width in mm of the line round a mat and between its zones."""

CORNER = 5.0
"""Radius in mm of a mat's corners."""

TICK = 2.2
"""Length in mm of the ticks above and left of a pile, and half those of places for tens."""

CLEAR = 0.9
"""Least space in mm between a tick and the line of its column."""

MARK = 9.0
"""Length in mm of the corner marks of a pile."""

_ARROWS = {"up": -1, "down": 1}


def draw_mat_tile(canvas: Canvas, tile: MatTile, rect: Rect) -> None:
    """Draw what of the mat lies on this tile, and what is said below it."""
    mat, look = tile.mat, canvas.look
    dx, dy = rect.x - tile.area.x, rect.y - tile.area.y

    def lines(segments: list[Segment], width: float, colour: str, dash: str | None = None) -> None:
        kept = [s for s in (_clipped(s, tile.area) for s in segments) if s]
        moved = [(x1 + dx, y1 + dy, x2 + dx, y2 + dy) for x1, y1, x2, y2 in kept]
        canvas.lines(merged(moved), width, colour, dash=dash)

    for zone in mat.zones:
        lines(guides(zone), look.lines_mm.write, look.ink.zone)
        lines(_middles(zone), look.lines_mm.write, look.ink.zone, dash="2 2")
        if tile.area.holds(zone.box):
            box = zone.box.moved(dx, dy)
            canvas.box(box, stroke=look.ink.text, width=look.lines_mm.write, radius=1.5)
    lines(_columns(mat), look.lines_mm.rule, look.ink.text)
    lines(_borders(mat), FRAME, look.ink.text)
    _corners(canvas, mat, tile.area, dx, dy)
    for label in mat.labels:
        if tile.area.holds(label.rect):
            draw_label(canvas, label, label.rect.moved(dx, dy))
    for icon in mat.icons:
        if tile.area.holds(icon.rect):
            draw_icon(canvas, Icon(icon.name, icon.rect.moved(dx, dy)))
    for join in tile.joins:
        for spot in join.faces:
            _half_face(canvas, join, rect, spot + (dy if join.edge in ("left", "right") else dx))
    _below(canvas, tile)


def draw_icon(canvas: Canvas, icon: Icon) -> None:
    """Draw a pictogram, or an arrow up or down, in its box."""
    if icon.name not in _ARROWS:
        draw_pictogram(canvas, icon.name, icon.rect)
        return
    rect, way = icon.rect, _ARROWS[icon.name]
    x, middle, half = rect.x + rect.width / 2, rect.y + rect.height / 2, rect.height / 2
    tip, tail, neck = middle + way * half, middle - way * half, middle + way * half * 0.2
    colour, wide = canvas.look.ink.accent, 0.45 * rect.width
    canvas.lines([(x, min(tail, neck), x, max(tail, neck))], 0.32 * rect.width, colour)
    canvas.path(shapes.polygon(((x - wide, neck), (x + wide, neck), (x, tip)), colour))


def draw_label(canvas: Canvas, label: Label, rect: Rect) -> None:
    """Write one line of words whose ink lies in ``rect``; a decimal point breaks its line there."""
    if label.kind is LabelKind.POINT:
        x, y, half = rect.x + rect.width / 2, rect.y + rect.height / 2, rect.height / 2
        canvas.path(shapes.disc(x, y, half, WHITE))
        canvas.text(x, y + half / 2, label.text, label.size, align="centre")
        return
    colour = canvas.look.ink.quiet if label.quiet else None
    base = rect.y + metrics.digit_height(label.size)
    canvas.text(rect.x, base, label.text, label.size, colour=colour)


def _below(canvas: Canvas, tile: MatTile) -> None:
    look = canvas.look
    for line in tile.lines:
        canvas.lines([line], look.lines_mm.cut, look.ink.cut, layer="cut")


def guides(zone: Zone) -> list[Segment]:
    """Return the outlines for pieces: ten-frames, places for tens, the first hundred and marks."""
    found = [side for frame in zone.frames for side in outline(frame)]
    if zone.place == 0:
        unit = zone.slots[0].width
        found += [line for frame in zone.frames for line in grid(frame, unit)]
    elif zone.place == 1:
        found += _places(zone)
    elif len(zone.frames) == 1:
        found += [mark for slot in zone.slots[1:] for mark in _pile_marks(zone, slot)]
    return found


def _places(zone: Zone) -> list[Segment]:
    """Return ticks where one place for a ten ends and the next begins, above and below."""
    frame = zone.frames[0]
    ends = [slot.right for slot in zone.slots if abs(slot.right - frame.right) > 0.01]
    half = [frame.x + 5 * zone.slots[0].width] if len(zone.slots) > 5 else []
    ticks = [x for x in ends if x not in half]
    long = 2 * TICK
    return [
        line
        for x in ticks
        for line in (
            (x, frame.y, x, frame.y + long),
            (x, frame.bottom - long, x, frame.bottom),
        )
    ]


def _middles(zone: Zone) -> list[Segment]:
    """Return the dashed line after the fifth of ten places."""
    if zone.place != 1 or len(zone.slots) <= 5:
        return []
    frame, x = zone.frames[0], zone.slots[4].right
    return [(x, frame.y, x, frame.bottom)]


def _pile_marks(zone: Zone, slot: Rect) -> list[Segment]:
    """Return a corner for the lower right of a hundred in a pile, and ticks for its upper left.

    The ticks at the left keep clear of the column's line.
    """
    first = zone.frames[0]
    left = min(TICK, first.x - zone.rect.x - CLEAR)
    return [
        (slot.right - MARK, slot.bottom, slot.right, slot.bottom),
        (slot.right, slot.bottom - MARK, slot.right, slot.bottom),
        (slot.x, first.y - TICK, slot.x, first.y),
        (first.x - left, slot.y, first.x, slot.y),
    ]


def _columns(mat: Mat) -> list[Segment]:
    """Return the line under each strip and the lines between columns."""
    found: list[Segment] = []
    for strip, outer in zip(mat.strips, mat.outlines, strict=True):
        found.append((strip.x, strip.bottom, strip.right, strip.bottom))
        rights = {round(z.rect.right, 4) for z in mat.zones if outer.holds(z.rect)}
        for x in sorted(rights):
            if x < outer.right - 0.01:
                found.append((x, strip.bottom, x, outer.bottom))
    return found


def _borders(mat: Mat) -> list[Segment]:
    """Return the mat's sides short of its corners, and the lines between roles."""
    inset, right, bottom = FRAME / 2, mat.width - FRAME / 2, mat.height - FRAME / 2
    found: list[Segment] = [
        (CORNER, inset, mat.width - CORNER, inset),
        (CORNER, bottom, mat.width - CORNER, bottom),
        (inset, CORNER, inset, mat.height - CORNER),
        (right, CORNER, right, mat.height - CORNER),
    ]
    for outer in mat.outlines:
        if outer.y > 0.01:
            found.append((outer.x, outer.y, outer.right, outer.y))
        if outer.x > 0.01:
            found.append((outer.x, outer.y, outer.x, outer.bottom))
    return found


def _corners(canvas: Canvas, mat: Mat, area: Rect, dx: float, dy: float) -> None:
    radius = CORNER - FRAME / 2
    for x, y, start in (
        (CORNER, CORNER, 180),
        (mat.width - CORNER, CORNER, 270),
        (mat.width - CORNER, mat.height - CORNER, 0),
        (CORNER, mat.height - CORNER, 90),
    ):
        if area.holds(Rect(x - 0.1, y - 0.1, 0.2, 0.2)):
            arc = shapes.arc((x + dx, y + dy), (radius, radius), (start, start + 90))
            canvas.path(Path((arc,), stroke=canvas.look.ink.text, line=FRAME))


def _half_face(canvas: Canvas, join: Join, rect: Rect, spot: float) -> None:
    """Draw this sheet's half of a face: it lies upright on the joined mat."""
    ink = canvas.look.ink.text
    radius, eye, smile = FACE - 0.4, 0.88, 4.6
    turn = {"bottom": 180, "top": 0, "right": 90, "left": 270}[join.edge]
    if join.edge in ("top", "bottom"):
        x, y = spot, rect.y if join.edge == "top" else rect.bottom
    else:
        x, y = rect.x if join.edge == "left" else rect.right, spot
    half = shapes.arc((x, y), (radius, radius), (turn, turn + 180))
    canvas.path(Path((half,), stroke=ink, line=0.8))
    sides = {"bottom": (-1, 1), "top": (), "right": (-1,), "left": (1,)}[join.edge]
    for side in sides:
        canvas.path(shapes.disc(x + side * 2.6, y - 2.6, eye, ink))
    ends = {"bottom": None, "top": (25, 155), "right": (90, 155), "left": (25, 90)}[join.edge]
    if ends:
        mouth = shapes.arc((x, y), (smile, smile), ends)
        canvas.path(Path((mouth,), stroke=ink, line=0.8))


def _clipped(segment: Segment, area: Rect) -> Segment | None:
    """Return the part of a straight segment on ``area``, or None; segments run across or down."""
    x1, y1, x2, y2 = segment
    left, right = max(min(x1, x2), area.x), min(max(x1, x2), area.right)
    top, bottom = max(min(y1, y2), area.y), min(max(y1, y2), area.bottom)
    if left > right or top > bottom or math.hypot(right - left, bottom - top) < 1e-6:
        return None
    return (left, top, right, bottom)
