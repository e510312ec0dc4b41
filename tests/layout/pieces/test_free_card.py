"""Card that would fall off beside the pieces bears a card for sums of one's own."""

import json
from dataclasses import replace
from itertools import combinations
from pathlib import Path

import pytest
from click.testing import CliRunner
from ready_made import ready_made
from samples import PLAN

from kitbuilder.cli import main
from kitbuilder.design import load as designs
from kitbuilder.kit.records import CutWish
from kitbuilder.layout.model import Sheet, SheetKind
from kitbuilder.layout.parts.contents import Line
from kitbuilder.layout.printable import Page
from kitbuilder.number import Pieces
from kitbuilder.pipeline import held, laid_out
from kitbuilder.press.printing import Press, fitted_paper
from kitbuilder.request.request import Request, read_sum

SUMS = tuple(read_sum(text) for text in ("43-17", "431-257", "305-148"))


def piece_sheets(paper: str, cutting: CutWish = CutWish()) -> list[Sheet]:
    request = Request(SUMS, fitted_paper(paper), cutting=cutting)
    sheets = laid_out(held(request), request).sheets
    return [sheet for sheet in sheets if sheet.kind is SheetKind.PIECES]


def test_half_a_sheet_of_letter_bears_a_card_clear_of_every_cut() -> None:
    first, second = piece_sheets("letter")
    assert not [item for item in first.items if item.what == "card_frame"]
    (card,) = [item.rect for item in second.items if item.what == "card_frame"]
    assert Page.upright(fitted_paper("letter")).inside.holds(card)
    for cut in second.cuts:
        across = min(cut.x1, cut.x2) < card.right and max(cut.x1, cut.x2) > card.x
        down = min(cut.y1, cut.y2) < card.bottom and max(cut.y1, cut.y2) > card.y
        assert not (across and down), cut
    assert not [i for i in second.items if i.what in ("tens", "ones") and i.rect.overlaps(card)]


@pytest.mark.parametrize(
    ("paper", "cutting"), [("a4", CutWish()), ("letter", CutWish(layers=2)), ("letter", CutWish(2))]
)
def test_full_sheets_and_class_sets_bear_none(paper: str, cutting: CutWish) -> None:
    items = [item.what for sheet in piece_sheets(paper, cutting) for item in sheet.items]
    assert "card_frame" not in items


@pytest.mark.parametrize(
    ("sum_", "paper", "kits", "count"),
    [("4002-1768", "a4", 1, 2), ("4002-1768", "letter", 12, 3), ("52-24", "letter", 12, 3)],
)
def test_what_falls_off_of_the_exchange_cards_bears_cards(
    sum_: str, paper: str, kits: int, count: int
) -> None:
    """Below them and beside them, each as often as it fits."""
    request = Request((read_sum(sum_),), fitted_paper(paper), cutting=CutWish(kits))
    request = replace(request, parts=("pieces", "cards"))
    sheets = laid_out(held(request), request).sheets
    (sheet,) = [sheet for sheet in sheets if sheet.kind is SheetKind.EXCHANGE_CARDS]
    cards = [item.rect for item in sheet.items if item.what == "card_frame"]
    assert len(cards) == count and not any(a.overlaps(b) for a, b in combinations(cards, 2))
    told = designs.words()("free_card.own")
    assert told in [i.content.text for i in sheet.items if isinstance(i.content, Line)]
    apart = ("exchange_card", "ruler", "page_number")
    for card in cards:
        assert not [c for c in sheet.cuts if c.y1 == c.y2 and card.y < c.y1 < card.bottom]
        assert not [i for i in sheet.items if i.what in apart and i.rect.overlaps(card)]


@pytest.mark.parametrize("words", designs.names("words"))
def test_the_ready_made_kit_has_a_little_card_beside_its_labels(words: str) -> None:
    sheets = ready_made("a4", words)
    (sheet,) = [sheet for sheet in sheets if sheet.kind is SheetKind.EXCHANGE_CARDS]
    (card,) = [item.rect for item in sheet.items if item.what == "card_frame"]
    assert sum(i.what == "answer_place" for i in sheet.items if card.holds(i.rect)) == 3
    apart = ("exchange_card", "label", "ruler", "page_number")
    assert not [i for i in sheet.items if i.what in apart and i.rect.overlaps(card)]
    assert Page.turned(fitted_paper("a4")).inside.holds(card)


@pytest.mark.parametrize(
    ("paper", "words", "look"), [("a4", "en-GB", "plain"), ("letter", "es", "bold")]
)
def test_a_sheet_of_a_few_lost_ones_bears_cards_below_its_label(
    paper: str, words: str, look: str
) -> None:
    press = Press(words=designs.words(words), look=designs.look(look))
    request = Request((), fitted_paper(paper), extra=Pieces(10), parts=("pieces",), press=press)
    (sheet,) = [s for s in laid_out(held(request), request).sheets if s.kind is SheetKind.PIECES]
    (label,) = [item.rect for item in sheet.items if item.what == "label"]
    cards = [item.rect for item in sheet.items if item.what == "card_frame"]
    assert cards and all(card.y > label.bottom for card in cards)
    assert max(card.bottom for card in cards) > 0.7 * sheet.height


@pytest.mark.parametrize(
    ("look", "paper", "sum_"),
    [("plain", "a3", "4002-1768"), ("bold", "a3", "4002-1768"), ("plain", "a4", "5-1.37")],
)
def test_a_high_strip_bears_cards_down_to_its_foot(look: str, paper: str, sum_: str) -> None:
    press = Press(look=designs.look(look))
    request = Request(
        (read_sum(sum_),), fitted_paper(paper), parts=("pieces", "cards"), press=press
    )
    sheets = laid_out(held(request), request).sheets
    (*_, sheet) = [sheet for sheet in sheets if sheet.kind is SheetKind.PIECES]
    cards = [item.rect for item in sheet.items if item.what == "card_frame"]
    assert not any(a.overlaps(b) for a, b in combinations(cards, 2))
    assert max(card.bottom for card in cards) > 0.9 * sheet.height


def test_half_a_sheet_for_tonight_bears_a_card() -> None:
    request = Request((read_sum("634-258"),), fitted_paper("a4"), mini=True)
    sheets = [s for s in laid_out(held(request), request).sheets if s.kind is SheetKind.PIECES]
    frames = [[item for item in s.items if item.what == "card_frame"] for s in sheets]
    assert [len(found) for found in frames] == [0, 1]


def test_a_course_without_task_cards_has_cards_for_own_sums_too(tmp_path: Path) -> None:
    made = CliRunner().invoke(main, ["kit", "--plan", PLAN, "--out", str(tmp_path)])
    assert made.exit_code == 0, made.output
    sheets = json.loads((tmp_path / "kit.json").read_text("utf-8"))["sheets"]
    (sheet,) = (sheet for sheet in sheets if sheet["kind"] == "exchange_cards")
    assert "card_frame" in {item["what"] for item in sheet["items"]}


@pytest.mark.parametrize("paper", ["a4", "letter", "a3"])
def test_half_a_sheet_beside_a_thousand_bears_cards(paper: str) -> None:
    request = Request((read_sum("3000-1275"),), fitted_paper(paper), parts=("pieces", "cards"))
    sheets = laid_out(held(request), request).sheets
    first, second = [sheet for sheet in sheets if sheet.kind is SheetKind.THOUSANDS]
    assert not [item for item in first.items if item.what == "card_frame"]
    cards = [item.rect for item in second.items if item.what == "card_frame"]
    others = [i.rect for i in second.items if i.what in ("thousand", "cut_mark", "band")]
    assert len(cards) > 1 and not any(a.overlaps(b) for a in cards for b in others)


def test_beside_a_large_thousand_smaller_sums_have_cards() -> None:
    request = Request((read_sum("4002-1768"),), fitted_paper("a4", unit=5.52))
    (sheet,) = (s for s in laid_out(held(request), request).sheets if s.kind is SheetKind.THOUSANDS)
    assert len([item for item in sheet.items if item.what == "card_frame"]) > 1
