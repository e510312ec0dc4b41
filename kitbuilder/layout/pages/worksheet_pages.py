"""Worksheets: sums to write in columns, and their keys on the same places."""

from collections.abc import Iterator, Sequence

from kitbuilder.design import metrics
from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError
from kitbuilder.kit.course.course_pages import CELLS
from kitbuilder.kit.course.course_records import Asked, Worksheet
from kitbuilder.layout.cards.fronts import PITCH
from kitbuilder.layout.model import Item, Rect, Sheet, SheetKind
from kitbuilder.layout.page import Page
from kitbuilder.layout.pages.forms import Panel, rule, text_at, wrapped_at
from kitbuilder.layout.parts.columns import ruled, ruled_size, worked
from kitbuilder.layout.text.flow import ADULT_INSET
from kitbuilder.number import digits
from kitbuilder.number.course.stages import STAGES
from kitbuilder.number.written import columns

GAP = 4.0
_PAD = 3.0
# Between cells, and inside them, in mm.

LEAST_PITCH = 9.0
"""Least width in mm of a column that a child writes in."""

WORDS_HIGH = 7.5
"""Height of the words beside the columns, in sizes of an adult's type."""

ASIDE = 8.8
"""Room beside the columns for estimate and check, in sizes of an adult's type."""


def worksheet_sheets(sheets: Sequence[Worksheet], style: Style) -> Iterator[Sheet]:
    """Yield the pages of ``sheets``: as many sums as fit, a place left over is empty."""
    page = Page.upright(style.paper)
    area = page.inside.inset(ADULT_INSET)
    number = 0
    for sheet in sheets:
        for items in _pages(sheet, area, style):
            number += 1
            kind = SheetKind.WORKSHEET_KEY if sheet.key else SheetKind.WORKSHEET
            yield Sheet(kind, number, "paper", page.width, page.height, tuple(items))


def _pages(sheet: Worksheet, area: Rect, style: Style) -> Iterator[list[Item]]:
    """Yield the items of each page of one worksheet."""
    first = 0
    while first == 0 or first < len(sheet.asked):
        items, room = _head(sheet, area, style)
        across, down = _grid(sheet, room, style)
        each = across * down
        items += _cells(sheet, first, Rect(room.x, room.y, room.width, room.height), across, style)
        first += each
        yield items


def _head(sheet: Worksheet, area: Rect, style: Style) -> tuple[list[Item], Rect]:
    """Return what stands above and below the sums, and the room between."""
    look = style.look.type_mm
    y = area.y + metrics.digit_height(look.title)
    items = [text_at(sheet.title, look.title, area.x, y, area.right)]
    y += 2.0 + 1.2 * look.adult
    items.append(text_at(sheet.day, look.adult, area.x, y, area.right))
    if not sheet.key:
        items += _named(sheet, area, y, style)
    y += 0.5 * look.adult
    if sheet.spoken:
        lines, y = wrapped_at(sheet.spoken, look.adult, Rect(area.x, y + 1.5, area.width, 20))
        items += lines
    foot, height = wrapped_at(sheet.foot, look.adult, Rect(area.x, 0, area.width, 20))
    items += [Item(i.what, i.rect.moved(0, area.bottom - height), i.content) for i in foot]
    top = y + 2.0
    return items, Rect(area.x, top, area.width, area.bottom - height - 2.0 - top)


def _grid(sheet: Worksheet, room: Rect, style: Style) -> tuple[int, int]:
    """Return how many sums stand across and down."""
    wide, high = (LEAST_PITCH * v for v in ruled_size(_places(sheet), False))
    wide += (1.2 + ASIDE) * style.look.type_mm.adult + 2 * _PAD
    high = max(high, WORDS_HIGH * style.look.type_mm.adult)
    across = min(2, int((room.width + GAP) / (wide + GAP)))
    down = min(CELLS // 2, int((room.height + GAP) / (high + 2 * _PAD + GAP)))
    if across < 1 or down < 1:
        raise RefusedError("form.no-worksheet", paper=style.paper.name, option="margin")
    return across, down


def _places(sheet: Worksheet) -> int:
    return max([asked.sum.places for asked in sheet.asked], default=3)


def _named(sheet: Worksheet, area: Rect, y: float, style: Style) -> Iterator[Item]:
    """Yield the places for name and date, on the right of the day."""
    size = style.look.type_mm.adult
    x = area.x + 0.32 * area.width
    for label, share in ((sheet.words.name, 0.44), (sheet.words.date, 0.24)):
        item = text_at(label, size, x, y, area.right)
        yield item
        end = x + share * area.width - 3.0
        yield rule(item.rect.right + 1.5, end, y + 0.8)
        x = end + 3.0


def _cells(sheet: Worksheet, first: int, room: Rect, across: int, style: Style) -> Iterator[Item]:
    """Yield the sums of one page, from that numbered ``first`` on, and empty places after them."""
    down = _grid(sheet, room, style)[1]
    width = (room.width - (across - 1) * GAP) / across
    height = (room.height - (down - 1) * GAP) / down
    places = _places(sheet)
    for index in range(across * down):
        row, column = divmod(index, across)
        x, y = room.x + column * (width + GAP), room.y + row * (height + GAP)
        cell = Rect(x, y, width, height)
        at = first + index
        asked = sheet.asked[at] if at < len(sheet.asked) else None
        if asked or not sheet.key:
            yield Item("panel", cell, Panel())
            letter = "abcdefghijklmnopqrstuvwxyz"[at % 26]
            yield from _cell(sheet, asked, letter, places, cell, style)


def _cell(
    sheet: Worksheet, asked: Asked | None, letter: str, places: int, cell: Rect, style: Style
) -> Iterator[Item]:
    """Yield one sum: its columns on the left; estimate, room to draw and check on the right."""
    size = style.look.type_mm.adult
    inner = cell.inset(_PAD)
    baseline = inner.y + metrics.digit_height(size)
    yield text_at(letter, size, inner.x, baseline, inner.right)
    pitch = _pitch(places, inner, style)
    across = asked.sum.places if asked else places
    wide, high = (pitch * v for v in ruled_size(across, False))
    left = inner.x + 1.2 * size + (places - across) * pitch
    held = Rect(left, inner.bottom - high, wide, high)
    yield from _columns(sheet, asked, across, pitch, held, style)
    x = inner.x + 1.2 * size + pitch * ruled_size(places, False)[0] + 2.0
    side = Rect(x, inner.y, inner.right - x, inner.height)
    about = text_at(sheet.words.about, size, side.x, baseline, side.right)
    yield about
    foot = side.bottom - 0.3 * size
    check = text_at(sheet.words.check, size, side.x, foot - 1.5 * size, side.right)
    yield check
    if asked and sheet.key:
        yield text_at(asked.about, size, about.rect.right + 2.0, baseline, side.right)
        sum_ = asked.sum
        said = f"{sum_.rest} + {sum_.part} = {sum_.whole}"
        yield text_at(said, size, side.x, foot, side.right)
        return
    yield rule(about.rect.right + 2.0, min(side.right, about.rect.right + 22.0), baseline + 0.8)
    yield from _adding(side, foot, size)
    if asked:
        stage = sheet.words.stages[STAGES.index(asked.stage)]
        stage = f"{asked.day}: {stage}" if asked.day not in sheet.day else stage
        yield from wrapped_at(stage, size, Rect(side.x, baseline + 0.8 * size, side.width, 1))[0]


def _pitch(places: int, inner: Rect, style: Style) -> float:
    """Return the width in mm of a column that leaves room for words on its right."""
    across, down = ruled_size(places, False)
    aside = (1.2 + ASIDE) * style.look.type_mm.adult
    return min(PITCH[0], inner.height / down, (inner.width - aside) / across)


def _columns(
    sheet: Worksheet, asked: Asked | None, across: int, pitch: float, held: Rect, style: Style
) -> tuple[Item, ...]:
    if asked is None:
        empty = (None,) * across
        return ruled(empty, empty, (), pitch, style).at(held.x, held.y)
    sum_ = asked.sum
    if sheet.key:
        found = worked(columns(sum_), 0.9 * pitch, style)
        for step in range(8, 3, -1):
            if found.height <= held.height and found.width <= held.width:
                break
            found = worked(columns(sum_), 0.1 * step * pitch, style)
        return found.at(held.x, held.y)
    lower = len(str(sum_.part))
    bottoms = tuple(d if k < lower else None for k, d in enumerate(digits(sum_.part, across)))
    found = ruled(digits(sum_.whole, across), bottoms, (), pitch, style)
    return found.at(held.x, held.y)


def _adding(side: Rect, baseline: float, size: float) -> Iterator[Item]:
    """Yield three places to write the adding check, with the signs between them."""
    sign = 1.1 * size
    each = (side.width - 2 * sign) / 3
    x = side.x
    for mark in ("+", "=", ""):
        yield rule(x, x + each - 1.0, baseline + 0.8)
        x += each
        if mark:
            yield text_at(mark, size, x - 0.4, baseline, side.right)
            x += sign
