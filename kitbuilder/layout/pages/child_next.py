"""The next sums of one child: those that decide what the mistake is, and those to practise."""

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
"""Sums in a row where those that decide stand in a row of their own."""

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
    count = THREE if grows else len(sums)
    each = _each(width, count)
    beside = _beside(said, len(telling) * (each + GUTTER), style)
    apart = grows > 0 or not beside.width or _digits(sums, each, most) < sets.least.size
    if apart and not grows:  # as many in a row as can be read
        counts = (n for n in (len(practice), THREE) if n)
        fits = (n for n in counts if _digits(sums, _each(width, n), most) >= sets.least.size)
        count = next(fits, THREE)
        each = _each(width, count)
    size = _digits(sums, each, most)
    laid = said.key in OF_DECIMALS  # by the child, who may lay it out as before
    longest = max(wide(str(s), Setting(size, size)) for s in sums)
    inside = size * min(1.0, (each - 4) / longest)
    digits = [_in_line(s, inside, size) if laid else _in_columns(s, size) for s in sums]
    free = (20 if grows > SMALL else 10) + more
    decides = [_box(one, each, free) for one in digits[: len(telling)]]
    tick = _TICK * growth(style.look)
    practised = [_box(one, each, free, tick) for one in digits[len(telling) :]]
    left = beside.width
    titled, told = _titled(said, width if apart else width - left, style)
    end = lines(told, sets.text, width)
    if apart:
        first = [line(said.telling, sets.heading), row(decides, GUTTER)] if decides else []
        rows = [row(practised[k : k + count], GUTTER) for k in range(0, len(practised), count)]
        return stack((*first, titled, *rows, end), GUTTER if grows > SMALL else 2.0)
    high = max(beside.height, titled.height)
    items = (*beside.at(0, high - beside.height), *titled.at(left, high - titled.height))
    titled = Block(items, width, high)
    return stack((titled, row([*decides, *practised], GUTTER), end), 2.0)


def _each(width: float, count: int) -> float:
    """Return how wide each of ``count`` frames in a row is, in mm."""
    return (width - GUTTER * (count - 1)) / count


def _beside(said: ChildWords, width: float, style: Style) -> Block:
    """Return the title of the sums that decide, ``width`` mm wide; nothing where it has no room."""
    heading, text = settings(style.look).heading, settings(style.look).text
    least = max(0.6 * heading.size, text.size)
    room, longest = width - GUTTER, max(said.telling.split(), key=len)
    if wide(longest, heading.sized(least)) > room:
        return EMPTY
    return fitted(said.telling, heading, room, least).as_wide(width)


def _titled(said: ChildWords, width: float, style: Style) -> tuple[Block, str]:
    """Return the title of the practice, and what is told at its end.

    When to tick a box stands beside the title; where there is no room for it, at the end.
    """
    sets = settings(style.look)
    title, note = line(said.next, sets.heading), line(said.tick, sets.least)
    if title.width + 4 + note.width > width:
        return title, f"{said.tick} {said.end}"
    items = (*title.items, *note.at(width - note.width, title.height - note.height))
    return Block(items, width, title.height), said.end


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
