"""Every checker is made to fail by the fault it is there for."""

import math
from dataclasses import replace

import pytest

from kitbuilder.layout.cutting.cut_plan import CutPlan, SheetLayout, Stroke
from kitbuilder.layout.cutting.pack import pack_pieces
from kitbuilder.layout.cutting.verify_cuts import (
    CutError,
    check_layout,
    check_plan,
    check_strokes,
    replay,
)
from kitbuilder.layout.model import Cut, Item, Rect
from kitbuilder.layout.packing.grid import Page
from kitbuilder.number.sums import Pieces

A4 = Page(210, 297, 5, 5, 5, 5)


@pytest.fixture
def plan() -> CutPlan:
    return pack_pieces(Pieces(hundreds=2, tens=4, ones=6), A4, 10, kits=4, layers=3)


def with_layout(plan: CutPlan, layout: SheetLayout) -> CutPlan:
    return replace(plan, layouts=(layout, *plan.layouts[1:]))


def test_the_plan_itself_passes(plan: CutPlan) -> None:
    check_plan(plan)


def test_a_missing_cut_is_found(plan: CutPlan) -> None:
    layout = plan.layouts[0]
    short = replace(layout, cuts=layout.cuts[:-1], steps=layout.steps[:-1])
    with pytest.raises(CutError, match="do not leave"):
        check_layout(A4, short, 10)


def test_a_cut_through_a_piece_is_found(plan: CutPlan) -> None:
    # One more cut, edge to edge, down the middle of a hundred.
    layout = plan.layouts[0]
    rect = next(item.rect for item in layout.items if item.what == "hundreds")
    through = Cut(rect.x + 50, rect.y, rect.x + 50, rect.bottom)
    longer = replace(layout, cuts=(*layout.cuts, through), steps=(*layout.steps, 99))
    with pytest.raises(CutError, match="do not leave"):
        check_layout(A4, longer, 10)


def test_a_cut_not_edge_to_edge_is_found(plan: CutPlan) -> None:
    layout = plan.layouts[0]
    first = layout.cuts[0]
    shorter = replace(first, x2=first.x2 - 1) if first.y1 == first.y2 else replace(first, y2=1)
    with pytest.raises(CutError, match="edge to edge"):
        replay(A4, (shorter, *layout.cuts[1:]))


def test_cuts_in_the_wrong_order_are_found(plan: CutPlan) -> None:
    with pytest.raises(CutError, match="edge to edge"):
        replay(A4, tuple(reversed(plan.layouts[0].cuts)))


def test_a_pinwheel_is_found() -> None:
    # Four rectangles around a hole: no first cut runs from edge to edge of the sheet.
    page = Page(30, 30, 0, 0, 0, 0)
    vanes = [Cut(20, 0, 20, 10), Cut(10, 10, 30, 10), Cut(20, 10, 20, 30), Cut(0, 20, 20, 20)]
    for first in vanes:
        with pytest.raises(CutError, match="edge to edge"):
            replay(page, [first, *(cut for cut in vanes if cut is not first)])


def test_a_piece_of_the_wrong_size_is_found(plan: CutPlan) -> None:
    layout = plan.layouts[0]
    as_tens = tuple(replace(item, what="tens") for item in layout.items)
    with pytest.raises(CutError, match="true size"):
        check_layout(A4, replace(layout, items=as_tens), 10)


def test_a_thing_that_is_no_piece_is_found(plan: CutPlan) -> None:
    layout = plan.layouts[0]
    odd = (replace(layout.items[0], what="moon"), *layout.items[1:])
    with pytest.raises(CutError, match="no piece"):
        check_layout(A4, replace(layout, items=odd), 10)


@pytest.mark.parametrize(("width", "height"), [(0, 5), (5, 0), (-1, 5), (5, math.inf)])
def test_a_rectangle_without_a_size_is_found(width: float, height: float) -> None:
    with pytest.raises(ValueError, match=r"above 0|not finite"):
        Rect(0, 0, width, height)


@pytest.mark.parametrize("side", range(4))
def test_a_piece_in_a_margin_is_found(side: int) -> None:
    # Two ones fill the page from side to side; 5 mm of one side do not print.
    page = Page(20, 10, *(5 * (side == each) for each in range(4)))
    items = (Item("ones", Rect(0, 0, 10, 10)), Item("ones", Rect(10, 0, 10, 10)))
    layout = SheetLayout(1, items, (Cut(10, 0, 10, 10),), (1,), (), (0, 0))
    with pytest.raises(CutError, match="margin"):
        check_layout(page, layout, 10)


def strokes_with(plan: CutPlan, number: int, stroke: Stroke) -> list[Stroke]:
    strokes = list(plan.stroke_list())
    strokes[number] = stroke
    return strokes


def test_a_stack_too_high_is_found(plan: CutPlan) -> None:
    with pytest.raises(CutError, match="goes through"):
        check_strokes(replace(plan, layers=1), plan.stroke_list())


def test_parts_that_are_not_alike_are_found(plan: CutPlan) -> None:
    # The first stroke of two steps laid into one: their outlines differ.
    strokes = list(plan.stroke_list())
    first = strokes[0]
    other = next(s for s in strokes if s.step == 2)
    both = replace(first, parts=(first.parts[0], other.parts[0]))
    with pytest.raises(CutError, match=r"not alike|not in hand"):
        check_strokes(plan, [both])


def test_a_part_that_is_not_in_hand_is_found(plan: CutPlan) -> None:
    last_first = list(reversed(plan.stroke_list()))
    with pytest.raises(CutError, match="not in hand"):
        check_strokes(plan, last_first)
    first = plan.stroke_list()[0]
    nobody = replace(first.parts[0], copy=99)
    with pytest.raises(CutError, match="not in hand"):
        check_strokes(plan, [replace(first, parts=(nobody,))])


def test_a_missing_stroke_is_found(plan: CutPlan) -> None:
    with pytest.raises(CutError, match=r"make \d+ of \d+ cuts"):
        check_strokes(plan, plan.stroke_list()[:-1])


def test_wrong_totals_are_found(plan: CutPlan) -> None:
    layout = plan.layouts[0]
    all_spare = replace(layout, spare=(layout.copies,) * len(layout.items))
    with pytest.raises(CutError, match="fill the bags"):
        check_plan(with_layout(plan, all_spare))
    with pytest.raises(CutError, match="fill the bags"):
        check_plan(replace(plan, kits=5))
    with pytest.raises(CutError, match="asked for"):
        check_plan(replace(plan, bag=plan.bag[:-1]))
    fewer = (replace(plan.steps[0], strokes=plan.steps[0].strokes + 1), *plan.steps[1:])
    with pytest.raises(CutError, match="counted"):
        check_plan(replace(plan, steps=fewer))


def test_a_layout_checks_its_fields() -> None:
    with pytest.raises(ValueError, match="copies"):
        SheetLayout(0, (), (), (), (), ())
    with pytest.raises(ValueError, match="as many"):
        SheetLayout(1, (), (), (1,), (), ())
    with pytest.raises(ValueError, match="spare"):
        SheetLayout(1, (Item("ones", Rect(0, 0, 1, 1)),), (), (), (), (2,))
