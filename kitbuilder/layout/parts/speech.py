"""What is said aloud: a bubble beside the face of who says it."""

from functools import lru_cache
from typing import Literal

from kitbuilder.design.style import Style
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.block import Block, stack
from kitbuilder.layout.parts.contents import Bubble
from kitbuilder.layout.parts.furniture import pictogram
from kitbuilder.layout.parts.settings import settings
from kitbuilder.layout.parts.words import lines

Who = Literal["adult", "child"]

FACE = 7.8
"""Side of a face beside a bubble, in mm."""

_PAD, _GAP, _TALL = 1.9, 2.0, 1.2


def speech(who: Who, text: str, width: float, style: Style, part: float = 1.0) -> Block:
    """Return a bubble no wider than ``width`` with its face; as wide as its words need.

    The adult's words get the quotation marks of the language. ``part`` of the usual size, the
    words are no smaller than the least type.
    """
    setting = settings(style.look).speech
    setting = setting.sized(max(part * setting.size, style.look.type_mm.least))
    said = style.words("speech.quoted", said=text) if who == "adult" else text
    room = width - FACE - _GAP - 2 * _PAD
    broken = lines(said, setting, room)
    used = max(item.rect.right for item in broken.items)
    box = Rect(0, 0, used + 2 * _PAD, broken.height + 2 * _TALL)
    high = max(FACE, box.height)
    left = FACE + _GAP if who == "adult" else 0.0
    face_x = 0.0 if who == "adult" else box.width + _GAP
    top = (high - box.height) / 2
    items = (
        *pictogram(who, FACE).at(face_x, high - FACE),
        Item("bubble", box.moved(left, top), Bubble(who)),
        *broken.at(left + _PAD, top + _TALL),
    )
    return Block(items, box.width + _GAP + FACE, high)


@lru_cache(512)  # a page that is tried in many ways says the same in each
def exchange_of_words(asked: str, answer: str, width: float, style: Style) -> Block:
    """Return what the adult asks at the left and what the child may say at the right.

    They stand in one row if both fit, a little smaller if need be, else the answer below, still
    at the right.
    """
    adult = speech("adult", asked, width, style)
    if not answer:
        return adult.as_wide(width)
    for part in (1.0, 0.94, 0.88, 0.82):
        adult = speech("adult", asked, width, style, part)
        child = speech("child", answer, width, style, part)
        if adult.width + 1 + child.width <= width:
            break
    else:
        adult, child = speech("adult", asked, width, style), speech("child", answer, width, style)
    if adult.width + 1 + child.width <= width:
        high = max(adult.height, child.height)
        items = (
            *adult.at(0, high - adult.height),
            *child.at(width - child.width, high - child.height),
        )
        return Block(items, width, high)
    right = Block(child.at(width - child.width, 0), width, child.height)
    return stack((adult, right), 1.0)
