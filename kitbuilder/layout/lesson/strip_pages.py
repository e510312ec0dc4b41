"""Strips on pages: each kind of sum a heading and its few small pictures, two in a row."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import product

from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError
from kitbuilder.frozen import frozen
from kitbuilder.kit.lesson.moments import counted
from kitbuilder.kit.lesson.script import LessonStep
from kitbuilder.kit.lesson.strips import Strip, Strips
from kitbuilder.layout.lesson.lesson_steps import NoPictureError, Stand, cell
from kitbuilder.layout.model import Rect, Sheet, SheetKind
from kitbuilder.layout.parts.block import EMPTY, Block, paged, row, stack
from kitbuilder.layout.parts.furniture import (
    Heading,
    header,
    paper_sheets,
    step_heading,
)
from kitbuilder.layout.parts.settings import growth, settings
from kitbuilder.layout.parts.sheet_area import GUTTER, SheetArea
from kitbuilder.layout.parts.words import fitted, lines
from kitbuilder.layout.picture.frame_records import MatFrame
from kitbuilder.layout.picture.mat_frame import mat_frame, ones_frame
from kitbuilder.layout.picture.mat_picture import mat_picture

LEAST_ONE = 1.9
"""The least width in mm of a one in a strip."""

ONES = (2.2, 2.1, 2.0, LEAST_ONE)
"""How wide a one may be in the usual look, the widest first: strips are small pictures."""

LARGER = (3.2, 2.9, 2.6, 2.4)
"""The same where the page has room for them."""

_GAP, _CLOSE = 2.0, 0.6
_TWO, _ONE = (Stand(2, 1),), (Stand(1, 1), Stand(1, 1, beside=0.68))
# Two steps in a row, or one, its words below the picture or at its right.

_BOTH = {"read", "push"}


@frozen
class _Way:
    """How strips may stand: with ones ``one`` mm wide, and whether the part is ``laid`` all along.

    If not, it is numbers alone until both parts are looked at. The check is ``checked`` in the
    room that would stay free beside a last picture. Pictures are ``drawn`` once it is
    known which way takes the fewest pages; until then they only take their room.
    """

    one: float
    laid: bool
    checked: bool = False
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
    if len(ended) > len(pages):  # the last words are worth no page
        ended = paged((*blocks[:-1], _with_end(blocks[-1], strips.end, style)), body, _GAP)
    pages = ended if len(ended) == len(pages) else pages
    return paper_sheets(SheetKind.LESSON, items, pages, area, style, first)


def _with_end(last: Block, end: str, style: Style) -> Block:
    """Return the ``last`` row with the words at the ``end`` in its right half, if there is room."""
    width = (last.width - GUTTER) / 2
    words = lines(end, settings(style.look).text.quiet(), width)
    x = last.width - width
    y = max((i.rect.bottom for i in last.items if i.rect.right > x), default=0.0) + _GAP
    return last.over(words.moved(x, y)) if y + words.height <= last.height else last


def _every_strip(strips: Strips, body: Rect, lead: Block, style: Style) -> list[Block]:
    """Return the rows of all strips: on the fewest pages, below ``lead``, in the widest ones.

    The part lies in the pictures with its pieces if that takes no more pages. Where ones that grow
    with the words do not fit, they are as in the usual look.
    """
    grown = [growth(style.look) * one for one in ONES]
    more = [growth(style.look) * one for one in LARGER]
    checks = (True, False) if any(map(_is_odd, strips.strips)) else (False,)
    usual = [_Way(*way) for way in product((*more, *grown), (True, False), checks)]
    usual.sort(key=lambda way: not way.laid)
    for ways in (usual, [_Way(LEAST_ONE, False)]):
        found: list[tuple[int, _Way]] = []
        for way in ways:
            try:
                rows = _rows(strips, body, way, style)
            except _TooLowError:
                continue
            found.append((len(paged([lead, *rows], body, _GAP)), way))
            if found[-1][0] == 1:  # no later way takes fewer
                break
        if found:
            best = min(found, key=lambda some: some[0])[1]
            return _rows(strips, body, replace(best, drawn=True), style)
    raise NoPictureError(strips.strips[0].steps[0].scene)


class _TooLowError(Exception):
    """A strip's pictures do not fit a page."""


def _rows(strips: Strips, body: Rect, way: _Way, style: Style) -> list[Block]:
    return [row for strip in strips.strips for row in _strip(strip, body, way, style)]


def _is_odd(strip: Strip) -> bool:
    """Say whether there is room for the check beside the last picture, where two are in a row."""
    return strip.check is not None and len(strip.steps) % 2 > 0


def _strip(strip: Strip, body: Rect, way: _Way, style: Style) -> Iterator[Block]:
    """Yield the rows of one strip, the first under its heading."""
    sets = settings(style.look)
    above = [fitted(strip.title, sets.heading, body.width, sets.text.size)]
    room = body.height - above[0].height - _CLOSE
    for stands in (_TWO, _ONE):
        tried = [_cells(strip, stand, body.width, way, style) for stand in stands]
        fits = [some for some in tried if some and max(cell.height for cell in some) <= room]
        if fits:
            break
    else:
        raise _TooLowError
    cells = min(fits, key=lambda some: sum(cell.height for cell in some))
    across = stands[0].across
    for start in range(0, len(cells), across):
        yield stack((*above, row(cells[start : start + across], GUTTER)), _CLOSE)
        above = []


def _cells(strip: Strip, stand: Stand, width: float, way: _Way, style: Style) -> list[Block]:
    """Return the steps of a strip as they ``stand``, none where a word or the mat is wider."""
    width = (width - GUTTER * (stand.across - 1)) / stand.across
    found = _framed(strip, stand.picture(width), way, style)

    def shown(number: int, step: LessonStep, frame: MatFrame | None) -> Block:
        head = step_heading(number, step.title, width, style)
        picture = _picture(step, frame, way, style)
        return cell(head, picture, replace(step, told=""), stand, width, style)

    try:
        cells = [shown(number, *some) for number, some in enumerate(found, 1)]
        if cells and way.checked and stand.across == 2 and strip.check and _is_odd(strip):
            frames = (_check(strip, found[-1][1], style), None)
            checks = [shown(len(cells) + 1, strip.check, frame) for frame in frames]
            # in words alone where a picture would be lower down than that beside it
            cells.append(next((c for c in checks if c.height < cells[-1].height + 0.1), checks[-1]))
        return cells
    except RefusedError:
        return []


def _framed(
    strip: Strip, width: float, way: _Way, style: Style
) -> list[tuple[LessonStep, MatFrame]]:
    """Return the steps of ``strip`` with the frames of their pictures, ``width`` mm wide."""
    scenes = [step.scene for step in strip.steps]
    low = ones_frame([counted(scene) for scene in scenes], width, way.one, style)
    full = ones_frame(scenes, width, way.one, style)
    if full is None and way.checked and strip.check:  # a zone that is never empty may be narrower
        full = low = ones_frame([*scenes, strip.check.scene], width, way.one, style)
    if low is None or full is None:
        return []
    return [
        (step, full)
        if way.laid or _BOTH & {*step.cues}
        else (replace(step, scene=counted(step.scene)), low)
        for step in strip.steps
    ]


def _check(strip: Strip, last: MatFrame, style: Style) -> MatFrame | None:
    """Return the frame of the check's picture, no higher than the ``last``, if there is one."""
    scenes = [step.scene for step in (*strip.steps, strip.check) if step]
    for some in (scenes, scenes[-1:]):
        frame = mat_frame(some, last.width, style, high=last.height + 0.01, least=LEAST_ONE)
        if frame is not None:
            return frame
    return None


def _picture(step: LessonStep, frame: MatFrame | None, way: _Way, style: Style) -> Block:
    """Return the picture of ``step``, or its room, or nothing without a ``frame``."""
    if frame is None:
        return EMPTY
    if way.drawn:
        return mat_picture(step.scene, frame, style)
    return Block((), frame.width, frame.height)
