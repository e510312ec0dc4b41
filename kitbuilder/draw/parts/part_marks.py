"""The parts of a page as marks: words, pictograms, panels, bubbles, rulers, arrows."""

import math
from collections.abc import Iterator, Sequence
from functools import lru_cache

from kitbuilder.counting import thousandth
from kitbuilder.design.look import WHITE, Look
from kitbuilder.design.typefaces import FAMILY, HEADING_FAMILY
from kitbuilder.draw.canvas import Canvas
from kitbuilder.draw.parts import shapes
from kitbuilder.draw.parts.pictograms import draw_pictogram
from kitbuilder.draw.parts.small_pieces import draw_small_pieces
from kitbuilder.draw.primitives import Figure, Path
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.contents import (
    ARROW,
    HEAD_LONG,
    HEAD_WIDE,
    Arrow,
    Bubble,
    Disc,
    Dots,
    Hatch,
    Line,
    Loop,
    NumberSquare,
    Outline,
    PageNumber,
    PagesOf,
    Panel,
    Pictogram,
    Point,
    Rule,
    Ruler,
    SmallPieces,
    Strike,
)

LONG_NUMBER = 0.6
"""How much smaller a page's number of four or five digits is: it takes the room of three."""

_FAMILIES = {"text": FAMILY, "heading": HEADING_FAMILY}
_CORNER = 0.14
_TAIL = 1.7
# How long a bubble's tail is, in mm.


def draw_part(canvas: Canvas, item: Item, page: int) -> bool:
    """Draw one part of page ``page``; say whether ``item`` was such a part."""
    rect = item.rect
    match item.content:
        case Line():
            _line(canvas, item.content, rect)
        case Pictogram(name, turn):
            draw_pictogram(canvas, name, rect, turn)
        case NumberSquare():
            _number_square(canvas, rect)
        case Disc():
            _disc(canvas, rect)
        case Panel():
            _panel(canvas, item.content, rect)
        case Bubble(who):
            _bubble(canvas, who, rect)
        case Rule(line):
            _rule(canvas, line, rect)
        case Hatch(strokes):
            _hatch(canvas, strokes, rect)
        case Strike(falling):
            _strike(canvas, falling, rect)
        case Outline():
            _outline(canvas, item.content, rect)
        case Loop(corners, radius):
            _loop(canvas, corners, radius, rect)
        case Dots():
            _dots(canvas, item.content, rect)
        case Ruler():
            _ruler(canvas, rect)
        case PageNumber(size):
            _page_number(canvas, page, size, rect)
        case PagesOf():
            _pages_of(canvas, item.content, page, rect)
        case Arrow():
            draw_arrow(canvas, item.content, rect)
        case SmallPieces():
            draw_small_pieces(canvas, item.content, rect)
        case _:
            return False
    return True


def _page_number(canvas: Canvas, page: int, size: float, rect: Rect) -> None:
    size *= 1 if page < 1000 else LONG_NUMBER
    base = rect.y + rect.height / 2 + 0.35 * size
    canvas.text(rect.right, base, str(page), size, align="right", family=HEADING_FAMILY)


def _pages_of(canvas: Canvas, pages: PagesOf, page: int, rect: Rect) -> None:
    said = "–".join(map(str, dict.fromkeys((page + pages.first, page + pages.last))))
    ink, size = canvas.look.ink, pages.size
    base = rect.y + rect.height / 2 + 0.35 * size
    ended, colour = (".", ink.text) if pages.steps else ("", ink.quiet)
    canvas.text(rect.x, base, said + ended, size, colour=colour)


def _line(canvas: Canvas, line: Line, rect: Rect) -> None:
    ink = canvas.look.ink
    colours = {"text": ink.text, "quiet": ink.quiet, "accent": ink.accent, "paper": WHITE}
    if line.over:
        half = 0.42 * line.size
        middle = rect.y + line.base - 0.35 * line.size
        canvas.box(Rect(rect.x - 0.5, middle - half, rect.width + 1, 2 * half), fill=WHITE)
    base = rect.y + line.base
    canvas.text(
        rect.x, base, line.text, line.size, colour=colours[line.tone], family=_FAMILIES[line.face]
    )
    if line.struck:
        low, high = base - 0.09 * line.size, base - 0.61 * line.size
        ends = ((rect.x - 0.1 * line.size, high), (rect.right + 0.1 * line.size, low))
        width = max(canvas.look.lines_mm.frame, 0.07 * line.size)
        canvas.path(shapes.line(ends, width, ink.quiet))


def _number_square(canvas: Canvas, rect: Rect) -> None:
    ink, radius = canvas.look.ink, _CORNER * rect.width
    if ink.number == "none":
        width = canvas.look.lines_mm.rule
        canvas.box(rect.inset(width / 2), stroke=ink.text, width=width, radius=radius)
    else:
        canvas.box(rect, fill=ink.number, radius=radius)


def _disc(canvas: Canvas, rect: Rect) -> None:
    look, radius = canvas.look, rect.width / 2
    x, y = rect.x + radius, rect.y + radius
    if look.ink.number == "none":
        width = look.lines_mm.rule
        canvas.path(shapes.disc(x, y, radius, WHITE))
        canvas.path(shapes.ring(x, y, radius - width / 2, width, look.ink.accent))
    else:
        canvas.path(shapes.disc(x, y, radius, look.ink.accent))


def fill(look: Look, name: str) -> str | None:
    """Return the colour of a fill by its name, or None where the look does not fill it."""
    ink = look.ink
    colour = {
        "paper": WHITE,
        "tint": ink.tint,
        "accent_tint": ink.accent_tint,
        "gone": ink.gone,
    }.get(name, "none")
    return None if colour == "none" else colour


def _panel(canvas: Canvas, panel: Panel, rect: Rect) -> None:
    look = canvas.look
    widths, ink = look.lines_mm, look.ink
    width, colour = {
        "none": (0.0, None),
        "zone": (widths.zone, ink.zone),
        "divider": (widths.divider, ink.zone),
        "write": (widths.write, ink.text),
        "bubble": (widths.piece, ink.text),
        "frame": (widths.frame, ink.frame),
        "loop": (widths.loop, ink.accent),
        "digit": (widths.guide, ink.accent),
    }[panel.line]
    canvas.box(rect, fill=fill(look, panel.fill), stroke=colour, width=width, radius=panel.radius)


def _bubble(canvas: Canvas, who: str, rect: Rect) -> None:
    """Draw a bubble in one line, its tail down towards the face."""
    size = (thousandth(rect.width), thousandth(rect.height))
    left = rect.x - (_TAIL if who == "adult" else 0)
    canvas.figure(_bubble_of(who, size, canvas.look), left, rect.y)


@lru_cache(1024)
def _bubble_of(who: str, size: tuple[float, float], look: Look) -> Figure:
    """Return a bubble of ``size`` mm with its tail, at the left or at the right."""
    x = _TAIL if who == "adult" else 0
    right, bottom = x + size[0], size[1]
    radius, y = min(2.2, bottom / 2), bottom - 2.6
    corners = (
        ((x + radius, radius), 180),
        ((right - radius, radius), 270),
        ((right - radius, bottom - radius), 0),
        ((x + radius, bottom - radius), 90),
    )
    ways: list[tuple[float, ...]] = []
    for number, (centre, start) in enumerate(corners):
        begin, *rest = shapes.arc(centre, (radius, radius), (start, start + 90))
        if who == "child" and number == 2:
            ways += [(right, y - 1.2), (right + _TAIL, y + 0.9), (right, y + 0.2)]
        ways += [begin, *rest]
    if who == "adult":
        ways += [(x, y + 0.2), (0, y + 0.9), (x, y - 1.2)]
    inside = WHITE if who == "adult" else fill(look, "tint") or WHITE
    path = Path((tuple(ways),), inside, look.ink.text, look.lines_mm.piece, closed=True)
    return Figure((path,), size[0] + _TAIL, bottom)


def _rule(canvas: Canvas, line: str, rect: Rect) -> None:
    look = canvas.look
    width, colour, dash = {
        "rule": (look.lines_mm.rule, look.ink.text, None),
        "divider": (look.lines_mm.divider, look.ink.zone, None),
        "fold": (look.lines_mm.guide, look.ink.frame, "4 3"),
        "to": (look.lines_mm.write, look.ink.text, "4 2.5"),
        "away": (look.lines_mm.write, look.ink.text, "5 1.5 0.8 1.5"),
        "slit": (look.lines_mm.cut, look.ink.cut, None),
        "cut": (1.8 * look.lines_mm.cut, look.ink.cut, None),
        "snip": (look.lines_mm.piece, look.ink.cut, None),
        "write": (look.lines_mm.write, look.ink.text, None),
        "dashed": (look.lines_mm.write, look.ink.frame, "1.6 1.2"),
        "grid": (look.lines_mm.zone, look.ink.zone, None),
        "sum": (1.6 * look.lines_mm.write, look.ink.text, None),
    }[line]
    ends = (
        (rect.x, rect.y, rect.right, rect.y)
        if rect.width >= rect.height
        else (rect.x, rect.y, rect.x, rect.bottom)
    )
    canvas.lines([ends], width, colour, dash=dash)


def _hatch(
    canvas: Canvas, strokes: Sequence[tuple[float, float, float, float]], rect: Rect
) -> None:
    look = canvas.look
    ends = [(rect.x + a, rect.y + b, rect.x + c, rect.y + d) for a, b, c, d in strokes]
    canvas.lines(ends, look.lines_mm.divider, look.ink.zone)


def _strike(canvas: Canvas, falling: bool, rect: Rect) -> None:
    look = canvas.look
    width = max(look.lines_mm.write, 0.07 * rect.height)
    left, right = (rect.y, rect.bottom) if falling else (rect.bottom, rect.y)
    ends = ((rect.x, left), (rect.right, right))
    canvas.path(shapes.line(ends, width, look.ink.accent))


def _outline(canvas: Canvas, outline: Outline, rect: Rect) -> None:
    look = canvas.look
    contour = tuple((rect.x + x, rect.y + y) for x, y in outline.corners)
    canvas.path(Path((contour,), WHITE, look.ink.text, look.lines_mm.write, closed=True))
    if outline.cells:
        canvas.lines(_ruled(contour, outline.cells), look.lines_mm.grid, look.ink.grid)


def _loop(canvas: Canvas, corners: Sequence[Point], radius: float, rect: Rect) -> None:
    look = canvas.look
    contour = shapes.rounded([(rect.x + x, rect.y + y) for x, y in corners], radius)
    canvas.path(Path((contour,), "", look.ink.accent, look.lines_mm.write, closed=True))


def _ruled(
    corners: Sequence[Point], cells: tuple[int, int]
) -> Iterator[tuple[float, float, float, float]]:
    """Yield the lines that rule four sides into cells along the first side and the second."""
    a, b, c, d = corners
    for count, start, end in ((cells[0], (a, b), (d, c)), (cells[1], (a, d), (b, c))):
        for k in range(1, count):
            x1, y1 = _between(*start, k / count)
            x2, y2 = _between(*end, k / count)
            yield x1, y1, x2, y2


def _between(start: Point, end: Point, share: float) -> Point:
    return start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share


def _dots(canvas: Canvas, dots: Dots, rect: Rect) -> None:
    """Draw dots from the left, the filled ones first."""
    size = (thousandth(rect.width), thousandth(rect.height))
    canvas.figure(_row_of_dots(dots, size, canvas.look), rect.x, rect.y)


@lru_cache(1024)
def _row_of_dots(dots: Dots, size: tuple[float, float], look: Look) -> Figure:
    ink, width = look.ink, look.lines_mm.piece
    step, y = size[0] / dots.of, size[1] / 2
    radius = min(0.36 * step, y)
    return Figure(
        tuple(
            shapes.disc((k + 0.5) * step, y, radius, ink.text)
            if k < dots.filled
            else shapes.ring((k + 0.5) * step, y, radius - width / 2, width, ink.text)
            for k in range(dots.of)
        ),
        *size,
    )


def _ruler(canvas: Canvas, rect: Rect) -> None:
    look = canvas.look
    width = look.lines_mm.piece
    canvas.box(rect, stroke=look.ink.text, width=width)
    lying = rect.width > rect.height
    tens = round(max(rect.width, rect.height) / 10)
    lines = []
    for k in range(1, tens):
        part = 0.0 if 2 * k == tens else 1.1
        if lying:
            x = rect.x + 10 * k
            lines.append((x, rect.bottom - part if part else rect.y, x, rect.bottom))
        else:
            y = rect.y + 10 * k
            lines.append((rect.right - part if part else rect.x, y, rect.right, y))
    canvas.lines(lines, width, look.ink.text)


def draw_arrow(canvas: Canvas, arrow: Arrow, rect: Rect) -> None:
    """Draw an arrow, its shaft ending inside its head, with a gap where something stands."""
    look = canvas.look
    width = look.lines_mm.arrow * arrow.size
    scale = width / ARROW
    points = [(rect.x + x, rect.y + y) for x, y in arrow.points]
    (x1, y1), (x2, y2) = points[-2:]
    long = math.hypot(x2 - x1, y2 - y1)
    dx, dy = (x2 - x1) / long, (y2 - y1) / long
    back, half = min(HEAD_LONG * scale, long), HEAD_WIDE * scale / 2
    bx, by = x2 - back * dx, y2 - back * dy
    shaft = [*points[:-1], (bx, by)]
    canvas.path(shapes.line(shaft, width, look.ink.accent))
    head = ((x2, y2), (bx - half * dy, by + half * dx), (bx + half * dy, by - half * dx))
    canvas.path(shapes.polygon(head, look.ink.accent))
    if arrow.gap is not None:
        canvas.box(arrow.gap.moved(rect.x, rect.y), fill=WHITE)
