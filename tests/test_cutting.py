"""The cutting map: panels that merge equal parts, and numbers in an order a hand can follow."""

import pytest

from kitbuilder.number import Pieces
from kitbuilder.request import cut_wish, fitted_paper
from kitbuilder.sheet.checks import replay
from kitbuilder.sheet.cutting import CutSheet, in_hand_order, panels
from kitbuilder.sheet.map import cut_sheets
from kitbuilder.sheet.pieces import piece_plan
from kitbuilder.sheet.records import Cut, Rect

TENS = tuple(Rect(10 * i, 0, 10, 100) for i in range(3))
CUTS = tuple(Cut(x, 0, x, 100) for x in (30, 20, 10))
STRIP = CutSheet("A", "pieces", 40, 100, 2, TENS, CUTS, (1, 2, 3))


def test_a_strip_is_one_panel_with_numbers_from_one_end() -> None:
    (panel,) = panels(in_hand_order([STRIP]))
    assert [(line.at, line.number) for line in panel.lines] == [(10, 1), (20, 2), (30, 3)]
    assert panel.parts == 2  # two copies
    assert panel.falls == (Rect(30, 0, 10, 100),)


def test_equal_parts_of_two_sheets_share_a_panel_and_its_numbers() -> None:
    other = CutSheet("B", "pieces", 40, 100, 1, TENS, STRIP.cuts, (4, 5, 6))
    (panel,) = panels(in_hand_order([STRIP, other]))
    assert (panel.parts, panel.sheets) == (3, ("A", "B"))


def test_a_cut_that_is_not_edge_to_edge_is_refused() -> None:
    bad = CutSheet("A", "pieces", 40, 100, 1, TENS, (Cut(30, 0, 30, 50),), (1,))
    with pytest.raises(ValueError, match="edge to edge"):
        panels([bad])


@pytest.mark.parametrize("paper", ["a4", "letter", "a3"])
@pytest.mark.parametrize("layers", [1, 5])
def test_the_order_of_a_whole_kit_can_be_cut(paper: str, layers: int) -> None:
    plan = piece_plan(Pieces(18, 19, 9), fitted_paper(paper), cut_wish(6, layers, False))
    assert plan is not None
    for sheet in cut_sheets(plan, ()):
        parts = {tuple(round(v, 2) for v in part) for part in replay(plan.page, sheet.cuts)}
        for rect in sheet.items:
            box = (rect.x, rect.y, rect.right, rect.bottom)
            assert tuple(round(100 * v) for v in box) in parts
        assert list(sheet.numbers) == sorted(sheet.numbers)
