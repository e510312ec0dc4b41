"""Strips on pages: each kind of sum a heading and its few small pictures, two in a row."""

from collections.abc import Iterator
from itertools import product

from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError
from kitbuilder.kit.lesson.script import LessonStep
from kitbuilder.kit.lesson.strips import Strip, Strips
from kitbuilder.layout.model import Sheet, SheetKind
from kitbuilder.layout.parts.block import Block, paged, row, stack
from kitbuilder.layout.parts.furniture import (
    Heading,
    header,
    paper_sheets,
    step_heading,
)
from kitbuilder.layout.parts.mat_frame import MatFrame, mat_frame
from kitbuilder.layout.parts.mat_picture import mat_picture
from kitbuilder.layout.parts.settings import growth, settings
from kitbuilder.layout.parts.sheet_area import GUTTER, SheetArea
from kitbuilder.layout.parts.speech import exchange_of_words
from kitbuilder.layout.parts.words import fitted, lines

LEAST_ONE = 1.9
"""The least width in mm of a one in a strip."""

MOST_ONE = 2.2
"""The widest in the usual look: strips are small pictures."""

_GAP, _CLOSE = 2.0, 0.6


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
    blocks = [lead, *_every_strip(strips, body.width, room, style)]
    pages = paged(blocks, body, _GAP)
    ended = paged((*blocks, end), body, _GAP)
    pages = ended if len(ended) == len(pages) else pages  # the last words are worth no page
    return paper_sheets(SheetKind.LESSON, items, pages, area, style, first)


def _every_strip(strips: Strips, width: float, height: float, style: Style) -> list[Block]:
    """Return the rows of all strips, as many on a page as large enough pictures allow.

    ``height`` mm is what a page has for them.
    """
    heading = settings(style.look).heading.lead + _CLOSE
    least = (growth(style.look) * LEAST_ONE, LEAST_ONE)
    every = _rows(strips, 2)
    wide = ((growth(style.look) * MOST_ONE, every),)  # the largest where no page is lost by it
    for one, rows_a_page in (*wide, *product(least, range(every, 0, -1))):
        headings = heading * min(len(strips.strips), rows_a_page)
        room = (width, (height - headings) / rows_a_page - _GAP)
        try:
            rows = [row for strip in strips.strips for row in _strip(strip, room, one, style)]
        except _TooLowError:
            continue
        if len(rows) <= rows_a_page or rows_a_page <= 2:
            return rows
    raise RefusedError("page.too-low", field="paper", width=width, height=height, high=height + 1)


class _TooLowError(Exception):
    """A strip's pictures do not fit the height they were given."""


def _rows(strips: Strips, across: int) -> int:
    return sum(-(-len(strip.steps) // across) for strip in strips.strips)


def _strip(strip: Strip, room: tuple[float, float], least: float, style: Style) -> Iterator[Block]:
    """Yield the rows of one strip in ``room`` (mm) each, the first under its heading."""
    width, high = room
    sets = settings(style.look)
    heading = fitted(strip.title, sets.heading, width, sets.text.size)
    for across in (2, 1):
        each = (width - GUTTER * (across - 1)) / across
        frame = _frame(strip, (each, high), least, style)
        if frame is not None:
            break
    else:
        raise _TooLowError
    cells = [_cell(n, step, frame, each, style) for n, step in enumerate(strip.steps, 1)]
    above: tuple[Block, ...] = (heading,)
    for start in range(0, len(cells), across):
        yield stack((*above, row(cells[start : start + across], GUTTER)), _CLOSE)
        above = ()


def _frame(strip: Strip, cell: tuple[float, float], least: float, style: Style) -> MatFrame | None:
    """Return the frame of a strip's pictures in cells of that width and height, or None."""
    width, high = cell
    try:
        words = max(_around(step, width, style) for step in strip.steps)
    except RefusedError:  # a word is wider than the cell
        return None
    scenes = [step.scene for step in strip.steps]
    left = high - words
    frame = mat_frame(scenes, width, style, high=left, least=least)
    most = MOST_ONE * growth(style.look)
    while frame is not None and frame.unit > most:
        left = frame.height - max(0.25, 10 * (frame.unit - most))  # ten ones high at the least
        frame = mat_frame(scenes, width, style, high=left, least=least) or frame
        if frame.height > left + 1e-6:
            break
    return frame


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
