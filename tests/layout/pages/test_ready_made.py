"""The ready-made kit's pages: as few as promised, and light."""

from dataclasses import replace

import guards
import pytest

from kitbuilder.design import load as designs
from kitbuilder.draw.draw_pages import draw_pages
from kitbuilder.layout.model import Sheet
from kitbuilder.pipeline import held, laid_out
from kitbuilder.press.printing import Press, fitted_paper
from kitbuilder.request.file import first_wishes
from kitbuilder.request.request import Request, read_sum


def most(sheet: Sheet) -> float:
    """The most ink: of what children hold, and of what is read."""
    held = ("task_cards", "exchange_cards")
    return 0.1 if sheet.kind in held else guards.MOST_INK["plain"]


def request(paper: str, words: str, *sums: str) -> Request:
    """Return the ready-made kit, or the guide to other ``sums`` where they are given."""
    usual = Request(
        first_wishes().sums, fitted_paper(paper), press=Press(words=designs.words(words))
    )
    asked = tuple(read_sum(text) for text in sums)
    return replace(usual, sums=asked, parts=("guide",)) if asked else usual


def test_it_has_at_most_twenty_pages_and_twelve_for_the_first_week() -> None:
    asked = request("a4", "en-GB")
    sheets = laid_out(held(asked), asked).sheets
    assert len(sheets) <= 20
    assert sum(not sheet.later for sheet in sheets) <= 12
    for sheet in sheets:
        if sheet.kind == "lesson":  # both parts of four steps at most
            assert sum(item.what == "zone" for item in sheet.items) <= 8


@pytest.mark.parametrize(
    ("paper", "words", "sums"),
    [
        ("a4", "en-GB", ()),
        ("letter", "es", ()),
        ("letter", "es", ("305-148",)),
        ("letter", "es", ("634-258",)),
        ("letter", "es", ("2000-764",)),
        ("letter", "en-US", ("43-17", "254-38", "431-257", "305-148")),
    ],
)
def test_its_pages_are_light(paper: str, words: str, sums: tuple[str, ...]) -> None:
    asked = request(paper, words, *sums)
    sheets = laid_out(held(asked), asked).sheets
    drawings = draw_pages(sheets, asked.paper, asked.press)
    for page, (sheet, drawing) in enumerate(zip(sheets, drawings, strict=True), 1):
        assert guards.is_light(drawing, most(sheet)), (page, sheet.kind)
