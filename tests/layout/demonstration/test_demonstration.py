"""Large pieces for the board: true size, the right number, cut and joined as the letters say."""

import re
from collections import Counter
from dataclasses import replace

import pytest

from kitbuilder.design import load as designs
from kitbuilder.errors import RefusedError
from kitbuilder.layout.model import Sheet
from kitbuilder.layout.parts.contents import Line
from kitbuilder.number import Sum
from kitbuilder.number.stock import stock
from kitbuilder.pipeline import held, laid_out
from kitbuilder.press.printing import Press, fitted_paper
from kitbuilder.request.request import Request

SUMS = (Sum(305, 148), Sum(43, 17))
UNITS = {"a4": 20, "letter": 20, "a3": 25, "a5": 20}
"""The largest unit in steps of 5 mm at which ten lie across inside the margins."""


def sheets(paper: str, unit: float | None = None) -> tuple[Sheet, ...]:
    request = Request(SUMS, fitted_paper(paper, unit=unit), parts=("demonstration",))
    return laid_out(held(request), request).sheets


@pytest.mark.parametrize("paper", UNITS)
def test_pieces_are_of_true_size_and_as_many_as_the_sums_need(paper: str) -> None:
    unit, area = UNITS[paper], Counter[str]()
    for sheet in sheets(paper):
        for item in sheet.items:
            if item.what.startswith("large_"):
                across, down = item.rect.width / unit, item.rect.height / unit
                assert across == pytest.approx(round(across)) and down == pytest.approx(round(down))
                area[item.what] += round(across * down)
    need = stock(SUMS)
    assert area == {
        "large_hundred": 100 * need.hundreds,
        "large_ten": 10 * need.tens,
        "large_one": need.ones,
    }


@pytest.mark.parametrize("paper", UNITS)
def test_every_side_of_every_piece_is_cut(paper: str) -> None:
    for sheet in sheets(paper):
        for item in sheet.items:
            if not item.what.startswith("large_"):
                continue
            r = item.rect
            for y in (r.y, r.bottom):
                assert any(abs(c.y1 - y) + abs(c.y2 - y) < 0.01 and c.x1 <= r.x for c in sheet.cuts)
            for x in (r.x, r.right):
                assert any(
                    abs(c.x1 - x) + abs(c.x2 - x) < 0.01
                    and c.y1 <= r.y + 0.01
                    and c.y2 >= r.bottom - 0.01
                    for c in sheet.cuts
                )


def joins(paper: str, unit: float | None = None) -> list[str]:
    """Return the letters beside the edges of hundreds that are taped."""
    return [
        item.content.text
        for sheet in sheets(paper, unit)
        if sheet.kind == "demo_pieces"
        for item in sheet.items
        if isinstance(item.content, Line) and len(item.content.text) == 1
    ]


def test_parts_of_a_hundred_are_joined_where_their_letters_meet() -> None:
    assert joins("a4") == []  # a hundred of 200 mm is whole
    # at 25 mm it takes two parts: one join, a letter at both ends of both edges, three hundreds
    assert joins("a4", 25) == ["a"] * 4 * stock(SUMS).hundreds
    assert joins("a5") == ["a"] * 4 * stock(SUMS).hundreds


def test_the_mat_has_its_names_and_the_kit_says_how_it_is_laid_out() -> None:
    kinds = [sheet.kind for sheet in sheets("a4")]
    assert kinds[:2] == ["cover", "demo_plan"]
    said = [
        item.content.text
        for sheet in sheets("a4")
        if sheet.kind == "demo_names"
        for item in sheet.items
        if isinstance(item.content, Line)
    ]
    assert {"hundreds", "tens", "ones", "the whole", "the part"} <= {*said}


def test_a_paper_too_small_is_refused() -> None:
    with pytest.raises(RefusedError, match="larger paper"):
        sheets("105x148mm")


def test_a_kit_has_large_pieces_only_where_they_are_wished_for() -> None:
    request = Request(SUMS, fitted_paper("a4"))
    kinds = {s.kind for s in laid_out(held(request), request).sheets}
    assert not [kind for kind in kinds if kind.startswith("demo")]
    both = replace(request, parts=("pieces", "demonstration"))
    assert {"pieces", "demo_pieces"} <= {s.kind for s in laid_out(held(both), both).sheets}


def told(paper: str, words: str, look: str = "plain") -> list[list[str]]:
    """Return the lines of each page that says how the demonstration is laid out."""
    press = Press(words=designs.words(words), look=designs.look(look))
    request = Request(SUMS, fitted_paper(paper), parts=("demonstration",), press=press)
    return [
        [item.content.text for item in sheet.items if isinstance(item.content, Line)]
        for sheet in laid_out(held(request), request).sheets
        if sheet.kind == "demo_plan"
    ]


@pytest.mark.parametrize("words", ["en-GB", "en-US", "es"])
def test_large_words_take_a_second_page_of_a_small_paper(words: str) -> None:
    pages = told("a5", words, "bold")
    assert len(pages) == 2
    numbers = [text for page in pages for text in page if text in "1234"]
    assert numbers == ["1", "2", "3", "4"]


def test_columns_are_taped_in_inches_too_where_inches_are_usual() -> None:
    # 13 ones of 20 mm are 26 cm high: 10.2 in, so 11 in hold them
    assert "11 in (26 cm) high each" in " ".join(told("letter", "en-US")[0])
    assert "26 cm high each" in " ".join(told("letter", "en-GB")[0])


@pytest.mark.parametrize("language", designs.names("words"))
def test_each_picture_has_a_caption_and_nothing_is_stuck_with_magnets(language: str) -> None:
    press = Press(words=designs.words(language))
    request = Request(SUMS, fitted_paper("a4"), parts=("demonstration",), press=press)
    (page,) = (s for s in laid_out(held(request), request).sheets if s.kind == "demo_plan")
    text = " ".join(i.content.text for i in page.items if isinstance(i.content, Line))
    slots = {"whole": 305, "part": 148, "rest": 157}
    for key in ("built", "parted"):
        assert press.words(f"demonstration.{key}", **slots) in text
    # A swallowed magnet is a danger: they are named here only to be left out.
    without = {"en": "no magnets", "es": "sin imanes"}[language[:2]]
    named = {"en": "magnet", "es": "im(án|an)"}[language[:2]]
    assert without in text and len(re.findall(named, text, re.IGNORECASE)) == 1
    for said in press.words.entries.values():
        for one in (said,) if isinstance(said, str) else said:
            assert len(re.findall(named, one)) == one.count(without)


@pytest.mark.parametrize("look", designs.names("looks"))
@pytest.mark.parametrize("language", designs.names("words"))
@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_a_large_page_shows_the_mat(paper: str, language: str, look: str) -> None:
    press = Press(words=designs.words(language), look=designs.look(look))
    request = Request(SUMS, fitted_paper(paper), parts=("demonstration",), press=press)
    pages = [s for s in laid_out(held(request), request).sheets if s.kind == "demo_plan"]
    assert any(item.what == "small_pieces" for page in pages for item in page.items)


def test_its_pictures_show_every_column_that_is_taped() -> None:
    request = Request(SUMS[::-1], fitted_paper("a4"), parts=("demonstration",))
    shown = held(request).demonstration
    assert shown and all(len(scene.columns) == len(shown.columns) for scene in shown.scenes)


@pytest.mark.parametrize(("paper", "most"), [("a4", 28.7), ("letter", 26.6)])
def test_a_unit_that_is_too_large_is_refused_with_the_largest(paper: str, most: float) -> None:
    with pytest.raises(RefusedError) as refused:
        sheets(paper, 40)
    assert str(refused.value).endswith(f"the largest that fits is --unit {most}.")
    assert sheets(paper, most)
    with pytest.raises(RefusedError):
        sheets(paper, most + 0.1)
