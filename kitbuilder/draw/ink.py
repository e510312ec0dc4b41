"""The ink that marks take: covered area in square millimetres, a black mark whole.

A colour counts as far as it is dark: half a grey is half the ink. A piece hides what it lies on of
the piece drawn just before it, by its part of that one's area; other marks over each other are
counted each.
"""

import math
from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise

from kitbuilder.draw.primitives import Box, Contour, Figure, Path, Shape, Strokes

Mark = Strokes | Box | Shape | Path


def of_mark(mark: Mark) -> float:
    """Return the ink of lines, a box, a shape or a path, in mm²."""
    match mark:
        case Strokes():
            long = sum(math.hypot(x2 - x1, y2 - y1) for x1, y1, x2, y2 in mark.lines)
            return _line(long, mark.width, mark.colour, mark.dash)
        case Shape():
            return area(mark.corners) * darkness(mark.fill)
        case Box():
            around = 2 * (mark.width + mark.height) - (8 - 2 * math.pi) * mark.radius
            inside = mark.width * mark.height - (4 - math.pi) * mark.radius**2
            return _line(around, mark.line, mark.stroke) + inside * darkness(mark.fill)
        case Path():
            corners = [flattened(contour) for contour in mark.contours]
            around = sum(math.dist(a, b) for way in corners for a, b in pairwise(way))
            inside = sum(map(area, corners))
            drawn = _line(around, mark.line, mark.stroke, mark.dash)
            return drawn + inside * darkness(mark.fill)


@lru_cache(1024)
def of_figure(figure: Figure) -> float:
    """Return the ink of a figure, in mm², reckoned once for all its places.

    What a lighter mark takes away from the one just before it, which it lies in, is not counted.
    """
    covered = sum(_covered(below, mark) for below, mark in pairwise(figure.marks))
    return sum(map(of_mark, figure.marks)) - covered


def hidden(below: Figure, above: Figure, across: float, down: float) -> float:
    """Return the ink of ``below`` under ``above``, which lies ``across`` and ``down`` mm off it."""
    ground = above.marks[0]
    if not (isinstance(ground, Box) and ground.fill):
        return 0.0
    wide = min(below.width, across + above.width) - max(0.0, across)
    high = min(below.height, down + above.height) - max(0.0, down)
    if wide <= 0 or high <= 0:
        return 0.0
    return of_figure(below) * wide * high / (below.width * below.height)


def _covered(below: Mark, above: Mark) -> float:
    """Return the ink of ``below`` under ``above``: a path in a filled one, a line along a line."""
    if not (isinstance(below, Path) and isinstance(above, Path)):
        return 0.0
    if below.contours == above.contours and not (below.fill or above.fill):
        long = sum(math.dist(a, b) for way in below.contours for a, b in pairwise(flattened(way)))
        return _line(long, min(below.line, above.line), below.stroke, below.dash)
    if not (below.fill and above.fill and _lies_in(above, below)):
        return 0.0
    return sum(area(flattened(way)) for way in above.contours) * darkness(below.fill)


def _lies_in(inner: Path, outer: Path) -> bool:
    """Say whether no corner of ``inner`` lies beyond those of ``outer``."""
    (x1, x2, y1, y2), (left, right, top, bottom) = map(_bounds, (inner, outer))
    return left <= x1 and x2 <= right and top <= y1 and y2 <= bottom


def _bounds(path: Path) -> tuple[float, float, float, float]:
    xs, ys = zip(*(at for way in path.contours for at in flattened(way)), strict=True)
    return min(xs), max(xs), min(ys), max(ys)


def _line(long: float, width: float, colour: str, dash: tuple[float, ...] = ()) -> float:
    return long * width * darkness(colour) * drawn_part(dash)


@lru_cache(1024)
def darkness(colour: str) -> float:
    """Return how dark ``#rrggbb`` is: 0 for white, 1 for black (mean of the three channels).

    What has no colour takes no ink.
    """
    if colour in ("", "none"):
        return 0.0
    return 1 - sum(int(colour[k : k + 2], 16) for k in (1, 3, 5)) / (3 * 255)


@lru_cache(1024)
def drawn_part(dash: tuple[float, ...]) -> float:
    """Return the part of a line that is drawn: all without ``dash`` (lengths in turn)."""
    if not dash:
        return 1.0
    lengths = dash * (1 + len(dash) % 2)
    return sum(lengths[::2]) / sum(lengths)


def area(corners: Sequence[tuple[float, float]]) -> float:
    """Return the area in mm² of a shape with straight sides between ``corners`` (shoelace)."""
    ends = zip(corners, (*corners[1:], *corners[:1]), strict=True)
    return abs(sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in ends)) / 2


_PARTS = [
    ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3)
    for t in (step / 8 for step in range(1, 9))
]
"""How much each end and handle of a curve weighs at the end of each of eight parts."""


def flattened(contour: Contour) -> tuple[tuple[float, float], ...]:
    """Return the corners of ``contour``, a curve cut into eight straight parts."""
    found: list[tuple[float, float]] = []
    for way in contour:
        if len(way) == 2:
            found.append((way[0], way[1]))
            continue
        (x0, y0), (x1, y1, x2, y2, x3, y3) = found[-1], way
        found += [
            (a * x0 + b * x1 + c * x2 + d * x3, a * y0 + b * y1 + c * y2 + d * y3)
            for a, b, c, d in _PARTS
        ]
    return tuple(found)
