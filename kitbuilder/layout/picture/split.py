"""A number's pieces at rest, drawn small: thousands and hundreds, then tens, then ones."""

from functools import lru_cache

from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.block import EMPTY, Block
from kitbuilder.layout.parts.contents import SmallPieces
from kitbuilder.layout.picture.piles import extent, spots
from kitbuilder.number import Pieces

APART = 2.0
"""Space between places, in units."""

_BESIDE = 0.6
# Space in units between hundreds that lie side by side.


@lru_cache(4096)
def split_size(pieces: Pieces, *, piled: bool) -> tuple[float, float]:
    """Return the width and height of the picture of ``pieces`` in units; piled hundreds or free."""
    found = _places(pieces, piled=piled)
    across = sum(width for _, width, _ in found) + APART * max(0, len(found) - 1)
    return across, max((height for _, _, height in found), default=0.0)


def _places(pieces: Pieces, *, piled: bool) -> list[tuple[tuple[Rect, ...], float, float]]:
    """Return each place's pieces from a top left of their own, with width and height, in units."""
    found = []
    for place in (3, 2, 1, 0):
        count = pieces.counts[place]
        if not count:
            continue
        if place == 2 and not piled:
            rects = tuple(Rect(k * (10 + _BESIDE), 0, 10, 10) for k in range(count))
            found.append((rects, count * (10 + _BESIDE) - _BESIDE, 10.0))
        else:
            rects = spots(place, count, under=False)
            found.append((rects, *extent(place, count, under=False)))
    return found


def split_unit(pieces: Pieces, width: float, height: float, most: float) -> float:
    """Return how wide a one can be drawn, in mm, so that ``pieces`` fit ``width`` by ``height``."""
    if not pieces.value:
        return most
    sizes = (split_size(pieces, piled=piled) for piled in (False, True))
    return max(min(most, width / across, height / down) for across, down in sizes)


def split_high(pieces: Pieces, width: float, unit: float) -> float:
    """Return how high in mm the picture of ``pieces`` is at ``unit`` mm."""
    return split_size(pieces, piled=_is_piled(pieces, width, unit))[1] * unit


def _is_piled(pieces: Pieces, width: float, unit: float) -> bool:
    return split_size(pieces, piled=False)[0] * unit > width + 1e-6


def split(pieces: Pieces, width: float, height: float, unit: float) -> Block:
    """Return the picture of ``pieces`` at ``unit`` mm; hundreds lie free where there is room."""
    if not pieces.value:
        return EMPTY
    piled = _is_piled(pieces, width, unit)
    across, down = split_size(pieces, piled=piled)
    if across * unit > width + 1e-6 or down * unit > height + 1e-6:
        raise ValueError(f"{pieces} at {unit} mm do not fit {width} by {height} mm")
    items, x = [], 0.0
    for rects, wide, high in _places(pieces, piled=piled):
        placed = tuple(rect.scaled(unit) for rect in rects)
        box = Rect(x * unit, 0, wide * unit, high * unit)
        items.append(Item("small_pieces", box, SmallPieces(placed, unit)))
        x += wide + APART
    return Block(tuple(items), across * unit, down * unit)
