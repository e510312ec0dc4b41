"""When the answer is wrong, on pages: one row a mistake, written sum, picture and question."""

from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError
from kitbuilder.kit.advice import Mistake, WrongAnswers
from kitbuilder.layout.model import Sheet, SheetKind
from kitbuilder.layout.pages.child_page import pictogram_of
from kitbuilder.layout.parts.block import Block, row, shared, stack
from kitbuilder.layout.parts.child_sum import written
from kitbuilder.layout.parts.furniture import Foot, Heading, foot, header, pictogram, rule
from kitbuilder.layout.parts.mat_frame import mat_frame
from kitbuilder.layout.parts.mat_picture import mat_picture
from kitbuilder.layout.parts.settings import Setting, settings
from kitbuilder.layout.parts.sheet_area import GUTTER, SheetArea
from kitbuilder.layout.parts.speech import speech
from kitbuilder.layout.parts.words import line, lines, wide

LEAST_ONE = 1.9
"""The least width in mm of a one in the pictures."""

_GAP, _CLOSE, _MUCH = 1.6, 0.8, 60.0
_SIGN, _DIGITS, _PICTURE = 7.0, 1.75, 70.0
# Side of a mistake's pictogram in mm; size of the written digits in sizes of the text; how wide
# a picture is beside words, in mm.


def wrong_sheets(page: WrongAnswers, first: int, style: Style) -> tuple[Sheet, ...]:
    """Return the pages of ``page``, on one if they fit, numbered from ``first`` on."""
    area, sets = SheetArea.upright(style.paper), settings(style.look)
    heading = Heading("left", page.title, ("adult",), style.words("answers.note"))
    items, top = header(heading, area, style)
    body = area.body(top)
    lead = lines(page.lead, sets.text, body.width)
    other, between = _other(page, body.width, style), rule(body.width)
    blocks = [lead]
    room = body.height - lead.height - other.height - 3 * _GAP
    for mistake in _rows(page, room, body.width, style):
        blocks += [between, mistake]
    blocks += [between, other]
    sheets: list[Sheet] = []
    while blocks:
        taken, high = 1, blocks[0].height
        while taken < len(blocks) and high + _GAP + blocks[taken].height <= body.height + 1e-6:
            high += _GAP + blocks[taken].height
            taken += 1
        if taken < len(blocks) and blocks[taken - 1] is between:
            taken -= 1
        placed = shared(blocks[:taken], body, _GAP, _MUCH)
        found = (*items, *placed.items, *foot(Foot(), area, style))
        number = first + len(sheets)
        sheets.append(
            Sheet(SheetKind.GUIDE, number, "paper", area.page.width, area.page.height, found)
        )
        blocks = blocks[taken:]
        if blocks and blocks[0] is between:
            blocks = blocks[1:]
    return tuple(sheets)


def _other(page: WrongAnswers, width: float, style: Style) -> Block:
    """Return what to do about any other answer, in one line if it fits."""
    sets = settings(style.look)
    heading = line(page.other, sets.heading)
    beside = width - heading.width - 3.0
    if wide(page.other_told, sets.text) <= beside:
        said = lines(page.other_told, sets.text, beside)
        return row((heading, said.moved(0, 0.5 * (heading.height - said.height))), 3.0)
    return stack((heading, lines(page.other_told, sets.text, width)))


def _rows(page: WrongAnswers, height: float, width: float, style: Style) -> list[Block]:
    """Return the mistakes' rows, as large as a page of all of them allows, or of fewer."""
    for rows in range(len(page.mistakes), 0, -1):
        high = height / rows - 2 * _GAP
        found = [_row(mistake, high, width, style) for mistake in page.mistakes]
        if all(found):
            return [block for block in found if block]
    raise RefusedError("page.too-low", field="paper", width=width, height=height, high=height + 1)


def _row(mistake: Mistake, high: float, width: float, style: Style) -> Block | None:
    """Return one mistake ``high`` mm high at most, None where its ones would be too small."""
    sets = settings(style.look)
    size = _DIGITS * sets.text.size
    sum_ = written(mistake.sum, Setting(size, size), mistake.answer)
    sign = pictogram(pictogram_of(mistake.key), _SIGN)
    left = row((sign, sum_), 1.0)
    left = Block(left.items, max(left.width, 38.0), left.height)
    beside = width - left.width - _PICTURE - 2 * GUTTER
    is_beside = beside > 40 and sets.text.size < 5
    across = _PICTURE if is_beside else width - left.width - GUTTER
    words = _words(mistake, beside if is_beside else width, style)
    room = high if is_beside else high - words.height - _CLOSE
    frame = (
        mat_frame([mistake.scene], across, style, high=room, least=LEAST_ONE) if room > 0 else None
    )
    if frame is None or max(left.height, words.height if is_beside else 0) > high:
        return None
    picture = mat_picture(mistake.scene, frame, style)
    if is_beside:
        return row((left, picture, words), GUTTER)
    return stack((row((left, picture), GUTTER), words), _CLOSE)


def _words(mistake: Mistake, width: float, style: Style) -> Block:
    """Return a mistake's name, what happened, and the question."""
    sets = settings(style.look)
    said = (
        lines(mistake.name, sets.heading, width),
        lines(mistake.told, sets.text, width),
        speech("adult", mistake.asks, width, style),
    )
    found = stack(said, _CLOSE)
    return Block(found.items, width, found.height)
