"""Mats: the fewest sheets, every piece in its zone, and a checker that finds what is wrong."""

from dataclasses import replace
from itertools import pairwise, product
from typing import get_args
from unittest.mock import MagicMock

import pytest
from grids import pairs, some
from hypothesis import given, settings
from hypothesis import strategies as st

from kitbuilder.design import load as designs
from kitbuilder.design.load import Margins, Paper
from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError
from kitbuilder.kit.mat_needs import (
    ZONES,
    Arrangement,
    Headings,
    MatNeeds,
    Role,
    bands,
    filling_sums,
    mat_needs,
    roles,
)
from kitbuilder.layout.mat import tiling
from kitbuilder.layout.mat.lying import Manner, free, ones, pile, tens
from kitbuilder.layout.mat.mat_columns import held
from kitbuilder.layout.mat.mat_plan import MatPlan, plan_mat
from kitbuilder.layout.mat.mat_records import FINGER, LabelKind, Mat, MatTile
from kitbuilder.layout.mat.mat_text import MatText, mat_text
from kitbuilder.layout.mat.tiling import Grid, Stretch, divide, page_of
from kitbuilder.layout.mat.verify_mat import check_mat, check_sheets
from kitbuilder.layout.model import Cut, Rect
from kitbuilder.layout.picture.piles import spots
from kitbuilder.number.choice.pick import choose
from kitbuilder.number.choice.pool import Wish
from kitbuilder.number.sums import Sum

ARRANGEMENTS: tuple[Arrangement, ...] = (*ZONES, "add")
PAPERS = {name: designs.paper(name) for name in ("a4", "a3", "letter", "legal")}
PACKS = {
    "within 100": (*filling_sums(100), *choose(Wish(2), 6, seed=1)),
    "within 1000, both columns": (*filling_sums(1000), *choose(Wish(3, ("both",)), 6, seed=1)),
    "across a zero": (Sum(604, 167), *choose(Wish(3, ("across-zero",)), 6, seed=1)),
}
LARGEST = Sum(634, 258)


def text(needs: MatNeeds, paper: Paper = PAPERS["a4"]) -> MatText:
    return mat_text(needs.arrangement, needs.places, "words", Style(paper))


def plan(needs: MatNeeds, paper: Paper) -> MatPlan:
    return plan_mat(needs, text(needs, paper), Style(paper))


def checked(found: MatPlan, sums: tuple[Sum, ...] | list[Sum]) -> None:
    check_mat(found.mat, sums)
    check_sheets(found.mat, page_of(found.paper, found.mat.turned), found.sheets)


@pytest.mark.parametrize(("paper", "arrangement", "pack"), pairs([*PAPERS], ARRANGEMENTS, [*PACKS]))
def test_each_pack_lies_on_every_paper(paper: str, arrangement: Arrangement, pack: str) -> None:
    found = plan(mat_needs(PACKS[pack], arrangement), PAPERS[paper])
    checked(found, PACKS[pack])
    mat = found.mat
    lying = dict(zip(roles(arrangement), mat.outlines, strict=True))
    for upper, lower in pairwise(bands(arrangement)):
        assert lying[upper[0]].bottom <= lying[lower[0]].y + 1e-6
    for left, right in (pair for row in bands(arrangement) for pair in pairwise(row)):
        assert lying[left].right <= lying[right].x + 1e-6
    for tile in mat.tiles:  # a sheet in the hand says what it is a part of
        named = {x.role for x in mat.labels if tile.holds(x.rect) and x.kind in NAMES}
        beginning = {
            role
            for role, strip in zip(roles(arrangement), mat.strips, strict=True)
            if strip.overlaps(tile, 1e-6)
        }
        assert beginning <= named


NAMES = ("name", "again")


@pytest.mark.parametrize(
    ("sums", "paper", "across", "down", "turned"),
    [
        # 9 tens are 90 mm and two frames 45; with 2 mm for fingers on each side that is 143 of
        # 200 mm. A zone is its name, a line of headings and 100 mm of tens: twice of 279 mm.
        (filling_sums(100), "a4", 1, 1, False),
        (filling_sums(100), "letter", 1, 1, False),
        # 3 hundreds in a pile are 110 mm across, 10 tens 100, a frame 20: with fingers 242 mm,
        # which neither page holds upright; lying on its side it is 200 mm high, one zone's.
        ((Sum(305, 148),), "a4", 1, 2, True),
        ((Sum(305, 148),), "letter", 1, 2, True),
        # 6 hundreds 125 mm, 13 tens 130, a frame 20 and fingers 12: 287, and A4 prints 287.
        ((LARGEST,), "a4", 1, 2, True),
        # Letter prints 266.7 that way, so a zone takes two sheets; upright they keep the
        # height of both zones, 186 mm each, off one page of 267.
        ((LARGEST,), "letter", 2, 2, False),
        # 9 hundreds 140 mm, 19 tens 190, a frame 20 and fingers 12: 362, of two sheets upright
        # 397; the pile is 140 mm high, with words and boxes 189, of one sheet 265.
        (filling_sums(1000), "a4", 2, 2, False),
        # One A3 on its side prints 410 mm across and 287 down: one zone.
        (filling_sums(1000), "a3", 1, 2, True),
    ],
)
def test_the_fewest_sheets(
    sums: tuple[Sum, ...], paper: str, across: int, down: int, turned: bool
) -> None:
    mat = plan(mat_needs(sums, "two"), PAPERS[paper]).mat
    assert (mat.across, len(mat.tiles) // mat.across, mat.turned) == (across, down, turned)


def test_no_piece_lies_across_a_join_on_usual_paper() -> None:
    for paper in ("a4", "letter"):
        for sums in (*PACKS.values(), (LARGEST,), filling_sums(1000)):
            mat = plan(mat_needs(sums, "two"), PAPERS[paper]).mat
            for slot in (slot for zone in mat.zones for slot in zone.slots):
                assert any(tile.holds(slot, 1e-4) for tile in mat.tiles)


def test_a_join_runs_between_two_tens_within_1000() -> None:
    mat = plan(mat_needs(filling_sums(1000), "two"), PAPERS["a4"]).mat
    join = mat.tiles[0].right
    ends = [slot.right for slot in mat.zone("whole", 1).slots]
    assert ends[4] == pytest.approx(join)  # after the fifth


def test_hundreds_lie_free_where_that_takes_no_more_sheets() -> None:
    # At 5 mm three hundreds side by side are 156 mm; ten tens 50 and a box 18: more than 200.
    # In two rows they are 103 across: 171 with tens and ones, and fingers 12. Two zones of 2 x
    # 50 + 3 mm, with boxes below, fit 279.
    paper = replace(PAPERS["a4"], unit_mm=5.0)
    mat = plan(mat_needs([Sum(305, 148)], "two"), paper).mat
    assert (len(mat.tiles), mat.manner.row) == (1, 2)
    slots = mat.zone("whole", 2).slots
    assert not any(a.overlaps(b) for a, b in pairwise(slots))
    assert plan(mat_needs([LARGEST], "two"), paper).mat.manner.row == 0  # six do not fit


def test_headings_of_every_kind_leave_a_mat_on_as_many_sheets() -> None:
    needs = mat_needs([Sum(350, 170)], "two")
    written = [mat_text("two", 3, kind, Style(PAPERS["a4"])) for kind in get_args(Headings)]
    assert {len(plan_mat(needs, t, Style(PAPERS["a4"])).mat.tiles) for t in written} == {2}


def test_a_pile_steps_half_a_unit_to_the_right_and_down() -> None:
    # Our rule: nine hundreds at 10 mm take 140 by 140 mm, and of each one
    # below two sides of 5 mm are seen, never a strip of ten squares.
    found = pile(9, 10)
    assert (found.width, found.height) == (140, 140)
    assert [(s.x, s.y) for s in found.slots] == [(5 * k, 5 * k) for k in range(9)]
    apart = free(3, 10, 2)
    assert [(s.x, s.y) for s in apart.slots] == [(0, 0), (103, 0), (0, 103)]


def test_tens_and_ten_frames_stand() -> None:
    row = tens(13, 10)
    assert {(s.width, s.height, s.y) for s in row.slots} == {(10, 100, 0)}
    assert (row.width, row.frames[0].width) == (130, 100)
    below, beside = ones(14, 10, beside=False), ones(14, 10, beside=True)
    # five down, then five down; the second frame half a unit further
    assert [(s.x, s.y) for s in below.slots[3:7]] == [(0, 30), (0, 40), (10, 0), (10, 10)]
    assert (below.slots[10].x, below.slots[10].y) == (0, 55)
    assert (beside.slots[10].x, beside.slots[10].y) == (25, 0)
    assert [(f.width, f.height) for f in beside.frames] == [(20, 50), (20, 50)]


def test_two_digits_have_frames_beside_each_other_and_three_below() -> None:
    assert plan(mat_needs([Sum(71, 48)], "two"), PAPERS["a4"]).mat.manner.beside
    assert not plan(mat_needs([Sum(305, 148)], "two"), PAPERS["a4"]).mat.manner.beside


def test_every_column_has_a_box_for_a_digit_card() -> None:
    for sums in PACKS.values():
        mat = plan(mat_needs(sums, "two"), PAPERS["a4"]).mat
        assert {(zone.box.width, zone.box.height) for zone in mat.zones} == {(18.0, 21.0)}


def test_fewest_sheets_never_grow_with_a_smaller_unit() -> None:
    needs = mat_needs(filling_sums(1000), "two")
    counts = [
        len(plan(needs, replace(PAPERS["a4"], unit_mm=float(u))).sheets)
        for u in (10, 9, 8, 7, 6, 5)
    ]
    assert all(a >= b for a, b in pairwise(counts))
    # At 5 mm 70 + 95 + 10 mm of pieces, the ones' column 22 for its box, fit 200 mm.
    assert counts[-1] == 1


def test_a_turned_page_keeps_the_larger_margin() -> None:
    # Nobody knows which way a printer turns a page, so left may become top or bottom.
    paper = replace(PAPERS["a4"], margins_mm=Margins(left=3, right=4, top=5, bottom=15))
    assert page_of(paper, True).inside == Rect(15, 4, 297 - 30, 210 - 8)
    assert page_of(paper, False).inside == Rect(3, 5, 203, 277)


def test_a_glued_sheet_keeps_8_mm_of_paper_under_its_neighbour() -> None:
    # Of the margin of 5 mm 3 are lacking, so a mat of two sheets across is 200 + 197 mm.
    grid = Grid(PAPERS["a4"], False, 2, 1)
    assert (grid.widths, grid.spot(0), grid.spot(1)) == ((200, 197), (5, 5), (8, 5))
    wide = replace(PAPERS["a4"], margins_mm=Margins(10, 10, 10, 10))
    assert Grid(wide, False, 2, 1).widths == (190, 190)


def test_a_join_never_runs_through_words_nor_parts_them_from_their_zone() -> None:
    head = Stretch(30, grows=False, cuttable=False)
    cell = Stretch(100, tied=True)
    found = divide((head, cell, head), (100, 100))
    assert found is not None
    assert found.sizes == (30, 140, 30)  # the join, at 100, lies inside the zone
    assert divide((head._replace(least=120),), (100, 100)) is None
    apart = divide((head, cell, head, cell), (160, 160))
    assert apart is not None
    assert (apart.sizes, apart.cost) == ((30, 130, 30, 130), 1)


def test_a_join_runs_between_pieces_where_it_can() -> None:
    # Ten tens of 10 mm with 2 mm for fingers: 98 mm hold nine of them.
    row = Stretch(104, stops=tuple(2 + 10.0 * k for k in range(1, 10)))
    found = divide((row, Stretch(60)), (98, 98))
    assert found is not None
    assert found.cost == 3
    assert divide((Stretch(104), Stretch(60)), (98, 98)).cost == 9  # type: ignore[union-attr]


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
    checked(found, sums)
    for zone in found.mat.zones:
        assert zone.capacity == held(needs, zone.role, zone.place)


@given(wishes())
@settings(max_examples=40, deadline=None, derandomize=True)
def test_every_pack_paper_and_unit(wish: tuple[list[Sum], Arrangement, Paper]) -> None:
    check(wish)


@pytest.mark.parametrize(
    ("look", "language"), some(product(designs.names("looks"), ("es", "en-GB", "en-US")), 2)
)
def test_every_look_and_language(look: str, language: str) -> None:
    for paper in (PAPERS["a4"], PAPERS["letter"], designs.paper("a5")):
        style = Style(paper, designs.words(language), designs.look(look))
        for sums in (filling_sums(100), (Sum(305, 148),)):
            needs = mat_needs(sums, "two")
            found = plan_mat(needs, mat_text("two", needs.places, "words", style), style)
            checked(found, sums)


def test_what_is_said_over_a_mat_is_broken_where_no_sheet_is_so_wide() -> None:
    # the addition's mat was refused after half a minute: its hint is longer than A5 is wide
    style = Style(designs.paper("a5"), designs.words(), designs.look("bold"))
    needs = mat_needs([LARGEST], "add")
    found = plan_mat(needs, mat_text("add", needs.places, "words", style), style)
    checked(found, [LARGEST])
    said = [label for label in found.mat.labels if label.kind == LabelKind.HINT]
    assert [label.role for label in said].count("together") == 2


def test_a_way_on_from_a_join_is_looked_for_once(monkeypatch: pytest.MonkeyPatch) -> None:
    # four columns twice over many sheets took three minutes
    fillings = MagicMock(side_effect=tiling._fillings)
    monkeypatch.setattr(tiling, "_fillings", fillings)
    stops = tuple(2.0 + 9 * k for k in range(1, 11))
    wide = (Stretch(130), Stretch(130, stops=stops), Stretch(99, stops=stops), Stretch(60)) * 2
    assert divide(wide, (138.0,) * 9)
    assert fillings.call_count < 500


@pytest.mark.usefixtures("anew")
def test_what_no_page_holds_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("kitbuilder.layout.mat.mat_plan.MOST_SHEETS", 6)
    needs = mat_needs([LARGEST], "two")
    with pytest.raises(RefusedError, match="smaller unit"):
        plan(needs, replace(PAPERS["a4"], unit_mm=90.0))
    with pytest.raises(RefusedError, match="larger paper"):
        plan(needs, replace(PAPERS["a4"], width_mm=60.0, height_mm=70.0))


def good() -> Mat:
    return plan(mat_needs([LARGEST], "two"), PAPERS["a4"]).mat


def with_slots(mat: Mat, role: Role, place: int, slots: tuple[Rect, ...]) -> Mat:
    zones = tuple(
        replace(z, slots=slots) if (z.role, z.place) == (role, place) else z for z in mat.zones
    )
    return replace(mat, zones=zones)


@pytest.mark.parametrize(("place", "least"), [(2, 6), (1, 13), (0, 14)])
def test_the_checker_finds_a_mat_too_small_by_one_step(place: int, least: int) -> None:
    # Before it was known that tens may be taken first, a mat had room for twelve tens.
    slots = good().zone("whole", place).slots
    assert len(slots) == least
    with pytest.raises(ValueError, match=f"has room for {least - 1}; {least} lie there"):
        check_mat(with_slots(good(), "whole", place, slots[:-1]), [LARGEST])


def test_the_checker_finds_a_zone_too_narrow_by_half_a_unit() -> None:
    mat = good()
    zones = tuple(
        replace(z, rect=z.rect._replace(width=z.rect.width - 5))
        if (z.role, z.place) == ("whole", 2)
        else z
        for z in mat.zones
    )
    with pytest.raises(ValueError, match="sticks out"):
        check_mat(replace(mat, zones=zones), [LARGEST])


@pytest.mark.parametrize("step", [4.0, 6.0, 10.0])
def test_the_checker_finds_a_pile_of_other_steps(step: float) -> None:
    # At ten millimetres, as by a unit across alone, a strip in sight looks like a ten.
    slots = good().zone("whole", 2).slots
    moved = tuple(slots[0].moved(0, step * k) for k in range(len(slots)))
    with pytest.raises(ValueError, match=r"piece 1 of .* is hidden"):
        check_mat(with_slots(good(), "whole", 2, moved[:2]), [Sum(234, 58)])


def test_the_checker_finds_a_piece_that_sticks_out() -> None:
    slots = good().zone("whole", 1).slots
    out = tuple(s.moved(0, -FINGER) for s in slots)
    with pytest.raises(ValueError, match="sticks out"):
        check_mat(with_slots(good(), "whole", 1, out), [LARGEST])


def test_the_checker_finds_a_hidden_ten_and_wrong_sizes() -> None:
    slots = good().zone("whole", 1).slots
    with pytest.raises(ValueError, match="is hidden"):
        check_mat(with_slots(good(), "whole", 1, (slots[0], *slots[:-1])), [LARGEST])
    lying = tuple(Rect(s.x, s.y, s.height, s.width) for s in slots)
    with pytest.raises(ValueError, match="not of piece size"):
        check_mat(with_slots(good(), "whole", 1, lying), [LARGEST])


def test_the_checker_finds_ones_in_rows() -> None:
    slots = good().zone("part", 0).slots
    first = slots[0]
    rows = tuple(first.moved(k % 2 * 10, k // 2 * 10) for k in range(8))
    with pytest.raises(ValueError, match="do not fill standing ten-frames"):
        check_mat(with_slots(good(), "part", 0, rows), [LARGEST])


def test_the_checker_finds_words_across_a_join_and_boxes_over_each_other() -> None:
    mat = good()
    join = mat.tiles[0].bottom
    name = next(x for x in mat.labels if x.kind == "hint")
    over = replace(name, rect=name.rect._replace(y=join - 2))
    with pytest.raises(ValueError, match="lies across a join"):
        check_mat(replace(mat, labels=(over,)), [])
    with pytest.raises(ValueError, match="over each other"):
        check_mat(replace(mat, labels=(name, *mat.labels)), [])
    on_pieces = replace(name, rect=mat.zones[0].slots[0])
    with pytest.raises(ValueError, match="over each other"):
        check_mat(replace(mat, labels=(on_pieces,)), [])
    wide = replace(mat.zones[0], rect=mat.outlines[0])
    with pytest.raises(ValueError, match="over each other"):
        check_mat(replace(mat, zones=(wide, *mat.zones[1:])), [])
    with pytest.raises(ValueError, match=r"tiles .* over each other"):
        check_mat(replace(mat, tiles=(mat.tiles[0], *mat.tiles)), [])
    first, second = mat.tiles
    with pytest.raises(ValueError, match="not wholly on the tiles"):
        check_mat(replace(mat, tiles=(first._replace(height=first.height - 1), second)), [])


def test_the_checker_of_sheets_finds_what_is_wrong() -> None:
    found = plan(mat_needs(filling_sums(1000), "two"), PAPERS["a4"])
    mat, sheets, page = found.mat, found.sheets, page_of(PAPERS["a4"], False)
    check_sheets(mat, page, sheets)
    first, *others = sheets
    item = first.items[0]
    for bad, says in (
        (replace(first, cuts=first.cuts[:1]), "is cut at"),
        (replace(first, cuts=()), "is cut at"),
        (replace(first, cuts=(replace(first.cuts[0], y2=200.0), *first.cuts[1:])), "is cut at"),
        (replace(first, cuts=(*first.cuts, Cut(0, 9, 210, 9))), "is cut at"),
        (replace(first, items=(item._replace(content=None),)), "holds no tile"),
        (replace(first, items=(item._replace(rect=item.rect._replace(width=90)),)), "tile's size"),
        (replace(first, items=(item._replace(rect=item.rect.moved(0, -3)),)), "printable"),
        (replace(first, items=(item._replace(content=others[0].items[0].content),)), "another"),
    ):
        with pytest.raises(ValueError, match=says):
            check_sheets(mat, page, (bad, *others))
    with pytest.raises(ValueError, match="3 sheets for 4"):
        check_sheets(mat, page, sheets[:3])
    second = sheets[1]
    item = second.items[0]
    near = replace(second, items=(item._replace(rect=item.rect.moved(-3, 0)),))
    with pytest.raises(ValueError, match="too little paper"):
        check_sheets(mat, page, (first, near, *sheets[2:]))


def test_the_upper_and_left_sheets_are_cut_and_the_faces_of_both_meet() -> None:
    found = plan(mat_needs(filling_sums(1000), "two"), PAPERS["a4"])
    joins = []
    for sheet in found.sheets:
        tile = sheet.items[0].content
        assert isinstance(tile, MatTile)
        joins.append({join.edge: join for join in tile.joins})
        assert {join.edge for join in tile.joins if join.cut} <= {"right", "bottom"}
    assert [sorted(one) for one in joins] == [
        ["bottom", "right"],
        ["bottom", "left"],
        ["right", "top"],
        ["left", "top"],
    ]
    for one, other, numbers in (
        (joins[0]["right"], joins[1]["left"], (2, 1)),
        (joins[0]["bottom"], joins[2]["top"], (3, 1)),
    ):
        assert (one.other, other.other) == numbers
        assert one.faces == other.faces
        assert len(one.faces) == 2


def test_records_check_themselves() -> None:
    mat = good()
    with pytest.raises(ValueError, match=r"Mat\.tiles"):
        replace(mat, across=3)
    with pytest.raises(ValueError, match="leaves the mat"):
        replace(mat, tiles=mat.tiles[:1])
    with pytest.raises(ValueError, match=r"Mat\.zone"):
        mat.zone("rest", 0)
    assert mat.manner == Manner(0, False)


@pytest.mark.parametrize("arrangement", ARRANGEMENTS)
def test_pictures_in_lessons_are_the_same_mat(arrangement: Arrangement) -> None:
    # Zones in the same rows, a pile of the same steps, frames filled in the same order.
    mat = plan(mat_needs([Sum(305, 148)], arrangement), PAPERS["a4"]).mat
    tops = dict(zip(roles(arrangement), (outline.y for outline in mat.outlines), strict=True))
    rows = bands(arrangement)
    assert sorted(role for row in rows for role in row) == sorted(roles(arrangement))
    assert [len({tops[role] for role in row}) for row in rows] == [1] * len(rows)
    assert sorted({tops[role] for role in tops}) == [tops[row[0]] for row in rows]
    pictured = spots(2, 9, under=True)
    assert [(s.x, s.y) for s in pictured] == [(s.x, s.y) for s in pile(9, 1).slots]
    for under in (True, False):
        for small, true in zip(
            pairwise(spots(0, 18, under=under)),
            pairwise(ones(18, 1, beside=not under).slots),
            strict=True,
        ):
            moves = [
                ((b.x > a.x) - (b.x < a.x), (b.y > a.y) - (b.y < a.y)) for a, b in (small, true)
            ]
            assert moves[0] == moves[1]


def test_a_part_lies_below_its_whole_also_where_a_join_runs_through_the_tens() -> None:
    mat = plan(mat_needs(filling_sums(1000), "two"), PAPERS["a4"]).mat
    whole, part = (mat.zone(role, 1).slots for role in roles("two"))
    assert [slot.x for slot in whole[: len(part)]] == [slot.x for slot in part]
