"""Arrow cards that stack, digits that lay any sum, and a record sheet to write on."""

from collections import Counter
from itertools import pairwise
from pathlib import Path

import pytest
from click.testing import CliRunner
from guards import is_light, small_type, words_apart
from layout.cards.test_card_sheets import freed, replay
from pdf_lines import page_texts

from kitbuilder.cli import main
from kitbuilder.design import load as designs
from kitbuilder.design.style import Style
from kitbuilder.draw.draw_sheet import draw_sheet
from kitbuilder.errors import RefusedError
from kitbuilder.kit.card_packs import arrow_numbers, kit_pack, loose_digits
from kitbuilder.kit.card_records import CardWishes, FactCard, RecordSheet, Task
from kitbuilder.layout.cards.fronts import front
from kitbuilder.layout.cards.small_cards import (
    PITCH,
    ArrowCard,
    arrow_sheets,
    digit_sheets,
    record_sheet,
)
from kitbuilder.layout.cards.small_help import below_digits, beside_arrows
from kitbuilder.layout.model import Item, Rect, Sheet, SheetKind
from kitbuilder.layout.parts.contents import Line
from kitbuilder.layout.parts.sheet_area import SheetArea
from kitbuilder.number import Sum
from kitbuilder.number.facts import Fact
from kitbuilder.number.written import columns
from kitbuilder.pipeline import build
from kitbuilder.request.request import Request, card_wish, fitted_paper, read_sum

A4 = Style(designs.paper("a4"))


def stacked(numbers: list[int]) -> str:
    """Lay arrow cards tip on tip, each on top of the one before, and read what is in sight."""
    placed = {
        item.content.number: (item.rect.width, item.content.face)
        for sheet in arrow_sheets(numbers, A4)
        for item in sheet.items
        if isinstance(item.content, ArrowCard)
    }
    tip = 100.0
    seen: list[tuple[float, float, str]] = []
    for number in numbers:
        width, face = placed[number]
        left = tip - width
        digits = [
            (left + part.rect.x, left + part.rect.right, part.content.text)
            for part in face
            if isinstance(part.content, Line)
        ]
        # a card hides what lies under it, from its left edge to the tip; no digit half
        for x, right, _ in seen:
            assert right <= left + 0.01 or x >= left - 0.01, "a digit is hidden in part"
        seen = [s for s in seen if s[1] <= left + 0.01] + digits
    places = [x for x, _, _ in sorted(seen)]
    assert all(b - a == pytest.approx(PITCH) for a, b in pairwise(places)), "evenly apart"
    return "".join(d for _, _, d in sorted(seen))


@pytest.mark.parametrize(
    ("numbers", "reads"),
    [([600, 30, 4], "634"), ([600, 4], "604"), ([9000, 900, 90, 9], "9999"), ([70, 1], "71")],
)
def test_stacked_arrow_cards_read_as_the_number(numbers: list[int], reads: str) -> None:
    assert stacked(numbers) == reads


def test_an_arrow_card_is_its_digits_and_its_tip() -> None:
    for sheet in arrow_sheets(arrow_numbers(4), A4):
        for item in sheet.items:
            if isinstance(item.content, ArrowCard):
                digits = len(str(item.content.number))
                assert item.rect.width == pytest.approx(digits * PITCH + item.content.tip)
                assert len(item.content.face) == digits


def test_arrow_cards_of_three_places_or_four() -> None:
    of_three = [d * p for p in (100, 10, 1) for d in range(1, 10)]
    assert list(arrow_numbers(2)) == list(arrow_numbers(3)) == of_three
    assert list(arrow_numbers(4)) == [d * 1000 for d in range(1, 10)] + of_three


@pytest.mark.parametrize("paper", ["a4", "letter", "a3"])
def test_straight_cuts_free_every_small_card(paper: str) -> None:
    sheets: list[Sheet] = [
        *arrow_sheets(arrow_numbers(4), Style(designs.paper(paper))),
        *digit_sheets("0123456789−=+" * 9, Style(designs.paper(paper))),
    ]
    for sheet in sheets:
        page = Rect(0, 0, sheet.width, sheet.height)
        rects = [item.rect for item in sheet.items if item.what.endswith("_card")]
        assert rects
        parts = replay(sheet.cuts, page)
        assert freed(rects, parts)
        inside = designs.paper(paper).margins_mm
        assert all(r.x >= inside.left and r.right <= sheet.width - inside.right for r in rects)


def test_digits_lay_the_written_columns_of_each_sum() -> None:
    sums = [Sum(634, 258), Sum(305, 148), Sum(777, 77), Sum(4021, 1356)]
    held = Counter(loose_digits(sums))
    assert held["−"] == held["="] == held["+"] == 1
    for sum_ in sums:
        marks = "".join(str(column.marks[-1]) for column in columns(sum_) if column.marks)
        needed = Counter(f"{sum_.whole}{sum_.part}{sum_.whole - sum_.part}{marks}")
        assert all(held[d] >= n for d, n in needed.items())
    # 777 − 77 = 700 lays six sevens at once, and no sum lays more
    assert held["7"] == 6


def test_all_kinds_come_in_order_with_their_words(tmp_path: Path) -> None:
    sums = (read_sum("634-258"),)
    wish = card_wish("record,digits,arrows,facts,tasks", "pieces", "separate")
    built = build(
        Request(sums, fitted_paper("a4"), parts=("cards",), cards=wish, name="cards"), tmp_path
    )
    titles = list(dict.fromkeys(sheet.kind for sheet in built.laid.sheets))
    kinds = ["task_cards", "fact_cards", "arrow_cards", "digit_cards", "record", "answers"]
    assert titles == ["cover", *kinds]
    texts = page_texts(tmp_path / "cards.pdf")
    page = next(n for n, s in enumerate(built.laid.sheets) if s.kind == "arrow_cards")
    digits = [d for d in texts[page] if d.isdigit()]
    assert Counter(digits) >= Counter("".join(map(str, arrow_numbers(3))))
    record = texts[titles.index(SheetKind.RECORD) + len(texts) - len(titles)]
    assert "Write your sums" in "".join(texts)
    assert record
    assert isinstance(built.laid.sheets[page].items[0], Item)


@pytest.mark.parametrize("kinds", ["arrows", "digits,record", "facts"])
def test_the_cover_speaks_only_of_what_is_printed(kinds: str, tmp_path: Path) -> None:
    args = ["cards", "71-48", "--out", str(tmp_path), "--kinds"]
    assert CliRunner().invoke(main, [*args, kinds]).exit_code == 0
    cover = page_texts(tmp_path / "cards.pdf")[0]
    assert "71" not in cover
    assert "Everything to build" not in cover
    assert CliRunner().invoke(main, [*args, f"tasks,{kinds}"]).exit_code == 0
    assert "71 − 48" in page_texts(tmp_path / "cards.pdf")[0]


def test_a_record_sheet_has_tens_where_no_sum_does() -> None:
    # Sums of one place have no exchange; a sheet to write sums on is for those that come next,
    # which begin with tens. As many columns as the largest whole has places, from two on.
    for whole, across in ((9, 2), (71, 2), (634, 3)):
        pack = kit_pack((Sum(whole, 4),), CardWishes(kinds=("record",)), designs.words())
        assert pack.record is not None
        words = (designs.words()(f"column.{place}") for place in ("ones", "tens", "hundreds"))
        assert pack.record.headings == tuple(words)[:across]


def test_a_task_that_was_read_from_no_table_has_a_line_that_no_table_has() -> None:
    assert Task(Sum(71, 48)).line == 0  # the lines of a table are counted from 1


def test_a_record_sheet_may_have_a_single_row() -> None:
    # Columns 14 mm wide are 68.6 mm high. Above them are 12 mm of margin, 12.5 of title and 5 of
    # space, below them 6.1 of foot and 12 of margin: 116.2 mm for a row, 190.8 with a second.
    record = RecordSheet("Record", ("O", "T", "H"))
    for high, rows in ((118, 1), (180, 1), (200, 2)):
        paper = designs.Paper("Low", 140, high, 10, "made up", designs.Margins(5, 5, 5, 5))
        items = record_sheet(record, Style(paper, look=designs.look())).items
        assert len({item.rect.y for item in items if item.what == "columns"}) == rows
    low = designs.Paper("Lower", 140, 100, 10, "made up", designs.Margins(5, 5, 5, 5))
    with pytest.raises(RefusedError, match="too small for a record sheet"):
        record_sheet(record, Style(low, look=designs.look()))


@pytest.mark.parametrize(
    ("paper", "words", "look"),
    [("a4", "en-GB", "plain"), ("a5", "es", "plain"), ("letter", "es", "bold")],
)
def test_what_is_left_of_a_sheet_shows_how_the_cards_are_laid(
    paper: str, words: str, look: str
) -> None:
    style = Style(fitted_paper(paper), designs.words(words), designs.look(look))
    arrows = list(arrow_sheets(arrow_numbers(3), style))
    digits = list(digit_sheets(loose_digits([Sum(43, 17)]), style))
    for number, sheet in enumerate((*arrows, *digits), 1):
        drawing = draw_sheet(sheet, number, style)
        assert words_apart(drawing) == [] and small_type(drawing) == []
    for sheets, key in ((arrows, "lay"), (digits, "digits")):
        said = " ".join(
            item.content.text
            for sheet in sheets
            for item in sheet.items
            if isinstance(item.content, Line)
        )
        assert style.words(f"small_cards.{key}") in said


@pytest.mark.parametrize(
    ("paper", "look"), [("a4", "plain"), ("letter", "bold"), ("a5", "plain"), ("a4", "outline")]
)
def test_arrow_cards_are_sparing_of_ink(paper: str, look: str) -> None:
    style = Style(fitted_paper(paper), look=designs.look(look))
    numbers = [digit * place for place in (100, 10, 1) for digit in range(1, 10)]
    for number, sheet in enumerate(arrow_sheets(numbers, style), 1):
        assert is_light(draw_sheet(sheet, number, style), 0.1)


def test_arrow_cards_are_cut_below_first_then_at_the_right_and_say_so() -> None:
    (sheet, *_) = arrow_sheets(arrow_numbers(3), A4)
    first = next(cut for cut in sheet.cuts if cut.x1 == cut.x2)
    assert first.x1 == max(item.rect.right for item in sheet.items if item.what == "arrow_card")
    said = " ".join(i.content.text for i in sheet.items if isinstance(i.content, Line))
    across = sheet.cuts[0]
    assert (across.x1, across.x2) == (0, sheet.width) and first.y2 == across.y1
    assert "Cut across below the cards, then down beside them." in said


def test_pictures_of_laid_cards_show_each_card_where_it_lies() -> None:
    # 305 is 300 and 5, one edge; the 3 of 13 stays over the 7, the 1 is slid in at its left.
    arrows = beside_arrows(Rect(0, 0, 60, 250), SheetArea.upright(A4.paper), A4)
    edges = Counter(item.rect.y for item in arrows if item.what == "rule")
    assert [edges[y] for y in sorted(edges)] == [2, 1]
    shown = [i.rect.x for i in below_digits(Rect(0, 0, 190, 150), A4) if i.what == "outline"]
    tens, one, ones, under, below = *shown[5:8], shown[9], shown[12]  # 4 3 1 7 −, then 3 1 3 1 7
    assert tens < one < ones == under == below


@pytest.mark.parametrize("look", ["plain", "bold"])
def test_a_fact_asks_for_its_answer_in_large_type_too(look: str) -> None:
    # The sum is set smaller rather than without "= □".
    style = Style(designs.paper("a4"), look=designs.look(look))
    card = FactCard(Fact(12, 9), ("Lay 12.",))
    face = front(card, Rect(0, 0, 138, 88), style)
    assert face and "answer_place" in {item.what for item in face}


def test_a_pupils_name_is_on_each_sheet_of_arrow_cards_and_digits() -> None:
    style = Style(designs.paper("a5"), designs.words("en-US"), designs.look("bold"))
    name = "Maximiliana of the Farthest Hill"
    sheets = [*arrow_sheets(arrow_numbers(3), style, name), *digit_sheets("123", style, name)]
    assert len(sheets) == 3
    for sheet in sheets:
        assert name in [i.content.text for i in sheet.items if isinstance(i.content, Line)]
