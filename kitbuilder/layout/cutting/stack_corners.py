"""The black corners of a part in a stack: there it is knocked square before the blade falls."""

import math
from collections.abc import Sequence

from kitbuilder.design.style import Style
from kitbuilder.layout.cutting.stack_order import Line, Panel
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.block import Block
from kitbuilder.layout.parts.contents import NumberSquare
from kitbuilder.layout.parts.contents import Panel as Frame
from kitbuilder.layout.parts.furniture import step_number

CORNER = 4.0
"""Most side in mm of a black corner without a number."""

_STEP = 0.5
# How finely room is sought for a corner that would lie on another, in mm.


def corners(panel: Panel, scale: float, style: Style) -> Block:
    """Return the black corners of a part's picture, at which it is knocked square.

    What a cut parts off, or what lies beyond a cut, has corners of its own with the numbers of
    the cuts whose stops are told from there.
    """
    held = [n for n in sorted(panel.lines, key=lambda n: n.number) if not n.by_hand]
    several = len({_place(line) for line in held}) > 1
    drawn = set[tuple[bool, bool, float]]()
    found: list[Item] = []
    taken: list[Rect] = []
    for line in held:
        most = min(line.kept, panel.width, panel.height) * scale
        own = step_number(line.number, style, CORNER)
        if not several or line.corner == 0 or own.width > 0.95 * most:
            if _place(line) in drawn:
                continue
            side = min(CORNER, 0.7 * most, 0.5 * scale * _ticked(panel, line))
            own = Block((Item("corner", Rect(0, 0, side, side), NumberSquare()),), side, side)
        drawn.add(_place(line))
        spot = _spot(line, own, scale, taken)
        taken.append(spot)
        square, *said = own.at(spot.x, spot.y)
        ground = Item("ground", square.rect, Frame("paper", "none", 0.0))  # where squares are bare
        found += (ground, Item("corner", square.rect, square.content), *said)
    return Block(tuple(found), 0, 0)


def _ticked(panel: Panel, line: Line) -> float:
    """Return the long side in mm of the finished piece in the corner of ``line``, if it is one."""
    first = [r for r in panel.done if line.corner == 0 and max(r.x, r.y) < 0.01]
    return min((max(r.width, r.height) for r in first), default=math.inf)


def _place(line: Line) -> tuple[bool, bool, float]:
    """Return what lines that are told from one corner have in common."""
    return (False, False, 0.0) if line.corner == 0 else (line.down, line.far, line.corner)


def _spot(line: Line, square: Block, scale: float, taken: Sequence[Rect]) -> Rect:
    """Return where the corner for ``line`` lies, pushed aside where it would lie on another."""
    off = line.corner * scale - (square.width if line.far else 0.0)
    aside = 0.0
    while True:
        x, y = (off, aside) if line.down else (aside, off)
        rect = Rect(x, y, square.width, square.height)
        if not any(rect.overlaps(other) for other in taken):
            return rect
        aside += _STEP
