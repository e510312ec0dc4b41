"""Strips on pages: each kind of sum a heading and its few small pictures, two in a row."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError
from kitbuilder.frozen import frozen
from kitbuilder.kit.lesson.mat_scenes import MatScene
from kitbuilder.kit.lesson.moments import counted
from kitbuilder.kit.lesson.script import LessonStep
from kitbuilder.kit.lesson.strips import Strip, Strips
from kitbuilder.layout.model import Rect, Sheet, SheetKind
from kitbuilder.layout.parts.block import Block, paged, row, stack
from kitbuilder.layout.parts.furniture import (
    Heading,
    header,
    paper_sheets,
    step_heading,
)
from kitbuilder.layout.parts.settings import growth, settings
from kitbuilder.layout.parts.sheet_area import GUTTER, SheetArea
from kitbuilder.layout.parts.speech import exchange_of_words
from kitbuilder.layout.parts.words import fitted, lines
from kitbuilder.layout.picture.frame_records import MatFrame
from kitbuilder.layout.picture.mat_frame import mat_frame
from kitbuilder.layout.picture.mat_picture import mat_picture

LEAST_ONE = 1.9
"""The least width in mm of a one in a strip."""

ONES = (2.2, 2.1, 2.0, LEAST_ONE)
"""How wide a one may be in the usual look, the widest first: strips are small pictures."""

LARGER = (3.2, 2.9, 2.6, 2.4)
"""The same where the page has room for them."""

_GAP, _CLOSE = 2.0, 0.6
_PARTS = (0.85, 0.6)
# Of a frame's height, at which widths of a one are compared: as high as it can be it may differ.
_BOTH = {"read", "push"}
_HARDLY = 0.009
# How much wider ones may be than asked for, in mm.


@frozen
class _Way:
    """How strips may stand: with ones ``one`` mm wide, and whether the part is ``laid`` all along.

    If not, it is numbers alone until both parts are looked at. Pictures are ``drawn`` once it is
    known which way takes the fewest pages; until then they only take their room.
    """

    one: float
    laid: bool
    drawn: bool = False


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
    blocks = [lead, *_every_strip(strips, body, lead, style)]
    pages = paged(blocks, body, _GAP)
    ended = paged((*blocks, end), body, _GAP)
    pages = ended if len(ended) == len(pages) else pages  # the last words are worth no page
    return paper_sheets(SheetKind.LESSON, items, pages, area, style, first)


def _every_strip(strips: Strips, body: Rect, lead: Block, style: Style) -> list[Block]:
    """Return the rows of all strips: on the fewest pages, below ``lead``, in the widest ones.

    The part lies in the pictures with its pieces if that takes no more pages. Where ones that grow
    with the words do not fit, they are as in the usual look.
    """
    grown = [growth(style.look) * one for one in ONES]
    more = [growth(style.look) * one for one in LARGER]
    usual = [_Way(one, laid) for laid in (True, False) for one in (*more, *grown)]
    for ways in (usual, [_Way(LEAST_ONE, False)]):
        found: list[tuple[int, _Way]] = []
        for way in ways:
            try:
                rows = _rows(strips, body, way, style)
            except _TooLowError:
                continue
            found.append((len(paged([lead, *rows], body, _GAP)), way))
        if found:
            best = min(found, key=lambda some: some[0])[1]
            return _rows(strips, body, replace(best, drawn=True), style)
    width, height = body.width, body.height
    raise RefusedError("page.too-low", field="paper", width=width, height=height, high=height + 1)


class _TooLowError(Exception):
    """A strip's pictures do not fit a page."""


def _rows(strips: Strips, body: Rect, way: _Way, style: Style) -> list[Block]:
    return [row for strip in strips.strips for row in _strip(strip, body, way, style)]


def _strip(strip: Strip, body: Rect, way: _Way, style: Style) -> Iterator[Block]:
    """Yield the rows of one strip, the first under its heading."""
    sets = settings(style.look)
    above = [fitted(strip.title, sets.heading, body.width, sets.text.size)]
    room = body.height - above[0].height - _CLOSE
    for across in (2, 1):
        cells = _cells(strip, (body.width - GUTTER * (across - 1)) / across, way, style)
        if cells and max(cell.height for cell in cells) <= room:
            break
    else:
        raise _TooLowError
    for start in range(0, len(cells), across):
        yield stack((*above, row(cells[start : start + across], GUTTER)), _CLOSE)
        above = []


def _cells(strip: Strip, width: float, way: _Way, style: Style) -> list[Block]:
    """Return the steps of a strip ``width`` mm wide, none where a word or the mat is wider."""
    scenes = [step.scene for step in strip.steps]
    low = _frame([counted(scene) for scene in scenes], width, way.one, style)
    full = _frame(scenes, width, way.one, style)
    if low is None or full is None:
        return []
    steps = [
        (step, full)
        if way.laid or _BOTH & {*step.cues}
        else (replace(step, scene=counted(step.scene)), low)
        for step in strip.steps
    ]
    try:
        return [
            _cell((number, step), frame, width, style, way.drawn)
            for number, (step, frame) in enumerate(steps, 1)
        ]
    except RefusedError:
        return []


def _frame(scenes: Sequence[MatScene], width: float, one: float, style: Style) -> MatFrame | None:
    """Return the frame in which all ``scenes`` have ones ``one`` mm wide, or hardly wider."""
    frame = mat_frame(scenes, width, style, least=one)
    if frame is None or frame.unit < one + _HARDLY:
        return frame
    more, less = (mat_frame(scenes, width, style, high=h * frame.height, least=0.5) for h in _PARTS)
    if more is None or less is None or less.unit >= more.unit:
        return frame
    slope = (more.height - less.height) / (more.unit - less.unit)
    high = more.height - slope * (more.unit - one - _HARDLY / 2)
    return mat_frame(scenes, width, style, high=high, least=one) or frame


def _cell(
    numbered: tuple[int, LessonStep], frame: MatFrame, width: float, style: Style, drawn: bool
) -> Block:
    """Return one move: number and heading, picture (or its room if not ``drawn``), question."""
    number, step = numbered
    parts = (
        step_heading(number, step.title, width, style),
        mat_picture(step.scene, frame, style) if drawn else Block((), frame.width, frame.height),
        *(exchange_of_words(a.asks, a.says, width, style) for a in step.asked),
    )
    return stack(parts, _CLOSE).as_wide(width)
