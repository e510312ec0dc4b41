"""Words in lines: measured, broken and placed."""

from functools import lru_cache
from typing import Literal

from kitbuilder.design import metrics
from kitbuilder.errors import RefusedError
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.block import Block
from kitbuilder.layout.parts.contents import Line
from kitbuilder.layout.parts.settings import Setting

Align = Literal["left", "centre", "right"]

ZEROS = str.maketrans(dict.fromkeys("123456789", "0"))
"""Makes every digit a zero, to tell words that are equally wide in the face of text."""

_SHIFT = {"left": 0.0, "centre": 0.5, "right": 1.0}


def wide(text: str, setting: Setting) -> float:
    """Return how wide ``text`` is, in mm."""
    return metrics.width(text, setting.size, setting.family)


def capital(setting: Setting) -> float:
    """Return how high a capital or digit is, in mm."""
    return metrics.digit_height(setting.size, setting.family)


@lru_cache(1024)
def line(text: str, setting: Setting) -> Block:
    """Return one line of words, as high as its leading, its capitals in the middle of it."""
    across = max(wide(text, setting), 0.01)
    return Block((_item(text, setting, across),), across, setting.lead)


def _item(text: str, setting: Setting, across: float, y: float = 0.0) -> Item:
    base = (setting.lead + capital(setting)) / 2
    content = Line(text, setting.size, base, setting.face, setting.tone)
    return Item("line", Rect(0, y, across, setting.lead), content)


def placed_line(text: str, setting: Setting, x: float, y: float, align: Align = "left") -> Item:
    """Return one line whose left end, middle or right end is at ``x`` and whose middle at ``y``."""
    across = max(wide(text, setting), 0.01)
    item = _item(text, setting, across)
    left = x - _SHIFT[align] * across
    return Item("line", item.rect.moved(left, y - setting.lead / 2), item.content)


@lru_cache(1024)
def lines(text: str, setting: Setting, room: float, align: Align = "left") -> Block:
    """Return ``text`` broken into lines no wider than ``room`` mm; the block is ``room`` wide.

    Raises ``RefusedError`` for a word that is wider.
    """
    broken = metrics.wrap(text, setting.size, room, setting.family)
    items = []
    for number, part in enumerate(broken):
        across = max(wide(part, setting), 0.01)
        if across > room + 1e-6:
            raise RefusedError("page.long-word", field="paper", given=part, size=setting.size)
        item = _item(part, setting, across, number * setting.lead)
        rect = item.rect.moved(_SHIFT[align] * (room - across), 0)
        items.append(Item("line", rect, item.content))
    return Block(tuple(items), room, len(broken) * setting.lead)


def fitted(text: str, setting: Setting, room: float, least: float) -> Block:
    """Return ``text`` on one line, smaller if need be down to ``least`` mm, else broken."""
    size = setting.size
    if wide(text, setting) > room:
        size = max(least, setting.size * room / wide(text, setting) - 0.005)
    smaller = setting.sized(size)
    if wide(text, smaller) <= room + 1e-6:
        found = line(text, smaller)
        return Block(found.items, room, found.height)
    return lines(text, smaller, room)
