"""Drawings as PDFs by another way: a plain reportlab script that holds repeated pictures once."""

from collections.abc import Iterable, Sequence
from functools import cache
from io import BytesIO

from reportlab.lib.colors import HexColor
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

from kitbuilder.design.typefaces import FAMILIES, font_file
from kitbuilder.draw.canvas import Drawing
from kitbuilder.draw.primitives import Box, Mark, Path, Placed, Shape, Strokes, Words

POINT = 72 / 25.4


@cache
def _typefaces() -> None:
    for family in FAMILIES:
        pdfmetrics.registerFont(TTFont(family, font_file(family)))


def with_reportlab(drawings: Iterable[Drawing]) -> bytes:
    """Draw the same strings and segments straight with reportlab, in the same typefaces."""
    _typefaces()
    output = BytesIO()
    canvas = Canvas(output, pageCompression=1)
    forms: dict[bytes, str] = {}
    for drawing in drawings:
        high = drawing.height * POINT
        canvas.setPageSize((drawing.width * POINT, high))
        for mark in drawing.marks:
            _draw(canvas, mark, high, forms)
        canvas.showPage()
    canvas.save()
    return output.getvalue()


def _draw(canvas: Canvas, mark: Mark, high: float, forms: dict[bytes, str]) -> None:
    match mark:
        case Words():
            canvas.setFont(mark.family, mark.size * POINT)
            canvas.setFillColor(HexColor(mark.colour))
            canvas.drawString(mark.x * POINT, high - mark.y * POINT, mark.text)
        case Strokes():
            _strokes(canvas, mark, high)
        case Placed():
            _placed(canvas, mark, high, forms)
        case Box():
            _box(canvas, mark, high)
        case Shape():
            canvas.setFillColor(HexColor(mark.fill))
            path = canvas.beginPath()
            for number, (x, y) in enumerate(mark.corners):
                (path.lineTo if number else path.moveTo)(x * POINT, high - y * POINT)
            path.close()
            canvas.drawPath(path, stroke=0, fill=1)
        case Path():
            _path(canvas, mark, high)
        case _:
            raise ValueError(f"{mark} cannot be drawn here")


def _path(canvas: Canvas, mark: Path, high: float) -> None:
    filled = mark.fill not in ("", "none")
    if mark.stroke:
        canvas.setStrokeColor(HexColor(mark.stroke))
        canvas.setLineWidth(mark.line * POINT)
        canvas.setLineCap(1)
        canvas.setLineJoin(1)
        _dash(canvas, mark.dash)
    if filled:
        canvas.setFillColor(HexColor(mark.fill))
    path = canvas.beginPath()
    for start, *ways in mark.contours:
        path.moveTo(start[0] * POINT, high - start[1] * POINT)
        for way in ways:
            ends = [(high - v * POINT) if k % 2 else v * POINT for k, v in enumerate(way)]
            (path.lineTo if len(ends) == 2 else path.curveTo)(*ends)
        if mark.closed:
            path.close()
    canvas.drawPath(path, stroke=int(bool(mark.stroke)), fill=int(filled), fillMode=0)


def _dash(canvas: Canvas, dash: Sequence[float]) -> None:
    canvas.setDash(*([[length * POINT for length in dash]] if dash else []))


def _strokes(canvas: Canvas, mark: Strokes, high: float) -> None:
    canvas.setStrokeColor(HexColor(mark.colour))
    canvas.setLineWidth(mark.width * POINT)
    _dash(canvas, mark.dash)
    canvas.lines(
        [
            (x1 * POINT, high - y1 * POINT, x2 * POINT, high - y2 * POINT)
            for x1, y1, x2, y2 in mark.lines
        ]
    )


def _placed(canvas: Canvas, mark: Placed, high: float, forms: dict[bytes, str]) -> None:
    name = forms.get(mark.figure.key)
    if name is None:
        name = forms[mark.figure.key] = f"f{len(forms)}"
        deep = mark.figure.height * POINT
        canvas.beginForm(name, -9, -9, mark.figure.width * POINT + 9, deep + 9)
        for part in mark.figure.marks:
            _draw(canvas, part, deep, forms)
        canvas.endForm()
    canvas.saveState()
    canvas.translate(mark.x * POINT, high - (mark.y + mark.figure.height) * POINT)
    canvas.doForm(name)
    canvas.restoreState()


def _box(canvas: Canvas, mark: Box, high: float) -> None:
    filled = mark.fill not in ("", "none")
    if mark.stroke:
        canvas.setStrokeColor(HexColor(mark.stroke))
        canvas.setLineWidth(mark.line * POINT)
        _dash(canvas, ())
    if filled:
        canvas.setFillColor(HexColor(mark.fill))
    place = (mark.x * POINT, high - (mark.y + mark.height) * POINT)
    size = (mark.width * POINT, mark.height * POINT)
    how = {"stroke": int(bool(mark.stroke)), "fill": int(filled)}
    if mark.radius:
        canvas.roundRect(*place, *size, mark.radius * POINT, **how)
    else:
        canvas.rect(*place, *size, **how)
