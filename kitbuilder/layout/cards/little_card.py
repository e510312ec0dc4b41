"""A little card for a sum of one's own, where the words of a large one have no room."""

from kitbuilder.design.style import Style
from kitbuilder.kit.card_records import BlankCard
from kitbuilder.layout.cards.fronts import TASKS, Face, frame, inside, own_sums
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.block import Block
from kitbuilder.layout.parts.contents import Panel
from kitbuilder.layout.parts.furniture import pictogram

NUMERALS = (0.85, 0.7, 0.55)
"""Sizes of the places for the sum, in the look's numerals: the first that fits."""

_SIDE, _GAP, _BELOW = 7.0, 2.0, 2.4
# The side of a pictogram, what is clear beside it, and what is clear above the row of them, mm.


def little_card(card: BlankCard, ink: Rect, style: Style) -> Face | None:
    """Return places for a sum over a row of pictograms: what to do, and a box for what is left.

    None where it does not fit, or where columns are to be written beside the pieces.
    """
    inner = inside(ink)
    if inner is None or card.stage != "pieces":
        return None
    done = _done(card)
    for title in own_sums(card.places, inner, style, NUMERALS):
        high = title.height + _BELOW + done.height
        if high <= inner.height and done.width <= inner.width:
            gap = _BELOW + (inner.height - high) / 2
            below = done.at(inner.x, inner.y + title.height + gap)
            return (frame(ink), *title.at(inner.x, inner.y), *below)
    return None


def _done(card: BlankCard) -> Block:
    """Return the pictograms of what is to be done, a box for the answer after what is left."""
    items: list[Item] = []
    x = 0.0
    for name in TASKS["pieces"]:
        items += pictogram(name, _SIDE).at(x, 0)
        x += _SIDE + _GAP
        if name == "left":
            box = Rect(x - 1.0, 0, (card.places + 0.8) * 0.55 * _SIDE, _SIDE)
            items.append(Item("answer_place", box, Panel("paper", "write", 1.4)))
            x = box.right + _GAP
    return Block(tuple(items), x - _GAP, _SIDE)
