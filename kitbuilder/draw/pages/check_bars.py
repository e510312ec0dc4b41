"""The check sheet's bars with ticks, steps along the edges and register marks, drawn."""

from kitbuilder.draw.canvas import Canvas, Segment
from kitbuilder.layout.model import Rect
from kitbuilder.layout.pages.check_sheet import PITCH, STEPS, TYPE, Bar, Register, Stairs

CARD_CORNER = 3.18
"""Radius in mm of the corners of an ID-1 card (ISO/IEC 7810, from memory)."""


def draw_bar(canvas: Canvas, bar: Bar, rect: Rect) -> None:
    """Draw a scale of millimetres along the longer side of ``rect``, its length beside it."""
    look = canvas.look
    across = rect.width > rect.height
    thick = min(rect.width, rect.height)
    ends: list[Segment] = []
    ticks: list[Segment] = []
    for mm in range(bar.length + 1):
        reach = thick * (1 if mm % 10 == 0 else 0.7 if mm % 5 == 0 else 0.45)
        x, y = (rect.x + mm, rect.y) if across else (rect.x, rect.y + mm)
        tick = (x, y, x, y + reach) if across else (x, y, x + reach, y)
        (ends if mm in (0, bar.length) else ticks).append(tick)
    edge = (rect.x, rect.y, rect.right, rect.y) if across else (rect.x, rect.y, rect.x, rect.bottom)
    canvas.lines([edge, *ends], look.lines_mm.guide, look.ink.frame)
    canvas.lines(ticks, look.lines_mm.grid, look.ink.frame)


def draw_stairs(canvas: Canvas, stairs: Stairs, rect: Rect) -> None:
    """Draw lines 1, 2, 3 … mm from the paper's edge, each one further along, and their numbers."""
    look = canvas.look
    lines: list[Segment] = []
    for step in range(1, STEPS + 1):
        start, end = (step - 1) * PITCH, step * PITCH
        middle = (start + end) / 2
        line: Segment
        match stairs.side:
            case "top":
                line = (rect.x + start, step, rect.x + end, step)
                at = (rect.x + middle, step + 1 + 0.72 * TYPE)
            case "bottom":
                y = rect.bottom - step
                line = (rect.right - end, y, rect.right - start, y)
                at = (rect.right - middle, y - 1)
            case "right":
                x = rect.right - step
                line = (x, rect.y + start, x, rect.y + end)
                at = (x - 1 - 0.6 * TYPE, rect.y + middle + 0.36 * TYPE)
            case "left":
                line = (step, rect.bottom - end, step, rect.bottom - start)
                at = (step + 1 + 0.6 * TYPE, rect.bottom - middle + 0.36 * TYPE)
        lines.append(line)
        canvas.text(*at, str(step), TYPE, align="centre")
    canvas.lines(lines, look.lines_mm.guide, look.ink.text)


def draw_register(canvas: Canvas, mark: Register, rect: Rect) -> None:
    """Draw a scale of 5 mm each way round the middle of ``rect``, or on the back a bare cross."""
    look = canvas.look
    x, y = rect.x + rect.width / 2, rect.y + rect.height / 2
    if not mark.front:
        reach = rect.width / 2 - 2
        cross = [(x - reach, y, x + reach, y), (x, y - reach, x, y + reach)]
        canvas.lines(cross, look.lines_mm.cut, look.ink.text)
        return
    lines: list[Segment] = []
    for half in range(-10, 11):
        mm, reach = half / 2, 1.6 if half % 2 == 0 else 0.8
        lines.append((x + mm, y - 6 - reach, x + mm, y - 6))
        lines.append((x - 6 - reach, y + mm, x - 6, y + mm))
    lines += [(x - 5, y - 6, x + 5, y - 6), (x - 6, y - 5, x - 6, y + 5)]
    lines += [(x - 2, y, x + 2, y), (x, y - 2, x, y + 2)]
    canvas.lines(lines, look.lines_mm.guide, look.ink.text)
    for mm in (-5, 0, 5):
        text = str(mm).replace("-", "−")
        canvas.text(x + mm, y - 8.6, text, TYPE, align="centre")
        canvas.text(x - 8.4, y + mm + 0.36 * TYPE, text, TYPE, align="right")


def draw_card_outline(canvas: Canvas, rect: Rect) -> None:
    """Draw the outline of a bank card: the middle of the line is its edge."""
    look = canvas.look
    canvas.box(rect, stroke=look.ink.frame, width=look.lines_mm.guide, radius=CARD_CORNER)
