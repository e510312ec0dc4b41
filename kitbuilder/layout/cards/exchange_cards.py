"""Turns exchange cards into sheets: at true size, one below the other."""

from collections.abc import Sequence
from dataclasses import dataclass

from kitbuilder.design.load import LEAST_UNIT, Paper
from kitbuilder.errors import RefusedError, Said
from kitbuilder.kit.records import ExchangeCard
from kitbuilder.layout.model import Cut, Item, Rect, Sheet, SheetKind
from kitbuilder.layout.page import Page

PAD = 5.0
"""Clear space in mm round what stands on an exchange card."""

HEAD = 15.0
"""Height in mm of an exchange card's heading."""


@dataclass(frozen=True, slots=True)
class ExchangeFrames:
    """An exchange card to draw: its heading and true-size frames, mm from the page's top left.

    ``one`` is the frame of the one large piece and ``ten`` are the frames of the ten small ones.
    """

    text: str
    one: tuple[Rect, ...]
    ten: tuple[Rect, ...]


def exchange_sheets(cards: Sequence[ExchangeCard], paper: Paper, unit: float) -> tuple[Sheet, ...]:
    """Place each exchange card at true size, as many below each other as a page holds.

    The page is turned where that saves a sheet. Raises ``RefusedError`` where a card does not
    fit, naming the largest unit that would.
    """
    if not cards:
        return ()
    ways = [_stacked(cards, page, unit) for page in (Page.turned(paper), Page.upright(paper))]
    fitting = [way for way in ways if way]
    if not fitting:
        largest = _largest_unit(cards, paper)
        way = Said("way.larger-paper")
        if largest > LEAST_UNIT:
            way = Said("way.unit-or-less", option="unit", most=largest)
        elif largest == LEAST_UNIT:
            way = Said("option.with", option="unit", value=largest)
        raise RefusedError(
            "card.no-exchange-card",
            field="unit",
            unit=unit,
            paper=paper.name,
            way=way,
            repair=Said("repair.unit", unit=largest) if largest >= LEAST_UNIT else None,
        )
    return min(fitting, key=len)


def _largest_unit(cards: Sequence[ExchangeCard], paper: Paper) -> float:
    """Return the largest unit in whole tenths of a millimetre at which the cards fit; 0 if none."""
    pages = (Page.turned(paper), Page.upright(paper))
    tenths = range(4000, 0, -1)
    return next((t / 10 for t in tenths if any(_stacked(cards, p, t / 10) for p in pages)), 0)


def _stacked(cards: Sequence[ExchangeCard], page: Page, unit: float) -> tuple[Sheet, ...]:
    inside = page.inside
    width = 20 * unit + 4 * PAD
    groups: list[list[Item]] = [[]]
    y = inside.y
    for card in cards:
        height = HEAD + (10 if card.source == 2 else 1) * unit + 2 * PAD
        if width > inside.width + 1e-6 or height > inside.height + 1e-6:
            return ()
        if groups[-1] and y + height > inside.bottom + 1e-6:
            groups.append([])
            y = inside.y
        rect = Rect(inside.x, y, width, height)
        groups[-1].append(Item("exchange_card", rect, _frames(card, rect, unit)))
        y += height
    return tuple(
        Sheet(
            SheetKind.EXCHANGE_CARDS,
            number,
            "card",
            page.width,
            page.height,
            tuple(items),
            _column_cuts([item.rect for item in items], page),
        )
        for number, items in enumerate(groups, 1)
    )


def _frames(card: ExchangeCard, rect: Rect, unit: float) -> ExchangeFrames:
    left, right, top = rect.x + PAD, rect.x + 3 * PAD + 10 * unit, rect.y + HEAD + PAD
    if card.source == 2:
        one = Rect(left, top, 10 * unit, 10 * unit)
        ten = tuple(Rect(right + i * unit, top, unit, 10 * unit) for i in range(10))
    else:
        one = Rect(left, top, 10 * unit, unit)
        ten = tuple(Rect(right + i * unit, top, unit, unit) for i in range(10))
    return ExchangeFrames(card.text, (one,), ten)


def _column_cuts(rects: Sequence[Rect], page: Page) -> tuple[Cut, ...]:
    """Return the cuts that free a column of equally wide rectangles: sides first, then across."""
    left, right = rects[0].x, rects[0].right
    sides = [Cut(x, 0, x, page.height) for x in (left, right) if 0 < x < page.width]
    edges = dict.fromkeys([rects[0].y, *(r.bottom for r in rects)])
    return (*sides, *(Cut(left, y, right, y) for y in edges if 0 < y < page.height))
