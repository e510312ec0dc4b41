"""Rounding: as schools teach it, and alike on every machine."""

import math


def nearest(value: float) -> int:
    """Return the nearest whole number, a half being rounded up as schools teach it."""
    return math.floor(value + 0.5)


def thousandth(value: float) -> float:
    """Return a length to a thousandth.

    It is rounded twice, so that a hair of difference, as between the sums of Python 3.11 and
    3.12, never turns a thousandth over.
    """
    return round(round(value, 7), 3)
