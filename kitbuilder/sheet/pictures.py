"""Turns counts of pieces into small pictures of them: rectangles of whole units, to scale."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from kitbuilder.number import Pieces
from kitbuilder.sheet.records import Item, Rect

GAP = 0.5
"""Space between single pieces in a picture, in units."""

APART = 2.5
"""Space between places in a picture, in units."""

ROWS = (1, 2, 3)
"""Rows in which a picture may lay its hundreds."""


@dataclass(frozen=True, slots=True)
class Picture:
    """Pieces to draw small: rectangles in mm from the item's top left, and the unit in mm."""

    rects: tuple[Rect, ...]
    unit: float


def pictures(
    shown: Sequence[Pieces], areas: Sequence[Rect], most: float, least: float
) -> tuple[Item, ...] | None:
    """Return one picture in each of ``areas``, all at the same unit, or None if too small.

    The unit is the largest that fits every area, at most ``most`` mm; below ``least`` mm
    nothing can be seen. Hundreds lie in up to three rows, tens side by side, ones in rows of
    five. Nothing is drawn for no pieces. Thousands cannot be drawn yet: ``ValueError``.
    """
    unit = min(
        (_unit(pieces, area) for pieces, area in zip(shown, areas, strict=True) if pieces.value),
        default=most,
    )
    unit = min(most, unit)
    if unit < least:
        return None
    return tuple(
        Item("picture", area, Picture(_placed(pieces, area, unit), unit))
        for pieces, area in zip(shown, areas, strict=True)
        if pieces.value
    )


def _unit(pieces: Pieces, area: Rect) -> float:
    sizes = (_size(pieces, rows) for rows in ROWS)
    return max(min(area.width / across, area.height / down) for across, down in sizes)


def _placed(pieces: Pieces, area: Rect, unit: float) -> tuple[Rect, ...]:
    for rows in ROWS:
        across, down = _size(pieces, rows)
        if across * unit <= area.width + 1e-6 and down * unit <= area.height + 1e-6:
            return tuple(
                Rect(x * unit, y * unit, w * unit, h * unit) for x, y, w, h in _cells(pieces, rows)
            )
    raise ValueError(f"{pieces} at {unit} mm do not fit {area}")


def _size(pieces: Pieces, rows: int) -> tuple[float, float]:
    cells = list(_cells(pieces, rows))
    return max(x + w for x, _, w, _ in cells), max(y + h for _, y, _, h in cells)


def _cells(pieces: Pieces, rows: int) -> Iterator[tuple[float, float, int, int]]:
    """Yield x, y, width and height of each piece in units, from the picture's top left."""
    if pieces.thousands:
        raise ValueError(f"no picture for thousands: {pieces}")
    left = 0.0
    each = -(-pieces.hundreds // rows) or 1
    for i in range(pieces.hundreds):
        yield (i % each) * (10 + GAP), (i // each) * (10 + GAP), 10, 10
    if pieces.hundreds:
        left += min(each, pieces.hundreds) * (10 + GAP) - GAP + APART
    for i in range(pieces.tens):
        yield left + i * (1 + GAP), 0, 1, 10
    if pieces.tens:
        left += pieces.tens * (1 + GAP) - GAP + APART
    for i in range(pieces.ones):
        yield left + (i % 5) * (1 + GAP), (i // 5) * (1 + GAP), 1, 1
