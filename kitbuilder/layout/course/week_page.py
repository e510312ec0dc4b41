"""A week at a glance: each day with its sums and small facts, and boxes to tick."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError
from kitbuilder.frozen import frozen
from kitbuilder.kit.course.course_records import Asked, WeekDay, WeekPage
from kitbuilder.layout.course.flowing import APART
from kitbuilder.layout.model import Item, Rect, Sheet, SheetKind
from kitbuilder.layout.parts.block import EMPTY, Block, alike, beside, row, stack
from kitbuilder.layout.parts.contents import PagesOf, Panel, Rule
from kitbuilder.layout.parts.furniture import (
    Foot,
    Heading,
    foot,
    header,
    labelled,
    pictogram,
    rule,
    tick,
    wrapped,
)
from kitbuilder.layout.parts.settings import Setting, growth, settings
from kitbuilder.layout.parts.sheet_area import GUTTER, SheetArea
from kitbuilder.layout.parts.speech import speech
from kitbuilder.layout.parts.words import capital, fitted, line, lines, wide
from kitbuilder.number.course.stages import STAGES

MOST_SUMS = 3
"""Sums in one row of a day."""

MOST_CHECKED = 4
"""The same where a day has more, as the check has: it has no boxes for how it was helped."""

_PAD, _GAP, _MORE, _WIDEST = 2.6, 2.2, 9.0, 7.0
# Inside a day's frame and between days, in mm; how much higher a day may become, and how wide a
# gap; more where a week takes several pages.

_PAGES = "88–88"
# Room for the numbers of pages; three digits, where a kit has so many, reach into the gap.

_NAME, _STAGE, _SMALLEST = 0.15, 7.4, 0.5
# The share of the width for a day's name, less in large type; the side of a stage's pictogram, mm;
# the least share of a child's type that a sum is printed in so that a day's stand in one row.


def week_sheets(
    weeks: Sequence[WeekPage],
    style: Style,
    found: Sequence[SheetKind] = (),
    lessons: Sequence[bool] = (),
) -> Iterator[Sheet]:
    """Yield a page for each of ``weeks``, as many more as its days need.

    It points to the pages of each kind that is ``found`` beside it, once ``pointing`` knows them;
    to ``lessons`` too, False being the first week's and True those of all later ones.
    """
    area = SheetArea.upright(style.paper)
    page = area.page
    number = 0
    for at, week in enumerate(weeks):
        kinds = (*found, SheetKind.LESSON) if (at > 0) in lessons else found
        for items in _Week(week, area, style, kinds).pages():
            number += 1
            size = page.width, page.height
            yield Sheet(SheetKind.WEEK, number, "paper", *size, items, week=week.name)


def pointing(sheets: Sequence[Sheet]) -> Iterator[Sheet]:
    """Yield all ``sheets`` of a kit, each week's now telling where the pages are that it needs."""
    for at, sheet in enumerate(sheets):
        if sheet.kind is not SheetKind.WEEK:
            yield sheet
            continue
        items = []
        for item in sheet.items:
            if isinstance(item.content, PagesOf):
                kind = item.content.kind
                pages = [n for n, s in enumerate(sheets) if s.kind == kind and _for(s, sheet)]
                content = replace(item.content, first=pages[0] - at, last=pages[-1] - at)
                item = item._replace(content=content)
            items.append(item)
        yield replace(sheet, items=tuple(items))


def _for(sheet: Sheet, week: Sheet) -> bool:
    """Say whether ``sheet`` is for the week of ``week``, or for all of them.

    The first lesson is for the first week, the others for the weeks after it.
    """
    if sheet.kind is SheetKind.LESSON:
        return sheet.later is week.later
    return sheet.week in ("", week.week)


@frozen
class _Week:
    """One week on the pages of ``area``, and what is ``found`` beside it."""

    week: WeekPage
    area: SheetArea
    style: Style
    found: Sequence[SheetKind]

    def pages(self) -> Iterator[tuple[Item, ...]]:
        """Yield the items of each page; what stands above the days is on the first alone."""
        head, body = self._head()
        runs = self._runs(body)
        foot_ = foot(Foot(), self.area, self.style)
        for run in runs:
            days = sum(1 for block in run if _framed(block))
            spare = body.height - sum(block.height for block in run) - _GAP * (len(run) - 1)
            most = _MORE if len(runs) == 1 else 5 * _MORE
            more = min(most, 0.7 * spare / max(1, days))
            blocks = [_grown(b, more) if _framed(b) else b for b in run]
            gap = (body.height - sum(b.height for b in blocks)) / max(1, len(blocks) - 1)
            gap = max(_GAP - 1e-6, min(_WIDEST if len(runs) == 1 else APART, gap))
            yield (*head, *stack(blocks, gap).at(body.x, body.y), *foot_)

    def _head(self) -> tuple[tuple[Item, ...], Rect]:
        note = "" if self.week.later else self.style.words("week.note")
        heading = Heading("time", self.week.title, ("adult", "child"), note)
        head, top = header(heading, self.area, self.style)
        return head, self.area.body(top)

    def _runs(self, body: Rect) -> list[list[Block]]:
        """Return the blocks of each page: one if any way of it holds all days."""
        days = [b for day in self.week.days for b in self._days(day, body)]
        full = self._above(body.width)
        short = full if self.week.later else self._short(body.width)
        below = self._below(body.width)
        most, least = below[:-2], below[-2:]  # when to go on stands in most
        ways = [(above, end) for ends in (most, least) for above in (full, short) for end in ends]
        for above, end in ways:
            blocks = [b for b in (above, *days, end) if b.height]
            if sum(b.height for b in blocks) + _GAP * (len(blocks) - 1) <= body.height + 1e-6:
                return [blocks]
        tall = [b for b in (full, short) if b.height + _GAP + days[0].height <= body.height]
        runs = [
            alike([b for b in (above, *days, end) if b.height], body.height, _GAP)
            for end in below
            if end.height <= body.height
            for above in tall or [EMPTY]
        ]
        return min(runs, key=len)

    def _days(self, day: WeekDay, body: Rect) -> list[Block]:
        """Return ``day`` in its frame; one that is higher than a page in two or more."""
        block = _day(day, body.width, self.style)
        if block.height <= body.height:
            return [block]
        half = len(day.sums) // 2
        if not half:
            raise RefusedError("form.no-week", paper=self.style.paper.name, option="margin")
        parts = replace(day, sums=day.sums[:half]), replace(day, sums=day.sums[half:], facts="")
        return [found for part in parts for found in self._days(part, body)]

    def _above(self, width: float) -> Block:
        """Return what every day holds, its minutes, and what the pictograms of stages mean."""
        words, sets = self.style.words, settings(self.style.look)
        guess = speech("adult", words("script.guess"), width, self.style)
        if self.week.later:
            return stack((guess, self._found(width)), 1.8)
        daily = [
            labelled(pictogram(name, 7.0), words(f"week.daily_{name}"), sets.text)
            for name in ("slip", "take", "push")
        ]
        above = wrapped([*daily, guess, self._facts(width)], width, 4.0, 1.4)
        return stack((above, rule(width), self._short(width)), 1.8)

    def _facts(self, width: float) -> Block:
        """Return how a small fact is practised."""
        side = 7.0
        text = settings(self.style.look).text
        told = self.style.words("week.facts_how")
        whole = labelled(pictogram("slip", side), told, text)
        if whole.width <= width:
            return whole
        return beside(pictogram("slip", side), lines(told, text, width - side - 2.0), 2.0)

    def _short(self, width: float) -> Block:
        """Return what the pictograms of stages mean, and where the other pages are."""
        return stack((self._stages(width), self._found(width)), 1.4)

    def _found(self, width: float) -> Block:
        """Return where the pages are that the week needs."""
        text = settings(self.style.look).text
        room = wide(_PAGES, text)
        cells = []
        for kind in self.found:
            told = line(self.style.words(f"week.at_{kind}"), text)
            at = Rect(told.width + 1.0, 0, room, told.height)
            pages = Item("pages_of", at, PagesOf(kind, text.size))
            cells.append(Block((*told.items, pages), at.right, told.height))
        return wrapped(cells, width, 4.0, 0.4) if cells else EMPTY

    def _stages(self, width: float) -> Block:
        """Return what the pictograms of the stages mean."""
        words, sets = self.style.words, settings(self.style.look)
        stages = [
            labelled(pictogram(f"stage-{stage}", 7.0), words(f"stages.{stage}"), sets.text)
            for stage in STAGES
        ]
        return wrapped(stages, width, 4.0, 1.4)

    def _below(self, width: float) -> tuple[Block, ...]:
        """Return what may stand below the days, the most first."""
        text = settings(self.style.look).text
        said = [lines(s, text, width) for s in (self.week.back, self.week.stop) if s]
        rules = stack(said, 0.4)
        if not self.week.on:
            return rules, said[0]
        full = stack((self._on(width), rules), 2.4)
        on = f"{self.style.words('week.on')}:", *(said for _, said in self.week.on)
        back, stop = (self.week.back,), (self.week.back, self.week.stop)
        short = [lines(" ".join((*on, *filter(None, s))), text, width) for s in (stop, back)]
        return full, *short, rules, said[0]

    def _on(self, width: float) -> Block:
        """Return when each stage met in the week is done, a cell a stage."""
        words, sets = self.style.words, settings(self.style.look)
        across = 3 if width > 150 * sets.text.size / 3.9 else 1
        each = (width - GUTTER * (across - 1)) / across
        cells = []
        for stage, told in self.week.on:
            said = lines(told, sets.text, each - _STAGE - 2.4)
            high = max(said.height, _STAGE)
            items = (*pictogram(f"stage-{stage}", _STAGE).at(0, 0), *said.at(_STAGE + 2.4, 0))
            cells.append(Block(items, each, high))
        heading = line(words("week.on"), sets.heading)
        body = row(cells, GUTTER) if across > 1 else stack(cells, 1.4)
        return stack((heading, body), 1.0)


def _framed(block: Block) -> bool:
    """Say whether ``block`` is a day."""
    return any(item.what == "day" for item in block.items)


def _grown(day: Block, more: float) -> Block:
    """Return ``day`` ``more`` mm higher: its frame and lines grow, the rest stays in the middle."""
    items = []
    for item in day.items:
        rect = item.rect
        if item.what in ("day", "between"):
            grown = Rect(rect.x, rect.y, rect.width, rect.height + more)
            items.append(Item("panel" if item.what == "day" else "rule", grown, item.content))
        else:
            items.append(Item(item.what, rect.moved(0, more / 2), item.content))
    return Block(tuple(items), day.width, day.height + more)


def _day(day: WeekDay, width: float, style: Style) -> Block:
    """Return a day in its frame: its name, its sums with boxes to tick, how it was helped.

    Where a day has many they are done alone.
    """
    sets = settings(style.look)
    inner = width - 2 * _PAD
    many = len(day.sums) > MOST_SUMS
    helped = EMPTY if many else _helped(inner, style)
    small = sets.heading.sized(0.8 * sets.heading.size)
    widest = (
        *(wide(w, sets.text) for w in day.note.split()),
        *(wide(w, small) for w in day.title.split()),
    )
    named = max(_NAME * inner / growth(style.look) ** 2, *widest)
    name = stack(
        (
            fitted(day.title, sets.heading, named, 0.8 * sets.heading.size),
            lines(day.note, sets.text, named) if day.note else EMPTY,
        ),
        0.6,
    )
    middle = _sums(day, inner - named - helped.width - (2 if many else 4) * _PAD, style)
    high = max(name.height, middle.height, helped.height)
    x = _PAD + named + 2 * _PAD
    right = width - _PAD - helped.width
    lines_at = (x,) if many else (x, right)
    whole = Rect(0, 0, width, high + 2 * _PAD)
    items = [
        Item("day", whole, Panel("none", "zone", 2.2)),
        *(Item("between", Rect(at - _PAD, _PAD, 0.01, high), Rule("divider")) for at in lines_at),
        *name.at(_PAD, _PAD + (high - name.height) / 2),
        *middle.at(x, _PAD + (high - middle.height) / 2),
        *helped.at(right, _PAD + (high - helped.height) / 2),
    ]
    return Block(tuple(items), width, whole.height)


def _helped(width: float, style: Style) -> Block:
    """Return how a day's sums were done, to tick."""
    return stack((tick(label, width, style) for label in style.words.lines("week.helped")), 0.8)


def _sums(day: WeekDay, width: float, style: Style) -> Block:
    """Return a day's sums, two or three a row, with its small facts below them."""
    words, sets = style.words, settings(style.look)
    widest = max((wide(str(asked.sum), sets.child) for asked in day.sums), default=1.0)
    most = MOST_SUMS if len(day.sums) <= MOST_SUMS else MOST_CHECKED
    across = min(most, max(2, len(day.sums)))
    while across > 1 and width / across < _STAGE + 4.4 + _SMALLEST * widest:
        across -= 1
    each = width / across
    size = min(1.0, (each - _STAGE - 4.4) / widest) * sets.child.size
    rows = [
        row(
            [
                block.as_wide(each)
                for block in (
                    _asked(asked, each, sets.child.sized(size), style)
                    for asked in day.sums[start : start + across]
                )
            ]
        )
        for start in range(0, len(day.sums), across)
    ]
    facts = EMPTY
    if day.facts:
        side = sets.text.lead
        said = lines(words("week.facts", facts=day.facts), sets.text, width - side - 1.4)
        facts = Block((*pictogram("slip", side).items, *said.at(side + 1.4, 0)), width, said.height)
    return stack((stack(rows, 1.6), facts), 1.6)


def _asked(asked: Asked, width: float, setting: Setting, style: Style) -> Block:
    """Return a sum with its stage before it and boxes to tick below."""
    sum_ = line(str(asked.sum), setting)
    high = max(_STAGE, capital(setting))
    stage = pictogram(f"stage-{asked.stage}", _STAGE).at(0, (high - _STAGE) / 2)
    top = Block((*stage, *sum_.at(_STAGE + 2.0, (high - sum_.height) / 2)), width, high)
    labels = [tick(label, width, style) for label in style.words.lines("week.ticks")]
    left, taken = _STAGE + 2.0, sum(b.width for b in labels) + 2.0 * (len(labels) - 1)
    boxes = row(labels, 2.0) if taken <= width else stack(labels, 0.4)
    at = min(left, max(0.0, width - boxes.width))
    return stack((top, boxes.moved(at, 0)), 1.0)
