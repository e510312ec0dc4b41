"""The ready-made kit's pages: as few as promised, and light."""

from dataclasses import replace

import guards
import pytest
from ready_made import ready_made, ready_request

from kitbuilder.draw.draw_pages import draw_pages
from kitbuilder.pipeline import held, laid_out
from kitbuilder.request.request import read_sum


def test_it_has_at_most_twenty_pages_and_twelve_for_the_first_week() -> None:
    sheets = ready_made()
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
    asked, sheets = ready_request(paper, words), ready_made(paper, words)
    if sums:
        asked = replace(asked, sums=tuple(map(read_sum, sums)), parts=("guide",))
        sheets = laid_out(held(asked), asked).sheets
    drawings = draw_pages(sheets, asked.paper, asked.press)
    for page, (sheet, drawing) in enumerate(zip(sheets, drawings, strict=True), 1):
        assert guards.is_light(drawing, guards.most_ink(sheet)), (page, sheet.kind)


@pytest.mark.parametrize(
    ("paper", "words", "look"),
    [  # large type on A5 is held in tests/draw/test_large_type.py
        ("letter", "es", "bold"),  # as many words as on A4, on less paper
        ("a5", "es", "plain"),
        ("a5", "es", "outline"),
        ("letter", "en-US", "spare"),
    ],
)
def test_its_pages_are_light_in_every_look(paper: str, words: str, look: str) -> None:
    # in large type they had up to 7.6 parts in a hundred, as many in the look of lines alone
    sheets, asked = ready_made(paper, words, look), ready_request(paper, words, look)
    drawings = draw_pages(sheets, asked.paper, asked.press)
    for page, (sheet, drawing) in enumerate(zip(sheets, drawings, strict=True), 1):
        assert guards.is_light(drawing, guards.most_ink(sheet)), (page, sheet.kind)
