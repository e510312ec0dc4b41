"""Every checker is made to fail by the fault it is there for."""

import math
from dataclasses import replace

import pytest

from kitbuilder.kit.records import CutWish
from kitbuilder.layout.cutting.cut_plan import CutPlan
from kitbuilder.layout.cutting.verify_cuts import (
    CutError,
    check_plan,
    check_sheet,
    check_stops,
    replay,
)
from kitbuilder.layout.model import Cut, Item, Rect, Sheet, SheetKind
from kitbuilder.layout.pieces.pack_pieces import pack_pieces
from kitbuilder.layout.printable import Page
from kitbuilder.number.sums import Pieces

A4 = Page.sized(210, 297, 5, 5, 5, 5)


@pytest.fixture(params=[1, 3])
def plan(request: pytest.FixtureRequest) -> CutPlan:
    return pack_pieces(Pieces(6, 4, 2), A4, 10, CutWish(4, request.param))


def test_the_plan_itself_passes(plan: CutPlan) -> None:
    check_plan(plan)


def test_a_missing_cut_is_found(plan: CutPlan) -> None:
    sheet = plan.printed[0]
    with pytest.raises(CutError, match="do not leave"):
        check_sheet(A4, replace(sheet, cuts=sheet.cuts[:-1], stops=sheet.stops[:-1]), 10)


def test_a_cut_through_a_piece_is_found(plan: CutPlan) -> None:
    # One more cut, edge to edge, down the middle of a hundred.
    sheet = plan.printed[0]
    rect = next(item.rect for item in sheet.items if item.what == "hundreds")
    through = Cut(rect.x + 50, rect.y, rect.x + 50, rect.bottom)
    with pytest.raises(CutError, match="do not leave"):
        check_sheet(A4, replace(sheet, cuts=(*sheet.cuts, through), stops=(*sheet.stops, 99)), 10)


def test_a_piece_told_twice_is_found(plan: CutPlan) -> None:
    sheet = plan.printed[0]
    with pytest.raises(CutError, match="do not leave"):
        check_sheet(A4, replace(sheet, items=(*sheet.items, sheet.items[0]), spare=()), 10)


def test_a_cut_not_edge_to_edge_is_found(plan: CutPlan) -> None:
    first, *others = plan.printed[0].cuts
    shorter = replace(first, x2=first.x2 - 1) if first.y1 == first.y2 else replace(first, y2=1)
    with pytest.raises(CutError, match="edge to edge"):
        replay(A4, (shorter, *others))


def test_cuts_in_the_wrong_order_are_found(plan: CutPlan) -> None:
    with pytest.raises(CutError, match="edge to edge"):
        replay(A4, tuple(reversed(plan.printed[0].cuts)))


def test_a_pinwheel_is_found() -> None:
    # Four rectangles around a hole: no first cut runs from edge to edge of the sheet.
    page = Page.sized(30, 30, 0, 0, 0, 0)
    vanes = [Cut(20, 0, 20, 10), Cut(10, 10, 30, 10), Cut(20, 10, 20, 30), Cut(0, 20, 20, 20)]
    for first in vanes:
        with pytest.raises(CutError, match="edge to edge"):
            replay(page, [first, *(cut for cut in vanes if cut is not first)])


def test_a_piece_of_the_wrong_size_is_found(plan: CutPlan) -> None:
    sheet = plan.printed[0]
    as_tens = tuple(item._replace(what="tens") for item in sheet.items)
    with pytest.raises(CutError, match="true size"):
        check_sheet(A4, replace(sheet, items=as_tens), 10)


def test_a_thing_that_is_no_piece_is_found(plan: CutPlan) -> None:
    sheet = plan.printed[0]
    odd = (sheet.items[0]._replace(what="moon"), *sheet.items[1:])
    with pytest.raises(CutError, match="no piece"):
        check_sheet(A4, replace(sheet, items=odd), 10)


@pytest.mark.parametrize(("width", "height"), [(0, 5), (5, 0), (-1, 5), (5, math.inf)])
def test_a_rectangle_without_a_size_is_found(width: float, height: float) -> None:
    with pytest.raises(ValueError, match=r"above 0|not finite"):
        Rect(0, 0, width, height)


def sheet_of(cuts: tuple[Cut, ...], stops: tuple[int, ...], items: tuple[Item, ...] = ()) -> Sheet:
    return Sheet(SheetKind.PIECES, 1, "card", 20, 10, items, cuts, stops=stops)


@pytest.mark.parametrize("side", range(4))
def test_a_piece_in_a_margin_is_found(side: int) -> None:
    # Two ones fill the page from side to side; 5 mm of one side do not print.
    page = Page.sized(20, 10, *(5 * (side == each) for each in range(4)))
    items = (Item("ones", Rect(0, 0, 10, 10)), Item("ones", Rect(10, 0, 10, 10)))
    with pytest.raises(CutError, match="margin"):
        check_sheet(page, sheet_of((Cut(10, 0, 10, 10),), (1,), items), 10)


PAGE = Page.sized(20, 10, 0, 0, 0, 0)
HALVES = (Cut(10, 0, 10, 10), Cut(5, 0, 5, 10), Cut(15, 0, 15, 10))


def test_strokes_go_through_as_many_parts_as_a_stack_holds() -> None:
    # One cut, then one through both halves; one by one that makes three.
    assert check_stops(PAGE, [sheet_of(HALVES, (1, 2, 2))], 2) == 2
    assert check_stops(PAGE, [sheet_of(HALVES, (1, 2, 2))], 1) == 3


def test_parts_that_are_not_alike_are_found() -> None:
    cuts = (HALVES[0], HALVES[1], Cut(16, 0, 16, 10))
    with pytest.raises(CutError, match="not alike"):
        check_stops(PAGE, [sheet_of(cuts, (1, 2, 2))], 2)


def test_a_part_that_is_not_in_hand_is_found() -> None:
    with pytest.raises(CutError, match="leaves itself"):
        check_stops(PAGE, [sheet_of(HALVES, (1, 1, 2))], 2)
    with pytest.raises(CutError, match="out of order"):
        check_stops(PAGE, [sheet_of(HALVES, (1, 3, 2))], 2)


def test_wrong_totals_are_found(plan: CutPlan) -> None:
    first = plan.cut_sheets[0]
    sheet = first.sheet
    all_spare = replace(sheet, spare=(sheet.copies,) * len(sheet.items))
    with pytest.raises(CutError, match="fill the bags"):
        check_plan(
            replace(plan, cut_sheets=(replace(first, sheet=all_spare), *plan.cut_sheets[1:]))
        )
    with pytest.raises(CutError, match="fill the bags"):
        check_plan(replace(plan, kits=5))
    with pytest.raises(CutError, match="asked for"):
        check_plan(replace(plan, bag=plan.bag[:-1]))


def test_a_wrong_count_of_strokes_is_found(plan: CutPlan, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("kitbuilder.layout.cutting.cut_plan.strokes", lambda *_: 1)
    with pytest.raises(CutError, match="counted"):
        check_plan(plan)
