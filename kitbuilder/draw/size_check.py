"""Turns the cover's size check and corner marks into bars, an outline and strokes."""

from kitbuilder.draw.canvas import Canvas
from kitbuilder.layout.model import Rect
from kitbuilder.layout.pages.cover_page import BANK_CARD, BAR, CornerMarks, SizeCheck

_THICK = 3.0


def draw_size_check(canvas: Canvas, check: SizeCheck, rect: Rect) -> None:
    """Draw a bar across and a bar down, 100 mm each from the corner, and the card's outline."""
    look = canvas.look
    for bar in (
        Rect(rect.x, rect.y, BAR, _THICK),
        Rect(rect.x, rect.y, _THICK, BAR),
    ):
        canvas.box(bar, stroke=look.ink.frame, width=look.lines_mm.guide)
    ticks = [(rect.x + 10 * i, rect.y, rect.x + 10 * i, rect.y + _THICK) for i in range(1, 10)]
    ticks += [(rect.x, rect.y + 10 * i, rect.x + _THICK, rect.y + 10 * i) for i in range(1, 10)]
    canvas.lines(ticks, look.lines_mm.guide, look.ink.frame)
    size = look.type_mm.adult
    canvas.text(rect.x + BAR, rect.y + _THICK + 1.3 * size, check.bar, size, align="right")
    canvas.text(rect.x + _THICK + 0.4 * size, rect.bottom - 0.3 * size, check.bar, size)
    width, height = BANK_CARD
    card = Rect(rect.x + 9, rect.y + 22, width, height)
    canvas.box(card, stroke=look.ink.frame, width=look.lines_mm.frame, radius=3.18)
    canvas.text(card.x + width / 2, card.y + height / 2 + 1, check.card, size, align="centre")


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
