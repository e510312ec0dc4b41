"""The guide's scenes, written sums and tables to fill in, drawn."""

from kitbuilder.draw.canvas import Canvas
from kitbuilder.draw.column_digits import draw_written
from kitbuilder.draw.piece_grids import draw_edges, draw_frames, merged, outline
from kitbuilder.layout.model import Rect
from kitbuilder.layout.pages.guide_pages import BlankTable, WrittenFigure
from kitbuilder.layout.pages.scene import SceneDrawing

_EDGE, _LAID, _GHOST = 0.12, 0.25, 0.15
# Most widths of lines, in units: a piece's edge, that of one just laid, that of one that lacks.

_DASH, _GAP = 0.3, 0.4
# Of a line that lacks, in units: so each side of a one has a gap, however small it is.


def draw_scene(canvas: Canvas, scene: SceneDrawing, rect: Rect) -> None:
    """Draw the zones, the pieces as they are printed but small, and what lacks as dashes.

    Pieces just laid down have a thick outline and a tint.
    """
    look = canvas.look

    def here(inner: Rect) -> Rect:
        return inner.moved(rect.x, rect.y)

    for piece in scene.laid:
        canvas.box(here(piece), fill=look.ink.tint)
    unit = scene.unit
    fine = min(1.0, max(0.4, unit / 3), _EDGE * unit / look.lines_mm.cut)
    draw_frames(canvas, [here(piece) for piece in scene.pieces], unit, fine=fine)
    draw_edges(canvas, [here(strip) for strip in scene.covered], unit, fine)
    laid = merged(side for piece in scene.laid for side in outline(here(piece)))
    canvas.lines(laid, min(1.5 * look.lines_mm.cut, _LAID * unit), look.ink.cut)
    ghosts = merged(side for ghost in scene.ghosts for side in outline(here(ghost)))
    width = min(look.lines_mm.guide, _GHOST * unit)
    canvas.lines(ghosts, width, look.ink.frame, dash=f"{_DASH * unit:.2f} {_GAP * unit:.2f}")
    for zone in scene.zones:
        canvas.box(here(zone), stroke=look.ink.guide, width=look.lines_mm.guide)
    for label in scene.labels:
        canvas.text(rect.x + label.x, rect.y + label.y, label.text, label.size)


def draw_written_figure(canvas: Canvas, figure: WrittenFigure, rect: Rect) -> None:
    """Write the sum from the top left of ``rect``."""
    draw_written(canvas, figure.columns, rect.x, rect.y, figure.size)


def draw_blank_table(canvas: Canvas, table: BlankTable, rect: Rect) -> None:
    """Draw the headings and the lines of a table to fill in by hand."""
    look, high = canvas.look, table.row_height
    for heading, x in zip(table.headings, table.columns, strict=True):
        canvas.text(rect.x + x + 1, rect.y + 0.65 * high, heading, look.type_mm.adult)
    rows = [rect.y + (k + 1) * high for k in range(table.rows + 1)]
    lines = [(rect.x, y, rect.right, y) for y in rows]
    lines += [(rect.x + x, rect.y, rect.x + x, rect.bottom) for x in table.columns[1:]]
    canvas.lines(lines, look.lines_mm.guide, look.ink.guide)
