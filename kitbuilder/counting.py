"""Rounding as schools teach it."""

import math


def nearest(value: float) -> int:
    """Return the nearest whole number, a half being rounded up as schools teach it."""
    return math.floor(value + 0.5)
