"""The mini kit: one sum on the fewest sheets, with everything that teaches it tonight."""

import json
import re
from pathlib import Path

import pytest
from click.testing import CliRunner
from hypothesis import given, settings
from hypothesis import strategies as st
from pdf_lines import page_texts

from kitbuilder.cli import main
from kitbuilder.design import load as designs
from kitbuilder.design.style import Style
from kitbuilder.draw.draw_sheet import draw_sheet
from kitbuilder.draw.marks import Strokes
from kitbuilder.errors import RefusedError
from kitbuilder.kit.card_records import CardWishes
from kitbuilder.kit.mat_needs import MatWish
from kitbuilder.kit.records import Say
from kitbuilder.kit.tonight import mini_contents
from kitbuilder.layout.assemble import LaidOut
from kitbuilder.layout.cutting.verify_cuts import boxed, replay
from kitbuilder.layout.mini.mini_sheets import mini_sheets
from kitbuilder.layout.mini.step_words import with_help
from kitbuilder.layout.model import Rect
from kitbuilder.layout.page import Page
from kitbuilder.layout.text.flow import TextBlock
from kitbuilder.number import Sum
from kitbuilder.number.stock import stock
from kitbuilder.pipeline import build
from kitbuilder.request.request import Request, fitted_paper

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


@settings(max_examples=15, deadline=None)
@given(two_digit_sums(), st.sampled_from(["a4", "letter"]))
def test_two_digits_take_two_sheets(sum_: Sum, paper: str) -> None:
    assert [sheet.kind for sheet in laid(sum_, paper).sheets] == ["mini", "mat"]


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("words", designs.names("words"))
# the fullest: 9 tens beside 18 ones (98 − 89: the stock of 98 is 9 tens and 18 ones)
@pytest.mark.parametrize("sum_", [Sum(98, 89), Sum(90, 89)], ids=str)
def test_hard_sums_of_two_digits(sum_: Sum, words: str, paper: str) -> None:
    assert len(laid(sum_, paper, designs.words(words)).sheets) == 2


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("sum_", [Sum(98, 19), Sum(71, 48), Sum(20, 11), Sum(11, 11)], ids=str)
def test_other_sums_of_two_digits(sum_: Sum, paper: str) -> None:
    assert len(laid(sum_, paper).sheets) == 2


@pytest.mark.parametrize(
    ("sum_", "kinds", "why"),
    [
        # 100 ones' worth of pieces and twelve steps: 122 cells and a card leave room for six steps
        (Sum(122, 3), ["mini", "mat", "mat"], "one hundred, two tens and twelve ones leave room"),
        (Sum(305, 148), ["mini", "pieces", "mat", "mat"], "415 of 560 cells: no room for steps"),
        (Sum(634, 258), ["mini", "mini", "pieces", "mat", "mat"], "744 cells need two sheets"),
    ],
    ids=str,
)
def test_three_digits_take_as_few_as_can_be(sum_: Sum, kinds: list[str], why: str) -> None:
    assert [sheet.kind for sheet in laid(sum_, "a4").sheets] == kinds, why


@pytest.mark.parametrize("sum_", [Sum(305, 148), Sum(634, 258)], ids=str)
def test_the_number_of_sheets_and_its_reason_are_printed(sum_: Sum, tmp_path: Path) -> None:
    build(Request((sum_,), fitted_paper("a4"), mini=True), tmp_path)
    record = json.loads((tmp_path / "kit.json").read_text())
    kinds = [sheet["kind"] for sheet in record["sheets"]]
    # Squares of 10 mm on 200 mm by 287 mm: 20 by 28, by area alone never more than 560 on a sheet.
    squares = sum(
        record["pieces"][what] * size
        for what, size in (("hundreds", 100), ("tens", 10), ("ones", 1))
    )
    least, mats = -(-squares // 560), kinds.count("mat")
    assert len(kinds) == least + mats + 1
    said = " ".join(page_texts(tmp_path / "kit.pdf")[0].split())
    assert f"{len(kinds)} sheets, as few as can be: {least} for the pieces, {mats} for" in said
    assert "1 because the steps do not fit beside the pieces" in said


@pytest.mark.parametrize("sum_", [Sum(42, 17), Sum(305, 148), Sum(634, 258)], ids=str)
def test_the_pieces_are_the_stock_and_the_cuts_free_them(sum_: Sum) -> None:
    found = laid(sum_, "a4")
    held = dict.fromkeys(("hundreds", "tens", "ones"), 0)
    for sheet in found.sheets:
        parts = replay(Page.sized(sheet.width, sheet.height, 5, 5, 5, 5), sheet.cuts)
        for item in sheet.items:
            if item.what in held:
                held[item.what] += 1
                assert boxed(item.rect) in parts
            elif item.what == "task_card":
                assert boxed(item.rect) in parts
    needed = stock([sum_])
    assert tuple(held.values()) == (needed.hundreds, needed.tens, needed.ones)


def test_the_first_page_tells_how_to_teach_the_sum(tmp_path: Path) -> None:
    build(Request((Sum(42, 17),), fitted_paper("letter"), mini=True), tmp_path)
    first, mat = page_texts(tmp_path / "kit.pdf")
    for said in (
        "Build 42.",
        "Take out 17.",
        "100 mm long",
        "fetch 10 ones",
        "under three",
    ):
        assert said in " ".join(first.split())
    assert "the part" in mat
    record = json.loads((tmp_path / "kit.json").read_text())
    assert record["pieces"] == {"hundreds": 0, "tens": 4, "ones": 12}
    assert [sheet["stock"] for sheet in record["sheets"]] == ["card", "paper"]


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("sum_", [Sum(71, 48), Sum(634, 278)], ids=str)
def test_what_to_do_about_a_wrong_answer_is_told(sum_: Sum, paper: str) -> None:
    said = " ".join(_said(laid(sum_, paper)))
    # smaller from larger, by hand: |1 − 8| = 7, 7 − 4 = 3; |4 − 8| = 4, |3 − 7| = 4, 6 − 2 = 4
    turned = {71: 37, 634: 444}[sum_.whole]
    assert f"{turned}? The digits were turned. Build {sum_.whole} again" in said
    assert "“Take 8 ones out of these ones.”" in said
    assert "A wrong answer? Do not tell." in said
    assert "Go on to a new sum when" in said
    assert "Always cut from edge to edge of the part in your hand, long lines first." in said


def test_a_sum_without_exchange_has_no_digits_to_turn() -> None:
    said = " ".join(_said(laid(Sum(78, 41), "a4")))
    assert "A wrong answer? Do not tell." in said
    assert "turned" not in said


def test_where_there_is_no_room_the_last_help_is_left_out_first() -> None:
    def told(high: float) -> list[str]:
        spoken = with_help(Rect(0, 0, 180, high), (), (), help_, LOOK)
        assert spoken is not None
        texts = [" ".join(item.content.lines) for item in spoken.items]  # type: ignore[attr-defined]
        assert all(item.rect.bottom <= high for item in spoken.items)
        assert {*texts, *(say.text for say in spoken.left)} == {say.text for say in help_}
        return texts

    help_ = [Say("step", text, "–") for text in ("of middle length", "short", "the longest of all")]
    # a line is 1.4 · 4.2 = 5.88 mm high, 0.8 mm stand after it, 3 before the first, 1 above
    assert told(4.2 + 3 * 6.7) == ["of middle length", "short", "the longest of all"]
    assert told(4.2 + 2 * 6.7) == ["of middle length", "short"]
    assert told(4.2 + 6.7) == ["of middle length"]
    assert told(5.0) == []


def test_cuts_of_a_mini_kit_are_much_wider_than_its_grid(tmp_path: Path) -> None:
    found = laid(Sum(71, 48), "a4")
    drawing = draw_sheet(found.sheets[0], 1, Style(fitted_paper("a4"), WORDS, LOOK))
    strokes = [mark for mark in drawing.marks if isinstance(mark, Strokes)]
    cuts = [mark.width for mark in strokes if mark.layer == "cut"]
    grids = [mark.width for mark in strokes if mark.colour == LOOK.ink.grid]
    assert min(cuts) > 4 * max(grids)


def _said(found: LaidOut) -> list[str]:
    texts = (item.content for sheet in found.sheets for item in sheet.items)
    return [" ".join(text.lines) for text in texts if isinstance(text, TextBlock)]


@pytest.mark.parametrize(
    ("args", "says"),
    [
        ("71-48 42-17", "--mini is for one sum"),
        ("71-48 --kits 2", "leave out a class set"),
        ("71-48 --within 100", "leave out --within"),
        ("71-48 --only mats", "leave out --only"),
        ("71-48 --same-sheets", "leave out --same-sheets"),
        ("71-48 --sturdy fold", "leave out --sturdy"),
        ("71-48 --kinds digits", "leave out --kinds"),
        ("71-48 --mats add", "leave out --mats, or let it hold subtract"),
        ("wishes.toml", "leave out --kerf"),
        ("sums.toml", "but 2 were given"),
    ],
)
def test_a_mini_kit_is_for_one_sum(args: str, says: str, tmp_path: Path) -> None:
    (tmp_path / "wishes.toml").write_text('sums = ["71 - 48"]\nkerf = 0.5\n')
    (tmp_path / "sums.toml").write_text('sums = ["71 - 48", "42 - 17"]\n')
    args = " ".join(str(tmp_path / a) if a.endswith(".toml") else a for a in args.split())
    out = ["--mini", "--out", str(tmp_path / "k")]
    result = CliRunner().invoke(main, ["kit", *args.split(), *out])
    assert (result.exit_code, result.stderr.count("\n")) == (2, 1)
    assert says in result.stderr


def test_a_page_without_pieces_is_paper(tmp_path: Path) -> None:
    # Four hundreds take a sheet of their own, so the first page holds card and steps alone; it
    # says that the pages with pieces are printed on card.
    result = CliRunner().invoke(main, ["kit", "--mini", "402-357", "--out", str(tmp_path)])
    assert result.exit_code == 0
    sheets = json.loads((tmp_path / "kit.json").read_text())["sheets"]
    assert [(sheet["title"], sheet["stock"]) for sheet in sheets[:2]] == [
        ("For tonight", "paper"),
        ("Pieces", "card"),
    ]


def test_without_a_sum_of_ones_own_it_is_the_ready_made_kits_first(tmp_path: Path) -> None:
    result = CliRunner().invoke(main, ["kit", "--mini", "--out", str(tmp_path)])
    assert result.exit_code == 0
    assert json.loads((tmp_path / "kit.json").read_text())["sums"] == [
        {"whole": 43, "part": 17, "rest": 26}
    ]


def test_what_does_not_fit_is_refused() -> None:
    with pytest.raises(RefusedError, match="choose --paper a4"):
        build(Request((Sum(98, 89),), fitted_paper("125x150mm", unit=5), mini=True), Path("never"))


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ("71-48 --look bold --paper a5", "choose --look plain or --paper a4."),
        ("634-278 --paper a5", "choose --paper a4."),
    ],
)
def test_a_refusal_names_what_works(words: str, says: str, tmp_path: Path) -> None:
    asked = ["kit", "--mini", *words.split(), "--out", str(tmp_path)]
    result = CliRunner().invoke(main, asked)
    assert result.exit_code == 2
    assert result.stderr.strip().endswith(says)
    for option, value in re.findall(r"(--\w+) (\w+)", says):
        works = CliRunner().invoke(main, [*asked, option, value])
        assert works.exit_code == 0


@pytest.mark.parametrize("language", ["en-GB", "en-US", "es"])
@pytest.mark.parametrize("sum_", [Sum(95, 76), Sum(96, 59)], ids=str)
def test_turned_digits_are_told_of_where_room_is_scarcest(sum_: Sum, language: str) -> None:
    words = designs.words(language)
    kit = mini_contents(sum_, MatWish(), CardWishes(), words)
    found = mini_sheets(kit, Style(fitted_paper("letter"), words, LOOK))
    turned = sum(abs(a - b) * 10**k for k, (a, b) in enumerate(zip(*_digits(sum_), strict=True)))
    assert len(found.sheets) == 2
    assert any(f"{turned}?" in said for said in _said(found))


def _digits(sum_: Sum) -> tuple[list[int], list[int]]:
    return [int(d) for d in str(sum_.whole)[::-1]], [int(d) for d in str(sum_.part)[::-1]]
