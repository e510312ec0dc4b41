"""A sum as a child wrote it, in columns: its wrong digits looped, or room left to write."""

from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.block import Block
from kitbuilder.layout.parts.columns import POINT
from kitbuilder.layout.parts.contents import Panel, Rule
from kitbuilder.layout.parts.settings import Setting
from kitbuilder.layout.parts.words import placed_line
from kitbuilder.number.sums import Sum

_PITCH, _ROW, _LOOP = 0.98, 1.18, 0.54
# In sizes of the digits: from column to column, from row to row, half a loop's side.


def written(sum_: Sum, setting: Setting, answer: int | None = None) -> Block:
    """Return ``sum_`` in columns, and ``answer`` under the line with its wrong digits looped.

    Without an answer there is room to write one.
    """
    size = setting.size
    said = "" if answer is None else sum_.in_columns(answer)
    places = max(sum_.places, len(said))
    decimals = sum_.scale.decimals
    apart = POINT * size if decimals else 0.0
    items: list[Item] = []

    def middle(place: int) -> float:
        return (places - place + 0.5) * _PITCH * size + (apart if place < decimals else 0.0)

    def digits(text: str, y: float) -> None:
        for k, digit in enumerate(reversed(text)):
            x = middle(k)
            items.append(placed_line(digit, setting, x, y, "centre"))

    tops = [(0.6 + _ROW * k) * size for k in range(3)]
    digits(sum_.in_columns(sum_.whole), tops[0])
    digits(sum_.in_columns(sum_.part), tops[1])
    items.append(placed_line("−", setting, 0.5 * _PITCH * size, tops[1], "centre"))
    width = (places + 1) * _PITCH * size + apart
    line = tops[1] + 0.56 * size
    items.append(Item("rule", Rect(0, line, width, 0.01), Rule("rule")))
    below = tops[2] + 0.08 * size
    right = sum_.in_columns(sum_.rest).rjust(places)
    padded = said.rjust(places)
    for k in range(places):
        at = places - 1 - k
        if said and padded[at] != right[at]:
            x = middle(k)
            half = _LOOP * size
            box = Rect(x - 0.86 * half, below - half, 1.72 * half, 2 * half)
            items.append(Item("loop", box, Panel("none", "loop", 0.9)))
    digits(said, below)
    if decimals:
        x = (places - decimals + 1) * _PITCH * size + apart / 2
        rows = (tops[0], tops[1], below)
        items += (placed_line(sum_.scale.point, setting, x, y, "centre") for y in rows)
    return Block(tuple(items), width, below + 0.62 * size)
