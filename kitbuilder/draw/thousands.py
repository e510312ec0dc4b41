"""Thousands printed flat: grids, hundreds, folds to you and away, slits and outlines."""

from kitbuilder.draw.canvas import Canvas
from kitbuilder.draw.piece_grids import grid, merged, outline
from kitbuilder.layout.model import Rect
from kitbuilder.layout.pieces.thousand import Segment, Thousands
from kitbuilder.layout.pieces.thousand_margin import Band

TO_DASH, AWAY_DASH = "4 2.5", "5 1.5 0.8 1.5"
"""Dashes and gaps in mm of a line that is folded to you, and of one that is folded away."""

_NEAR = 0.01
# How near in mm lines lie that are one: what is merged is rounded.


def draw_thousands(canvas: Canvas, content: Thousands, rect: Rect) -> None:
    """Draw thousands at their places on the page; each line to cut is drawn once."""
    del rect  # what stands in the content is where it lies on the page
    look, lines = canvas.look, canvas.look.lines_mm
    marked = (*content.to, *content.away, *content.slits)
    fine = merged(s for one in content.outlines for s in grid(one, content.unit))
    canvas.lines([s for one in fine for s in _apart(one, marked)], lines.grid, look.ink.grid)
    for ways, dash in ((content.to, TO_DASH), (content.away, AWAY_DASH)):
        canvas.lines(merged(ways), lines.write, look.ink.text, layer="fold", dash=dash)
    sides = [s for one in content.outlines for s in outline(one.inset(-content.kerf / 2))]
    canvas.lines(merged((*sides, *content.slits)), lines.cut, look.ink.cut, layer="cut")


def draw_band(canvas: Canvas, band: Band, rect: Rect) -> None:
    """Draw the outline of a band, and the line up to which it is glued."""
    look, x = canvas.look, rect.x + band.glue
    canvas.lines(merged(outline(rect)), look.lines_mm.cut, look.ink.cut, layer="cut")
    ends = [(x, rect.y, x, rect.bottom)]
    canvas.lines(ends, look.lines_mm.guide, look.ink.frame, dash="1.6 1.2")


def _apart(line: Segment, marked: tuple[Segment, ...]) -> list[Segment]:
    """Return ``line`` without what a fold or a slit runs along."""
    left = [line]
    for other in marked:
        left = [part for one in left for part in _without(one, other)]
    return left


def _without(line: Segment, other: Segment) -> list[Segment]:
    along = 0 if abs(line[1] - line[3]) < 1e-6 else 1
    if any(abs(other[k] - line[1 - along]) > _NEAR for k in (1 - along, 3 - along)):
        return [line]
    low, high = sorted((line[along], line[along + 2]))
    first, end = sorted((other[along], other[along + 2]))
    across = line[1 - along]
    found = [(low, min(high, first)), (max(low, end), high)]
    ends = [(a, b) for a, b in found if b - a > _NEAR]
    return [(a, across, b, across) if along == 0 else (across, a, across, b) for a, b in ends]
