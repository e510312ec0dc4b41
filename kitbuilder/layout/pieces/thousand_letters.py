"""Letters beside the lines of a sheet of thousands, in the order in which they are cut."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from kitbuilder.layout.model import Cut, Item, Rect, Sheet
from kitbuilder.layout.pieces.cut_marks import CUT_MARK, GAP, LETTER, SIZE, CutMark, around

_STEP = 2.0
"""How far on a letter is tried next along its line, in mm."""


def with_letters(sheet: Sheet, inside: Rect, least: float) -> Sheet:
    """Return a ``sheet`` of thousands with a letter and scissors beside each line that is cut.

    They keep within ``inside``, off thousands, bands and words; a line beside which there is no
    room for a letter, ``least`` mm high, has none.
    """
    taken = [item.rect for item in sheet.items if item.what != "thousands"]
    marks: list[CutMark] = []
    down_first = sorted(enumerate(sheet.cuts), key=lambda pair: pair[1].x1 != pair[1].x2)
    for index, cut in down_first:
        sizes = (max(SIZE, least / LETTER), least / LETTER)
        ways = (w for s in sizes for w in _ways(chr(ord("A") + index), cut, inside, s))
        free = (way for way in ways if _free(way, inside, taken))
        mark = next(free, None)
        if mark:
            marks.append(mark)
            taken.append(_hull(mark))
    marks.sort(key=lambda mark: mark.letter)
    items = tuple(Item(CUT_MARK, _hull(mark), mark) for mark in marks)
    return replace(sheet, items=sheet.items + items)


def _hull(mark: CutMark) -> Rect:
    return around((mark.disc, mark.scissors))


def _free(mark: CutMark, inside: Rect, taken: Sequence[Rect]) -> bool:
    hull = _hull(mark)
    return inside.holds(hull, 0.01) and not any(hull.overlaps(rect) for rect in taken)


def _ways(letter: str, cut: Cut, inside: Rect, size: float) -> Iterator[CutMark]:
    """Yield places beside ``cut``: over its upper end, or along it from the right."""
    if cut.x1 == cut.x2:
        y = min(cut.y1, cut.y2) - GAP - size
        for at, far in ((cut.x1 + GAP, size + GAP), (cut.x1 - GAP - size, -size - GAP)):
            yield CutMark(letter, Rect(at + far, y, size, size), Rect(at, y, size, size), 1)
        return
    x = inside.right - size
    while x - size - GAP >= inside.x:
        for y in (cut.y1 + GAP, cut.y1 - GAP - size):
            near = Rect(x - size - GAP, y, size, size)
            yield CutMark(letter, Rect(x, y, size, size), near, 2)
        x -= _STEP
