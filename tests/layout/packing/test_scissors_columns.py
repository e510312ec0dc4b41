"""Sheets for a pair of scissors: columns ten units wide, few letters, the least sheets."""

from collections import Counter
from dataclasses import replace
from itertools import product

import pytest
from grids import each, some
from hypothesis import given, settings
from layout.packing.test_sheet_packing import wishes
from scissors_follower import StrandedError, follow_sheet, grids

from kitbuilder.design import load as designs
from kitbuilder.design.style import Style
from kitbuilder.draw.draw_sheet import draw_sheet
from kitbuilder.draw.primitives import Strokes, Words
from kitbuilder.kit.records import CutWish
from kitbuilder.layout.cutting.cut_marks import CutMark, lettered_cuts
from kitbuilder.layout.cutting.verify_cuts import check_plan
from kitbuilder.layout.packing.grid import OUTLINE, Counts, Grid, holds
from kitbuilder.layout.packing.guillotine import Part, walk
from kitbuilder.layout.packing.scissors_columns import DOUBLED, Step, column_sheet, fits
from kitbuilder.layout.pieces.making import Making
from kitbuilder.layout.pieces.pack_pieces import pack_pieces
from kitbuilder.layout.printable import Page
from kitbuilder.number import Pieces

A4 = Page.sized(210, 297, 5, 5, 5, 5)


def ends(sheet: Part) -> Counter[str]:
    return Counter(part.what for *_, part in walk(sheet) if not part.halves)


def steps(sheet: Part) -> Counter[int]:
    return Counter(part.step for *_, part in walk(sheet) if part.halves)


def test_the_sheet_of_a_first_kit() -> None:
    # Three hundreds, ten tens and fifteen ones are 42 rows: two columns of 21. A takes the foot
    # off; B, C, D run lengthways; the left column is cut across three times (head, two hundreds,
    # a strip), the right one twelve times; 9 and 5 snips.
    sheet = column_sheet((3, 10, 15), Grid.of(A4, 10))
    assert sheet is not None
    assert steps(sheet) == {Step.FOOT: 1, Step.LENGTHWAYS: 3, Step.ACROSS: 3 + 12, Step.SNIP: 9 + 5}
    assert ends(sheet)["offcut"] == 1 + 2 + 2 + 1  # foot, sides, heads, the end of a strip


def test_ten_ones_are_a_small_strip_and_not_the_whole_sheet() -> None:
    # The foot's cut is one unit below the letters' head: 5 + 9 + 10 mm from the top.
    sheet = column_sheet((0, 0, 10), Grid.of(A4, 10))
    assert sheet is not None
    assert (sheet.axis, sheet.at) == ("y", 2400)


@pytest.mark.parametrize(
    ("unit", "paper"),
    some(product([5.0, 8.0, 9.5, 10.0, 13.0, 15.0], designs.names("paper")), 2),
)
def test_columns_hold_whatever_a_grid_holds(paper: str, unit: float) -> None:
    grid = Grid.of(Page.upright(designs.paper(paper)), unit)
    hundreds, strips, area = holds(grid.across, grid.down)
    for h in {hundreds, hundreds // 2, 0}:
        for t in {strips - 10 * h, (strips - 10 * h) // 2, 0}:
            counts: Counts = (h, t, area - 100 * h - 10 * t)
            sheet = column_sheet(counts, grid)
            assert sheet is not None, counts
            made = ends(sheet)
            assert (made["hundreds"], made["tens"], made["ones"]) == counts
            assert (sheet.width, sheet.height) == (grid.width, grid.height)


def test_more_than_a_grid_holds_does_not_fit() -> None:
    grid = Grid.of(A4, 10)  # 20 by 28: four hundreds, 56 strips, 560 units
    for counts in ((5, 0, 0), (4, 17, 0), (0, 57, 0), (0, 0, 561)):
        assert not fits(counts, grid)
        assert column_sheet(counts, grid) is None
    assert fits((4, 16, 0), grid)


@settings(max_examples=60, deadline=None)
@given(wishes())
def test_any_demand_is_cut_in_four_steps(
    wish: tuple[Pieces, Page, float, int, int, bool],
) -> None:
    demand, paper, unit, kits, _, same = wish
    plan = pack_pieces(demand, paper, unit, CutWish(kits=kits, same_sheets=same))
    check_plan(plan)
    for sheet in plan.printed:
        assert set(sheet.stops) <= set(Step)


def test_strokes_are_few_beside_the_fewest_known() -> None:
    # At one layer the least found for plain blocks is parts minus sheets; columns may take one
    # stroke in ten more over a stretch of kits, papers and units.
    cases = [
        (designs.paper(paper), unit, kit)
        for paper in ("a4", "letter", "a3")
        for unit in (7.5, 9.5, 10.0, 12.0)
        for kit in (Pieces(15, 10, 3), Pieces(18, 9, 0), Pieces(19, 19, 9))
    ]
    strokes = least = 0
    for paper, unit, kit in cases:
        plan = pack_pieces(kit, Page.upright(paper), unit)
        strokes += plan.strokes
        least += sum(kit.counts) + 4 * plan.sheets - plan.sheets
    assert strokes <= 1.1 * least


def test_folded_pieces_lie_in_columns_too() -> None:
    # A folded hundred is twenty rows of a column, a folded ten two; nothing but rims falls off.
    grid = Grid.of(A4, 10)
    sheet = column_sheet((2, 8, 0), grid, DOUBLED)
    assert sheet is not None
    assert ends(sheet) == {"folded_hundreds": 2, "folded_tens": 8, "offcut": 6}
    assert not fits((3, 0, 0), grid, DOUBLED)


SETS = [
    (Making(), Pieces(15, 10, 3), 1),
    (Making(), Pieces(18, 19, 9), 2),
    (Making(), Pieces(10, 0, 0), 1),
    (Making("fold"), Pieces(15, 13, 4), 1),
    (Making("backs"), Pieces(15, 13, 4), 1),
]
SHEETS = (("a4", 10), ("a4", 9.5), ("a4", 15), ("letter", 10), ("letter", 5), ("a5", 9), ("a3", 13))


@pytest.mark.parametrize(
    ("paper", "unit", "look"),
    [(*sheet, look) for sheet, look in each(SHEETS, designs.names("looks"))],
)
def test_who_cuts_by_lines_and_letters_has_all_the_pieces(
    look: str, paper: str, unit: float
) -> None:
    style = Style(replace(designs.paper(paper), unit_mm=unit), look=designs.look(look))
    for making, pieces, kits in SETS:
        wish = CutWish(kits)
        try:
            plan = making.plan(pieces, style.paper, wish)
        except Exception as refusal:
            assert "fit" in str(refusal)
            continue
        assert plan
        made = Counter[tuple[float, float]]()
        for sheet in making.sheets(plan, pieces, style, wish):
            if sheet.flip:
                continue
            drawing = draw_sheet(sheet, 1, style)
            followed = follow_sheet(drawing)
            grey = grids(drawing)
            for left, top, right, bottom in followed.parts:
                sides = sorted((round(right - left, 2), round(bottom - top, 2)))
                inside = any(
                    min(x1, x2) < right - 0.1
                    and max(x1, x2) > left + 0.1
                    and min(y1, y2) < bottom - 0.1
                    and max(y1, y2) > top + 0.1
                    for x1, y1, x2, y2 in grey
                )
                if inside or sides == [unit, unit]:
                    made[sides[0], sides[1]] += sheet.copies
        for what, count in ((c.what, c.count) for c in plan.bag):
            doubled = {"folded_hundreds": (20, 10), "folded_tens": (10, 2)}
            long, short = OUTLINE[what] if what in OUTLINE else doubled[what]
            least, most = sorted((round(long * unit, 2), round(short * unit, 2)))
            got = made[least, most]
            assert got == count * kits if what != "ones" else got >= count * kits, what


def test_a_letter_beside_no_line_strands_the_reader() -> None:
    style = Style(designs.paper("a4"))
    plan = Making().plan(Pieces(15, 10, 3), style.paper, CutWish())
    (sheet,) = Making().sheets(plan, Pieces(15, 10, 3), style, CutWish())
    drawing = draw_sheet(sheet, 1, style)
    assert follow_sheet(drawing).lettered == ["A", "B", "C", "D"]
    dark = style.look.ink.cut
    gone = tuple(m for m in drawing.marks if not (isinstance(m, Strokes) and m.colour == dark))
    with pytest.raises(StrandedError, match="A at"):
        follow_sheet(replace(drawing, marks=gone))
    short = tuple(
        replace(
            m,
            lines=tuple(
                (x1, y1, x2 - 1, y2) if y1 == y2 else (x1, y1, x2, y2) for x1, y1, x2, y2 in m.lines
            ),
        )
        if isinstance(m, Strokes) and m.colour == dark
        else m
        for m in drawing.marks
    )
    with pytest.raises(StrandedError, match="A at"):
        follow_sheet(replace(drawing, marks=short))
    unlettered = tuple(m for m in drawing.marks if not isinstance(m, Words))
    assert follow_sheet(replace(drawing, marks=unlettered)).lettered == []


@pytest.mark.parametrize(("paper", "unit"), [("a5", 9.0), ("a5", 7.0), ("letter", 10.0)])
def test_every_line_has_a_letter_where_the_sheets_have_room_for_it(paper: str, unit: float) -> None:
    # 545 units lie on two sheets either way, but only shorter columns leave room for a foot.
    page = Page.upright(designs.paper(paper))
    plan = pack_pieces(Pieces(15, 13, 4), page, unit)
    assert plan.sheets == 2
    assert all(one.root.number == Step.FOOT for one in plan.cut_sheets)


def test_no_line_is_nearer_to_a_letter_than_its_own() -> None:
    # Columns of 15 mm: right of its line a letter would stand nearer to the next one.
    style = Style(replace(designs.paper("a4"), unit_mm=15))
    wish = CutWish(2)
    plan = Making().plan(Pieces(18, 19, 9), style.paper, wish)
    assert plan
    for sheet in Making().sheets(plan, Pieces(18, 19, 9), style, wish):
        first = dict(lettered_cuts(sheet))
        for mark in (i.content for i in sheet.items if isinstance(i.content, CutMark)):
            x = mark.disc.x + mark.disc.width / 2
            down = {k: abs(c.x1 - x) for k, c in first.items() if c.x1 == c.x2}
            assert mark.letter not in down or min(down.values()) == down[mark.letter]
