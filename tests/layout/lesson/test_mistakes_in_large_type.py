"""When the answer is wrong, in large type: no page holds one mistake of several."""

import pytest

from kitbuilder.design import load as designs
from kitbuilder.design.style import Style
from kitbuilder.kit.advice import wrong_page
from kitbuilder.layout.lesson.mistake_pictograms import pictogram_of
from kitbuilder.layout.lesson.wrong_pages import wrong_sheets
from kitbuilder.layout.parts.contents import Pictogram
from kitbuilder.number import Sum
from kitbuilder.press.printing import fitted_paper

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
