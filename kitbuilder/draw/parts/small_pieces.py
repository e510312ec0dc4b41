"""Pieces drawn small, in one of four states that differ in line, fill and mark.

As a one gets smaller, its ten and hundred keep what can still be seen: the whole grid, then ticks
along a side, then the middle alone.
"""

from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache
from itertools import groupby
from operator import attrgetter

from kitbuilder.counting import thousandth
from kitbuilder.design.look import WHITE, Look
from kitbuilder.draw.canvas import Canvas
from kitbuilder.draw.piece_grids import grid, merged, outline
from kitbuilder.draw.primitives import Box, Figure, Path, Strokes
from kitbuilder.layout.cutting.line_segments import Segment
from kitbuilder.layout.model import Rect
from kitbuilder.layout.parts.contents import SmallPieces, State
from kitbuilder.layout.parts.settings import growth

FULL, TICKED, FULL_HUNDRED = 1.94, 1.1, 2.2
"""Widths in mm of a one: from the first the grid is whole, from the second there are ticks.

A hundred takes much ink: its grid is whole from the last on.
"""

_TICK, _LONG_TICK = 0.32, 0.55
# In units, how long ticks are, and that at five.

_LEAST_NEW, _LITTLE, _MOST_NEW = 0.78, 75, 0.19
# Which part of its width the outline of what is new has at least, where of a pile there is little
# to see: so many units of outlines; and at most which part of a one's width it takes.

_CLOSE, _MOST_CLOSE, _OVER_OLD, _MOST_OUTLINES = 2.8, 0.34, 2.5, 0.0083
# Below what unit in mm an outline is at most so wide, or in large type so many times as wide as of
# what is not new, and which part of a page such outlines of a pile cover at most: those of ten new
# tens would take more ink than a page has left.

_LEAST_GRID, _LEAST_UNDER = 0.155, 0.19
# In mm, how wide the lines of a grid are at least: all of them hold in a poor copy, or none; and
# the outline of a hundred that is gone, under others.

_WHOLE, _FINEST = 3.2, 0.66
# From what width of a one on lines are as wide as the look's, and the least part of it below.

_LAYER = 0.3
# The least distance in mm between two layers.

_SPACE, _DASHES = 0.1, 5
_SLASH = 0.3
# How far in units the outline of one still needed stands inside, so that neighbours do not run into
# a mesh, and its side in dashes and gaps: dashes meet at corners. In mm, the least of a slash.


def draw_small_pieces(canvas: Canvas, pieces: SmallPieces, at: Rect) -> None:
    """Draw ``pieces`` from the top left of ``at``; a hundred hides those under it."""
    if pieces.state == "needed":
        _needed(canvas, [rect.moved(at.x, at.y) for rect in pieces.rects], pieces.unit)
        return
    unit = round(pieces.unit, 4)
    fresh = pieces.rects[0 if pieces.state == "new" else len(pieces.rects) - pieces.passing :]
    new = _new_line(canvas, fresh, pieces.unit)
    for size, alike in _by_size(pieces.rects):
        piled = tuple(alike)
        for rect, next_ in zip(piled, (*piled[1:], None), strict=True):
            under = bool(pieces.slashes)
            if pieces.state != "gone":
                under = next_ is not None and rect.overlaps(next_)
            line = new if rect in fresh else 0.0
            piece = _piece(size, unit, pieces.state, under, line, canvas.look)
            canvas.figure(piece, at.x + rect.x, at.y + rect.y)
    if pieces.state == "gone":
        for size, alike in _by_size(pieces.slashes or pieces.rects):
            slash = _struck(size, unit, canvas.look)
            for rect in alike:
                canvas.figure(slash, at.x + rect.x, at.y + rect.y)


def _new_line(canvas: Canvas, rects: Sequence[Rect], unit: float) -> float:
    """Return how wide in mm the outlines of new pieces are, which lie in ``rects``."""
    if not rects:
        return 0.0
    page = canvas.page
    round_all = sum(2 * (rect.width + rect.height) for rect in rects)
    most = round(_MOST_OUTLINES * page.width * page.height / round_all, 2)
    if unit < _CLOSE:
        large = growth(canvas.look) > 1
        over = _OVER_OLD * canvas.look.lines_mm.piece * _finer(unit) if large else 0.0
        most = min(most, max(_MOST_CLOSE, over))
    least = _LEAST_NEW if round_all < _LITTLE * unit else 0.0
    return min(max(least, _finer(unit)) * canvas.look.lines_mm.new, _MOST_NEW * unit, most)


def _by_size(rects: Iterable[Rect]) -> Iterator[tuple[tuple[float, float], Iterable[Rect]]]:
    """Yield runs of ``rects`` that are as large as each other, with their size."""
    for (width, height), alike in groupby(rects, attrgetter("width", "height")):
        yield (thousandth(width), thousandth(height)), alike


@lru_cache(1024)
def _piece(
    size: tuple[float, float], unit: float, state: State, under: bool, new: float, look: Look
) -> Figure:
    """Return one piece of ``size`` mm, ``under`` the next or not; those alike share it.

    Of one that is gone there is no grid, even if it was ``new``.
    """
    rect = Rect(0, 0, *size)
    gone = state == "gone"
    if gone and not new:
        return Figure(tuple(_gone(look, rect, unit, under=under)), *size)
    return Figure(tuple(_lying(look, rect, unit, new=new, under=under or gone)), *size)


def _lying(
    look: Look, rect: Rect, unit: float, *, new: float, under: bool
) -> Iterator[Strokes | Box | Path]:
    """Yield the ground, the grid and the outline, as black as a cut, of a piece that lies there.

    Of a hundred ``under`` the next a thin L is seen, never a strip with ten squares. One that is
    ``new`` has an outline so wide.
    """
    fill = look.ink.accent_tint if new else WHITE
    if rect.height > 10.5 * unit:
        yield from _layers(look, rect, unit, look.ink.cut)
        rect = Rect(rect.x, rect.y, 10 * unit, 10 * unit)
    yield Box(rect.x, rect.y, rect.width, rect.height, fill=WHITE if fill == "none" else fill)
    if not under:
        yield from _grid(look, rect, unit)
    usual = look.lines_mm.piece * _finer(unit)
    if new:
        rect = rect.inset((new - usual) / 2)
    yield Box(rect.x, rect.y, rect.width, rect.height, stroke=look.ink.cut, line=new or usual)


def _finer(unit: float) -> float:
    """Return which part of their width lines have: they are finer on small pieces."""
    return min(1.0, max(_FINEST, unit / _WHOLE))


def _layers(look: Look, rect: Rect, unit: float, ink: str) -> Iterator[Box | Strokes]:
    """Yield the layers of a folded thousand below its top: ten, or five where ten run together."""
    below = rect.height - 10 * unit
    many = 10 if below / 10 >= _LAYER else 5
    line = max(_LEAST_GRID, look.lines_mm.fine * _finer(unit))
    yield Box(rect.x, rect.y, rect.width, rect.height, fill=WHITE, stroke=ink, line=line)
    ys = (rect.bottom - below * k / many for k in range(1, many))
    yield Strokes(tuple((rect.x, y, rect.right, y) for y in ys), line, ink)


def _grid(look: Look, rect: Rect, unit: float) -> Iterator[Strokes]:
    across, down = round(rect.width / unit), round(rect.height / unit)
    if across * down == 1:
        return
    lines: list[Segment]
    width = look.lines_mm.fine * _finer(unit)
    width = max(_LEAST_GRID, width)
    full = unit >= (FULL_HUNDRED if across == down else FULL) - 1e-6
    if full:
        lines = list(grid(rect, unit))
    elif unit >= TICKED - 1e-6:
        lines = _ticks(rect, unit, across, down)
    else:
        lines = _middle(rect, across, down)
    if lines:
        ink = look.ink.text if _plain_to_see(look) else look.ink.quiet
        yield Strokes(merged(lines), width, ink)
    if unit >= FULL - 1e-6 and across == down:  # a poor copy takes the rest of the grid
        yield Strokes(merged(_middle(rect, across, down)), width, look.ink.cut)


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


def _plain_to_see(look: Look) -> bool:
    """Say whether grids are as black as words, and slashes of what is gone so too."""
    return look.ink.gone != "none" and look.ink.slash == look.ink.text


def _gone(look: Look, rect: Rect, unit: float, *, under: bool) -> Iterator[Box | Strokes]:
    """Yield a grey ground with a thin outline, which a poor copy keeps, and no grid.

    That of a hundred ``under`` others is wider: no more is seen of it.
    """
    fill = WHITE if look.ink.gone == "none" else look.ink.gone
    stroke, line = look.ink.slash, max(_LEAST_GRID, look.lines_mm.fine * _finer(unit))
    line = max(line, _LEAST_UNDER) if under else line
    if rect.height > 10.5 * unit:
        yield from _layers(look, rect, unit, stroke)
        rect = Rect(rect.x, rect.y, 10 * unit, 10 * unit)
    yield Box(rect.x, rect.y, rect.width, rect.height, fill=fill, stroke=stroke, line=line)


@lru_cache(1024)
def _struck(size: tuple[float, float], unit: float, look: Look) -> Figure:
    """Return the one slash of a gone piece of ``size`` mm, as high in a strip as in a ten."""
    width, height = size
    reach = min(size) * (0.42 if width < 5 * unit else 0.45)
    x, y = width / 2, height / 2
    rise = 2.2 * max(reach, 0.42 * unit) if height > 5 * unit > width else reach
    line = max(_SLASH, look.lines_mm.grid)
    if _plain_to_see(look):
        line = max(_SLASH, 1.1 * look.lines_mm.write * _finer(unit))
    ends = ((x - reach, y + rise), (x + reach, y - rise))
    return Figure((Path((ends,), "", look.ink.slash, line),), *size)


def _needed(canvas: Canvas, rects: list[Rect], unit: float) -> None:
    look = canvas.look
    sides = merged(side for rect in rects for side in outline(rect.inset(_SPACE * unit)))
    long = (1 - 2 * _SPACE) / _DASHES * unit
    dash = f"{long:.3f} {long:.3f}"
    canvas.lines(sides, look.lines_mm.write * _finer(unit), look.ink.text, dash=dash)
