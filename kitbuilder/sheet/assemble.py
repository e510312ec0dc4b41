"""Turns a kit into its sheets, in the order an adult needs them."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from kitbuilder.designs import Look, Paper, Words
from kitbuilder.kit.records import Answer, CutWish, Kit, Say
from kitbuilder.sheet.cards import exchange_sheets, task_sheets
from kitbuilder.sheet.flow import Figure, flow
from kitbuilder.sheet.front import cover_sheets
from kitbuilder.sheet.guide import guide_sheets
from kitbuilder.sheet.labels import label_sheets
from kitbuilder.sheet.map import cut_sheets, map_blocks
from kitbuilder.sheet.mat_set import MatSet, mat_set
from kitbuilder.sheet.page import Page
from kitbuilder.sheet.pieces import piece_plan, piece_sheets
from kitbuilder.sheet.plan import CutPlan
from kitbuilder.sheet.records import Cut, Sheet

ANSWER_HEIGHT = 52.0
"""Height in mm of one worked answer."""

ADULT_INSET = 8.0
"""Space in mm between an adult's page's text and its margins."""


@dataclass(frozen=True, slots=True)
class LaidOut:
    """A kit on sheets: every sheet in order, how the pieces are cut, and the mats' plans."""

    sheets: tuple[Sheet, ...]
    cutting: CutPlan | None
    mats: MatSet


def lay_out(kit: Kit, cutting: CutWish, paper: Paper, words: Words, look: Look) -> LaidOut:
    """Return ``kit`` on ``paper``: cover, pieces, cutting map, mats, cards, answers, guide.

    What each child holds is printed once for every kit. Raises ``RefusedError`` where
    something does not fit the page.
    """
    plan = piece_plan(kit.pieces, kit.spares, paper, cutting)
    mats = MatSet((), ())
    if kit.mats:
        mats = mat_set(kit.sums, kit.limit, kit.mats, paper, words, look)
    exchange = _for_each(exchange_sheets(kit.exchange_cards, paper, paper.unit_mm), cutting.kits)
    tasks = _for_each(task_sheets(kit.task_cards, paper), cutting.kits)
    own = (*mats.sheets, *exchange, *tasks)
    labels = label_sheets(kit.pieces, own, cutting.kits, paper, words, look)
    area = Page.upright(paper).inside.inset(ADULT_INSET)
    cut = cut_sheets(plan, (*exchange, *tasks, *_alike(labels)))
    body = (
        *piece_sheets(plan, cut),
        *_flowed("cutting", map_blocks(cut, plan, words, look, area), paper, look),
        *_for_each(mats.sheets, cutting.kits),
        *exchange,
        *tasks,
        *labels,
        *_answer_sheets(kit.answers, paper, words, look),
        *guide_sheets("guide", kit.guide, paper, look, ADULT_INSET),
        *guide_sheets("progress", [kit.progress] if kit.progress else [], paper, look, ADULT_INSET),
    )
    run = cutting.kits > 1  # then the print run says what to print
    sheets = (*cover_sheets(kit, () if run else body, paper, words, look), *body)
    return LaidOut(sheets, plan, mats)


def _for_each(sheets: Sequence[Sheet], kits: int) -> tuple[Sheet, ...]:
    return tuple(replace(sheet, copies=sheet.copies * kits) for sheet in sheets)


def _alike(sheets: Sequence[Sheet]) -> tuple[Sheet, ...]:
    """Return each sheet that is cut in its own way once, in as many copies as are cut so."""
    ways: dict[tuple[Cut, ...], Sheet] = {}
    for sheet in sheets:
        first = ways.get(sheet.cuts)
        ways[sheet.cuts] = replace(first, copies=first.copies + sheet.copies) if first else sheet
    return tuple(ways.values())


def _answer_sheets(
    answers: tuple[Answer, ...], paper: Paper, words: Words, look: Look
) -> tuple[Sheet, ...]:
    if not answers:
        return ()
    gap = 4.0
    width = (Page.upright(paper).inside.width - 2 * ADULT_INSET - gap) / 2
    figures = (Figure("answer", width, ANSWER_HEIGHT, answer, gap) for answer in answers)
    head = (Say("title", words("answers.title")), Say("body", words("answers.lead")))
    return _flowed("answers", (*head, *figures), paper, look)


def _flowed(
    title: str, blocks: tuple[Say | Figure, ...], paper: Paper, look: Look
) -> tuple[Sheet, ...]:
    if not blocks:
        return ()
    page = Page.upright(paper)
    pages = flow(blocks, page.inside.inset(ADULT_INSET), look)
    return tuple(
        Sheet(title, number, "paper", page.width, page.height, items)
        for number, items in enumerate(pages, 1)
    )
