"""Lines of exchange cards and mats are printed as far as the blade must go."""

from collections.abc import Iterator

import pypdfium2 as pdfium
import pytest
from pdf_lines import page_lines

from kitbuilder.design import load as designs
from kitbuilder.design.style import Style
from kitbuilder.draw.draw_sheet import draw_sheet
from kitbuilder.draw.primitives import Strokes
from kitbuilder.kit.mat_needs import MatWish
from kitbuilder.kit.records import ExchangeCard
from kitbuilder.layout.cards.exchange_cards import exchange_sheets
from kitbuilder.layout.mat.mat_set import mat_set
from kitbuilder.layout.model import Sheet
from kitbuilder.number import Sum
from kitbuilder.output.pdf.document import pdf
from kitbuilder.press.printing import fitted_paper
from kitbuilder.request.file import first_wishes


def cut_sheets(style: Style) -> Iterator[Sheet]:
    yield from exchange_sheets([ExchangeCard(1, "1 ten is 10 ones")], style)
    mats = mat_set((Sum(305, 148),), None, MatWish(), style)
    yield from (sheet for sheet in mats.sheets if sheet.cuts)


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_a_line_runs_from_edge_to_edge(paper: str) -> None:
    # what a blade meets before it leaves the paper is printed: lines up to the edge, none short
    style = Style(fitted_paper(paper))
    for sheet in cut_sheets(style):
        page = pdfium.PdfDocument(pdf([draw_sheet(sheet, 1, style)], "cut", "en-GB"))[0]
        for cut in sheet.cuts:
            down = cut.x1 == cut.x2
            at, ends = (cut.x1, (cut.y1, cut.y2)) if down else (cut.y1, (cut.x1, cut.x2))
            parts = [
                (min(a, b), max(a, b))
                for x1, y1, x2, y2 in page_lines(page)
                for side, across, a, b in [(x1, x2, y1, y2) if down else (y1, y2, x1, x2)]
                if abs(side - at) < 0.05 and abs(across - at) < 0.05
            ]
            assert min(a for a, _ in parts) < min(ends) + 0.1
            assert max(b for _, b in parts) > max(ends) - 0.1


@pytest.mark.parametrize("look", designs.names("looks"))
@pytest.mark.parametrize("paper", ["a5", "letter"])
def test_every_cut_of_a_mat_is_a_whole_dark_line(paper: str, look: str) -> None:
    style = Style(fitted_paper(paper), look=designs.look(look))
    sums = first_wishes().sums
    sheets = [sheet for sheet in mat_set(sums, None, MatWish(), style).sheets if sheet.cuts]
    assert any(cut.x1 == cut.x2 for sheet in sheets for cut in sheet.cuts)
    for sheet in sheets:
        marks = draw_sheet(sheet, 1, style).marks
        cuts = [m for m in marks if isinstance(m, Strokes) and m.layer == "cut"]
        assert sum(len(mark.lines) for mark in cuts) == len(sheet.cuts)
        assert {(m.dash, m.colour, m.width) for m in cuts} == {
            ((), style.look.ink.cut, style.look.lines_mm.cut)
        }
