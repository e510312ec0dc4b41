"""Turns lines, boxes and words in millimetres into the marks of one page."""

import math
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import Literal

import svgwrite

from kitbuilder import measure
from kitbuilder.designs import Look
from kitbuilder.draw import ink
from kitbuilder.printers import Correction
from kitbuilder.sheet.lines import Segment as Segment
from kitbuilder.sheet.records import Rect

Align = Literal["left", "centre", "right"]
Layer = Literal["print", "fold", "cut"]


class OffPageError(ValueError):
    """Marks that leave the page, or words that do not fit their place."""


@dataclass(frozen=True, slots=True)
class Drawing:
    """The marks of one printed side, as SVG in true millimetres.

    ``correction`` is applied when the page is bound into a document to print. ``ink_mm2`` is
    the area that the marks cover, see ``draw.ink``.
    ``title`` and ``section`` (a pupil's name, or empty) are what an outline calls it.
    """

    title: str
    width: float
    height: float
    svg: str
    correction: Correction = field(default_factory=Correction)
    ink_mm2: float = 0.0
    section: str = ""


@dataclass(frozen=True, slots=True)
class TextBox:
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
        self.page = Rect(0, 0, width, height)
        self.text_boxes: list[TextBox] = []
        self._title = title
        self._section = section
        self._svg = svgwrite.Drawing(
            size=(f"{_r(width)}mm", f"{_r(height)}mm"),
            viewBox=f"0 0 {_r(width)} {_r(height)}",
            profile="full",
            debug=False,
        )
        self._groups = {
            name: self._svg.add(self._svg.g(id=name, fill="none", stroke="none"))
            for name in ("print", "fold", "cut")
        }
        self._clips = 0
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
        """Draw straight lines (x1, y1, x2, y2) as one path, ``width`` mm wide."""
        ends = [value for segment in segments for value in segment]
        if not ends:
            return
        if not math.isfinite(sum(ends)):
            raise ValueError(f"{ends} cannot be drawn")
        self._inside(min(ends[::2]), min(ends[1::2]))
        self._inside(max(ends[::2]), max(ends[1::2]))
        d = "M%.7g %.7gL%.7g %.7g" * (len(ends) // 4) % tuple(round(v, 3) + 0.0 for v in ends)
        self.path(d, stroke=colour, width=width, layer=layer, dash=dash)

    def box(
        self,
        rect: Rect,
        *,
        fill: str | None = None,
        stroke: str | None = None,
        width: float = 0.0,
        layer: Layer = "print",
        radius: float = 0.0,
        dash: str | None = None,
    ) -> None:
        """Draw a rectangle, filled or outlined."""
        self._inside(rect.x, rect.y)
        self._inside(rect.right, rect.bottom)
        extra: dict[str, object] = {}
        if fill:
            extra["fill"] = fill
        if stroke:
            extra |= {"stroke": stroke, "stroke_width": _r(width)}
        if radius:
            extra["rx"] = _r(radius)
        if dash:
            extra["stroke_dasharray"] = dash
        around = 2 * (rect.width + rect.height) - (8 - 2 * math.pi) * radius
        self._inked(around, width, stroke, dash)
        self._inked(rect.width * rect.height - (4 - math.pi) * radius**2, 1.0, fill)
        self._groups[layer].add(
            self._svg.rect((_r(rect.x), _r(rect.y)), (_r(rect.width), _r(rect.height)), **extra)
        )

    def path(
        self,
        d: str,
        *,
        stroke: str | None = None,
        width: float = 0.0,
        fill: str | None = None,
        layer: Layer = "print",
        dash: str | None = None,
    ) -> None:
        """Draw an SVG path in page millimetres."""
        extra: dict[str, object] = {"fill": fill} if fill else {}
        if stroke:
            extra |= {"stroke": stroke, "stroke_width": _r(width)}
        if dash:
            extra["stroke_dasharray"] = dash
        length, area = ink.path_measures(d)
        self._inked(length, width, stroke, dash)
        self._inked(area, 1.0, fill)
        self._groups[layer].add(self._svg.path(d, **extra))

    def text(
        self,
        x: float,
        y: float,
        text: str,
        size: float,
        *,
        align: Align = "left",
        colour: str | None = None,
    ) -> Rect:
        """Write one line of words with its baseline at ``y``; return the box of its ink.

        ``x`` is the left end, the centre or the right end of the advance width, as ``align``
        says. ``size`` is the em in mm.
        """
        across = measure.width(text, size)
        left = x - {"left": 0.0, "centre": across / 2, "right": across}[align]
        above = measure.digit_height(size)
        box = Rect(left, y - above, max(across, 0.01), above + 0.25 * size)
        self._inside(box.x, box.y)
        self._inside(box.right, box.bottom)
        self.text_boxes.append(TextBox(text, size, box))
        self._inked(measure.area(text, size), 1.0, colour or self.look.ink.text)
        for family, run in measure.runs(text) if text else ():
            self._groups["print"].add(
                self._svg.text(
                    run,
                    insert=(_r(left), _r(y)),
                    font_family=family,
                    font_size=_r(size),
                    fill=colour or self.look.ink.text,
                )
            )
            left += measure.width(run, size)
        return box

    @contextmanager
    def clipped(self, rect: Rect) -> Iterator[None]:
        """Keep the printed marks made inside this block within ``rect``."""
        self._clips += 1
        name = f"clip{self._clips}"
        clip = self._svg.defs.add(self._svg.clipPath(id=name))
        clip.add(self._svg.rect((_r(rect.x), _r(rect.y)), (_r(rect.width), _r(rect.height))))
        outer = self._groups["print"]
        self._groups["print"] = outer.add(self._svg.g(clip_path=f"url(#{name})"))
        try:
            yield
        finally:
            self._groups["print"] = outer

    def drawing(self) -> Drawing:
        """Return the finished page."""
        return Drawing(
            self._title,
            self.page.width,
            self.page.height,
            self._svg.tostring(),
            ink_mm2=round(self._ink_mm2, 2),
            section=self._section,
        )

    def _inked(
        self, length: float, width: float, colour: str | None, dash: str | None = None
    ) -> None:
        if colour:
            self._ink_mm2 += length * width * ink.darkness(colour) * ink.drawn_part(dash)

    def _inside(self, x: float, y: float) -> None:
        slack = 0.01
        if not (-slack <= x <= self.page.width + slack and -slack <= y <= self.page.height + slack):
            raise OffPageError(f"a mark at ({x}, {y}) leaves the page {self.page}")


def _r(value: float) -> float:
    """Round to a thousandth of a millimetre; whole numbers print without a point."""
    rounded = round(value, 3)
    if rounded != rounded or rounded in (float("inf"), float("-inf")):
        raise ValueError(f"{value} cannot be drawn")
    return int(rounded) if rounded == int(rounded) else rounded
