"""Discs, rings, arcs and polygons as paths: circles are drawn with cubic Bézier curves."""

import math
from collections.abc import Iterable, Sequence

from kitbuilder.draw.primitives import Contour, Path

_QUARTER = math.pi / 2
_BEND = 0.45
# How far from a corner the points are that bend a curve round it, in parts of the curve.


Pair = tuple[float, float]


def arc(centre: Pair, radius: Pair, turn: Pair) -> Contour:
    """Return an arc of an ellipse round ``centre``, in at most quarters.

    ``turn`` gives where it begins and ends, in degrees clockwise from the right.
    """
    (x, y), (across, down) = centre, radius
    start, end = (math.radians(angle) for angle in turn)
    parts = max(1, math.ceil(abs(end - start) / _QUARTER - 1e-9))
    step = (end - start) / parts
    off = 4 / 3 * math.tan(step / 4)
    ways: list[tuple[float, ...]] = [(x + across * math.cos(start), y + down * math.sin(start))]
    for part in range(parts):
        a, b = start + part * step, start + (part + 1) * step
        ways.append(
            (
                x + across * (math.cos(a) - off * math.sin(a)),
                y + down * (math.sin(a) + off * math.cos(a)),
                x + across * (math.cos(b) + off * math.sin(b)),
                y + down * (math.sin(b) - off * math.cos(b)),
                x + across * math.cos(b),
                y + down * math.sin(b),
            )
        )
    # the last places of sines differ between machines; what is printed must not
    return tuple(tuple(round(value, 6) for value in way) for way in ways)


def disc(x: float, y: float, radius: float, fill: str) -> Path:
    """Return a filled circle."""
    return Path((arc((x, y), (radius, radius), (0, 360)),), fill, closed=True)


def ring(x: float, y: float, radius: float, width: float, stroke: str) -> Path:
    """Return a circle's line, ``width`` mm wide."""
    return Path((arc((x, y), (radius, radius), (0, 360)),), "", stroke, width, closed=True)


def polygon(corners: Iterable[Pair], fill: str) -> Path:
    """Return a filled shape with straight sides."""
    return Path((tuple(corners),), fill, closed=True)


def rounded(corners: Sequence[Pair], radius: float) -> Contour:
    """Return a closed way through ``corners``, each of them round."""
    ways: list[tuple[float, ...]] = []
    for k, corner in enumerate(corners):
        sides = (corners[k - 1], corners[(k + 1) % len(corners)])
        shares = [radius / math.dist(corner, side) for side in sides]
        start, end = (_along(corner, *one) for one in zip(sides, shares, strict=True))
        ways += [start, (*_along(corner, start, _BEND), *_along(corner, end, _BEND), *end)]
    return tuple(ways)


def _along(start: Pair, end: Pair, share: float) -> Pair:
    return start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share


def line(points: Iterable[Pair], width: float, stroke: str) -> Path:
    """Return a line through ``points`` with round ends and corners."""
    return Path((tuple(points),), "", stroke, width)
