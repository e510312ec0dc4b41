"""The mini kit: one sum on the fewest sheets, with everything that teaches it tonight."""

import json
import re
from functools import cache
from pathlib import Path

import pytest
from click.testing import CliRunner
from grids import each, pairs, typed
from guards import (
    MOST_INK,
    blank_bands,
    counts_on_pieces,
    crowded_numbers,
    cut_through,
    faint_words,
    hiding_numbers,
    is_light,
    small_ones,
    small_type,
    words_apart,
    words_in_boxes,
    words_inside,
)
from hypothesis import given, settings
from hypothesis import strategies as st
from pdf_lines import page_texts

from kitbuilder.cli import main
from kitbuilder.design import load as designs
from kitbuilder.design.style import Style
from kitbuilder.draw.draw_sheet import draw_sheet
from kitbuilder.draw.primitives import Strokes
from kitbuilder.errors import RefusedError
from kitbuilder.kit import phrases
from kitbuilder.kit.card_records import CardWishes
from kitbuilder.kit.lesson.script import Taught
from kitbuilder.kit.mat_needs import MatWish, Zones
from kitbuilder.kit.tonight import mini_contents
from kitbuilder.layout.assemble import LaidOut
from kitbuilder.layout.cover.print_lists import ranges
from kitbuilder.layout.cutting.cut_marks import lettered_cuts
from kitbuilder.layout.cutting.verify_cuts import boxed, replay
from kitbuilder.layout.mini.mini_sheets import mini_sheets
from kitbuilder.layout.mini.tonight_steps import LEAST_ONE
from kitbuilder.layout.model import Item, Sheet, SheetKind
from kitbuilder.layout.parts.contents import Line, SmallPieces
from kitbuilder.layout.printable import Page
from kitbuilder.number import Sum
from kitbuilder.number.stock import stock
from kitbuilder.pipeline import build, held, laid_out
from kitbuilder.press.printing import Press
from kitbuilder.request.request import Request, fitted_paper, read_sum

WORDS, LOOK = designs.words(), designs.look()


def laid(sum_: Sum, paper: str, words: designs.Words = WORDS) -> LaidOut:
    fitted = fitted_paper(paper)
    kit = mini_contents(sum_, MatWish(), CardWishes(), words)
    found = mini_sheets(kit, Style(fitted, words, LOOK))
    for page, sheet in enumerate(found.sheets, 1):
        # its checks find words that run together
        draw_sheet(sheet, page, Style(fitted, words, LOOK))
    return found


@st.composite
def two_digit_sums(draw: st.DrawFn) -> Sum:
    whole = draw(st.integers(10, 99))
    return Sum(whole, draw(st.integers(0, whole)))


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("sum_", [Sum(43, 17), Sum(71, 48), Sum(85, 47)], ids=str)
def test_page_two_is_the_mat_as_a_rule(sum_: Sum, paper: str) -> None:
    first, mat, rest = laid(sum_, paper).sheets
    assert [first.kind, mat.kind, rest.kind] == ["mini", "mat", "mini"]
    assert [first.number, rest.number] == [1, 2]
    said = [i.content.text for i in first.items if isinstance(i.content, Line)]
    assert "mat: page 2; step 5: page 3" in said and "100 mm" in said


def test_a_page_of_steps_before_another_says_which_comes_next() -> None:
    first, second, *_ = laid(Sum(604, 167), "letter").sheets
    said = [
        [i.content.text for i in s.items if isinstance(i.content, Line)] for s in (first, second)
    ]
    assert "Step 5: next page" in said[0] and "pages 5–6: the mat" in said[1]


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize(
    ("words", "heads"), [("en-GB", ["tens", "ones"]), ("es", ["decenas", "unidades"])]
)
def test_columns_in_pictures_have_headings_and_counts(
    paper: str, words: str, heads: list[str]
) -> None:
    # As on the mat of the next page, the part below the whole.
    sheets = laid(Sum(43, 17), paper, designs.words(words)).sheets
    items = [item for s in sheets if s.kind == SheetKind.MINI for item in s.items]
    said = [i for i in items if isinstance(i.content, Line)]
    texts = [i.content.text for i in said if isinstance(i.content, Line)]
    assert [texts.count(head) for head in heads] == [8, 8]  # over the upper zone
    struck = [i.content.text for i in said if isinstance(i.content, Line) and i.content.struck]
    assert struck == ["3", "4", "13", "3", "6", "2", "13", "3"]
    loops = [i.rect for i in items if i.what == "loop"]
    boxes = [i.rect for i in items if i.what == "digit_box"]
    assert len(boxes) == 8
    assert not [box for box in boxes for loop in loops if box.inset(0.1).overlaps(loop)]


@settings(max_examples=15, deadline=None)
@given(two_digit_sums(), st.sampled_from(["a4", "letter"]))
def test_two_digits_take_two_pages_and_a_mat(sum_: Sum, paper: str) -> None:
    sheets = laid(sum_, paper).sheets
    kinds = [sheet.kind for sheet in sheets]
    # steps take one page where none is an exchange; many pieces leave no room for any below
    assert kinds[-2:] in (["mini", "mat"], ["mat", "mini"]) and len(kinds) <= 4
    assert kinds[0] == SheetKind.MINI
    assert [sheet.stock for sheet in sheets].count("card") == 1


# the fullest: 9 tens beside 18 ones (98 − 89: the stock of 98 is 9 tens and 18 ones)
# and 92 − 81, whose columns are too narrow for any but the plainest arrow
@pytest.mark.parametrize(
    ("sum_", "words", "paper"),
    pairs((Sum(98, 89), Sum(90, 89), Sum(92, 81)), designs.names("words"), ("a4", "letter")),
    ids=str,
)
def test_hard_sums_of_two_digits(sum_: Sum, words: str, paper: str) -> None:
    assert len(laid(sum_, paper, designs.words(words)).sheets) <= 4


@pytest.mark.parametrize(
    ("sum_", "kinds", "why"),
    [
        # eight steps: four fit a page with all their numbers, and 415 of 560 cells are pieces
        (Sum(305, 148), ["mini", "mini", "pieces", "mat", "mat"], "steps on two pages"),
        (Sum(634, 258), [*["mini"] * 2, "pieces", "pieces", "mat", "mat"], "744 cells"),
    ],
    ids=str,
)
def test_three_digits_take_few(sum_: Sum, kinds: list[str], why: str) -> None:
    assert [sheet.kind for sheet in laid(sum_, "a4").sheets] == kinds, why


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_every_page_has_a_ten_of_true_size_and_two_digits_take_three_sheets(paper: str) -> None:
    for sum_ in (Sum(43, 17), Sum(305, 148)):
        sheets = laid(sum_, paper, designs.words("es")).sheets  # the longest
        assert [any(i.what == "ruler" for i in sheet.items) for sheet in sheets] == [
            True for _ in sheets
        ]
        assert len(sheets) == 3 or sum_.places > 2


@pytest.mark.parametrize(("paper", "words", "look"), typed(("a4", "letter", "a5")))
def test_page_one_says_first_which_pages_are_printed_on_card_and_on_paper(
    paper: str, words: str, look: str
) -> None:
    style = Style(fitted_paper(paper), designs.words(words), designs.look(look))
    for sum_ in (Sum(43, 17), Sum(604, 167)):
        kit = mini_contents(sum_, MatWish(), CardWishes(), style.words)
        sheets = mini_sheets(kit, style).sheets
        pages: dict[str, list[int]] = {"card": [], "paper": []}
        for page, sheet in enumerate(sheets[1:], 2):
            pages[sheet.stock].append(page)
        card, paper_ = ranges(pages["card"]), ranges(pages["paper"])
        below = sheets[0].stock == "card"
        key = "mini.then_paper" if below else "mini.then"
        said = " ".join(_text(item) for item in sheets[0].items if _text(item))
        assert style.words(key, card=card, paper=paper_) in said, (sum_, said)
        first = phrases.length(style.words, "mini.print_card" if below else "mini.print", 100)
        assert first in said and any(item.what == "ruler" for item in sheets[0].items)


LOOKS = [
    ("43-17", "a4", "en-GB", "plain"),
    ("98-89", "letter", "es", "plain"),
    ("305-148", "letter", "en-US", "spare"),
    ("634-258", "a4", "es", "outline"),
    ("43-17", "a5", "es", "plain"),
    ("71-48", "letter", "es", "bold"),
    ("305-148", "a4", "en-GB", "bold"),
]


@pytest.mark.parametrize(("asked", "paper", "words", "look"), LOOKS)
def test_pages_for_tonight_are_read_at_a_glance(
    asked: str, paper: str, words: str, look: str
) -> None:
    style = Style(fitted_paper(paper), designs.words(words), designs.look(look))
    kit = mini_contents(read_sum(asked), MatWish(), CardWishes(), style.words)
    for number, sheet in enumerate(mini_sheets(kit, style).sheets, 1):
        if sheet.kind != SheetKind.MINI:
            continue
        drawing = draw_sheet(sheet, number, style)
        assert words_apart(drawing) == [] and words_inside(drawing) == []
        assert words_in_boxes(sheet) == [] and faint_words(drawing) == []
        assert cut_through(sheet.items) == []
        assert small_type(drawing) == [] and small_ones(sheet.items, LEAST_ONE) == []
        assert blank_bands(drawing) == []
        cut = sheet.stock == "card"  # pieces to cut stand on it
        assert is_light(drawing, 0.08 if cut else MOST_INK)
        zones = [item.rect for item in sheet.items if item.what == "zone"]
        below = zip(zones[::2], zones[1::2], strict=True)
        assert all(a.x == b.x and a.bottom < b.y for a, b in below), "as on the mat"


@pytest.mark.parametrize(
    ("paper", "steps"),
    [
        ("a4", [1, 2, 2, 2, 1]),
        ("letter", [1, 2, 2, 2, 1]),
        ("a5", [0, *[1] * 8]),  # the first page tells what to do first, and what helps
    ],
)
def test_large_type_has_heads_over_its_columns_and_pages_filled(
    paper: str, steps: list[int]
) -> None:
    style = Style(fitted_paper(paper), WORDS, designs.look("bold"))
    kit = mini_contents(Sum(634, 258), MatWish(), CardWishes(), WORDS)
    pages = [s for s in mini_sheets(kit, style).sheets if s.kind == SheetKind.MINI]
    assert [sum(i.what == "zone" for i in page.items) // 2 for page in pages] == steps
    for page, count in zip(pages, steps, strict=True):
        said = [i.content.text for i in page.items if isinstance(i.content, Line)]
        assert [said.count(head) for head in ("hundreds", "tens", "ones")] == [count] * 3
        assert small_ones(page.items, 2.1) == []
    helps = [any("424?" in _text(i) for i in page.items) for page in pages]
    assert [page for page, told in enumerate(helps) if told] == [
        steps.index(0) if 0 in steps else 4
    ]


def test_one_step_alone_on_a_page_of_large_type_has_pictures_of_a_size() -> None:
    """Its picture is as wide as can be, and a lower one was no narrower: a division by nothing."""
    style = Style(fitted_paper("a4"), WORDS, designs.look("bold"))
    kit = mini_contents(Sum(41, 4), MatWish(), CardWishes(), WORDS)
    pages = [s for s in mini_sheets(kit, style).sheets if s.kind == SheetKind.MINI]
    assert [sum(i.what == "zone" for i in page.items) // 2 for page in pages] == [2, 4, 1]


OF_MANY_SIZES = (
    *("72-48", "81-36", "92-57", "53-27", "62-35", "34-16", "70-24", "98-89"),
    *("305-148", "431-257", "604-167", "4.2-1.8"),
)
MADE = (("en-GB", "a4"), ("en-US", "letter"), ("es", "a4"))


@cache
def _pages(asked: str, style: Style) -> list[Sheet]:
    """Return the pages to read of the kit for tonight."""
    press = Press(look=style.look, words=style.words)
    request = Request((read_sum(asked),), style.paper, press=press, mini=True)
    sheets = laid_out(held(request), request).sheets
    return [sheet for sheet in sheets if sheet.kind == SheetKind.MINI]


@pytest.mark.parametrize("made", MADE, ids=" ".join)
def test_no_rule_runs_through_steps_and_nothing_lies_on_what_is_said(made: tuple[str, str]) -> None:
    # a foot of two lines left 72 - 48 in large type 7 mm less than was reckoned
    words, paper = made
    hard = ("72-48", made, "bold")
    turned = (*MADE[1:], MADE[0])
    several = (*each(OF_MANY_SIZES, MADE, ("bold",)), *each(OF_MANY_SIZES, turned, ("plain",)))
    for asked, there, look in (hard, *several):
        style = Style(fitted_paper(paper), designs.words(words), designs.look(look))
        for page in _pages(asked, style) if there == made else ():
            assert cut_through(page.items) == [], (asked, look, page.number)
            assert counts_on_pieces(page.items) == [], (asked, look, page.number)


@pytest.mark.parametrize(
    ("asked", "paper", "words"),
    [(a, *made) for a, made in each(("305-148", "431-257"), (("a4", "en-GB"), ("letter", "es")))],
)
def test_pictures_of_large_type_fill_their_pages_and_arrows_of_exchanges_lie_off_pieces(
    asked: str, paper: str, words: str
) -> None:
    # side by side pieces were a third smaller, and arrows lay inside what is exchanged
    style = Style(fitted_paper(paper), designs.words(words), designs.look("bold"))
    for page in _pages(asked, style):
        assert small_ones(page.items, 2.7) == [] and hiding_numbers(page.items) == []
        # the number of hundreds stood on the ring round one
        assert crowded_numbers(page.items, 0.2) == [], page.number
        bubbles = [item.rect.bottom for item in page.items if item.what == "bubble"]
        for below in (item.rect.y for item in page.items if item.what == "step_number"):
            assert not [end for end in bubbles if below - 1.99 < end < below + 1], page.number
        pieces = [
            rect.moved(item.rect.x, item.rect.y)
            for item in page.items
            if isinstance(item.content, SmallPieces)
            for rect in item.content.rects
        ]
        for item in page.items:
            if item.what == "arrow" and item.rect.height < 0.1:
                assert item.rect.width > 5, page.number
                assert not any(item.rect.overlaps(piece, 0.005) for piece in pieces), page.number


@pytest.mark.parametrize(
    ("asked", "paper", "words", "look"),
    [
        ("72-48", "letter", "es", "bold"),
        ("72-48", "letter", "en-US", "bold"),
        ("92-57", "a4", "es", "bold"),
        ("4.2-1.8", "a4", "en-GB", "bold"),
        ("98-89", "letter", "es", "spare"),
        ("43-17", "a5", "en-GB", "spare"),
        ("305-148", "a5", "en-US", "bold"),  # page 1 has no step, nor room for all that helps
    ],
)
def test_what_marks_mean_and_what_helps_always_stand_on_a_page(
    asked: str, paper: str, words: str, look: str
) -> None:
    style = Style(fitted_paper(paper), designs.words(words), designs.look(look))
    said = "".join(_texts(asked, style)).replace(" ", "")
    for key in ("legend.gone", "legend.bank", "mini.wrong", "mini.on"):
        assert style.words(key).replace(" ", "") in said, key


@pytest.mark.parametrize(
    ("asked", "paper", "words", "look"),
    [
        ("72-48", "letter", "es", "bold"),
        ("81-36", "letter", "en-US", "bold"),
        ("98-89", "letter", "en-US", "bold"),
        ("43-17", "a4", "en-GB", "plain"),
    ],
)
def test_page_one_tells_what_its_marks_mean_or_where_that_stands(
    asked: str, paper: str, words: str, look: str
) -> None:
    style = Style(fitted_paper(paper), designs.words(words), designs.look(look))
    pages = _texts(asked, style)
    new, needed, gone = (style.words(f"legend.{mark}") for mark in ("new", "needed", "gone"))
    page = next(number for number, said in enumerate(pages, 1) if gone in said)
    there = style.words("mini.signs", page=page)
    assert (new in pages[0] and needed in pages[0]) or there in pages[0]


def test_a_page_of_steps_before_the_signs_tells_where_they_stand() -> None:
    style = Style(fitted_paper("letter"), designs.words("en-US"), designs.look("bold"))
    pages = _texts("72-48", style)
    assert "Step 7: next page; signs: page 3" in pages[1]
    assert style.words("legend.gone") in pages[2]


def _texts(asked: str, style: Style) -> list[str]:
    return [" ".join(map(_text, page.items)) for page in _pages(asked, style)]


def _text(item: Item) -> str:
    return item.content.text if isinstance(item.content, Line) else ""


@pytest.mark.parametrize(
    ("sum_", "arrangement"), each((Sum(43, 17), Sum(305, 148)), ("three", "beside")), ids=str
)
def test_pictures_show_mats_of_three_zones(sum_: Sum, arrangement: Zones) -> None:
    kit = mini_contents(sum_, MatWish(arrangement=arrangement), CardWishes(), WORDS)
    style = Style(fitted_paper("a4"), WORDS, LOOK)
    pages = [s for s in mini_sheets(kit, style).sheets if s.kind == SheetKind.MINI]
    for number, sheet in enumerate(pages, 1):
        drawing = draw_sheet(sheet, number, style)
        assert words_apart(drawing) == [] and small_ones(sheet.items, LEAST_ONE) == []
    zones = sum(item.what == "zone" for sheet in pages for item in sheet.items)
    assert zones == 8 * 3


def test_every_step_of_the_lesson_is_there_in_order() -> None:
    sum_ = Sum(43, 17)
    kit = mini_contents(sum_, MatWish(), CardWishes(), WORDS)
    (lesson,) = kit.guide
    assert isinstance(lesson, Taught) and len(lesson.steps) == 8
    pages = [sheet for sheet in laid(sum_, "a4").sheets if sheet.kind == SheetKind.MINI]
    items = [item for page in pages for item in page.items]
    said = [item.content.text for item in items if isinstance(item.content, Line)]
    titles = [step.title for step in lesson.steps]
    assert [text for text in said if text in titles] == titles
    assert len(pages) == 2  # half of the steps below the pieces
    pictures = [i.content.unit for i in pages[1].items if isinstance(i.content, SmallPieces)]
    assert min(pictures) >= 2.7


@pytest.mark.parametrize("sum_", [Sum(42, 17), Sum(71, 48), Sum(305, 148), Sum(634, 258)], ids=str)
def test_the_pieces_are_the_stock_and_the_cuts_free_them(sum_: Sum) -> None:
    found = laid(sum_, "a4")
    held = dict.fromkeys(("hundreds", "tens", "ones"), 0)
    for sheet in found.sheets:
        parts = replay(Page.sized(sheet.width, sheet.height, 5, 5, 5, 5), sheet.cuts)
        for item in sheet.items:
            if item.what in held:
                held[item.what] += 1
                assert boxed(item.rect) in parts
    needed = stock([sum_])
    assert tuple(held.values()) == (needed.hundreds, needed.tens, needed.ones)


@pytest.mark.parametrize(
    ("sum_", "paper", "page"),
    [(Sum(52, 38), "a4", 0), (Sum(634, 258), "letter", 3), (Sum(634, 258), "a5", 10)],
)
def test_what_falls_off_in_the_size_of_a_ten_is_hatched(sum_: Sum, paper: str, page: int) -> None:
    # between thick lines it was one ten more than is told
    found = laid(sum_, paper)
    assert found.cutting
    unit = found.cutting.unit_mm
    (hatched,) = (i.rect for i in found.sheets[page].items if i.what == "hatch")
    assert max(hatched.width, hatched.height) > 9 * unit
    falls = [
        node.rect for one in found.cutting.cut_sheets for node in one.root.ends() if node.falls
    ]
    assert any(rect.holds(hatched) for rect in falls)
    assert not any(i.what == "hatch" for i in laid(Sum(43, 17), paper).sheets[0].items)


def test_the_lines_that_are_cut_first_run_from_edge_to_edge() -> None:
    sheet = laid(Sum(43, 17), "a4").sheets[0]
    drawing = draw_sheet(sheet, 1, Style(fitted_paper("a4"), WORDS, LOOK))
    first = [cut for _, cut in lettered_cuts(sheet)]
    # the foot is cut across the page, three lines run from its top down to that cut
    assert [(cut.x1, cut.x2) for cut in first[:1]] == [(0, 210)]
    assert {(cut.y1, cut.y2) for cut in first[1:]} == {(0, first[0].y1)} and len(first) == 4
    drawn = [
        line
        for mark in drawing.marks
        if isinstance(mark, Strokes) and mark.width == LOOK.lines_mm.cut
        for line in mark.lines
    ]
    for cut in first:
        if cut.y1 == cut.y2:
            spans = [(a, b) for a, y, b, z in drawn if abs(y - cut.y1) + abs(z - cut.y1) < 0.01]
            ends = (cut.x1, cut.x2)
        else:
            spans = [(a, b) for x, a, z, b in drawn if abs(x - cut.x1) + abs(z - cut.x1) < 0.01]
            ends = (cut.y1, cut.y2)
        reach = ends[0]
        for start, end in sorted((min(s), max(s)) for s in spans):
            assert start <= reach + 0.01, cut
            reach = max(reach, end)
        assert reach >= ends[1] - 0.01, cut


def test_the_first_page_tells_how_to_teach_the_sum(tmp_path: Path) -> None:
    build(Request((Sum(42, 17),), fitted_paper("letter"), mini=True), tmp_path)
    first, mat, rest = page_texts(tmp_path / "kit.pdf")
    cut = "every thick line, never a thin one. You get 4 tens and 12 ones."
    for said in ("Build only 42.", "100 mm", cut, "under threes"):
        assert said in " ".join(first.split())
    assert "Push them together." in rest and "page 2: the mat" in rest
    assert "the part" in mat
    record = json.loads((tmp_path / "kit.json").read_text())
    assert record["pieces"] == {"hundreds": 0, "tens": 4, "ones": 12}
    assert [sheet["stock"] for sheet in record["sheets"]] == ["card", "paper", "paper"]


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("sum_", [Sum(71, 48), Sum(634, 278)], ids=str)
def test_what_to_do_about_a_wrong_answer_is_told(sum_: Sum, paper: str) -> None:
    said = " ".join(_said(laid(sum_, paper)))
    # smaller from larger, by hand: |1 − 8| = 7, 7 − 4 = 3; |4 − 8| = 4, |3 − 7| = 4, 6 − 2 = 4
    turned = {71: 37, 634: 444}[sum_.whole]
    assert f"{turned}? Build {sum_.whole} again" in said
    assert "“Which pieces did you take out?”" in said


def test_a_sum_without_exchange_has_no_smaller_from_larger() -> None:
    said = " ".join(_said(laid(Sum(78, 41), "a4")))
    assert "Do not tell." in said and "A new sum when" in said
    assert "Which pieces" not in said


def _said(found: LaidOut) -> list[str]:
    texts = (item.content for sheet in found.sheets for item in sheet.items)
    return [text.text for text in texts if isinstance(text, Line)]


@pytest.mark.parametrize(
    ("args", "says"),
    [
        ("71-48 42-17", "--mini is for one sum"),
        ("71-48 --children 2", "leave out a class set"),
        ("71-48 --within 100", "leave out --within"),
        ("71-48 --only mats", "leave out --only"),
        ("71-48 --spares 5", "leave out --spares"),
        ("71-48 --sturdy fold", "leave out --sturdy"),
        ("71-48 --kinds digits", "leave out --kinds"),
        ("71-48 --mat add", "leave out --mat, or let it hold subtract"),
        ("wishes.toml", "leave out --cutter"),
        ("sums.toml", "but 2 were given"),
    ],
)
def test_a_mini_kit_is_for_one_sum(args: str, says: str, tmp_path: Path) -> None:
    (tmp_path / "wishes.toml").write_text('sums = ["71 - 48"]\ncutter = "0.5"\n')
    (tmp_path / "sums.toml").write_text('sums = ["71 - 48", "42 - 17"]\n')
    args = " ".join(str(tmp_path / a) if a.endswith(".toml") else a for a in args.split())
    out = ["--mini", "--out", str(tmp_path / "k")]
    result = CliRunner().invoke(main, ["kit", *args.split(), *out])
    assert (result.exit_code, result.stderr.count("\n")) == (2, 1)
    assert says in result.stderr


def test_a_page_without_pieces_is_paper(tmp_path: Path) -> None:
    result = CliRunner().invoke(main, ["kit", "--mini", "402-357", "--out", str(tmp_path)])
    assert result.exit_code == 0
    sheets = json.loads((tmp_path / "kit.json").read_text())["sheets"]
    stocks = {(sheet["title"], sheet["stock"]) for sheet in sheets[:4]}
    assert {("Pieces", "card"), ("For tonight", "paper")} <= stocks


def test_without_a_sum_of_ones_own_it_is_the_ready_made_kits_first(tmp_path: Path) -> None:
    result = CliRunner().invoke(main, ["kit", "--mini", "--out", str(tmp_path)])
    assert result.exit_code == 0
    assert json.loads((tmp_path / "kit.json").read_text())["sums"] == [
        {"whole": 43, "part": 17, "rest": 26}
    ]


def test_what_does_not_fit_is_refused() -> None:
    with pytest.raises(RefusedError, match="choose --paper a5"):
        build(Request((Sum(634, 278),), fitted_paper("110x150mm", 5, 5), mini=True), Path("never"))


def test_a_refusal_names_what_works(tmp_path: Path) -> None:
    words, says = "634-278 --paper 110x150mm --unit 5 --look bold", "choose --paper a5."
    asked = ["kit", "--mini", *words.split(), "--out", str(tmp_path)]
    result = CliRunner().invoke(main, asked)
    assert result.exit_code == 2
    assert result.stderr.strip().endswith(says)
    for option, value in re.findall(r"(--\w+) (\w+)", says):
        works = CliRunner().invoke(main, [*asked, option, value])
        assert works.exit_code == 0


@pytest.mark.parametrize("language", ["en-GB", "en-US", "es"])
@pytest.mark.parametrize("sum_", [Sum(95, 76), Sum(96, 59)], ids=str)
def test_smaller_from_larger_is_told_of_where_room_is_scarcest(sum_: Sum, language: str) -> None:
    words = designs.words(language)
    kit = mini_contents(sum_, MatWish(), CardWishes(), words)
    found = mini_sheets(kit, Style(fitted_paper("letter"), words, LOOK))
    turned = sum(abs(a - b) * 10**k for k, (a, b) in enumerate(zip(*_digits(sum_), strict=True)))
    assert any(f"{turned}?" in said for said in _said(found))


def _digits(sum_: Sum) -> tuple[list[int], list[int]]:
    return [int(d) for d in str(sum_.whole)[::-1]], [int(d) for d in str(sum_.part)[::-1]]


def test_page_one_names_the_first_cuts_that_every_sheet_has() -> None:
    for sum_, cuts in ((Sum(604, 167), "A, B and C"), (Sum(71, 48), "A, B, C and D")):
        sheets = laid(sum_, "a4").sheets
        assert f"Cut {cuts}, then" in " ".join(map(_text, sheets[0].items))
        for sheet in (sheet for sheet in sheets if sheet.stock == "card"):
            assert set("ABCD") & set(cuts) <= {letter for letter, _ in lettered_cuts(sheet)}


@pytest.mark.parametrize(
    ("asked", "paper", "look", "named"),
    [
        ("305-148", "a4", "plain", "glue or tape: the mat, pages 4–5"),
        ("431-257", "a4", "bold", "glue or tape: the mat, pages 7–8"),
        ("72-48", "letter", "bold", "glue or tape: the mat, pages 4–5"),
        ("98-89", "a4", "bold", "mat: page 2"),
        ("431-257", "a3", "plain", "page 4: the mat"),
    ],
)
def test_page_one_says_what_is_glued_and_on_which_pages_the_mat_is(
    asked: str, paper: str, look: str, named: str
) -> None:
    style = Style(fitted_paper(paper), WORDS, designs.look(look))
    assert named in _texts(asked, style)[0]


@pytest.mark.parametrize("look", ["spare", "bold"])
def test_what_is_done_first_stands_in_rows_where_its_words_are_too_wide(look: str) -> None:
    """A long word of Spanish on A5 was refused."""
    press = Press(look=designs.look(look), words=designs.words("es"))
    request = Request((Sum(71, 48),), fitted_paper("a5"), press=press, mini=True)
    assert laid_out(held(request), request).sheets


@pytest.mark.parametrize("margin", [8.0, 9.0, 13.0])
def test_a_page_number_stays_within_wide_margins(margin: float, tmp_path: Path) -> None:
    # A cover says to make the kit again with margins of 10 mm, and a printer may leave more.
    for sum_ in ("53-27", "604-167"):
        given = ("kit", "--mini", sum_, "--margin", str(margin), "--out", str(tmp_path))
        done = CliRunner().invoke(main, given)
        assert done.exit_code == 0, done.output
