"""Placed pieces drawn as grids and outlines, neighbours sharing one line."""

from collections.abc import Iterable, Sequence
from functools import lru_cache
from itertools import groupby

from kitbuilder.design.load import Look
from kitbuilder.draw.canvas import Canvas
from kitbuilder.draw.marks import Figure, Strokes
from kitbuilder.layout.cutting.cut_lines import Segment
from kitbuilder.layout.cutting.cut_lines import merged as merged
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.pieces.sturdy import FOLDED, fold_line

FOLD_DASH = "4 3"
"""Dashes and gaps in mm of a line to fold."""

_FINEST = 0.12
"""The widest that a grid's line may be in a picture, in units."""


def draw_pieces(
    canvas: Canvas,
    items: Sequence[Item],
    unit: float,
    kerf: float = 0.0,
    is_back: bool = False,
) -> None:
    """Draw pieces of whole units: fine grids inside, folds, and outlines on the cut layer.

    Every line is drawn once: where two pieces touch they share it, where they stand a ``kerf``
    apart (mm) it runs midway. A back has grids and nothing else: it is cut from the front.
    """
    look = canvas.look
    folds = {i: fold_line(i.what, i.rect) for i in items if i.what in FOLDED}
    lines = [s for i in items for s in grid(i.rect, unit) if not _same(s, folds.get(i))]
    canvas.lines(merged(lines), look.lines_mm.grid, look.ink.grid)
    canvas.lines(folds.values(), look.lines_mm.guide, look.ink.frame, layer="fold", dash=FOLD_DASH)
    if not is_back:
        lines = [s for i in items for s in outline(i.rect.inset(-kerf / 2))]
        canvas.lines(merged(lines), look.lines_mm.cut, look.ink.cut, layer="cut")


def _same(one: Segment, other: Segment | None) -> bool:
    return other is not None and max(abs(a - b) for a, b in zip(one, other, strict=True)) < 1e-3


def draw_edges(canvas: Canvas, rects: Sequence[Rect], unit: float, fine: float) -> None:
    """Draw the strips that covered pieces show in a picture: the outlines alone."""
    look = canvas.look
    width = min(fine * look.lines_mm.frame, _FINEST * 2 * unit)
    canvas.lines(merged(s for rect in rects for s in outline(rect)), width, look.ink.frame)


def draw_frames(canvas: Canvas, rects: Sequence[Rect], unit: float, *, fine: float = 1.0) -> None:
    """Draw pieces as frames to lay real pieces on: grid and a thin outline, printed only.

    ``fine`` makes the lines thinner, for pictures of pieces; there they never fill a square,
    and pieces of one size that follow each other make one figure, which cards share.
    """
    look = canvas.look
    if fine == 1:
        for strokes in _frames(rects, unit, look, fine, 99.0):
            canvas.lines(strokes.lines, strokes.width, strokes.colour)
        return
    for _, group in groupby(rects, key=lambda rect: (round(rect.width, 3), round(rect.height, 3))):
        alike = list(group)
        x, y = min(rect.x for rect in alike), min(rect.y for rect in alike)
        canvas.figure(_shared(_places(alike, x, y), round(unit, 4), look, fine), x, y)


def _places(rects: Sequence[Rect], x: float, y: float) -> tuple[tuple[float, ...], ...]:
    """Return ``rects`` (x, y, width, height) as seen from (x, y), to a thousandth of a mm."""
    return tuple(
        (round(r.x - x, 3), round(r.y - y, 3), round(r.width, 3), round(r.height, 3)) for r in rects
    )


@lru_cache(256)
def _shared(places: tuple[tuple[float, ...], ...], unit: float, look: Look, fine: float) -> Figure:
    rects = [Rect(*place) for place in places]
    wide, high = max(rect.right for rect in rects), max(rect.bottom for rect in rects)
    return Figure(_frames(rects, unit, look, fine, _FINEST * unit), wide, high)


def _frames(
    rects: Sequence[Rect], unit: float, look: Look, fine: float, most: float
) -> tuple[Strokes, ...]:
    """Return the lines of frames; no line of a grid is wider than ``most`` mm."""
    grids = merged(s for rect in rects for s in grid(rect, unit))
    sides = merged(s for rect in rects for s in outline(rect))
    thin, thick = min(fine * look.lines_mm.grid, most), min(fine * look.lines_mm.frame, 2 * most)
    inside = (Strokes(grids, thin, look.ink.grid),) if grids else ()
    return (*inside, Strokes(sides, thick, look.ink.frame))


def grid(rect: Rect, unit: float) -> Iterable[Segment]:
    """Yield the inner unit lines of a piece of whole units."""
    across, down = round(rect.width / unit), round(rect.height / unit)
    for i in range(1, across):
        yield (rect.x + i * unit, rect.y, rect.x + i * unit, rect.bottom)
    for j in range(1, down):
        yield (rect.x, rect.y + j * unit, rect.right, rect.y + j * unit)


def outline(rect: Rect) -> tuple[Segment, ...]:
    """Return the four sides of a rectangle."""
    return (
        (rect.x, rect.y, rect.right, rect.y),
        (rect.x, rect.bottom, rect.right, rect.bottom),
        (rect.x, rect.y, rect.x, rect.bottom),
        (rect.right, rect.y, rect.right, rect.bottom),
    )
