"""The sheet that measures a printer: bars, crops, a card, a mark on each side.

Everything is placed from the paper's edges, not from its margins: what does not print is what
the sheet is there to show.
"""

from collections.abc import Iterator, Sequence
from typing import Literal

from kitbuilder.design.load import Paper
from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError
from kitbuilder.frozen import frozen
from kitbuilder.kit import phrases
from kitbuilder.layout.cover.size_check import BANK_CARD
from kitbuilder.layout.model import Item, Rect, Sheet, SheetKind
from kitbuilder.layout.parts.block import EMPTY, Block, shared, stack
from kitbuilder.layout.parts.contents import Panel, Rule
from kitbuilder.layout.parts.furniture import pictogram, step_number, wrapped
from kitbuilder.layout.parts.settings import Setting, settings
from kitbuilder.layout.parts.words import fitted, line, lines, placed_line

LONGEST_BAR = 150
"""Length in mm of a bar wherever the paper allows."""

STEPS = 16
"""Millimetres from each edge that the crop marks count."""

TYPE = 10 * 25.4 / 72
"""The smallest type for an adult: 10 points, in mm."""

EDGE = 12.0
"""Space in mm that a bar keeps from the paper's edge, so that no printer crops it."""

BAND = STEPS + 8.0
"""Depth in mm of the band along each edge that holds its crop marks."""

PITCH = 5.0
"""How long each step of the crop marks is, in mm."""

_START = 20.0
_MARK = 26.0
_SCALE, _READ, _BOX = 16.0, 5.2, 11.0
_SMALLEST, _LARGEST = 94, 103
# Room for the scale beside a bank card, from one of its numbers to the next, and the width of a
# box for a number, in mm; the smallest and the largest number, in per cent.

_SQUARE, _LIGHT, _SPREAD = 9.6, 4, 14.0
# Width of a step's number, the step in which the sheet is held against the light, and how much
# spare height goes between two steps at most.

Side = Literal["top", "right", "bottom", "left"]


@frozen
class Bar:
    """A bar to draw along ``rect``, ``length`` mm long, with a tick each millimetre."""

    length: int


@frozen
class Stairs:
    """Steps to draw along one side: step n is a line n mm from the paper's edge, numbered n."""

    side: Side


@frozen
class Register:
    """The mark that shows how far the two sides miss each other.

    The front has a scale of 5 mm each way round the mark's middle, the back a bare cross.
    """

    front: bool


@frozen
class CardOutline:
    """A bank card's outline to draw along the item's rectangle."""


def bars(paper: Paper) -> tuple[int, int]:
    """Return the lengths in mm of the bars across and down on upright ``paper``: whole tens."""
    across = min(LONGEST_BAR, int(paper.width_mm - 2 * EDGE) // 10 * 10)
    down = min(LONGEST_BAR, int(paper.height_mm - 40 - EDGE) // 10 * 10)
    return across, down


def check_sheets(style: Style) -> tuple[Sheet, Sheet]:
    """Return the front and the back of the check sheet for the paper of ``style``.

    Raises ``RefusedError`` where the paper is too small to hold it.
    """
    width, height = style.paper.width_mm, style.paper.height_mm
    across, down = bars(style.paper)
    # The bar down keeps clear of the marks along the left side, the words clear of both.
    inner = Rect(BAND + 14, 33, max(width - 2 * BAND - 14, 1), max(height - 33 - BAND, 1))
    if inner.width < BANK_CARD[0] or down < 80:
        raise RefusedError("page.no-check-sheet", field="paper", paper=style.paper.name)
    items = [
        *_stairs(width, height),
        Item("bar", Rect((width - across) / 2, BAND + 2, across, 5), Bar(across)),
        Item("bar", Rect(BAND, 40, 5, down), Bar(down)),
        *_lengths(across, down, width, style),
    ]
    front = check_steps(inner, (across, down), style)
    if front is None:
        raise RefusedError("page.check-words", field="paper", paper=style.paper.name)
    mark = next(i.rect for i in front if i.what == "register")
    back = [
        Item("register", mark.moved(width - mark.x - mark.right, 0), Register(front=False)),
        *_behind(inner, mark, style),
    ]
    return (
        Sheet(SheetKind.CHECK_PRINT, 1, "paper", width, height, (*items, *front)),
        Sheet(SheetKind.CHECK_BACK, 1, "paper", width, height, tuple(back), flip="long-edge"),
    )


_BESIDE = 14.0
"""How wide the words below the upright bar are, in mm."""


def _lengths(across: int, down: int, width: float, style: Style) -> Iterator[Item]:
    """Yield how long the bars are, at the end of each."""
    least = settings(style.look).least.sized(TYPE)
    said = [phrases.length(style.words, "check_print.long", mm) for mm in (across, down)]
    yield placed_line(said[0], least, (width + across) / 2, BAND + 9.4, "right")
    yield from lines(said[1], least, _BESIDE).at(BAND - 1, 40 + down + 2.8 - least.lead / 2)


def _behind(inner: Rect, mark: Rect, style: Style) -> tuple[Item, ...]:
    """Set what the back says below the cross: the mark's height is the same on both sides."""
    text = settings(style.look).text
    block = stack(
        (
            lines(style.words("check_print.back_title"), settings(style.look).heading, inner.width),
            lines(style.words("check_print.back"), text, inner.width),
        ),
        1.5,
    )
    below = inner.bottom - mark.bottom - 6
    return block.at(inner.x, mark.bottom + 6 if block.height <= below else inner.y)


def _stairs(width: float, height: float) -> list[Item]:
    """Place the crop marks: along each side, from the corner that lies to its left, seen from it.

    On a small page there are fewer steps, so that the marks of two sides never meet.
    """
    long = STEPS * PITCH
    rects: dict[Side, Rect] = {
        "top": Rect(_START, 0, long, BAND),
        "right": Rect(width - BAND, _START, BAND, long),
        "bottom": Rect(width - _START - long, height - BAND, long, BAND),
        "left": Rect(0, height - _START - long, BAND, long),
    }
    return [Item("stairs", rect, Stairs(side)) for side, rect in rects.items()]


def check_steps(inner: Rect, lengths: tuple[int, int], style: Style) -> tuple[Item, ...] | None:
    """Set the steps as large as the look asks, or smaller where the page is small, to 10 points."""
    size = style.look.type_mm.adult
    while size >= TYPE - 1e-9:
        try:
            found = _steps(inner, lengths, style, size)
        except RefusedError:  # a word too wide at this size
            found = None
        if found:
            return found
        size = TYPE if TYPE < size < TYPE + 0.2 else size - 0.2
    return None


def _steps(
    inner: Rect, lengths: tuple[int, int], style: Style, size: float
) -> tuple[Item, ...] | None:
    """Set title and steps in ``inner`` with words of ``size`` mm, or None if they do not fit."""
    sets, text = settings(style.look), settings(style.look).text.sized(size)
    slots = {"across": lengths[0], "down": lengths[1]}
    first, *steps = style.words.lines("check_print.steps", **slots)
    roomy = inner.width - BANK_CARD[0] - _SQUARE >= _SCALE
    if roomy:  # the length of the bar above stands in the way
        inner = Rect(inner.x, inner.y + 6.0, inner.width, inner.height - 6.0)
    else:
        text = Setting(size, 1.2 * size)
    card = _card(style, roomy=roomy)
    mark = Block((Item("register", Rect(0, 0, _MARK, _MARK), Register(front=True)),), _MARK, _MARK)
    if not roomy:  # the only room for the mark is inside the frame
        at = (BANK_CARD[0] - _MARK - 3, (BANK_CARD[1] - _MARK) / 2)
        card = Block((*card.items, *mark.at(*at)), card.width, card.height)
    shown: tuple[Block | str, ...] = (card, "measured", "printed", "shifted", EMPTY)
    blocks = [_head(inner.width, style) if roomy else EMPTY]
    blocks.append(lines(first, text, inner.width))
    for number, (said, what) in enumerate(zip(steps, shown, strict=True), 1):
        left = _SQUARE if roomy else 0.0
        width = inner.width - left - (_MARK + 6 if roomy and number == _LIGHT else 0.0)
        told = lines(said if roomy else f"{number}. {said}", text, width)
        if isinstance(what, str):
            what = _blanks(style.words.lines(f"check_print.{what}"), width, text)
        block = stack((told, what), 1.0)
        items = block.at(left, 0)
        if roomy:
            items += step_number(number, style, 6.6).at(0, -0.8)
        if roomy and number == _LIGHT:
            items += mark.at(inner.width - _MARK, 0)
            block = Block((), block.width, max(_MARK, block.height))
        blocks.append(Block(items, inner.width, block.height))
    if not roomy:
        blocks[0] = lines(style.words("check_print.title"), sets.heading.sized(size), inner.width)
    try:
        return shared(blocks, inner, 2.0 if roomy else 0.7, _SPREAD).items
    except ValueError:
        return None


def _head(width: float, style: Style) -> Block:
    """The title with a printer before it and the paper's name after it, a line below."""
    sets, side = settings(style.look), 10.0
    note = line(style.paper.name, sets.least)
    room = width - side - 3 - note.width - 3
    said = fitted(style.words("check_print.title"), sets.title, room, 0.6 * sets.title.size)
    high = max(side, said.height)
    rule = Item("rule", Rect(0, high + 1.4, width, 0.01), Rule("rule"))
    items = (
        *pictogram("printer", side).at(0, (high - side) / 2),
        *said.at(side + 3, (high - said.height) / 2),
        *note.at(width - note.width, (high - note.height) / 2),
        rule,
    )
    return Block(items, width, high + 2.4)


def _card(style: Style, *, roomy: bool) -> Block:
    """A bank card's outline with nothing in it, and a scale where a card's edge is read off.

    The card covers a print of 98 % as far as the line of 98: each line is a step further out.
    Lines for prints too large stand inside the frame, their numbers outside.
    Where there is no room at its right the scale stands below it.
    """
    width, height = BANK_CARD
    items = [Item("bank_card", Rect(0, 0, width, height), CardOutline())]
    least = settings(style.look).least.sized(TYPE)
    for k, share in enumerate(range(_LARGEST, _SMALLEST - 1, -1)):
        if roomy:
            x, y = width * 100 / share, 6.0 + _READ * k
            items.append(Item("rule", Rect(x, y - _READ / 2, 0.01, _READ), Rule("write")))
            items.append(placed_line(str(share), least, max(x, width) + 1.2, y))
        else:
            x, y = 6.0 + 1.5 * _READ * k, height * 100 / share
            items.append(Item("rule", Rect(x - 0.75 * _READ, y, 1.5 * _READ, 0.01), Rule("write")))
            items.append(placed_line(str(share), least, x, max(y, height) + 2.2, "centre"))
    return Block(tuple(items), width + (_SCALE if roomy else 0), height + (0 if roomy else 7.6))


def _blanks(labels: Sequence[str], width: float, setting: Setting) -> Block:
    """Return a box to write a number in after each of ``labels``, in rows of ``width`` mm."""
    high = 1.6 * setting.size
    quiet = setting.quiet()
    blocks = []
    for label in labels:
        said = placed_line(label, quiet, 0, high / 2)
        box = Rect(said.rect.right + 1.4, 0, _BOX, high)
        panel = Item("panel", box, Panel("paper", "write", 0.8))
        blocks.append(Block((said, panel), box.right, high))
    return wrapped(blocks, width, 2.0, 0.8, 6.0)
