"""Turns a kit into its sheets, in the order an adult needs them."""

from kitbuilder.designs import Look, Paper, Words
from kitbuilder.kit.records import Answer, Kit, Say
from kitbuilder.sheet.cards import exchange_sheets, task_sheets
from kitbuilder.sheet.flow import Figure, flow
from kitbuilder.sheet.front import cover_sheets
from kitbuilder.sheet.map import cut_sheets, map_blocks
from kitbuilder.sheet.page import Page
from kitbuilder.sheet.pieces import piece_plan, piece_sheets
from kitbuilder.sheet.records import Sheet

ANSWER_HEIGHT = 52.0
"""Height in mm of one worked answer."""


def lay_out(kit: Kit, paper: Paper, words: Words, look: Look) -> tuple[Sheet, ...]:
    """Return every sheet of ``kit`` on ``paper``: cover, pieces, mat, cards, answers, guide."""
    plan = piece_plan(kit.pieces, paper)
    exchange = exchange_sheets(kit.exchange_cards, paper, paper.unit_mm)
    tasks = task_sheets(kit.task_cards, paper)
    area = Page.upright(paper).inside.inset(ADULT_INSET)
    cutting = map_blocks(cut_sheets(plan, (*exchange, *tasks)), plan, words, look, area)
    body = (
        *piece_sheets(plan),
        *_flowed("cutting", cutting, paper, look),
        *exchange,
        *tasks,
        *_answer_sheets(kit.answers, paper, words, look),
        *_flowed("guide", kit.guide, paper, look),
    )
    return (*cover_sheets(kit, body, paper, words, look), *body)


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


ADULT_INSET = 8.0
"""Space in mm between an adult's page's text and its margins."""


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
