"""Exchange cards at true size: one piece, and beside it the frame that ten smaller ones fill."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from kitbuilder.design import metrics
from kitbuilder.design.load import LEAST_UNIT
from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError, Said
from kitbuilder.frozen import frozen
from kitbuilder.kit.records import ExchangeCard
from kitbuilder.layout.mat.exchange_board import filled
from kitbuilder.layout.mat.mat_records import Icon, Label, LabelKind
from kitbuilder.layout.mat.mat_text import line
from kitbuilder.layout.mat.tiling import FOOT, page_of
from kitbuilder.layout.model import Cut, Item, Rect, Sheet, SheetKind
from kitbuilder.layout.picture.piles import LAYERS
from kitbuilder.layout.printable import Page

PAD = 3.0
"""Clear space in mm round what stands on an exchange card."""

GAP, WIDER = 14.0, 6.0
"""Least space in mm between the one piece and the frame of ten, where the arrows stand, and how
much wider it becomes where the card has room."""

MOST_UNIT = 400.0
"""No larger unit, in mm, is asked about: no paper holds it."""

_LEADING, _CAPTION = 1.2, 1.3
# Height of a line of the heading and of the words below, in ems.

_SMALL = 0.2
# How large hundreds are drawn beside a thousand, as part of their true size.

Arrow = tuple[float, float, float, float]
"""From its tail (x1, y1) to its point (x2, y2), mm."""


@frozen
class ExchangeFrames:
    """What stands on an exchange card, in mm from the page's top left.

    ``one`` is the frame of the one large piece, a thousand's layers below its top; ``ten`` are the
    places of the ten small ones. Where they are but a small picture, its ones are ``small`` mm
    wide: an opened thousand is the place.
    """

    labels: tuple[Label, ...]
    icons: tuple[Icon, ...]
    one: Rect
    ten: tuple[Rect, ...]
    arrows: tuple[Arrow, ...]
    small: float = 0.0


def exchange_sheets(cards: Sequence[ExchangeCard], style: Style) -> tuple[Sheet, ...]:
    """Place the exchange cards at true size, side by side where a page holds them.

    Raises ``RefusedError`` where a card does not fit, naming the largest unit that would.
    """
    if not cards:
        return ()
    ways = [way for way in _ways(cards, style) if way]
    if not ways:
        largest = _largest_unit(cards, style)
        way = Said("way.larger-paper")
        if largest > LEAST_UNIT:
            way = Said("way.unit-or-less", option="unit", most=largest)
        elif largest == LEAST_UNIT:
            way = Said("option.with", option="unit", value=largest)
        raise RefusedError(
            "card.no-exchange-card",
            field="unit",
            unit=style.unit,
            paper=style.paper.name,
            way=way,
            option="kinds",
            repair=Said("repair.unit", unit=largest) if largest >= LEAST_UNIT else None,
        )
    return min(ways, key=len)


def _largest_unit(cards: Sequence[ExchangeCard], style: Style) -> float:
    """Return the largest unit in whole tenths of a millimetre at which the cards fit; 0 if none."""
    low = none = round(10 * LEAST_UNIT) - 1
    high = round(10 * MOST_UNIT)
    while low < high:
        middle = (low + high + 1) // 2
        smaller = replace(style, paper=replace(style.paper, unit_mm=middle / 10))
        if any(_ways(cards, smaller)):
            low = middle
        else:
            high = middle - 1
    return low / 10 if low > none else 0


def _ways(cards: Sequence[ExchangeCard], style: Style) -> Iterator[tuple[Sheet, ...]]:
    """Yield the sheets for each way to lay the cards, the best first; none where it fits not."""
    for below, turned in ((False, True), (False, False), (True, False), (True, True)):
        page = page_of(style.paper, turned)
        inside = page.inside
        area = inside.as_high(inside.height - FOOT) if inside.height > FOOT else inside
        faces = [_Face(card, style, below and card.source > 1) for card in cards]
        for rows in ([faces], [[face] for face in faces]):
            sheets = [_sheet(row, n, page, area) for n, row in enumerate(rows, 1)]
            if all(sheets):
                yield tuple(sheet for sheet in sheets if sheet)
                break


@frozen
class _Face:
    """A card's face; ``below`` puts the frame of ten under the one piece."""

    card: ExchangeCard
    style: Style
    below: bool

    @property
    def one(self) -> tuple[float, float]:
        unit = self.style.unit
        layers = LAYERS if self.card.source == 3 else 0.0
        return (10 if self.card.source > 1 else 1) * unit, (10 + layers) * unit

    @property
    def frame(self) -> Rect:
        return self._filled(0, 0)[0]

    def _filled(self, x: float, y: float) -> tuple[Rect, tuple[Rect, ...]]:
        """Return the frame of ten from (x, y), and its places; those for hundreds are small."""
        if self.card.source < 3:
            return filled(self.card.source, self.style.unit, x, y)
        side = _SMALL * 10 * self.style.unit
        places = [(x + k // 5 * side, y + k % 5 * side) for k in range(10)]
        return Rect(x, y, 2 * side, 5 * side), tuple(Rect(*at, side, side) for at in places)

    @property
    def pieces(self) -> tuple[float, float]:
        """Width and height of the one piece, the gap and the frame, mm."""
        (wide, high), frame = self.one, self.frame
        if self.below:
            return wide, high + GAP + frame.height
        return wide + GAP + frame.width, high

    @property
    def least(self) -> float:
        """The least width of the card, mm."""
        return self.pieces[0] + 2 * PAD

    @property
    def usual(self) -> float:
        """The width at which its heading stands in one line in the child's type, mm."""
        child = self.style.look.type_mm.child
        return max(self.least, metrics.width(self.card.text, child) + 3 * PAD + child)

    def heading(self, width: float) -> tuple[float, tuple[str, ...]]:
        """Return the size of the heading and its lines, at most two, on so wide a card."""
        room = width - 2 * PAD
        child, adult = self.style.look.type_mm.child, self.style.look.type_mm.adult
        for tenth in range(10, 2, -1):
            size = max(adult, child * tenth / 10)
            lines = metrics.wrap(self.card.text, size, room)
            if len(lines) <= 2 and all(metrics.width(text, size) <= room for text in lines):
                break
        while len(metrics.wrap(self.card.text, size, room - 2)) == len(lines) > 1:
            room -= 2
        return size, metrics.wrap(self.card.text, size, room)

    def caption(self, width: float) -> tuple[str, ...]:
        adult = self.style.look.type_mm.adult
        rule = "unfold" if self.card.source == 3 else "rule"
        return metrics.wrap(self.style.words(f"exchange.{rule}"), adult, width - 2 * PAD)

    def height(self, width: float) -> float:
        """Return the least height of the card at a width, mm."""
        size, lines = self.heading(width)
        under = len(self.caption(width)) * _CAPTION * self.style.look.type_mm.adult
        return 3 * PAD + len(lines) * _LEADING * size + self.pieces[1] + under

    def at(self, rect: Rect) -> ExchangeFrames:
        """Return what stands on the card that lies at ``rect``."""
        unit, adult = self.style.unit, self.style.look.type_mm.adult
        size, lines = self.heading(rect.width)
        labels, y = [], rect.y + PAD
        for text in lines:
            middle = y + 0.5 * _LEADING * size
            label = line(LabelKind.HEADING, "whole", text, size, rect.x + PAD, middle)
            labels.append(label)
            y += _LEADING * size
        side = 0.95 * size
        spot = Rect(rect.right - PAD - side, rect.y + PAD, side, side)
        clear = spot.x >= max(label.rect.right for label in labels) + 2
        caption = self.caption(rect.width)
        under = len(caption) * _CAPTION * adult
        wide, high = self.pieces
        more = 0.0 if self.below else min(WIDER, rect.width - self.least)
        wide, gap = wide + more, GAP + more
        spare = rect.bottom - PAD - under - y - high
        left, top = rect.x + (rect.width - wide) / 2, y + max(PAD / 2, spare / 2)
        one = Rect(left, top, *self.one)
        frame = self.frame
        if self.below:
            start = one.x + (one.width - frame.width) / 2, one.bottom + gap
        else:
            start = one.right + gap, one.y + (one.height - frame.height) / 2
        _, ten = self._filled(*start)
        for row, text in enumerate(caption):
            middle = rect.bottom - PAD - under + (row + 0.5) * _CAPTION * adult
            labels.append(line(LabelKind.HINT, "whole", text, adult, rect.x + PAD, middle))
        arrows = self._arrows(one, gap)
        icons = (Icon("exchange", spot),) if clear and self.card.source == 1 else ()  # a ten's
        small = _SMALL * unit if self.card.source == 3 else 0.0
        return ExchangeFrames(tuple(labels), icons, one, ten, arrows, small)

    def _arrows(self, one: Rect, gap: float) -> tuple[Arrow, ...]:
        """Return the arrow to the ten and the one back."""
        if self.below:
            x, near, far = one.x + one.width / 2, one.bottom + 2, one.bottom + gap - 2
            return (x - 7, near, x - 7, far), (x + 7, far, x + 7, near)
        near, far, y = one.right + 2, one.right + gap - 2, one.y + one.height / 2
        return (near, y - 5, far, y - 5), (far, y + 5, near, y + 5)


def _sheet(faces: Sequence[_Face], number: int, page: Page, area: Rect) -> Sheet | None:
    """Return the cards side by side on a page, or None where they do not fit."""
    widths = [face.least for face in faces]
    spare = area.width - sum(widths)
    if spare < -1e-6:
        return None
    for k, face in enumerate(faces):
        more = min(max(0.0, spare), face.usual - widths[k])
        widths[k] += more
        spare -= more
    high = max(face.height(wide) for face, wide in zip(faces, widths, strict=True))
    if high > area.height + 1e-6:
        return None
    items, x = [], area.x
    for face, wide in zip(faces, widths, strict=True):
        rect = Rect(x, area.y, wide, high)
        items.append(Item("exchange_card", rect, face.at(rect)))
        x += wide
    kind = SheetKind.EXCHANGE_CARDS
    rects = [item.rect for item in items]
    return Sheet(
        kind, number, "card", page.width, page.height, tuple(items), _row_cuts(rects, page)
    )


def _row_cuts(rects: Sequence[Rect], page: Page) -> tuple[Cut, ...]:
    """Return the cuts that free a row of equally high rectangles: above and below, then down."""
    top, bottom = rects[0].y, rects[0].bottom
    across = [Cut(0, y, page.width, y) for y in (top, bottom) if 0 < y < page.height]
    edges = dict.fromkeys([rects[0].x, *(rect.right for rect in rects)])
    return (*across, *(Cut(x, top, x, bottom) for x in edges if 0 < x < page.width))
