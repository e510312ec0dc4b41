"""The next sums of one child: those that decide what the mistake is, and those to practise."""

from collections.abc import Sequence

from kitbuilder.design.style import Style
from kitbuilder.kit.child_words import ChildWords
from kitbuilder.kit.class_marks import ChildMarks
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.block import EMPTY, Block, row, stack
from kitbuilder.layout.parts.child_sum import written
from kitbuilder.layout.parts.contents import Panel
from kitbuilder.layout.parts.settings import Setting, growth, settings
from kitbuilder.layout.parts.sheet_area import GUTTER
from kitbuilder.layout.parts.words import fitted, line, lines, wide
from kitbuilder.number import Sum
from kitbuilder.number.mistakes.decimal import OF_DECIMALS

THREE = 3
"""Sums in a row where no more can be read, or there is room for larger ones."""

SMALL = 0.6
"""Up to so much the frames of the next sums have less room to write too."""

_TICK = 3.2
# The side of a box to tick in mm, in the usual look.

GROWN = (1.6, 1.2, 0.8, 0.65, 0.56)
"""How much larger the digits of the next sums are on a page of their own, as room allows."""


def next_sums(
    child: ChildMarks, said: ChildWords, width: float, style: Style, grows: float, more: float = 0.0
) -> Block:
    """Return the next sums in frames with room to write: those that decide, then the practice.

    They stand in one row if they can be read there; where there is room three in a row, their
    digits grown ``grows`` times, or each row ``more`` mm higher, for the marks of an exchange and
    the answer. Each to practise has a box to tick: pieces show those, the others are on paper.
    """
    telling, practice = child.next.telling, child.next.practice
    if not practice and not telling:
        return EMPTY
    sets = settings(style.look)
    sums = (*telling, *practice)
    most = (grows or 0.75) * sets.child.size
    counts = () if grows else (len(sums), len(practice))
    readable = (n for n in counts if n and _digits(sums, _each(width, n), most) >= sets.least.size)
    count = next(readable, THREE)
    each = _each(width, count)
    free = (20 if grows > SMALL else 10) + more
    digits = _written(sums, each, _digits(sums, each, most), laid=said.key in OF_DECIMALS)
    decides = [_box(one, each, free) for one in digits[: len(telling)]]
    tick = _TICK * growth(style.look)
    boxes = [_box(one, each, free, tick) for one in digits[len(telling) :]]
    left, first = len(telling) * (each + GUTTER), []
    if telling and not ((grows or count == len(sums)) and _beside(said, left, width, style)):
        first = [line(said.telling, sets.heading), row(decides, GUTTER)]
        left = 0.0
    else:
        boxes = [*decides, *boxes]
    titled, told = _titled(said, left, width, style)
    rows = [row(boxes[k : k + count], GUTTER) for k in range(0, len(boxes), count)]
    blocks = (*first, titled, *rows, lines(told, sets.text, width))
    return stack(blocks, GUTTER if grows > SMALL else 2.0)


def _written(sums: Sequence[Sum], each: float, size: float, *, laid: bool) -> list[Block]:
    """Return ``sums`` in digits of a ``size`` in columns, or in a line for a child to be ``laid``.

    A line is no wider than ``each`` frame.
    """
    if not laid:
        return [_in_columns(s, size) for s in sums]
    longest = max(wide(str(s), Setting(size, size)) for s in sums)
    return [_in_line(s, size * min(1.0, (each - 4) / longest), size) for s in sums]


def _each(width: float, count: int) -> float:
    """Return how wide each of ``count`` frames in a row is, in mm."""
    return (width - GUTTER * (count - 1)) / count


def _beside(said: ChildWords, left: float, width: float, style: Style) -> bool:
    """Say whether the titles have room beside each other, that of those that decide at the left."""
    least = settings(style.look).heading.sized(_least(style))
    rooms = ((said.telling, left - GUTTER), (said.next, width - left))
    return all(wide(word, least) <= room for title, room in rooms for word in title.split())


def _least(style: Style) -> float:
    """Return the least size of a title in mm."""
    sets = settings(style.look)
    return max(0.6 * sets.heading.size, sets.text.size)


def _titled(said: ChildWords, left: float, width: float, style: Style) -> tuple[Block, str]:
    """Return the title of the practice, and what is told at its end.

    The sums that decide have theirs ``left`` of it, if any. Notes stand beside the title; those
    for which there is no room, at the end.
    """
    sets, least = settings(style.look), _least(style)
    free = width - left - wide(said.next, sets.heading) - 4
    every = range(len(said.notes))
    fits = (k for k in every if wide(" ".join(said.notes[k:]), sets.least) <= free)
    first = next(fits, len(said.notes))
    blocks = [(left, fitted(said.next, sets.heading, width - left, least))]
    if left:
        blocks.append((0.0, fitted(said.telling, sets.heading, left - GUTTER, least)))
    if note := " ".join(said.notes[first:]):
        beside = line(note, sets.least)
        blocks.append((width - beside.width, beside))
    high = max(block.height for _, block in blocks)
    items = [item for x, block in blocks for item in block.at(x, high - block.height)]
    return Block(tuple(items), width, high), " ".join((*said.notes[:first], said.end))


def _digits(sums: tuple[Sum, ...], each: float, most: float) -> float:
    """Return the size of digits with which every sum fits a frame ``each`` wide."""
    places = max(sum_.places for sum_ in sums)
    return min(most, (each - 4) / (places + 1) / 0.98)


def _in_columns(sum_: Sum, size: float) -> Block:
    return written(sum_, Setting(size, 1.2 * size))


def _in_line(sum_: Sum, size: float, columns: float) -> Block:
    """Return ``sum_`` in a line, over as much room as columns of digits of that size take."""
    said = line(str(sum_), Setting(size, 1.2 * columns))
    return Block(said.items, said.width, _in_columns(sum_, columns).height)


def _box(digits: Block, each: float, free: float, tick: float = 0.0) -> Block:
    """Return ``digits`` in a frame, with a box to ``tick`` so many mm wide, if any."""
    high = digits.height + free
    items = [Item("panel", Rect(0, 0, each, high), Panel("none", "zone", 2.2))]
    if tick:
        at = Rect(2.4, high - 2.4 - tick, tick, tick)
        items.append(Item("tick_box", at, Panel(line="write", radius=0.6)))
    items += digits.at((each - digits.width) / 2, 2 + max(0.0, free - 20) / 2)
    return Block(tuple(items), each, high)
