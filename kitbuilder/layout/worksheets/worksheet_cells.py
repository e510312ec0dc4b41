"""One sum on a worksheet: its columns, the estimate, room to draw, the adding check."""

from collections.abc import Iterator

from kitbuilder.design.style import Style
from kitbuilder.frozen import frozen
from kitbuilder.kit.course.course_records import Asked, Worksheet
from kitbuilder.kit.lesson.drawn_by_hand import drawn
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.block import Block
from kitbuilder.layout.parts.contents import Panel, Rule
from kitbuilder.layout.parts.furniture import pictogram
from kitbuilder.layout.parts.settings import Setting, growth, settings
from kitbuilder.layout.parts.words import lines, placed_line, wide
from kitbuilder.layout.parts.written_columns import (
    Ruling,
    ruled,
    solved,
    solved_addition,
    without_zeros,
)
from kitbuilder.layout.worksheets.drawn import drawn_within
from kitbuilder.number import PLACES, Sum
from kitbuilder.number.course.stages import STAGES
from kitbuilder.number.written import columns

LEAST_PITCH = 8.0
"""Least width in mm of a column that a child writes in."""

_MOST_PITCH = 3.1
# Its most width, in sizes of an adult's type.

_LEAST_ROOMY, _MOST_ROOMY = 12.0, 20.0
# The same where the adding check has columns of its own; large type has less, to spare ink.

_PAD, _GAP = 3.0, 3.0
_ASIDE = 8.6
# Least room beside the columns, in sizes of an adult's type.

_ROOMY = 15.0
# From so many sizes of type on, the adding check stands beside the columns, not below them.

_LEAST_LINE = 2.8
# The least width of a place to write in of the check, in sizes of type: two digits of a child.

_CHECK, _LEAST_DRAWN = 7.4, 12.0
# Height in mm of the adding check in one line, and of the least room to draw.

_NEARLY, _SHORT = 0.85, 18.0
# So wide, as a part of what they could be, are columns above longer lines of a check; in mm, a
# line for an estimate is short.

_LEAST_DRAWN_DOT, _MOST_DRAWN = 0.8, 2.0
# Least and most width in mm of a dot in the drawing on a key.

_MOST_NUMERAL = 1.7
# The most height of a sum for pieces alone, in heights of a card's numerals.

_NARROW, _WIDE, _TWO_MARKS, _LOW = 3, 1.6, 1.3, 1.15
# With more places a column is so wide, and so high its room for marks, in pitches: two numbers
# stand there above each other in two columns; and so high at least where they do in one.

_MOVES = ("build", "take", "exchange", "push")


def least_cell(sheet: Worksheet, width: float, style: Style) -> tuple[float, float]:
    """Return the least width and height in mm of a sum's place that is to be ``width`` mm wide."""
    across, down = (_least_pitch(style) * v for v in _ruling(sheet, style).size(_places(sheet)))
    low = 0.0 if _beside(width - 2 * _PAD - across, style) else _check_high(style)
    words = 2.6 * _mark(style)
    return across + _least_aside(sheet, style) + 2 * _PAD, max(down + low, words + low) + 2 * _PAD


def _least_aside(sheet: Worksheet, style: Style) -> float:
    """Return the least room in mm beside the columns: an estimate clear of its stage's picture."""
    text = settings(style.look).text
    about = wide(sheet.words.about, text) + 1.6 + wide("888", text) + 2.0 + 2.0
    return max(_ASIDE * style.look.type_mm.adult, _GAP + about + _mark(style))


def _least_pitch(style: Style) -> float:
    """Return the least width of a column; two numbers stand above each other over a digit."""
    return max(LEAST_PITCH, 1.95 * style.look.type_mm.least)


def _mark(style: Style) -> float:
    """Return the side of a stage's pictogram, in mm."""
    return max(8.0, 1.3 * style.look.type_mm.adult)


def _check_high(style: Style) -> float:
    return max(_CHECK, 1.7 * style.look.type_mm.adult)


def _beside(room: float, style: Style) -> bool:
    """Say whether the adding check stands beside the columns, where there are ``room`` mm."""
    return room - _GAP >= _ROOMY * style.look.type_mm.adult


def _places(sheet: Worksheet) -> int:
    return max([asked.sum.places for asked in sheet.asked], default=3)


def is_wide(sheet: Worksheet) -> bool:
    """Say whether the sums of ``sheet`` need the width of a page: those of four places do."""
    return _places(sheet) > _NARROW


def _ruling(sheet: Worksheet, style: Style) -> Ruling:
    """Return how all columns of ``sheet`` are ruled, marks in two rows where a sum needs them."""
    if not is_wide(sheet):
        marks = (c.marks for asked in sheet.asked for c in columns(asked.sum.short()))
        return Ruling(marks=_LOW) if max(map(len, marks), default=0) > 1 else Ruling()
    return Ruling(
        tuple(style.words(f"column.{place}") for place in PLACES),
        _WIDE / growth(style.look),
        _TWO_MARKS,
    )


@frozen
class _Cell:
    """One place of a worksheet: the sum asked there, or None where a child may set one."""

    sheet: Worksheet
    asked: Asked | None
    style: Style

    @property
    def solved(self) -> bool:
        """Whether what the child writes is shown."""
        return self.sheet.key and self.asked is not None

    @property
    def ruling(self) -> Ruling:
        """How its columns are ruled."""
        return _ruling(self.sheet, self.style)

    @property
    def size(self) -> tuple[float, float]:
        """The width and height of its columns, in pitches."""
        return self.ruling.size(_places(self.sheet))


def cell_items(
    sheet: Worksheet, asked: Asked | None, letter: str, place: Rect, style: Style
) -> Iterator[Item]:
    """Yield one sum in its frame, called ``letter``; without one, columns left empty."""
    cell = _Cell(sheet, asked, style)
    yield Item("panel", place, Panel("none", "divider" if sheet.key else "frame", 2.2))
    inner = place.inset(_PAD)
    if asked is None and sheet.key:
        yield from _own(inner, style)
        return
    heading = settings(style.look).heading
    if asked is not None:
        yield placed_line(letter, heading, inner.x, inner.y + heading.lead / 2 - 0.6)
    if asked is not None and asked.stage == "pieces":
        yield from _with_pieces(cell, asked, inner)
        return
    roomy = _roomy_pitch(cell, inner)
    if roomy >= _LEAST_ROOMY:
        yield from _side_by_side(cell, inner, roomy)
        return
    yield from _over_its_check(cell, inner)


def _over_its_check(cell: _Cell, inner: Rect) -> Iterator[Item]:
    """Yield the sum in columns at the left, and in lines below or beside them the adding check."""
    across = cell.size[0]
    narrow = not _beside(inner.width - across * _least_pitch(cell.style), cell.style)
    pitch, check = _pitch_and_check(cell, inner, narrow=narrow)
    block = _columns(cell, pitch)
    yield from block.at(inner.x + across * pitch - block.width, inner.y)
    left = inner.x + across * pitch + _GAP
    line = _check_high(cell.style) if narrow else check  # its name stands below the columns
    side = Rect(left, inner.y, inner.right - left, inner.height - line)
    top = inner.y + settings(cell.style.look).heading.lead
    under = Rect(inner.x, top, cell.ruling.size(0)[0] * pitch, 1)
    yield from _aside(cell, side, under)
    start = inner.x if narrow else left
    yield from _check(cell, Rect(start, inner.bottom - check, inner.right - start, check))


def _pitch_and_check(cell: _Cell, inner: Rect, *, narrow: bool) -> tuple[float, float]:
    """Return how wide a column is, and how high the adding check, in mm.

    Its name stands above longer lines where there is room, alike by all sums of a sheet: below
    the columns, or beside them where it is not ``narrow``.
    """
    style = cell.style
    across, down = cell.size
    line, least = _check_high(style), _least_aside(cell.sheet, style)
    most = min(_MOST_PITCH * style.look.type_mm.adult, (inner.width - least) / across)
    if not narrow:
        drawn = any(asked.stage == "drawn" for asked in cell.sheet.asked)
        told = _mark(style) + 2 * settings(style.look).least.lead + 3.0
        taken = told + (_LEAST_DRAWN if drawn else 0.0)
        most = min(most, inner.height / down)
        return most, 2 * line if inner.height - taken >= 2 * line else line
    one, two = (min(most, (inner.height - lines * line) / down) for lines in (1, 2))
    if two >= max(_NEARLY * one, _least_pitch(style)):
        return two, 2 * line
    return one, line


def _roomy_pitch(cell: _Cell, inner: Rect) -> float:
    """Return how wide columns are if those of the adding check stand beside them."""
    across, down = cell.size
    aside = _least_aside(cell.sheet, cell.style) + 2 * _GAP
    high = inner.height - _mark(cell.style)
    most = _MOST_ROOMY / growth(cell.style.look)
    return min(most, high / down, (inner.width - aside) / (2 * across))


def _side_by_side(cell: _Cell, inner: Rect, pitch: float) -> Iterator[Item]:
    """Yield the sum in columns at the left, those of the adding check at the right."""
    across = cell.size[0] * pitch
    top = inner.y + _mark(cell.style)
    block, check = _columns(cell, pitch), _added(cell, pitch)
    yield from block.at(inner.x + across - block.width, top)
    yield from check.at(inner.right - check.width, top)
    text = settings(cell.style.look).text.quiet()
    middle = inner.y + _mark(cell.style) / 2
    left = inner.right - check.width
    yield placed_line(cell.sheet.words.check, text, left, middle)
    start = inner.x + across + _GAP
    yield from _aside(cell, Rect(start, inner.y, left - _GAP - start, inner.height))


def _added(cell: _Cell, pitch: float) -> Block:
    """The adding check in columns, ones first: what is left, what came out, the whole."""
    if cell.asked is None:
        empty: tuple[int | None, ...] = (None,) * _places(cell.sheet)
        return ruled(empty, empty, cell.ruling, pitch, cell.style, "+")
    sum_ = cell.asked.sum.short()
    style = cell.style.counting(sum_.scale)
    if cell.solved:
        return solved_addition(sum_, _ruling(cell.sheet, style), pitch, style)
    empty = (None,) * sum_.places
    return ruled(empty, empty, _ruling(cell.sheet, style), pitch, style, "+")


def _columns(cell: _Cell, pitch: float) -> Block:
    """The sum in columns to write in, with what is written there where it is solved."""
    if cell.asked is None:
        empty = (None,) * _places(cell.sheet)
        return ruled(empty, empty, cell.ruling, pitch, cell.style)
    sum_ = cell.asked.sum.short()
    style = cell.style.counting(sum_.scale)
    zeros = [0, 0]
    if cell.asked.stage == "written":  # the child writes the zeros that hold a place
        zeros = [sum_.scale.zeros(number) for number in (sum_.whole, sum_.part)]
    found, ruling = columns(sum_), _ruling(cell.sheet, style)
    if cell.solved:
        return solved(found, ruling, pitch, style, zeros)
    tops = without_zeros(zeros[0], [c.top for c in found])
    bottoms = without_zeros(zeros[1], [c.bottom for c in found])
    return ruled(tops, bottoms, ruling, pitch, style)


def _aside(cell: _Cell, side: Rect, under: Rect | None = None) -> Iterator[Item]:
    """Yield estimate, stage and day beside the columns, and below them room to draw.

    The picture of the stage stands at the right, or ``under`` the letter of the sum where there
    is room for it and the line to write on would be short.
    """
    sets = settings(cell.style.look)
    mark = _mark(cell.style)
    middle = side.y + mark / 2
    label = placed_line(cell.sheet.words.about, sets.text.quiet(), side.x, middle)
    yield label
    left = label.rect.right + 1.6
    end, at = side.right - mark - 2.0, (side.right - mark, side.y)
    if under and end - left < _SHORT and under.width >= mark:
        end, at = side.right, (under.x, under.y)
    blank = Rect(left, middle, end - left, 0.01)
    yield from _blank(blank, cell.asked.about if cell.asked and cell.solved else "", sets.text)
    below = Rect(side.x, side.y + mark + 0.8, side.width, side.height - mark - 0.8)
    if cell.asked is None:
        yield from pictogram("pencil", mark).at(*at)
        yield from lines(cell.sheet.words.own, sets.least, side.width).at(below.x, below.y)
        return
    stage = cell.asked.stage
    yield from pictogram(f"stage-{stage}", mark).at(*at)
    told = _stage(cell, cell.asked, cell.sheet.words.framed, side.width)
    high = below.height - told.height - 1.2
    if stage != "drawn" or high < _LEAST_DRAWN:
        usual = cell.sheet.words.stages[STAGES.index(stage)]
        yield from _stage(cell, cell.asked, usual, side.width).at(below.x, below.y)
        return
    yield from told.at(below.x, below.y)
    place = Rect(side.x, below.bottom - high, side.width, high - 0.4)
    yield Item("draw_place", place, Panel("paper", "write", 1.4))
    if cell.solved:
        yield from _drawn(cell.asked.sum, place.inset(1.2), cell.style)


def _stage(cell: _Cell, asked: Asked, said: str, width: float) -> Block:
    """Return what is ``said`` of a sum's stage, after its day where that is not the sheet's."""
    if (day := asked.day) not in cell.sheet.day:
        said = f"{day} {said[0].upper()}{said[1:]}" if day.endswith("?") else f"{day}: {said}"
    return lines(said, settings(cell.style.look).least, width)


def _own(inner: Rect, style: Style) -> Iterator[Item]:
    """Yield what an adult does where the child set a sum."""
    side = 1.5 * _mark(style)
    said = lines(style.words("worksheet.own"), settings(style.look).text, inner.width - side - _GAP)
    top = inner.y + (inner.height - max(side, said.height)) / 2
    yield from pictogram("pencil", side).at(inner.x, top)
    yield from said.at(inner.x + side + _GAP, top + max(0.0, side - said.height) / 2)


def _drawn(sum_: Sum, room: Rect, style: Style) -> tuple[Item, ...]:
    """``sum_`` as a child has drawn it, in the middle of ``room``, if it can be seen there."""
    most = _MOST_DRAWN * growth(style.look)
    block, unit = drawn_within(drawn(sum_)[-1], room, most)
    if unit < _LEAST_DRAWN_DOT:
        return ()
    x = room.x + (room.width - block.width) / 2
    return block.at(x, room.y + (room.height - block.height) / 2)


def _with_pieces(cell: _Cell, asked: Asked, inner: Rect) -> Iterator[Item]:
    """Yield a sum for pieces alone: what is done in pictures, and a box for what is left."""
    look = cell.style.look
    side = min(_MOST_NUMERAL * look.type_mm.numeral, inner.height / 4.2, inner.width / 9)
    setting = Setting(side, 1.05 * side)
    indent = 2.0 * settings(look).heading.size
    yield placed_line(str(asked.sum), setting, inner.x + indent, inner.y + setting.lead / 2)
    yield from pictogram("stage-pieces", 0.8 * side).at(inner.right - 0.8 * side, inner.y)
    room = inner.height - setting.lead
    step = (inner.width - indent) / len(_MOVES)
    y = inner.y + setting.lead + (room / 2 - side) / 2
    for k, name in enumerate(_MOVES):
        yield from pictogram(name, side).at(inner.x + indent + k * step, y)
    y = inner.bottom - room / 4
    yield from pictogram("left", side).at(inner.x + indent, y - side / 2)
    high = 1.25 * side
    box = Rect(inner.x + indent + 1.4 * side, y - high / 2, 3.4 * side, high)
    if cell.solved:
        yield from _blank(box.moved(0, high / 2), str(asked.sum.rest), setting)
    else:
        yield Item("answer_place", box, Panel("paper", "write", 1.4))


def _blank(blank: Rect, said: str, setting: Setting) -> Iterator[Item]:
    """Yield a line to write on in the row round ``blank``, or what is written there."""
    if not said:
        y = blank.y + 0.45 * setting.size
        yield Item("rule", Rect(blank.x, y, max(4.0, blank.width), 0.01), Rule("write"))
        return
    text = placed_line(said, setting, blank.x + 1.0, blank.y)
    high = 1.3 * setting.size
    box = Rect(blank.x, blank.y - high / 2, text.rect.width + 2.0, high)
    yield Item("digit_box", box, Panel("paper", "digit", 0.8))
    yield text


def _check(cell: _Cell, held: Rect) -> Iterator[Item]:
    """Yield the adding check: three places to write, with the signs between them.

    They stand beside its name, or in two lines' height below it; beside a pictogram where a
    name would leave too little to write in.
    """
    sets = settings(cell.style.look)
    middle = held.bottom - 0.65 * sets.text.size - 0.6
    above = held.height >= 2 * _check_high(cell.style)
    y = middle - held.height / 2 if above else middle
    label = placed_line(cell.sheet.words.check, sets.text.quiet(), held.x, y)
    gap = 1.5 * sets.text.size
    start = held.x if above else label.rect.right + 2.0
    each = (held.right - start - 2 * gap) / 3
    if each < _LEAST_LINE * sets.text.size and not above:
        side = _check_high(cell.style) - 1.0
        yield from pictogram("push", side).at(held.x, middle - side / 2)
        start = held.x + side + 2.0
        each = (held.right - start - 2 * gap) / 3
    else:
        yield label
    said = ("", "", "")
    if cell.asked and cell.solved:
        sum_ = cell.asked.sum
        said = (str(sum_.rest), str(sum_.part), str(sum_.whole))
    for k, number in enumerate(said):
        x = start + k * (each + gap)
        if number:
            x += (each - wide(number, sets.text) - 2.0) / 2
        yield from _blank(Rect(x, middle, each, 0.01), number, sets.text)
        if k < 2:
            at = start + (k + 1) * each + (k + 0.5) * gap
            yield placed_line("+="[k], sets.text, at, middle, "centre")
