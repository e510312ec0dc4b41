"""Turns a panel of the cutting map into a small picture: numbered lines, arrows at both ends."""

from kitbuilder import measure
from kitbuilder.draw.canvas import Canvas, Segment
from kitbuilder.draw.pieces import merged, outline
from kitbuilder.sheet.cutting import Line
from kitbuilder.sheet.map import ARROW, PanelFigure
from kitbuilder.sheet.records import Rect

_INSIDE = 6.5
"""A line that ends further than this from the part's border, in mm, is marked where it ends."""


def draw_panel(canvas: Canvas, figure: PanelFigure, rect: Rect) -> None:
    """Draw the part, what it holds, what falls off, its lines, and the words below."""
    look, panel, scale = canvas.look, figure.panel, figure.scale
    size = look.type_mm.adult
    part = Rect(
        rect.x + figure.side, rect.y + figure.head, panel.width * scale, panel.height * scale
    )

    def placed(inner: Rect) -> Rect:
        return Rect(
            part.x + inner.x * scale,
            part.y + inner.y * scale,
            inner.width * scale,
            inner.height * scale,
        )

    for fall in panel.falls:
        _hatch(canvas, placed(fall))
    canvas.lines(
        merged(s for item in panel.inside for s in outline(placed(item))),
        look.lines_mm.grid,
        look.ink.grid,
    )
    canvas.box(part, stroke=look.ink.frame, width=look.lines_mm.guide)
    for line in panel.lines:
        _line(canvas, figure, part, line)
    baseline = part.bottom + figure.foot + size
    for said in figure.caption:
        canvas.text(rect.x + figure.side, baseline, said, size)
        baseline += 1.4 * size


def _line(canvas: Canvas, figure: PanelFigure, part: Rect, line: Line) -> None:
    """Draw one line, and at each end an arrow and its number.

    A line that ends well inside the part has its arrow there, on a clear ground.
    """
    look, scale = canvas.look, figure.scale
    corner, length = (part.y, part.height) if line.down else (part.x, part.width)
    at = line.at * scale + (part.x if line.down else part.y)
    start, end = corner + line.start * scale, corner + line.end * scale
    segment = (at, start, at, end) if line.down else (start, at, end, at)
    canvas.lines([segment], look.lines_mm.cut, look.ink.cut)
    number = str(line.number) if line in figure.named else ""
    near, far = (start, corner, -1), (end, corner + length, 1)
    for tip, border, way in (near, far):
        inside = abs(tip - border) > _INSIDE
        _end(canvas, line.down, at, (tip if inside else border) + 0.3 * way, way, number, inside)


def _end(
    canvas: Canvas, down: bool, at: float, tip: float, way: int, number: str, inside: bool
) -> None:
    """Draw an arrow whose tip points against ``way`` (1 down or right), its number behind it."""
    size, half = canvas.look.type_mm.adult, 0.45 * ARROW
    behind, base = tip + way * ARROW, tip + way * (ARROW + 1)
    across = measure.width(number, size)
    high = 0.72 * size
    if down:
        wide = max(across, ARROW)
        top = min(tip, base + way * high)
        clear = Rect(at - wide / 2, top, wide, ARROW + 1.4 + high)
        arrow = ((at, tip), (at - half, behind), (at + half, behind))
        place = (at, base + (high if way > 0 else 0))
    else:
        left = min(tip, base + way * across)
        clear = Rect(left, at - 0.6 * size, ARROW + 1.4 + across, 1.2 * size)
        arrow = ((tip, at), (behind, at - half), (behind, at + half))
        place = (base + (0 if way > 0 else -across), at + high / 2)
    if inside:
        canvas.box(clear, fill="#ffffff")
    canvas.shape(arrow, canvas.look.ink.cut)
    if number:
        canvas.text(*place, number, size, align="centre" if down else "left")


def _hatch(canvas: Canvas, rect: Rect, pitch: float = 1.6) -> None:
    """Fill ``rect`` with thin slanted lines: what falls off."""
    segments: list[Segment] = []
    steps = int((rect.width + rect.height) / pitch)
    for i in range(1, steps + 1):
        d = i * pitch
        x1, y1 = rect.x + min(d, rect.width), rect.y + max(0.0, d - rect.width)
        x2, y2 = rect.x + max(0.0, d - rect.height), rect.y + min(d, rect.height)
        segments.append((x1, y1, x2, y2))
    canvas.lines(segments, canvas.look.lines_mm.grid, canvas.look.ink.guide)
