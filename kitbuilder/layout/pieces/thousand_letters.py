"""Letters beside the lines of a sheet of thousands, in the order in which they are cut."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import product

from kitbuilder.layout.cutting.cut_marks import CUT_MARK, GAP, LETTER, SIZE, CutMark, around
from kitbuilder.layout.model import Cut, Item, Rect, Sheet

_STEP = 2.0
"""How far on a letter is tried next along its line, in mm."""

_CLEAR, _LEAST_CLEAR = 0.7, 0.1
"""Space about a letter and its scissors, in mm, and where there is less; never so much as
to their own line."""


def with_letters(sheet: Sheet, inside: Rect, least: float) -> Sheet:
    """Return a ``sheet`` of thousands with a letter and scissors beside each line that is cut.

    They keep within ``inside``, off thousands, bands and words; where waste has no room for a
    letter, ``least`` mm high, its line has none.
    """
    taken = [item.rect for item in sheet.items if item.what != "thousands"]
    marks: list[CutMark] = []
    down_first = sorted(enumerate(sheet.cuts), key=lambda pair: pair[1].x1 != pair[1].x2)
    for index, cut in down_first:
        letter, size = chr(ord("A") + index), least / LETTER
        tries = product((_CLEAR, _LEAST_CLEAR), (max(SIZE, size), size))
        free = (
            way
            for clear, side in tries
            for way in _ways(letter, cut, inside, side)
            if _free(way, inside, taken, clear)
        )
        mark = next(free, None)
        if mark:
            marks.append(mark)
            taken.append(_hull(mark))
    marks.sort(key=lambda mark: mark.letter)
    items = tuple(Item(CUT_MARK, _hull(mark), mark) for mark in marks)
    return replace(sheet, items=sheet.items + items)


def strip(least: float) -> float:
    """Return how wide waste is that holds a letter beside a line, in mm."""
    return least / LETTER + 2 * GAP


def _hull(mark: CutMark) -> Rect:
    return around((mark.disc, mark.scissors))


def _free(mark: CutMark, inside: Rect, taken: Sequence[Rect], clear: float) -> bool:
    hull = _hull(mark)
    return inside.holds(hull, 0.01) and not any(hull.overlaps(r.inset(-clear)) for r in taken)


def _ways(letter: str, cut: Cut, inside: Rect, size: float) -> Iterator[CutMark]:
    """Yield places beside ``cut``: over its upper end or down along it, or from the right."""
    if cut.x1 == cut.x2:
        y = min(cut.y1, cut.y2) - GAP - size
        sides = ((cut.x1 + GAP, size + GAP), (cut.x1 - GAP - size, -size - GAP))
        for at, far in sides:
            yield CutMark(letter, Rect(at + far, y, size, size), Rect(at, y, size, size), 1)
        y = min(cut.y1, cut.y2) + GAP
        while y < max(cut.y1, cut.y2):
            for at, _ in sides:
                below = Rect(at, y + size + GAP, size, size)
                yield CutMark(letter, below, Rect(at, y, size, size), 1)
            y += _STEP
        return
    x = inside.right - size
    while x - size - GAP >= inside.x:
        for y in (cut.y1 + GAP, cut.y1 - GAP - size):
            near = Rect(x - size - GAP, y, size, size)
            yield CutMark(letter, Rect(x, y, size, size), near, 2)
        x -= _STEP
