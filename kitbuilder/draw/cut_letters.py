"""Letters and scissors beside the lines to cut first."""

import math

from kitbuilder.design import metrics
from kitbuilder.draw.canvas import Canvas
from kitbuilder.layout.cutting.cut_marks import LETTER, CutMark
from kitbuilder.layout.model import Rect

_BLADE = ((6.2, 12.6), (7.4, 14.2), (19.8, 6.5), (17.6, 5.9))
_RING = (3.9, 15.1, 2.7, 1.7)
"""Blade and handle (x, y, radius, line) on a grid of 20 by 20; both also mirrored at y = 10."""


def draw_cut_mark(canvas: Canvas, mark: CutMark) -> None:
    """Draw a letter in a disc, and the scissors beside it."""
    draw_letter(canvas, mark.letter, mark.disc)
    draw_scissors(canvas, mark.scissors, mark.quarters)


def draw_letter(canvas: Canvas, letter: str, disc: Rect) -> None:
    """Draw ``letter`` in white on a disc."""
    size = LETTER * disc.width
    x, y = disc.x + disc.width / 2, disc.y + disc.height / 2
    canvas.box(disc, fill=canvas.look.ink.cut, radius=disc.width / 2)
    above = metrics.digit_height(size)
    canvas.text(x, y + above / 2, letter, size, align="centre", colour="#ffffff")


def draw_scissors(canvas: Canvas, rect: Rect, quarters: int) -> None:
    """Draw scissors in ``rect`` that cut to the right, turned to the right by ``quarters``."""
    ink = canvas.look.ink.cut
    for mirrored in (False, True):
        canvas.shape([_at(rect, x, _flip(y, mirrored), quarters) for x, y in _BLADE], ink)
        x, y, radius, line = _RING
        cx, cy = _at(rect, x, _flip(y, mirrored), quarters)
        r = radius * rect.width / 20
        box = Rect(cx - r, cy - r, 2 * r, 2 * r)
        canvas.box(box, stroke=ink, width=line * rect.width / 20, radius=r)


def _flip(y: float, mirrored: bool) -> float:
    return 20 - y if mirrored else y


def _at(rect: Rect, x: float, y: float, quarters: int) -> tuple[float, float]:
    """Return the point (x, y) of the grid of 20 in ``rect``, turned."""
    angle = quarters * math.pi / 2
    dx, dy = (x - 10) / 20 * rect.width, (y - 10) / 20 * rect.width
    cos, sin = round(math.cos(angle)), round(math.sin(angle))
    return (
        rect.x + rect.width / 2 + dx * cos - dy * sin,
        rect.y + rect.height / 2 + dx * sin + dy * cos,
    )
