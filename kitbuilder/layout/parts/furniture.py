"""The furniture of a page: header, foot, numbers of steps, letters of cuts, boxes to tick."""

import re
from collections.abc import Iterable, Sequence
from functools import lru_cache
from typing import Literal

from kitbuilder.design.look import Look
from kitbuilder.design.style import Style
from kitbuilder.frozen import frozen
from kitbuilder.kit import phrases
from kitbuilder.layout.model import Item, Rect, Sheet, SheetKind
from kitbuilder.layout.parts.block import EMPTY, Block, beside, row, stack
from kitbuilder.layout.parts.contents import (
    Disc,
    NumberSquare,
    PageNumber,
    Panel,
    Pictogram,
    Rule,
    Ruler,
    Tone,
)
from kitbuilder.layout.parts.settings import Setting, settings
from kitbuilder.layout.parts.sheet_area import FOOT, SheetArea
from kitbuilder.layout.parts.words import cut_to, fitted, line, lines, parted, placed_line, wide

SQUARE = 7.6
"""Side of the square behind a step's number, in mm."""

LETTER = 2.7
"""Radius of the disc behind a cut's letter, in mm."""

_IN_DISC = 0.66
"""Size of a cut's letter, as part of its disc."""

TRUE_TEN = 100.0
"""Length in mm of the bar at a page's foot."""

_BAR = 2.4
_PICTOGRAM, _HEAD = 10.5, 10.0
_RULE, _BELOW = 12.5, 4.4

_LEAST_NOTE = 25.0
# A longer name at the foot is cut short, down to so many mm.

_NUMBER = 0.6
# How far a page number reaches below the middle of its foot, in ems.

_CLEAR, _LOWER = 0.45, 1.0
# How far a page number stands below its foot's top, in mm.

_HALF_DIGIT, _HALF_BOX = 0.37, 0.62
# Half the height of a digit, and of the room that it must have on a page, in ems.


@frozen
class Heading:
    """What stands at the top of a page.

    ``heads`` are the people it is for ("adult", "child"), with a quiet ``note`` before them.
    """

    pictogram: str
    title: str
    heads: tuple[str, ...] = ()
    note: str = ""


@frozen
class Foot:
    """What stands at the foot beside the true-size ten: a quiet ``note``.

    With ``measured`` the ten stands there only whole: a bar of another length would mislead
    whoever checks the size of a print. Not ``barred``, it is left out. A note that is a
    ``name`` is cut short where it is long, other notes are left out. The page's number is
    ``most`` mm high at most.
    """

    note: str = ""
    measured: bool = False
    barred: bool = True
    name: bool = False
    most: float = 100.0


@lru_cache(1024)
def pictogram(name: str, side: float, turn: int = 0) -> Block:
    """Return a pictogram in a square of ``side`` mm."""
    return Block((Item("pictogram", Rect(0, 0, side, side), Pictogram(name, turn)),), side, side)


def header(heading: Heading, area: SheetArea, style: Style) -> tuple[tuple[Item, ...], float]:
    """Return the items of a page's header, and the y at which the page's content may begin."""
    sets, whole = settings(style.look), area.whole
    items = list(pictogram(heading.pictogram, _PICTOGRAM).at(whole.x - 0.5, whole.y - 0.3))
    right = whole.right
    for head in reversed(heading.heads):
        right -= _HEAD
        items += pictogram(head, _HEAD).at(right, whole.y)
        right -= 2.0
    left = whole.x + 13.5
    least = 0.66 * sets.title.size
    if heading.note:
        free = right - left - 4 - wide(heading.title, sets.title.sized(least))
        note = _noted(heading.note, sets.least, free)
        items += note.at(right - note.width, whole.y + 6.4 - note.height / 2)
        right -= note.width + 2 if note.width else 0.0
    said = parted(heading.title, sets.title.sized(least), right - left - 2)
    title = fitted(said, sets.title, right - left - 2, least)
    middle = whole.y + 8.4 - 0.35 * sets.title.size
    items += title.at(left, max(whole.y - 1.5, middle - title.height / 2))
    rule = max(whole.y + _RULE, whole.y + title.height + 1.5)
    items.append(Item("rule", Rect(whole.x, rule, whole.width, 0.01), Rule("rule")))
    return tuple(items), rule + _BELOW


def _noted(note: str, setting: Setting, room: float) -> Block:
    """Return ``note`` in one line, or in two where only they have ``room``; else nothing."""
    words, used = note.split(" "), wide(note, setting)
    if used > room and 2 * setting.lead < _RULE - 1:
        halves = ((" ".join(words[:k]), " ".join(words[k:])) for k in range(1, len(words)))
        used = min((max(wide(one, setting) for one in two) for two in halves), default=used)
    return lines(note, setting, used, "right") if used <= room else EMPTY


@lru_cache(1024)
def foot(content: Foot, area: SheetArea, style: Style) -> tuple[Item, ...]:
    """Return the items of a page's foot: a ten of true size, what it measures, note and number."""
    sets, whole = settings(style.look), area.whole
    size = min(content.most, style.look.type_mm.heading)
    number = Setting(size, 1.16 * size, "heading")
    long = min(TRUE_TEN, (whole.width - wide("888", number) - 3) // 10 * 10)
    y = whole.bottom - FOOT / 2
    at = min(y, area.page.inside.bottom - sets.least.lead / 2)  # large words stay on the page
    low = y + _lower(area, number)
    said = phrases.length(style.words, "foot.long", long)
    barred = content.barred and (long >= TRUE_TEN or not content.measured)
    bar = Item("ruler", Rect(whole.x, y - _BAR / 2, long, _BAR), Ruler())
    items = [
        *((bar,) if barred else ()),
        Item(
            "page_number",
            Rect(whole.right - wide("888", number), low - FOOT / 2, wide("888", number), FOOT),
            PageNumber(number.size),
        ),
    ]
    left, right = whole.x + (long + 3 if barred else 0.0), whole.right - wide("888", number) - 2
    note = wide(content.note, sets.least) if content.note else 0.0
    length = wide(said, sets.least)
    if barred and left + length <= right and not (note <= right - left < note + length + 4):
        items.append(placed_line(said, sets.least, left, at))
        left = items[-1].rect.right + 4
    elif barred and (below := _below_bar(y, area, sets.least.size)):
        items.append(placed_line(said, sets.least, whole.x + long / 2, below, "centre"))
    if content.note and left + (min(note, _LEAST_NOTE) if content.name else note) <= right:
        shown = cut_to(content.note, sets.least, right - left)
        items.append(placed_line(shown, sets.least, right, at, "right"))
    return tuple(items)


def _below_bar(y: float, area: SheetArea, size: float) -> float:
    """Return where the middle of a length below a bar at ``y`` is, in mm; 0 without room for it.

    Nor has a foot among what is cut room below it.
    """
    usual = SheetArea.of(area.page).whole
    highest = y + _BAR / 2 + _CLEAR + _HALF_DIGIT * size
    lowest = area.page.inside.bottom - _HALF_BOX * size
    fits = highest <= lowest and (area.whole.x, area.whole.width) == (usual.x, usual.width)
    return min(highest + _LOWER, lowest) if fits else 0.0


def told_below(bottom: float, size: float) -> tuple[float, float]:
    """Return the middles in mm of a bar and of its length in type of ``size`` below it.

    The length's box ends at ``bottom``.
    """
    middle = bottom - _HALF_BOX * size
    return middle - _HALF_DIGIT * size - _CLEAR - _BAR / 2, middle


def _lower(area: SheetArea, number: Setting) -> float:
    """Return how far in mm a large page number stands below its foot's middle, clear of the body.

    Never into what the printer leaves white: it is higher where that begins at the foot's end.
    Nor below a foot that stands among what is cut.
    """
    if area != SheetArea.of(area.page):
        return 0.0
    rise = 0.35 * number.size - FOOT / 2 + _CLEAR
    room = area.page.inside.bottom - area.whole.bottom - _NUMBER * number.size + FOOT / 2
    return min(max(0.0, rise), room)


def foot_high(look: Look) -> float:
    """Return the height in mm of a foot with its page number's lowest stroke."""
    return FOOT + foot_below(look)


def foot_below(look: Look, most: float = 100.0) -> float:
    """Return how far in mm a page number of ``most`` mm at most reaches below its foot."""
    return max(0.0, _NUMBER * min(most, look.type_mm.heading) - FOOT / 2)


def step_number(number: int, style: Style, side: float = SQUARE) -> Block:
    """Return a step's number in its square, no smaller than the least type asks for."""
    side = max(side, style.look.type_mm.least / 0.72)
    setting = Setting(0.72 * side, side, "heading", _on_square(style))
    square = Item("step_number", Rect(0, 0, side, side), NumberSquare())
    said = placed_line(str(number), setting, side / 2, side / 2, "centre")
    return Block((square, said), side, side)


def _on_square(style: Style) -> Tone:
    """Return the tone of a number on its square: black where nothing is filled."""
    return "text" if style.look.ink.number == "none" else "paper"


def letter_side(style: Style) -> float:
    """Return the side of the disc behind a cut's letter, in mm: larger where the least type is."""
    return max(2 * LETTER, style.look.type_mm.least / _IN_DISC)


def cut_letter(letter: str, style: Style, side: float = 0.0) -> Block:
    """Return a cut's letter, or a stop's or an arrow's number, in its disc of ``side`` mm."""
    side = side or letter_side(style)
    setting = Setting(
        max(_IN_DISC * side, style.look.type_mm.least), side, "heading", _on_square(style)
    )
    disc = Item("cut_letter", Rect(0, 0, side, side), Disc())
    return Block((disc, placed_line(letter, setting, side / 2, side / 2, "centre")), side, side)


@lru_cache(512)  # a page that is tried in many ways has the same in each
def step_heading(number: int, title: str, width: float, style: Style) -> Block:
    """Return a step's number with its title beside it, broken where it is long.

    Each sentence begins a line where that takes no more of them.
    """
    sets = settings(style.look)
    square = step_number(number, style)
    side = square.width
    room, least = width - side - 2.4, 0.84 * sets.heading.size
    said = fitted(title, sets.heading, room, least)
    if len(said.items) > 1:
        sentences = re.split(r"(?<=[.?]) ", title)
        apart = stack([lines(one, sets.heading.sized(least), room) for one in sentences])
        said = min(apart, said, key=lambda block: len(block.items))
    down = max(0.0, (side - said.height) / 2)
    up = max(0.0, (side - sets.heading.lead) / 2) if said.height > side else down
    return Block((*square.items, *said.at(side + 2.4, up)), width, max(side, up + said.height))


def tick(text: str, width: float, style: Style) -> Block:
    """Return a box to tick with words beside it."""
    return set_tick(text, width, settings(style.look).text)


def set_tick(text: str, width: float, setting: Setting) -> Block:
    """Return a box to tick with words beside it, set in ``setting``."""
    side = 0.85 * setting.size
    said = lines(parted(text, setting, width - side - 1.6), setting, width - side - 1.6)
    box = Rect(0, (setting.lead - side) / 2, side, side)
    panel = Item("tick_box", box, Panel(line="write", radius=0.6))
    used = max(item.rect.right for item in said.items) + side + 1.6
    return Block((panel, *said.at(side + 1.6, 0)), used, said.height)


def rule(width: float, drawn: Literal["divider", "rule"] = "divider") -> Block:
    """Return a thin line between two parts of a page."""
    return Block((Item("rule", Rect(0, 0, width, 0.01), Rule(drawn)),), width, 0.01)


def wrapped(
    blocks: Sequence[Block], width: float, gap: float, below: float, most: float = 12.0
) -> Block:
    """Return ``blocks`` in rows no wider than ``width``, spread to gaps of ``most`` mm."""
    return stack(in_rows(blocks, width, gap, most), below)


def in_rows(blocks: Sequence[Block], width: float, gap: float, most: float) -> list[Block]:
    """Return the rows of ``wrapped``."""
    rows: list[list[Block]] = []
    for block in blocks:
        used = sum(b.width + gap for b in rows[-1]) if rows else 0.0
        if rows and used + block.width <= width + 1e-6:
            rows[-1].append(block)
        else:
            rows.append([block])
    spread = (
        min(most, (width - sum(b.width for b in some)) / (len(some) - 1)) if len(some) > 1 else gap
        for some in rows
    )
    return [row(some, space) for some, space in zip(rows, spread, strict=True)]


def labelled(picture: Block, text: str, setting: Setting, gap: float = 1.6) -> Block:
    """Return a small picture with one line of words at its right, their middles in line."""
    return beside(picture, line(text, setting), gap)


def paper_sheets(
    kind: SheetKind,
    head: Sequence[Item],
    pages: Iterable[Sequence[Item]],
    area: SheetArea,
    style: Style,
    first: int = 1,
) -> tuple[Sheet, ...]:
    """Return sheets of paper, numbered from ``first``: the ``head``, a page's items, the foot."""
    below, size = foot(Foot(), area, style), (area.page.width, area.page.height)
    return tuple(
        Sheet(kind, number, "paper", *size, (*head, *page, *below))
        for number, page in enumerate(pages, first)
    )
