"""Sturdier pieces: folded double, or with grids on both sides in register."""

from collections import Counter
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kitbuilder.design import load as designs
from kitbuilder.design.load import Margins
from kitbuilder.design.style import Style
from kitbuilder.draw.draw_sheet import draw_sheet
from kitbuilder.errors import RefusedError
from kitbuilder.kit.records import CutWish
from kitbuilder.layout.cutting.cut_marks import CUT_MARK
from kitbuilder.layout.cutting.folded_pieces import FOLDED, fold_line
from kitbuilder.layout.feet import footed
from kitbuilder.layout.model import Rect, Sheet
from kitbuilder.layout.pieces.making import Making
from kitbuilder.layout.pieces.sturdy import fold_plan, two_sided
from kitbuilder.number import Pieces
from kitbuilder.output.svg import page_svg
from kitbuilder.press.printing import Printing, fitted_paper, press_for

A4 = fitted_paper("a4")


def sheets(making: Making, pieces: Pieces, paper: designs.Paper = A4) -> tuple[Sheet, ...]:
    wish = CutWish()
    plan = making.plan(pieces, paper, wish)
    return making.sheets(plan, pieces, Style(paper), wish)


def test_a_folded_hundred_is_two_hundreds_side_by_side() -> None:
    # a4 prints 20 by 28 units: two columns, each a doubled hundred of 20 rows and
    # four doubled tens of two.
    (sheet,) = sheets(Making("fold"), Pieces(0, 8, 2))
    pieces = [item for item in sheet.items if item.what != CUT_MARK]
    assert Counter(item.what for item in pieces) == {"folded_hundreds": 2, "folded_tens": 8}
    sizes = {tuple(sorted((i.rect.width, i.rect.height))) for i in pieces}
    assert sizes == {(100, 200), (20, 100)}


@pytest.mark.parametrize(
    ("what", "rect", "halves"),
    [
        ("folded_hundreds", Rect(0, 0, 200, 100), (100, 0, 100, 100)),
        ("folded_hundreds", Rect(0, 0, 100, 200), (0, 100, 100, 100)),
        # A ten stays ten ones long: it is folded along its length.
        ("folded_tens", Rect(0, 0, 100, 20), (0, 10, 100, 10)),
        ("folded_tens", Rect(0, 0, 20, 100), (10, 0, 10, 100)),
    ],
)
def test_both_halves_are_a_true_piece(what: str, rect: Rect, halves: tuple[float, ...]) -> None:
    assert fold_line(what, rect) == halves


@settings(max_examples=40, deadline=None)
@given(
    st.integers(0, 9),
    st.integers(0, 19),
    st.integers(0, 18),
    st.integers(1, 3),
    st.sampled_from(["a4", "letter", "a3", "b4"]),
    st.sampled_from([5.0, 9.5, 10.0]),
)
def test_every_folded_stock_is_cut_whole(
    h: int, t: int, o: int, kits: int, name: str, unit: float
) -> None:
    # check_plan replays each cut; exactly the pieces asked for must be left.
    paper = replace(designs.paper(name), unit_mm=unit)
    plan = fold_plan(Pieces(o, t, h), paper, CutWish(kits))
    if not h + t + o:
        assert plan is None
        return
    assert plan is not None
    held = Counter[str]()
    for sheet in plan.printed:
        for item in sheet.items:
            held[item.what] += sheet.copies
            if item.what in FOLDED:
                sides = sorted((item.rect.width, item.rect.height), reverse=True)
                assert sides == pytest.approx([n * unit for n in FOLDED[item.what]])
    wanted = {"folded_hundreds": h * kits, "folded_tens": t * kits, "ones": o * kits}
    assert held == Counter({what: count for what, count in wanted.items() if count})


def test_a_folded_piece_too_large_is_refused() -> None:
    # a5 prints 200 mm down inside 5 mm margins, room for 20 units of 10 mm
    paper = designs.paper("a5")
    with pytest.raises(RefusedError, match="choose --unit 10 or less, or --sturdy backs"):
        fold_plan(Pieces(0, 0, 1), replace(paper, unit_mm=10.01), CutWish())
    assert fold_plan(Pieces(0, 0, 1), replace(paper, unit_mm=10.0), CutWish())


def test_folds_are_drawn_once_and_apart() -> None:
    (sheet,) = sheets(Making("fold"), Pieces(0, 0, 1))
    svg = page_svg(draw_sheet(sheet, 2, Style(A4, designs.words(), designs.look())))
    printed, rest = svg.split('id="fold"')
    fold = rest.split('id="cut"')[0]
    hundred = next(item.rect for item in sheet.items if item.what == "folded_hundreds")
    y = hundred.y + 100
    assert f"M{hundred.x:g} {y:g}L{hundred.right:g} {y:g}" in fold
    assert f" {y:g}L" not in printed  # the grid leaves the fold's line out


def test_backs_lie_under_their_fronts() -> None:
    paper = replace(A4, margins_mm=Margins(5, 9, 5, 5), unit_mm=9.5)
    both = sheets(Making("backs"), Pieces(15, 13, 4), paper)
    assert len(both) % 2 == 0
    for front, back in zip(both[::2], both[1::2], strict=True):
        assert (front.flip, back.flip, back.cuts) == (None, "long-edge", ())
        assert front.number == back.number  # one sheet to cut
        pieces = [item for item in front.items if item.what != CUT_MARK]
        for one, other in zip(pieces, back.items, strict=True):
            # Turned over on the long edge, left becomes right.
            assert other.rect.x == pytest.approx(210 - one.rect.right)
            assert (other.rect.y, other.rect.width) == (one.rect.y, one.rect.width)
            assert min(other.rect.x, 210 - other.rect.right) >= 9


def test_a_back_has_grids_and_nothing_to_cut() -> None:
    _, back = sheets(Making("backs"), Pieces(3, 2, 1))
    svg = page_svg(draw_sheet(back, 3, Style(A4, designs.words(), designs.look())))
    assert "<path" in svg.split('id="fold"')[0]
    assert "<path" not in svg.split('id="cut"')[1]


def test_backs_leave_room_for_the_shift() -> None:
    wide = two_sided(replace(A4, margins_mm=Margins(4, 6, 3, 5)), (0.8, 0.3))
    assert wide.margins_mm == Margins(6.8, 6.8, 3.3, 5.3)


@pytest.mark.parametrize(
    ("printing", "said"),
    [
        ({"sturdy": "glue"}, "choose from fold, backs"),
        ({"sturdy": "fold", "cutter": "0.1"}, "give one of them"),
        ({"cutter": "svg,-1"}, "--cutter was '-1'; write svg, dxf or both"),
        ({"cutter": "svg,1,5"}, "--cutter was '5'"),
        ({"cutter": "2.5"}, "--cutter was 2.5 mm"),
        ({"cutter": "dxf, 0.123"}, "in hundredths"),
        ({"png": 5}, "choose 20 to 600"),
        ({"png": 0}, "--png was 0"),
    ],
)
def test_what_cannot_be_made_is_refused(printing: Printing, said: str) -> None:
    with pytest.raises(RefusedError, match=said):
        press_for(printing)


def test_a_back_is_footed_as_its_front() -> None:
    # 15 hundreds take several sheets of A4; a back is the same sheet of card. Cut one by one
    # their lines have letters, so they have numbers; cut in stacks it is the other way round.
    made = sheets(Making("backs"), Pieces(0, 0, 15))
    many = len(made) // 2
    numbered = [f"{n + 1} of {many}" for n in range(many)]
    for layers, names in ((1, numbered), (5, "ABCDEFGH"[:many])):
        both = footed(made, Style(A4), layers)
        feet = [page_svg(draw_sheet(s, n, Style(A4))) for n, s in enumerate(both)]
        for name, front, back in zip(names, feet[::2], feet[1::2], strict=True):
            assert f"<title>sheet {name} ·" in front
            assert f"<title>back of sheet {name} ·" in back


def test_the_back_of_an_only_sheet_says_that_it_is_one() -> None:
    front, back = footed(sheets(Making("backs"), Pieces(0, 0, 2)), Style(A4))
    assert "<title>print on card ·" in page_svg(draw_sheet(front, 1, Style(A4)))
    assert "<title>back · print on card" in page_svg(draw_sheet(back, 2, Style(A4)))


def test_a_printer_that_is_not_known_shifts_nothing() -> None:
    # a4 prints 20 by 28 units to the last half of a mm: 560 ones are one sheet, or with any
    # shift across, which a margin gives way to, two.
    plan = Making("backs").plan(Pieces(560, 0, 0), A4, CutWish())
    assert plan is not None
    assert plan.sheets == 1
