"""Cards by halving sheets, and rectangles inside the margins."""

import pytest
from sheet_search import most_rectangles

from kitbuilder.errors import RefusedError
from kitbuilder.sheet.checks import check_plan
from kitbuilder.sheet.grid import Page
from kitbuilder.sheet.rects import pack_cards, pack_rects

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


@pytest.mark.parametrize(
    ("width", "height", "per_sheet"),
    [
        (200, 100, 2),  # 287 mm of height
        (62, 41, 21),  # 3 × 7 lying fill the height of 287 exactly
        (115, 210, 1),  # only standing
        (200, 287, 1),
    ],
)
def test_the_most_rectangles_on_a_sheet(width: float, height: float, per_sheet: int) -> None:
    plan = pack_rects(per_sheet, width, height, A4)
    check_plan(plan)
    assert plan.sheets == 1
    plan = pack_rects(2 * per_sheet + 1, width, height, A4, layers=3)
    check_plan(plan)
    assert plan.sheets == 3
    for layout in plan.layouts:
        for item in layout.items:
            assert item.rect.x >= 5
            assert item.rect.right <= 205
            assert item.rect.y >= 5
            assert item.rect.bottom <= 292


@pytest.mark.parametrize("sides", [(7, 4), (9, 5), (8, 3), (6, 5), (11, 2)])
def test_no_way_of_cutting_holds_more(sides: tuple[int, int]) -> None:
    # A full search of 30 × 23 mm without margins, at whole millimetres.
    page = Page(30, 23, 0, 0, 0, 0)
    most = most_rectangles(30, 23, sides)
    for count, sheets in ((most, 1), (most + 1, 2)):
        plan = pack_rects(count, *sides, page)
        check_plan(plan)
        assert plan.sheets == sheets


def test_what_cannot_be_is_refused() -> None:
    with pytest.raises(RefusedError, match="200 by 287 mm is free"):
        pack_rects(1, 201, 288, A4)
    with pytest.raises(RefusedError, match="too small"):
        pack_rects(1, 7.3, 5.1, A4)
    with pytest.raises(RefusedError, match="halved exactly"):
        pack_cards(1, Page(210, 297.01, 5, 5, 5, 5), 2)
    with pytest.raises(RefusedError, match="cards were asked"):
        pack_cards(0, A4, 2)
    with pytest.raises(RefusedError, match="layers"):
        pack_rects(1, 50, 50, A4, layers=21)
    with pytest.raises(ValueError, match="halvings"):
        pack_cards(1, A4, 7)
    with pytest.raises(ValueError, match="above 0"):
        pack_rects(1, 0, 5, A4)
