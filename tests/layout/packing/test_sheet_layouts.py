"""The steps of packing one by one: blocks, spreads, panels and stacks."""

from collections import Counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kitbuilder.layout.packing.block_tree import Builder
from kitbuilder.layout.packing.column_block import best_block
from kitbuilder.layout.packing.distribute import spread, spread_greedily
from kitbuilder.layout.packing.grid import Counts, Grid, holds, least_sheets
from kitbuilder.layout.packing.guillotine import (
    Part,
    cut_types,
    join,
    leaf,
    line_up,
    merged,
    strokes_needed,
    walk,
)
from kitbuilder.layout.packing.panels import Division, divisions, panelled
from kitbuilder.layout.printable import Page

A4 = Grid.of(Page.sized(210, 297, 5, 5, 5, 5), 10)


@st.composite
def fitting(draw: st.DrawFn) -> tuple[Counts, int, int]:
    """Counts that a grid holds by its three bounds, full to the last unit half of the time."""
    across, down = draw(st.integers(1, 32)), draw(st.integers(1, 45))
    most, strips, area = holds(across, down)
    hundreds = draw(st.integers(0, most))
    tens = draw(st.integers(0, strips - 10 * hundreds))
    left = area - 100 * hundreds - 10 * tens
    ones = left if draw(st.booleans()) else draw(st.integers(0, left))
    return (hundreds, tens, max(ones, int(not hundreds and not tens))), across, down


def ends(part: Part) -> Counter[str]:
    return Counter(spot.what for _, _, spot in walk(part) if not spot.halves)


@settings(max_examples=300, deadline=None)
@given(fitting())
def test_whatever_the_bounds_allow_has_a_block(wish: tuple[Counts, int, int]) -> None:
    counts, across, down = wish
    block = best_block(counts, across, down)
    assert block is not None
    assert block.across <= across
    assert block.down <= down
    part = Builder(1).block(block)
    assert (part.width, part.height) == (block.across, block.down)
    made = ends(part)
    spares = made["hundreds"] - counts[0] + made["tens"] - counts[1] + made["ones"] - counts[2]
    assert (made["hundreds"], made["tens"], made["ones"]) == counts
    assert made["offcut"] + spares == block.offcuts
    if sum(n * size for n, size in zip(counts, (100, 10, 1), strict=True)) == across * down:
        assert block.offcuts == 0  # a full grid leaves nothing over
    # In a panel of that size what is left beside and below the block is cut off, once each.
    fixed = best_block(counts, across, down, True)
    assert fixed is not None
    panel = Builder(1).panel(fixed, across, down)
    assert (panel.width, panel.height) == (across, down)
    assert ends(panel)["offcut"] == fixed.offcuts <= block.offcuts + 2


def test_what_the_bounds_forbid_has_no_block() -> None:
    assert best_block((1, 0, 0), 9, 40) is None
    assert best_block((0, 47, 0), 19, 28) is None  # (532 − 9 · 8) / 10 is 46


def test_a_line_of_ones_saves_an_offcut() -> None:
    # 4 hundreds, 8 tens, 8 ones on 20 across: 24 rows full, and one line with 12 units over.
    block = best_block((4, 8, 8), 20, 28)
    assert block is not None
    assert (block.offcuts, block.line) == (1, 8)


def test_of_blocks_with_as_few_offcuts_the_smaller_is_taken() -> None:
    # 2 tens and 11 ones are 31 units: 2 x 16 leaves one over. So does 10 x 4, where the offcut
    # is 9 units long and both sides of it are lost to the rest of the sheet.
    block = best_block((0, 2, 11), 20, 28)
    assert block is not None
    assert (block.offcuts, block.across * block.down) == (1, 32)


@pytest.mark.parametrize(
    ("demand", "grid", "offcuts", "layouts"),
    [
        # 54 hundreds, 114 tens, 114 ones are 6654 units; found once, kept: two different sheets.
        ((54, 114, 114), (20, 28), 0, 2),
        ((54, 114, 114), (19, 27), 0, 3),
        ((12, 0, 0), (20, 28), 0, 1),
    ],
)
def test_a_spread_leaves_little(
    demand: Counts, grid: tuple[int, int], offcuts: int, layouts: int
) -> None:
    found = spread(demand, least_sheets(demand, *grid), *grid)
    assert found is not None
    assert found.offcuts <= offcuts
    assert len(found.layouts) <= layouts
    for kind in range(3):
        assert sum(copies * counts[kind] for copies, counts in found.layouts) == demand[kind]


def test_a_spread_that_cannot_be_is_told() -> None:
    assert spread_greedily((9, 0, 0), 2, 20, 28) is None  # 4 a sheet
    assert spread_greedily((4, 0, 0), 2, 20, 28) is None  # the second would be empty
    assert spread((9, 0, 0), 2, 20, 28) is None


def test_panels_of_a_halved_sheet_meet_at_the_middle() -> None:
    # a4 at 10 mm: ten units and the margin of 5 mm on each side of the middle line at 105 mm.
    division = Division(True, False, 1, 1)
    assert division.room(A4) == (10, 28)
    panel = leaf("panel", 10_000, 28_000)
    sheet = panelled(A4, division, 10, 28, [panel, panel])
    assert [(x, y) for x, y, part in walk(sheet) if part.what == "panel"] == [
        (500, 500),
        (10_500, 500),
    ]
    # Top, bottom, the middle, and one stroke for both outer sides: four at two layers.
    assert strokes_needed(cut_types([(1, sheet)]), 2) == 4 == division.strokes(1, 2)
    one = panelled(A4, division, 10, 28, [panel, None])
    assert ends(one) == {"panel": 1, "offcut": 4}


def test_a_page_of_odd_hundredths_has_no_middle_line() -> None:
    grid = Grid.of(Page.sized(210.01, 297, 5, 5, 5, 5), 10)
    assert Division(True, False, 1, 1).room(grid)[0] == 0


def test_ways_to_divide_are_few() -> None:
    for sheets in range(1, 6):
        ways = divisions(sheets, 5)
        assert Division(False, False, 1, 1) in ways
        assert len(ways) == len(set(ways)) < 100


def test_strokes_are_counted_by_kind() -> None:
    # Three strips of four, K = 2: each halved (3 parts, 2 strokes), six halves halved (3).
    strip = line_up("x", [leaf("ones", 1, 1)] * 4)
    types = cut_types([(3, strip)])
    assert types == {(1, 4, 2): 3, (1, 2, 1): 6}
    assert strokes_needed(types, 2) == 5
    assert strokes_needed(types, 1) == 9  # 12 parts − 3 strips
    # Turned, and cut from the other end, it is the same kind of cut.
    one, long = leaf("ones", 1, 1), leaf("ones", 3, 1)
    tall = leaf("ones", 1, 3)
    ways = [line_up("x", [one, long]), line_up("x", [long, one]), line_up("y", [tall, one])]
    assert len(cut_types([(1, way) for way in ways])) == 1
    with pytest.raises(ValueError, match="must be a part"):
        line_up("x", [])


def test_sheets_that_are_cut_alike_are_told_once() -> None:
    def strip(ones: int) -> Part:
        return line_up("x", [leaf("ones", 1, 1)] * ones)

    # Two strips of two halved alike, made apart; one of three, and one cut off at its other end.
    ends = [join("x", leaf("ones", 1, 1), strip(2)), join("x", strip(2), leaf("ones", 1, 1))]
    sheets = [(1, strip(2)), (2, ends[0]), (3, strip(2)), (1, ends[1])]
    found = merged(sheets)
    assert [copies for copies, _ in found] == [4, 2, 1]
    assert [part.at for _, part in found] == [1, 1, 2]
