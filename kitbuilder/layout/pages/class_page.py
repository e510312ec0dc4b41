"""The pages of a class: whom to teach together, then the grid of children by sums."""

from collections.abc import Iterator
from dataclasses import replace

from kitbuilder.design.style import Style
from kitbuilder.kit.class_marks import ClassMarks
from kitbuilder.layout.model import Rect, Sheet, SheetKind
from kitbuilder.layout.pages.class_grid import Measures, grid, legend
from kitbuilder.layout.pages.class_groups import close_groups, framed_groups
from kitbuilder.layout.parts.block import Block, stack
from kitbuilder.layout.parts.furniture import Heading, header, paper_sheets, rule
from kitbuilder.layout.parts.settings import Setting, settings
from kitbuilder.layout.parts.sheet_area import SheetArea
from kitbuilder.layout.parts.words import line

_GAP, _CLOSE_GAP = 4.0, 2.2
_LARGER = (1.35, 1.3, 1.25, 1.2, 1.15, 1.1, 1.05)
# How much higher the rows become where the pages have room.
_LOW = 0.82
# The least height of a row beside its usual one, where groups are framed.
_CLOSE = 0.95
# The least height of a row beside a line of its words, on a close page.
_SMALL = 0.66
# The least height of a row beside its usual one, on a page of its own.
_NOTES, _LINE = 30.0, 9.0
# The least room for notes, and from one line of them to the next, in mm.


def class_sheets(marks: ClassMarks, first: int, style: Style) -> tuple[Sheet, ...]:
    """Return the pages of the class, the first numbered ``first`` among those of its kind."""
    area = SheetArea.upright(style.paper)
    words = style.words
    note = words("class_page.note", children=len(marks.children), sums=len(marks.sums))
    heading = Heading("left", words("class_page.title"), ("adult",), note)
    items, top = header(heading, area, style)
    body = area.body(top)
    one = _one_page(marks, body, style)
    pages = [one] if one else _pages(marks, body, style)
    placed = [page.at(body.x, body.y) for page in pages]
    return paper_sheets(SheetKind.MARKS, items, placed, area, style, first)


def _one_page(marks: ClassMarks, body: Rect, style: Style) -> Block | None:
    """Return the whole class on one page, closer set the larger it is; None where it has no room.

    A teacher has whom to teach together and the whole grid in one look.
    """
    sets = settings(style.look)
    width = body.width
    framed = [*framed_groups(marks, width, style)]
    found = _filled(framed, marks, body, (sets.text, _GAP), style)
    if found is not None:
        return found
    for text in (sets.text, sets.text.sized(style.look.type_mm.least)):
        close = [*close_groups(marks, width, text, style)]
        found = _filled(close, marks, body, (text, _CLOSE_GAP), style)
        if found is not None:
            return found
    return None


def _filled(
    above: list[Block], marks: ClassMarks, body: Rect, set_: tuple[Setting, float], style: Style
) -> Block | None:
    """Return ``above``, the legend and the grid, whose rows take the height that is left.

    ``set_`` is how the grid is set, and the gap between its parts.
    """
    text, gap = set_
    sizes = Measures.of(marks, body.width, text, style)
    if sizes.count(body.width) < len(marks.sums):
        return None
    if gap < _GAP:
        sizes = replace(sizes, head=3 * text.lead + 1.0)
    means = legend(marks, body.width, text, style)
    used = sum(block.height + gap for block in (*above, means))
    high = (body.height - used - sizes.head - 0.4) / len(marks.children)
    if high < (_LOW * sizes.row if gap == _GAP else _CLOSE * text.lead):
        return None
    sizes = replace(sizes, row=min(high, _LARGER[0] * sizes.row))
    part = grid(marks.children, marks.sums, sizes, body.width, style, coded=marks.coded)
    return stack((*above, means, part), gap)


def _pages(marks: ClassMarks, body: Rect, style: Style) -> list[Block]:
    """Return the groups and the grid on as many pages as they take."""
    pages: list[list[Block]] = [[]]
    high = 0.0
    for block in _blocks(marks, body, style):
        if high and high + block.height > body.height:
            pages.append([])
            high = 0.0
        pages[-1].append(block)
        high += block.height + _GAP
    room = body.height - sum(block.height + _GAP for block in pages[0])
    if len(pages) > 1 and room > _NOTES:
        pages[0].append(_notes(room, body.width, style))
    return [stack(page, _GAP) for page in pages]


def _notes(room: float, width: float, style: Style) -> Block:
    """Return lines ``room`` mm high for what is seen with the pieces."""
    title = line(style.words("class_page.notes"), settings(style.look).heading)
    count = int((room - title.height) / _LINE)
    gap = Block((), width, (room - title.height) / count)
    return stack((title, *(part for _ in range(count - 1) for part in (gap, rule(width)))))


def _blocks(marks: ClassMarks, body: Rect, style: Style) -> Iterator[Block]:
    """Yield whom to teach together, which is read first, then the grid below or on new pages."""
    used = 0.0
    for block in framed_groups(marks, body.width, style):
        if used and used + block.height > body.height:
            used = 0.0
        used += block.height + _GAP
        yield block
    yield from _grids(marks, body, used, style)


def _grids(marks: ClassMarks, body: Rect, used: float, style: Style) -> Iterator[Block]:
    """Yield the grid in parts that a page holds: the first under what is ``used``, then full."""
    text = settings(style.look).text
    sizes = Measures.of(marks, body.width, text, style)
    means = legend(marks, body.width, text, style)
    over = means.height + _GAP + sizes.head
    full = body.height - sizes.head - 0.4
    first = body.height - used - over - 0.4
    if first < len(marks.children) * _SMALL * sizes.row:  # the grid on a page of its own
        first = body.height - over - 0.4
    across = sizes.count(body.width)
    if across >= len(marks.sums):
        sizes = replace(sizes, row=_row_height(len(marks.children), first, full, sizes.row))
    for start in range(0, len(marks.sums), across):
        sums = marks.sums[start : start + across]
        at = 0
        while at < len(marks.children):
            opens = not start and not at
            room = max(1, int((first if opens else full) / sizes.row))
            some = marks.children[at : at + room]
            part = grid(some, sums, sizes, body.width, style, coded=marks.coded)
            yield stack((means, part), _GAP) if opens else part
            at += room


def _row_height(count: int, first: float, full: float, least: float) -> float:
    """Return the height of ``count`` rows: the largest on as few pages as ``least`` takes."""
    if _SMALL * least <= first / count < least:
        return first / count - 1e-6
    below = count - int(first / least)
    more = -(-below // max(1, int(full / least))) if below > 0 else 0
    for larger in _LARGER:
        high = larger * least
        if int(first / high) + more * int(full / high) >= count:
            return high
    return least
