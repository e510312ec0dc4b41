"""The pages of a class: whom to teach together, then the grid of children by sums."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import product

from kitbuilder.design.style import Style
from kitbuilder.kit.class_marks import ClassMarks
from kitbuilder.layout.model import Rect, Sheet, SheetKind
from kitbuilder.layout.pages.class_grid import GridMeasures, grid, legend
from kitbuilder.layout.pages.class_grid_parts import GRID_GAP, LARGEST_ROW, grid_parts
from kitbuilder.layout.pages.class_groups import close_groups, framed_groups
from kitbuilder.layout.pages.class_next import below_grid, next_high
from kitbuilder.layout.parts.block import Block, stack
from kitbuilder.layout.parts.furniture import Heading, header, paper_sheets
from kitbuilder.layout.parts.settings import Setting, settings
from kitbuilder.layout.parts.sheet_area import SheetArea

_GAP, _CLOSE_GAP = GRID_GAP, 2.2
_MOST_SPREAD = 3.0
# The most that spare height adds between groups, in mm.
_GROWN = (36.0, 32.0, 28.0, 24.0, 20.0, 16.0, 12.0, 8.0, 4.0, 0.0)
# How much higher the frames of groups become, in mm, where their pages have room.
_LOW = 0.8
# The least height of a row beside its usual one, where groups are framed.
_CLOSE = 0.95
# The least height of a row beside a line of its words, on a close page.


def class_sheets(marks: ClassMarks, first: int, style: Style) -> tuple[Sheet, ...]:
    """Return the pages of the class, the first numbered ``first`` among those of its kind."""
    area = SheetArea.upright(style.paper)
    words = style.words
    note = words("class_page.note", children=len(marks.children), sums=len(marks.sums))
    heading = Heading("left", words("class_page.title"), ("adult",), note)
    items, top = header(heading, area, style)
    body = area.body(top)
    name = GridMeasures.of(marks, body.width, settings(style.look).text, style).name
    after = next_high(marks, body.width, name, style)
    above = Rect(body.x, body.y, body.width, max(1.0, body.height - after - _GAP))
    one = (_one_page(marks, above, style) if after else None) or _one_page(marks, body, style)
    pages = [one] if one else _pages(marks, body, style)
    below, *further = below_grid(marks, body.height - pages[-1].height - _GAP, body, name, style)
    pages = [*pages[:-1], stack((pages[-1], below), _GAP), *further]
    placed = [page.at(body.x, body.y) for page in pages]
    return paper_sheets(SheetKind.MARKS, items, placed, area, style, first)


def _one_page(marks: ClassMarks, body: Rect, style: Style) -> Block | None:
    """Return the whole class on one page, closer set the larger it is; None where it has no room.

    A teacher has whom to teach together and the whole grid in one look.
    """
    sets = settings(style.look)
    width = body.width
    for built in (True, False):
        framed = [*framed_groups(marks, width, style, built=built)]
        found = _filled(framed, marks, body, (sets.text, _GAP), style)
        if found is not None:
            return found
    texts = sets.text, sets.text.sized(style.look.type_mm.least)
    for text, built in product(texts, (True, False)):
        close = [*close_groups(marks, width, text, style, built=built)]
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
    sizes = GridMeasures.of(marks, body.width, text, style)
    if sizes.count(body.width) < len(marks.sums):
        return None
    if gap < _GAP:
        sizes = replace(sizes, head=3 * text.lead + 1.0)
    means = legend(marks, body.width, text, style)
    used = sum(block.height + gap for block in (*above, means))
    high = (body.height - used - sizes.head - 0.4) / len(marks.children)
    if high < (_LOW * sizes.row if gap == _GAP else _CLOSE * text.lead):
        return None
    sizes = replace(sizes, row=min(high, LARGEST_ROW * sizes.row))
    part = grid(marks.children, marks.sums, sizes, body.width, style, coded=marks.coded)
    return stack((*above, means, part), gap)


def _pages(marks: ClassMarks, body: Rect, style: Style) -> list[Block]:
    """Return the groups and the grid on as many pages as they take."""
    groups = _paged(_groups(marks, body, style), body.height)
    used = _height(groups[-1])
    parts = grid_parts(marks, body, body.height - used - _GAP if used else body.height, style)
    if used and _height([*groups[-1], parts[0]]) > body.height:  # the grid on pages of its own
        pages = [*_grown(groups, marks, body, style), *_paged(parts, body.height)]
    else:
        pages = [*groups[:-1], *_paged([*groups[-1], *parts], body.height)]
    return [stack(page, _GAP) for page in pages]


def _groups(marks: ClassMarks, body: Rect, style: Style) -> list[Block]:
    """Return whom to teach together in frames, or in close rows where only those fit a page."""
    framed = [*framed_groups(marks, body.width, style)]
    if _height(framed) <= body.height:
        return framed
    text = settings(style.look).text
    ways = ([*close_groups(marks, body.width, text, style, built=b)] for b in (True, False))
    return next((close for close in ways if _height(close) <= body.height), framed)


def _height(blocks: Sequence[Block]) -> float:
    return sum(block.height for block in blocks) + _GAP * max(0, len(blocks) - 1)


def _paged(blocks: Iterable[Block], high: float) -> list[list[Block]]:
    """Return ``blocks`` on pages ``high`` mm high."""
    pages: list[list[Block]] = [[]]
    for block in blocks:
        if pages[-1] and _height([*pages[-1], block]) > high + 1e-6:
            pages.append([])
        pages[-1].append(block)
    return pages


def _grown(
    pages: list[list[Block]], marks: ClassMarks, body: Rect, style: Style
) -> list[list[Block]]:
    """Return the groups on as many pages, alike full, their frames grown to write in."""
    blocks = [block for page in pages for block in page]
    if blocks[0].height == next(framed_groups(marks, body.width, style)).height:
        ways = (*((grown, True) for grown in _GROWN), (0.0, False))
        tried = ([*framed_groups(marks, body.width, style, g, built=b)] for g, b in ways)
        blocks = next(b for b in tried if len(_paged(b, body.height)) <= len(pages))
    even = next(
        found
        for part in range(10 // len(pages), 11)
        if len(found := _paged(blocks, part / 10 * body.height)) <= len(pages)
    )
    return [_spread(page, body.height) for page in even]


def _spread(blocks: list[Block], high: float) -> list[Block]:
    """Return ``blocks`` a little further apart, so that they fill a page ``high`` mm high."""
    spare = (high - _height(blocks)) / max(1, len(blocks) - 1)
    more = min(_MOST_SPREAD, spare)
    return [*(Block(b.items, b.width, b.height + more) for b in blocks[:-1]), blocks[-1]]
