"""Turns paragraphs and tables into words on the page."""

from kitbuilder.draw.canvas import Canvas
from kitbuilder.layout.model import Rect
from kitbuilder.layout.text.flow import LEADING, TextBlock
from kitbuilder.layout.text.table import Table


def draw_text(canvas: Canvas, block: TextBlock, rect: Rect) -> None:
    """Write the lines of ``block`` from the top of ``rect``, its marker hanging at the left."""
    baseline = rect.y + block.size
    if block.marker:
        canvas.text(rect.x, baseline, block.marker, block.size)
    for line in block.lines:
        canvas.text(rect.x + block.indent, baseline, line, block.size)
        baseline += LEADING * block.size


def draw_table(canvas: Canvas, table: Table, rect: Rect) -> None:
    """Write the rows of ``table``; a thin line stands under the headings."""
    step = LEADING * table.size
    for number, row in enumerate(table.lines):
        baseline = rect.y + number * step + table.size
        colour = canvas.look.ink.quiet if number < table.heads else canvas.look.ink.text
        for cell, x in zip(row, table.columns, strict=True):
            canvas.text(rect.x + x, baseline, cell, table.size, colour=colour)
    line = rect.y + table.heads * step
    look = canvas.look
    canvas.lines([(rect.x, line, rect.right, line)], look.lines_mm.guide, look.ink.guide)
