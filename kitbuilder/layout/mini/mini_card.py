"""The card of a mini kit: the sum and what to do, as close as can be read, without a frame."""

from kitbuilder.design.style import Style
from kitbuilder.kit.card_records import TaskCard
from kitbuilder.layout.cards.fronts import Face
from kitbuilder.layout.model import Rect
from kitbuilder.layout.parts.block import stack
from kitbuilder.layout.parts.settings import Setting
from kitbuilder.layout.parts.words import line, lines, wide

_AFTER_SUM = (10.0, 8.0, 6.0, 4.5)
# Spaces in mm between the sum and what stands below: the first that fits.


def mini_front(card: TaskCard, ink: Rect, style: Style) -> Face | None:
    """Return the card laid out in ``ink``, or None where it does not fit."""
    child, numeral = style.look.type_mm.child, style.look.type_mm.numeral
    title = line(str(card.sum), Setting(numeral, 0.72 * numeral))
    said = Setting(child, 1.06 * child)
    if title.width > ink.width:
        return None
    if any(wide(word, said) > ink.width for text in card.lines for word in text.split()):
        return None
    asked = stack((lines(text, said, ink.width) for text in card.lines), 0.06 * child)
    for gap in _AFTER_SUM:
        if title.height + gap - 0.36 * child + asked.height <= ink.height + 0.25 * child:
            below = asked.at(ink.x, ink.y + title.height + gap - 0.36 * child)
            return (*title.at(ink.x, ink.y), *below)
    return None
