"""Paragraphs as words on the page."""

from kitbuilder.draw.canvas import Canvas
from kitbuilder.layout.model import Rect
from kitbuilder.layout.text.flow import LEADING, TextBlock


def draw_text(canvas: Canvas, block: TextBlock, rect: Rect) -> None:
    """Write the lines of ``block`` from the top of ``rect``, its marker hanging at the left."""
    baseline = rect.y + block.size
    if block.marker:
        canvas.text(rect.x, baseline, block.marker, block.size)
    for line in block.lines:
        canvas.text(rect.x + block.indent, baseline, line, block.size)
        baseline += LEADING * block.size
