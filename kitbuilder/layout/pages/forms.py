"""What forms are made of: lines of words, frames, lines to write on, boxes to tick."""

from collections.abc import Sequence
from dataclasses import dataclass

from kitbuilder.design import metrics
from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.pages.guide_pages import TickBox
from kitbuilder.layout.parts.contents import Line

LEADING = 1.35
"""Line spacing of words in a form, in sizes of type."""

SMALLEST = 0.6
"""How small type may become where a place is narrow, as a part of its size."""

BOX = 4.4
"""Side in mm of a box to tick."""


@dataclass(frozen=True, slots=True)
class Panel:
    """A frame with round corners."""


@dataclass(frozen=True, slots=True)
class WriteLine:
    """A line to write on, at the foot of its rectangle; ``dashed`` where it is to be cut."""

    dashed: bool = False


def text_at(text: str, size: float, x: float, baseline: float, right: float) -> Item:
    """Return a line of words from ``x`` on ``baseline``, mm, that ends before ``right``.

    Its type is smaller where that is needed, down to ``SMALLEST`` of its size.
    """
    fitted = min(size, (right - x) / max(metrics.width(text, 1), 0.01))
    fitted = max(fitted, SMALLEST * size)
    above = metrics.digit_height(fitted)
    place = Rect(x, baseline - above, max(metrics.width(text, fitted), 0.01), above)
    item = Item("line", place, Line(text, fitted, above))
    if item.rect.right > right + 0.01:
        raise RefusedError("form.too-wide", text=text[:40], size=size)
    return item


def wrapped_at(text: str, size: float, area: Rect) -> tuple[list[Item], float]:
    """Return ``text`` in lines from the top of ``area``, and the y below them, mm."""
    widest = max(metrics.width(word, 1) for word in text.split())
    size = max(min(size, area.width / widest), SMALLEST * size)
    lines = metrics.wrap(text, size, area.width)
    step = LEADING * size
    items = [
        text_at(line, size, area.x, area.y + metrics.digit_height(size) + k * step, area.right)
        for k, line in enumerate(lines)
    ]
    return items, area.y + len(lines) * step


def rule(x: float, right: float, y: float) -> Item:
    """Return a line to write on from ``x`` to ``right`` at ``y``, mm."""
    return Item("write_line", Rect(x, y - 0.1, right - x, 0.2), WriteLine())


def ticks(labels: Sequence[str], x: float, y: float, style: Style, right: float) -> list[Item]:
    """Return boxes in a row, each with its label after it; ``y`` is the top of the boxes, mm."""
    size = style.look.type_mm.adult
    found: list[Item] = []
    for label in labels:
        found += tick(label, x, y, style, right)
        x = found[-1].rect.right + 0.9 * size
    return found


def tick_step(style: Style) -> float:
    """Return how far apart in mm the tops of boxes stand below each other."""
    return max(BOX + 1.6, LEADING * style.look.type_mm.adult)


def tick(label: str, x: float, y: float, style: Style, right: float) -> list[Item]:
    """Return a box to tick with its top left at (x, y), mm, and its label."""
    size = style.look.type_mm.adult
    baseline = y + (BOX + metrics.digit_height(size)) / 2
    box = Item("tick_box", Rect(x, y, BOX, BOX), TickBox())
    return [box, text_at(label, size, x + BOX + 1.2, baseline, right)]
