"""The marks in the corners of what must print."""

from kitbuilder.draw.canvas import Canvas
from kitbuilder.layout.cover.size_check import CornerMarks
from kitbuilder.layout.model import Rect


def draw_corner_marks(canvas: Canvas, marks: CornerMarks, rect: Rect) -> None:
    """Draw an angle into each corner of ``rect``, its strokes just inside."""
    look = canvas.look
    half, long = look.lines_mm.frame / 2, marks.length
    inner = rect.inset(half)
    segments = []
    for x, way in ((inner.x, 1), (inner.right, -1)):
        segments += [(x, y, x + way * long, y) for y in (inner.y, inner.bottom)]
        segments += [(x, inner.y, x, inner.y + long), (x, inner.bottom, x, inner.bottom - long)]
    canvas.lines(segments, look.lines_mm.frame, look.ink.text)
