"""A card for sums of one's own on card that would fall off beside the pieces."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import chain

from kitbuilder.design.style import Style
from kitbuilder.kit.card_records import BlankCard
from kitbuilder.layout.cards.fronts import Face, front
from kitbuilder.layout.cards.little_card import little_card
from kitbuilder.layout.cutting.cut_marks import around
from kitbuilder.layout.model import Item, Rect, Sheet
from kitbuilder.layout.packing.scissors_columns import Step
from kitbuilder.layout.parts.contents import Line
from kitbuilder.layout.parts.settings import settings
from kitbuilder.layout.parts.words import line, lines
from kitbuilder.layout.pieces.foot_strip import rests, with_card_told
from kitbuilder.layout.printable import Page

PIECES = ("hundreds", "tens", "ones")
"""What stands in the columns."""

AIR = 4.0
"""Space in mm between a card's frame and the lines round it."""

LEAST = (70.0, 90.0)
"""The least width and height in mm of what falls off, for a card to be on it."""

_NOTE, _LETTERS = 8.0, 8.0
# Height of the page's own note at the foot, and room beside a cut for its letter, in mm.

LITTLE = (90.0, 50.0)
"""The most width and height in mm of a little card."""

HIGHEST, LEAST_HIGH, WIDEST = 1.45, 0.9, 1.6
"""Height of a card at most and of one of several, in parts of its width; its width at most."""


def with_free_cards(
    sheets: Sequence[Sheet], card: BlankCard | None, style: Style
) -> tuple[Sheet, ...]:
    """Return ``sheets``, ``card`` on what falls off beside their columns, where it has room."""
    return tuple(_with_card(sheet, card, style) for sheet in sheets) if card else tuple(sheets)


def with_card_below(
    sheets: Sequence[Sheet], card: BlankCard | None, style: Style
) -> tuple[Sheet, ...]:
    """Return ``sheets`` of cards, ``card`` below the last sheet's, as often as it has room.

    It stands below labels there, with few words or none where there is little room, or beside.
    """
    if card is None or not sheets:
        return tuple(sheets)
    labels = [item.rect for item in sheets[-1].items if item.what == "label"]
    cards = tuple(item for item in sheets[-1].items if item.what == "exchange_card")
    free = list(rests(replace(sheets[-1], items=cards), style))
    if not labels:
        return (*sheets[:-1], sheets[-1].with_items(_alone(free, card, style)))
    ways = chain(
        (_large(_under(rest, labels), card, style) for rest in free),
        ([little_card(card, room, style)] for rest in free if (room := _little(rest, labels))),
        (_little_ones(_under(rest, labels), card, style) for rest in free),
    )
    found = _whole(ways)
    if not found:
        return tuple(sheets)
    last = with_card_told(sheets[-1], len(found), style)
    return (*sheets[:-1], last.with_items(chain.from_iterable(found)))


def with_cards_beside(
    sheets: Sequence[Sheet], card: BlankCard | None, style: Style
) -> tuple[Sheet, ...]:
    """Return ``sheets`` of thousands, ``card`` beside those that leave half of the page."""
    return tuple(_with_cards_beside(sheet, card, style) for sheet in sheets) if card else (*sheets,)


def _with_cards_beside(sheet: Sheet, card: BlankCard, style: Style) -> Sheet:
    inside = Page.upright(style.paper).inside
    flat = around([item.rect for item in sheet.items if item.what == "thousands"])
    legend = [item.rect for item in sheet.items if isinstance(item.content, Line)]
    x, right = flat.right + _LETTERS, inside.right - AIR
    if sheet.kerf or right - x < LEAST[0]:
        return sheet
    said = lines(style.words("free_card.own"), settings(style.look).text, right - x)
    y = max((r.bottom for r in legend if r.x > flat.right and r.y < flat.y + 60), default=flat.y)
    top, bottom = y + 2 * _LETTERS, flat.bottom - 2 * _LETTERS
    free = Rect(x, top + said.height + AIR, right - x, bottom - top - said.height - AIR)
    large = ([front(card, r, style) for r in places] for places in _one_below_another(free))
    fewer = replace(card, places=min(card.places, 3))
    little = (_little_ones(free, one, style) for one in (card, fewer))
    if found := _whole(chain(large, little)):
        return sheet.with_items((*said.at(x, top), *chain.from_iterable(found)))
    return sheet


def _alone(free: Sequence[Rect], card: BlankCard, style: Style) -> Iterator[Item]:
    """Yield ``card`` on all that is ``free``, a line of what it is for above the first."""
    said = line(style.words("free_card.own"), settings(style.look).text)
    told = False
    for rest in free:
        down = said.height + AIR
        low = Rect(rest.x, rest.y + down, rest.width, max(0.1, rest.height - down))
        with_words = not told and said.width <= rest.width
        for room in (low, rest) if with_words else (rest,):
            found = _whole((_large(room, card, style), _little_ones(room, card, style)))
            if found and room is low:
                yield from said.at(rest.x, rest.y + AIR)
                told = True
            yield from chain.from_iterable(found)
            if found:
                break


def _whole(ways: Iterable[list[Face | None]]) -> list[Face]:
    """Return the first of ``ways`` whose cards all have room, none where there is no such way."""
    return [face for face in next((way for way in ways if all(way)), []) if face]


def _large(rest: Rect, card: BlankCard, style: Style) -> list[Face | None]:
    """Return ``card`` with its words on ``rest``, as often as it fits side by side.

    Little ones stand at the right of them, where that much is left.
    """
    if rest.height < LEAST[0]:
        return [None]
    room = _airy(rest)
    for count in range(max(1, round(room.width / (WIDEST * room.height))), 0, -1):
        wide = min(_cells(room, count)[0].width, WIDEST * room.height)
        cells = (Rect(cell.x, cell.y, wide, cell.height) for cell in _cells(room, count))
        faces = [front(card, cell, style) for cell in cells]
        if all(faces):
            x = room.x + count * (wide + AIR)
            beside = Rect(x, rest.y, max(0.1, room.right - x), rest.height)
            return [*faces, *_whole([_little_ones(beside, card, style)])]
    return [None]


def _little_ones(rest: Rect, card: BlankCard, style: Style) -> list[Face | None]:
    """Return little cards in rows and columns on ``rest``."""
    room = _airy(rest)
    return [
        little_card(card, cell, style)
        for column in _cells(room, max(1, int((room.width + AIR) / (LITTLE[0] + AIR))))
        for cell in _parted(column, max(1, round(room.height / LITTLE[1])))
    ]


def _under(rest: Rect, labels: Sequence[Rect]) -> Rect:
    """Return what of ``rest`` is below ``labels``, all of it where none are there."""
    top = max((rest.y, *(label.bottom for label in labels)))
    return Rect(rest.x, top, rest.width, max(0.1, rest.bottom - top))


def _airy(rest: Rect) -> Rect:
    return Rect(rest.x, rest.y + AIR, rest.width, max(0.1, rest.height - 2 * AIR))


def _little(rest: Rect, labels: Sequence[Rect]) -> Rect | None:
    """Return the place of a little card on ``rest``, at the right of ``labels`` if any are there.

    It is no larger than is useful. None where labels stand elsewhere, or fill it.
    """
    room = _airy(rest)
    if labels:
        held = around(labels)
        x = held.right + AIR
        if not held.overlaps(rest) or x >= rest.right:
            return None
        room = Rect(x, held.y, rest.right - x, held.height)
    wide, high = LITTLE
    return Rect(room.x, room.y, min(wide, room.width), min(high, room.height))


def _with_card(sheet: Sheet, card: BlankCard, style: Style) -> Sheet:
    inside = Page.upright(style.paper).inside
    free = free_place(sheet, inside)
    if sheet.flip:
        return sheet
    below = _below_labels(sheet, inside)
    ways = [*(_one_below_another(free) if free else []), *below]
    faces = ([_face(card, place, style) for place in places] for places in ways)
    little = (_little_ones(place, card, style) for places in below[-1:] for place in places)
    found = _whole(chain(faces, little))
    return sheet.with_items(item for face in found for item in face)


def _face(card: BlankCard, place: Rect, style: Style) -> Face | None:
    """Return ``card`` on ``place``, boxes for two digits where there is no room for more."""
    ink = place.as_high(min(place.height, HIGHEST * place.width))
    return front(card, ink, style) or front(replace(card, places=2), ink, style)


def _one_below_another(free: Rect) -> list[list[Rect]]:
    """Return the places of cards on what is ``free``, a high one parted: many, then ever fewer."""
    most = max(1, int((free.height + AIR) / (LEAST_HIGH * free.width + AIR)))
    return [_parted(free, count) for count in range(most, 0, -1)]


def _parted(room: Rect, count: int) -> list[Rect]:
    """Return ``room`` in ``count`` rows of one height."""
    high = (room.height - AIR * (count - 1)) / count
    return [Rect(room.x, room.y + k * (high + AIR), room.width, high) for k in range(count)]


def _below_labels(sheet: Sheet, inside: Rect) -> list[list[Rect]]:
    """Return the places of cards on a high foot, below its labels: many, then ever fewer.

    None where no labels stand there, or where there is little room.
    """
    labels = [item.rect for item in sheet.items if item.what == "label"]
    if not labels:
        return []
    held = around(labels)
    y, bottom = held.bottom + AIR, inside.bottom - _NOTE - AIR
    width = inside.right - held.x - 2 * AIR
    if any(item.rect.bottom > held.y for item in sheet.items if item.what in PIECES):
        return []
    if bottom - y < LEAST[0]:
        return []
    most = int((width + AIR) // (LEAST[0] + AIR))
    room = Rect(held.x, y, width, bottom - y)
    return [_cells(room, count) for count in range(most, 0, -1)]


def _cells(room: Rect, count: int) -> list[Rect]:
    """Return ``room`` in ``count`` columns of one width."""
    wide = (room.width - AIR * (count - 1)) / count
    return [Rect(room.x + k * (wide + AIR), room.y, wide, room.height) for k in range(count)]


def free_place(sheet: Sheet, inside: Rect) -> Rect | None:
    """Return the card right of standing columns down to their foot; None where there is little."""
    both = list(zip(sheet.stops, sheet.cuts, strict=True))
    long = [cut.x1 for stop, cut in both if stop == Step.LENGTHWAYS and cut.x1 == cut.x2]
    ends = [cut.y1 for stop, cut in both if stop == Step.FOOT and cut.y1 == cut.y2]
    pieces = [item.rect for item in sheet.items if item.what in PIECES]
    if not (long and ends and pieces):
        return None
    held = around(pieces)
    x, bottom = max(long) + AIR, min(ends) - AIR
    width, high = inside.right - AIR - x, bottom - held.y
    if held.right > x or width < LEAST[0] - 2 * AIR or high < LEAST[1] - AIR:
        return None
    return Rect(x, held.y, width, high)
