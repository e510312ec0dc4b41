"""Turns a class set's kits into labels for their bags: equal cards, several to a sheet."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from kitbuilder import measure
from kitbuilder.designs import Look, Paper, Words
from kitbuilder.errors import RefusedError
from kitbuilder.kit import phrases
from kitbuilder.number import Pieces
from kitbuilder.sheet.flow import LEADING
from kitbuilder.sheet.grid import Page
from kitbuilder.sheet.records import Item, Rect, Sheet
from kitbuilder.sheet.rects import pack_cards

TICKS = 12
"""Boxes to tick on a label: one each time its bag is packed again."""

_PAD = 4.0
_BOX = 5.0
_PITCH = 7.0


@dataclass(frozen=True, slots=True)
class LabelFace:
    """A label to draw: its title, its bag's contents, and boxes to tick below ``packed``.

    ``ink`` is where ink may lie and ``boxes`` the boxes, in mm from the page's top left.
    """

    title: str
    lines: tuple[str, ...]
    packed: str
    ink: Rect
    boxes: tuple[Rect, ...]


def label_sheets(
    bag: Pieces, own: Sequence[Sheet], kits: int, paper: Paper, words: Words, look: Look
) -> tuple[Sheet, ...]:
    """Return a label for each of ``kits`` bags that hold ``bag`` and what is on ``own`` sheets.

    As many labels go on a sheet as their words allow: eight, four or two; none are made for a
    single kit. Raises ``RefusedError`` where the words do not fit half a page.
    """
    if kits == 1:
        return ()
    page = Page.of(paper)
    lines = bag_lines(bag, own, words)
    for halvings in (3, 2, 1):
        plan = pack_cards(kits, page, halvings, what="label")
        places = [
            (layout, item.rect)
            for layout in plan.layouts
            for _ in range(layout.copies)
            for item in sorted(layout.items, key=_reading)
        ]
        faces = [
            _face(n, kits, lines, _ink(rect, page), words, look)
            for n, (_, rect) in enumerate(places[:kits], 1)
        ]
        if all(faces):
            break
    else:
        raise RefusedError("The label of a bag does not fit the page; choose a larger paper.")
    sheets: list[Sheet] = []
    for layout in plan.layouts:
        for _ in range(layout.copies):
            here, faces = faces[: len(layout.items)], faces[len(layout.items) :]
            items = tuple(
                Item("label", item.rect, face)
                for item, face in zip(sorted(layout.items, key=_reading), here, strict=False)
            )
            number = len(sheets) + 1
            size = (paper.width_mm, paper.height_mm)
            sheets.append(Sheet("labels", number, "card", *size, items, layout.cuts))
    return tuple(sheets)


def bag_lines(bag: Pieces, own: Sequence[Sheet], words: Words) -> tuple[str, ...]:
    """Return what is in each bag, thing by thing: pieces, mats and cards."""
    held = [phrases.count(words, k, n) for k, n in enumerate(bag.counts) if n][::-1]
    mats = dict.fromkeys(sheet.title for sheet in own if sheet.stock == "paper")
    held += [words(f"title.{title}") for title in mats]
    cards = Counter[str]()
    for sheet in own:
        if sheet.stock == "card" and sheet.flip is None:
            cards[sheet.title] += len(sheet.items)
    held += [
        words("bag.cards", cards=words(f"title.{title}"), count=count)
        for title, count in cards.items()
    ]
    return tuple(held)


def _reading(item: Item) -> tuple[float, float]:
    return item.rect.y, item.rect.x


def _ink(card: Rect, page: Page) -> Rect:
    x, y = max(card.x + _PAD, page.left), max(card.y + _PAD, page.top)
    right = min(card.right - _PAD, page.width - page.right)
    bottom = min(card.bottom - _PAD, page.height - page.bottom)
    return Rect(x, y, right - x, bottom - y)


def _face(
    number: int, kits: int, lines: Sequence[str], ink: Rect, words: Words, look: Look
) -> LabelFace | None:
    """Return the label of one bag, None where it does not fit ``ink``."""
    size = look.type_mm.adult
    title, packed = words("bag.title", number=number, kits=kits), words("bag.packed")
    wrapped = tuple(line for said in lines for line in measure.wrap(said, size, ink.width))
    high = LEADING * (look.type_mm.heading + (len(wrapped) + 1) * size) + _BOX
    widths = [measure.width(title, look.type_mm.heading), measure.width(packed, size)]
    widths += [measure.width(line, size) for line in wrapped]
    if high > ink.height or max(widths) > ink.width:
        return None
    across = min(TICKS, int((ink.width + _PITCH - _BOX) / _PITCH))
    boxes = [Rect(ink.x + k * _PITCH, ink.bottom - _BOX, _BOX, _BOX) for k in range(across)]
    return LabelFace(title, wrapped, packed, ink, tuple(boxes))
