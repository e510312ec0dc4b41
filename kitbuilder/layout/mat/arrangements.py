"""Turns a count of pieces into the ways they can lie: a rectangle and a slot for each piece."""

from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from kitbuilder.layout.mat.mat_records import FINGER, Way
from kitbuilder.layout.model import Rect

Tens = Literal["upright", "flat"]

ROW_OF_ONES = 5
"""Ones lie in rows of five, so that ten is seen at a glance."""


@dataclass(frozen=True, slots=True)
class Lying:
    """Slots with their top left at (0, 0), the room they take in mm, and how plain they look.

    ``untidy`` is 0 for pieces all in sight; a fan counts two and each further fan one, each
    further row of tens three, rows neither of ten nor of all one, tens lying flat one.
    """

    way: Way
    slots: tuple[Rect, ...]
    width: float
    height: float
    untidy: int


@lru_cache(maxsize=4096)
def lyings(place: int, count: int, unit: float, tens: Tens) -> tuple[Lying, ...]:
    """Return every way ``count`` pieces of ``place`` (0 to 2) can lie, none larger both ways.

    Ones: rows of five. Tens: side by side, upright or flat, in one row or more, 5 mm apart,
    of ten each where there is room. Hundreds: side by side, or fanned down or across in one
    fan or several 5 mm apart, one unit row of each in sight.
    """
    if count == 0:
        return (Lying("side by side", (), 0.0, 0.0, 0),)
    if place == 0:
        return (_ones(count, unit),)
    found = _tens(count, unit, tens) if place == 1 else _hundreds(count, unit)
    return tuple(
        a
        for i, a in enumerate(found)
        if not any(
            b.width <= a.width + 1e-9
            and b.height <= a.height + 1e-9
            and (b.untidy, j) < (a.untidy, i)
            for j, b in enumerate(found)
        )
    )


def spread(lying: Lying, unit: float, width: float, height: float) -> Lying:
    """Return the same single fan opened as far as ``width`` by ``height`` mm lets it.

    The step between two hundreds grows in whole units, up to side by side.
    """
    if lying.way != "fan" or len(lying.slots) < 2:
        return lying
    first, second, last = lying.slots[0], lying.slots[1], lying.slots[-1]
    along = len(lying.slots) - 1
    down = second.y > first.y
    step = second.y - first.y if down else second.x - first.x
    reach = last.y - first.y if down else last.x - first.x
    if abs(reach - along * step) > 1e-6:
        return lying  # more than one fan
    room = (height if down else width) - 10 * unit
    units = min(10, int((room / along + 1e-9) / unit))
    return _fans(len(lying.slots), unit, 1, down=down, step=units * unit) if units > 1 else lying


def _lying(way: Way, slots: list[Rect], untidy: int) -> Lying:
    right, bottom = max(s.right for s in slots), max(s.bottom for s in slots)
    return Lying(way, tuple(slots), right, bottom, untidy)


def _ones(count: int, unit: float) -> Lying:
    slots = [
        Rect(i % ROW_OF_ONES * unit, i // ROW_OF_ONES * unit, unit, unit) for i in range(count)
    ]
    rows = -(-count // ROW_OF_ONES)
    return Lying("rows of five", tuple(slots), ROW_OF_ONES * unit, rows * unit, 0)


def _tens(count: int, unit: float, tens: Tens) -> list[Lying]:
    lengths = {-(-count // rows) for rows in range(1, count + 1)} | ({10} if count > 10 else set())
    return [_rows_of_tens(count, unit, tens, each) for each in sorted(lengths, reverse=True)]


def _rows_of_tens(count: int, unit: float, tens: Tens, each: int) -> Lying:
    apart = 10 * unit + FINGER
    slots = []
    for i in range(count):
        row, along = divmod(i, each)
        if tens == "upright":
            slots.append(Rect(along * unit, row * apart, unit, 10 * unit))
        else:
            slots.append(Rect(row * apart, along * unit, 10 * unit, unit))
    rows = -(-count // each)
    odd = 0 if each in (10, count) else 1
    return _lying(tens, slots, 3 * (rows - 1) + odd + (tens == "flat"))


def _hundreds(count: int, unit: float) -> list[Lying]:
    found = []
    for rows in range(1, count + 1):
        each = -(-count // rows)
        slots = [
            Rect(i % each * 10 * unit, i // each * 10 * unit, 10 * unit, 10 * unit)
            for i in range(count)
        ]
        found.append(_lying("side by side", slots, 0))
    if count > 1:
        for fans in range(1, count):
            found += [_fans(count, unit, fans, down=down, step=unit) for down in (True, False)]
            if fans > 1:
                found += [
                    _fans(count, unit, fans, down=down, step=unit, along=True)
                    for down in (True, False)
                ]
    return found


def _fans(
    count: int, unit: float, fans: int, *, down: bool, step: float, along: bool = False
) -> Lying:
    """``along``: fans follow each other the way they open, else they lie beside each other."""
    each = -(-count // fans)
    beside = 10 * unit + FINGER
    after = beside + (each - 1) * step
    slots = []
    for i in range(count):
        fan, n = divmod(i, each)
        x, y = (fan * beside, n * step) if not along else (0.0, fan * after + n * step)
        slots.append(Rect(x, y, 10 * unit, 10 * unit) if down else Rect(y, x, 10 * unit, 10 * unit))
    way: Way = "fan" if each > 1 and step < 10 * unit else "side by side"
    return _lying(way, slots, 1 + fans if way == "fan" else 0)
