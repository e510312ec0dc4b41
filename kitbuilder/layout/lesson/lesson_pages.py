"""A lesson on pages: its steps two in a row, each a picture over its words, four to a page.

Where pictures would become too small, or the paper is narrow, two steps stand one below the
other, their words below or beside the pictures.
"""

from collections.abc import Sequence
from dataclasses import replace

from kitbuilder.design.style import Style
from kitbuilder.kit.lesson.script import Taught, unanswered
from kitbuilder.layout.lesson.lesson_plan import (
    LEAST_ONE,
    MOST_STEPS,
    Numbered,
    Planned,
    Room,
    planned,
)
from kitbuilder.layout.lesson.lesson_steps import ROW_GAP, NoPictureError, cell, told_step
from kitbuilder.layout.model import Item, Rect, Sheet, SheetKind
from kitbuilder.layout.parts.block import EMPTY, Block, level, row, shared, stack
from kitbuilder.layout.parts.contents import Line
from kitbuilder.layout.parts.furniture import Foot, Heading, foot, header, rule, step_heading
from kitbuilder.layout.parts.legend import MARKS, legend, legend_row
from kitbuilder.layout.parts.settings import growth, settings
from kitbuilder.layout.parts.sheet_area import GUTTER, SheetArea
from kitbuilder.layout.parts.words import fitted, lines, wide
from kitbuilder.layout.parts.written_columns import worked
from kitbuilder.layout.picture.mat_frame import mat_frame
from kitbuilder.layout.picture.mat_picture import mat_picture

_WRITTEN, _LARGE, _LARGEST = 1.75, 4.2, 15.0
# How high digits are in the columns of a sum, in ems of the least type: larger on an empty page,
# but in mm no larger than keeps marks clear of them.

_MUCH = 60.0
_AIR = 16.0
# The most that spare height adds to a gap between steps, in mm.


def lesson_sheets(lesson: Taught, first: int, style: Style) -> tuple[Sheet, ...]:
    """Return the pages of ``lesson``, the first numbered ``first`` among those of its kind."""
    area = SheetArea.upright(style.paper)
    items, top = header(_heading(lesson), area, style)
    body = area.body(top)
    noted = any(isinstance(i.content, Line) and i.content.text == lesson.note for i in items)
    opening = _opening(lesson, area, style, led=not noted)
    lesson, plan = _roomiest(lesson, body, opening.height + ROW_GAP, style)
    pages: list[tuple[Item, ...]] = []
    if not plan and not lesson.opens:  # what opens the lesson stands on a page of its own
        plan = _plan(lesson, body, 0.0, style)
        pages.append((*items, *_alone(lesson, body, style), *foot(Foot(), area, style)))
        opening = EMPTY
    if not plan and lesson.opens:
        lesson = _unanswered(lesson)
        plan = _plan(lesson, body, opening.height + ROW_GAP, style)
    if not plan:
        raise NoPictureError(lesson.steps[0].scene)
    for some in plan:
        last = some is plan[-1]
        step = some.steps[-1][0] + 1
        goes_on = "" if last else style.words("guide_pages.goes_on", step=step)
        kept = _closing(lesson, body.width, style) if last else ()
        placed = _placed(some, opening if some is plan[0] else EMPTY, body, kept, style)
        page = (*items, *placed, *foot(Foot(goes_on), area, style))
        if last:
            page = (*page, *_ended(lesson, max(i.rect.bottom for i in placed), area, style))
        pages.append(page)
    width, height = area.page.width, area.page.height
    return tuple(
        Sheet(SheetKind.LESSON, number, "paper", width, height, page)
        for number, page in enumerate(pages, first)
    )


def _roomiest(
    lesson: Taught, body: Rect, opening: float, style: Style
) -> tuple[Taught, tuple[Planned, ...]]:
    """Return ``lesson`` and its pages; with fewer answers if so fewer pages or larger ones come."""
    least = growth(style.look) * LEAST_ONE[lesson.places] - 1e-6

    def worth(plan: tuple[Planned, ...]) -> tuple[bool, int, bool]:
        return not plan, len(plan), any(page.frame.unit < least for page in plan)

    plan = _plan(lesson, body, opening, style)
    if worth(plan) <= (False, -(-len(lesson.steps) // MOST_STEPS), False):
        return lesson, plan  # no other is better
    brief = replace(lesson, steps=tuple(map(unanswered, lesson.steps)))
    found = ((lesson, plan), (brief, _plan(brief, body, opening, style)))
    return min(found, key=lambda one: worth(one[1]))


def _unanswered(lesson: Taught) -> Taught:
    """Return ``lesson`` without the child's answers where both numbers are read in the picture."""
    steps = (
        replace(step, asked=tuple(replace(asked, says="") for asked in step.asked))
        if "read" in step.cues
        else step
        for step in lesson.steps
    )
    return replace(lesson, steps=tuple(steps))


def _plan(lesson: Taught, body: Rect, opening: float, style: Style) -> tuple[Planned, ...]:
    """Return which steps stand on which page below ``opening`` mm, none where one cannot."""
    end = _closing(lesson, body.width, style)[-1].height + ROW_GAP
    first = 2 if lesson.opens else 1
    room = Room(body.width, body.height, opening, end, first, lesson.closes is not None)
    return planned(lesson.steps, lesson.places, room, style)


def _alone(lesson: Taught, body: Rect, style: Style) -> tuple[Item, ...]:
    """Return what opens a lesson on a page of its own: each mark on a line."""
    text = settings(style.look).text
    marks = (legend_row(mark, style) for mark in MARKS)
    lead = lines(lesson.lead, text, body.width)
    return shared((lead, *marks), body, 2.0, _MUCH).items


def _heading(lesson: Taught) -> Heading:
    return Heading("take", lesson.title, ("adult", "child"), lesson.note)


def _opening(lesson: Taught, area: SheetArea, style: Style, *, led: bool) -> Block:
    """Return what is said first, and the marks, or how it begins after another lesson."""
    sets, width = settings(style.look), area.whole.width
    shown = told_step(lesson.opens, 1, width, style) if lesson.opens else legend(width, style)
    lead = lines(lesson.lead, sets.text, width) if led else EMPTY
    return stack((lead, shown), 1.4)


def _placed(
    page: Planned, opening: Block, body: Rect, kept: Sequence[Block], style: Style
) -> tuple[Item, ...]:
    """Return the items of a page below its ``opening``; spare height is shared out.

    Below the last steps stands one of ``kept``, the first that there is room for.
    """
    across = page.stand.across
    rows: list[Block] = []
    for k in range(0, len(page.steps), across):
        rows += (rule(body.width),) if rows else ()
        rows.append(_row(page.steps[k : k + across], page, body.width, style))
    blocks = [opening, *rows] if opening.height else rows
    spare = body.height - sum(block.height for block in blocks) - ROW_GAP * (len(blocks) - 1)
    if len(page.steps) % across and not kept:
        more = max(0.0, spare - _AIR)
        alone = _row(page.steps[-1:], page, body.width, style, more)
        spare -= alone.height - blocks[-1].height
        blocks[-1] = alone
    ends = (block.height + ROW_GAP - 0.02 for block in kept)  # but for a thin line
    spare = max(0.0, spare - next((end for end in ends if end <= spare), 0.0))
    gap = ROW_GAP + min(_AIR, spare / max(1, len(blocks) - 1))
    found = stack(blocks, gap)
    left = spare - (gap - ROW_GAP) * (len(blocks) - 1)
    down = 0.4 * left if len(rows) == 1 and not kept else 0.0  # air above a lone row too
    return found.at(body.x, body.y + down)


def _row(
    steps: Sequence[Numbered], page: Planned, width: float, style: Style, more: float = 0.0
) -> Block:
    """Return steps beside each other, ``width`` mm wide in all.

    One alone is as wide as they, and ``more`` mm higher if so its pieces become larger.
    """
    frame, across = page.frame, page.stand.across
    if len(steps) < across:
        across = len(steps)
        high = frame.height + more
        wider = mat_frame([steps[0][1].scene], width, style, high=high, least=frame.unit)
        frame = wider or frame
    width = (width - GUTTER * (across - 1)) / across
    heads = level([step_heading(n, step.title, width, style) for n, step in steps])
    cells = [
        cell(head, mat_picture(step.scene, frame, style), step, page.stand, width, style)
        for head, (_, step) in zip(heads, steps, strict=True)
    ]
    return row(cells, GUTTER)


def _closing(
    lesson: Taught, width: float, style: Style, written: float = _WRITTEN
) -> tuple[Block, ...]:
    """Return what may end a lesson, the most first: when to stop, and the sum as ``written``."""
    end = lines(lesson.end, settings(style.look).text.quiet(), width)
    if lesson.closes:
        number = len(lesson.steps) + (2 if lesson.opens else 1)
        check = stack((rule(width), told_step(lesson.closes, number, width, style)), ROW_GAP)
        return stack((check, end), ROW_GAP), check
    return stack((_later(lesson, width, style, written), end), ROW_GAP), end


def _ended(lesson: Taught, below: float, area: SheetArea, style: Style) -> tuple[Item, ...]:
    """Return what ends a lesson, as much of it as there is room for above the foot."""
    body = area.body(below + 0.5)
    written = _LARGE if body.height > 2 * _MUCH else _WRITTEN
    closing = _closing(lesson, body.width, style, written)
    fits = (b for b in closing if b.height <= body.height)
    block = next(fits, EMPTY)
    spare = body.height - block.height
    down = spare if spare < _MUCH else 0.5 * spare  # half an empty page is air on both sides
    return block.at(body.x, body.y + down)


def _later(lesson: Taught, width: float, style: Style, size: float) -> Block:
    """Return the sum as it is worked in columns ``size`` ems high, beside what its marks are.

    They are no higher than leaves room for the heading.
    """
    sets = settings(style.look)
    own = style.counting(lesson.scale)
    written = worked(lesson.columns, min(_LARGEST, size * sets.least.size), own)
    room, heading = width - written.width - GUTTER, style.words("guide_pages.later")
    if size > _WRITTEN and wide(heading, sets.text) > room:
        return _later(lesson, width, style, _WRITTEN)
    said = stack(
        (
            fitted(heading, sets.heading, room, sets.text.size),
            lines(style.words("guide_pages.later_told"), sets.text, room),
        ),
        0.8,
    )
    (line,) = rule(width, "rule").items
    beside = written.at(width - written.width, 1.5)
    return Block(
        (line, *said.at(0, 3.0), *beside), width, max(written.height + 1.5, said.height + 3.0)
    )
