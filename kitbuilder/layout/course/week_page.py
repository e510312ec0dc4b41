"""A week at a glance: each day with its sums and small facts, and boxes to tick."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError
from kitbuilder.kit.course.course_records import Asked, WeekDay, WeekPage
from kitbuilder.layout.course.slip import slip
from kitbuilder.layout.model import Item, Rect, Sheet, SheetKind
from kitbuilder.layout.parts.block import EMPTY, Block, row, stack
from kitbuilder.layout.parts.contents import Panel, Rule
from kitbuilder.layout.parts.furniture import (
    Foot,
    Heading,
    foot,
    header,
    labelled,
    pictogram,
    tick,
    wrapped,
)
from kitbuilder.layout.parts.settings import Setting, settings
from kitbuilder.layout.parts.sheet_area import GUTTER, SheetArea
from kitbuilder.layout.parts.speech import speech
from kitbuilder.layout.parts.words import fitted, line, lines, wide
from kitbuilder.number.course.stages import STAGES

MOST_SUMS = 3
"""Sums in one row of a day."""

_PAD, _GAP, _MORE = 2.6, 2.6, 9.0
# Inside a day's frame and between days, in mm; how much higher a day may become.

_NAME, _STAGE, _SMALLEST = 0.15, 7.4, 0.5
# The share of the width for a day's name; the side of a stage's pictogram, mm; the least share of
# a child's type that a sum is printed in so that all of a day stand in one row.


def week_sheets(weeks: Sequence[WeekPage], style: Style) -> Iterator[Sheet]:
    """Yield a page for each of ``weeks``, as many more as its days need."""
    area = SheetArea.upright(style.paper)
    page = area.page
    number = 0
    for week in weeks:
        for items in _Week(week, area, style).pages():
            number += 1
            yield Sheet(SheetKind.WEEK, number, "paper", page.width, page.height, items)


@dataclass(frozen=True, slots=True)
class _Week:
    """One week on the pages of ``area``."""

    week: WeekPage
    area: SheetArea
    style: Style

    def pages(self) -> Iterator[tuple[Item, ...]]:
        """Yield the items of each page; what stands above the days is on the first alone."""
        style, words = self.style, self.style.words
        heading = Heading("time", self.week.title, ("adult", "child"), words("week.note"))
        head, top = header(heading, self.area, style)
        body = self.area.body(top)
        above, below = self._above(body.width), self._below(body.width)
        days = [_day(day, body.width, style) for day in self.week.days]
        first = True
        while days:
            start = above if first else EMPTY
            room = body.height - start.height - (_GAP if first else 0.0)
            count = _fitting(days, room)
            if not count:
                raise RefusedError("form.no-week", paper=style.paper.name, option="margin")
            last = count == len(days)
            end = next((b for b in below if last and _high(days) + _GAP + b.height <= room), EMPTY)
            spare = room - _high(days[:count]) - (end.height + _GAP if end.height else 0.0)
            grown = [_grown(day, min(_MORE, 0.7 * spare / count)) for day in days[:count]]
            blocks = [b for b in (start, *grown, end) if b.height]
            gap = (body.height - sum(b.height for b in blocks)) / max(1, len(blocks) - 1)
            gap = max(_GAP - 1e-6, min(7.0, gap))
            yield (*head, *stack(blocks, gap).at(body.x, body.y), *foot(Foot(), self.area, style))
            days, first = days[count:], False
        if self.week.slip and not end.height:
            yield from self._slip_alone(head, body)

    def _slip_alone(self, head: tuple[Item, ...], body: Rect) -> Iterator[tuple[Item, ...]]:
        block = slip(body.width, self.style)
        items = block.at(body.x, body.y + 4.0)
        yield (*head, *items, *foot(Foot(), self.area, self.style))

    def _above(self, width: float) -> Block:
        """Return what every day holds, its minutes, and what the pictograms of stages mean."""
        words, sets = self.style.words, settings(self.style.look)
        daily = [
            labelled(pictogram(name, 7.0), words(f"week.daily_{name}"), sets.text)
            for name in ("slip", "take", "push")
        ]
        guess = speech("adult", words("script.guess"), width, self.style)
        stages = [
            labelled(pictogram(f"stage-{stage}", 7.0), words(f"stages.{stage}"), sets.text)
            for stage in STAGES
        ]
        line_ = Block((Item("rule", Rect(0, 0, width, 0.01), Rule("divider")),), width, 0.01)
        parts = (
            wrapped([*daily, guess], width, 4.0, 1.4),
            line_,
            wrapped(stages, width, 4.0, 1.4),
        )
        return stack(parts, 1.8)

    def _below(self, width: float) -> tuple[Block, ...]:
        """Return what may stand below the days, the most first."""
        words, sets = self.style.words, settings(self.style.look)
        stop = lines(words("week.stop"), sets.text, width)
        if self.week.slip:
            return stack((stop, slip(width, self.style)), 3.0), slip(width, self.style)
        return stack((self._on(width), stop), 2.4), stop

    def _on(self, width: float) -> Block:
        """Return when each stage is done, a cell a stage."""
        words, sets = self.style.words, settings(self.style.look)
        across = 3 if width > 150 * sets.text.size / 3.9 else 1
        each = (width - GUTTER * (across - 1)) / across
        cells = []
        for stage in STAGES[:3]:
            said = lines(words(f"week.on_{stage}"), sets.text, each - _STAGE - 2.4)
            high = max(said.height, _STAGE)
            items = (*pictogram(f"stage-{stage}", _STAGE).at(0, 0), *said.at(_STAGE + 2.4, 0))
            cells.append(Block(items, each, high))
        heading = line(words("week.on"), sets.heading)
        body = row(cells, GUTTER) if across > 1 else stack(cells, 1.4)
        return stack((heading, body), 1.0)


def _high(days: Sequence[Block]) -> float:
    return sum(day.height for day in days) + _GAP * (len(days) - 1)


def _fitting(days: Sequence[Block], room: float) -> int:
    """Return how many of ``days`` fit ``room`` mm."""
    count = 0
    while count < len(days) and _high(days[: count + 1]) <= room + 1e-6:
        count += 1
    return count


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
    """Return a day in its frame: its name, its sums with boxes to tick, how it was helped."""
    words, sets = style.words, settings(style.look)
    inner = width - 2 * _PAD
    helped = stack((tick(label, inner, style) for label in words.lines("week.helped")), 0.8)
    small = sets.heading.sized(0.8 * sets.heading.size)
    widest = (
        *(wide(w, sets.text) for w in day.note.split()),
        *(wide(w, small) for w in day.title.split()),
    )
    named = max(_NAME * inner, *widest)
    name = stack(
        (
            fitted(day.title, sets.heading, named, 0.8 * sets.heading.size),
            lines(day.note, sets.text, named) if day.note else EMPTY,
        ),
        0.6,
    )
    middle = _sums(day, inner - named - helped.width - 4 * _PAD, style)
    high = max(name.height, middle.height, helped.height)
    x = _PAD + named + 2 * _PAD
    right = width - _PAD - helped.width
    whole = Rect(0, 0, width, high + 2 * _PAD)
    items = [
        Item("day", whole, Panel("none", "zone", 2.2)),
        *(Item("between", Rect(at - _PAD, _PAD, 0.01, high), Rule("divider")) for at in (x, right)),
        *name.at(_PAD, _PAD + (high - name.height) / 2),
        *middle.at(x, _PAD + (high - middle.height) / 2),
        *helped.at(right, _PAD + (high - helped.height) / 2),
    ]
    return Block(tuple(items), width, whole.height)


def _sums(day: WeekDay, width: float, style: Style) -> Block:
    """Return a day's sums, two or three a row, with its small facts below them."""
    words, sets = style.words, settings(style.look)
    widest = max((wide(str(asked.sum), sets.child) for asked in day.sums), default=1.0)
    across = min(MOST_SUMS, max(2, len(day.sums)))
    while across > 1 and width / across < _STAGE + 4.4 + _SMALLEST * widest:
        across -= 1
    each = width / across
    size = min(1.0, (each - _STAGE - 4.4) / widest) * sets.child.size
    rows = [
        row(
            [
                Block(block.items, each, block.height)
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
    top = labelled(pictogram(f"stage-{asked.stage}", _STAGE), "", setting, 0.0)
    top = Block((*top.items[:1], *sum_.at(_STAGE + 2.0, (_STAGE - sum_.height) / 2)), width, _STAGE)
    labels = [tick(label, width, style) for label in style.words.lines("week.ticks")]
    left, taken = _STAGE + 2.0, sum(b.width for b in labels) + 2.0 * (len(labels) - 1)
    boxes = row(labels, 2.0) if taken <= width else stack(labels, 0.4)
    at = min(left, max(0.0, width - boxes.width))
    return stack((top, boxes.moved(at, 0)), 1.0)
