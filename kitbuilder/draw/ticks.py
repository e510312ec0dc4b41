"""Turns the edges of pieces into short ticks in the offcuts, so that a trimmer finds the line."""

from collections.abc import Iterator, Sequence

from kitbuilder.draw.canvas import Canvas
from kitbuilder.draw.piece_grids import outline
from kitbuilder.layout.cutting.cut_lines import Segment, merged
from kitbuilder.layout.model import Rect

TICK = 2.0
"""Length of a tick in mm."""

_THIN = 0.1


def draw_ticks(canvas: Canvas, pieces: Sequence[Rect], inside: Rect) -> None:
    """Draw a tick beyond each end of every line between pieces.

    It stands where it prints (within ``inside``, mm) and where no piece lies: never on one.
    """
    look = canvas.look
    canvas.lines(ticks(pieces, inside), look.lines_mm.guide, look.ink.cut)


def ticks(pieces: Sequence[Rect], inside: Rect) -> tuple[Segment, ...]:
    """Return the ticks round ``pieces`` as lines in mm."""
    lines = merged(side for piece in pieces for side in outline(piece))
    found = ((tick, _box(tick)) for line in lines for tick in _beyond(line))
    return tuple(
        tick
        for tick, box in found
        if inside.holds(box) and not any(box.overlaps(piece, _THIN / 4) for piece in pieces)
    )


def _beyond(line: Segment) -> Iterator[Segment]:
    x1, y1, x2, y2 = line
    if y1 == y2:
        yield (x1 - TICK, y1, x1, y1)
        yield (x2, y1, x2 + TICK, y1)
    else:
        yield (x1, y1 - TICK, x1, y1)
        yield (x1, y2, x1, y2 + TICK)


def _box(tick: Segment) -> Rect:
    x1, y1, x2, y2 = tick
    return Rect(
        x1 - (x1 == x2) * _THIN / 2,
        y1 - (y1 == y2) * _THIN / 2,
        max(x2 - x1, _THIN),
        max(y2 - y1, _THIN),
    )
