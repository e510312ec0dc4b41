"""A parents' evening on one page: four pictures of what is done, and what to do at home."""

from collections.abc import Iterator

from kitbuilder.design.style import Style
from kitbuilder.kit.course.course_records import Evening, EveningMoment
from kitbuilder.layout.course.flowing import LEAST, flowing
from kitbuilder.layout.model import Sheet, SheetKind
from kitbuilder.layout.parts.block import Block, alike, beside, row, stack
from kitbuilder.layout.parts.furniture import Heading, header, pictogram, rule, step_heading
from kitbuilder.layout.parts.settings import settings
from kitbuilder.layout.parts.sheet_area import GUTTER, SheetArea
from kitbuilder.layout.parts.speech import speech
from kitbuilder.layout.parts.words import line, lines
from kitbuilder.layout.parts.written_columns import worked
from kitbuilder.layout.picture.frame_records import MatFrame
from kitbuilder.layout.picture.mat_frame import mat_frame
from kitbuilder.layout.picture.mat_picture import mat_picture

_LEAST_ONE, _PICTURE, _PARTS = 1.2, 68.0, (1.0, 0.94, 0.88, 0.8, 0.7, 0.6)
# Least width in mm of a one in a picture, the most height of a picture, and the parts of it that
# are tried: the largest that costs no page.

_NARROW = 140.0


def evening_sheets(evening: Evening, style: Style) -> tuple[Sheet, ...]:
    """Return the page of ``evening``; on narrow paper the pictures stand below each other.

    So do those of many thousands, which are too small beside each other.
    """
    whole = SheetArea.upright(style.paper).whole
    narrow = whole.width <= _NARROW * style.look.type_mm.adult / 3.9
    ways: list[tuple[Sheet, ...]] = []
    for across, tall in ((2, _PICTURE), (1, whole.height / 2))[narrow:]:
        ways = [tuple(_sheets(evening, across, part * tall, style)) for part in _PARTS]
        if any(ways):
            break
    return min((way for way in ways if way), key=len)


def _sheets(evening: Evening, across: int, high: float, style: Style) -> Iterator[Sheet]:
    """Yield pages with pictures ``high`` mm high; none where their ones would be too small.

    One alone on the first page is as high as that has room for.
    """
    words, area = style.words, SheetArea.upright(style.paper)
    width = area.whole.width
    each = (width - GUTTER * (across - 1)) / across
    scenes = [one.scene for one in evening.moments]
    frame = mat_frame(scenes, each, style, high=high, least=_LEAST_ONE)
    if frame is None:
        return
    cells = [_cell(n, one, frame, each, style) for n, one in enumerate(evening.moments, 1)]
    rows = [row(cells[k : k + across], GUTTER) for k in range(0, len(cells), across)]
    lead = lines(words("evening.lead"), settings(style.look).text, width)
    blocks = [stack((lead, rows[0]), 4.0), *rows[1:], rule(width), _home(evening, width, style)]
    heading = Heading("build", words("evening.title"), ("adult",), words("evening.note"))
    room = area.body(header(heading, area, style)[1]).height
    if across == 1 and len(alike(blocks, room, LEAST)[0]) == 1:
        most = frame.height + room - blocks[0].height
        larger = mat_frame(scenes, each, style, high=most, least=frame.unit) or frame
        blocks[:1] = lead, _cell(1, evening.moments[0], larger, each, style)
    yield from flowing(SheetKind.EVENING, heading, blocks, style)


def _cell(number: int, one: EveningMoment, frame: MatFrame, width: float, style: Style) -> Block:
    heading = step_heading(number, one.title, width, style)
    told = lines(one.told, settings(style.look).text, width)
    return stack((heading, mat_picture(one.scene, frame, style), told), 1.0).as_wide(width)


def _home(evening: Evening, width: float, style: Style) -> Block:
    """Return what to do at home, beside the sum as it is written."""
    words, sets = style.words, settings(style.look)
    written = worked(
        evening.columns, 1.6 * sets.text.size, style.counting(evening.sum.short().scale)
    )
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
