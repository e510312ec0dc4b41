"""The canvas of one page: lines, boxes and words in millimetres, kept as marks."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import field
from typing import Literal, NamedTuple

from kitbuilder.design import metrics
from kitbuilder.design.load import Look
from kitbuilder.draw import ink
from kitbuilder.draw.primitives import (
    LAYERS,
    Box,
    Figure,
    Layer,
    Mark,
    OwnPicture,
    Path,
    Placed,
    Shape,
    Strokes,
    Words,
)
from kitbuilder.frozen import frozen
from kitbuilder.layout.cutting.line_segments import Segment as Segment
from kitbuilder.layout.model import Flip, Rect
from kitbuilder.press.printer import Correction

Align = Literal["left", "centre", "right"]

POINTS = (".", ",")
"""Decimal points, whose ink stands low on its line."""

_POINT_HIGH = 0.3
# How high a decimal point is, as a part of a digit.


class OffPageError(ValueError):
    """Marks that leave the page, or words that do not fit their place."""


@frozen
class Drawing:
    """The marks of one printed side, in true millimetres and in the order they are painted.

    ``correction`` is applied when the page is bound into a document to print. ``ink_mm2`` is
    the area that the marks cover, see ``draw.ink``.
    ``flip`` is set on a back: the edge the paper is turned over on.
    ``title`` and ``section`` (a pupil's name, or empty) are what an outline calls it.
    """

    title: str
    width: float
    height: float
    marks: tuple[Mark, ...]
    flip: Flip | None = None
    correction: Correction = field(default_factory=Correction)
    ink_mm2: float = 0.0
    section: str = ""


class TextBox(NamedTuple):
    """Where a line of words stands: its ink lies inside ``rect``, in mm."""

    text: str
    size: float
    rect: Rect


class Canvas:
    """One page being drawn, in millimetres from its top left.

    Marks go into three named groups: ``print`` (what only a printer makes), ``fold`` and
    ``cut``. Words always stand in ``print``. Raises ``OffPageError`` for marks off the page.
    """

    def __init__(
        self, title: str, width: float, height: float, look: Look, section: str = ""
    ) -> None:
        self.look = look
        self.is_pictured = False
        self.page = Rect(0, 0, width, height)
        self.text_boxes: list[TextBox] = []
        self._title = title
        self._section = section
        self._marks: list[Mark] = []
        self._ink_mm2 = 0.0

    def lines(
        self,
        segments: Iterable[Segment],
        width: float,
        colour: str,
        *,
        layer: Layer = "print",
        dash: str | None = None,
    ) -> None:
        """Draw straight lines (x1, y1, x2, y2), ``width`` mm wide."""
        lines = tuple(segments)
        if not lines:
            return
        self._inside_all(lines)
        self._add(Strokes(lines, width, colour, layer, _dash(dash)))

    def figure(self, figure: Figure, x: float, y: float) -> None:
        """Draw ``figure`` with its top left at (x, y); it is only printed."""
        self._inside_all([(x, y, x + figure.width, y + figure.height)])
        self._ink_mm2 += ink.of_figure(figure)
        if self._marks and isinstance(below := self._marks[-1], Placed):
            self._ink_mm2 -= ink.hidden(below.figure, figure, x - below.x, y - below.y)
        self._marks.append(Placed(figure, x, y))

    def box(
        self,
        rect: Rect,
        *,
        fill: str | None = None,
        stroke: str | None = None,
        width: float = 0.0,
        layer: Layer = "print",
        radius: float = 0.0,
    ) -> None:
        """Draw a rectangle, filled or outlined."""
        self._inside_all([(rect.x, rect.y, rect.right, rect.bottom)])
        place = (rect.x, rect.y, rect.width, rect.height, radius)
        self._add(Box(*place, fill or "", stroke or "", width, layer))

    def own_picture(self, rect: Rect) -> None:
        """Put someone's own drawing, if there is one, into ``rect``; its ink is not reckoned."""
        if self.is_pictured:
            self._inside_all([(rect.x, rect.y, rect.right, rect.bottom)])
            self._marks.append(OwnPicture(rect.x, rect.y, rect.width, rect.height))

    def shape(self, corners: Sequence[tuple[float, float]], fill: str) -> None:
        """Fill a shape with straight sides between ``corners``, in page millimetres."""
        self._inside_all([(x, y, x, y) for x, y in corners])
        self._add(Shape(tuple(corners), fill))

    def path(self, path: Path) -> None:
        """Draw lines and curves."""
        ends = [
            (way[k], way[k + 1], way[k], way[k + 1])
            for contour in path.contours
            for way in contour
            for k in range(0, len(way), 2)
        ]
        self._inside_all(ends)
        self._add(path)

    def text(
        self,
        x: float,
        y: float,
        text: str,
        size: float,
        *,
        align: Align = "left",
        colour: str | None = None,
        family: str = metrics.FAMILY,
    ) -> Rect:
        """Write one line of words with its baseline at ``y``; return the box of its ink.

        ``x`` is the left end, the centre or the right end of the advance width, as ``align``
        says. ``size`` is the em in mm.
        """
        across = metrics.width(text, size, family)
        left = x - {"left": 0.0, "centre": across / 2, "right": across}[align]
        above = metrics.digit_height(size, family) * (_POINT_HIGH if text in POINTS else 1.0)
        box = Rect(left, y - above, max(across, 0.01), above + 0.25 * size)
        self._inside_all([(box.x, box.y, box.right, box.bottom)])
        self.text_boxes.append(TextBox(text, size, box))
        colour = colour or self.look.ink.text
        self._ink_mm2 += metrics.area(text, size, family) * ink.darkness(colour)
        for own, run in metrics.runs(text, family) if text else ():
            self._marks.append(Words(left, y, run, own, size, colour))
            left += metrics.width(run, size, own)
        return box

    def drawing(self) -> Drawing:
        """Return the finished page."""
        return Drawing(
            self._title,
            self.page.width,
            self.page.height,
            tuple(sorted(self._marks, key=lambda mark: LAYERS.index(mark.layer))),
            ink_mm2=round(round(self._ink_mm2, 7), 2),  # twice: the same on every machine
            section=self._section,
        )

    def _add(self, mark: Strokes | Box | Shape | Path) -> None:
        self._ink_mm2 += ink.of_mark(mark)
        self._marks.append(mark)

    def _inside_all(self, lines: Iterable[Segment]) -> None:
        """Raise ``ValueError`` for a line that cannot be drawn or leaves the page."""
        slack = 0.01
        right, bottom = self.page.width + slack, self.page.height + slack
        for x1, y1, x2, y2 in lines:
            across = -slack <= x1 <= right and -slack <= x2 <= right
            if across and -slack <= y1 <= bottom and -slack <= y2 <= bottom:
                continue
            if not math.isfinite(x1 + y1 + x2 + y2):
                raise ValueError(f"a mark at ({x1}, {y1}, {x2}, {y2}) cannot be drawn")
            raise OffPageError(
                f"a mark from ({x1}, {y1}) to ({x2}, {y2}) leaves the page {self.page}"
            )


def _dash(dash: str | None) -> tuple[float, ...]:
    return tuple(map(float, dash.split())) if dash else ()
