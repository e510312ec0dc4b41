"""Pieces drawn small, in one of four states that differ in line, fill and mark.

As a one gets smaller, its ten and hundred keep what can still be seen: the whole grid, then ticks
along a side, then the middle alone.
"""

from kitbuilder.design.look import WHITE
from kitbuilder.draw.canvas import Canvas
from kitbuilder.draw.marks import Path
from kitbuilder.draw.piece_grids import grid, merged, outline
from kitbuilder.layout.cutting.cut_lines import Segment
from kitbuilder.layout.model import Rect
from kitbuilder.layout.parts.contents import SmallPieces

FULL, TICKED = 2.2, 1.1
"""Widths in mm of a one: from the first the grid is whole, from the second there are ticks."""

_TICK, _LONG_TICK = 0.32, 0.55
_INSET, _CLOSE = 0.19, 2.8
# In units, how long ticks are, and that at five; in mm, how far inside the outline of a new one
# stands below the unit of _CLOSE, so that neighbours do not run together.

_DASH = 0.16
_SLASH = 0.3


def draw_small_pieces(canvas: Canvas, pieces: SmallPieces, at: Rect) -> None:
    """Draw ``pieces`` from the top left of ``at``; a hundred hides those under it."""
    rects = [rect.moved(at.x, at.y) for rect in pieces.rects]
    if pieces.state == "needed":
        _needed(canvas, rects, pieces.unit)
        return
    for rect in rects:
        if pieces.state == "gone":
            _gone(canvas, rect, pieces.unit)
        else:
            _lying(canvas, rect, pieces.unit, new=pieces.state == "new")


def _lying(canvas: Canvas, rect: Rect, unit: float, *, new: bool) -> None:
    look = canvas.look
    fill = look.ink.accent_tint if new else WHITE
    if rect.width > 10.5 * unit:
        rect = _depth(canvas, rect, unit)
    canvas.box(rect, fill=WHITE if fill == "none" else fill)
    _grid(canvas, rect, unit)
    width = look.lines_mm.new if new else look.lines_mm.piece
    if new and unit < _CLOSE:
        width *= 0.76
        rect = rect.inset(_INSET)
    canvas.box(rect, stroke=look.ink.text, width=width)


def _depth(canvas: Canvas, rect: Rect, unit: float) -> Rect:
    """Draw the top and the side of a thousand, and return its front."""
    look, side = canvas.look, 10 * unit
    front = Rect(rect.x, rect.bottom - side, side, side)
    x, y = rect.right, rect.y
    around = ((front.x, front.y), (x - side, y), (x, y), (x, y + side), (front.right, front.bottom))
    canvas.path(Path((around,), WHITE, look.ink.text, look.lines_mm.piece, closed=True))
    edge = ((front.right, front.y), (x, y))
    canvas.path(Path((edge,), "", look.ink.text, look.lines_mm.piece))
    return front


def _grid(canvas: Canvas, rect: Rect, unit: float) -> None:
    look = canvas.look
    across, down = round(rect.width / unit), round(rect.height / unit)
    if across * down == 1:
        return
    lines: list[Segment]
    width = look.lines_mm.fine if across == down else look.lines_mm.grid
    if unit >= FULL - 1e-6:
        lines = list(grid(rect, unit))
    elif unit >= TICKED - 1e-6:
        lines = _ticks(rect, unit, across, down)
    else:
        lines = _middle(rect, across, down)
    canvas.lines(merged(lines), width, look.ink.grid)


def _ticks(rect: Rect, unit: float, across: int, down: int) -> list[Segment]:
    """Return ticks at the left and the top, longer at five; a hundred has a light cross too."""
    found: list[Segment] = []
    for k in range(1, down):
        long = (_LONG_TICK if k == 5 else _TICK) * unit
        found.append((rect.x, rect.y + k * unit, rect.x + long, rect.y + k * unit))
    for k in range(1, across):
        long = (_LONG_TICK if k == 5 else _TICK) * unit
        found.append((rect.x + k * unit, rect.y, rect.x + k * unit, rect.y + long))
    return found + (_middle(rect, across, down) if across == down else [])


def _middle(rect: Rect, across: int, down: int) -> list[Segment]:
    x, y = rect.x + rect.width / 2, rect.y + rect.height / 2
    found: list[Segment] = [(rect.x, y, rect.right, y)] if down > 1 else []
    return found + ([(x, rect.y, x, rect.bottom)] if across > 1 else [])


def _gone(canvas: Canvas, rect: Rect, unit: float) -> None:
    """Draw a grey ground with one slash; where a look fills nothing, a thin outline with it."""
    look = canvas.look
    if look.ink.gone == "none":
        canvas.box(rect, fill=WHITE, stroke=look.ink.grid, width=look.lines_mm.fine)
    else:
        canvas.box(rect, fill=look.ink.gone)
    reach = min(rect.width, rect.height) * (0.42 if rect.width < 5 * unit else 0.45)
    x, y = rect.x + rect.width / 2, rect.y + rect.height / 2
    rise = reach * (1.25 if rect.height > 5 * unit > rect.width else 1.0)
    ends = ((x - reach, y + rise), (x + reach, y - rise))
    canvas.path(Path((ends,), "", look.ink.slash, max(_SLASH, look.lines_mm.grid)))


def _needed(canvas: Canvas, rects: list[Rect], unit: float) -> None:
    look = canvas.look
    sides = merged(side for rect in rects for side in outline(rect))
    dash = f"{_DASH * unit:.3f} {_DASH * unit:.3f}"
    canvas.lines(sides, look.lines_mm.write, look.ink.text, dash=dash)
