"""Cards dealt onto sheets in order, cut at middle lines, their backs in register."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import lru_cache

from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError, Said
from kitbuilder.frozen import frozen
from kitbuilder.kit.card_records import Backs, Card, FactCard, TaskCard
from kitbuilder.layout.cards.backs import back, backs_fit
from kitbuilder.layout.cards.free_corner import OWN_PICTURE, free_corner
from kitbuilder.layout.cards.fronts import Face, front
from kitbuilder.layout.cards.halving import Halved, behind
from kitbuilder.layout.model import Cut, Item, Rect, Sheet, SheetKind
from kitbuilder.layout.parts.furniture import foot_high
from kitbuilder.layout.parts.words import ZEROS

TIMES = (3, 2, 1)
"""How often a sheet is halved, smallest card first; once only where twice is too small."""

_SMALL, _GREAT = 160.0, 5.0
"""On paper narrower than this a card may take a whole page if the adult's type is larger, mm."""


@frozen
class CardFace:
    """One side of a card; ``ink`` is where its ink may lie, in mm from the page's top left."""

    card: Card
    ink: Rect
    style: Style
    is_back: bool = False

    @property
    def face(self) -> Face:
        """What stands on it, in mm from the page's top left: laid out when it is asked for.

        So the sheets of many packs hold little. Raises ``ValueError`` if it does not fit.
        """
        face = (back if self.is_back else front)(self.card, self.ink, self.style)
        if face is None:
            raise ValueError(f"{self.card} does not fit {self.ink}")
        if self.style.is_pictured and not self.is_back:
            corner = free_corner(self.ink, (item.rect for item in face))
            face = (*face, *([Item(OWN_PICTURE, corner)] if corner else []))
        return face


def halved(
    cards: Sequence[Card],
    style: Style,
    backs: Backs,
    slack: float = 0.0,
    *,
    tall_first: bool = False,
) -> Halved:
    """Return the smallest halving of ``paper`` on which every one of ``cards`` fits.

    ``slack`` is how far (mm) a printer's backs are shifted into register: ink stays that much
    further inside. ``tall_first`` prefers standing cards to lying ones of the same size.
    Raises ``RefusedError`` where none fits.
    """
    strip = foot_high(style.look)
    narrow = min(style.paper.width_mm, style.paper.height_mm) < _SMALL
    small = narrow and style.look.type_mm.adult > _GREAT
    for times in (*TIMES, 0) if small else TIMES:
        for foot in (strip, 0.0):  # a foot of its own, unless the cards would have to be larger
            for wide in (False, True) if tall_first else (True, False):
                way = Halved.of(style.paper, times, wide=wide, clear=slack, foot=foot)
                if backs == "fold" and way.across % 2:
                    continue
                if _all_fit(cards, way, style):
                    return way
    ways = [Said("way.larger-paper")]
    if backs != "separate":
        ways.append(Said("option.with", option="backs", value="separate"))
    if any(isinstance(card, FactCard) for card in cards):
        ways.append(Said("way.smaller-unit", option="unit"))
    look, paper = style.look.name, style.paper.name
    raise RefusedError("card.too-large", field="paper", look=look, paper=paper, ways=ways)


def holds(card: Card, way: Halved, style: Style) -> bool:
    """Say whether ``card`` fits a place of ``way``."""
    return _all_fit((card,), way, style)


def _all_fit(cards: Sequence[Card], way: Halved, style: Style) -> bool:
    width, height = way.smallest_ink()
    if width < 20 or height < 20:
        return False
    ink = Rect(0, 0, width, height)
    groups: dict[object, list[Card]] = {}
    for card in cards:
        groups.setdefault(shape(card), []).append(card)
    return all(
        front(alike[0], ink, style) is not None and backs_fit(alike, ink, style)
        for alike in groups.values()
    )


def shape(card: Card) -> object:
    """Return what is the same for cards that differ in digits alone: those are equally wide."""
    if not isinstance(card, TaskCard):
        return card
    return repr(replace(card, own="own" if card.own else "")).translate(ZEROS)


def deal(
    kind: SheetKind,
    cards: Sequence[Card],
    way: Halved,
    style: Style,
    backs: Backs,
) -> Iterator[Sheet]:
    """Yield the sheets of ``cards`` in order; each front is followed by its backs.

    With "fold" each card takes two places side by side, front and back, with a fold between.
    """
    if backs == "fold":
        yield from _folded(kind, cards, way, style)
        return
    places = way.places
    number = 0
    for start in range(0, len(cards), len(places)):
        dealt = cards[start : start + len(places)]
        fronts = [_face(c, r, way, style) for c, r in zip(dealt, places, strict=False)]
        number += 1
        yield _sheet(kind, number, way, fronts, way.cuts(len(dealt)))
        if backs != "separate":
            number += 1
            behinds = [_behind(item, way, style, backs) for item in fronts]
            back = _sheet(kind, number, way, behinds, ())
            yield replace(back, flip=backs)


def _sheet(
    kind: SheetKind,
    number: int,
    way: Halved,
    items: Sequence[Item],
    cuts: tuple[Cut, ...],
    folds: tuple[Cut, ...] = (),
) -> Sheet:
    page = way.page
    return Sheet(kind, number, "card", page.width, page.height, tuple(items), cuts, folds=folds)


def _face(card: Card, rect: Rect, way: Halved, style: Style) -> Item:
    """Place a card; ink keeps the same size on every place, so that all cards look alike."""
    return Item(KINDS[type(card).__name__], rect, CardFace(card, _ink(way, rect), style))


@lru_cache(64)
def _ink(way: Halved, rect: Rect) -> Rect:
    width, height = way.smallest_ink()
    room = way.ink(rect)
    assert room is not None  # a way is taken only where every place offers some
    return Rect(
        room.x + (room.width - width) / 2, room.y + (room.height - height) / 2, width, height
    )


KINDS = {
    "TaskCard": "task_card",
    "BlankCard": "blank_card",
    "SaidCard": "said_card",
    "StoryCard": "story_card",
    "FactCard": "fact_card",
    "LabelCard": "label_card",
}
"""What each kind of card is called on a sheet."""


def _behind(item: Item, way: Halved, style: Style, edge: str) -> Item:
    """Place the back of a placed front."""
    face = item.content
    if not isinstance(face, CardFace):
        raise TypeError(f"{item.what} is no card")
    ink = behind(face.ink, way.page, edge)
    content = CardFace(face.card, ink, style, is_back=True)
    return Item(f"{item.what}_back", behind(item.rect, way.page, edge), content)


def _folded(kind: SheetKind, cards: Sequence[Card], way: Halved, style: Style) -> Iterator[Sheet]:
    places = way.places
    pairs = list(zip(places[::2], places[1::2], strict=True))
    for number, start in enumerate(range(0, len(cards), len(pairs)), 1):
        dealt = cards[start : start + len(pairs)]
        items, folds = [], []
        for card, (left, right) in zip(dealt, pairs, strict=False):
            item = _face(card, left, way, style)
            items.append(item)
            face = item.content
            assert isinstance(face, CardFace)
            folds.append(Cut(left.right, left.y, left.right, left.bottom))
            mirrored = Rect(
                2 * left.right - face.ink.right, face.ink.y, face.ink.width, face.ink.height
            )
            back_face = CardFace(card, mirrored, style, is_back=True)
            items.append(Item(f"{item.what}_back", right, back_face))
        cuts = tuple(c for c in way.cuts(2 * len(dealt)) if not _is_fold(c, folds))
        yield _sheet(kind, number, way, items, cuts, tuple(folds))


def _is_fold(cut: Cut, folds: Sequence[Cut]) -> bool:
    return any(cut.x1 == cut.x2 == f.x1 and cut.y1 <= f.y1 and f.y2 <= cut.y2 for f in folds)
