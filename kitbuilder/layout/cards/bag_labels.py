"""Labels for the bags of a class set: strips from edge to edge, what is in the bag to tick."""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import chain

from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError
from kitbuilder.kit import phrases
from kitbuilder.kit.bank import Bank
from kitbuilder.kit.records import CutWish
from kitbuilder.layout.bag import Bag
from kitbuilder.layout.cards.free_corner import OWN_PICTURE, free_corner
from kitbuilder.layout.cards.halving import strip_high
from kitbuilder.layout.model import Cut, Item, Rect, Sheet, SheetKind
from kitbuilder.layout.parts.block import EMPTY, Block, shared, stack
from kitbuilder.layout.parts.contents import Panel, Rule
from kitbuilder.layout.parts.furniture import foot_high, pictogram, wrapped
from kitbuilder.layout.parts.settings import growth, settings
from kitbuilder.layout.parts.words import fitted, line, lines, wide
from kitbuilder.layout.picture.heaps import heaps
from kitbuilder.layout.printable import Page
from kitbuilder.number import PLACES, Pieces

TICKS = 5
"""Boxes to tick for each thing: one each time its bag comes home."""

MOST_TICKS = 2 * TICKS
"""Boxes for a bag that comes back more often, at most."""

MOST_NAMES = 4
"""Lines for names on a label, at most."""

ROWS = (4, 3, 2, 1)
"""Labels on a sheet, as many as their words allow."""

_PAD, _CLEAR, _GAP, _APART = 3.0, 1.5, 5.0, 3.0
# Words from a cut and from what the printer leaves white, columns apart, pictures apart, in mm.

_BOX, _PITCH = 4.2, 5.4
_BELOW = 2.0
_ASIDE = 150.0
"""From this width on, in mm for type of the usual size, there is room at the right for how to
count."""

_HEAPS = (34.0, 30.0, 26.0, 23.0, 20.0, 16.0, 12.0, 9.0)
"""Heights of the pictures of pieces in mm, the largest that fits is taken."""

_MOST_ONE, _MOST_AIR = 2.4, 12.0
# The width in mm of a one in those pictures at most; what spare height adds to a gap at most.

_USUAL = 5.0
# Type in mm that is no larger than usual.

_LOWEST = 30.0
"""A label lower than this, in mm, holds no words."""


@dataclass(frozen=True, slots=True)
class LabelFace:
    """What stands on a label, in mm from the page's top left."""

    items: tuple[Item, ...]


@dataclass(frozen=True, slots=True)
class _Held:
    """What a label tells of: the pieces in its bag, the words for all of it, and the class set.

    ``number`` is the kit's, 0 on a label to spare; None for the box of thousands that a class
    shares.
    """

    pieces: Pieces
    bag: Bag
    cutting: CutWish
    number: int | None


def label_sheets(bank: Bank, bag: Bag, cutting: CutWish, style: Style) -> tuple[Sheet, ...]:
    """Return a label for each bag of a class set, with pieces and what ``bag`` tells of.

    A ``bank`` of thousands that the class shares has one too; labels to spare fill the last sheet.
    None are made for a single kit that
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
        inks = _alike(place.inset(_PAD).common(page.inside.inset(_CLEAR)) for place in places)
        every = [*held, *[_Held(pieces, bag, cutting, 0)] * (-len(held) % rows)]
        faces = [
            _face(one, ink, style) if (ink := inks[n % rows]) else None
            for n, one in enumerate(every)
        ]
        if all(faces):
            break
    else:
        raise RefusedError("card.no-label", field="paper")
    sheets: list[Sheet] = []
    for first in range(0, len(faces), rows):
        here = zip(places, faces[first : first + rows], strict=True)
        items = tuple(Item("label", rect, face) for rect, face in here)
        size, number = (page.width, page.height), len(sheets) + 1

        sheets.append(Sheet(SheetKind.LABELS, number, "card", *size, items, _cuts(page, end, rows)))
    return tuple(sheets)


def _alike(inks: Iterable[Rect | None]) -> list[Rect | None]:
    """Return ``inks`` all as high as the lowest, so that labels of one sheet are alike."""
    found = list(inks)
    high = min((ink.height for ink in found if ink), default=0.0)
    return [ink.as_high(high) if ink else None for ink in found]


def _cuts(page: Page, end: float, rows: int) -> tuple[Cut, ...]:
    """Return the cuts that free the labels of a sheet: its foot, then the middle one.

    So halves lie in a stack.
    """
    lines_ = sorted(range(1, rows), key=lambda k: (2 * k != rows, k))
    heights = [end, *(k * end / rows for k in lines_)]
    return tuple(Cut(0, y, page.width, y) for y in heights)


def _face(held: _Held, ink: Rect, style: Style) -> LabelFace | None:
    """Return the label of one bag, None where it does not fit ``ink``.

    What is kept at home is told below what is in the bag, else at the right. On paper narrow for
    its type all stands below each other, its pictures as large as fit, and elsewhere where
    columns have no room.
    """
    stacked = (_stacked(held, ink, style, high) for high in _HEAPS)
    placed = (_placed(held, ink, style, kept=kept) for kept in (True, False))
    wide_enough = ink.width >= _ASIDE * growth(style.look)
    tried = chain(placed, stacked) if wide_enough else stacked
    return next((face for face in tried if face), None)


def _placed(held: _Held, ink: Rect, style: Style, *, kept: bool) -> LabelFace | None:
    """Return the label in three columns; the middle one tells also what is ``kept`` at home."""
    side = 0.22 * ink.width
    middle = ink.width - 2 * side - 2 * _GAP
    try:
        told = _kept(held, middle, style) if kept else EMPTY
        columns = (
            (_names(held, side, style), 0.0),
            (_largest(held, middle, ink.height, style, told), side + _GAP),
            (_counting(held, side, style, kept=not kept), side + middle + 2 * _GAP),
        )
        placed = [
            (shared(some, Rect(0, 0, ink.width, ink.height), _BELOW, _MOST_AIR), x)
            for some, x in columns
        ]
    except (RefusedError, ValueError):  # a word is too wide, or all too high
        return None
    items = [item for block, x in placed for item in block.at(ink.x + x, ink.y)]
    for _, x in columns[1:]:
        edge = Rect(ink.x + x - _GAP / 2, ink.y, 0.01, ink.height)
        items.append(Item("rule", edge, Rule("divider")))
    return _with_picture(items, ink, style)


def _stacked(held: _Held, ink: Rect, style: Style, high: float) -> LabelFace | None:
    """Return the label with all below each other, the pictures of pieces ``high`` mm high."""
    large = style.look.type_mm.adult > _USUAL
    side = (0.54 if large else 0.4) * ink.width
    try:
        title = stack((_title(held, side, style, close=large), _turns(held, side, style)), 1.0)
        names = _name_lines(held, ink.width - side - _GAP, style) if held.number else EMPTY
        head = Block(
            (*title.items, *names.at(side + _GAP, 0)), ink.width, max(title.height, names.height)
        )
        told = _kept(held, ink.width, style)
        below = _how(held, ink.width, style), _care(ink.width, style)
        ticked = wrapped(below, ink.width, _GAP, 1.0)
        blocks = (head, *_contents(held, ink.width, high, style, told), ticked)
    except RefusedError:
        return None
    if stack(blocks, _BELOW).height > ink.height:
        return None
    block = shared([one for one in blocks if one.height], ink, _BELOW, _MOST_AIR)
    return _with_picture(block.items, ink, style)


def _with_picture(items: Iterable[Item], ink: Rect, style: Style) -> LabelFace:
    """Return a label of ``items``, with the user's own picture in a corner that is free."""
    held = tuple(items)
    if style.is_pictured and (corner := free_corner(ink, (item.rect for item in held))):
        held = (*held, Item(OWN_PICTURE, corner))
    return LabelFace(held)


def _names(held: _Held, width: float, style: Style) -> tuple[Block, ...]:
    """Return the kit's number and lines for names."""
    title = _title(held, width, style)
    if held.number is None:
        return (title,)
    return title, stack((_name_lines(held, width, style), _turns(held, width, style)), 1.0)


def _title(held: _Held, width: float, style: Style, *, close: bool = False) -> Block:
    """Return the kit's number, of how many; or what the box of a class is called.

    Both stand on one line where they are to be ``close`` and fit.
    """
    words, sets, kits = style.words, settings(style.look), held.cutting.kits
    if held.number is None:
        return lines(words("bank.title"), sets.heading, width)
    said = words("bag.title", number=held.number or "…") if kits > 1 else words("bag.alone")
    title = fitted(said, sets.title, width, sets.text.size)
    below = words("bag.of", kits=kits) if held.number else words("bag.spare")
    of = lines(below, sets.least, width) if kits > 1 or not held.number else EMPTY
    used = max(item.rect.right for item in title.items) + _APART
    if close and of.height and used + wide(below, sets.least) <= width:
        down = 0.7 * (title.height - of.height)
        return Block((*title.items, *of.at(used, max(0.0, down))), width, title.height)
    return stack((title, of), 1.0)


def _name_lines(held: _Held, width: float, style: Style) -> Block:
    """Return lines for names: one for a child's own kit, some for a shared.

    Those who share a kit that goes home stand in the order in which they take it.
    """
    words, least, cutting = style.words, settings(style.look).least, held.cutting
    count = min(MOST_NAMES, cutting.sharing)
    turns = cutting.home and count > 1
    said = "bag.name" if count == 1 else "bag.turns" if turns else "bag.names"
    order = ("bag.first", *["bag.then"] * (count - 1)) if turns else [""] * count
    named = (line(words(one), least) if one else EMPTY for one in order)
    return stack(
        (lines(words(said), least, width), *(_name_line(one, width) for one in named)), 1.0
    )


def _turns(held: _Held, width: float, style: Style) -> Block:
    """Return when a shared kit that goes home comes back for the next child."""
    if not (held.number is not None and held.cutting.home and held.cutting.sharing > 1):
        return EMPTY
    return lines(style.words("bag.turns_back"), settings(style.look).least, width)


def _name_line(named: Block, width: float) -> Block:
    """Return a line for a name after the words ``named``."""
    start = named.width + 2.0 if named.width else 0.0
    place = Rect(start, 7.0, width - start, 0.01)
    words = named.at(0, 7.0 - named.height)
    return Block((*words, Item("rule", place, Rule("divider"))), width, 7.1)


def _largest(
    held: _Held, width: float, most: float, style: Style, told: Block
) -> tuple[Block, ...]:
    """Return what is in the bag in the largest pictures that leave it ``most`` mm high."""
    for high in _HEAPS:
        found = _contents(held, width, high, style, told)
        if sum(block.height for block in found) + _BELOW * (len(found) - 1) <= most:
            break
    return found


def _contents(
    held: _Held, width: float, high: float, style: Style, told: Block
) -> tuple[Block, ...]:
    """Return what is in the bag, boxes to tick below each thing; below it what is ``told``.

    The pictures of pieces are ``high`` mm high.
    """
    bag = held.pieces
    text = settings(style.look).text
    places = [place for place in (3, 2, 1, 0) if bag.counts[place]]
    names = [line(phrases.count(style.words, k, bag.counts[k]), text) for k in places]
    kinds = [(PLACES[place], bag.counts[place]) for place in places]
    share = (width - _APART * (len(places) - 1)) / max(1, len(places))
    boxes = _boxes(held.bag.turns, share)
    rooms = [(max(boxes.width, name.width, share), high) for name in names]
    cells = []
    for name, room, picture in zip(names, rooms, heaps(kinds, rooms, _MOST_ONE), strict=True):
        shown = Block(picture.at(0, high - picture.height), room[0], high)
        cells.append(stack((shown, name, boxes), 1.0))
    others = [stack((_thing(said, width, style), boxes), 1.0) for said in held.bag.things]
    box = lines(style.words("bank.bag"), text, width) if held.bag.bank else EMPTY
    rows = (wrapped(cells, width, _APART, 2.0), box, wrapped(others, width, _APART, 1.5), told)
    return tuple(block for block in rows if block.height)


def _kept(held: _Held, width: float, style: Style) -> Block:
    """Return what is kept at home and what comes back, if anything is."""
    said = held.bag.kept
    return lines(said, settings(style.look).least, width) if said else EMPTY


def _thing(said: str, width: float, style: Style) -> Block:
    text = settings(style.look).text
    return line(said, text) if wide(said, text) <= width else lines(said, text, width)


def _boxes(turns: int, width: float) -> Block:
    """Return boxes to tick for so many ``turns``, as far as there is room.

    They stand in rows alike, longer than usual where ``width`` mm hold more.
    """
    count = min(MOST_TICKS, max(TICKS, turns))
    rows = -(-count // max(TICKS, int(width / _PITCH)))
    each = -(-count // rows)
    items = tuple(
        Item(
            "tick_box",
            Rect(k % each * _PITCH, k // each * _PITCH, _BOX, _BOX),
            Panel(line="write", radius=0.6),
        )
        for k in range(count)
    )
    return Block(items, each * _PITCH, (rows - 1) * _PITCH + _BOX)


def _counting(held: _Held, width: float, style: Style, *, kept: bool) -> tuple[Block, ...]:
    """Return how the bag is counted back, the caution for small children, also what is ``kept``."""
    alone = held.cutting.readers == 1
    packed = style.words("bag.alone_packed" if alone else "bag.packed")
    named = lines(packed, settings(style.look).least, width)
    told = _kept(held, width, style) if kept else EMPTY
    blocks = (stack((named, _how(held, width, style)), 1.0), _care(width, style), told)
    return tuple(block for block in blocks if block.height)


def _how(held: _Held, width: float, style: Style) -> Block:
    """Return how the bag is counted back."""
    alone = held.cutting.readers == 1
    told = style.words("bag.alone_how" if alone else "bag.how")
    if held.bag.turns > MOST_TICKS:
        told = f"{told} {style.words('bag.beside')}"
    if held.bag.again:
        told = f"{told} {style.words('bag.again')}"
    return _thing(told, width, style)


def _care(width: float, style: Style) -> Block:
    """Return the caution for small children."""
    said = _thing(style.words("bag.care"), width - 9, style)
    items = (*pictogram("care", 7.0).items, *said.at(9, max(0.0, (7.0 - said.height) / 2)))
    return Block(items, 9 + said.width, max(7.0, said.height))
