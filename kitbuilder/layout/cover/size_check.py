"""The check of a print's size: a bank card's frame, what to tick, and marks in the corners."""

from dataclasses import astuple

from kitbuilder.frozen import frozen
from kitbuilder.kit import phrases
from kitbuilder.layout.cover.cover import INDENT, Cover
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.block import Block, row, stack
from kitbuilder.layout.parts.contents import Panel
from kitbuilder.layout.parts.furniture import tick
from kitbuilder.layout.parts.words import lines

BANK_CARD = (85.6, 53.98)
"""Width and height in mm of an ID-1 card (ISO/IEC 7810, from memory)."""

CORNER = 6.0
"""Length in mm of the two strokes of a corner mark."""

_WIDER = 5.0
# Where a corner does not print, margins grow to the next multiple of this, in mm.

_PAD = 2.6
_INSIDE = BANK_CARD[0] - 2 * _PAD
# The clear space in a bank card's frame, and the room for words, in mm.


@frozen
class CornerMarks:
    """Marks in the four corners of what must print; strokes ``length`` mm long."""

    length: float = CORNER


def size_check(cover: Cover) -> Block:
    """Return the size check: a bank card's frame beside what to tick, or below it."""
    room = cover.width - BANK_CARD[0] - 6 if cover.wide else cover.width
    ticks = _ticks(cover, room - INDENT).moved(INDENT, 0)
    said = stack((cover.heading(2, "check", room), ticks, _unless(cover, room)), 0.8)
    card = _card(lines(cover.words("cover.bank_card"), cover.sets.least, _INSIDE, "centre"))
    if cover.wide:
        return row((said.as_wide(room), card), 6)
    return stack((said, _centred(card, cover.width)), 1.5)


def small_check(cover: Cover) -> Block:
    """Return the size check with what to tick inside the bank card's frame."""
    heading = cover.heading(2, "check", cover.width)
    card = _centred(_card(_ticks(cover, _INSIDE)), cover.width)
    return stack((heading, card, _unless(cover, cover.width)), 1.5)


def _centred(block: Block, width: float) -> Block:
    return block.moved(max(0.0, (width - block.width) / 2), 0)


def _ticks(cover: Cover, room: float) -> Block:
    said = cover.words.lines("cover.checks")
    return stack((tick(one, room, cover.style) for one in said), 0.8)


def _unless(cover: Cover, room: float) -> Block:
    """Return what to do where the size is wrong."""
    wider = (max(astuple(cover.style.paper.margins_mm)) // _WIDER + 1) * _WIDER
    said = phrases.length(cover.words, "cover.unless", wider)
    return lines(said, cover.sets.least, room - INDENT).moved(INDENT, 0)


def _card(inside: Block) -> Block:
    """Return a bank card's frame with ``inside`` in its middle."""
    wide, high = BANK_CARD
    frame = Item("panel", Rect(0, 0, wide, high), Panel("none", "frame", 3.18))
    return Block((frame, *inside.at(_PAD, (high - inside.height) / 2)), wide, high)
