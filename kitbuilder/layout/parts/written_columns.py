"""Written columns: worked, with their marks and strikes, or ruled to be written in."""

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from kitbuilder.design.style import Style
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.block import Block
from kitbuilder.layout.parts.contents import Panel, Rule, Strike
from kitbuilder.layout.parts.settings import Setting, settings
from kitbuilder.layout.parts.words import capital, placed_line, wide
from kitbuilder.number.sums import Sum
from kitbuilder.number.written import Column, small_ones

MARK = 0.62
"""Size of a mark above a digit, as a part of the digit's, unless the least type is larger."""

POINT = 0.3
"""Room for a decimal point between two columns, in sizes of the digits."""

_PITCH, _ROW, _CAPITAL = 0.9, 1.1, 0.7
# In sizes of the digits: from column to column, from row to row, and a digit's height.

_BESIDE, _AIRY = 0.24, 0.8
# By how many ems a frame is wider than its number, and than one that is struck through.


def worked(
    columns: Sequence[Column],
    size: float,
    style: Style,
    since: Sequence[Column] | None = None,
    rows: int = 0,
) -> Block:
    """Return a worked sum in digits of ``size`` mm; ``columns`` come ones first.

    A digit or mark that an exchange replaces is struck through; what replaces it stands above,
    where there is room for ``rows`` of marks at least. What was not yet written ``since``, the
    columns as they were, stands on a tint.
    """
    digits, small = Setting(size, size), _marks(size, style)
    marks = [str(mark) for column in columns for mark in column.marks]
    pitch = max(_PITCH * size, *(1.12 * wide(mark, small) for mark in marks), 0.1)
    rows = max(rows, *(len(column.marks) for column in columns))
    top = rows * _mark_row(small) + _CAPITAL * size / 2
    bottom = top + _ROW * size
    middles = (top, bottom, bottom + 1.24 * size)
    decimals = style.words.scale.decimals
    apart = POINT * size if decimals else 0.0
    items: list[Item] = []
    for place, column in enumerate(columns):
        x = (len(columns) - place + 0.5) * pitch + (apart if place < decimals else 0.0)
        before = None if since is None else _before(since, place, len(column.marks))
        items += _worked_column(column, before, x, middles, (digits, small))
    items.append(placed_line("−", digits, pitch / 2, bottom, "centre"))
    if decimals:
        x = (len(columns) - decimals + 1) * pitch + apart / 2
        items += _points(digits, x, middles, style)
    width = (len(columns) + 1) * pitch + apart
    rule = Rect(0.1 * pitch, bottom + 0.62 * size, width - 0.1 * pitch, 0.01)
    items.append(Item("rule", rule, Rule("sum")))
    return Block(tuple(items), width, middles[2] + _CAPITAL * size / 2 + 0.1 * size)


def _worked_column(
    column: Column,
    before: Sequence[int | None] | None,
    x: float,
    middles: tuple[float, float, float],
    settings: tuple[Setting, Setting],
) -> Iterator[Item]:
    """Yield the numbers of one column, the middles of its top, bottom and answer at ``middles``.

    What was not there ``before`` is on a tint; ``settings`` are of digits and marks.
    """
    (top, bottom, answer), (digits, small) = middles, settings
    said: list[tuple[int | None, Setting, float]] = [(column.top, digits, top)]
    for k, mark in enumerate(column.marks):
        y = top - (_CAPITAL / 2 + 0.06) * digits.size - (k + 0.5) * _mark_row(small)
        said.append((mark, small, y))
    said += [(column.bottom, digits, bottom), (column.answer, digits, answer)]
    for number, (value, setting, y) in enumerate(said):
        if value is not None:
            new = before is not None and before[number] is None
            struck = number < len(column.marks)
            yield from _number(str(value), setting, (x, y), new=new, struck=struck)


def added(sum_: Sum, size: float, style: Style) -> Block:
    """Return the parts of ``sum_`` added in columns, in digits of ``size`` mm.

    A ten that is carried is a small 1, where it is usual in the language.
    """
    digits, small = Setting(size, size), _marks(size, style)
    step = _mark_row(small) if any(small_ones(sum_)) else 0.0
    below = small_below(style)
    top = (0.0 if below else step) + _CAPITAL * size / 2
    rows = [top, top + _ROW * size, top + (_ROW + 1.24) * size]
    rule, end = top + (_ROW + 0.62) * size, rows[2] + (_CAPITAL / 2 + 0.1) * size
    pitch = _PITCH * size
    decimals = style.words.scale.decimals
    apart = POINT * size if decimals else 0.0
    width = (sum_.places + 1) * pitch + apart
    items: list[Item] = []
    for place, one in enumerate(small_ones(sum_)):
        x = (sum_.places - place + 0.5) * pitch + (apart if place < decimals else 0.0)
        for number, y in zip((sum_.part, sum_.rest, sum_.whole), rows, strict=True):
            if place < sum_.width(number):
                digit = str(number // 10**place % 10)
                items.append(placed_line(digit, digits, x, y, "centre"))
        if one:
            y = end + 0.24 * size + small.size / 2 if below else step / 2 - 0.06 * size
            items.append(placed_line("1", small, x, y, "centre"))
    items.append(placed_line("+", digits, pitch / 2, rows[1], "centre"))
    if decimals:
        x = (sum_.places - decimals + 1) * pitch + apart / 2
        items += _points(digits, x, rows, style)
    lines = [rule, end + 0.16 * size] if below else [rule]
    for y in lines:
        box = Rect(0.1 * pitch, y, width - 0.1 * pitch, 0.01)
        items.append(Item("rule", box, Rule("sum")))
    high = end + 0.16 * size + step if below else end
    return Block(tuple(items), width, high)


def small_below(style: Style) -> bool:
    """Say whether the small 1 of an addition is written below the answer, not above the sum.

    Source: DfE 2013, Mathematics programmes of study KS1-2, Appendix 1 (from memory) for below;
    common practice elsewhere.
    """
    return style.words("addition.small_one") == "below"


def _points(setting: Setting, x: float, rows: Iterable[float], style: Style) -> Iterator[Item]:
    """Yield the decimal point at ``x`` in each of the ``rows``, given by the middle of digits."""
    for y in rows:
        yield placed_line(style.words.scale.point, setting, x, y, "centre")


def _before(since: Sequence[Column], place: int, marks: int) -> tuple[int | None, ...]:
    """Return what stood in a column before: its top, as many ``marks``, bottom and answer."""
    if not since:
        return (None,) * (marks + 3)
    column = since[place]
    above = (*column.marks, *(None,) * marks)[:marks]
    return (column.top, *above, column.bottom, column.answer)


def _marks(size: float, style: Style) -> Setting:
    """Return how marks above digits of ``size`` mm are set."""
    above = max(MARK * size, style.look.type_mm.least)
    return Setting(above, above)


def _mark_row(small: Setting) -> float:
    """Return the height in mm of a row of marks above digits."""
    return (_CAPITAL + 0.27) * small.size


def _number(
    text: str, setting: Setting, at: tuple[float, float], *, new: bool, struck: bool
) -> Iterator[Item]:
    """Yield a number whose middle is ``at`` (x, y), on a tint if it is new, or struck through."""
    if new:
        yield Item("digit_box", _room(text, setting, at, 0.3), Panel("accent_tint", "digit", 0.9))
    yield placed_line(text, setting, *at, "centre")
    if struck:
        yield _strike(text, setting, at)


def _strike(text: str, setting: Setting, at: tuple[float, float]) -> Item:
    """Return the stroke through a number whose middle is ``at`` (x, y)."""
    return Item("strike", _room(text, setting, at, -0.1, 0.2), Strike(falling=True))


def _room(
    text: str, setting: Setting, at: tuple[float, float], above: float, beside: float = _BESIDE
) -> Rect:
    """Return the room of a number, so many ems higher and wider than itself."""
    across = wide(text, setting) + beside * setting.size
    down = capital(setting) + above * setting.size
    return Rect(at[0] - across / 2, at[1] - down / 2, across, down)


class Ruling(NamedTuple):
    """How columns to write in are ruled: what stands over each, ones first, or nothing does.

    A column is so ``wide`` and its room for ``marks`` so high, in pitches: 1.3 for two numbers
    above each other.
    """

    headings: Sequence[str] = ()
    wide: float = 1.0
    marks: float = 0.9

    @property
    def top(self) -> float:
        """Where the room for marks begins, in pitches."""
        return _HEAD if self.headings else 0.0

    def size(self, columns: int) -> tuple[float, float]:
        """Return the width and height of so many columns, in pitches."""
        return columns * self.wide + _SIGN, self.top + self.marks + _BELOW

    def middle(self, columns: int, place: int) -> float:
        """Return the middle of the column of ``place``, in pitches."""
        return _SIGN + (columns - place - 0.5) * self.wide


_SIGN, _HEAD, _BELOW = 0.8, 0.7, 3.3
_ROWS, _ANSWER = (0.55, 1.6), 2.72
# In pitches: room for the sign, for the headings, and below the marks; there, the middles of whole
# and part, and of the answer.


def ruled(
    tops: Sequence[int | None],
    bottoms: Sequence[int | None],
    ruling: Ruling,
    pitch: float,
    style: Style,
    sign: str = "−",
) -> Block:
    """Return columns to write in, ones first: marks, whole, part and answer.

    ``tops`` and ``bottoms`` are the digits already printed, None for those to be written. The
    marks of an addition have their place below the answer where that is usual.
    """
    count = len(tops)
    width, height = (pitch * v for v in ruling.size(count))
    left, top, marks = _SIGN * pitch, ruling.top * pitch, ruling.marks * pitch
    digits = _in_pitch(pitch, style)
    under = sign == "+" and small_below(style)
    start = top + (0.0 if under else marks)
    rows = [start + at * pitch for at in (*_ROWS, _ANSWER)]
    rule = start + 2.15 * pitch
    frame = Rect(left, top, width - left, height - top)
    items = [*_empty_columns(frame, count, height - marks if under else start)]
    head = settings(style.look).text.quiet()
    head = head.sized(max(head.size, min(0.75 * pitch, style.look.type_mm.child)))
    for place in range(count):
        x = ruling.middle(count, place) * pitch
        if ruling.headings:
            y = 0.48 * _HEAD * pitch
            items.append(placed_line(ruling.headings[place], head, x, y, "centre"))
        for y, number in zip(rows, (tops[place], bottoms[place]), strict=False):
            if number is not None:
                items.append(placed_line(str(number), digits, x, y, "centre"))
    items.append(placed_line(sign, digits, left / 2, rows[1], "centre"))
    if decimals := style.words.scale.decimals:
        x = left + (count - decimals) * ruling.wide * pitch
        items += _points(digits, x, rows, style)
    items.append(Item("rule", Rect(0, rule, width, 0.01), Rule("sum")))
    return Block(tuple(items), width, height)


def _empty_columns(frame: Rect, count: int, marks: float) -> Iterator[Item]:
    """Yield a frame of ``count`` columns, dashed at the y where the room for marks ends."""
    pitch = frame.width / count
    yield Item("columns", frame, Panel("paper", "write", min(2.2, 0.16 * pitch)))
    for k in range(1, count):
        line = Rect(frame.x + k * pitch, frame.y, 0.01, frame.height)
        yield Item("rule", line, Rule("write"))
    yield Item("rule", Rect(frame.x, marks, frame.width, 0.01), Rule("dashed"))


def _in_pitch(pitch: float, style: Style) -> Setting:
    return Setting(min(0.9 * pitch, 1.3 * style.look.type_mm.numeral), pitch)


def solved(
    columns: Sequence[Column],
    ruling: Ruling,
    pitch: float,
    style: Style,
    zeros: Sequence[int] = (0, 0),
) -> Block:
    """Return columns to write in with what a child writes in them, each number in a frame.

    ``columns`` come ones first. A number that another replaces is struck through. Of whole and
    part so many ``zeros`` at the end are for the child to write.
    """
    tops = without_zeros(zeros[0], [c.top for c in columns])
    bottoms = without_zeros(zeros[1], [c.bottom for c in columns])
    blank = ruled(tops, bottoms, ruling, pitch, style)
    digits = _in_pitch(pitch, style)
    room, start = ruling.marks * pitch, (ruling.top + ruling.marks) * pitch
    size = max(style.look.type_mm.least, min(0.4 * pitch, room / 2))
    small = Setting(size, size)
    step = room / max(1, *(len(column.marks) for column in columns))
    items: list[Item] = []
    for count, y in zip(zeros, _ROWS, strict=True):
        for place in range(count):
            x = ruling.middle(len(columns), place) * pitch
            items += _tinted("0", digits, x, start + y * pitch)
    for place, column in enumerate(columns):
        x = ruling.middle(len(columns), place) * pitch
        if column.marks:
            items.append(_strike(str(column.top), digits, (x, start + _ROWS[0] * pitch)))
        for k, mark in enumerate(column.marks):
            y, struck = start - (k + 0.5) * step, k + 1 < len(column.marks)
            items += _tinted(str(mark), small, x, y, _AIRY if struck else _BESIDE)
            if struck:
                items.append(_strike(str(mark), small, (x, y)))
        if column.answer is not None:
            items += _tinted(str(column.answer), digits, x, start + _ANSWER * pitch)
    return Block((*blank.items, *items), blank.width, blank.height)


def without_zeros(zeros: int, row: Sequence[int | None]) -> tuple[int | None, ...]:
    """Return the digits of ``row``, ones first, without so many zeros at the end."""
    return (*(None,) * zeros, *row[zeros:])


def solved_addition(sum_: Sum, ruling: Ruling, pitch: float, style: Style) -> Block:
    """Return columns for the adding check of ``sum_`` with all that a child writes in them."""
    empty = (None,) * sum_.places
    blank = ruled(empty, empty, ruling, pitch, style, "+")
    digits = _in_pitch(pitch, style)
    small = Setting(max(style.look.type_mm.least, 0.4 * pitch), 0.4 * pitch)
    under, marks, top = small_below(style), ruling.marks * pitch, ruling.top * pitch
    start = top if under else top + marks
    beside = blank.height - marks / 2 if under else top + marks / 2
    middles = [ruling.middle(sum_.places, k) * pitch for k in range(sum_.places)]
    items: list[Item] = []
    for number, y in zip((sum_.rest, sum_.part, sum_.whole), (*_ROWS, _ANSWER), strict=True):
        written = reversed(sum_.in_columns(number))
        for digit, x in zip(written, middles, strict=False):
            items += _tinted(digit, digits, x, start + y * pitch)
    for one, x in zip(small_ones(sum_), middles, strict=False):
        if one:
            items += _tinted("1", small, x, beside)
    return Block((*blank.items, *items), blank.width, blank.height)


def _tinted(
    text: str, setting: Setting, x: float, y: float, beside: float = _BESIDE
) -> tuple[Item, Item]:
    """Return a number whose middle is at (x, y) in its frame, so many ems wider."""
    radius = min(1.2, 0.14 * setting.size)
    room = _room(text, setting, (x, y), 0.26, beside)
    tint = Item("digit_box", room, Panel("paper", "digit", radius))
    return tint, placed_line(text, setting, x, y, "centre")
