"""The sheet that measures a printer: bars, crops, a card, a mark on each side.

Everything is placed from the paper's edges, not from its margins: what does not print is what
the sheet is there to show.
"""

from dataclasses import dataclass
from typing import Literal

from kitbuilder.design.load import Look, Paper
from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError
from kitbuilder.kit.records import Say
from kitbuilder.layout.model import Item, Rect, Sheet, SheetKind
from kitbuilder.layout.pages.cover_page import BANK_CARD
from kitbuilder.layout.text.flow import paragraph

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

_PITCH = 5.0
_START = 20.0
_MARK = 26.0

Side = Literal["top", "right", "bottom", "left"]


@dataclass(frozen=True, slots=True)
class Bar:
    """A bar to draw along ``rect``, ``length`` mm long, with a tick each millimetre."""

    length: int
    text: str


@dataclass(frozen=True, slots=True)
class Stairs:
    """Steps to draw along one side: step n is a line n mm from the paper's edge, numbered n."""

    side: Side
    pitch: float = _PITCH


@dataclass(frozen=True, slots=True)
class Register:
    """The mark that shows how far the two sides miss each other.

    The front has a scale of 5 mm each way round the mark's middle, the back a bare cross.
    """

    front: bool


@dataclass(frozen=True, slots=True)
class CardOutline:
    """A bank card's outline to draw along the item's rectangle."""


def bars(paper: Paper) -> tuple[int, int]:
    """Return the lengths in mm of the bars across and down on upright ``paper``: whole tens."""
    across = min(LONGEST_BAR, int(paper.width_mm - 2 * EDGE) // 10 * 10)
    down = min(LONGEST_BAR, int(paper.height_mm - 40 - EDGE) // 10 * 10)
    return across, down


def check_sheets(style: Style, typed: str) -> tuple[Sheet, Sheet]:
    """Return the front and the back of the check sheet for ``paper``, called ``typed``.

    Raises ``RefusedError`` where the paper is too small to hold it.
    """
    width, height = style.paper.width_mm, style.paper.height_mm
    across, down = bars(style.paper)
    # The bar down keeps clear of the marks along the left side, the words clear of both.
    inner = Rect(BAND + 14, 42, max(width - 2 * BAND - 14, 1), max(height - 42 - BAND, 1))
    if inner.width < BANK_CARD[0] or down < 80:
        raise RefusedError("page.no-check-sheet", field="paper", paper=style.paper.name)
    x = (width - across) / 2
    items = [
        *_stairs(width, height),
        Item(
            "bar",
            Rect(x, BAND + 2, across, 5),
            Bar(across, style.words("check_print.mm", mm=across)),
        ),
        Item("bar", Rect(BAND, 40, 5, down), Bar(down, style.words("check_print.mm", mm=down))),
    ]
    texts = _fitted_words(inner, (across, down), typed, style)
    if texts is None:
        raise RefusedError("page.check-words", field="paper", paper=style.paper.name)
    items += texts
    mark = next(i.rect for i in texts if i.what == "register")
    back = [
        Item("register", mark.moved(width - mark.x - mark.right, 0), Register(front=False)),
        *_behind(style.words("check_print.back"), inner, mark, style.look),
    ]
    return (
        Sheet(SheetKind.CHECK_PRINT, 1, "paper", width, height, tuple(items)),
        Sheet(SheetKind.CHECK_BACK, 1, "paper", width, height, tuple(back), flip="long-edge"),
    )


def _behind(text: str, inner: Rect, mark: Rect, look: Look) -> list[Item]:
    """Set what the back says below the cross: the mark's height is the same on both sides."""
    area = Rect(inner.x, mark.bottom + 4, inner.width, 1)
    return [paragraph(Say("body", text), area, look)[0]]


def _stairs(width: float, height: float) -> list[Item]:
    """Place the crop marks: along each side, from the corner that lies to its left, seen from it.

    On a small page there are fewer steps, so that the marks of two sides never meet.
    """
    long = STEPS * _PITCH
    rects: dict[Side, Rect] = {
        "top": Rect(_START, 0, long, BAND),
        "right": Rect(width - BAND, _START, BAND, long),
        "bottom": Rect(width - _START - long, height - BAND, long, BAND),
        "left": Rect(0, height - _START - long, BAND, long),
    }
    return [Item("stairs", rect, Stairs(side)) for side, rect in rects.items()]


def _fitted_words(
    inner: Rect, lengths: tuple[int, int], typed: str, style: Style
) -> list[Item] | None:
    """Set the words as large as the look asks, or smaller where the page is small, to 10 points."""
    size = style.look.type_mm.adult
    while size >= TYPE - 1e-9:
        for in_card in (True, False):
            try:
                items = _words(inner, lengths, typed, style, size, in_card)
            except RefusedError:  # a word too wide at this size
                continue
            if items:
                return items
        size = TYPE if TYPE < size < TYPE + 0.2 else size - 0.2
    return None


def _words(
    inner: Rect,
    lengths: tuple[int, int],
    typed: str,
    style: Style,
    size: float,
    in_card: bool,
) -> list[Item] | None:
    """Set the card's outline, the mark, the lead (in the card or below it) and the steps.

    Returns None where they do not fit at ``size`` mm. On a narrow page the mark stands in the
    card's outline, else beside it.
    """
    slots = {"across": lengths[0], "down": lengths[1], "paper": typed}
    card = Rect(inner.x, inner.y, *BANK_CARD)
    beside = inner.right - card.right
    narrow = beside < _MARK + 6
    middle = card.right - 2 - _MARK / 2 if narrow else card.right + beside / 2
    mark = Rect(middle - _MARK / 2, card.y + (card.height - _MARK) / 2, _MARK, _MARK)
    lead = style.words.lines("check_print.head", **slots)
    if in_card:
        room = mark.x - card.x - 5 if narrow else card.width - 8
        head = _set(lead, Rect(card.x + 4, card.y + 4, room, 1), size, style.look)
        y = card.bottom + size
        if head[-1].rect.bottom > card.bottom - 2:
            return None
    else:
        head = _set(lead, Rect(inner.x, card.bottom + size, inner.width, 1), size, style.look)
        y = head[-1].rect.bottom + 0.7 * size
    steps = []
    for number, line in enumerate(style.words.lines("check_print.steps", **slots), 1):
        say = Say("step", line, f"{number}.")
        steps.append(paragraph(say, Rect(inner.x, y, inner.width, 1), style.look, size)[0])
        y = steps[-1].rect.bottom + 0.5 * size
    if y - 0.5 * size > inner.bottom:
        return None
    outline = Item("bank_card", card, CardOutline())
    return [outline, *head, Item("register", mark, Register(front=True)), *steps]


def _set(lines: tuple[str, ...], area: Rect, size: float, look: Look) -> list[Item]:
    """Set a title and the lines below it."""
    items, y = [], area.y
    for number, line in enumerate(lines):
        here = 1.3 * size if number == 0 else size
        item = paragraph(Say("body", line), Rect(area.x, y, area.width, 1), look, here)[0]
        items.append(item)
        y = item.rect.bottom + 0.3 * size
    return items
