"""A lesson on pages: its steps two in a row, each a picture over its words, four to a page.

Where pictures would become too small, or the paper is narrow, the steps stand one below the
other, two to a page.
"""

from collections.abc import Sequence

from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError
from kitbuilder.frozen import frozen
from kitbuilder.kit.lesson.script import LessonStep, Taught
from kitbuilder.layout.model import Item, Rect, Sheet, SheetKind
from kitbuilder.layout.parts.block import EMPTY, Block, level, row, shared, stack
from kitbuilder.layout.parts.columns import worked
from kitbuilder.layout.parts.contents import Rule
from kitbuilder.layout.parts.furniture import Foot, Heading, foot, header, rule, step_heading
from kitbuilder.layout.parts.legend import MARKS, legend, legend_row
from kitbuilder.layout.parts.mat_frame import MatFrame, mat_frame
from kitbuilder.layout.parts.mat_picture import mat_picture
from kitbuilder.layout.parts.settings import growth, settings
from kitbuilder.layout.parts.sheet_area import GUTTER, SheetArea
from kitbuilder.layout.parts.speech import exchange_of_words
from kitbuilder.layout.parts.words import fitted, lines

_MUCH = 60.0

LEAST_ONE = {1: 2.7, 2: 2.7, 3: 2.2, 4: 1.7}
"""The least width in mm of a one in a lesson's pictures, by the places of its sum."""

SMALLEST_ONE = 1.9
"""The same where a page cannot hold more."""

_ROW_GAP, _UNDER_HEADING, _UNDER_PICTURE, _AIR = 2.0, 0.4, 0.8, 9.0
_VOICES = 0.5


def lesson_sheets(lesson: Taught, first: int, style: Style) -> tuple[Sheet, ...]:
    """Return the pages of ``lesson``, the first numbered ``first`` among those of its kind."""
    area = SheetArea.upright(style.paper)
    way = _way(lesson, area, style)
    items, top = header(_heading(lesson), area, style)
    body = area.body(top)
    pages: list[tuple[Item, ...]] = []
    opening = _opening(lesson, area, style)
    if way.apart:
        pages.append((*items, *_alone(lesson, body, style), *foot(Foot(), area, style)))
        opening = EMPTY
    left = list(enumerate(lesson.steps, 1))
    kept = _closing(lesson, body.width, style)
    while left:
        taken, placed = _filled(left, opening, way, body, style, kept)
        left, opening = left[taken:], EMPTY
        goes_on = style.words("guide_pages.goes_on", step=left[0][0]) if left else ""
        page = (*items, *placed, *foot(Foot(goes_on), area, style))
        if not left:
            page = (*page, *_ended(lesson, max(i.rect.bottom for i in placed), area, style))
        pages.append(page)
    width, height = area.page.width, area.page.height
    return tuple(
        Sheet(SheetKind.LESSON, number, "paper", width, height, page)
        for number, page in enumerate(pages, first)
    )


def _alone(lesson: Taught, body: Rect, style: Style) -> tuple[Item, ...]:
    """Return what opens a lesson on a page of its own: each mark on a line."""
    text = settings(style.look).text
    marks = (legend_row(mark, style) for mark in MARKS)
    return shared((lines(lesson.lead, text, body.width), *marks), body, 2.0, _MUCH).items


def _heading(lesson: Taught) -> Heading:
    return Heading("take", lesson.title, ("adult", "child"))


@frozen
class _Way:
    """How a lesson's steps stand: how many in a row, and the frame of their pictures.

    What opens the lesson stands on a page of its own where it is ``apart``.
    """

    across: int
    frame: MatFrame
    apart: bool


def _way(lesson: Taught, area: SheetArea, style: Style) -> _Way:
    """Return the way with the most steps on a page whose ones are large enough."""
    top = header(_heading(lesson), area, style)[1]
    room = area.body(top).height
    opening = _opening(lesson, area, style).height + _ROW_GAP
    grows = growth(style.look)
    least = grows * LEAST_ONE[lesson.places]
    small = min(least, grows * SMALLEST_ONE)
    end = _closing(lesson, area.whole.width, style)[-1].height + _ROW_GAP
    for first, last in ((opening, end), (opening, 0.0), (0.0, 0.0)):
        for across, rows, wanted in (
            (2, 2, least),
            (2, 2, small),
            (1, 2, least),
            (1, 2, small),
            (2, 1, small),
            (1, 1, small),
            (1, 1, SMALLEST_ONE),
        ):
            if last and (across, rows, wanted) != (2, 2, least):
                continue  # what is next is worth no smaller pictures
            width = (area.whole.width - GUTTER * (across - 1)) / across
            high = _high(lesson, across, rows, (width, room, first, last), style)
            scenes = [step.scene for step in lesson.steps]
            frame = high and mat_frame(scenes, width, style, high=high, least=wanted)
            if frame:
                return _Way(across, frame, apart=not first)
    whole = area.whole
    raise RefusedError(
        "page.too-low", field="paper", width=whole.width, height=whole.height, high=room + 1
    )


def _high(
    lesson: Taught, across: int, rows: int, room: tuple[float, float, float, float], style: Style
) -> float | None:
    """Return how high pictures may be where ``rows`` of steps stand on a page.

    ``room`` is the width of a step, the height of a page and what of the first and of the last is
    taken, in mm.
    None where a word is wider than a step.
    """
    width, height, taken, end = room
    try:
        around = [_around(step, width, style) for step in lesson.steps]
    except RefusedError:
        return None
    runs = [around[k : k + across] for k in range(0, len(around), across)]
    beside = [max(above for above, _ in run) + max(below for _, below in run) for run in runs]
    pages = [beside[k : k + rows] for k in range(0, len(beside), rows)]
    ends = [0.0] * (len(pages) - 1) + [end]  # what is next stands below the last steps
    return min(
        (height - (0.0 if k else taken) - 2 * _ROW_GAP * (rows - 1) - ends[k] - sum(some))
        / len(some)
        for k, some in enumerate(pages)
    )


def _around(step: LessonStep, width: float, style: Style) -> tuple[float, float]:
    """Return how high what stands above a step's picture is, and what stands below, in mm."""
    heading = step_heading(1, step.title, width, style)
    words = _words(step, width, style)
    return heading.height + _UNDER_HEADING, _UNDER_PICTURE + words.height


def _opening(lesson: Taught, area: SheetArea, style: Style) -> Block:
    sets, width = settings(style.look), area.whole.width
    return stack((lines(lesson.lead, sets.text, width), legend(width, style)), 1.4)


def _filled(
    left: Sequence[tuple[int, LessonStep]],
    opening: Block,
    way: _Way,
    body: Rect,
    style: Style,
    kept: Sequence[Block],
) -> tuple[int, tuple[Item, ...]]:
    """Return how many steps one page takes, and their items; spare height is shared out."""
    width = (body.width - GUTTER * (way.across - 1)) / way.across
    room = body.height
    rows: list[Block] = []
    high = opening.height
    taken = 0
    while taken < len(left) and len(rows) < 2:
        beside = left[taken : taken + way.across]
        heads = level([step_heading(n, step.title, width, style) for n, step in beside])
        cells = [
            _cell(head, step, way.frame, width, style)
            for head, (_, step) in zip(heads, beside, strict=True)
        ]
        block = _levelled(cells, width)
        need = block.height + (_ROW_GAP * 2 if rows else _ROW_GAP if opening.height else 0)
        if high + need > room + 1e-6 and rows:
            break
        high += need
        rows.append(block)
        taken += len(cells)
    spare = max(0.0, room - high)
    if taken == len(left):  # what ends the lesson stands below, as much of it as there is room for
        spare -= next((k.height + _ROW_GAP for k in kept if k.height + _ROW_GAP <= spare), 0.0)
    gaps = max(1, 2 * (len(rows) - 1) + bool(opening.height))
    gap = _ROW_GAP + min(_AIR, spare / gaps)
    blocks: list[Block] = [opening] if opening.height else []
    for number, block in enumerate(rows):
        if number:
            blocks.append(rule(body.width))
        blocks.append(block)
    # a lone row that is not the last has air above it too, not all of it below
    alone = len(rows) == 1 and taken < len(left)
    gap = max(gap, _ROW_GAP + 0.4 * spare) if alone else gap
    down = 0.4 * spare if alone and not opening.height else 0.0
    return taken, stack(blocks, gap).at(body.x, body.y + down)


def _levelled(cells: Sequence[Block], width: float) -> Block:
    return row([Block(cell.items, width, cell.height) for cell in cells], GUTTER)


def _cell(head: Block, step: LessonStep, frame: MatFrame, width: float, style: Style) -> Block:
    """Return one step: number and heading, picture, what to know, what is said."""
    top = stack((head, mat_picture(step.scene, frame, style)), _UNDER_HEADING)
    return stack((top, _words(step, width, style)), _UNDER_PICTURE)


def _words(step: LessonStep, width: float, style: Style) -> Block:
    told = lines(step.told, settings(style.look).text, width) if step.told else EMPTY
    asked = (exchange_of_words(a.asks, a.says, width, style) for a in step.asked)
    return stack((told, *asked), _VOICES)


def _closing(lesson: Taught, width: float, style: Style) -> tuple[Block, ...]:
    """Return what may end a lesson, the most first: when to stop, and the sum in writing."""
    end = lines(lesson.end, settings(style.look).text.quiet(), width)
    return stack((_later(lesson, width, style), end), _ROW_GAP), end


def _ended(lesson: Taught, below: float, area: SheetArea, style: Style) -> tuple[Item, ...]:
    """Return what ends a lesson, as much of it as there is room for above the foot."""
    body = area.body(below + 0.5)
    fits = (b for b in _closing(lesson, body.width, style) if b.height <= body.height)
    block = next(fits, EMPTY)
    spare = body.height - block.height
    down = spare if spare < _MUCH else 0.45 * spare  # half an empty page is air on both sides
    return block.at(body.x, body.y + down)


def _later(lesson: Taught, width: float, style: Style) -> Block:
    """Return the sum as it is worked in columns, beside what its marks are."""
    sets = settings(style.look)
    written = worked(lesson.columns, 1.75 * sets.least.size, style)
    room = width - written.width - GUTTER
    said = stack(
        (
            fitted(style.words("guide_pages.later"), sets.heading, room, sets.text.size),
            lines(style.words("guide_pages.later_told"), sets.text, room),
        ),
        0.8,
    )
    line = Item("rule", Rect(0, 0, width, 0.01), Rule("rule"))
    beside = written.at(width - written.width, 1.5)
    return Block(
        (line, *said.at(0, 3.0), *beside), width, max(written.height + 1.5, said.height + 3.0)
    )
