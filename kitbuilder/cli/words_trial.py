"""A trial of words of one's own: real pages are laid out and drawn, and what does not fit is named.

Each page's own layout knows its boxes, so no list of widths is kept. Where a page cannot be made,
the sentences are given back one by one to a language that fits until it can: the last one given
back is the one that is too long.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from kitbuilder.design import load as designs
from kitbuilder.design.load import Words
from kitbuilder.errors import RefusedError, Where

if TYPE_CHECKING:
    from kitbuilder.layout.model import Sheet
    from kitbuilder.request.request import Request

PAPERS = ("a4", "letter")
"""Papers on which words must fit; on others a refusal names the page and larger paper."""


def check_fit(words: Words, where: Where) -> None:
    """Raise ``RefusedError`` naming the key of a sentence of ``words`` that a page cannot hold.

    ``where`` names the words file. Kits of every kind are laid out on ``PAPERS`` in the plain
    look.
    """
    for number in range(len(PAPERS) * KINDS):
        if not _fits(words, number):
            raise RefusedError("words.too-long", where=where, key=_too_long(words, number))


KINDS = 4
"""Kinds of kits that are tried on each paper: family, class, tonight, printer's check."""


def _fits(words: Words, number: int) -> bool:
    """Say whether the pages of kind ``number`` can be made with ``words``."""
    try:
        _make(words, PAPERS[number // KINDS], number % KINDS)
    except (RefusedError, ValueError):  # too long, or so long that it leaves the page
        return False
    return True


def _too_long(words: Words, number: int) -> str:
    """Return the key of one sentence without which the pages of kind ``number`` can be made.

    By halving: of the sentences in order, so many taken from a language that fits are enough.
    """
    model = designs.words(next(n for n in _models(words) if _fits(designs.words(n), number)))
    keys = list(words.entries)
    few, enough = 0, len(keys)
    while enough - few > 1:
        middle = (few + enough) // 2
        lent = {key: model.entries[key] for key in keys[:middle]}
        if _fits(replace(words, entries={**words.entries, **lent}), number):
            enough = middle
        else:
            few = middle
    return keys[enough - 1]


def _models(words: Words) -> Iterator[str]:
    """Yield the shipped languages, that of ``words`` first."""
    yield from sorted(designs.names("words"), key=lambda name: name[:2] != words.language[:2])


def _make(words: Words, paper_name: str, kind: int) -> None:
    """Lay out and draw pages in ``words``. Raises ``RefusedError`` where something does not fit."""
    from kitbuilder.draw.draw_pages import draw_pages
    from kitbuilder.layout.pages.check_sheet import check_sheets
    from kitbuilder.pipeline import prepare
    from kitbuilder.press.printing import Press, fitted_paper

    paper, press = fitted_paper(paper_name), Press(words=words)
    if kind == KINDS - 1:
        sheets: Sequence[Sheet] = check_sheets(press.style(paper))
    else:
        prepared = prepare(_requests(words, paper_name)[kind])
        if prepared.drawings:  # a class set is drawn for its print run
            return
        sheets = prepared.laid.sheets
    for _ in draw_pages(sheets, paper, press):
        pass


def _requests(words: Words, paper_name: str) -> "Sequence[Request]":
    """Return a family's kit with everything in it, a class set, and a kit for tonight."""
    from kitbuilder.kit.records import CutWish, EstimateWish
    from kitbuilder.number import Sum
    from kitbuilder.press.printing import Press, fitted_paper
    from kitbuilder.request.request import PARTS, Request, card_wish, mat_wish

    paper, press = fitted_paper(paper_name), Press(words=words)
    sums = (Sum(71, 48), Sum(634, 258), Sum(403, 178))
    every = "exchange,tasks,facts-from-ten,arrows,digits,record"
    cards = card_wish(every, "both", "long-edge")
    mats = mat_wish("subtract,add,exchange")
    return (
        Request(sums, paper, press=press, parts=PARTS, cards=cards, mats=mats),
        Request(
            sums,
            paper,
            press=press,
            cutting=CutWish(15, 3, spares=5),
            estimate=EstimateWish(4.5, 200, 0.12),
        ),
        Request(sums[:1], paper, press=press, mini=True),
    )
