"""Turns marks into the ink they take: covered area in square millimetres, a black mark whole.

A colour counts as far as it is dark: half a grey is half the ink. Marks that lie over each
other are counted each; only crossings of thin lines do.
"""

from collections.abc import Sequence
from functools import cache

from kitbuilder.draw.marks import Contour


@cache
def darkness(colour: str) -> float:
    """Return how dark ``#rrggbb`` is: 0 for white, 1 for black (mean of the three channels).

    What is filled with ``none`` takes no ink.
    """
    if colour == "none":
        return 0.0
    return 1 - sum(int(colour[k : k + 2], 16) for k in (1, 3, 5)) / (3 * 255)


@cache
def drawn_part(dash: str | None) -> float:
    """Return the part of a line that is drawn: all without ``dash`` (lengths in turn)."""
    if not dash:
        return 1.0
    lengths = [float(length) for length in dash.replace(",", " ").split()]
    lengths *= 1 + len(lengths) % 2
    return sum(lengths[::2]) / sum(lengths)


def area(corners: Sequence[tuple[float, float]]) -> float:
    """Return the area in mm² of a shape with straight sides between ``corners`` (shoelace)."""
    ends = zip(corners, (*corners[1:], *corners[:1]), strict=True)
    return abs(sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in ends)) / 2


_PARTS = 8


def flattened(contour: Contour) -> tuple[tuple[float, float], ...]:
    """Return the corners of ``contour``, a curve cut into eight straight parts."""
    found: list[tuple[float, float]] = []
    for way in contour:
        if len(way) == 2:
            found.append((way[0], way[1]))
            continue
        points = (found[-1], (way[0], way[1]), (way[2], way[3]), (way[4], way[5]))
        for step in range(1, _PARTS + 1):
            t = step / _PARTS
            weights = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3)
            x, y = (sum(w * p[k] for w, p in zip(weights, points, strict=True)) for k in (0, 1))
            found.append((x, y))
    return tuple(found)
