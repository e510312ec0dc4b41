"""Turns drawings into PDFs in two other ways: with reportlab, and one CairoSVG document a page."""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cache
from io import BytesIO
from xml.etree import ElementTree as ET

from cairosvg import svg2pdf
from pypdf import PdfReader, PdfWriter
from reportlab.lib.colors import HexColor
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

from kitbuilder.design import metrics
from kitbuilder.design.typefaces import font_file
from kitbuilder.draw.canvas import Drawing
from kitbuilder.output.svg import page_svg

POINT = 72 / 25.4
_LINES = re.compile(r"(?:M[-\d.]+ [-\d.]+L[-\d.]+ [-\d.]+)+")
_NUMBER = re.compile(r"-?[\d.]+")

Points = tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Lines:
    """Separate straight lines, four numbers each, in points from the bottom left."""

    ends: tuple[Points, ...]
    width: float
    colour: str
    dash: str


@dataclass(frozen=True, slots=True)
class Shape:
    """A rectangle (with round corners) or a polygon of corners, stroked or filled."""

    corners: Points
    radius: float
    width: float
    stroke: str
    fill: str
    is_box: bool


@dataclass(frozen=True, slots=True)
class Words:
    """One run of words."""

    x: float
    y: float
    text: str
    size: float
    colour: str


Mark = Lines | Shape | Words


@dataclass(frozen=True, slots=True)
class Marked:
    """A page as a list of what stands on it; all that a straight drawing needs."""

    width: float
    height: float
    marks: tuple[Mark, ...]


def marked(drawing: Drawing) -> Marked:
    """Read the marks of a page out of its SVG. Raises ``ValueError`` for any it does not know."""
    high = drawing.height * POINT
    marks = []
    for element in ET.fromstring(page_svg(drawing)).iter():
        kind = element.tag.rpartition("}")[2]
        if kind == "path":
            marks.append(_path(element, high))
        elif kind == "rect":
            x, y, width, height = (
                float(element.get(k, 0)) * POINT for k in ("x", "y", "width", "height")
            )
            box = (x, high - y - height, width, height)
            marks.append(_shape(element, box, is_box=True))
        elif kind == "text":
            x, y, size = (float(element.get(k, 0)) * POINT for k in ("x", "y", "font-size"))
            marks.append(Words(x, high - y, element.text or "", size, element.get("fill", "")))
        elif kind not in ("svg", "g", "defs"):
            raise ValueError(f"{kind} cannot be drawn here")
    return Marked(drawing.width * POINT, high, tuple(marks))


def _path(element: ET.Element, high: float) -> Mark:
    d = element.get("d", "")
    values = [float(v) * POINT for v in _NUMBER.findall(d)]
    values[1::2] = [high - y for y in values[1::2]]
    if not _LINES.fullmatch(d):
        return _shape(element, tuple(values), is_box=False)
    ends = tuple(tuple(values[k : k + 4]) for k in range(0, len(values), 4))
    width = float(element.get("stroke-width", 1)) * POINT
    return Lines(ends, width, element.get("stroke", ""), element.get("stroke-dasharray", ""))


def _shape(element: ET.Element, corners: Points, *, is_box: bool) -> Shape:
    radius, width = (float(element.get(k, 0)) * POINT for k in ("rx", "stroke-width"))
    return Shape(corners, radius, width, element.get("stroke", ""), element.get("fill", ""), is_box)


@cache
def _typeface() -> str:
    pdfmetrics.registerFont(TTFont(metrics.FAMILY, font_file(metrics.FAMILY)))
    return metrics.FAMILY


def with_reportlab(pages: Iterable[Marked]) -> bytes:
    """Draw ``pages`` straight with reportlab."""
    family = _typeface()
    output = BytesIO()
    canvas = Canvas(output, pageCompression=1)
    for page in pages:
        canvas.setPageSize((page.width, page.height))
        for mark in page.marks:
            if isinstance(mark, Words):
                canvas.setFont(family, mark.size)
                canvas.setFillColor(HexColor(mark.colour))
                canvas.drawString(mark.x, mark.y, mark.text)
            elif isinstance(mark, Lines):
                canvas.setStrokeColor(HexColor(mark.colour))
                canvas.setLineWidth(mark.width)
                canvas.setDash(
                    *([[float(v) * POINT for v in mark.dash.split()]] if mark.dash else [])
                )
                canvas.lines(mark.ends)
            else:
                _draw_shape(canvas, mark)
        canvas.showPage()
    canvas.save()
    return output.getvalue()


def _draw_shape(canvas: Canvas, mark: Shape) -> None:
    if mark.stroke:
        canvas.setStrokeColor(HexColor(mark.stroke))
        canvas.setLineWidth(mark.width)
    if mark.fill:
        canvas.setFillColor(HexColor(mark.fill))
    how = {"stroke": int(bool(mark.stroke)), "fill": int(bool(mark.fill))}
    if mark.is_box and mark.radius:
        canvas.roundRect(*mark.corners, mark.radius, **how)
    elif mark.is_box:
        canvas.rect(*mark.corners, **how)
    else:
        path = canvas.beginPath()
        path.moveTo(*mark.corners[:2])
        for k in range(2, len(mark.corners), 2):
            path.lineTo(*mark.corners[k : k + 2])
        path.close()
        canvas.drawPath(path, **how)


def with_cairosvg(pages: Sequence[str]) -> bytes:
    """Make a CairoSVG document of each page's SVG, and bind them with pypdf."""
    writer = PdfWriter()
    for page in pages:
        writer.append(PdfReader(BytesIO(svg2pdf(bytestring=page.encode()))))
    output = BytesIO()
    writer.write(output)
    return output.getvalue()
