"""Small pictures of so many pieces of one kind; those beside each other are of one scale."""

from collections.abc import Sequence
from functools import lru_cache

from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.block import Block
from kitbuilder.layout.parts.contents import SmallPieces
from kitbuilder.layout.picture.piles import spots

MOST = {"thousands": 9, "hundreds": 9, "tens": 20, "ones": 40}
"""No more pieces than these are drawn; a number tells how many there are."""

LEAST = 0.9
"""No one is drawn narrower than this, in mm."""

_Places = tuple[tuple[Rect, ...], float, float]
"""Places of pieces in units, and the width and height that they take."""


def heaps(
    some: Sequence[tuple[str, int]], rooms: Sequence[tuple[float, float]], largest: float = 3.0
) -> tuple[Block, ...]:
    """Return a picture for each kind and count, every one of them as wide in all.

    Each is at most as wide and high as its room in mm, a one at most ``largest`` mm wide.
    """
    if not some:
        return ()
    ways = [_ways(*one) for one in some]
    unit = min(
        max(min(largest, width / wide, height / high) for _, wide, high in found)
        for found, (width, height) in zip(ways, rooms, strict=True)
    )
    unit = max(unit, LEAST)
    return tuple(
        _drawn(_chosen(found, room, unit), unit) for found, room in zip(ways, rooms, strict=True)
    )


def heap_width(what: str, count: int, unit: float) -> float:
    """Return the width in mm of a picture of ``count`` pieces, a one ``unit`` mm wide."""
    return min(wide for _, wide, _ in _ways(what, count)) * unit


@lru_cache(256)  # every label of a class shows the same pieces
def _ways(what: str, count: int) -> list[_Places]:
    """Return the ways in which ``count`` pieces may lie."""
    kind = what.removeprefix("folded_")
    lie = {"thousands": _stack, "hundreds": _pile, "tens": _bars, "ones": _squares}[kind]
    return lie(min(count, MOST[kind]))


def _chosen(ways: Sequence[_Places], room: tuple[float, float], unit: float) -> _Places:
    """Return the first way that fits ``room``; where none does, the lowest."""
    width, height = room[0] + 1e-6, room[1] + 1e-6
    fits = (way for way in ways if way[1] * unit <= width and way[2] * unit <= height)
    return next(fits, min(ways, key=lambda way: way[2]))


def _drawn(way: _Places, unit: float) -> Block:
    places, wide, high = way
    rects = tuple(place.scaled(unit) for place in places)
    room = Rect(0, 0, wide * unit, high * unit)
    return Block((Item("pieces", room, SmallPieces(rects, unit)),), room.width, room.height)


def _pile(count: int) -> list[_Places]:
    """Return hundreds that lie half a unit to the right and down from each other."""
    side = 10 + 0.5 * (count - 1)
    return [(tuple(Rect(0.5 * k, 0.5 * k, 10, 10) for k in range(count)), side, side)]


def _stack(count: int) -> list[_Places]:
    """Return folded thousands, one on the other."""
    return [_reaching(spots(3, count, under=True))]


def _bars(count: int) -> list[_Places]:
    """Return standing tens, in one row or in two."""
    rows = (count, -(-count // 2)) if count > 10 else (count,)
    return [_in_rows(count, each, 1.56, 11.2, 10) for each in rows]


def _squares(count: int) -> list[_Places]:
    """Return ones in rows of five, one to four rows side by side."""
    return [_in_rows(count, 5 * fives, 1.28, 1.28, 1) for fives in (1, 2, 3, 4)]


def _in_rows(count: int, each: int, across: float, down: float, high: int) -> _Places:
    """Return pieces ``high`` units high, ``each`` in a row, a gap after every fifth."""
    spots = (divmod(k, each) for k in range(count))
    rects = (Rect(across * k + 0.5 * (k // 5), down * row, 1, high) for row, k in spots)
    return _reaching(tuple(rects))


def _reaching(places: tuple[Rect, ...]) -> _Places:
    return places, max(r.right for r in places), max(r.bottom for r in places)
