"""What stands on a page, as records in millimetres: lines, boxes, shapes, paths and words."""

from array import array
from collections.abc import Iterator
from dataclasses import field, replace
from hashlib import blake2b
from itertools import chain
from typing import Literal, NamedTuple

from kitbuilder.frozen import frozen
from kitbuilder.layout.cutting.line_segments import Segment

Layer = Literal["print", "fold", "cut"]
"""What makes a mark: only a printer, a fold, or a cutting tool. Painted in this order."""

LAYERS: tuple[Layer, ...] = ("print", "fold", "cut")


@frozen
class Strokes:
    """Separate straight lines, ``width`` mm wide; ``dash`` gives lengths in mm, or nothing."""

    lines: tuple[Segment, ...]
    width: float
    colour: str
    layer: Layer = "print"
    dash: tuple[float, ...] = ()

    def moved(self, dx: float, dy: float) -> "Strokes":
        """Return the lines shifted by ``dx`` and ``dy`` mm."""
        lines = tuple((x1 + dx, y1 + dy, x2 + dx, y2 + dy) for x1, y1, x2, y2 in self.lines)
        return Strokes(lines, self.width, self.colour, self.layer, self.dash)


@frozen
class Box:
    """A rectangle with corners of ``radius``; ``fill`` and ``stroke`` are colours or nothing."""

    x: float
    y: float
    width: float
    height: float
    radius: float = 0.0
    fill: str = ""
    stroke: str = ""
    line: float = 0.0
    layer: Layer = "print"

    def moved(self, dx: float, dy: float) -> "Box":
        """Return the rectangle shifted by ``dx`` and ``dy`` mm."""
        return replace(self, x=self.x + dx, y=self.y + dy)


@frozen
class Shape:
    """A filled shape with straight sides between its corners (x, y)."""

    corners: tuple[tuple[float, float], ...]
    fill: str
    layer: Layer = "print"


Contour = tuple[tuple[float, ...], ...]
"""One way along a path: where it begins (x, y), then lines to (x, y) and curves to the last pair
of (x1, y1, x2, y2, x, y), the first two being the handles of a cubic Bézier curve."""


@frozen
class Path:
    """Lines and curves, filled or drawn with round ends and corners; ``fill`` and ``stroke`` are
    colours or nothing, ``line`` is the width in mm. With ``closed`` each contour ends where it
    began; what lies inside a second contour is left out (even-odd rule)."""

    contours: tuple[Contour, ...]
    fill: str = ""
    stroke: str = ""
    line: float = 0.0
    closed: bool = False
    layer: Layer = "print"
    dash: tuple[float, ...] = ()

    def moved(self, dx: float, dy: float) -> "Path":
        """Return the path shifted by ``dx`` and ``dy`` mm."""
        ways = (
            tuple(tuple(v + (dy if k % 2 else dx) for k, v in enumerate(way)) for way in contour)
            for contour in self.contours
        )
        return replace(self, contours=tuple(ways))


class Words(NamedTuple):
    """One run of words of one typeface: baseline from (x, y), ``size`` mm to the em."""

    x: float
    y: float
    text: str
    family: str
    size: float
    colour: str
    layer: Layer = "print"


@frozen
class Figure:
    """Marks that are drawn at several places; equal figures are held once in a document.

    ``key`` is reckoned from all marks, so that figures are told apart without going through
    them again.
    """

    marks: tuple[Strokes | Box | Path, ...] = field(compare=False)
    width: float
    height: float
    key: bytes = field(init=False)

    def __post_init__(self) -> None:
        said = blake2b(digest_size=16)
        for mark in self.marks:
            if isinstance(mark, Strokes):
                said.update(repr((mark.width, mark.colour, mark.dash)).encode())
                said.update(array("d", chain.from_iterable(mark.lines)))
            else:
                said.update(repr(mark).encode())
        object.__setattr__(self, "key", said.digest())


class Placed(NamedTuple):
    """A figure at a place: its top left is (x, y)."""

    figure: Figure
    x: float
    y: float
    layer: Layer = "print"

    def marks(self) -> Iterator[Strokes | Box | Path]:
        """Yield the figure's marks where they stand on the page."""
        for mark in self.figure.marks:
            yield mark.moved(self.x, self.y)


@frozen
class OwnPicture:
    """A box kept free for someone's own drawing, which is scaled into its middle."""

    x: float
    y: float
    width: float
    height: float
    layer: Layer = "print"


Mark = Strokes | Box | Shape | Path | Words | Placed | OwnPicture
