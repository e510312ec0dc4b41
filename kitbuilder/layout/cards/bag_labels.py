"""Turns a class set's kits into labels for their bags: equal cards, several to a sheet."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from kitbuilder.design import metrics
from kitbuilder.design.load import Words
from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError
from kitbuilder.kit import phrases
from kitbuilder.layout.cards.free_corner import free_corner
from kitbuilder.layout.cards.halving import Halved, overlap
from kitbuilder.layout.model import Item, Rect, Sheet, SheetKind
from kitbuilder.layout.text.flow import LEADING
from kitbuilder.number import Pieces

TICKS = 12
"""Boxes to tick on a label: one each time its bag is packed again."""

_PAD = 4.0
_BOX = 5.0
_PITCH = 7.0


@dataclass(frozen=True, slots=True)
class LabelFace:
    """A label to draw: its title, its bag's contents, and boxes to tick below ``packed``.

    ``ink`` is where ink may lie and ``boxes`` the boxes, in mm from the page's top left;
    ``corner`` is free for someone's own drawing.
    """

    title: str
    lines: tuple[str, ...]
    packed: str
    ink: Rect
    boxes: tuple[Rect, ...]
    corner: Rect | None = None


def label_sheets(bag: Pieces, own: Sequence[Sheet], kits: int, style: Style) -> tuple[Sheet, ...]:
    """Return a label for each of ``kits`` bags that hold ``bag`` and what is on ``own`` sheets.

    As many labels go on a sheet as their words allow: eight, four or two; none are made for a
    single kit. Raises ``RefusedError`` where the words do not fit half a page.
    """
    if kits == 1:
        return ()
    lines = bag_lines(bag, own, style.words)
    for times in (3, 2, 1):
        way = Halved.of(style.paper, times, wide=times % 2 == 1)
        inks = [overlap(place.inset(_PAD), way.page.inside) for place in way.places]
        each = len(inks)
        faces = [_face(n + 1, kits, lines, inks[n % each], style) for n in range(kits)]
        if all(faces):
            break
    else:
        raise RefusedError("card.no-label", field="paper")
    sheets: list[Sheet] = []
    for first in range(0, kits, each):
        here = zip(way.places, faces[first : first + each], strict=False)
        items = tuple(Item("label", rect, face) for rect, face in here)
        size = (way.page.width, way.page.height)
        number = len(sheets) + 1
        sheets.append(Sheet(SheetKind.LABELS, number, "card", *size, items, way.cuts(len(items))))
    return tuple(sheets)


def bag_lines(bag: Pieces, own: Sequence[Sheet], words: Words) -> tuple[str, ...]:
    """Return what is in each bag, thing by thing: pieces, mats and cards."""
    held = [phrases.count(words, k, n) for k, n in enumerate(bag.counts) if n][::-1]
    mats = dict.fromkeys(sheet.kind for sheet in own if sheet.stock == "paper")
    held += [words(f"title.{title}") for title in mats]
    cards = Counter[str]()
    for sheet in own:
        if sheet.stock == "card" and sheet.flip is None:
            cards[sheet.kind] += len(sheet.items)
    held += [
        words("bag.cards", cards=words(f"title.{title}"), count=count)
        for title, count in cards.items()
    ]
    return tuple(held)


def _face(
    number: int, kits: int, lines: Sequence[str], ink: Rect, style: Style
) -> LabelFace | None:
    """Return the label of one bag, None where it does not fit ``ink``."""
    size = style.look.type_mm.adult
    title, packed = style.words("bag.title", number=number, kits=kits), style.words("bag.packed")
    wrapped = tuple(line for said in lines for line in metrics.wrap(said, size, ink.width))
    high = LEADING * (style.look.type_mm.heading + (len(wrapped) + 1) * size) + _BOX
    widths = [metrics.width(title, style.look.type_mm.heading), metrics.width(packed, size)]
    widths += [metrics.width(line, size) for line in wrapped]
    if high > ink.height or max(widths) > ink.width:
        return None
    across = min(TICKS, int((ink.width + _PITCH - _BOX) / _PITCH))
    boxes = [Rect(ink.x + k * _PITCH, ink.bottom - _BOX, _BOX, _BOX) for k in range(across)]
    heading = style.look.type_mm.heading
    rows = [Rect(ink.x, ink.y, widths[0], LEADING * heading)]
    for row, width in enumerate(widths[2:]):
        rows.append(Rect(ink.x, ink.y + LEADING * (heading + row * size), width, LEADING * size))
    foot = Rect(ink.x, boxes[0].y - LEADING * size, ink.width, LEADING * size + _BOX)
    corner = free_corner(ink, [*rows, foot])
    return LabelFace(title, wrapped, packed, ink, tuple(boxes), corner)
