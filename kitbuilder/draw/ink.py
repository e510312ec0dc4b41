"""Turns marks into the ink they take: covered area in square millimetres, a black mark whole.

A colour counts as far as it is dark: half a grey is half the ink. Marks that lie over each
other are counted each; only crossings of thin lines do.
"""

from collections.abc import Sequence
from functools import cache


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
