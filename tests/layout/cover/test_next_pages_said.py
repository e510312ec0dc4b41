"""A cover of several pages says on its first which others are printed and read."""

import pytest
from ready_made import ready_made

from kitbuilder.design import load as designs
from kitbuilder.layout.model import SheetKind
from kitbuilder.layout.parts.contents import Line


@pytest.mark.parametrize(
    ("paper", "look", "language"),
    [
        ("a4", "plain", "en-US"),
        ("a4", "plain", "es"),
        ("a5", "plain", "en-GB"),
        ("a5", "plain", "es"),
        ("a5", "bold", "en-US"),
    ],
)
def test_the_first_page_names_the_next(paper: str, look: str, language: str) -> None:
    words = designs.words(language)
    cover = [s for s in ready_made(paper, language, look) if s.kind is SheetKind.COVER]
    said = " ".join(i.content.text for i in cover[0].items if isinstance(i.content, Line))
    count = len(cover)
    pages = "2" if count == 2 else f"2–{count}"
    key = "cover.next_page" if count == 2 else "cover.next_pages"
    assert (words(key, pages=pages) in said) is (count > 1)
    assert (count > 1) is (paper == "a5")
