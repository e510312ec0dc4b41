"""Written columns: worked, with their marks and strikes, or ruled to be written in."""

from collections.abc import Sequence

from kitbuilder.design.style import Style
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.block import Block
from kitbuilder.layout.parts.contents import Panel, Rule, Strike
from kitbuilder.layout.parts.settings import Setting, settings
from kitbuilder.layout.parts.words import capital, placed_line, wide
from kitbuilder.number.written import Column

MARK = 0.62
"""Size of a mark above a digit, as a part of the digit's, unless the least type is larger."""

_PITCH, _ROW, _CAPITAL = 0.9, 1.1, 0.7
# In sizes of the digits: from column to column, from row to row, and a digit's height.


def worked(columns: Sequence[Column], size: float, style: Style) -> Block:
    """Return a worked sum in digits of ``size`` mm; ``columns`` come ones first.

    A digit or mark that an exchange replaces is struck through; what replaces it stands above.
    """
    digits = Setting(size, size)
    above_size = max(MARK * size, style.look.type_mm.least)
    small = Setting(above_size, above_size)
    marks = [str(mark) for column in columns for mark in column.marks]
    pitch = max(_PITCH * size, *(1.12 * wide(mark, small) for mark in marks), 0.1)
    rows = max(len(column.marks) for column in columns)
    above = (_CAPITAL + 0.27) * small.size
    top = rows * above + _CAPITAL * size / 2
    bottom = top + _ROW * size
    rule = bottom + 0.62 * size
    answer = rule + 0.62 * size
    items: list[Item] = []
    for place, column in enumerate(columns):
        x = (len(columns) - place + 0.5) * pitch
        said = [(str(column.top), digits, top)]
        said += [
            (str(mark), small, top - (_CAPITAL / 2 + 0.04) * size - (k + 0.5) * above)
            for k, mark in enumerate(column.marks)
        ]
        for number, (text, setting, y) in enumerate(said):
            items.append(placed_line(text, setting, x, y, "centre"))
            if number < len(column.marks):
                items.append(_strike(text, setting, x, y))
        for found, y in ((column.bottom, bottom), (column.answer, answer)):
            if found is not None:
                items.append(placed_line(str(found), digits, x, y, "centre"))
    items.append(placed_line("−", digits, pitch / 2, bottom, "centre"))
    width = (len(columns) + 1) * pitch
    items.append(Item("rule", Rect(0.1 * pitch, rule, width - 0.1 * pitch, 0.01), Rule("sum")))
    return Block(tuple(items), width, answer + _CAPITAL * size / 2 + 0.1 * size)


def _strike(text: str, setting: Setting, x: float, y: float) -> Item:
    """Return the stroke through a number whose middle is at (x, y)."""
    across, down = wide(text, setting) + 0.1 * setting.size, capital(setting) + 0.14 * setting.size
    return Item("strike", Rect(x - across / 2, y - down / 2, across, down), Strike())


def ruled_size(columns: int, headed: bool) -> tuple[float, float]:
    """Return the width and height of ruled columns, in pitches of a column."""
    return columns + _SIGN, 4.2 + (_HEAD if headed else 0.0)


_SIGN, _HEAD, _MARKS = 0.8, 0.7, 0.9
# In pitches: room for the sign, for the headings, and for the marks.


def ruled(
    tops: Sequence[int | None],
    bottoms: Sequence[int | None],
    headings: Sequence[str],
    pitch: float,
    style: Style,
) -> Block:
    """Return columns to write in, ``pitch`` mm wide, ones first: marks, whole, part and answer.

    ``tops`` and ``bottoms`` are the digits already printed, None for those to be written;
    ``headings`` stand over the columns, or nothing does.
    """
    count = len(tops)
    width, height = (pitch * v for v in ruled_size(count, bool(headings)))
    left, top = _SIGN * pitch, _HEAD * pitch if headings else 0.0
    digits = Setting(min(0.9 * pitch, 1.3 * style.look.type_mm.numeral), pitch)
    rows = [top + (_MARKS + 0.55) * pitch, top + (_MARKS + 1.6) * pitch]
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
    items.append(placed_line("−", digits, left / 2, rows[1], "centre"))
    items.append(Item("rule", Rect(0, rule, width, 0.01), Rule("sum")))
    return Block(tuple(items), width, height)
