"""A week at a glance: each day with its sums, boxes to tick, and small facts."""

from collections.abc import Iterator, Sequence

from kitbuilder.design import metrics
from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError
from kitbuilder.kit.course.course_records import WeekDay, WeekPage
from kitbuilder.layout.model import Item, Rect, Sheet, SheetKind
from kitbuilder.layout.page import Page
from kitbuilder.layout.pages.forms import (
    BOX,
    LEADING,
    Panel,
    WriteLine,
    rule,
    text_at,
    tick,
    tick_step,
    ticks,
    wrapped_at,
)
from kitbuilder.layout.text.flow import ADULT_INSET

GAP = 3.0
_PAD = 3.0
_NAME = 0.19
# Between days and inside them, in mm; the share of the width for a day's name.

SLIPS = 4
"""Slips for the teacher on one page, at most."""

MOST_SUMS = 3
"""Sums in one row of a day."""


def week_sheets(weeks: Sequence[WeekPage], style: Style) -> Iterator[Sheet]:
    """Yield a page for each of ``weeks``, as many more as its days need."""
    page = Page.upright(style.paper)
    area = page.inside.inset(ADULT_INSET)
    number = 0
    for week in weeks:
        for items in _pages(week, area, style):
            number += 1
            yield Sheet(SheetKind.WEEK, number, "paper", page.width, page.height, tuple(items))


def _pages(week: WeekPage, area: Rect, style: Style) -> Iterator[list[Item]]:
    """Yield the items of each page: title, days, and on the last the foot and the slip."""
    foot = _foot(week, area, style)
    low = max((item.rect.bottom for item in foot), default=0.0)
    waiting = list(week.days)
    while waiting:
        size = style.look.type_mm.title
        y = area.y + metrics.digit_height(size)
        items = [text_at(week.title, size, area.x, y, area.right)]
        y += 4.0
        placed = 0
        while waiting:
            last = len(waiting) == 1
            panel, high = _day(waiting[0], week, Rect(area.x, y, area.width, 1), style)
            if y + high > area.bottom - (low + 2.0 if last else 0.0):
                break
            items += panel
            y += high + GAP
            waiting.pop(0)
            placed += 1
        if not placed:
            raise RefusedError("form.no-week", paper=style.paper.name, option="margin")
        if not waiting:
            start = area.bottom - low
            items += [Item(i.what, i.rect.moved(0, start), i.content) for i in foot]
        yield items


def _day(day: WeekDay, week: WeekPage, at: Rect, style: Style) -> tuple[list[Item], float]:
    """Return a day's items with its frame at the top of ``at``, and its height in mm."""
    look = style.look.type_mm
    inner = Rect(at.x + _PAD, at.y + _PAD, at.width - 2 * _PAD, 1)
    name, names = _NAME * inner.width, Rect(inner.x, inner.y, _NAME * inner.width - 2, 1)
    said, low = wrapped_at(day.title, look.heading, names)
    more, low = wrapped_at(day.stages, look.adult, Rect(inner.x, low + 0.5, names.width, 1))
    items = [*said, *more]
    left = inner.x + name
    aside = BOX + 3.2 + max(metrics.width(label, look.adult) for label in week.helped)
    middle = inner.width - name - aside
    sums, y = _sums(day, week, Rect(left, inner.y, middle, 1), style)
    items += sums
    help_y = inner.y
    for label in week.helped:
        items += tick(label, inner.right - aside + 2, help_y, style, inner.right + 1)
        help_y += tick_step(style)
    if day.facts:
        facts = style.words("week.facts", facts=day.facts)
        lines, y = wrapped_at(facts, look.adult, Rect(left, y, middle, 1))
        items += lines
    high = max(y, low, help_y) - at.y + 1.0
    return [Item("panel", Rect(at.x, at.y, at.width, high), Panel()), *items], high


def _sums(day: WeekDay, week: WeekPage, at: Rect, style: Style) -> tuple[list[Item], float]:
    """Return a day's sums, up to three a row, each with its boxes below, and the y below them."""
    look = style.look.type_mm
    across = min(MOST_SUMS, max(2, len(day.sums)))
    each = at.width / across
    widest = max(metrics.width(str(asked.sum), 1) for asked in day.sums)
    size = min(look.child, (each - 3.0) / widest)
    y = at.y
    items: list[Item] = []
    for start in range(0, len(day.sums), across):
        base = y + metrics.digit_height(size)
        low = base
        for k, asked in enumerate(day.sums[start : start + across]):
            x = at.x + k * each
            items.append(text_at(str(asked.sum), size, x, base, x + each))
            boxes = _boxes(week.ticks, x, base + 0.25 * size + 0.6, each - 2.0, style)
            items += boxes
            low = max(item.rect.bottom for item in boxes)
        y = low + 0.3 * look.adult + 1.0
    return items, y


def _boxes(labels: Sequence[str], x: float, y: float, width: float, style: Style) -> list[Item]:
    """Return boxes to tick beside each other, or below where the width does not do."""
    size = style.look.type_mm.adult
    wide = sum(BOX + 1.2 + metrics.width(label, size) for label in labels)
    if wide + 0.9 * size * (len(labels) - 1) <= width:
        return ticks(labels, x, y, style, x + width)
    found = []
    for number, label in enumerate(labels):
        found += tick(label, x, y + number * tick_step(style), style, x + width + 2)
    return found


def _foot(week: WeekPage, area: Rect, style: Style) -> list[Item]:
    """Return the lines below the days and the slip, from y = 0 down."""
    size = style.look.type_mm.adult
    items: list[Item] = []
    y = 0.0
    for line in week.foot:
        lines, y = wrapped_at(line, size, Rect(area.x, y, area.width, 1))
        items += lines
    if week.slip:
        items.append(Item("write_line", Rect(area.x, y + 3, area.width, 0.2), WriteLine(True)))
        items += _slip(week.slip, Rect(area.x, y + 6, area.width, 1), style)
    return items


def slip_sheet(lines: tuple[str, ...], style: Style) -> tuple[Sheet, int]:
    """Return a page of slips for the teacher, one below the other to be cut, and how many."""
    page = Page.upright(style.paper)
    area = page.inside.inset(ADULT_INSET)
    one = list(_slip(lines, Rect(area.x, 0, area.width, 1), style))
    high = max(item.rect.bottom for item in one) + 8.0
    each = max(1, min(SLIPS, int(area.height / high)))
    items: list[Item] = []
    for number in range(each):
        down = area.y + number * area.height / each
        items += [Item(i.what, i.rect.moved(0, down), i.content) for i in one]
        if number:
            line = Rect(area.x, down - 4.0, area.width, 0.2)
            items.append(Item("write_line", line, WriteLine(dashed=True)))
    return Sheet(SheetKind.SLIP, 1, "paper", page.width, page.height, tuple(items)), each


def _slip(lines: tuple[str, ...], at: Rect, style: Style) -> Iterator[Item]:
    """Yield the slip for the teacher: places to fill in, boxes to tick, one line to write."""
    title, *blanks, first, second, third, noticed = lines
    look = style.look.type_mm
    size, step = look.adult, LEADING * look.adult + 3.0
    y = at.y + metrics.digit_height(look.heading)
    yield text_at(title, look.heading, at.x, y, at.right)
    y += step
    x, each = at.x, at.width / 3
    for number, label in enumerate(blanks):
        item = text_at(label, size, x, y, at.right)
        yield item
        yield rule(item.rect.right + 1.5, x + each - 3, y + 0.8)
        x += each
        if number % 3 == 2 or number == len(blanks) - 1:
            x, y = at.x, y + step
    for label in (first, second, third):
        yield from tick(label, x, y - BOX + 1, style, x + each + 2)
        x += each
    y += step
    item = text_at(noticed, size, at.x, y, at.right)
    yield item
    yield rule(item.rect.right + 1.5, at.right, y + 0.8)
