"""Marks as the operators of a PDF content stream (ISO 32000-1, 8 and 9, from memory).

Every length is in millimetres: one matrix at the start of a page makes them points, turns y
down, and carries the printer's correction. What is set (line, colour, typeface) is said again
only where it changes.
"""

from collections.abc import Callable, Iterable, Sequence
from functools import lru_cache

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
from kitbuilder.layout.cutting.line_segments import Segment

POINTS_PER_MM = 72 / 25.4

_ARC = 0.5522847
"""How far, in radii, the handles of a Bézier curve stand off for a quarter of a circle."""

_SPACES = " \xa0"
"""What every run of words ends with: readers then keep apart what stands apart, in any order."""


class Pen:
    """Writes marks, one after the other; ``content`` is what was written.

    ``typeface`` returns words of a family as names of fonts with the codes they show, ``figure``
    what shows a figure, ``own`` the name of someone's own drawing and its size.
    """

    def __init__(
        self,
        typeface: Callable[[str, str], list[tuple[str, str]]],
        figure: Callable[[Figure], str] = lambda _: "",
        own: Callable[[], tuple[str, float, float]] | None = None,
    ) -> None:
        self._typeface = typeface
        self._figure = figure
        self._own = own
        self._said: list[str] = []
        self._set: dict[
            str, str
        ] = {}  # nothing yet: a figure begins with whatever the page has set
        self._in_words = False

    def page(self, drawing: Drawing) -> None:
        """Write a page: its matrix, then its marks."""
        shift, scale = drawing.correction, POINTS_PER_MM
        high = drawing.height - shift.below
        matrix = (
            *(shift.across * scale, 0, 0, -shift.down * scale),
            *(shift.right * scale, high * scale),
        )
        self._said.append(f"{' '.join(f'{round(v, 7):.9g}' for v in matrix)} cm")
        self._set["d"] = "[] 0"
        self.marks(drawing.marks)

    def marks(self, marks: Iterable[Mark]) -> None:
        """Write ``marks`` in their order."""
        for mark in marks:
            if isinstance(mark, Words):
                self._words(mark)
                continue
            self._end_words()
            match mark:
                case Strokes():
                    self._stroke_style(mark.width, mark.colour, mark.dash)
                    self._said.append(_lines(mark.lines))
                case Placed():
                    self._said.append(f"{_at(mark.x, mark.y)} {self._figure(mark.figure)} Q")
                case Box():
                    self._box(mark)
                case Path():
                    self._path(mark)
                case OwnPicture():
                    self._own_picture(mark)
                case Shape():
                    self._fill_colour(mark.fill)
                    corners = " l ".join(f"{_n(x)} {_n(y)}" for x, y in mark.corners)
                    self._said.append(f"{corners.replace(' l ', ' m ', 1)} l f")

    @property
    def content(self) -> bytes:
        """What was written so far."""
        self._end_words()
        return "\n".join(self._said).encode("latin-1")

    def _words(self, mark: Words) -> None:
        self._fill_colour(mark.colour)
        if not self._in_words:
            self._said.append("BT")
            self._in_words = True
        text = mark.text if mark.text[-1:] in _SPACES else f"{mark.text} "
        place, size = f"1 0 0 -1 {_n(mark.x)} {_n(mark.y)} Tm ", _n(mark.size)
        for name, codes in self._typeface(mark.family, text):
            self._once("Tf", f"/{name} {size}")
            self._said.append(f"{place}({codes}) Tj")
            place = ""  # the next goes on where this one ends

    def _own_picture(self, mark: OwnPicture) -> None:
        """Scale the drawing into the middle of its box; its own y runs up."""
        if self._own is None:
            return
        name, width, height = self._own()
        scale = min(mark.width / width, mark.height / height)
        left = mark.x + (mark.width - scale * width) / 2
        bottom = mark.y + (mark.height + scale * height) / 2
        place = f"{scale:.6f} 0 0 {-scale:.6f} {_n(left)} {_n(bottom)}"
        self._said.append(f"q {place} cm /{name} Do Q")

    def _end_words(self) -> None:
        if self._in_words:
            self._said.append("ET")
            self._in_words = False

    def _box(self, mark: Box) -> None:
        is_filled = mark.fill not in ("", "none")
        if is_filled:
            self._fill_colour(mark.fill)
        if mark.stroke:
            self._stroke_style(mark.line, mark.stroke)
        paint = {(True, True): "B", (True, False): "f", (False, True): "S"}
        how = paint.get((is_filled, bool(mark.stroke)))
        if how:
            if mark.radius:
                self._said.append(f"{_at(mark.x, mark.y)} {_round(mark)} {how} Q")
            else:
                sides = (mark.x, mark.y, mark.width, mark.height)
                self._said.append(f"{' '.join(map(_n, sides))} re {how}")

    def _path(self, mark: Path) -> None:
        """Write a path; its ends and corners are round where it is drawn."""
        is_filled = mark.fill not in ("", "none")
        if is_filled:
            self._fill_colour(mark.fill)
        if mark.stroke:
            self._stroke_style(mark.line, mark.stroke, mark.dash)
        paint = {(True, True): "B*", (True, False): "f*", (False, True): "S"}
        if how := paint.get((is_filled, bool(mark.stroke))):
            end = " h" if mark.closed else ""
            x, y = mark.contours[0][0][:2]
            path = "\n".join(_contour(contour, x, y) + end for contour in mark.contours)
            round_ = " 1 J 1 j" if mark.stroke else ""
            self._said.append(f"{_at(x, y)}{round_} {path} {how} Q")

    def _stroke_style(self, width: float, colour: str, dash: Sequence[float] = ()) -> None:
        self._once("w", _n(width))
        self._once("d", f"[{' '.join(map(_n, dash))}] 0")
        self._once("stroke", _colour(colour, "RG", "G"), operator="")

    def _fill_colour(self, colour: str) -> None:
        self._once("fill", _colour(colour, "rg", "g"), operator="")

    def _once(self, what: str, value: str, *, operator: str | None = None) -> None:
        """Set ``what`` to ``value`` unless it is so already."""
        if self._set.get(what) != value:
            self._set[what] = value
            self._said.append(f"{value} {what if operator is None else operator}".rstrip())


def _lines(lines: Iterable[Segment]) -> str:
    path = "\n".join([f"{_n(x1)} {_n(y1)} m {_n(x2)} {_n(y2)} l" for x1, y1, x2, y2 in lines])
    return f"{path} S"


def _at(x: float, y: float) -> str:
    """Return what lets a path begin at (x, y), until ``Q``: paths of one form are then written
    alike wherever they stand, which deflates to little."""
    return f"q 1 0 0 1 {_n(x)} {_n(y)} cm"


def _contour(contour: Contour, x: float, y: float) -> str:
    """Return a contour as seen from (x, y)."""
    start, *ways = [
        " ".join([_n(v - (y if k % 2 else x)) for k, v in enumerate(way)]) for way in contour
    ]
    said = [f"{way} {'l' if way.count(' ') == 1 else 'c'}" for way in ways]
    return " ".join((f"{start} m", *said))


def _round(mark: Box) -> str:
    """Return the path round a rectangle with round corners, clockwise from its top left."""
    radius = min(mark.radius, mark.width / 2, mark.height / 2)
    left, top, right, bottom = 0.0, 0.0, mark.width, mark.height
    off = radius * (1 - _ARC)
    path = f"{_n(left + radius)} {_n(top)} m"
    for line, curve in (
        ((right - radius, top), (right - off, top, right, top + off, right, top + radius)),
        (
            (right, bottom - radius),
            (right, bottom - off, right - off, bottom, right - radius, bottom),
        ),
        ((left + radius, bottom), (left + off, bottom, left, bottom - off, left, bottom - radius)),
        ((left, top + radius), (left, top + off, left + off, top, left + radius, top)),
    ):
        path += f" {' '.join(map(_n, line))} l {' '.join(map(_n, curve))} c"
    return f"{path} h"


@lru_cache(4096)
def _n(value: float) -> str:
    """Return a length to a hundredth of a millimetre; below 1000 it is never exponential."""
    # twice, so that a hair of difference between machines never turns a hundredth over
    return f"{round(round(value, 7), 2) + 0.0:g}"


@lru_cache(256)
def _colour(name: str, of_three: str, of_grey: str) -> str:
    """Return what sets the colour ``#rrggbb``; a grey takes black ink alone."""
    parts = [f"{round(int(name[k : k + 2], 16) / 255, 3):g}" for k in (1, 3, 5)]
    return f"{parts[0]} {of_grey}" if len(set(parts)) == 1 else f"{' '.join(parts)} {of_three}"
