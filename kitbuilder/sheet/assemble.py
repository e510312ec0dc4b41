"""Turns a kit into its sheets, in the order an adult needs them."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from kitbuilder.designs import Look, Paper, Words
from kitbuilder.kit.records import CutWish, Kit
from kitbuilder.sheet.cards import exchange_sheets
from kitbuilder.sheet.flow import ADULT_INSET, flowed
from kitbuilder.sheet.front import cover_sheets
from kitbuilder.sheet.guide import guide_sheets
from kitbuilder.sheet.labels import label_sheets
from kitbuilder.sheet.making import Making
from kitbuilder.sheet.map import cut_sheets, map_blocks
from kitbuilder.sheet.mat_set import MatSet, mat_set
from kitbuilder.sheet.packs import pack_sheets
from kitbuilder.sheet.page import Page
from kitbuilder.sheet.plan import CutPlan
from kitbuilder.sheet.records import Cut, Sheet

_BY_HAND = Making()


@dataclass(frozen=True, slots=True)
class LaidOut:
    """A kit on sheets: every sheet in order, how the pieces are cut, and the mats' plans."""

    sheets: tuple[Sheet, ...]
    cutting: CutPlan | None
    mats: MatSet


def lay_out(
    kit: Kit,
    cutting: CutWish,
    paper: Paper,
    words: Words,
    look: Look,
    making: Making = _BY_HAND,
) -> LaidOut:
    """Return ``kit`` on ``paper``: cover, pieces, cutting map, mats, cards, answers, guide.

    ``making`` says how the pieces are made. What each child holds is printed once for every
    kit. Raises ``RefusedError`` where something does not fit the page.
    """
    plan = making.plan(kit.pieces, paper, cutting)
    mats = MatSet((), ())
    if kit.mats:
        mats = mat_set(kit.sums, kit.limit, kit.mats, paper, words, look)
    exchange = _for_each(exchange_sheets(kit.exchange_cards, paper, paper.unit_mm), cutting.kits)
    cards = _for_each(
        pack_sheets(kit.packs, kit.cards, paper, words, look, max(making.slack)), cutting.kits
    )
    own = [s for s in (*mats.sheets, *exchange, *cards) if s.title != "answers"]
    labels = label_sheets(kit.pieces, own, cutting.kits, paper, words, look)
    area = Page.upright(paper).inside.inset(ADULT_INSET)
    others = [s for s in (*exchange, *cards, *_alike(labels)) if s.cuts and not s.section]
    alone = cutting.kits == cutting.layers == 1  # then a card's own lines say enough
    cut = cut_sheets(plan, () if alone else others)
    body = (
        *making.sheets(plan, cut, kit.pieces, paper, cutting),
        *flowed("cutting", map_blocks(cut, plan, words, look, area), paper, look),
        *_for_each(mats.sheets, cutting.kits),
        *exchange,
        *cards,
        *labels,
        *guide_sheets("guide", kit.guide, paper, look),
        *guide_sheets("plan", [kit.plan] if kit.plan else [], paper, look),
        *guide_sheets("progress", [kit.progress] if kit.progress else [], paper, look),
    )
    run = cutting.kits > 1  # then the print run says what to print
    sheets = (*cover_sheets(kit, body, paper, words, look, listed=not run), *body)
    return LaidOut(sheets, plan, mats)


def _alike(sheets: Iterable[Sheet]) -> tuple[Sheet, ...]:
    """Return each sheet that is cut in its own way once, in as many copies as are cut so."""
    ways: dict[tuple[Cut, ...], Sheet] = {}
    for sheet in sheets:
        first = ways.get(sheet.cuts)
        ways[sheet.cuts] = replace(first, copies=first.copies + sheet.copies) if first else sheet
    return tuple(ways.values())


def _for_each(sheets: Iterable[Sheet], kits: int) -> tuple[Sheet, ...]:
    """Return ``sheets`` with copies for each kit; what only the adult reads is printed once."""
    return tuple(
        sheet if sheet.title == "answers" else replace(sheet, copies=sheet.copies * kits)
        for sheet in sheets
    )
