"""Labels for the bags of a class set: strips from edge to edge, what is in the bag to tick."""

from dataclasses import dataclass

from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError
from kitbuilder.kit import phrases
from kitbuilder.kit.bank import Bank
from kitbuilder.kit.records import CutWish
from kitbuilder.layout.bag import Bag
from kitbuilder.layout.cards.free_corner import OWN_PICTURE, free_corner
from kitbuilder.layout.cards.halving import strip_high
from kitbuilder.layout.model import Cut, Item, Rect, Sheet, SheetKind
from kitbuilder.layout.page import Page
from kitbuilder.layout.parts.block import EMPTY, Block, stack
from kitbuilder.layout.parts.contents import Panel, Rule
from kitbuilder.layout.parts.furniture import foot_high, pictogram, wrapped
from kitbuilder.layout.parts.settings import settings
from kitbuilder.layout.parts.words import fitted, line, lines, wide
from kitbuilder.layout.pieces.heaps import heaps
from kitbuilder.number import PLACES, Pieces

TICKS = 5
"""Boxes to tick for each thing: one each time its bag comes home."""

ROWS = (4, 3, 2, 1)
"""Labels on a sheet, as many as their words allow."""

_PAD, _GAP = 4.0, 5.0
_BOX, _PITCH = 4.2, 5.4
_ASIDE = 150.0
"""From this width on, mm, there is room at the right for how to count."""

_LOWEST = 30.0
"""A label lower than this, in mm, holds no words."""


@dataclass(frozen=True, slots=True)
class LabelFace:
    """What stands on a label, in mm from the page's top left."""

    items: tuple[Item, ...]


@dataclass(frozen=True, slots=True)
class _Held:
    """What a label tells of: the pieces in its bag, the words for all of it, and the class set.

    ``number`` is the kit's; None for the box of thousands that a class shares.
    """

    pieces: Pieces
    bag: Bag
    cutting: CutWish
    number: int | None


def label_sheets(bank: Bank, bag: Bag, cutting: CutWish, style: Style) -> tuple[Sheet, ...]:
    """Return a label for each bag of a class set, with pieces and what ``bag`` tells of.

    A ``bank`` of thousands that the class shares has one too. None are made for a single kit that
    nobody takes home, or where nothing is in the bags.
    Raises ``RefusedError`` where the words do not fit a page.
    """
    kits, pieces = cutting.kits, bank.in_bag
    if (kits == 1 and not cutting.home) or not (pieces.value or bag.things or bag.pages):
        return ()
    page = Page.upright(style.paper)
    held = [_Held(pieces, bag, cutting, number) for number in range(1, kits + 1)]
    if bank.at_once:
        held.append(_Held(Pieces(thousands=bank.thousands), Bag(), cutting, None))
    end = round(page.height - strip_high(page, foot_high(style.look)), 2)
    for rows in ROWS:
        high = end / rows
        if high < _LOWEST:
            continue
        places = [Rect(0, k * high, page.width, high) for k in range(rows)]
        inks = [place.inset(_PAD).common(page.inside.inset(_PAD)) for place in places]
        faces = [
            _face(one, ink, style) if (ink := inks[n % rows]) else None
            for n, one in enumerate(held)
        ]
        if all(faces):
            break
    else:
        raise RefusedError("card.no-label", field="paper")
    sheets: list[Sheet] = []
    for first in range(0, len(held), rows):
        here = zip(places, faces[first : first + rows], strict=False)
        items = tuple(Item("label", rect, face) for rect, face in here)
        size, number = (page.width, page.height), len(sheets) + 1
        cuts = _cuts(page, end, rows, len(items))
        sheets.append(Sheet(SheetKind.LABELS, number, "card", *size, items, cuts))
    return tuple(sheets)


def _cuts(page: Page, end: float, rows: int, filled: int) -> tuple[Cut, ...]:
    """Return the cuts that free the first labels; a full sheet loses its foot first.

    Then the middle one: halves lie in a stack.
    """
    lines_ = sorted(range(1, min(filled, rows - 1) + 1), key=lambda k: (2 * k != rows, k))
    heights = [end] if filled == rows else []
    heights += [k * end / rows for k in lines_]
    return tuple(Cut(0, y, page.width, y) for y in heights)


def _face(held: _Held, ink: Rect, style: Style) -> LabelFace | None:
    """Return the label of one bag, None where it does not fit ``ink``.

    What is kept at home is told below what is in the bag, else at the right.
    """
    aside = 0.22 * ink.width if ink.width >= _ASIDE else 0.0
    tried = (_placed(held, ink, style, (aside, kept)) for kept in (True, False))
    return next((face for face in tried if face), None)


def _placed(held: _Held, ink: Rect, style: Style, way: tuple[float, bool]) -> LabelFace | None:
    """Return the label with a column so wide at its right; ``way`` tells also what stands below."""
    aside, kept = way
    left = (0.22 if aside else 0.3) * ink.width
    middle = ink.width - left - _GAP - (aside + _GAP if aside else 0.0)
    try:
        columns = [
            (_names(held, left, style), 0.0),
            (_contents(held, middle, ink.height, style, kept=kept or not aside), left + _GAP),
        ]
        if aside:
            columns.append((_counting(held, aside, style, kept=not kept), left + middle + 2 * _GAP))
    except RefusedError:
        return None
    if any(block.height > ink.height for block, _ in columns):
        return None
    items = [item for block, x in columns for item in block.at(ink.x + x, ink.y)]
    for _, x in columns[1:]:
        edge = Rect(ink.x + x - _GAP / 2, ink.y, 0.01, ink.height)
        items.append(Item("rule", edge, Rule("divider")))
    if style.is_pictured and (corner := free_corner(ink, (item.rect for item in items))):
        items.append(Item(OWN_PICTURE, corner))
    return LabelFace(tuple(items))


def _names(held: _Held, width: float, style: Style) -> Block:
    """Return the kit's number and lines for names: one for a child's own kit, two for a shared."""
    words, sets, kits = style.words, settings(style.look), held.cutting.kits
    if held.number is None:
        return stack((lines(words("bank.title"), sets.heading, width),))
    said = words("bag.title", number=held.number) if kits > 1 else words("bag.alone")
    title = fitted(said, sets.title, width, sets.text.size)
    of = lines(words("bag.of", kits=kits), sets.least, width) if kits > 1 else EMPTY
    alone = held.cutting.readers <= kits
    names = lines(words("bag.name" if alone else "bag.names"), sets.least, width)
    place = Rect(0, 7.0, width, 0.01)
    dotted = Block((Item("rule", place, Rule("divider")),), width, 7.1)
    rows = (dotted,) if alone else (dotted, dotted)
    return stack((title, of, Block((), width, 2.0), names, *rows), 1.0)


def _contents(held: _Held, width: float, height: float, style: Style, *, kept: bool) -> Block:
    """Return what is in the bag, boxes to tick below each thing; also what is ``kept`` at home."""
    bag = held.pieces
    text = settings(style.look).text
    least = max(TICKS * _PITCH, 0.0)
    told = _kept(held, width, style) if kept else EMPTY
    high = min(26.0, 0.38 * height - 0.6 * told.height)
    places = [place for place in (3, 2, 1, 0) if bag.counts[place]]
    names = [line(phrases.count(style.words, k, bag.counts[k]), text) for k in places]
    kinds = [(PLACES[place], bag.counts[place]) for place in places]
    rooms = [(max(least, name.width), high) for name in names]
    cells = []
    for name, room, picture in zip(names, rooms, heaps(kinds, rooms, 1.8), strict=True):
        shown = Block(picture.at(0, high - picture.height), room[0], high)
        cells.append(stack((shown, name, _boxes()), 1.0))
    others = [stack((_thing(said, width, style), _boxes()), 1.0) for said in held.bag.things]
    box = lines(style.words("bank.bag"), text, width) if held.bag.bank else EMPTY
    rows = (wrapped(cells, width, 3.0, 2.0), box, wrapped(others, width, 3.0, 1.5), told)
    return stack([block for block in rows if block.height], 2.5)


def _kept(held: _Held, width: float, style: Style) -> Block:
    """Return what is kept at home and what comes back, if anything is."""
    said = held.bag.kept
    return lines(said, settings(style.look).least, width) if said else EMPTY


def _thing(said: str, width: float, style: Style) -> Block:
    text = settings(style.look).text
    return line(said, text) if wide(said, text) <= width else lines(said, text, width)


def _boxes() -> Block:
    items = tuple(
        Item("tick_box", Rect(k * _PITCH, 0, _BOX, _BOX), Panel(line="write", radius=0.6))
        for k in range(TICKS)
    )
    return Block(items, TICKS * _PITCH, _BOX)


def _counting(held: _Held, width: float, style: Style, *, kept: bool) -> Block:
    """Return how the bag is counted back, the caution for small children, also what is ``kept``."""
    words, sets = style.words, settings(style.look)
    alone = held.cutting.readers == 1
    packed = words("bag.alone_packed" if alone else "bag.packed")
    how = words("bag.alone_how" if alone else "bag.how")
    care = Block(
        (*pictogram("care", 7.0).items, *lines(words("bag.care"), sets.text, width - 9).at(9, 0)),
        width,
        max(7.0, lines(words("bag.care"), sets.text, width - 9).height),
    )
    return stack(
        (
            lines(packed, sets.least, width),
            lines(how, sets.text, width),
            Block((), width, 1.0 if kept and held.bag.kept else 3.0),
            care,
            _kept(held, width, style) if kept else EMPTY,
        ),
        1.0,
    )
