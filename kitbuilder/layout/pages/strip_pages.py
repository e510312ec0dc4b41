"""Strips on pages: each kind of sum a heading and its few small pictures, two in a row."""

from collections.abc import Iterator, Sequence

from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError
from kitbuilder.kit.lesson.script import LessonStep
from kitbuilder.kit.lesson.strips import Strip, Strips
from kitbuilder.layout.model import Sheet, SheetKind
from kitbuilder.layout.parts.block import Block, row, shared, stack
from kitbuilder.layout.parts.furniture import Foot, Heading, foot, header, step_heading
from kitbuilder.layout.parts.mat_frame import MatFrame, mat_frame
from kitbuilder.layout.parts.mat_picture import mat_picture
from kitbuilder.layout.parts.settings import settings
from kitbuilder.layout.parts.sheet_area import GUTTER, SheetArea
from kitbuilder.layout.parts.speech import exchange_of_words
from kitbuilder.layout.parts.words import fitted, lines

LEAST_ONE = 1.9
"""The least width in mm of a one in a strip."""

_GAP, _CLOSE, _MUCH = 2.0, 0.6, 70.0


def strip_sheets(strips: Strips, first: int, style: Style) -> tuple[Sheet, ...]:
    """Return the pages of ``strips``, on one if they fit, numbered from ``first`` on."""
    area = SheetArea.upright(style.paper)
    items, top = header(Heading("take", strips.title, ("adult", "child")), area, style)
    body = area.body(top)
    text = settings(style.look).text
    lead, end = (
        lines(said, setting, body.width)
        for said, setting in ((strips.lead, text), (strips.end, text.quiet()))
    )
    room = body.height - lead.height - end.height - _GAP
    blocks = [lead, *_every_strip(strips, body.width, room, style), end]
    sheets: list[Sheet] = []
    while blocks:
        taken = _fitting(blocks, body.height)
        # a page with little on it spreads it, so that no third of it is empty
        placed = shared(blocks[:taken], body, _GAP, _MUCH)
        spare = body.height - placed.height
        if spare > body.height / 4:
            placed = placed.moved(0, 0.4 * spare)
        page = (*items, *placed.items, *foot(Foot(), area, style))
        number = first + len(sheets)
        sheets.append(
            Sheet(SheetKind.LESSON, number, "paper", area.page.width, area.page.height, page)
        )
        blocks = blocks[taken:]
    return tuple(sheets)


def _every_strip(strips: Strips, width: float, height: float, style: Style) -> list[Block]:
    """Return the rows of all strips, as many on a page as large enough pictures allow.

    ``height`` mm is what a page has for them.
    """
    heading = settings(style.look).heading.lead + _CLOSE
    for rows_a_page in range(_rows(strips, 2), 0, -1):
        headings = heading * min(len(strips.strips), rows_a_page)
        high = (height - headings) / rows_a_page - _GAP
        try:
            rows = [row for strip in strips.strips for row in _strip(strip, high, width, style)]
        except _TooLowError:
            continue
        if len(rows) <= rows_a_page or rows_a_page <= 2:
            return rows
    raise RefusedError("page.too-low", field="paper", width=width, height=height, high=height + 1)


class _TooLowError(Exception):
    """A strip's pictures do not fit the height they were given."""


def _rows(strips: Strips, across: int) -> int:
    return sum(-(-len(strip.steps) // across) for strip in strips.strips)


def _fitting(blocks: Sequence[Block], height: float) -> int:
    """Return how many of ``blocks`` one page takes."""
    taken, high = 1, blocks[0].height
    while taken < len(blocks) and high + _GAP + blocks[taken].height <= height + 1e-6:
        high += _GAP + blocks[taken].height
        taken += 1
    return taken


def _strip(strip: Strip, high: float, width: float, style: Style) -> Iterator[Block]:
    """Yield the rows of one strip, ``high`` mm at most, the first under its heading."""
    sets = settings(style.look)
    heading = fitted(strip.title, sets.heading, width, sets.text.size)
    for across in (2, 1):
        each = (width - GUTTER * (across - 1)) / across
        frame = _frame(strip, high, each, style)
        if frame is not None:
            break
    else:
        raise _TooLowError
    cells = [_cell(n, step, frame, each, style) for n, step in enumerate(strip.steps, 1)]
    above: tuple[Block, ...] = (heading,)
    for start in range(0, len(cells), across):
        yield stack((*above, row(cells[start : start + across], GUTTER)), _CLOSE)
        above = ()


def _frame(strip: Strip, high: float, width: float, style: Style) -> MatFrame | None:
    """Return the frame of a strip's pictures in cells of ``width`` by ``high`` mm, or None."""
    try:
        words = max(_around(step, width, style) for step in strip.steps)
    except RefusedError:  # a word is wider than the cell
        return None
    scenes = [step.scene for step in strip.steps]
    return mat_frame(scenes, width, style, high=high - words, least=LEAST_ONE)


def _around(step: LessonStep, width: float, style: Style) -> float:
    heading = step_heading(1, step.title, width, style)
    return heading.height + _said(step, width, style).height + 2 * _CLOSE


def _said(step: LessonStep, width: float, style: Style) -> Block:
    return stack((exchange_of_words(a.asks, a.says, width, style) for a in step.asked), _CLOSE)


def _cell(number: int, step: LessonStep, frame: MatFrame, width: float, style: Style) -> Block:
    """Return one move: number and heading, picture, question."""
    parts = (
        step_heading(number, step.title, width, style),
        mat_picture(step.scene, frame, style),
        _said(step, width, style),
    )
    found = stack(parts, _CLOSE)
    return Block(found.items, width, found.height)
