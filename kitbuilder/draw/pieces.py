"""Turns placed pieces into grids and outlines, neighbours sharing one line."""

from collections import defaultdict
from collections.abc import Iterable, Sequence

from kitbuilder.draw.canvas import Canvas, Segment
from kitbuilder.sheet.records import Rect


def draw_pieces(canvas: Canvas, rects: Sequence[Rect], unit: float) -> None:
    """Draw pieces of whole units: fine grids inside, outlines on the cut layer.

    Every line is drawn once: where two pieces touch they share it.
    """
    look = canvas.look
    canvas.lines(
        merged(s for rect in rects for s in grid(rect, unit)), look.lines_mm.grid, look.ink.grid
    )
    canvas.lines(
        merged(s for rect in rects for s in outline(rect)),
        look.lines_mm.cut,
        look.ink.cut,
        layer="cut",
    )


def draw_frames(canvas: Canvas, rects: Sequence[Rect], unit: float, *, fine: float = 1.0) -> None:
    """Draw pieces as frames to lay real pieces on: grid and a thin outline, printed only.

    ``fine`` makes the lines thinner, for pictures of pieces.
    """
    look = canvas.look
    canvas.lines(
        merged(s for rect in rects for s in grid(rect, unit)),
        fine * look.lines_mm.grid,
        look.ink.grid,
    )
    canvas.lines(
        merged(s for rect in rects for s in outline(rect)),
        fine * look.lines_mm.frame,
        look.ink.frame,
    )


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


def merged(segments: Iterable[Segment]) -> tuple[Segment, ...]:
    """Join straight segments that touch or overlap on one line, so that none is drawn twice.

    Segments run across or down. Lines closer than a thousandth of a millimetre are one.
    """
    rows: dict[float, list[tuple[float, float]]] = defaultdict(list)
    columns: dict[float, list[tuple[float, float]]] = defaultdict(list)
    for x1, y1, x2, y2 in segments:
        if y1 == y2:
            rows[round(y1, 3)].append((min(x1, x2), max(x1, x2)))
        else:
            columns[round(x1, 3)].append((min(y1, y2), max(y1, y2)))
    across = [(a, y, b, y) for y in sorted(rows) for a, b in _joined(rows[y])]
    down = [(x, a, x, b) for x in sorted(columns) for a, b in _joined(columns[x])]
    return (*across, *down)


def _joined(spans: list[tuple[float, float]]) -> list[tuple[float, float]]:
    done: list[tuple[float, float]] = []
    for start, end in sorted(spans):
        if done and start <= done[-1][1] + 0.001:
            done[-1] = (done[-1][0], max(done[-1][1], end))
        else:
            done.append((start, end))
    return done
