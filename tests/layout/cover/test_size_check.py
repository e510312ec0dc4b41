"""The frame for a bank card is on the page that is printed first, in everything that is made."""

from collections.abc import Mapping
from dataclasses import replace
from itertools import product

import pytest
from grids import WHOLE, some

from kitbuilder.design import load as designs
from kitbuilder.kit.card_records import Pupil, Task
from kitbuilder.kit.records import CutWish
from kitbuilder.layout.cover.size_check import BANK_CARD
from kitbuilder.layout.model import Sheet, SheetKind
from kitbuilder.layout.parts.contents import Line
from kitbuilder.pipeline import prepare
from kitbuilder.press.printing import Press, fitted_paper
from kitbuilder.request.file import first_wishes
from kitbuilder.request.request import Request, read_sum

MADE = (
    ("a5", "plain", "es"),
    ("a5", "bold", "es"),
    ("a5", "bold", "en-US"),
    ("a4", "plain", "en-GB"),
    ("a4", "bold", "es"),
    ("letter", "plain", "es"),
    ("letter", "bold", "en-US"),
    ("legal", "plain", "en-US"),
    ("legal", "bold", "en-GB"),
    ("a4", "spare", "es"),
    ("a5", "outline", "en-GB"),
    ("a5", "bold", "en-GB"),
)
"""Papers, looks and languages: spare and outline have the type of the plain look."""


def kinds(request: Request) -> Mapping[str, Request]:
    """Return a request of every kind that has a cover, made like ``request``."""
    one, other = read_sum("71-48"), read_sum("305-148")
    pupils = (Pupil("Ada", (Task(one), Task(other, "both"))), Pupil("Ben", (Task(other),)))
    cards = replace(request, name="cards", parts=("cards",))
    return {
        "within": replace(request, sums=(), within=1000),
        "kit": request,
        "one sum": replace(request, sums=(one,)),
        "class": replace(request, cutting=CutWish(6, layers=3)),
        "packs": replace(cards, sums=(), pupils=pupils),
        "cards": cards,
    }


@pytest.mark.parametrize(
    ("row", "paper", "look", "language"), [(n, *m) for n, m in enumerate(MADE)]
)
def test_the_frame_is_on_the_page_that_is_printed_first(
    row: int, paper: str, look: str, language: str
) -> None:
    press = Press(look=designs.look(look), words=designs.words(language))
    usual = Request(first_wishes().sums, fitted_paper(paper), press=press)
    made = list(kinds(usual).items())
    for name, request in made if WHOLE else made[row % 6 :: 6]:  # each kind in two rows
        sheets = prepare(request).laid.sheets
        page = next(n for n, sheet in enumerate(sheets, 1) if framed(sheet))
        first = next(n for n, sheet in enumerate(sheets, 1) if sheet.kind is SheetKind.COVER)
        assert page == first, name
        boxes = [item for item in sheets[first - 1].items if item.what == "tick_box"]
        assert len(boxes) == len(press.words.lines("cover.checks")), name
        assert sum(sheet.kind is SheetKind.COVER for sheet in sheets) <= 3, name
        classed = request.cutting.kits > 1
        alone = press.words("cover.alone_run" if classed else "cover.alone")
        assert alone in said(sheets[first - 1]), name
        lines = [i.rect for i in sheets[first - 1].items if isinstance(i.content, Line)]
        assert max(line.bottom for line in lines) < usual.paper.height_mm - 5.0, name
        if classed:
            assert press.words("run.check", pages=f"1–{page}") in said(sheets[0]), name


def framed(sheet: Sheet) -> bool:
    """Say whether the frame of a bank card stands on ``sheet``."""
    return any((item.rect.width, item.rect.height) == BANK_CARD for item in sheet.items)


def said(sheet: Sheet) -> str:
    """Return the words of ``sheet``, line after line."""
    return " ".join(item.content.text for item in sheet.items if isinstance(item.content, Line))


def test_a_missing_corner_is_mended_by_margins_wider_than_those_there_are() -> None:
    margins = ((None, "10 mm"), (10.0, "15 mm"), (12.0, "15 mm"))
    for (given, wider), language in some(product(margins, designs.names("words")), 2):
        press = Press(words=designs.words(language))
        request = Request((read_sum("71-48"),), fitted_paper("a4", given), press=press)
        cover = next(
            sheet
            for sheet in prepare(request).laid.sheets
            if sheet.kind is SheetKind.COVER and framed(sheet)
        )
        unless = said(cover).split(press.words.lines("cover.checks")[-1])[1]
        field = str(designs.entries("page", language)["field.margin"])
        assert wider in unless and field.lower() in unless, (language, unless)
