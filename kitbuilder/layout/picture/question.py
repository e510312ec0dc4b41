"""Where the "?" of an arrow stands: on its shaft where that is long enough, else beside it.

Or beside the pieces it asks for; in another column it would ask for others. Where nothing near is
clear it stands on pieces.
"""

import math
from collections.abc import Iterator
from itertools import pairwise

from kitbuilder.design.style import Style
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.contents import Point
from kitbuilder.layout.parts.settings import Setting
from kitbuilder.layout.parts.words import placed_line
from kitbuilder.layout.picture.ground import ArrowWay, Ground
from kitbuilder.layout.picture.group import Group

_WIDE, _HIGH, _GLYPH = 1.0, 1.3, 1.6
# In an adult's ems: the room of a question, and its type.

_OFF_SHAFT, _LONG, _ASTRAY = 8.0, 0.06, 100.0
_RINGS = (0.0, 1.5, 3.0, 5.0, 8.0, 12.0, 16.0, 21.0, 27.0)
_AROUND = ((1, 0), (-1, 0), (0, -1), (0, 1), (1, 1), (-1, 1), (1, -1), (-1, -1))
# What it costs to stand beside the shaft, for each mm from the arrow's middle, and in another
# column; how far, in mm; which ways.


def question_size(style: Style) -> tuple[float, float]:
    """Return the width and height in mm of the room of a question."""
    return _WIDE * style.look.type_mm.adult, _HIGH * style.look.type_mm.adult


def question(
    going: ArrowWay, ends: tuple[Group, Group], ground: Ground, style: Style
) -> tuple[Item, Rect | None]:
    """Return the question of an arrow between ``ends``, and the gap for it if in the shaft."""
    wide, high = question_size(style)
    middle = _middle(going.points)
    least, at, on_shaft = math.inf, middle, False
    beside = (*going.boxes, ends[0].leaving())
    spots = [(spot, True) for spot in _on_shaft(going, wide, high)]
    spots += [(spot, False) for spot in _beside(going, wide, high)]
    for spot, on in spots:
        cost = _LONG * (abs(spot[0] - middle[0]) + abs(spot[1] - middle[1]))
        cost += 0.0 if on else _OFF_SHAFT
        cost += _ASTRAY * (not any(_in_column(spot, group) for group in ends))
        if cost < least and (on or any(_near(spot, box, 1.4 * high) for box in beside)):
            box = Rect(spot[0] - wide / 2, spot[1] - high / 2, wide, high)
            cost += ground.met_by(box, going.boxes[-1:] if on else going.boxes)
            if cost < least:
                least, at, on_shaft = cost, spot, on
    size = _GLYPH * style.look.type_mm.adult
    item = placed_line("?", Setting(size, size, "heading", "accent"), *at, "centre")
    return item, Rect(at[0] - wide / 2, at[1] - high / 2, wide, high) if on_shaft else None


def _in_column(at: Point, group: Group) -> bool:
    return group.column.x < at[0] < group.column.x + group.column.width


def _near(at: Point, box: Rect, off: float) -> bool:
    return box.inset(-off).overlaps(Rect(*at, 0.01, 0.01))


def _middle(points: tuple[Point, ...]) -> Point:
    (x1, y1), (x2, y2) = max(
        pairwise(points), key=lambda ab: abs(ab[0][0] - ab[1][0]) + abs(ab[0][1] - ab[1][1])
    )
    return (x1 + x2) / 2, (y1 + y2) / 2


def _on_shaft(going: ArrowWay, wide: float, high: float) -> Iterator[Point]:
    """Yield where there is room for a question on the shaft, some of it left at both ends."""
    for (x1, y1), (x2, y2) in pairwise(going.points):
        level = abs(x2 - x1) > abs(y2 - y1)
        long, need = (abs(x2 - x1), wide) if level else (abs(y2 - y1), high)
        last = (x2, y2) == going.points[-1]
        head = going.boxes[-1].width if level else going.boxes[-1].height
        room = long - (head + 1.2 if last else 1.2) - 1.2
        if room < need:
            continue
        for k in range(11):
            along = (1.2 + need / 2 + (room - need) * k / 10) / long
            yield x1 + along * (x2 - x1), y1 + along * (y2 - y1)


def _beside(going: ArrowWay, wide: float, high: float) -> Iterator[Point]:
    """Yield points at both sides of the arrow, further and further off."""
    for (x1, y1), (x2, y2) in pairwise(going.points):
        for part in (0.5, 0.25, 0.75, 0.0, 1.0):
            x, y = x1 + part * (x2 - x1), y1 + part * (y2 - y1)
            for ring in _RINGS:
                for dx, dy in _AROUND:
                    yield x + dx * (wide / 2 + 1 + ring), y + dy * (high / 2 + 1 + ring)
