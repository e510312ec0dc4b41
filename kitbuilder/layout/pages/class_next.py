"""Below the grid of a small class: each child's next sums, and lines for what the pieces showed."""

from collections.abc import Sequence

from kitbuilder.design.style import Style
from kitbuilder.kit.class_marks import ChildMarks, ClassMarks
from kitbuilder.layout.model import Rect
from kitbuilder.layout.pages.class_grid_parts import GRID_GAP
from kitbuilder.layout.parts.block import EMPTY, Block, stack
from kitbuilder.layout.parts.furniture import rule, set_tick, wrapped
from kitbuilder.layout.parts.settings import Setting, settings
from kitbuilder.layout.parts.words import fitted, line, lines, parted, wide
from kitbuilder.number import Sum

SMALL = 12
"""The most children of a class whose page has each one's next sums."""

NOTES = 30.0
"""The least height in mm with room for notes."""

_LINE = 9.0
# From one line for notes to the next, in mm.
_PAD, _SPREAD = 1.2, 4.0
# Room above and below the sums of a row, and the most that spare height adds to it, in mm.
_BETWEEN, _COLUMN = 3.0, 0.34
# Between two sums of a row, in mm, and the part of the width that sums on paper take.


def next_high(marks: ClassMarks, width: float, name: float, style: Style) -> float:
    """Return how high the table of next sums is at least; 0 where a class has none.

    Only a small class has it: the children of a large one have theirs on their own pages.
    """
    children = _children(marks)
    return _next(children, width, name, 0.0, style, coded=marks.coded).height if children else 0.0


def below_grid(
    marks: ClassMarks, room: float, body: Rect, name: float, style: Style
) -> list[Block]:
    """Return what stands ``room`` mm high below the grid, and further pages like ``body``.

    Each child's next sums, then notes where there is room. ``name`` is the width of names.
    """
    left, high, found = _children(marks), room, []
    if not left:
        return [notes(room, body.width, style) if room > NOTES else EMPTY]

    def table(count: int, more: float = 0.0) -> Block:
        return _next(left[:count], body.width, name, more, style, coded=marks.coded)

    while left:
        count = sum(table(k).height <= high for k in range(1, len(left) + 1))
        count = max(count, 0 if high < body.height else 1)
        rows = table(count) if count else EMPTY
        spare = high - rows.height - GRID_GAP
        if count == len(left) and spare > NOTES:
            rows = stack((rows, notes(spare, body.width, style)), GRID_GAP)
        elif count:
            rows = table(count, max(0.0, min(_SPREAD, (high - rows.height) / count)))
        found.append(rows)
        left, high = left[count:], body.height
    return found


def _children(marks: ClassMarks) -> list[ChildMarks]:
    """Return the children with next sums of a class that is small."""
    small = len(marks.children) <= SMALL
    return [c for c in marks.children if small and (c.next.telling or c.next.practice)]


def _next(
    children: Sequence[ChildMarks],
    width: float,
    name: float,
    more: float,
    style: Style,
    *,
    coded: bool,
) -> Block:
    """Return a row a child, ``more`` mm higher than its sums: on paper, then with pieces."""
    sets, words = settings(style.look), style.words
    paper = _COLUMN * width if any(child.next.telling for child in children) else 0.0
    columns = ((name, paper), (name + paper, width - name - paper))
    heads = (words("child_page.telling"), words("child_page.next"))
    said = [
        (x, fitted(head, sets.heading, wide - 5, max(0.7 * sets.heading.size, sets.text.size)))
        for (x, wide), head in zip(columns, heads, strict=True)
        if wide
    ]
    high = max(block.height for _, block in said)
    title = Block(
        tuple(item for x, block in said for item in block.at(x, high - block.height)), width, high
    )
    rows = []
    for child in children:
        sums = (child.next.telling, child.next.practice)
        cells = [
            (x, _sums(some, wide - 2, sets.text, solved=some is child.next.telling))
            for (x, wide), some in zip(columns, sums, strict=True)
            if some
        ]
        called = parted(child.code if coded else child.name, sets.text, name - 1)
        who = lines(called, sets.text, name - 1)
        high = max(who.height, *(cell.height for _, cell in cells)) + 2 * _PAD + more
        shown = [(0.0, who), *cells]
        items = (item for x, cell in shown for item in cell.at(x, (high - cell.height) / 2))
        rows += [rule(width), Block(tuple(items), width, high)]
    first = next((sum_ for child in children for sum_ in child.next.telling), None)
    below = [words("class_page.send"), *([words("class_page.telling", sum=first)] if first else [])]
    told = lines(" ".join(below), sets.least, width)
    return stack((title, *rows, rule(width), told), 0.4)


def _sums(sums: Sequence[Sum], width: float, text: Setting, *, solved: bool) -> Block:
    """Return ``sums`` with boxes to tick, in as many lines as they need.

    Those ``solved`` have their answers, where the width takes them.
    """
    told = [f"{sum_} = {sum_.rest}" if solved else f"{sum_}" for sum_ in sums]
    if any(wide(some, text) + text.size + 1.6 > width for some in told):
        told = [f"{sum_}" for sum_ in sums]
    ticks = [set_tick(some, width, text) for some in told]
    return wrapped(ticks, width, _BETWEEN, 0.6, _BETWEEN)


def notes(room: float, width: float, style: Style) -> Block:
    """Return lines ``room`` mm high for what is seen with the pieces."""
    title = line(style.words("class_page.notes"), settings(style.look).heading)
    count = int((room - title.height) / _LINE)
    gap = Block((), width, (room - title.height) / count)
    return stack((title, *(part for _ in range(count - 1) for part in (gap, rule(width)))))
