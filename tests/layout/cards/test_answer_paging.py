"""Answers on pages: no page holds the closing line alone."""

import guards
import pytest
from ready_made import ready_made

from kitbuilder.design import load as designs
from kitbuilder.design.style import Style
from kitbuilder.draw.draw_sheet import draw_sheet
from kitbuilder.kit.card_packs import pupil_packs
from kitbuilder.kit.card_records import CardWishes, Pupil, Stage, Task
from kitbuilder.layout.cards.answer_boxes import GREAT, AnswerBox
from kitbuilder.layout.cards.answer_sheets import _paged, answer_sheets
from kitbuilder.layout.model import SheetKind
from kitbuilder.layout.parts.block import Block
from kitbuilder.layout.parts.contents import Line, Pictogram, SmallPieces
from kitbuilder.pipeline import held, laid_out
from kitbuilder.press.printing import Press, fitted_paper
from kitbuilder.request.file import first_wishes
from kitbuilder.request.request import Request, read_sum


def test_a_closing_line_takes_the_last_answer_with_it() -> None:
    answer, line = Block((), 100.0, 45.0), Block((), 100.0, 6.0)
    assert [len(page) for page in _paged([answer, answer, line], 95.0)] == [1, 2]
    assert [len(page) for page in _paged([answer, answer, line], 102.0)] == [3]
    high = Block((), 100.0, 92.0)
    assert [len(page) for page in _paged([high, line], 95.0)] == [1, 1]


@pytest.mark.parametrize("words", ["en-GB", "en-US", "es"])
@pytest.mark.parametrize("look", ["plain", "bold"])
@pytest.mark.parametrize("sums", ["71-48", "81-36", "431-257,305-148,254-38,43-17"])
def test_no_page_of_small_paper_holds_words_alone(sums: str, look: str, words: str) -> None:
    press = Press(look=designs.look(look), words=designs.words(words))
    asked = tuple(read_sum(text) for text in sums.split(","))
    request = Request(asked, fitted_paper("a5"), parts=("cards",), press=press)
    pages = [s for s in laid_out(held(request), request).sheets if s.kind is SheetKind.ANSWERS]
    assert len(pages) == len(asked)
    assert all(any(item.what == "answer" for item in page.items) for page in pages)


@pytest.mark.parametrize("look", ["plain", "bold"])
def test_each_page_of_answers_tells_who_says_and_who_asks(look: str) -> None:
    # in large type no page of two answers in a row told it, in the usual look only the first
    asked = ("304-127", "431-257", "634-258", "72-48", "81-36", "83-36", "84-36", "85-37")
    request = Request(
        tuple(map(read_sum, asked)),
        fitted_paper("a4"),
        parts=("cards",),
        press=Press(look=designs.look(look)),
    )
    pages = [s for s in laid_out(held(request), request).sheets if s.kind is SheetKind.ANSWERS]
    assert len(pages) > 1
    for page in pages:
        faces = {i.content.name for i in page.items if isinstance(i.content, Pictogram)}
        assert "child" in faces or any(
            isinstance(i.content, AnswerBox) and i.content.size.beside for i in page.items
        )


def test_an_answer_on_small_paper_fills_two_thirds_of_its_page() -> None:
    press = Press(words=designs.words("es"))
    request = Request((read_sum("431-257"),), fitted_paper("a5"), parts=("cards",), press=press)
    (page,) = (s for s in laid_out(held(request), request).sheets if s.kind is SheetKind.ANSWERS)
    answer = next(item.rect for item in page.items if item.what == "answer")
    assert answer.height > 0.6 * page.height


def test_the_heading_of_small_facts_stands_above_them() -> None:
    cards = CardWishes(kinds=("tasks", "stories", "facts"), facts="ten-and-crossing")
    request = Request(first_wishes().sums, fitted_paper("a4"), parts=("cards",), cards=cards)
    title = request.press.words("answers.facts")
    found = 0
    for sheet in laid_out(held(request), request).sheets:
        said = [(i.content.text, i.rect) for i in sheet.items if isinstance(i.content, Line)]
        for at in (rect for text, rect in said if text == title):
            found += 1
            facts = (rect for text, rect in said if text.startswith("10 − 1"))
            assert any(at.bottom <= rect.y <= at.bottom + 9 for rect in facts)
    assert found == 1


def test_the_last_sheet_of_facts_and_stories_is_full() -> None:
    cards = CardWishes(kinds=("tasks", "stories", "facts"), facts="ten-and-crossing")
    request = Request(first_wishes().sums[:3], fitted_paper("a4"), parts=("cards",), cards=cards)
    sheets = laid_out(held(request), request).sheets
    for kind in (SheetKind.TASK_CARDS, SheetKind.FACT_CARDS, SheetKind.STORY_CARDS):
        counts = [
            sum(i.what.endswith("_card") for i in sheet.items)
            for sheet in sheets
            if sheet.kind is kind
        ]
        assert counts and set(counts) == {4}


def test_answers_are_as_large_as_their_pages_allow() -> None:
    # Those of three pupils stood on three pages with half of each blank.
    style = Style(fitted_paper("a4"))
    asked = (("71-48", "305-148"), ("634-258", "604-167"), ("4053-1278", "9000-8765"))
    pupils = [Pupil(f"{n}", tuple(Task(read_sum(s)) for s in some)) for n, some in enumerate(asked)]
    pages = answer_sheets(pupil_packs(pupils, CardWishes(), style.words), style)
    assert len(pages) == 3
    for page in pages:
        answers = [item.rect for item in page.items if item.what == "answer"]
        assert len({rect.x for rect in answers}) == 1, "what to ask stands beside"
        assert sum(rect.height for rect in answers) > 0.5 * page.height


@pytest.mark.parametrize(("paper", "words"), [("a4", "en-GB"), ("a4", "es"), ("letter", "en-US")])
def test_two_answers_in_large_type_share_a_page(paper: str, words: str) -> None:
    # Each of four sums stood on a page of its own, most of it blank.
    press = Press(look=designs.look("bold"), words=designs.words(words))
    asked = tuple(read_sum(text) for text in ("43-17", "254-38", "431-257", "305-148"))
    request = Request(asked, fitted_paper(paper), parts=("cards",), press=press)
    pages = [s for s in laid_out(held(request), request).sheets if s.kind is SheetKind.ANSWERS]
    found = [[item.rect for item in page.items if item.what == "answer"] for page in pages]
    assert [len(answers) for answers in found] == [2, 2]
    assert all(rect.height > 0.5 * pages[0].height for answers in found for rect in answers)


def test_the_last_of_three_answers_in_large_type_has_the_whole_width() -> None:
    press = Press(look=designs.look("bold"))
    asked = tuple(read_sum(text) for text in ("43-17", "254-38", "431-257"))
    request = Request(asked, fitted_paper("a4"), parts=("cards",), press=press)
    pages = [s for s in laid_out(held(request), request).sheets if s.kind is SheetKind.ANSWERS]
    found = [[item.rect for item in page.items if item.what == "answer"] for page in pages]
    (first, second), (last,) = found
    assert last.width > 2 * max(first.width, second.width)


def test_the_last_of_three_answers_on_a_page_has_the_whole_width() -> None:
    # A quarter of the page was blank beside it.
    asked = tuple(read_sum(text) for text in ("634-258", "71-48", "305-148"))
    request = Request(asked, fitted_paper("a4"), parts=("cards",))
    (page,) = [s for s in laid_out(held(request), request).sheets if s.kind is SheetKind.ANSWERS]
    first, second, last = [item.rect for item in page.items if item.what == "answer"]
    assert last.width > 2 * max(first.width, second.width)


def test_the_title_of_all_sums_stands_over_the_first_of_them() -> None:
    # it ended the page of the short keys
    words = designs.words("es")
    style = Style(fitted_paper("letter"), words, designs.look("bold"))
    asked = (("71-48", "305-148"), ("634-258", "85-47"), ("43-17",))
    pupils = [Pupil(f"{n}", tuple(Task(read_sum(s)) for s in some)) for n, some in enumerate(asked)]
    for page in answer_sheets(pupil_packs(pupils, CardWishes(), words), style):
        said = [i.content.text for i in page.items if isinstance(i.content, Line)]
        if words("answers.worked") in said:
            assert any(item.what == "answer" for item in page.items)


def test_who_says_and_who_asks_stands_over_the_first_of_several_pupils_answers() -> None:
    words = designs.words()
    asked = (("71-48", "305-148"), ("634-258", "604-167"), ("431-257", "254-38"))
    pupils = [Pupil(f"{n}", tuple(Task(read_sum(s)) for s in some)) for n, some in enumerate(asked)]
    sheets = answer_sheets(pupil_packs(pupils, CardWishes(), words), Style(fitted_paper("a4")))
    lines = {i.content.text: i.rect for i in sheets[0].items if isinstance(i.content, Line)}
    first = min(i.rect.y for i in sheets[0].items if i.what == "answer")
    for key in ("answers.says", "answers.asks"):
        assert lines[words("answers.worked")].y < lines[words(key)].y < first


def test_answers_that_need_two_pages_stand_as_large_as_two_allow() -> None:
    # Spanish ones took two pages of Letter and stood small on them, a third of each blank.
    sums = tuple(read_sum(text) for text in ("634-258", "71-48", "305-148"))
    press = Press(words=designs.words("es"))
    request = Request(sums, fitted_paper("letter"), parts=("cards",), press=press)
    pages = [s for s in laid_out(held(request), request).sheets if s.kind is SheetKind.ANSWERS]
    assert len(pages) == 2
    answers = [item.rect for page in pages for item in page.items if item.what == "answer"]
    assert len(answers) == 3 and min(rect.height for rect in answers) > 95.0


@pytest.mark.parametrize(("paper", "look", "most"), [("letter", "plain", 2), ("a4", "bold", 4)])
def test_answers_stand_closer_where_that_saves_a_page(paper: str, look: str, most: int) -> None:
    # pages were half blank: two answers to a page of plain Letter, one to most of bold A4
    asked = tuple(read_sum(text) for text in ("634-258", "71-48", "305-148"))
    cards = CardWishes(kinds=("tasks", "stories"), stage="both")
    press = Press(look=designs.look(look))
    request = Request(asked, fitted_paper(paper), parts=("cards",), cards=cards, press=press)
    kinds = [sheet.kind for sheet in laid_out(held(request), request).sheets]
    assert kinds.count(SheetKind.ANSWERS) <= most


@pytest.mark.parametrize(("words", "most"), [("en-GB", 3), ("es", 4)])
def test_a_long_note_in_large_type_stands_across_its_answer(words: str, most: int) -> None:
    # it ran down a column of 3 cm in twelve lines of one or two words, beside blank paper
    press = Press(look=designs.look("bold"), words=designs.words(words))
    asked = tuple(read_sum(text) for text in ("143-28", "43-17", "634-258", "305-148", "412-67"))
    request = Request(asked, fitted_paper("a4"), parts=("cards",), press=press)
    pages = [s for s in laid_out(held(request), request).sheets if s.kind is SheetKind.ANSWERS]
    found = [[i.content for i in page.items if isinstance(i.content, AnswerBox)] for page in pages]
    assert len(found) <= most
    note = set(press.words("answers.alike_note", answer=125).split())
    for box in (box for page in found for box in page):
        told = [i.content.text for i in box.face if isinstance(i.content, Line)]
        assert sum(set(text.split()) <= note for text in told) <= 5


def test_an_answer_alone_on_a_page_of_large_type_is_larger() -> None:
    press = Press(look=designs.look("bold"), words=designs.words("es"))
    asked = tuple(read_sum(text) for text in ("321-64", "43-17", "634-258", "305-148", "412-67"))
    request = Request(asked, fitted_paper("a4"), parts=("cards",), press=press)
    pages = [s for s in laid_out(held(request), request).sheets if s.kind is SheetKind.ANSWERS]
    found = [[i.content for i in page.items if isinstance(i.content, AnswerBox)] for page in pages]
    alone = [page[0].size for page in found if len(page) == 1]
    assert alone and all(size in GREAT for size in alone)


@pytest.mark.parametrize(
    ("typed", "paper", "stage"),
    [("634-258", "a3", "pieces"), ("5-1.999", "a4", "written"), ("3000-1275", "a3", "pieces")],
)
def test_few_answers_leave_no_third_of_their_page_blank(
    typed: str, paper: str, stage: Stage
) -> None:
    cards = CardWishes(kinds=("tasks",), stage=stage)
    request = Request((read_sum(typed),), fitted_paper(paper), parts=("cards",), cards=cards)
    (page,) = (s for s in laid_out(held(request), request).sheets if s.kind is SheetKind.ANSWERS)
    assert guards.blank_bands(draw_sheet(page, 1, Style(request.paper))) == []


def test_the_key_of_several_pupils_stands_under_its_heading_in_larger_type() -> None:
    # it floated 3 cm below, small, a third of the page blank
    style = Style(fitted_paper("a4"))
    asked = (("71-48", "305-148"), ("634-258", "604-167"), ("4053-1278", "9000-8765"))
    pupils = [Pupil(f"{n}", tuple(Task(read_sum(s)) for s in some)) for n, some in enumerate(asked)]
    page = answer_sheets(pupil_packs(pupils, CardWishes(), style.words), style)[0]
    said = {i.content.text: i for i in page.items if isinstance(i.content, Line)}
    head, first = (
        said[style.words("answers.key")],
        next(i for t, i in said.items() if t[:3] == "0: "),
    )
    assert head.rect.bottom < first.rect.y < head.rect.bottom + 4.0
    assert first.rect.height > 1.3 * said[style.words("answers.lead")].rect.height


def test_an_answer_alone_on_a_small_page_has_pieces_as_large_as_fit_beside_its_column() -> None:
    # The last of four had ones of 1 mm, the three before it ones of 2 mm and more.
    sheets = [s for s in ready_made("a5", look="bold") if s.kind is SheetKind.ANSWERS]
    boxes = [i.content for s in sheets for i in s.items if isinstance(i.content, AnswerBox)]
    ones = [i.content.unit for i in boxes[-1].face if isinstance(i.content, SmallPieces)]
    assert min(ones) > 1.5
