"""Worksheets: sums to write in columns, and their keys on the same places."""

from collections.abc import Iterator, Sequence

from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError
from kitbuilder.kit.course.course_pages import CELLS
from kitbuilder.kit.course.course_records import Worksheet
from kitbuilder.layout.model import Item, Rect, Sheet, SheetKind
from kitbuilder.layout.parts.block import EMPTY, Block, beside, stack
from kitbuilder.layout.parts.contents import Rule
from kitbuilder.layout.parts.furniture import Foot, Heading, foot, header, pictogram
from kitbuilder.layout.parts.settings import settings
from kitbuilder.layout.parts.sheet_area import SheetArea
from kitbuilder.layout.parts.words import line, lines, placed_line
from kitbuilder.layout.worksheets.sum_grid import SumGrid, fits, grid
from kitbuilder.layout.worksheets.worksheet_cells import cell_items, is_wide, least_cell

_FEW = 3
# As many sums stand below each other, as wide as the page; more stand two in a row.

_ROW, _LEAST_LINE = 8.0, 8.0
# The least height in mm of a row with a line for a name, and the least width of such a line.

_LETTERS = "abcdefghijklmnopqrstuvwxyz"


def worksheet_sheets(sheets: Sequence[Worksheet], style: Style) -> Iterator[Sheet]:
    """Yield the pages of ``sheets``; a key's sums stand where the child's do."""
    area = SheetArea.upright(style.paper)
    page = area.page
    number = 0
    for sheet in sheets:
        for items in _pages(sheet, area, style):
            number += 1
            kind = SheetKind.WORKSHEET_KEY if sheet.key else SheetKind.WORKSHEET
            size = page.width, page.height
            yield Sheet(kind, number, "paper", *size, items, week=sheet.week)


def _pages(sheet: Worksheet, area: SheetArea, style: Style) -> Iterator[tuple[Item, ...]]:
    """Yield the items of each page of one worksheet."""
    heading = Heading(
        "right" if sheet.key else "pencil",
        sheet.title,
        ("adult",) if sheet.key else ("child",),
        style.words("worksheet.for_adult") if sheet.key else "",
    )
    head, top = header(heading, area, style)
    body = area.body(top)
    above, below = _above(sheet, body, style), _below(sheet, body, style)
    start, end = above.height + (2.0 if above.height else 0.0), below.height + 2.0
    room = Rect(body.x, body.y + start, body.width, max(1.0, body.height - start - end))
    shared = _grid(sheet, room, style)
    fixed = (
        *head,
        *above.at(body.x, body.y),
        *below.at(body.x, body.bottom - below.height),
        *foot(Foot(), area, style),
    )
    each = len(shared.places)
    for first in range(0, max(1, len(sheet.asked)), each):
        items = list(fixed)
        for number, place in enumerate(shared.places, first):
            asked = sheet.asked[number] if number < len(sheet.asked) else None
            letter = _LETTERS[(sheet.before + number) % 26]
            items += cell_items(sheet, asked, letter, place, style)
        yield tuple(items)


def _grid(sheet: Worksheet, room: Rect, style: Style) -> SumGrid:
    """Return the grid of the sums: few or wide below each other, more two in a row."""
    count = max(1, len(sheet.asked), sheet.most)
    for across in (1, 2) if count <= _FEW or is_wide(sheet) else (2, 1):
        width, high = least_cell(sheet, SumGrid(room, across, 1).places[0].width, style)
        down = min(CELLS // across, fits(room.height, high))
        if fits(room.width, width) >= across and down >= 1:
            return grid(count, room, across, down)
    raise RefusedError("form.no-worksheet", paper=style.paper.name, option="margin")


def _above(sheet: Worksheet, body: Rect, style: Style) -> Block:
    """The week, places for name and date, and what is done with pieces alone.

    On a key what its frames mean stands where the name does.
    """
    first = _day(sheet, body.width, style)
    if not sheet.spoken:
        return first
    text = settings(style.look).text
    side = max(6.4, 1.2 * text.size)
    said = lines(sheet.spoken, text, body.width - side - 2.4)
    return stack((first, beside(pictogram("stage-pieces", side), said, 2.4)))


def _day(sheet: Worksheet, width: float, style: Style) -> Block:
    """Return the week and what stands beside it; below it where a long day leaves no room."""
    text = settings(style.look).text
    day, high = line(sheet.day, text), max(_ROW, text.lead)
    left, row = day.width + 5, text.lead if sheet.key else high
    named = _named(sheet, width - left, high, style, _LEAST_LINE)
    if not named.items:
        left, named = 0.0, _named(sheet, width, high, style)
    more = lines(sheet.lead, text, width - left) if sheet.key else named
    if not left:
        return stack((day, more))
    high = max(high, more.height)
    top = (high - more.height) / 2
    items = (*day.at(0, top + (row - text.lead) / 2), *more.at(left, top))
    return Block(items, width, high)


def _named(sheet: Worksheet, width: float, high: float, style: Style, least: float = 0.0) -> Block:
    """Return places for name and date in a row so wide and ``high``.

    There are none where a line would be shorter than ``least`` mm.
    """
    setting = settings(style.look).text.quiet()
    items: list[Item] = []
    x = 0.0
    for label, end in ((sheet.words.name, 0.62 * width), (sheet.words.date, width)):
        item = placed_line(label, setting, x, high / 2)
        start = item.rect.right + 1.6
        if end - start < least:
            return EMPTY
        y = high / 2 + 0.45 * setting.size
        items += (item, Item("rule", Rect(start, y, end - start, 0.01), Rule("write")))
        x = end + 4.0
    return Block(tuple(items), width, high)


def _below(sheet: Worksheet, body: Rect, style: Style) -> Block:
    if not sheet.foot:
        return EMPTY
    setting = settings(style.look).least
    one = line(sheet.foot, setting)
    return one if one.width <= body.width else lines(sheet.foot, setting, body.width)
