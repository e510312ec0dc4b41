"""Turns a kit into its sheets, in the order an adult needs them."""

from kitbuilder.designs import Look, Paper, Words
from kitbuilder.kit.records import Kit
from kitbuilder.sheet.cards import exchange_sheets
from kitbuilder.sheet.flow import flowed
from kitbuilder.sheet.front import cover_sheets
from kitbuilder.sheet.packs import pack_sheets
from kitbuilder.sheet.pieces import piece_plan, piece_sheets
from kitbuilder.sheet.records import Sheet


def lay_out(kit: Kit, paper: Paper, words: Words, look: Look) -> tuple[Sheet, ...]:
    """Return every sheet of ``kit`` on ``paper``: cover, pieces, mat, cards, answers, guide."""
    body = (
        *piece_sheets(piece_plan(kit.pieces, paper)),
        *exchange_sheets(kit.exchange_cards, paper, paper.unit_mm),
        *pack_sheets(kit.packs, kit.cards, paper, words, look),
        *flowed("guide", kit.guide, paper, look),
    )
    return (*cover_sheets(kit, body, paper, words, look), *body)
