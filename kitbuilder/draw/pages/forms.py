"""Draws what forms are made of: frames and lines to write on or to cut."""

from kitbuilder.draw.canvas import Canvas
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.pages.forms import Panel, WriteLine

RADIUS = 2.0
"""Of a frame's corners, mm."""


def draw_form(canvas: Canvas, item: Item) -> bool:
    """Draw a part of a form; say whether ``item`` was one."""
    look, rect = canvas.look, item.rect
    match item.content:
        case Panel():
            canvas.box(rect, stroke=look.ink.frame, width=look.lines_mm.guide, radius=RADIUS)
        case WriteLine(dashed):
            _line(canvas, rect, dashed=dashed)
        case _:
            return False
    return True


def _line(canvas: Canvas, rect: Rect, *, dashed: bool) -> None:
    look, y = canvas.look, rect.bottom
    line = (rect.x, y, rect.right, y)
    if dashed:
        canvas.lines([line], look.lines_mm.guide, look.ink.frame, dash="4 3")
    else:
        canvas.lines([line], look.lines_mm.guide, look.ink.text)
