"""The metre: four lengths that make one, its tenths and hundredths true to size."""

from itertools import pairwise

import pytest
from guards import words_apart, words_inside

from kitbuilder.design import load as designs
from kitbuilder.design.style import Style
from kitbuilder.draw.draw_sheet import draw_sheet
from kitbuilder.errors import RefusedError
from kitbuilder.layout.model import Item
from kitbuilder.layout.pages.metre_page import GLUED, HIGH, LENGTHS, LONG, metre_sheets
from kitbuilder.layout.parts.contents import Line, Rule
from kitbuilder.press.printing import fitted_paper


def style(paper: str, words: str = "en-GB", unit: float | None = None) -> Style:
    return Style(fitted_paper(paper, unit=unit), designs.words(words))


def edges(items: tuple[Item, ...], what: str, high: float, left: float, top: float) -> list[float]:
    """Return where on the glued metre upright lines ``high`` mm high stand, each place once."""
    found = set()
    for item in items:
        if item.what == what and abs(item.rect.height - high) < 1e-6:
            length = int((item.rect.y - top) // HIGH)
            found.add(round(length * LONG + item.rect.x - left, 6))
    return sorted(found)


@pytest.mark.parametrize("paper", ["a4", "letter", "a3"])
def test_the_lengths_make_a_metre_of_true_tenths_and_hundredths(paper: str) -> None:
    """An end of a length is the next one's beginning, so both stand at one place."""
    (sheet,) = metre_sheets(style(paper))
    left = min(cut.x1 for cut in sheet.cuts if cut.x1 == cut.x2)
    top = min(cut.y1 for cut in sheet.cuts)
    hundredths = edges(sheet.items, "grid", 10.0, left, top)
    assert hundredths == [10.0 * k for k in range(101)]
    assert edges(sheet.items, "rule", 12.0, left, top) == [100.0 * k for k in range(11)]
    across = sorted({cut.y1 for cut in sheet.cuts if cut.y1 == cut.y2})
    assert len(across) == LENGTHS + 1
    assert all(b - a == pytest.approx(HIGH) for a, b in pairwise(across))
    right = max(cut.x1 for cut in sheet.cuts if cut.x1 == cut.x2)
    assert right - left == pytest.approx(LONG + GLUED)


@pytest.mark.parametrize(("words", "first"), [("en-GB", "0.1 m"), ("es", "0,1 m")])
def test_each_tenth_is_numbered_once(words: str, first: str) -> None:
    asked = style("a4", words)
    (sheet,) = metre_sheets(asked)
    said = [i.content.text for i in sheet.items if isinstance(i.content, Line)]
    numbers = [text for text in said if text.endswith(" m")]
    assert len(numbers) == len(set(numbers)) == 11
    assert numbers[1] == first
    drawing = draw_sheet(sheet, 1, asked)
    assert words_apart(drawing) == []
    assert words_inside(drawing) == []


def test_the_dashed_line_is_where_the_next_length_begins() -> None:
    (sheet,) = metre_sheets(style("a4"))
    left = min(cut.x1 for cut in sheet.cuts if cut.x1 == cut.x2)
    dashed = [i for i in sheet.items if isinstance(i.content, Rule) and i.content.line == "dashed"]
    assert {round(i.rect.x - left, 6) for i in dashed} == {LONG}


@pytest.mark.parametrize(
    ("paper", "unit", "says"),
    [("a4", 9.0, "choose --unit 10"), ("190x260mm", 10.0, "choose A4, Letter or larger")],
)
def test_a_metre_that_would_not_be_one_is_refused(paper: str, unit: float, says: str) -> None:
    with pytest.raises(RefusedError, match=says):
        metre_sheets(style(paper, unit=unit))


def test_a_metre_in_large_type_fits_a4_in_every_language() -> None:
    # three lines of Spanish left it 2 mm too little, and "choose A4" was said of A4
    for name in designs.names("words"):
        for words in (designs.words(name), designs.words(name).counting(2)):
            assert metre_sheets(Style(fitted_paper("a4"), words, designs.look("bold")))
