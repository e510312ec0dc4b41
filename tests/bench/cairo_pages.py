"""Drawn pages as cairo writes them: one surface, letters embedded once, figures held once a page.

The rules are those of the writer that this program had before its own (version 1.4, a figure in
thousandths of a millimetre and a twin of it where it stands twice on one page, no outline), but
that figures may all be drawn where they stand, whichever is shorter for a document.
"""

import math
import os
import tempfile
from collections import Counter
from collections.abc import Iterable, Sequence
from functools import cache
from io import BytesIO
from pathlib import Path as File
from typing import Any

from kitbuilder.design.typefaces import FAMILIES, font_bytes
from kitbuilder.draw.canvas import Drawing
from kitbuilder.draw.primitives import (
    Box,
    Figure,
    Mark,
    OwnPicture,
    Path,
    Placed,
    Shape,
    Strokes,
    Words,
)

POINTS_PER_MM = 72 / 25.4
FINE = 1000
FONTS = """<?xml version="1.0"?><!DOCTYPE fontconfig SYSTEM "fonts.dtd">
<fontconfig><dir>{folder}</dir><cachedir>{folder}</cachedir></fontconfig>"""


@cache
def library() -> Any:  # noqa: ANN401  (cairocffi ships no types)
    """Import cairo with only the shipped typefaces in its sight."""
    folder = File(tempfile.mkdtemp(prefix="kitbuilder-cairo-"))
    for family in FAMILIES:
        (folder / f"{family}.ttf").write_bytes(font_bytes(family))
    (folder / "fonts.conf").write_text(FONTS.format(folder=folder), "utf-8")
    os.environ["FONTCONFIG_FILE"] = str(folder / "fonts.conf")
    import cairocffi

    return cairocffi


def shortest(drawings: Sequence[Drawing]) -> bytes:
    """Return the shorter PDF that cairo makes of ``drawings``: figures held, or drawn anew."""
    return min((written(drawings, held=held) for held in (False, True)), key=len)


def written(drawings: Iterable[Drawing], *, held: bool) -> bytes:
    """Return the PDF that cairo makes of ``drawings``, its figures ``held`` or drawn anew."""
    cairo = library()
    output = BytesIO()
    document = cairo.PDFSurface(output, 1, 1)
    document.restrict_to_version(cairo.PDF_VERSION_1_4)
    document.set_metadata(cairo.PDF_METADATA_CREATE_DATE, "1970-01-01T00:00:00Z")
    brush = Brush(held=held)
    for drawing in drawings:
        document.set_size(drawing.width * POINTS_PER_MM, drawing.height * POINTS_PER_MM)
        context = cairo.Context(document)
        context.scale(POINTS_PER_MM, POINTS_PER_MM)
        brush.draw(drawing.marks, context)
        document.show_page()
    document.finish()
    return output.getvalue()


class Brush:
    """Draws marks in millimetres onto the pages of one document."""

    def __init__(self, *, held: bool) -> None:
        self.held = held
        self.twins: dict[bytes, list[Any]] = {}

    def draw(self, marks: Iterable[Mark], context: Any) -> None:  # noqa: ANN401
        shown = Counter[bytes]()
        for mark in marks:
            match mark:
                case Placed() if self.held:
                    self.place(mark, context, shown)
                case Placed():
                    for part in mark.marks():
                        one(part, context)
                case OwnPicture():
                    raise ValueError("a drawing of one's own is not weighed")
                case _:
                    one(mark, context)

    def place(self, placed: Placed, context: Any, shown: Counter[bytes]) -> None:  # noqa: ANN401
        key = placed.figure.key
        twins = self.twins.setdefault(key, [])
        if shown[key] == len(twins):
            twins.append(recorded(placed.figure))
        context.save()
        context.translate(placed.x, placed.y)
        context.scale(1 / FINE, 1 / FINE)
        context.set_source_surface(twins[shown[key]])
        context.paint()
        context.restore()
        shown[key] += 1


def recorded(figure: Figure) -> Any:  # noqa: ANN401
    """Return a surface that holds ``figure``."""
    cairo = library()
    thick = max(m.width if isinstance(m, Strokes) else m.line for m in figure.marks) + 0.01
    left, right, below = (
        math.ceil(FINE * side) for side in (thick, figure.width + thick, figure.height + thick)
    )
    extents = (-left, -left, left + right, left + below)
    surface = cairo.RecordingSurface(cairo.CONTENT_COLOR_ALPHA, extents)
    context = cairo.Context(surface)
    context.scale(FINE, FINE)
    for mark in figure.marks:
        one(mark, context)
    return surface


def one(mark: Strokes | Box | Shape | Path | Words, context: Any) -> None:  # noqa: ANN401
    """Draw a mark that is no figure."""
    match mark:
        case Strokes():
            for x1, y1, x2, y2 in mark.lines:
                context.move_to(x1, y1)
                context.line_to(x2, y2)
            paint(context, "", mark.colour, mark.width, mark.dash)
        case Words():
            context.set_source_rgb(*colour(mark.colour))
            context.select_font_face(mark.family)
            context.set_font_size(mark.size)
            context.move_to(mark.x, mark.y)
            context.show_text(mark.text)
            context.new_path()
        case Shape():
            for x, y in mark.corners:
                context.line_to(x, y)
            context.close_path()
            paint(context, mark.fill, "", 0, ())
        case Box():
            outline(mark, context)
            paint(context, mark.fill, mark.stroke, mark.line, ())
        case Path():
            along(mark, context)
            paint(context, mark.fill, mark.stroke, mark.line, mark.dash)


def outline(mark: Box, context: Any) -> None:  # noqa: ANN401
    """Go round a rectangle, whose corners may be round."""
    radius = min(mark.radius, mark.width / 2, mark.height / 2)
    if not radius:
        context.rectangle(mark.x, mark.y, mark.width, mark.height)
        return
    right, below = mark.x + mark.width - radius, mark.y + mark.height - radius
    left, top = mark.x + radius, mark.y + radius
    for turn, (x, y) in enumerate([(right, top), (right, below), (left, below), (left, top)]):
        context.arc(x, y, radius, (turn - 1) * math.pi / 2, turn * math.pi / 2)
    context.close_path()


def along(mark: Path, context: Any) -> None:  # noqa: ANN401
    """Go along the contours of a path."""
    context.set_fill_rule(library().FILL_RULE_EVEN_ODD)
    context.set_line_cap(library().LINE_CAP_ROUND)
    context.set_line_join(library().LINE_JOIN_ROUND)
    for contour in mark.contours:
        context.move_to(*contour[0])
        for step in contour[1:]:
            (context.line_to if len(step) == 2 else context.curve_to)(*step)
        if mark.closed:
            context.close_path()


def paint(
    context: Any,  # noqa: ANN401
    fill: str,
    stroke: str,
    line: float,
    dash: tuple[float, ...],
) -> None:
    """Fill and draw the path that was gone along."""
    if fill not in ("", "none"):
        context.set_source_rgb(*colour(fill))
        context.fill_preserve()
    if stroke:
        context.set_line_width(line)
        context.set_dash(dash)
        context.set_source_rgb(*colour(stroke))
        context.stroke_preserve()
    context.new_path()
    context.set_line_cap(library().LINE_CAP_BUTT)
    context.set_line_join(library().LINE_JOIN_MITER)


@cache
def colour(name: str) -> tuple[float, float, float]:
    """Return the parts of red, green and blue of ``#rrggbb``, each from 0 to 1."""
    red, green, blue = (int(name[k : k + 2], 16) / 255 for k in (1, 3, 5))
    return red, green, blue
