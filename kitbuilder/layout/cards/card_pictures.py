"""Turns counts of pieces into small pictures of them: rectangles of whole units, to scale."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from kitbuilder.layout.model import Item, Rect
from kitbuilder.number import Pieces

GAP = 0.5
"""Space between single pieces in a picture, in units."""

APART = 2.5
"""Space between places in a picture, in units."""

DEPTH = 3
"""How far a thousand's back stands right of and above its front, in units."""

STEP = 0.05
"""Units of pictures are whole steps of so many mm: many cards then share one picture."""

ROWS = (1, 2, 3)
"""Rows in which a picture may lay its thousands and its hundreds."""

Cell = tuple[float, float, int, int]


@dataclass(frozen=True, slots=True)
class Picture:
    """Pieces to draw small: rectangles in mm from the item's top left, and the unit in mm.

    ``cubes`` are the fronts of thousands, whose depth is drawn behind them.
    """

    rects: tuple[Rect, ...]
    cubes: tuple[Rect, ...]
    unit: float


def pictures(
    shown: Sequence[Pieces], areas: Sequence[Rect], most: float, least: float
) -> tuple[Item, ...] | None:
    """Return one picture in each of ``areas``, all at the same unit, or None if too small.

    The unit is the largest in whole steps that fits every area, at most ``most`` mm; below
    ``least`` mm nothing can be seen. Thousands and hundreds lie in up to three rows, tens side
    by side, ones in rows of five. Nothing is drawn for no pieces.
    """
    unit = min(
        (_unit(pieces, area) for pieces, area in zip(shown, areas, strict=True) if pieces.value),
        default=most,
    )
    unit = STEP * int(min(most, unit) / STEP + 1e-6)
    if unit < least:
        return None
    return tuple(
        Item("picture", area, _picture(pieces, area, unit))
        for pieces, area in zip(shown, areas, strict=True)
        if pieces.value
    )


def _unit(pieces: Pieces, area: Rect) -> float:
    sizes = (_size(pieces, rows) for rows in ROWS)
    return max(min(area.width / across, area.height / down) for across, down in sizes)


def _picture(pieces: Pieces, area: Rect, unit: float) -> Picture:
    for rows in ROWS:
        across, down = _size(pieces, rows)
        if across * unit <= area.width + 1e-6 and down * unit <= area.height + 1e-6:
            placed = [
                Rect(x * unit, y * unit, w * unit, h * unit) for x, y, w, h in _cells(pieces, rows)
            ]
            cubes = pieces.thousands
            return Picture(tuple(placed[cubes:]), tuple(placed[:cubes]), unit)
    raise ValueError(f"{pieces} at {unit} mm do not fit {area}")


def _size(pieces: Pieces, rows: int) -> tuple[float, float]:
    depth = DEPTH if pieces.thousands else 0
    cells = list(_cells(pieces, rows))
    return max(x + w for x, _, w, _ in cells) + depth, max(y + h for _, y, _, h in cells)


def _cells(pieces: Pieces, rows: int) -> Iterator[Cell]:
    """Yield each piece's x, y, width and height in units, from the picture's top left.

    Thousands come first, their fronts alone.
    """
    top = DEPTH if pieces.thousands else 0
    left = 0.0
    for count, step in ((pieces.thousands, 10 + DEPTH + GAP), (pieces.hundreds, 10 + GAP)):
        each = -(-count // rows) or 1
        for i in range(count):
            yield left + (i % each) * step, top + (i // each) * step, 10, 10
        if count:
            left += min(each, count) * step - GAP + APART
    for i in range(pieces.tens):
        yield left + i * (1 + GAP), top, 1, 10
    if pieces.tens:
        left += pieces.tens * (1 + GAP) - GAP + APART
    for i in range(pieces.ones):
        yield left + (i % 5) * (1 + GAP), top + (i // 5) * (1 + GAP), 1, 1
