"""Turns marks into the ink they take: covered area in square millimetres, a black mark whole.

A colour counts as far as it is dark: half a grey is half the ink. Marks that lie over each
other are counted each; only crossings of thin lines do.
"""

import math
import re

_MOVE = re.compile(r"([MLZ])(?:\s*(-?[\d.]+)[\s,]+(-?[\d.]+))?")


def darkness(colour: str) -> float:
    """Return how dark ``#rrggbb`` is: 0 for white or ``none``, 1 for black.

    It is the mean of the three channels.
    """
    if not colour.startswith("#"):
        return 0.0
    return 1 - sum(int(colour[k : k + 2], 16) for k in (1, 3, 5)) / (3 * 255)


def drawn_part(dash: str | None) -> float:
    """Return the part of a line that is drawn: all without ``dash`` (lengths in turn)."""
    if not dash:
        return 1.0
    lengths = [float(length) for length in dash.replace(",", " ").split()]
    lengths *= 1 + len(lengths) % 2
    return sum(lengths[::2]) / sum(lengths)


def path_measures(d: str) -> tuple[float, float]:
    """Return the length in mm and the enclosed area in mm² of a path of straight lines."""
    length = area = swept = 0.0
    start = here = (0.0, 0.0)
    for move in _MOVE.finditer(d):
        to = start if move[1] == "Z" else (float(move[2]), float(move[3]))
        if move[1] == "M":
            area += abs(swept + _swept(here, start))
            start, swept = to, 0.0
        else:
            length += math.dist(here, to)
            swept += _swept(here, to)
        here = to
    return length, area + abs(swept + _swept(here, start))


def _swept(here: tuple[float, float], to: tuple[float, float]) -> float:
    """Return the area between a straight line and the origin, signed."""
    return (here[0] * to[1] - to[0] * here[1]) / 2
