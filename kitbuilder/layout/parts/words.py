"""Words in lines: measured, broken and placed."""

import re
from dataclasses import replace
from functools import lru_cache
from typing import Literal

from kitbuilder.design import metrics
from kitbuilder.errors import RefusedError
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.block import Block, stack
from kitbuilder.layout.parts.contents import Line
from kitbuilder.layout.parts.settings import Setting

Align = Literal["left", "centre", "right"]

ZEROS = str.maketrans(dict.fromkeys("123456789", "0"))
"""Makes every digit a zero, to tell words that are equally wide in the face of text."""

_CLOSE = 0.88
# The leading of a long name beside the usual one.

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
        return found.as_wide(room)
    return lines(text, smaller, room)


def parted(text: str, setting: Setting, room: float) -> str:
    """Return ``text`` with spaces where words wider than ``room`` mm may break.

    They break after a hyphen where that is enough, else wherever they are full.
    """
    return " ".join(" ".join(_parts(word, setting, room)) for word in text.split(" "))


def _parts(word: str, setting: Setting, room: float) -> list[str]:
    if wide(word, setting) <= room:
        return [word]
    found = [""]
    for piece in re.split(r"(?<=-)(?=.)", word):
        if found[-1] and wide(found[-1] + piece, setting) > room:
            found.append("")
        found[-1] += piece
        while wide(found[-1], setting) > room and len(found[-1]) > 1:
            kept = _cut(found[-1], setting, room)
            found[-1:] = [found[-1][:kept], found[-1][kept:]]
    return found


def _cut(text: str, setting: Setting, room: float, end: str = "") -> int:
    """Return how many letters of ``text``, with ``end`` after them, fit ``room``; one at least."""
    fits = (k for k in range(len(text), 1, -1) if wide(text[:k] + end, setting) <= room)
    return next(fits, 1)


def cut_to(text: str, setting: Setting, room: float) -> str:
    """Return ``text``, cut short with "…" where it is wider than ``room`` mm.

    Its last word stays where half the room holds it: surnames may alone tell two children apart.
    """
    if wide(text, setting) <= room:
        return text
    first, _, last = text.rpartition(" ")
    end = f"… {last}" if first and wide(f"… {last}", setting) <= room / 2 else "…"
    return text[: _cut(text, setting, room, end)].rstrip() + end


def name_in(name: str, setting: Setting, room: tuple[float, float], least: float) -> Block:
    """Return a name in a room so wide and high: smaller, or in lines, and only then cut short."""
    width, high = room
    if wide(name, setting.sized(least)) <= width:
        return fitted(name, setting, width, least)
    smallest = setting.sized(least)
    smallest = replace(smallest, lead=_CLOSE * smallest.lead)
    said = metrics.wrap(parted(name, smallest, width), least, width, setting.family)
    count = max(1, int(high / smallest.lead + 0.01))
    kept = list(said[:count])
    if len(said) > count:
        rest = name
        for _ in "".join(said[: count - 1]).replace(" ", ""):
            rest = rest.lstrip()[1:]
        kept[-1] = cut_to(rest.lstrip(), smallest, width)
    return stack(line(part, smallest) for part in kept).as_wide(width)
