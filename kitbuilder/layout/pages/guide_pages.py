"""Turns the guide's stages into sheets: paragraphs, and steps with their pictures beside them."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import product

from kitbuilder.design import metrics
from kitbuilder.design.load import Look
from kitbuilder.design.style import Style
from kitbuilder.kit.advice import WrongAnswers
from kitbuilder.kit.lesson.script import Taught
from kitbuilder.kit.lesson.strips import Strips
from kitbuilder.kit.lesson.writing import Writing
from kitbuilder.kit.records import Blanks, Block, Say, Shown, Ticked
from kitbuilder.layout.lesson.lesson_pages import lesson_sheets
from kitbuilder.layout.lesson.strip_pages import strip_sheets
from kitbuilder.layout.lesson.writing_pages import writing_sheets
from kitbuilder.layout.lesson.wrong_pages import wrong_sheets
from kitbuilder.layout.model import Item, Rect, Sheet, SheetKind
from kitbuilder.layout.page import Page
from kitbuilder.layout.pages.scene import Room, placed
from kitbuilder.layout.text.flow import ADULT_INSET, Figure, Group, flow, paragraph
from kitbuilder.number.written import Column

UNITS = (2.2, 2.0, 1.8, 1.6, 1.4, 1.2, 1.0)
"""Widths in mm of a one in the guide's pictures: the first that costs no page is taken."""

DIGIT = 4.2
"""Size in mm of the digits of a written sum beside a picture."""

_ASIDE = 5.0
_BELOW = (3.0, 1.5)
_ROW = 9.0
_COLUMN = 22.0
_WORDS = 42.0
# In mm: beside a picture; below it, and where that saves a page; the height of a row to fill in;
# the least width of a column, and of the words beside a picture.

_SHARES = (0.55, 0.45, 0.37)
_WRITTEN = 0.8
# Of the page's width: what pictures take, and where that saves a page; of this, what they take
# where a written sum stands beside them.


@dataclass(frozen=True, slots=True)
class WrittenFigure:
    """A written sum to draw, ``size`` mm the height of its digits."""

    columns: tuple[Column, ...]
    size: float


@dataclass(frozen=True, slots=True)
class TickBox:
    """A box to tick."""


@dataclass(frozen=True, slots=True)
class BlankTable:
    """A table to fill in: the headings and the left edge of each column in mm, and rows."""

    headings: tuple[str, ...]
    columns: tuple[float, ...]
    rows: int
    row_height: float


def guide_sheets(
    kind: SheetKind, stages: Sequence[Sequence[Block]], style: Style
) -> tuple[Sheet, ...]:
    """Return ``stages``, each of which begins a new page; lessons stand at the end."""
    page = Page.upright(style.paper)
    area = page.inside.inset(ADULT_INSET)
    found: list[Sheet] = []
    for stage in stages:
        own = [sheet.kind for sheet in found]
        lessons, others = own.count(SheetKind.LESSON), own.count(kind)
        match stage[0]:
            # the first lesson is for now, those for further kinds of sums for when they are ready
            case Taught() as lesson:
                pages = lesson_sheets(lesson, lessons + 1, style)
                found += (replace(sheet, later=lessons > 0) for sheet in pages)
            case Strips() as strips:
                pages = strip_sheets(strips, lessons + 1, style)
                found += (replace(sheet, later=True) for sheet in pages)
            case Writing() as writing:
                found += writing_sheets(writing, others + 1, style)
            case WrongAnswers() as wrong:
                found += wrong_sheets(wrong, others + 1, style)
            case _:
                for number, items in enumerate(_stage_pages(stage, area, style.look), others + 1):
                    found.append(Sheet(kind, number, "paper", page.width, page.height, items))
    return tuple(sorted(found, key=lambda sheet: sheet.kind is SheetKind.LESSON))


def _stage_pages(stage: Sequence[Block], area: Rect, look: Look) -> tuple[tuple[Item, ...], ...]:
    """Return ``stage`` on the fewest pages, its pictures as large as these allow."""
    best: tuple[tuple[Item, ...], ...] = ()
    for way in product(UNITS, _SHARES, _BELOW):
        pages = flow(_blocks(stage, area, look, _Way(*way)), area, look)
        if not best or len(pages) < len(best):
            best = pages
        if len(best) == 1:
            break
    return best


@dataclass(frozen=True, slots=True)
class _Way:
    """How pictures stand: ``unit`` mm the most a one may be wide, ``share`` the part of the page
    they may take across, ``below`` mm under each."""

    unit: float
    share: float
    below: float


def _blocks(blocks: Sequence[Block], area: Rect, look: Look, way: _Way) -> list[Say | Figure]:
    """Return ``blocks`` with every picture and table made into a figure for ``area``.

    Pictures of one run share their columns and their unit.
    """
    found: list[Say | Figure] = []
    run: list[Shown] = []
    for block in blocks:
        if isinstance(block, Shown):
            run.append(block)
            continue
        found += _strip(run, area, look, way)
        run = []
        if isinstance(block, Say):
            found.append(block)
        elif isinstance(block, Blanks):
            found.append(_blank_table(block, area, look))
        elif isinstance(block, Ticked):
            found.append(_ticked(block, area, look))
    return found + _strip(run, area, look, way)


def _strip(run: Sequence[Shown], area: Rect, look: Look, way: _Way) -> list[Figure]:
    if not run:
        return []
    room = Room.of((shown.scene for shown in run), look.type_mm.adult)
    unit, share = way.unit, way.share * (_WRITTEN if any(shown.columns for shown in run) else 1)
    widest = max(share * area.width, room.width(0.5))  # labels may be wider than pieces
    while room.width(unit) > widest + 1e-6 and unit > 0.5:
        unit -= 0.1
    return [_row(shown, room, unit, area, look, way.below) for shown in run]


def _row(shown: Shown, room: Room, unit: float, area: Rect, look: Look, below: float) -> Figure:
    """Return one step: its picture, what is written, and the words, side by side."""
    drawing = placed(shown.scene, room, unit)
    wide, high = room.width(unit), max(zone.bottom for zone in drawing.zones)
    items = [Item("scene", Rect(0, 0, wide, high), drawing)]
    x = wide + _ASIDE
    if shown.columns:
        digit = max(DIGIT, 1.3 * look.type_mm.least)
        size = (len(shown.columns) + 1) * 1.35 * digit, 5.2 * digit
        items.append(Item("written", Rect(x, 0, *size), WrittenFigure(shown.columns, digit)))
        x += size[0] + _ASIDE
        high = max(high, size[1])
    y = 0.0
    if area.width - x < _WORDS:  # too narrow for words beside the picture: they stand below it
        x, y = 0.0, high + 1.0
    top = y
    for said in shown.said:
        first = y == top and bool(shown.marker)
        indent = 1.8 * look.type_mm.adult if shown.marker and not first else 0.0
        style, marker = ("step", shown.marker) if first else ("body", "")
        room_left = Rect(x + indent, y, area.width - x - indent, 1)
        item, after = paragraph(Say(style, said, marker), room_left, look)  # type: ignore[arg-type]
        items.append(item)
        y = item.rect.bottom + after
    return Figure("group", area.width, max(high, y), Group(tuple(items)), below)


def _ticked(ticked: Ticked, area: Rect, look: Look) -> Figure:
    """Return a box to tick, a title beside it and what it is below."""
    size = look.type_mm.adult
    items = [Item("tick", Rect(0, 0, size, size), TickBox())]
    y = 0.0
    for said in (ticked.title, *ticked.lines):
        item, after = paragraph(
            Say("step", said), Rect(1.8 * size, y, area.width - 1.8 * size, 1), look
        )
        items.append(item)
        y = item.rect.bottom + after / 2
    return Figure("group", area.width, y, Group(tuple(items)), _BELOW[0] / 2)


def _blank_table(blanks: Blanks, area: Rect, look: Look) -> Figure:
    """Return the table with columns as wide as their headings; the last takes what is left.

    It has narrower columns, fewer rows and lacks its last column where the page is small.
    """
    size = look.type_mm.adult
    words = [metrics.width(heading, size) + 3 for heading in blanks.headings]
    wide = [max(_COLUMN, word) for word in words]
    wide = wide if sum(wide) <= area.width else words
    while sum(wide) > area.width:
        wide = wide[:-1]
    edges = tuple(sum(wide[:k]) for k in range(len(wide)))
    rows = min(blanks.rows, int(0.7 * area.height / _ROW) - 1)
    table = BlankTable(blanks.headings[: len(wide)], edges, rows, _ROW)
    return Figure("blank_table", area.width, (rows + 1) * _ROW, table)
