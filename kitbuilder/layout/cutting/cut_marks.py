"""Letters and scissors beside the lines of a sheet of pieces that are cut first."""

from collections.abc import Iterator, Sequence

from kitbuilder.frozen import frozen
from kitbuilder.layout.model import Cut, Item, Rect, Sheet
from kitbuilder.layout.packing.scissors_columns import Step
from kitbuilder.layout.parts.block import Block, row
from kitbuilder.layout.parts.contents import Rule
from kitbuilder.layout.parts.furniture import pictogram

CUT_MARK = "cut_mark"
"""What a mark is called among the items of a sheet."""

SIZE = 5.4
"""Side of the scissors and of the letter's disc, mm."""

LETTER = 0.74
"""Size of the letter, as part of its disc."""

GAP = 0.8
"""Space between scissors, letter and line, mm."""


@frozen
class CutMark:
    """A ``letter`` in a disc, and scissors turned by ``quarters`` from cutting to the right.

    Both rectangles are squares, in mm from the page's top left.
    """

    letter: str
    disc: Rect
    scissors: Rect
    quarters: int


def lettered_cuts(sheet: Sheet) -> list[tuple[str, Cut]]:
    """Return the cuts of ``sheet`` that are made first, each with its letter, in order."""
    both = zip(sheet.stops, sheet.cuts, strict=True)
    first = [(stop, cut) for stop, cut in both if stop in (Step.FOOT, Step.LENGTHWAYS)]
    first.sort(key=lambda pair: (pair[0], pair[1].x1, pair[1].y1))
    return [(chr(ord("A") + index), cut) for index, (_, cut) in enumerate(first)]


def with_cut_marks(sheet: Sheet, inside: Rect, least: float) -> Sheet:
    """Return ``sheet`` with its letters, within the printable ``inside``, off the pieces.

    A line beside which there is no room for a letter, ``least`` mm high, has none. Where it can
    be, no other line is nearer to a letter than its own.
    """
    marks: list[CutMark] = []
    first = lettered_cuts(sheet)
    for letter, cut in reversed(first):
        ways = _ways(letter, cut, sheet, inside, least / LETTER)
        free = [way for way in ways if not any(_meet(way, mark) for mark in marks)]
        nearest = (way for way in free if _nearest(way, first) == cut)
        mark = next(nearest, free[0] if free else None)
        marks += [mark] if mark else []
    return sheet.with_items(
        Item(CUT_MARK, around((m.disc, m.scissors)), m) for m in reversed(marks)
    )


def _ways(letter: str, cut: Cut, sheet: Sheet, inside: Rect, least: float) -> Iterator[CutMark]:
    """Yield where a mark may stand beside the start of ``cut``, its disc ``least`` mm wide.

    It is reckoned as if the columns stood: where they lie, x and y are exchanged.
    """
    foot = dict(zip(sheet.cuts, sheet.stops, strict=True))[cut] == Step.FOOT
    lying = foot == (cut.x1 == cut.x2)
    pieces = _turned(around([item.rect for item in sheet.items]), lying)
    page = _turned(inside, lying)
    at = cut.x1 if cut.x1 == cut.x2 else cut.y1
    room = (page.bottom - at if foot else pieces.y - page.y) - GAP
    size = min(max(SIZE, least), room)
    if size < least - 0.001:
        return
    if foot:
        y, quarters = at + GAP, 3 if lying else 2
        spots = [(page.right - size, page.right - 2 * size - GAP)]
    else:
        y, quarters = pieces.y - GAP - size, 0 if lying else 1
        spots = [(at + size + 2 * GAP, at + GAP), (at - 2 * (size + GAP), at - GAP - size)]
    for both in spots:
        if min(both) >= page.x and max(both) + size <= page.right:
            disc, scissors = (_turned(Rect(x, y, size, size), lying) for x in both)
            yield CutMark(letter, disc, scissors, quarters)


def _nearest(mark: CutMark, first: Sequence[tuple[str, Cut]]) -> Cut:
    """Return the cut of ``first`` nearest to a letter, of those across or those down."""
    x, y = mark.disc.x + mark.disc.width / 2, mark.disc.y + mark.disc.height / 2
    down = mark.quarters % 2 == 1
    alike = [cut for _, cut in first if (cut.x1 == cut.x2) == down]
    return min(alike, key=lambda cut: abs(cut.x1 - x) if down else abs(cut.y1 - y))


def _meet(one: CutMark, other: CutMark) -> bool:
    return around((one.disc, one.scissors)).overlaps(around((other.disc, other.scissors)))


def _turned(rect: Rect, lying: bool) -> Rect:
    """Return ``rect`` with x and y exchanged, if it is ``lying``."""
    return Rect(rect.y, rect.x, rect.height, rect.width) if lying else rect


def around(rects: Sequence[Rect]) -> Rect:
    """Return the least rectangle that holds ``rects``."""
    x, y = min(r.x for r in rects), min(r.y for r in rects)
    return Rect(x, y, max(r.right for r in rects) - x, max(r.bottom for r in rects) - y)


def line_signs(high: float, gap: float, never: float) -> tuple[Block, Block]:
    """Return a line to cut, scissors before it, and one with a sign on it, never to be cut."""
    dark, grey = (
        Block((Item("rule", Rect(0, high / 2, 12, 0.01), Rule(name)),), 12, high)
        for name in ("slit", "divider")
    )
    sign = pictogram("never", never).at((12 - never) / 2, (high - never) / 2)
    return row((pictogram("scissors", high), dark), gap), grey.over(Block(sign, 12, high))
