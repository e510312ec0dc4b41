"""Turns a count and a noun into plain English for the terminal."""

import math


def counted(count: int, noun: str) -> str:
    """Return "1 sheet", "2 sheets" or "0 sheets" for ``noun`` "sheet"."""
    return f"{count} {noun}" if count == 1 else f"{count} {noun}s"


def nearest(value: float) -> int:
    """Return the nearest whole number, a half being rounded up as schools teach it."""
    return math.floor(value + 0.5)


def minutes_said(minutes: float) -> str:
    """Return "less than a minute", "about 1 minute" or "about 12 minutes"."""
    whole = nearest(minutes)
    return f"about {counted(whole, 'minute')}" if whole else "less than a minute"
