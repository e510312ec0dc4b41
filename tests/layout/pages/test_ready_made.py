"""The ready-made kit's pages: as few as promised, and light."""

import guards

from kitbuilder.draw.drawings import draw_pages
from kitbuilder.layout.model import Sheet
from kitbuilder.pipeline import held, laid_out
from kitbuilder.press.printing import fitted_paper
from kitbuilder.request.file import first_wishes
from kitbuilder.request.request import Request

REQUEST = Request(first_wishes().sums, fitted_paper("a4"))


def most(sheet: Sheet) -> float:
    """The most ink: what children hold, a page that shows many hundreds, others."""
    if sheet.kind == "task_cards":
        return 0.1
    return 0.066 if sheet.kind == "lesson" and sheet.later else 0.06


def test_it_has_at_most_twenty_light_pages_and_twelve_for_the_first_week() -> None:
    sheets = laid_out(held(REQUEST), REQUEST).sheets
    assert len(sheets) <= 20
    assert sum(not sheet.later for sheet in sheets) <= 12
    for sheet in sheets:
        if sheet.kind == "lesson":  # both parts of four steps at most
            assert sum(item.what == "zone" for item in sheet.items) <= 8
    drawings = draw_pages(sheets, REQUEST.paper, REQUEST.press)
    for page, (sheet, drawing) in enumerate(zip(sheets, drawings, strict=True), 1):
        assert guards.ink(drawing, 300) < most(sheet), (page, sheet.kind)
