"""A week at a glance: each day with its sums and small facts, and boxes to tick."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError
from kitbuilder.frozen import frozen
from kitbuilder.kit.course.course_records import WeekDay, WeekPage
from kitbuilder.layout.course.flowing import APART
from kitbuilder.layout.course.week_day import PAD, STAGE_SIDE, day_block, framed, grown
from kitbuilder.layout.model import Item, Rect, Sheet, SheetKind
from kitbuilder.layout.parts.block import EMPTY, Block, alike, beside, row, stack
from kitbuilder.layout.parts.contents import Line, PagesOf
from kitbuilder.layout.parts.furniture import (
    Foot,
    Heading,
    foot,
    header,
    labelled,
    pictogram,
    rule,
    wrapped,
)
from kitbuilder.layout.parts.settings import settings
from kitbuilder.layout.parts.sheet_area import GUTTER, SheetArea
from kitbuilder.layout.parts.speech import speech
from kitbuilder.layout.parts.words import line, lines, wide
from kitbuilder.number.course.stages import STAGES

_GAP, _CLOSE, _MORE, _WIDEST = 2.2, 1.6, 9.0, 7.0
# Between days, in mm; that and inside a day's frame where a page is full; how much higher a day may
# become, and how wide a gap; more where a week takes several pages.

_PAGES = "88–88"
# Room for the numbers of pages; three digits, where a kit has so many, reach into the gap.


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
    """Yield all ``sheets`` of a kit, each now telling where the pages are that it needs."""
    for at, sheet in enumerate(sheets):
        if not any(isinstance(item.content, PagesOf) for item in sheet.items):
            yield sheet
            continue
        items = []
        for item in sheet.items:
            if isinstance(item.content, PagesOf):
                wanted = item.content
                pages = [n for n, s in enumerate(sheets) if _meant(s, wanted, sheet)] or [at]
                content = replace(wanted, first=pages[0] - at, last=pages[-1] - at)
                item = item._replace(content=content)
            items.append(item)
        yield replace(sheet, items=tuple(items))


def _meant(sheet: Sheet, wanted: PagesOf, reader: Sheet) -> bool:
    """Say whether ``sheet`` is one that ``reader`` tells of, and for its week or for all."""
    if sheet.kind != wanted.kind or sheet is reader:
        return False
    return _shows(sheet, wanted) if wanted.titled else _for(sheet, reader)


def _shows(sheet: Sheet, wanted: PagesOf) -> bool:
    """Say whether one of the steps that are ``wanted`` stands on ``sheet``, under that title."""
    title = " ".join(i.content.text for i in sheet.items if isinstance(i.content, Line))
    numbers = [
        after.content.text
        for square, after in pairwise(sheet.items)
        if square.what == "step_number" and isinstance(after.content, Line)
    ]
    return wanted.titled in title and any(str(step) in numbers for step in wanted.steps)


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
        least, runs = self._runs(body)
        foot_ = foot(Foot(), self.area, self.style)
        for run in runs:
            days = sum(1 for block in run if framed(block))
            spare = body.height - sum(block.height for block in run) - least * (len(run) - 1)
            most = _MORE if len(runs) == 1 else 5 * _MORE
            more = min(most, 0.7 * spare / max(1, days))
            blocks = [grown(b, more) if framed(b) else b for b in run]
            gap = (body.height - sum(b.height for b in blocks)) / max(1, len(blocks) - 1)
            gap = max(least - 1e-6, min(_WIDEST if len(runs) == 1 else APART, gap))
            yield (*head, *stack(blocks, gap).at(body.x, body.y), *foot_)

    def _head(self) -> tuple[tuple[Item, ...], Rect]:
        note = "" if self.week.later else self.style.words("week.note")
        heading = Heading("time", self.week.title, ("adult", "child"), note)
        head, top = header(heading, self.area, self.style)
        return head, self.area.body(top)

    def _runs(self, body: Rect) -> tuple[float, list[list[Block]]]:
        """Return the least gap and the blocks of each page: one if any way holds all days."""
        usual, close = (self._all_days(body, pad) for pad in (PAD, _CLOSE))
        full = self._above(body.width)
        short = full if self.week.later else self._short(body.width)
        below = self._below(body.width)
        most, least = below[:-2], below[-2:]  # when to go on stands in most
        ways = [
            (gap, [b for b in (above, *days, end) if b.height])
            for ends in (most, least)
            for above in (full, short)
            for end in ends
            for gap, days in ((_GAP, usual), (_CLOSE, close))
        ]
        for gap, blocks in ways:
            if sum(b.height for b in blocks) + gap * (len(blocks) - 1) <= body.height + 1e-6:
                return gap, [blocks]
        tall = [b for b in (full, short) if b.height + _GAP + usual[0].height <= body.height]
        runs = [
            alike([b for b in (above, *usual, end) if b.height], body.height, _GAP)
            for end in below
            if end.height <= body.height
            for above in tall or [EMPTY]
        ]
        return _GAP, min(runs, key=len)

    def _all_days(self, body: Rect, pad: float) -> list[Block]:
        """Return all days in their frames, ``pad`` mm inside them."""
        return [block for day in self.week.days for block in self._days(day, body, pad)]

    def _days(self, day: WeekDay, body: Rect, pad: float) -> list[Block]:
        """Return ``day`` in its frame; one that is higher than a page in two or more."""
        block = day_block(day, body.width, pad, self.style)
        if block.height <= body.height:
            return [block]
        half = len(day.sums) // 2
        if not half:
            raise RefusedError("form.no-week", paper=self.style.paper.name, option="margin")
        parts = replace(day, sums=day.sums[:half]), replace(day, sums=day.sums[half:], facts="")
        return [found for part in parts for found in self._days(part, body, pad)]

    def _above(self, width: float) -> Block:
        """Return what every day holds, its minutes, and what the pictograms of stages mean."""
        words, sets = self.style.words, settings(self.style.look)
        guess = speech("adult", words("script.guess"), width, self.style)
        if self.week.later:
            return stack((guess, self._found(width)), 1.8)
        daily = [
            labelled(pictogram(name, 7.0), words(f"week.daily_{name}"), sets.text)
            for name in ("facts", "take", "push")
        ]
        above = wrapped([*daily, guess, self._facts(width)], width, 4.0, 1.4)
        return stack((above, rule(width), self._short(width)), 1.8)

    def _facts(self, width: float) -> Block:
        """Return how a small fact is practised."""
        side = 7.0
        text = settings(self.style.look).text
        told = self.style.words("week.facts_how")
        whole = labelled(pictogram("facts", side), told, text)
        if whole.width <= width:
            return whole
        return beside(pictogram("facts", side), lines(told, text, width - side - 2.0), 2.0)

    def _short(self, width: float) -> Block:
        """Return what the pictograms of stages mean, and where the other pages are."""
        return stack((self._stages(width), self._found(width)), 1.4)

    def _found(self, width: float) -> Block:
        """Return where the pages are that the week needs."""
        text = settings(self.style.look).text.quiet()
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
        week = self.week
        told = " ".join(filter(None, (week.passed, week.back)))
        said = [lines(s, text, width) for s in (told, week.stop) if s]
        rules = stack(said, 0.4)
        if not week.on:
            return rules, said[0]
        full = stack((self._on(width), rules), 2.4)
        one = lines(" ".join(filter(None, (told, week.stop))), text, width)
        ends = (one, said[0], lines(week.back, text, width))
        listed = (stack((self._listed(width), end), 0.8) for end in ends)
        return full, *listed, rules, said[0]

    def _listed(self, width: float) -> Block:
        """Return when each stage is done, a line a stage, beside the heading."""
        sets = settings(self.style.look)
        heading = line(self.style.words("week.on"), sets.heading)
        side = sets.text.lead
        left = heading.width + 4.0
        rows = []
        for stage, told in self.week.on:
            one = told.replace(" \n", " ").replace("\n", ", ")
            said = lines(one, sets.text, width - left - side - 1.6)
            items = (*pictogram(f"stage-{stage}", side).items, *said.at(side + 1.6, 0))
            rows.append(Block(items, width - left, said.height))
        listed = stack(rows, 0.4)
        items = (*heading.items, *listed.at(left, (heading.height - side) / 2))
        return Block(items, width, max(heading.height, listed.height + 0.6))

    def _on(self, width: float) -> Block:
        """Return when each stage met in the week is done, a cell a stage."""
        words, sets = self.style.words, settings(self.style.look)
        across = 3 if width > 150 * sets.text.size / 3.9 else 1
        each = (width - GUTTER * (across - 1)) / across
        cells = []
        for stage, told in self.week.on:
            beside_it = each - STAGE_SIDE - 2.4
            said = stack(lines(part.strip(), sets.text, beside_it) for part in told.split("\n"))
            high = max(said.height, STAGE_SIDE)
            items = (
                *pictogram(f"stage-{stage}", STAGE_SIDE).at(0, 0),
                *said.at(STAGE_SIDE + 2.4, 0),
            )
            cells.append(Block(items, each, high))
        heading = line(words("week.on"), sets.heading)
        body = row(cells, GUTTER) if across > 1 else stack(cells, 1.4)
        return stack((heading, body), 1.0)
