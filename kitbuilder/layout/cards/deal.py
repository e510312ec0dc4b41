"""Turns packs of cards into sheets: dealt in order, cut at middle lines, backs in register."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from kitbuilder.design.load import Look
from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError, Said
from kitbuilder.kit.card_records import Backs, Card, FactCard
from kitbuilder.layout.cards.backs import back
from kitbuilder.layout.cards.free_corner import free_corner
from kitbuilder.layout.cards.fronts import Face, front
from kitbuilder.layout.cards.halving import Halved, behind
from kitbuilder.layout.model import Cut, Item, Rect, Sheet, SheetKind

TIMES = (3, 2, 1)
"""How often a sheet is halved, smallest card first; once only where twice is too small."""


@dataclass(frozen=True, slots=True)
class CardFace:
    """One side of a card to draw; ``ink`` is where ink may lie, in mm from the page's top left.

    ``unit`` is the width in mm of a one on it.
    """

    card: Card
    ink: Rect
    unit: float
    is_back: bool = False

    def face(self, look: Look) -> Face:
        """Return what stands on this side. Raises ``ValueError`` where it does not fit."""
        laid = (
            back(self.card, self.ink, look)
            if self.is_back
            else front(self.card, self.ink, look, self.unit)
        )
        if laid is None:
            raise ValueError(f"{self.card} does not fit {self.ink}")
        return laid

    def corner(self, look: Look) -> Rect | None:
        """Return the corner of a front that is free for someone's own drawing, if there is one."""
        return None if self.is_back else free_corner(self.ink, (i.rect for i in self.face(look)))


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
    for times in TIMES:
        for wide in (False, True) if tall_first else (True, False):
            way = Halved.of(style.paper, times, wide=wide, clear=slack)
            if backs == "fold" and way.across % 2:
                continue
            if _all_fit(cards, way, style.paper.unit_mm, style.look):
                return way
    ways = [Said("way.larger-paper")]
    if backs != "separate":
        ways.append(Said("option.with", option="backs", value="separate"))
    if any(isinstance(card, FactCard) for card in cards):
        ways.append(Said("way.smaller-unit", option="unit"))
    look, paper = style.look.name, style.paper.name
    raise RefusedError("card.too-large", field="paper", look=look, paper=paper, ways=ways)


def _all_fit(cards: Sequence[Card], way: Halved, unit: float, look: Look) -> bool:
    width, height = way.smallest_ink()
    if width < 20 or height < 20:
        return False
    ink = Rect(0, 0, width, height)
    return all(
        front(card, ink, look, unit) is not None and back(card, ink, look) is not None
        for card in cards
    )


def deal(
    kind: SheetKind,
    cards: Sequence[Card],
    way: Halved,
    unit: float,
    backs: Backs,
) -> Iterator[Sheet]:
    """Yield the sheets of ``cards`` in order; each front is followed by its backs.

    With "fold" each card takes two places side by side, front and back, with a fold between.
    """
    if backs == "fold":
        yield from _folded(kind, cards, way, unit)
        return
    places = way.places
    number = 0
    for start in range(0, len(cards), len(places)):
        dealt = cards[start : start + len(places)]
        fronts = [_face(c, r, way, unit) for c, r in zip(dealt, places, strict=False)]
        number += 1
        yield _sheet(kind, number, way, fronts, way.cuts(len(dealt)))
        if backs != "separate":
            number += 1
            behinds = [_behind(item, way, unit, backs) for item in fronts]
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


def _face(card: Card, rect: Rect, way: Halved, unit: float) -> Item:
    """Place a card; ink keeps the same size on every place, so that all cards look alike."""
    width, height = way.smallest_ink()
    room = way.ink(rect)
    ink = Rect(
        room.x + (room.width - width) / 2, room.y + (room.height - height) / 2, width, height
    )
    return Item(KINDS[type(card).__name__], rect, CardFace(card, ink, unit))


KINDS = {"TaskCard": "task_card", "FactCard": "fact_card", "LabelCard": "label_card"}
"""What each kind of card is called on a sheet."""


def _behind(item: Item, way: Halved, unit: float, edge: str) -> Item:
    """Place the back of a placed front."""
    face = item.content
    if not isinstance(face, CardFace):
        raise TypeError(f"{item.what} is no card")
    ink = behind(face.ink, way.page, edge)
    content = CardFace(face.card, ink, unit, is_back=True)
    return Item(f"{item.what}_back", behind(item.rect, way.page, edge), content)


def _folded(kind: SheetKind, cards: Sequence[Card], way: Halved, unit: float) -> Iterator[Sheet]:
    places = way.places
    pairs = list(zip(places[::2], places[1::2], strict=True))
    for number, start in enumerate(range(0, len(cards), len(pairs)), 1):
        dealt = cards[start : start + len(pairs)]
        items, folds = [], []
        for card, (left, right) in zip(dealt, pairs, strict=False):
            item = _face(card, left, way, unit)
            items.append(item)
            face = item.content
            assert isinstance(face, CardFace)
            folds.append(Cut(left.right, left.y, left.right, left.bottom))
            mirrored = Rect(
                2 * left.right - face.ink.right, face.ink.y, face.ink.width, face.ink.height
            )
            back_face = CardFace(card, mirrored, unit, is_back=True)
            items.append(Item(f"{item.what}_back", right, back_face))
        cuts = tuple(c for c in way.cuts(2 * len(dealt)) if not _is_fold(c, folds))
        yield _sheet(kind, number, way, items, cuts, tuple(folds))


def _is_fold(cut: Cut, folds: Sequence[Cut]) -> bool:
    return any(cut.x1 == cut.x2 == f.x1 and cut.y1 <= f.y1 and f.y2 <= cut.y2 for f in folds)
