"""Turns stops of the cutting map into small pictures: numbered lines, arrows at both ends."""

from kitbuilder.draw.canvas import Canvas, Segment
from kitbuilder.draw.piece_grids import merged, outline
from kitbuilder.layout.cutting.map_figures import ARROW, PAD, End, PanelFigure, StopFigure
from kitbuilder.layout.cutting.stack_order import Line
from kitbuilder.layout.model import Rect


def draw_stop(canvas: Canvas, figure: StopFigure, rect: Rect) -> None:
    """Draw the frame of a stop: its numbers, what to stack, and the pictures."""
    look = canvas.look
    size, large = look.type_mm.adult, look.type_mm.heading
    canvas.box(rect, stroke=look.ink.guide, width=look.lines_mm.guide, radius=1.5)
    x, baseline = rect.x + PAD, rect.y + PAD + 0.9 * large
    x = canvas.text(x, baseline, figure.numbers, large).right + size
    baseline = rect.y + PAD + size
    for said in figure.told:
        canvas.text(x, baseline, said, size)
        baseline += 1.4 * size
    for place, panel in figure.panels:
        draw_panel(canvas, panel, place.moved(rect.x, rect.y))


def draw_panel(canvas: Canvas, figure: PanelFigure, rect: Rect) -> None:
    """Draw the part, what it holds, what falls off, its lines, and the words below."""
    look, panel, scale = canvas.look, figure.panel, figure.scale
    size = look.type_mm.adult
    part = Rect(
        rect.x + figure.side, rect.y + figure.head, panel.width * scale, panel.height * scale
    )

    def placed(inner: Rect) -> Rect:
        return Rect(
            part.x + inner.x * scale,
            part.y + inner.y * scale,
            inner.width * scale,
            inner.height * scale,
        )

    for fall in panel.falls:
        _hatch(canvas, placed(fall))
    for end in figure.ends:
        if end.inside:
            canvas.box(end.clear(size).moved(part.x, part.y), fill="#ffffff")
    canvas.lines(
        merged(s for item in panel.inside for s in outline(placed(item))),
        look.lines_mm.grid,
        look.ink.grid,
    )
    canvas.box(part, stroke=look.ink.frame, width=look.lines_mm.guide)
    for done in panel.done:
        _tick(canvas, placed(done))
    canvas.lines(
        [_along(line, part, scale) for line in panel.lines], look.lines_mm.cut, look.ink.cut
    )
    for end in figure.ends:
        _end(canvas, end, part)
    baseline = part.bottom + figure.foot + size
    for said in figure.caption:
        canvas.text(rect.x + figure.side, baseline, said, size)
        baseline += 1.4 * size


def _along(line: Line, part: Rect, scale: float) -> Segment:
    at, start, end = line.at * scale, line.start * scale, line.end * scale
    if line.down:
        return part.x + at, part.y + start, part.x + at, part.y + end
    return part.x + start, part.y + at, part.x + end, part.y + at


def _end(canvas: Canvas, end: End, part: Rect) -> None:
    """Draw an arrow whose tip points against ``way``, its number behind it."""
    size, half = canvas.look.type_mm.adult, 0.45 * ARROW
    behind = end.tip + end.way * ARROW
    points = [(end.tip, end.at), (behind, end.at - half), (behind, end.at + half)]
    if end.down:
        points = [(at, along) for along, at in points]
    canvas.shape([(part.x + x, part.y + y) for x, y in points], canvas.look.ink.cut)
    if end.number:
        word = end.word(size).moved(part.x, part.y)
        canvas.text(word.x, word.bottom, end.number, size)


def _tick(canvas: Canvas, rect: Rect) -> None:
    """Draw a tick in the middle of ``rect``: a finished piece."""
    size = min(0.7 * min(rect.width, rect.height), 4.0)
    x, y = rect.x + rect.width / 2, rect.y + rect.height / 2
    foot = (x - 0.15 * size, y + 0.35 * size)
    strokes = [(x - 0.5 * size, y, *foot), (*foot, x + 0.5 * size, y - 0.4 * size)]
    canvas.lines(strokes, min(canvas.look.lines_mm.cut, 0.15 * size), canvas.look.ink.cut)


def _hatch(canvas: Canvas, rect: Rect, pitch: float = 1.6) -> None:
    """Fill ``rect`` with thin slanted lines: what falls off."""
    segments: list[Segment] = []
    steps = int((rect.width + rect.height) / pitch)
    for i in range(1, steps + 1):
        d = i * pitch
        x1, y1 = rect.x + min(d, rect.width), rect.y + max(0.0, d - rect.width)
        x2, y2 = rect.x + max(0.0, d - rect.height), rect.y + min(d, rect.height)
        segments.append((x1, y1, x2, y2))
    canvas.lines(segments, canvas.look.lines_mm.grid, canvas.look.ink.guide)
