"""Cards by halving sheets."""

import pytest

from kitbuilder.errors import RefusedError
from kitbuilder.sheet.checks import check_plan
from kitbuilder.sheet.grid import Page
from kitbuilder.sheet.rects import pack_cards

A4 = Page(210, 297, 5, 5, 5, 5)


@pytest.mark.parametrize(
    ("halvings", "size"),
    # ISO 216 halves the longer side; it rounds 74.25 to 74 for A7, the paper is not rounded.
    [(2, {105, 148.5}), (3, {74.25, 105})],
)
def test_a_card_is_the_paper_divided(halvings: int, size: set[float]) -> None:
    plan = pack_cards(2**halvings, A4, halvings)
    check_plan(plan)
    (layout,) = plan.layouts
    assert {layout.items[0].rect.width, layout.items[0].rect.height} == size
    assert not layout.offcuts  # the cards reach the paper's edge
    assert plan.strokes == plan.stroke_bound == 2**halvings - 1


def test_stacked_cards_take_few_strokes() -> None:
    # Five sheets of four: one stroke halves five sheets, two halve the ten halves.
    plan = pack_cards(20, A4, 2, layers=5)
    check_plan(plan)
    assert (plan.sheets, plan.strokes, plan.stroke_bound) == (5, 3, 3)


def test_a_last_sheet_is_cut_no_further_than_needed() -> None:
    # Five cards, four a sheet: three cuts, and two more to free the fifth.
    plan = pack_cards(5, A4, 2)
    check_plan(plan)
    assert [c.count for c in plan.spares] == [0]
    assert (plan.sheets, plan.strokes) == (2, 5)
    # In a stack of two the second sheet is cut along, which makes three spares.
    plan = pack_cards(5, A4, 2, layers=2)
    check_plan(plan)
    assert [c.count for c in plan.spares] == [3]
    assert len(plan.layouts) == 1


def test_what_cannot_be_is_refused() -> None:
    with pytest.raises(RefusedError, match="halved exactly"):
        pack_cards(1, Page(210, 297.01, 5, 5, 5, 5), 2)
    with pytest.raises(RefusedError, match="cards were asked"):
        pack_cards(0, A4, 2)
    with pytest.raises(RefusedError, match="layers"):
        pack_cards(1, A4, 2, layers=21)
    with pytest.raises(ValueError, match="halvings"):
        pack_cards(1, A4, 7)
