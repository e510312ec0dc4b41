"""Mats: the fewest sheets, every piece in its zone, and a checker that finds what is wrong."""

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kitbuilder.design import load as designs
from kitbuilder.design.load import Margins, Paper
from kitbuilder.errors import RefusedError
from kitbuilder.kit.mat_needs import Arrangement, MatNeeds, filling_sums, mat_needs
from kitbuilder.layout.mat.arrangements import Lying, Tens, lyings, spread
from kitbuilder.layout.mat.mat_plan import MatPlan, plan_mat
from kitbuilder.layout.mat.mat_records import FINGER, Mat, MatText, MatTile
from kitbuilder.layout.mat.mat_text import mat_text
from kitbuilder.layout.mat.tiling import Segment, divide, printable, tilings
from kitbuilder.layout.mat.verify_mat import check_mat, check_sheets
from kitbuilder.layout.model import Rect
from kitbuilder.number.choice.pick import choose
from kitbuilder.number.choice.pool import Wish
from kitbuilder.number.sums import Sum

ARRANGEMENTS: tuple[Arrangement, ...] = ("two", "three", "beside", "add")
PAPERS = {name: designs.paper(name) for name in ("a4", "a3", "letter", "legal")}
PACKS = {
    "within 100": (*filling_sums(100), *choose(Wish(2, fives=True), 6, seed=1)),
    "within 1000, both columns": (
        *filling_sums(1000),
        *choose(Wish(3, ("both",), fives=True), 6, seed=1),
    ),
    "across a zero": (Sum(604, 167), *choose(Wish(3, ("across-zero",), fives=True), 6, seed=1)),
}


def text(needs: MatNeeds) -> MatText:
    return mat_text(needs.arrangement, needs.places, "words", designs.words(), designs.look())


def plan(needs: MatNeeds, paper: Paper) -> MatPlan:
    return plan_mat(needs, paper, text(needs))


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("arrangement", ARRANGEMENTS)
def test_each_pack_lies_on_every_paper(paper: str, arrangement: Arrangement) -> None:
    for sums in PACKS.values():
        found = plan(mat_needs(sums, arrangement), PAPERS[paper])
        check_mat(found.mat, sums)
        check_sheets(found.mat, PAPERS[paper], found.sheets)
        for tile in found.mat.tiles:  # a sheet in the hand says what it is a part of
            shown = {z.role for z in found.mat.zones if z.rect.common(tile)}
            names = [x for x in found.mat.labels if x.kind in ("role", "again")]
            here = {x.role for x in names if tile.holds(x.rect)}
            assert shown <= here


def test_the_columns_of_the_whole_end_where_the_sheets_of_the_parts_meet() -> None:
    # On letter the parts of nine hundreds, nine tens and nine ones are 110 + 100 + 60 = 270 mm
    # wide with room for fingers, and a sheet is 266.7: their tens lie in two rows, 210 mm high,
    # which no sheet holds either. The whole has room, so its pieces keep clear of every join.
    mat = plan(mat_needs(filling_sums(1000), "beside"), PAPERS["letter"]).mat
    assert len(mat.tiles) == 4
    assert mat.zone("whole", 2).rect.right == pytest.approx(mat.tiles[0].right)
    for place in range(3):
        for slot in mat.zone("whole", place).slots:
            assert any(tile.holds(slot) for tile in mat.tiles)


def test_a_mat_of_two_places_is_one_sheet() -> None:
    for arrangement in ("two", "three", "add"):
        assert len(plan(mat_needs([Sum(71, 48)], arrangement), PAPERS["a4"]).sheets) == 1


def test_634_less_258_takes_two_sheets_turned_edge_to_edge() -> None:
    # Across: 5 + 100 + 5 three times but for 50 of ones is 280 of 287 mm. Down: six hundreds
    # fanned are 150, thirteen tens lying flat 130, each with 10 for fingers.
    found = plan(mat_needs([Sum(634, 258)], "two"), PAPERS["a4"])
    assert found.mat.turned == (True, True)
    assert [(s.width, s.height) for s in found.sheets] == [(297, 210)] * 2
    whole, part = found.mat.tiles
    assert all(whole.holds(z.rect) for z in found.mat.zones if z.role == "whole")
    assert all(part.holds(z.rect) for z in found.mat.zones if z.role == "part")
    assert found.mat.zone("whole", 2).way == "fan"
    assert [len(s.cuts) for s in found.sheets] == [1, 1]
    joins = [s.items[0].content for s in found.sheets]
    assert [[(j.number, j.edge) for j in t.joins] for t in joins if isinstance(t, MatTile)] == [
        [(1, "bottom")],
        [(1, "top")],
    ]


def test_fewest_sheets_never_grow_with_a_smaller_unit() -> None:
    needs = mat_needs(filling_sums(1000), "two")
    counts = [
        len(plan(needs, replace(PAPERS["a4"], unit_mm=float(u))).sheets)
        for u in (10, 9, 8, 7, 6, 5)
    ]
    assert all(a >= b for a, b in pairwise(counts))
    # The largest zone at 5 mm: 19 tens side by side are 95 + 10 by 60 mm: all fits one sheet.
    assert counts[-1] == 1


def test_a_turned_page_keeps_the_larger_margin() -> None:
    # Nobody knows which way a printer turns a page, so left may become top or bottom.
    paper = replace(PAPERS["a4"], margins_mm=Margins(left=3, right=4, top=5, bottom=15))
    assert printable(paper, True) == Rect(15, 4, 297 - 30, 210 - 8)
    assert printable(paper, False) == Rect(3, 5, 203, 277)


def test_one_sheet_turned_saves_one() -> None:
    # 480 by 280 mm is more than two sheets of 200 by 287 mm either way up. Three upright ones
    # cover it, or one upright beside two turned, one above the other: 200 + 287 mm across.
    # 480 by 390 mm takes six upright sheets, four turned ones, and no three of any kind.
    page = PAPERS["a4"]
    assert not list(tilings(480, 280, page, 2))
    three = list(tilings(480, 280, page, 3))
    assert {t.bands for t in three if not t.rows} == {
        ((False, 1), (True, 2)),
        ((True, 2), (False, 1)),
    }
    assert [t.bands for t in three if t.rows] == [((False, 3),)]
    assert not list(tilings(480, 390, page, 3))
    # 190 by 480 mm: one upright and one turned would be 287 + 200 high, but the turned is wide.
    assert {t.sheets for n in (1, 2) for t in tilings(190, 480, page, n)} == {2}


def test_a_join_never_runs_through_a_line_of_labels() -> None:
    segments = (
        Segment(30, False, False, 0),
        Segment(100, True, True, 2),
        Segment(30, False, False, 0),
    )
    found = divide(segments, (100, 100), grow=True)
    assert found is not None
    assert found.joins == (100,)  # inside the zone, which grows from 100 to 140
    assert found.sizes == (30, 140, 30)
    assert divide((Segment(120, False, False, 0),), (100, 100), grow=True) is None


@st.composite
def wishes(draw: st.DrawFn) -> tuple[list[Sum], Arrangement, Paper]:
    def tenths(low: int, high: int) -> float:
        return draw(st.integers(low * 10, high * 10)) / 10

    top = draw(st.sampled_from([20, 99, 999]))
    sums = []
    for _ in range(draw(st.integers(1, 3))):
        whole = draw(st.integers(1, top))
        sums.append(Sum(whole, draw(st.integers(0, whole))))
    margins = Margins(tenths(0, 15), tenths(0, 15), tenths(0, 15), tenths(0, 15))
    width, height, unit = tenths(190, 310), tenths(270, 450), tenths(5, 12)
    paper = Paper("drawn", width, height, unit, "drawn at random", margins)
    return sums, draw(st.sampled_from(ARRANGEMENTS)), paper


def check(wish: tuple[list[Sum], Arrangement, Paper]) -> None:
    sums, arrangement, paper = wish
    needs = mat_needs(sums, arrangement)
    found = plan(needs, paper)
    check_mat(found.mat, sums)
    check_sheets(found.mat, paper, found.sheets)
    for zone in found.mat.zones:  # never more room than the fullest moment asks
        assert zone.capacity == needs.holding(zone.role, zone.place).most


@given(wishes())
@settings(max_examples=40, deadline=None, derandomize=True)
def test_every_pack_paper_and_unit(wish: tuple[list[Sum], Arrangement, Paper]) -> None:
    check(wish)


def test_what_no_page_holds_is_refused() -> None:
    needs = mat_needs([Sum(634, 258)], "two")
    with pytest.raises(RefusedError, match="smaller unit"):
        plan(needs, replace(PAPERS["a4"], unit_mm=90.0))
    with pytest.raises(RefusedError, match="larger paper"):
        plan(needs, replace(PAPERS["a4"], width_mm=80.0, height_mm=90.0))
    with pytest.raises(ValueError, match="headings"):
        plan_mat(needs, PAPERS["a4"], text(mat_needs([Sum(71, 48)], "two")))


def good() -> Mat:
    return plan(mat_needs([Sum(634, 258)], "two"), PAPERS["a4"]).mat


def with_slots(mat: Mat, role: str, place: int, slots: tuple[Rect, ...]) -> Mat:
    zones = tuple(
        replace(z, slots=slots) if (z.role, z.place) == (role, place) else z for z in mat.zones
    )
    return replace(mat, zones=zones)


@pytest.mark.parametrize("down", [True, False])
def test_a_fan_opens_as_far_as_there_is_room_in_whole_units(down: bool) -> None:
    # Three hundreds on 165 mm: one takes 100, 65 mm are left for two steps, three units each.
    slots = tuple(
        Rect(0, k * 10, 100, 100) if down else Rect(k * 10, 0, 100, 100) for k in range(3)
    )
    closed = Lying("fan", slots, *((100, 120) if down else (120, 100)), 2)
    opened = spread(closed, 10, *((100, 165) if down else (165, 100)))
    assert [slot.y if down else slot.x for slot in opened.slots] == [0, 30, 60]
    assert (opened.width, opened.height) == ((100, 160) if down else (160, 100))


@pytest.mark.parametrize(("tens", "axis"), [("upright", 1), ("flat", 0)])
def test_rows_of_tens_lie_five_millimetres_apart(tens: Tens, axis: int) -> None:
    found = lyings(1, 12, 10, tens)
    starts = [sorted({(slot.x, slot.y)[axis] for slot in lying.slots}) for lying in found]
    # A ten is 100 mm long and 5 mm are for fingers: rows begin at 0, 105, 210 and so on.
    assert starts == [[105 * row for row in range(len(each))] for each in starts]
    ends = [(lying.width, lying.height)[axis] for lying in found]
    assert ends == [105 * len(each) - 5 for each in starts]
    assert max(map(len, starts)) == 12


def test_the_checker_finds_a_piece_without_room() -> None:
    slots = good().zone("whole", 1).slots
    with pytest.raises(ValueError, match="has room for 12; 13 lie there"):
        check_mat(with_slots(good(), "whole", 1, slots[:-1]), [Sum(634, 258)])


def test_the_checker_finds_a_piece_that_sticks_out() -> None:
    slots = good().zone("whole", 0).slots
    moved = (*slots[:-1], slots[-1].moved(0, -FINGER))
    with pytest.raises(ValueError, match=r"hidden|sticks out"):
        check_mat(with_slots(good(), "whole", 0, moved), [Sum(634, 258)])
    out = tuple(s.moved(0, -1) for s in slots)
    with pytest.raises(ValueError, match="sticks out"):
        check_mat(with_slots(good(), "whole", 0, out), [Sum(634, 258)])


def test_the_checker_finds_a_hidden_hundred() -> None:
    slots = good().zone("whole", 2).slots
    # The second hundred slides to 9 mm below the first: less than one unit row in sight.
    hidden = (slots[0], slots[0].moved(0, 9), *slots[2:])
    with pytest.raises(ValueError, match=r"piece 1 of .* is hidden"):
        check_mat(with_slots(good(), "whole", 2, hidden), [Sum(634, 258)])


def test_the_checker_finds_a_hidden_ten_and_wrong_sizes() -> None:
    slots = good().zone("whole", 1).slots
    with pytest.raises(ValueError, match="is hidden"):
        check_mat(with_slots(good(), "whole", 1, (slots[0], *slots[:-1])), [Sum(634, 258)])
    small = tuple(replace(s, width=s.width - 1) for s in slots)
    with pytest.raises(ValueError, match="a piece is"):
        check_mat(with_slots(good(), "whole", 1, small), [Sum(634, 258)])
    upright = tuple(Rect(s.x, s.y, s.height, s.width) for s in good().zone("part", 1).slots)
    with pytest.raises(ValueError, match="upright in one zone"):
        check_mat(with_slots(good(), "part", 1, upright), [Sum(634, 258)])


def test_the_checker_finds_ones_in_rows_of_six() -> None:
    mat = plan(mat_needs([Sum(71, 48)], "two"), PAPERS["a4"]).mat
    first = mat.zone("part", 0).rect.inset(FINGER)
    six = tuple(Rect(first.x + i % 6 * 10, first.y + i // 6 * 10, 10, 10) for i in range(8))
    with pytest.raises(ValueError, match="rows of five"):
        check_mat(with_slots(mat, "part", 0, six), [Sum(71, 48)])


def test_the_checker_finds_labels_across_a_join_and_boxes_over_each_other() -> None:
    mat = good()
    join = mat.tiles[0].bottom
    label = mat.labels[0]
    over = replace(label, rect=Rect(label.rect.x, join - 5, label.rect.width, label.rect.height))
    with pytest.raises(ValueError, match=r"lie over each other|across a join"):
        check_mat(replace(mat, labels=(over, *mat.labels[1:])), [])
    bare = replace(mat, zones=mat.zones[:3], labels=(over,))
    with pytest.raises(ValueError, match="over each other"):
        check_mat(bare, [])
    with pytest.raises(ValueError, match="across a join"):
        check_mat(replace(bare, zones=()), [])
    with pytest.raises(ValueError, match="not wholly on the tiles"):
        check_mat(replace(mat, tiles=mat.tiles[:1], turned=(True,)), [])
    with pytest.raises(ValueError, match=r"tiles .* over each other"):
        check_mat(replace(mat, tiles=(mat.tiles[0], *mat.tiles), turned=(True,) * 3), [])


def test_the_checker_of_sheets_finds_a_cut_that_lacks_on_any_side() -> None:
    # Parts beside each other below the whole, at 12 mm: sheets that meet others on each side.
    paper = replace(PAPERS["a4"], unit_mm=12.0)
    found = plan(mat_needs([Sum(934, 258)], "beside"), paper)
    check_sheets(found.mat, paper, found.sheets)
    sides = set()
    for index, sheet in enumerate(found.sheets):
        box = sheet.items[0].rect
        ends = {"left": box.x, "right": box.right, "top": box.y, "bottom": box.bottom}
        for cut in sheet.cuts:
            across, at = ("left", "right"), cut.x1
            if cut.y1 == cut.y2:
                across, at = ("top", "bottom"), cut.y1
            sides |= {side for side in across if ends[side] == pytest.approx(at)}
            fewer = replace(sheet, cuts=tuple(each for each in sheet.cuts if each is not cut))
            others = (*found.sheets[:index], fewer, *found.sheets[index + 1 :])
            with pytest.raises(ValueError, match=r"not cut where it butts|edge to edge"):
                check_sheets(found.mat, paper, others)
    assert sides == {"left", "right", "top", "bottom"}


def test_a_mat_that_fills_the_pages_exactly_takes_no_more_of_them() -> None:
    # a4 less 5 mm all round is 200 by 287 mm.
    page = PAPERS["a4"]
    for across, down in ((1, 1), (2, 1), (1, 2)):
        held = list(tilings(across * 200, down * 287, page, across * down))
        assert any(not turned for tiling in held for turned, _ in tiling.bands), (across, down)


def test_the_checker_of_sheets_finds_what_is_wrong() -> None:
    found = plan(mat_needs([Sum(634, 258)], "two"), PAPERS["a4"])
    mat, paper, (first, second) = found.mat, PAPERS["a4"], found.sheets
    with pytest.raises(ValueError, match="1 sheets for 2"):
        check_sheets(mat, paper, (first,))
    with pytest.raises(ValueError, match="not cut where it butts"):
        check_sheets(mat, paper, (replace(first, cuts=()), second))
    cut = first.cuts[0]
    with pytest.raises(ValueError, match="edge to edge"):
        check_sheets(mat, paper, (replace(first, cuts=(replace(cut, x2=100),)), second))
    with pytest.raises(ValueError, match="cut into"):
        check_sheets(mat, paper, (replace(first, cuts=(replace(cut, y1=150, y2=150),)), second))
    item = first.items[0]
    wrong = [
        (replace(item, content=None), "holds no tile"),
        (replace(item, rect=replace(item.rect, width=200)), "tile's size"),
        (replace(item, rect=item.rect.moved(-2, 0)), "printable"),
        (replace(item, content=second.items[0].content), "another part"),
    ]
    for bad, says in wrong:
        with pytest.raises(ValueError, match=says):
            check_sheets(mat, paper, (replace(first, items=(bad,)), second))


def test_records_check_themselves() -> None:
    for change, says in (
        ({"number": 0.0}, "every size"),
        ({"headings": ("ones",)}, "headings"),
        ({"hints": ()}, "hints"),
    ):
        with pytest.raises(ValueError, match=says):
            replace(text(mat_needs([Sum(71, 48)], "two")), **change)
    with pytest.raises(ValueError, match=r"Mat\.tiles"):
        replace(good(), turned=(True,))
    with pytest.raises(ValueError, match="leaves the mat"):
        replace(good(), width=100)
    with pytest.raises(ValueError, match=r"Mat\.zone"):
        good().zone("rest", 0)
