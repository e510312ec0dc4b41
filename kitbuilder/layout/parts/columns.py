"""Written columns: worked, with their marks and strikes, or ruled to be written in."""

from collections.abc import Iterable, Iterator, Sequence

from kitbuilder.design.style import Style
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.block import Block
from kitbuilder.layout.parts.contents import Panel, Rule, Strike
from kitbuilder.layout.parts.settings import Setting, settings
from kitbuilder.layout.parts.words import capital, placed_line, wide
from kitbuilder.number.written import Column

MARK = 0.62
"""Size of a mark above a digit, as a part of the digit's, unless the least type is larger."""

POINT = 0.3
"""Room for a decimal point between two columns, in sizes of the digits."""

_PITCH, _ROW, _CAPITAL = 0.9, 1.1, 0.7
# In sizes of the digits: from column to column, from row to row, and a digit's height.


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
    digits = Setting(size, size)
    above_size = max(MARK * size, style.look.type_mm.least)
    small = Setting(above_size, above_size)
    marks = [str(mark) for column in columns for mark in column.marks]
    pitch = max(_PITCH * size, *(1.12 * wide(mark, small) for mark in marks), 0.1)
    rows = max(rows, *(len(column.marks) for column in columns))
    above = (_CAPITAL + 0.27) * small.size
    top = rows * above + _CAPITAL * size / 2
    bottom = top + _ROW * size
    rule = bottom + 0.62 * size
    answer = rule + 0.62 * size
    decimals = style.words.scale.decimals
    apart = POINT * size if decimals else 0.0
    items: list[Item] = []
    for place, column in enumerate(columns):
        x = (len(columns) - place + 0.5) * pitch + (apart if place < decimals else 0.0)
        said: list[tuple[int | None, Setting, float]] = [(column.top, digits, top)]
        said += [
            (mark, small, top - (_CAPITAL / 2 + 0.04) * size - (k + 0.5) * above)
            for k, mark in enumerate(column.marks)
        ]
        said += [(column.bottom, digits, bottom), (column.answer, digits, answer)]
        before = _before(since, place, len(column.marks))
        for number, (value, setting, y) in enumerate(said):
            if value is None:
                continue
            if since is not None and before[number] is None:
                items.append(_new(str(value), setting, x, y))
            items.append(placed_line(str(value), setting, x, y, "centre"))
            if number < len(column.marks):
                items.append(_strike(str(value), setting, x, y))
    items.append(placed_line("−", digits, pitch / 2, bottom, "centre"))
    if decimals:
        x = (len(columns) - decimals + 1) * pitch + apart / 2
        items += _points(digits, x, (top, bottom, answer), style)
    width = (len(columns) + 1) * pitch + apart
    items.append(Item("rule", Rect(0.1 * pitch, rule, width - 0.1 * pitch, 0.01), Rule("sum")))
    return Block(tuple(items), width, answer + _CAPITAL * size / 2 + 0.1 * size)


def _points(setting: Setting, x: float, rows: Iterable[float], style: Style) -> Iterator[Item]:
    """Yield the decimal point at ``x`` in each of the ``rows``, given by the middle of digits."""
    for y in rows:
        yield placed_line(style.words.scale.point, setting, x, y, "centre")


def _before(since: Sequence[Column] | None, place: int, marks: int) -> tuple[int | None, ...]:
    """Return what stood in a column before: its top, as many ``marks``, bottom and answer."""
    if not since:
        return (None,) * (marks + 3)
    column = since[place]
    above = (*column.marks, *(None,) * marks)[:marks]
    return (column.top, *above, column.bottom, column.answer)


def _new(text: str, setting: Setting, x: float, y: float) -> Item:
    """Return the tint under a number that was just written, its middle at (x, y)."""
    across, down = wide(text, setting) + 0.24 * setting.size, capital(setting) + 0.3 * setting.size
    box = Rect(x - across / 2, y - down / 2, across, down)
    return Item("digit_box", box, Panel("accent_tint", "digit", 0.9))


def _strike(text: str, setting: Setting, x: float, y: float) -> Item:
    """Return the stroke through a number whose middle is at (x, y)."""
    across, down = wide(text, setting) + 0.1 * setting.size, capital(setting) + 0.14 * setting.size
    return Item("strike", Rect(x - across / 2, y - down / 2, across, down), Strike())


def ruled_size(columns: int, headed: bool) -> tuple[float, float]:
    """Return the width and height of ruled columns, in pitches of a column."""
    return columns + _SIGN, 4.2 + (_HEAD if headed else 0.0)


_SIGN, _HEAD, _MARKS = 0.8, 0.7, 0.9
_ROWS, _ANSWER = (0.55, 1.6), 2.72
# In pitches: room for the sign, for the headings, and for the marks; below the marks, the middles
# of whole and part, and of the answer.


def ruled(
    tops: Sequence[int | None],
    bottoms: Sequence[int | None],
    headings: Sequence[str],
    pitch: float,
    style: Style,
    sign: str = "−",
) -> Block:
    """Return columns to write in, ``pitch`` mm wide, ones first: marks, whole, part and answer.

    ``tops`` and ``bottoms`` are the digits already printed, None for those to be written;
    ``headings`` stand over the columns, or nothing does.
    """
    count = len(tops)
    width, height = (pitch * v for v in ruled_size(count, bool(headings)))
    left, top = _SIGN * pitch, _HEAD * pitch if headings else 0.0
    digits = _in_pitch(pitch, style)
    rows = [top + (_MARKS + at) * pitch for at in _ROWS]
    rule = top + (_MARKS + 2.15) * pitch
    frame = Rect(left, top, count * pitch, height - top)
    items = [Item("columns", frame, Panel("paper", "write", min(2.2, 0.16 * pitch)))]
    items += (
        Item("rule", Rect(left + k * pitch, top, 0.01, height - top), Rule("write"))
        for k in range(1, count)
    )
    dashed = Rect(left, top + _MARKS * pitch, count * pitch, 0.01)
    items.append(Item("rule", dashed, Rule("dashed")))
    head = settings(style.look).text.quiet()
    head = head.sized(max(head.size, min(0.75 * pitch, style.look.type_mm.child)))
    for place in range(count):
        x = left + (count - place - 0.5) * pitch
        if headings:
            items.append(placed_line(headings[place], head, x, 0.48 * _HEAD * pitch, "centre"))
        for y, number in zip(rows, (tops[place], bottoms[place]), strict=True):
            if number is not None:
                items.append(placed_line(str(number), digits, x, y, "centre"))
    items.append(placed_line(sign, digits, left / 2, rows[1], "centre"))
    if decimals := style.words.scale.decimals:
        rows = [top + (_MARKS + at) * pitch for at in (*_ROWS, _ANSWER)]
        items += _points(digits, left + (count - decimals) * pitch, rows, style)
    items.append(Item("rule", Rect(0, rule, width, 0.01), Rule("sum")))
    return Block(tuple(items), width, height)


def _in_pitch(pitch: float, style: Style) -> Setting:
    return Setting(min(0.9 * pitch, 1.3 * style.look.type_mm.numeral), pitch)


def solved(columns: Sequence[Column], pitch: float, style: Style) -> Block:
    """Return columns to write in with what a child writes in them, each number in a frame.

    ``columns`` come ones first. A number that another replaces is struck through.
    """
    blank = ruled([c.top for c in columns], [c.bottom for c in columns], (), pitch, style)
    digits = _in_pitch(pitch, style)
    room = _MARKS * pitch
    size = max(style.look.type_mm.least, min(0.4 * pitch, room / 2))
    small = Setting(size, size)
    items: list[Item] = []
    for place, column in enumerate(columns):
        x = (_SIGN + len(columns) - place - 0.5) * pitch
        if column.marks:
            items.append(_strike(str(column.top), digits, x, (_MARKS + _ROWS[0]) * pitch))
        step = min(room / len(column.marks), 1.15 * size) if column.marks else 0.0
        for k, mark in enumerate(column.marks):
            y = room - (k + 0.5) * step
            items += _tinted(str(mark), small, x, y)
            if k + 1 < len(column.marks):
                items.append(_strike(str(mark), small, x, y))
        if column.answer is not None:
            items += _tinted(str(column.answer), digits, x, (_MARKS + _ANSWER) * pitch)
    return Block((*blank.items, *items), blank.width, blank.height)


def tinted_rows(rows: Sequence[str], places: int, pitch: float, style: Style) -> tuple[Item, ...]:
    """Return the numbers that a child writes as whole, part and answer of ``places`` columns."""
    digits = _in_pitch(pitch, style)
    return tuple(
        item
        for row, y in zip(rows, (*_ROWS, _ANSWER), strict=True)
        for k, digit in enumerate(reversed(row))
        for item in _tinted(digit, digits, (_SIGN + places - k - 0.5) * pitch, (_MARKS + y) * pitch)
    )


def _tinted(text: str, setting: Setting, x: float, y: float) -> tuple[Item, Item]:
    """Return a number whose middle is at (x, y) in its frame."""
    across, down = wide(text, setting) + 0.24 * setting.size, capital(setting) + 0.26 * setting.size
    box = Rect(x - across / 2, y - down / 2, across, down)
    tint = Item("digit_box", box, Panel("paper", "digit", min(1.2, 0.14 * setting.size)))
    return tint, placed_line(text, setting, x, y, "centre")
