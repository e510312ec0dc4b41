"""A page as a picture for the screen: SVG from the same marks as the PDF, short and quickly made.

It is looked at and never cut, so that hundredths of a millimetre are enough and layers are not
told apart; ``output/svg.py`` writes what machines cut by.
"""

from collections.abc import Iterable

from kitbuilder.draw.canvas import Drawing
from kitbuilder.draw.primitives import (
    Box,
    Contour,
    Figure,
    Mark,
    OwnPicture,
    Path,
    Placed,
    Shape,
    Strokes,
    Words,
)

_SIGNS = str.maketrans({"&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;"})

HEAD = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="{0:.5g}mm" height="{1:.5g}mm" '
    'viewBox="0 0 {0:.5g} {1:.5g}" fill="none">'
)


def preview(drawing: Drawing, page: int) -> str:
    """Return ``drawing`` as SVG; its ids begin with the page's number, so that none comes twice."""
    figures: dict[bytes, str] = {}
    defined: list[str] = []

    def placed(figure: Figure) -> str:
        name = figures.get(figure.key)
        if name is None:
            name = figures[figure.key] = f"p{page}-{len(figures)}"
            held = "".join(map(_mark, figure.marks))
            defined.append(f'<g id="{name}">{held}</g>')
        return name

    marks = "".join(
        f'<use href="#{placed(mark.figure)}" x="{mark.x:.5g}" y="{mark.y:.5g}"/>'
        if isinstance(mark, Placed)
        else _mark(mark)
        for mark in drawing.marks
    )
    defs = f"<defs>{''.join(defined)}</defs>" if defined else ""
    return f"{HEAD.format(drawing.width, drawing.height)}{defs}{marks}</svg>"


def _mark(mark: Mark) -> str:
    match mark:
        case Strokes():
            return _strokes(mark)
        case Words():
            place = f'x="{mark.x:.5g}" y="{mark.y:.5g}"{_fill(mark.colour)}'
            face = f'font-family="{mark.family}" font-size="{mark.size:.5g}"'
            kept = ' xml:space="preserve"' if mark.text[:1] == " " or "  " in mark.text else ""
            return f"<text {place} {face}{kept}>{mark.text.translate(_SIGNS)}</text>"
        case Box():
            style = _line(mark.stroke, mark.line) + _fill(mark.fill)
            round_ = f' rx="{mark.radius:.5g}"' if mark.radius else ""
            return (
                f'<rect x="{mark.x:.5g}" y="{mark.y:.5g}" width="{mark.width:.5g}" '
                f'height="{mark.height:.5g}"{round_}{style}/>'
            )
        case Shape():
            corners = "L".join(f"{x:.5g} {y:.5g}" for x, y in mark.corners)
            return f'<path d="M{corners}Z"{_fill(mark.fill)}/>'
        case Path():
            return _path(mark)
        case OwnPicture() | Placed():
            return ""


def _strokes(mark: Strokes) -> str:
    ways = "".join(map(_straight, mark.lines))
    return f'<path d="{ways}"{_line(mark.colour, mark.width, mark.dash)}/>'


def _straight(line: tuple[float, float, float, float]) -> str:
    x1, y1, x2, y2 = line
    if y1 == y2:
        return f"M{x1:.5g} {y1:.5g}H{x2:.5g}"
    if x1 == x2:
        return f"M{x1:.5g} {y1:.5g}V{y2:.5g}"
    return f"M{x1:.5g} {y1:.5g}L{x2:.5g} {y2:.5g}"


def _path(mark: Path) -> str:
    end = "Z" if mark.closed else ""
    ways = "".join(_contour(contour) + end for contour in mark.contours)
    style = _line(mark.stroke, mark.line, mark.dash)
    if mark.stroke:
        style += ' stroke-linecap="round" stroke-linejoin="round"'
    if mark.fill not in ("", "none"):
        style += f'{_fill(mark.fill)} fill-rule="evenodd"'
    return f'<path d="{ways}"{style}/>'


def _contour(contour: Contour) -> str:
    (x, y), *ways = contour
    further = ("CL"[len(way) == 2] + " ".join([f"{value:.5g}" for value in way]) for way in ways)
    return f"M{x:.5g} {y:.5g}{''.join(further)}"


def _fill(colour: str) -> str:
    return f' fill="{colour}"' if colour else ""


def _line(colour: str, width: float, dash: Iterable[float] = ()) -> str:
    if not colour:
        return ""
    dashed = " ".join(f"{length:g}" for length in dash)
    more = f' stroke-dasharray="{dashed}"' if dashed else ""
    return f' stroke="{colour}" stroke-width="{width:.5g}"{more}'
