"""When the answer is wrong and when to write, in large type: full pages, large pieces."""

import guards
import pytest

from kitbuilder.design import load as designs
from kitbuilder.design.style import Style
from kitbuilder.kit.advice import wrong_page
from kitbuilder.kit.lesson.writing import writing
from kitbuilder.layout.lesson.mistake_pictograms import pictogram_of
from kitbuilder.layout.lesson.writing_pages import writing_sheets
from kitbuilder.layout.lesson.wrong_pages import wrong_sheets
from kitbuilder.layout.parts.contents import Dots, Line, Pictogram
from kitbuilder.number import Sum
from kitbuilder.press.printing import fitted_paper
from kitbuilder.request.request import read_sum

SUMS = [Sum(43, 17), Sum(254, 38), Sum(431, 257), Sum(305, 148)]


@pytest.mark.parametrize(("paper", "words"), [("a4", "en-GB"), ("a4", "es"), ("letter", "en-US")])
def test_two_mistakes_or_more_share_a_page(paper: str, words: str) -> None:
    style = Style(fitted_paper(paper), designs.words(words), designs.look("bold"))
    page = wrong_page(SUMS, style.words)
    signs = {pictogram_of(mistake.key) for mistake in page.mistakes}
    drawn = [
        sum(isinstance(i.content, Pictogram) and i.content.name in signs for i in sheet.items)
        for sheet in wrong_sheets(page, 1, style)
    ]
    assert sum(drawn) == len(page.mistakes) == 5
    assert min(drawn) >= 2


@pytest.mark.parametrize(("paper", "words"), [("letter", "es"), ("letter", "en-US")])
def test_pieces_are_large_where_mistakes_or_moves_are_large(paper: str, words: str) -> None:
    # LOOK 2: 2.2 mm at the least. Rows as low as each other had them 1.9 mm wide.
    style = Style(fitted_paper(paper), designs.words(words), designs.look("bold"))
    for sums in (SUMS, [Sum(254, 38)], [Sum(634, 258)]):
        pages = wrong_sheets(wrong_page(sums, style.words), 1, style)
        pages += writing_sheets(writing(sums, style.words), 1, style)
        for page in pages:
            assert guards.small_ones(page.items, 2.2) == [], page.number


def test_a_move_alone_on_its_page_is_larger() -> None:
    style = Style(fitted_paper("letter"), designs.words("es"), designs.look("bold"))
    first, *_, last, _ = writing_sheets(writing([Sum(634, 258)], style.words), 1, style)
    assert guards.small_ones(first.items, 4.0) == []
    assert guards.small_ones(last.items, 4.0) != []  # it shows twelve tens beside each other


@pytest.mark.parametrize(("paper", "words"), [("a4", "en-GB"), ("a4", "es"), ("letter", "es")])
def test_a_sum_is_drawn_large_where_the_page_has_room_below_the_columns(
    paper: str, words: str
) -> None:
    # beside the columns its dots were 1.2 mm with the space round them, and hard to tell apart
    style = Style(fitted_paper(paper), designs.words(words), designs.look("bold"))
    last = writing_sheets(writing([Sum(304, 127)], style.words), 1, style)[-1]
    dots = [item.rect.width for item in last.items if isinstance(item.content, Dots)]
    assert len(dots) == 4 + 14 + 14
    assert min(dots) >= 2.0


def test_an_arrow_from_a_column_without_pieces_runs_below_the_names_of_columns() -> None:
    style = Style(fitted_paper("a4"), designs.words("es"), designs.look("bold"))
    first, *_ = wrong_sheets(wrong_page([Sum(500, 236)], style.words), 1, style)
    assert guards.arrows_under_words(first.items) == []


@pytest.mark.parametrize(("sum_", "words"), [("6.40-2.75", "en-GB"), ("3.2-1.47", "es")])
def test_letters_stand_over_columns_whose_names_are_wider_than_a_small_page(
    sum_: str, words: str
) -> None:
    style = Style(fitted_paper("a5"), designs.words(words), designs.look("bold"))
    read = read_sum(sum_)
    style = style.counting(read.scale)
    pages = wrong_sheets(wrong_page([read], style.words), 1, style)
    said = {i.content.text for page in pages for i in page.items if isinstance(i.content, Line)}
    assert style.words("mat.headings.letters.tens") in said
    assert not any(guards.words_in_boxes(page) for page in pages)
