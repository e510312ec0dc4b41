"""In large type on small paper a kind's first sum stands clear of the lines for dates."""

import pytest
from ready_made import ready_made

from kitbuilder.design import load as designs
from kitbuilder.layout.model import SheetKind
from kitbuilder.layout.parts.contents import Line, Pictogram


@pytest.mark.parametrize("language", ["en-GB", "es"])
def test_no_sum_runs_into_the_lines_for_dates(language: str) -> None:
    pages = [s for s in ready_made("a5", language, "bold") if s.kind is SheetKind.PROGRESS]
    dates = [(s, i.rect) for s in pages for i in s.items if i.what == "rule" and i.rect.width < 20]
    assert dates
    for sheet, date in dates:
        rects = [i.rect for i in sheet.items if isinstance(i.content, Line)]
        beside = [r for r in rects if r.y < date.y < r.bottom and r.x < date.x]
        assert all(rect.right <= date.x - 2.5 for rect in beside)


@pytest.mark.parametrize("language", designs.names("words"))
def test_how_far_we_are_takes_three_small_pages_in_large_type(language: str) -> None:
    words = designs.words(language)
    pages = [s for s in ready_made("a5", language, "bold") if s.kind is SheetKind.PROGRESS]
    assert len(pages) == 3
    said = [i.content.text for s in pages for i in s.items if isinstance(i.content, Line)]
    before = words("road.further", sums="")
    assert sum(text.startswith(before) for text in said) == 5  # each kind has further sums


@pytest.mark.parametrize(("paper", "words"), [("a4", "en-GB"), ("letter", "en-US")])
def test_all_kinds_stand_on_one_page_in_large_type_rather_than_all_their_sums(
    paper: str, words: str
) -> None:
    pages = [s for s in ready_made(paper, words, "bold") if s.kind is SheetKind.PROGRESS]
    dated = [any(i.what == "rule" and i.rect.width < 20 for i in s.items) for s in pages]
    assert dated == [True, False]


@pytest.mark.parametrize("paper", ["a4", "a5"])
def test_every_page_with_boxes_has_the_stages_over_them(paper: str) -> None:
    pages = [s for s in ready_made(paper, "es", "bold") if s.kind is SheetKind.PROGRESS]
    assert len(pages) > 1
    for page in pages:
        dates = [i.rect.y for i in page.items if i.what == "rule" and i.rect.width < 20]
        signs = [i.rect.y for i in page.items if isinstance(i.content, Pictogram)]
        named = [y for y in signs if y > page.height / 10]
        assert not dates or min(named) < min(dates)
