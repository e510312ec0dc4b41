"""A parents' evening on one page: four pictures of what is done, and what to do at home."""

from collections.abc import Iterator

from kitbuilder.design.style import Style
from kitbuilder.kit.course.course_records import Evening, Moment
from kitbuilder.layout.course.flowing import flowing
from kitbuilder.layout.course.slip import beside
from kitbuilder.layout.model import Sheet, SheetKind
from kitbuilder.layout.parts.block import Block, row, stack
from kitbuilder.layout.parts.columns import worked
from kitbuilder.layout.parts.furniture import Heading, pictogram, rule, step_heading
from kitbuilder.layout.parts.mat_frame import MatFrame, mat_frame
from kitbuilder.layout.parts.mat_picture import mat_picture
from kitbuilder.layout.parts.settings import settings
from kitbuilder.layout.parts.sheet_area import GUTTER, SheetArea
from kitbuilder.layout.parts.speech import speech
from kitbuilder.layout.parts.words import line, lines

_LEAST_ONE, _PICTURE = 1.2, 68.0
# Least width in mm of a one in a picture, and the most height of a picture.

_NARROW = 140.0


def evening_sheets(evening: Evening, style: Style) -> Iterator[Sheet]:
    """Yield the page of ``evening``; on narrow paper the pictures stand below each other."""
    words = style.words
    width = SheetArea.upright(style.paper).whole.width
    across = 2 if width > _NARROW * style.look.type_mm.adult / 3.9 else 1
    each = (width - GUTTER * (across - 1)) / across
    frame = _frame(evening, each, style)
    cells = [_cell(n, one, frame, each, style) for n, one in enumerate(evening.moments, 1)]
    rows = [row(cells[k : k + across], GUTTER) for k in range(0, len(cells), across)]
    blocks = [
        lines(words("evening.lead"), settings(style.look).text, width),
        *rows,
        rule(width),
        _home(evening, width, style),
    ]
    heading = Heading("build", words("evening.title"), ("adult",), words("evening.note"))
    yield from flowing(SheetKind.EVENING, heading, blocks, style)


def _frame(evening: Evening, width: float, style: Style) -> MatFrame:
    scenes = [one.scene for one in evening.moments]
    for high, least in ((_PICTURE, _LEAST_ONE), (2 * _PICTURE, 0.5)):
        frame = mat_frame(scenes, width, style, high=high, least=least)
        if frame is not None:
            return frame
    raise ValueError(f"no picture of {evening.sum} fits {width} mm")


def _cell(number: int, one: Moment, frame: MatFrame, width: float, style: Style) -> Block:
    heading = step_heading(number, one.title, width, style)
    told = lines(one.told, settings(style.look).text, width)
    cell = stack((heading, mat_picture(one.scene, frame, style), told), 1.0)
    return Block(cell.items, width, cell.height)


def _home(evening: Evening, width: float, style: Style) -> Block:
    """Return what to do at home, beside the sum as it is written."""
    words, sets = style.words, settings(style.look)
    written = worked(evening.columns, 1.6 * sets.text.size, style)
    room = width - written.width - GUTTER
    side = 1.6 * sets.text.size
    said = [
        line(words("evening.home"), sets.heading),
        speech("adult", words("evening.say"), room, style),
    ]
    for picture, key in (("never", "wrong"), ("time", "stop"), ("right", "own")):
        told = lines(words(f"evening.{key}"), sets.text, room - side - 1.6)
        said.append(beside(pictogram(picture, side), told))
    left = stack(said, 1.4)
    high = max(left.height, written.height)
    items = (*left.items, *written.at(width - written.width, (high - written.height) / 2))
    return Block(items, width, high)
