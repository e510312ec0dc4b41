"""A week at a glance: each day with its sums and small facts, and boxes to tick."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError
from kitbuilder.frozen import frozen
from kitbuilder.kit.course.course_records import WeekDay, WeekPage
from kitbuilder.layout.course.flowing import APART
from kitbuilder.layout.course.week_day import MOST_SUMS, PAD, STAGE_SIDE, day_block, framed, grown
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
from kitbuilder.layout.parts.settings import growth, settings
from kitbuilder.layout.parts.sheet_area import GUTTER, SheetArea
from kitbuilder.layout.parts.speech import speech
from kitbuilder.layout.parts.words import line, lines, wide
from kitbuilder.number.course.stages import STAGES

_GAP, _CLOSE, _MORE, _WIDEST = 2.2, 1.6, 9.0, 7.0
# Between days, in mm; that and inside a day's frame where a page is full; how much higher a day may
# become, and how wide a gap; more where a week takes several pages.

_DAYS = (_GAP, PAD), (_CLOSE, _CLOSE)
# Between days and inside their frames: as usual, and where a page is full.

_GUIDES = "write", "wrong"
# What the guide tells beside lessons: in large type on several pages each.

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
    to ``lessons`` too, False being the first week's and True later ones, where one is the week's.
    """
    area = SheetArea.upright(style.paper)
    page = area.page
    number = 0
    for at, week in enumerate(weeks):
        taught = at == 0 or week.later or week.lessons
        kinds = (*found, SheetKind.LESSON) if (at > 0) in lessons and taught else found
        for items in _Week(week, area, style, kinds, at > 0).pages():
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
    """Say whether ``sheet`` has the title that is ``wanted``, and one of the steps if some are."""
    title = " ".join(i.content.text for i in sheet.items if isinstance(i.content, Line))
    numbers = [
        after.content.text
        for square, after in pairwise(sheet.items)
        if square.what == "step_number" and isinstance(after.content, Line)
    ]
    met = not wanted.steps or any(str(step) in numbers for step in wanted.steps)
    return any(titled in title for titled in wanted.titled) and met


def _for(sheet: Sheet, week: Sheet) -> bool:
    """Say whether ``sheet`` is for the week of ``week``, or for all of them.

    The first lesson is for the first week, the others for the weeks after it.
    """
    if sheet.kind is SheetKind.LESSON:
        return sheet.later is week.later
    return sheet.week in ("", week.week)


@frozen
class _Week:
    """One week on the pages of ``area``, what is ``found`` beside it, if one is before it."""

    week: WeekPage
    area: SheetArea
    style: Style
    found: Sequence[SheetKind]
    again: bool

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
        """Return the least gap and the blocks of each page: one if all that is told fits it."""
        days = tuple((gap, self._all_days(body, pad)) for gap, pad in _DAYS)
        for above in self._aboves(body):
            for end in self._below(body.width):
                for gap, some in days:
                    blocks = [b for b in (above, *some, end) if b.height]
                    high = sum(b.height for b in blocks) + gap * (len(blocks) - 1)
                    if high <= body.height + 1e-6:
                        return gap, [blocks]
        halved = _GAP, self._all_days(body, PAD, 0.65 * body.height)
        ways = [
            (gap, alike([b for b in (*first, *some, *last) if b.height], body.height, gap))
            for above in self._aboves(body)
            for gap, some in (*days, halved)
            for first, last in self._around(above, body)
        ]

        def worse(way: tuple[float, list[list[Block]]]) -> tuple[int, bool]:
            high = (sum(b.height for b in blocks) for blocks in way[1])
            return len(way[1]), min(high) < body.height / 2

        return min(ways, key=worse)

    def _aboves(self, body: Rect) -> list[Block]:
        """Return what may stand above the days, the most first: the minutes are told in one week.

        On very small paper what is higher than a page is left out.
        """
        full, short = self._above(body.width), self._short(body.width)
        told = [full] if self.week.later or not self.again else [full, short]
        return [b for b in told if b.height <= body.height] or [short]

    def _around(self, above: Block, body: Rect) -> list[tuple[list[Block], list[Block]]]:
        """Return what may stand before and after the days where they take several pages."""
        rules = stack(self._rules(body.width), 0.4)
        ends = [self._on(body.width), self._listed(body.width)] if self.week.on else [EMPTY]
        ways = [
            (first, [end, *last])
            for end in ends
            for first, last in (([above], [rules]), ([above, rules], []))
        ]

        def held(blocks: Sequence[Block]) -> list[Block]:
            return [block for block in blocks if block.height <= body.height]

        return [(held(first), held(last)) for first, last in ways]

    def _all_days(self, body: Rect, pad: float, most: float = math.inf) -> list[Block]:
        """Return all days in their frames, ``pad`` mm inside them.

        One of many sums that is over ``most`` mm high stands in two frames or more.
        """
        return [block for day in self.week.days for block in self._days(day, body, pad, most)]

    def _days(self, day: WeekDay, body: Rect, pad: float, most: float) -> list[Block]:
        """Return ``day`` in its frame; one that is higher than a page in two or more."""
        block = day_block(day, body.width, pad, self.style)
        high = most if len(day.sums) > MOST_SUMS else body.height
        if block.height <= min(high, body.height):
            return [block]
        half = len(day.sums) // 2
        if not half:
            raise RefusedError("form.no-week", paper=self.style.paper.name, option="margin")
        parts = replace(day, sums=day.sums[:half]), replace(day, sums=day.sums[half:], facts="")
        return [found for part in parts for found in self._days(part, body, pad, most)]

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
        for kind, key in self._wanted():
            titles = self.week.lessons if kind is SheetKind.LESSON and self.again else ()
            if key in _GUIDES:
                titles = (self.style.words(f"{key}.title"),)
            told = line(self.style.words(f"week.at_{key}"), text)
            at = Rect(told.width + 1.0, 0, room, told.height)
            pages = Item("pages_of", at, PagesOf(kind, text.size, titled=titles))
            cells.append(Block((*told.items, pages), at.right, told.height))
        return wrapped(cells, width, 4.0, 0.4) if cells else EMPTY

    def _wanted(self) -> Iterator[tuple[SheetKind, str]]:
        """Yield the kinds of pages that the week needs, and what they are called."""
        for kind in self.found:
            apart = kind is SheetKind.GUIDE and growth(self.style.look) > 1
            yield from ((kind, key) for key in (_GUIDES if apart else (str(kind),)))

    def _stages(self, width: float) -> Block:
        """Return what the pictograms of the stages mean."""
        words, sets = self.style.words, settings(self.style.look)
        stages = [
            labelled(pictogram(f"stage-{stage}", 7.0), words(f"stages.{stage}"), sets.text)
            for stage in STAGES
        ]
        return wrapped(stages, width, 4.0, 1.4)

    def _below(self, width: float) -> tuple[Block, ...]:
        """Return what may stand below the days of a week on one page, the most first."""
        text = settings(self.style.look).text
        week = self.week
        said = self._rules(width)
        rules = stack(said, 0.4)
        if not week.on:
            return rules, said[0]
        full = stack((self._on(width), rules), 2.4)
        told = " ".join(filter(None, (week.passed, week.back, week.stop)))
        ends = (lines(told, text, width), said[0], lines(week.back, text, width))
        return full, *(stack((self._listed(width), end), 0.8) for end in ends)

    def _rules(self, width: float) -> list[Block]:
        """Return when to go back, and when to stop."""
        text = settings(self.style.look).text
        told = " ".join(filter(None, (self.week.passed, self.week.back)))
        return [lines(said, text, width) for said in (told, self.week.stop) if said]

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
