"""A page's marks as SVG in true millimetres, in three groups: print, fold and cut."""

from collections.abc import Iterable, Sequence

import svgwrite
from svgwrite.base import BaseElement

from kitbuilder.counting import thousandth
from kitbuilder.draw.canvas import Drawing
from kitbuilder.draw.primitives import (
    LAYERS,
    Box,
    Contour,
    Mark,
    OwnPicture,
    Path,
    Placed,
    Shape,
    Strokes,
    Words,
)
from kitbuilder.output.letter_outlines import outlined


def page_svg(drawing: Drawing) -> str:
    """Return a page as SVG 1.1, its marks in groups named ``print``, ``fold`` and ``cut``.

    Words are paths that need no typeface, each named by what it says, and so is the page.
    """
    width, height, marks = drawing.width, drawing.height, drawing.marks
    svg = svgwrite.Drawing(
        size=(f"{_r(width)}mm", f"{_r(height)}mm"),
        viewBox=f"0 0 {_r(width)} {_r(height)}",
        profile="full",
        debug=False,
    )
    svg.set_desc(title=drawing.title)
    groups = {name: svg.add(svg.g(id=name, fill="none", stroke="none")) for name in LAYERS}
    for mark in marks:
        for element in _elements(svg, mark):
            groups[mark.layer].add(element)
    return f'<?xml version="1.0" encoding="utf-8"?>\n{svg.tostring()}'


def _elements(svg: svgwrite.Drawing, mark: Mark) -> Iterable[BaseElement]:
    match mark:
        case Strokes():
            style = _style(mark.colour, mark.width, mark.dash)
            return [svg.path("".join(map(_line, mark.lines)), **style)]
        case Box():
            style = _style(mark.stroke, mark.line) if mark.stroke else {}
            style |= {"fill": mark.fill} if mark.fill else {}
            style |= {"rx": _r(mark.radius)} if mark.radius else {}
            size = (_r(mark.width), _r(mark.height))
            return [svg.rect((_r(mark.x), _r(mark.y)), size, **style)]
        case Shape():
            corners = "L".join(f"{_r(x)} {_r(y)}" for x, y in mark.corners)
            return [svg.path(f"M{corners}Z", fill=mark.fill)]
        case Path():
            style = _style(mark.stroke, mark.line, mark.dash) if mark.stroke else {}
            if mark.stroke:
                style |= {"stroke_linecap": "round", "stroke_linejoin": "round"}
            if mark.fill not in ("", "none"):
                style |= {"fill": mark.fill, "fill_rule": "evenodd"}
            end = "Z" if mark.closed else ""
            return [svg.path("".join(_contour(way) + end for way in mark.contours), **style)]
        case Words():
            path = svg.path(
                outlined(mark.text, mark.x, mark.y, mark.size, mark.family), fill=mark.colour
            )
            path.set_desc(title=mark.text)
            return [path]
        case OwnPicture():
            return []  # it is printed, not cut
        case Placed():
            return [one for part in mark.marks() for one in _elements(svg, part)]


def _line(line: Sequence[float]) -> str:
    return "M{} {}L{} {}".format(*map(_r, line))


def _contour(contour: Contour) -> str:
    start, *ways = contour
    return "M{} {}".format(*map(_r, start)) + "".join(
        ("L" if len(way) == 2 else "C") + " ".join(str(_r(value)) for value in way) for way in ways
    )


def _style(stroke: str, width: float, dash: Sequence[float] = ()) -> dict[str, object]:
    style: dict[str, object] = {"stroke": stroke, "stroke_width": _r(width)}
    if dash:
        style["stroke_dasharray"] = " ".join(f"{length:g}" for length in dash)
    return style


def _r(value: float) -> float:
    """Round to a thousandth of a millimetre; whole numbers print without a point."""
    rounded = thousandth(value)
    return int(rounded) if rounded == int(rounded) else rounded
