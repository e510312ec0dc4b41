"""Turns a card into what stands on its back: the columns, both parts as pieces, the check."""

from kitbuilder.design import metrics
from kitbuilder.design.load import Look
from kitbuilder.kit.card_records import Back, Card, FactCard, TaskCard
from kitbuilder.layout.cards.card_pictures import pictures
from kitbuilder.layout.cards.fronts import (
    BELOW,
    DESCENT,
    WRAPPED,
    WRITTEN,
    Face,
    Worked,
    line_of,
    stacked,
    worked_size,
)
from kitbuilder.layout.model import Item, Rect
from kitbuilder.number import Pieces


def back(card: Card, ink: Rect, look: Look) -> Face | None:
    """Return what stands on the back of ``card``: empty for no back, None if it does not fit."""
    match card:
        case TaskCard() if card.back:
            return _checked(card.back, ink, look)
        case FactCard() if card.steps:
            size = look.type_mm.numeral
            return stacked(card.steps, size, ink)
        case _:
            return ()


def _checked(found: Back, ink: Rect, look: Look) -> Face | None:
    """The written columns, both parts as pieces, and the check."""
    child, places = look.type_mm.child, found.sum.places
    lines = metrics.wrap(found.check, child, ink.width)
    foot_height = (len(lines) - 1) * WRAPPED * child + child
    body = ink.height - foot_height - BELOW
    if body <= 0:
        return None
    foot = stacked(
        (found.check,), child, Rect(ink.x, ink.bottom - foot_height, ink.width, foot_height)
    )
    if ink.width > ink.height:
        size = min(11.0, body / 5.2, 0.4 * ink.width / (1.35 * (places + 1)))
        width, height = worked_size(places, size)
        right = Rect(ink.x + width + 2 * BELOW, ink.y, ink.width - width - 2 * BELOW, body)
    else:
        size = min(9.0, 0.36 * body / 5.2)
        width, height = worked_size(places, size)
        right = Rect(ink.x, ink.y + height + BELOW, ink.width, body - height - BELOW)
    parts = _parts(found, right, child)
    if foot is None or parts is None or size < max(6, WRITTEN * look.type_mm.least):
        return None
    columns = Item("worked", Rect(ink.x, ink.y, width, height), Worked(found.columns, size))
    return (columns, *parts, *foot)


def _parts(found: Back, area: Rect, child: float) -> Face | None:
    """Both parts, each named in words above its pieces."""
    head = metrics.digit_height(child) + DESCENT * child + 1
    half = area.height / 2
    if half - head - BELOW < 5:
        return None
    tops = (area.y, area.y + half)
    names = tuple(
        line_of(text, child, area.x, top + metrics.digit_height(child))
        for text, top in zip((found.part, found.rest), tops, strict=True)
    )
    if any(name.rect.width > area.width for name in names):
        return None
    areas = [Rect(area.x, top + head, area.width, half - head - BELOW) for top in tops]
    shown = (Pieces.of(found.sum.part), Pieces.of(found.sum.rest))
    drawn = pictures(shown, areas, most=2.4, least=0.45)
    return None if drawn is None else (*names, *drawn)
