"""A sum as a child wrote it, in columns: its wrong digits looped, or room left to write."""

from dataclasses import replace

from kitbuilder.frozen import frozen
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.block import Block
from kitbuilder.layout.parts.contents import Panel, Rule
from kitbuilder.layout.parts.settings import Setting
from kitbuilder.layout.parts.words import placed_line
from kitbuilder.layout.parts.written_columns import POINT
from kitbuilder.number.mistakes.decimal import ALIGNED_RIGHT, OF_DECIMALS
from kitbuilder.number.mistakes.decimal import POINT as POINT_MOVED
from kitbuilder.number.sums import Sum

_PITCH, _ROW, _LOOP = 0.98, 1.18, 0.54
# In sizes of the digits: from column to column, from row to row, half a loop's side.


def written(sum_: Sum, setting: Setting, answer: int | None = None, key: str = "") -> Block:
    """Return ``sum_`` in columns, and ``answer`` under the line with its wrong digits looped.

    Without an answer there is room to write one. A mistake ``key`` that decimals of different
    lengths show has the numbers as the child laid them: without zeros at their ends, and not at
    the point where they were lined up at the right.
    """
    size = setting.size
    if key not in (*OF_DECIMALS, POINT_MOVED):
        sum_, answer = _shortened(sum_, answer)
    rows = _rows(sum_, answer, key)
    places = max(row.high for row in rows)
    decimals = max(row.decimals for row in rows)
    by_point = key != ALIGNED_RIGHT
    apart = POINT * size if decimals and by_point else 0.0
    items: list[Item] = []

    def middle(place: int) -> float:
        return (places - place + 0.5) * _PITCH * size + (apart if place < decimals else 0.0)

    tops = [(0.6 + _ROW * k) * size for k in range(3)]
    below = tops[2] + 0.08 * size
    items.append(placed_line("−", setting, 0.5 * _PITCH * size, tops[1], "centre"))
    width = (places + 1) * _PITCH * size + apart
    line = tops[1] + 0.56 * size
    items.append(Item("rule", Rect(0, line, width, 0.01), Rule("rule")))
    for k in rows[2].wrong(sum_, decimals) if answer is not None else ():
        x, half = middle(k), _LOOP * size
        box = Rect(x - 0.86 * half, below - half, 1.72 * half, 2 * half)
        items.append(Item("loop", box, Panel("none", "loop", 0.9)))
    for row, y in zip(rows, (tops[0], tops[1], below), strict=True):
        for k, digit in enumerate(reversed(row.digits), row.last):
            items.append(placed_line(digit, setting, middle(k), y, "centre"))
        if row.decimals:
            at = row.last + row.decimals
            x = (places - at + 1) * _PITCH * size + apart / 2
            items.append(placed_line(sum_.scale.point, setting, x, y, "centre"))
    return Block(tuple(items), width, below + 0.62 * size)


def _shortened(sum_: Sum, answer: int | None) -> tuple[Sum, int | None]:
    """Return the sum and its answer without decimal places that none of them has as written."""
    short = sum_.short(*() if answer is None else (answer,))
    less = 10 ** (sum_.scale.decimals - short.scale.decimals)
    return short, answer if answer is None else int(answer) // less


@frozen
class _Row:
    """A number's ``digits``, so many of them ``decimals``; its ``last`` stands in that column."""

    digits: str
    decimals: int
    last: int = 0

    @property
    def high(self) -> int:
        """The columns from the right that it reaches over."""
        return self.last + len(self.digits)

    def wrong(self, sum_: Sum, decimals: int) -> tuple[int, ...]:
        """Return the columns in which it is not the rest of ``sum_``, written to ``decimals``."""
        right = sum_.in_columns(sum_.rest)
        right = right[: len(right) - sum_.scale.decimals + decimals]
        held = self.digits + " " * self.last
        width = max(sum_.places - sum_.scale.decimals + decimals, len(held))
        pairs = zip(reversed(held.rjust(width)), reversed(right.rjust(width)), strict=True)
        return tuple(k for k, (one, other) in enumerate(pairs) if one != other)


def _rows(sum_: Sum, answer: int | None, key: str) -> tuple[_Row, _Row, _Row]:
    """Return whole, part and answer as they stand; no digits without an answer."""
    numbers = (sum_.whole, sum_.part, answer)
    decimals = sum_.scale.decimals
    if key not in OF_DECIMALS:
        one, two, three = (_Row("" if n is None else sum_.in_columns(n), decimals) for n in numbers)
        return one, two, _by_digits(sum_, answer) if key == POINT_MOVED and answer else three
    found = [_short(sum_, n) for n in numbers]
    most = max(row.decimals for row in found)
    if key != ALIGNED_RIGHT:
        found = [_Row(row.digits, row.decimals, most - row.decimals) for row in found]
    elif found[2].decimals < most and answer is not None:  # its last zeros stand there too
        found[2] = _Row(sum_.in_columns(answer)[: most - decimals or None], most)
    one, two, three = found
    return one, two, three


def _by_digits(sum_: Sum, answer: int) -> _Row:
    """Return ``answer`` as it was written, its point elsewhere than in ``sum_`` or missing.

    27.5 stands by its point. Without one its digits stand below those they should be: 363 for 3.63.
    """
    short = _short(sum_, answer)
    if short.decimals:
        return replace(short, last=sum_.scale.decimals - short.decimals)
    right, digits = f"{int(sum_.rest)}", short.digits
    lacks = len(right) - len(right.rstrip("0")) - len(digits) + len(digits.rstrip("0"))
    return replace(short, last=max(0, lacks))


def _short(sum_: Sum, number: int | None) -> _Row:
    """Return ``number`` without zeros at the end of its decimals."""
    if number is None:
        return _Row("", 0)
    digits, decimals = sum_.in_columns(number), sum_.scale.decimals
    while decimals and digits.endswith("0"):
        digits, decimals = digits[:-1], decimals - 1
    return _Row(digits, decimals)
