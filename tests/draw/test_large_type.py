"""In large type nothing that is printed is smaller than the look's least type, 17 pt."""

from dataclasses import replace

import pytest
from guards import MOST_OF_CARD, is_light, small_type, word_box
from ready_made import ready_made, ready_request

from kitbuilder.design import load as designs
from kitbuilder.draw.draw_pages import draw_pages
from kitbuilder.draw.primitives import Words
from kitbuilder.kit.card_records import CardWishes, Pupil, Task
from kitbuilder.kit.records import CutWish
from kitbuilder.layout.model import SheetKind
from kitbuilder.layout.parts.contents import Line, Strike
from kitbuilder.pipeline import held, laid_out, prepare
from kitbuilder.press.printing import Press, fitted_paper
from kitbuilder.request.file import first_wishes
from kitbuilder.request.request import Request, read_sum

SUMS = tuple(read_sum(text) for text in ("71-48", "305-148", "634-258"))


def asked(name: str, usual: Request) -> Request:
    """Return a request of the kind ``name``, made as ``usual``."""
    cards = replace(usual, name="cards", parts=("cards",), sums=SUMS)
    said = CardWishes(kinds=("stories", "additions", "facts", "arrows", "digits", "record"))
    pupils = (Pupil("Ada", tuple(map(Task, SUMS))), Pupil("Ben", (Task(SUMS[0], "written"),)))
    return {
        "kit": usual,
        "class": replace(usual, cutting=CutWish(6, layers=3)),
        "tonight": replace(usual, sums=SUMS[1:2], mini=True),
        "thousands": replace(usual, sums=(read_sum("2000-764"),), parts=("guide",)),
        "packs": replace(cards, sums=(), pupils=pupils),
        "said": replace(cards, cards=said),
    }[name]


LIGHT = {"class": 0.066, "thousands": 0.066, "kit": 0.078, "tonight": 0.08}
"""How dark pages may be that are full of large words.

Words alone are 0.055 on a class set's first page in Spanish, on A5 0.07: nothing else can be
taken away there, and to set fewer would take further pages.
"""


@pytest.mark.parametrize(
    ("name", "paper"),
    [
        ("kit", "a5"),
        ("class", "a4"),
        ("tonight", "a5"),
        ("thousands", "letter"),
        ("packs", "letter"),
        ("said", "a5"),
    ],
)
def test_nothing_is_smaller_than_the_least_type_and_pages_of_large_words_little_darker(
    name: str, paper: str
) -> None:
    request = asked(name, ready_request(paper, "es", "bold"))  # the longest
    least = request.press.look.type_mm.least
    prepared = prepare(request)
    sheets = prepared.laid.sheets
    drawn = prepared.drawings or draw_pages(sheets, request.paper, request.press)
    for page, (sheet, drawing) in enumerate(zip(sheets, drawn, strict=True), 1):
        assert small_type(drawing, least) == [], page
        most = LIGHT.get(name, 1.0)
        allowed = max(most, MOST_OF_CARD) if sheet.stock == "card" else most
        assert is_light(drawing, allowed), (page, sheet.kind)


def test_what_is_said_under_the_hundreds_of_a_mat_is_not_one_sentence() -> None:
    # they read "say how many [box] each a little lower and to the right"
    sheets = [sheet for sheet in ready_made(look="bold") if sheet.kind == SheetKind.MAT]
    request = ready_request(look="bold")
    drawn = draw_pages(sheets, request.paper, request.press)
    said = [[m for m in drawing.marks if isinstance(m, Words)] for drawing in drawn]
    both = [words for words in said if any(m.text.startswith("each a") for m in words)]
    assert len(both) == 2
    for words in both:
        (asked_,) = (word_box(m) for m in words if m.text == "say how many")
        how = [word_box(m) for m in words if "each a" in m.text or "the right" in m.text]
        assert all(asked_.bottom < r.y for r in how) or all(r.bottom < asked_.y for r in how)


def test_a_strike_does_not_run_along_the_slant_of_a_digit() -> None:
    # rising and steep it hid a 4 in a poor copy
    items = [i for s in ready_made(look="bold") if s.kind == SheetKind.GUIDE for i in s.items]
    strikes = [i.rect for i in items if isinstance(i.content, Strike) and i.content.falling]
    assert strikes
    assert all(rect.height < rect.width for rect in strikes)


@pytest.mark.parametrize(("words", "paper"), [("en-GB", "letter"), ("es", "a4")])
def test_a_class_sets_first_pages_are_one_each(words: str, paper: str) -> None:
    press = Press(look=designs.look("bold"), words=designs.words(words))
    wish = CutWish(kits=29)
    usual = Request(first_wishes().sums, fitted_paper(paper), press=press, cutting=wish)
    kinds = [sheet.kind for sheet in prepare(usual).laid.sheets]
    assert kinds.count(SheetKind.PRINT_RUN) == kinds.count(SheetKind.COVER) == 1


@pytest.mark.parametrize(
    ("paper", "words"), [("a4", "en-GB"), ("a5", "en-GB"), ("letter", "en-US")]
)
def test_every_true_ten_tells_its_length(paper: str, words: str) -> None:
    # the first page tells to measure it
    for number, sheet in enumerate(ready_made(paper, words, "bold"), 1):
        said = [item.content.text for item in sheet.items if isinstance(item.content, Line)]
        barred = any(item.what == "ruler" for item in sheet.items)
        told = any(text.startswith("100 mm") for text in said)
        assert told or not barred, (number, sheet.kind)


@pytest.mark.parametrize(
    ("paper", "home", "each"), [("a5", False, 2), ("a4", False, 2), ("letter", True, 2)]
)
def test_labels_in_large_type_share_a_sheet(paper: str, home: bool, each: int) -> None:
    # each of them had a sheet of its own, half of it blank
    usual = Request(
        first_wishes().sums,
        fitted_paper(paper),
        press=Press(look=designs.look("bold"), words=designs.words("es")),
        parts=("pieces", "mats", "cards"),
        cutting=CutWish(kits=6, home=home),
    )
    sheets = [s for s in laid_out(held(usual), usual).sheets if s.kind is SheetKind.LABELS]
    assert [sum(i.what == "label" for i in sheet.items) for sheet in sheets] == [each] * (6 // each)


def test_first_steps_of_cutting_stand_below_each_other_on_small_paper() -> None:
    # beside each other their words took seven lines of three
    page = next(s for s in ready_made("a5", look="bold") if s.kind is SheetKind.CUTTING)
    first, second, *_ = (item.rect for item in page.items if item.what == "step_number")
    assert first.x == second.x and first.bottom < second.y
    said = [item.content.text for item in page.items if isinstance(item.content, Line)]
    assert "Cut thick lines, from end to end." in said
