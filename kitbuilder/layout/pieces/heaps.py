"""Small pictures of so many pieces of one kind, as large as their room allows."""

from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.block import Block
from kitbuilder.layout.parts.contents import SmallPieces
from kitbuilder.layout.parts.piles import spots

MOST = {"thousands": 9, "hundreds": 9, "tens": 20, "ones": 40}
"""No more pieces than these are drawn; a number tells how many there are."""

LEAST = 0.9
"""No one is drawn narrower than this, in mm."""

_Places = tuple[tuple[Rect, ...], float, float]
"""Places of pieces in units, and the width and height that they take."""


def heap(what: str, count: int, width: float, height: float, largest: float = 3.0) -> Block:
    """Return ``count`` pieces in at most ``width`` by ``height`` mm, a one ``largest`` mm wide."""
    kind = what.removeprefix("folded_")
    ways = {"thousands": _stack, "hundreds": _pile, "tens": _bars, "ones": _squares}[kind](
        min(count, MOST[kind])
    )
    fits = [
        (min(largest, width / wide, height / high), places, wide, high)
        for places, wide, high in ways
    ]
    unit, places, wide, high = max(fits, key=lambda fit: fit[0])
    unit = max(unit, LEAST)
    rects = tuple(Rect(r.x * unit, r.y * unit, r.width * unit, r.height * unit) for r in places)
    room = Rect(0, 0, wide * unit, high * unit)
    return Block((Item("pieces", room, SmallPieces(rects, unit)),), room.width, room.height)


def _pile(count: int) -> list[_Places]:
    """Return hundreds that lie half a unit to the right and down from each other."""
    side = 10 + 0.5 * (count - 1)
    return [(tuple(Rect(0.5 * k, 0.5 * k, 10, 10) for k in range(count)), side, side)]


def _stack(count: int) -> list[_Places]:
    """Return folded thousands, one on the other."""
    places = spots(3, count, under=True)
    return [(places, max(r.right for r in places), max(r.bottom for r in places))]


def _bars(count: int) -> list[_Places]:
    """Return standing tens, in one row or in two."""
    found: list[_Places] = []
    for each in {count, -(-count // 2)} if count > 10 else {count}:
        places = tuple(
            Rect(1.56 * (k % each) + 0.5 * (k % each // 5), 11.2 * (k // each), 1, 10)
            for k in range(count)
        )
        found.append((places, max(r.right for r in places), max(r.bottom for r in places)))
    return found


def _squares(count: int) -> list[_Places]:
    """Return ones in rows of five, one to four rows side by side."""
    found: list[_Places] = []
    for fives in (1, 2, 3, 4):
        places = tuple(
            Rect(
                1.28 * (k % (5 * fives)) + 0.5 * (k % (5 * fives) // 5),
                1.28 * (k // (5 * fives)),
                1,
                1,
            )
            for k in range(count)
        )
        found.append((places, max(r.right for r in places), max(r.bottom for r in places)))
    return found
