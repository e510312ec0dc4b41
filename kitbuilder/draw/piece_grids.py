"""Placed pieces drawn as grids and outlines, neighbours sharing one line."""

from collections.abc import Iterable, Sequence

from kitbuilder.draw.canvas import Canvas
from kitbuilder.layout.cutting.folded_pieces import FOLDED, fold_line
from kitbuilder.layout.cutting.line_segments import Segment
from kitbuilder.layout.cutting.line_segments import merged as merged
from kitbuilder.layout.model import Item, Rect

FOLD_DASH = "4 2.5"
"""Dashes and gaps in mm of a line to fold, dark among the grey lines of a grid."""


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
    canvas.lines(folds.values(), look.lines_mm.write, look.ink.text, layer="fold", dash=FOLD_DASH)
    if not is_back:
        lines = [s for i in items for s in outline(i.rect.inset(-kerf / 2))]
        canvas.lines(merged(lines), look.lines_mm.cut, look.ink.cut, layer="cut")


def _same(one: Segment, other: Segment | None) -> bool:
    return other is not None and max(abs(a - b) for a, b in zip(one, other, strict=True)) < 1e-3


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
