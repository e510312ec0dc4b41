"""The fewest different sheets, against every choice of sheets there is."""

from collections.abc import Iterator
from itertools import combinations

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from kitbuilder.kit.records import CutWish
from kitbuilder.layout.cutting.verify_cuts import check_plan
from kitbuilder.layout.packing.fewest_layouts import fewest_layouts, least_sum
from kitbuilder.layout.packing.grid import Counts, holds, least_sheets
from kitbuilder.layout.pieces.pack_pieces import pack_pieces
from kitbuilder.layout.printable import Page
from kitbuilder.number.sums import Pieces

A4 = Page.sized(210, 297, 5, 5, 5, 5)


def shared(sheets: int, different: int) -> Iterator[tuple[int, ...]]:
    """Yield copies of each of ``different`` sheets."""
    if different == 1:
        yield (sheets,)
        return
    for first in range(1, sheets - different + 2):
        for rest in shared(sheets - first, different - 1):
            yield (first, *rest)


def fewest(demand: Counts, sheets: int, across: int, down: int) -> int:
    """Return the fewest different sheets, by trying every set of full sheets and all copies."""
    most, strips, area = holds(across, down)
    full = [
        (h, t, area - 100 * h - 10 * t) for h in range(most + 1) for t in range(strips - 10 * h + 1)
    ]
    for different in range(1, sheets + 1):
        for chosen in combinations(full, different):
            for copies in shared(sheets, different):
                made = [
                    sum(c * counts[i] for c, counts in zip(copies, chosen, strict=True))
                    for i in range(3)
                ]
                if all(have >= need for have, need in zip(made, demand, strict=True)):
                    return different
    raise AssertionError(f"{demand} does not fit on {sheets} sheets")


@st.composite
def tight(draw: st.DrawFn) -> tuple[Counts, int, int, int]:
    """A demand that all but fills two to four small sheets."""
    across, down = draw(st.integers(3, 13)), draw(st.integers(3, 23))
    most, strips, area = holds(across, down)
    sheets = draw(st.integers(2, 4))
    hundreds = draw(st.integers(0, most * sheets))
    tens = max(0, strips * sheets - 10 * hundreds - draw(st.integers(0, 15)))
    ones = max(0, area * sheets - 100 * hundreds - 10 * tens - draw(st.integers(0, 12)))
    demand = (hundreds, tens, ones)
    assume(any(demand))
    return demand, across, down, least_sheets(demand, across, down)


@settings(max_examples=300, deadline=None)
@given(tight())
def test_no_choice_has_fewer_different_sheets(wish: tuple[Counts, int, int, int]) -> None:
    demand, across, down, sheets = wish
    found = fewest_layouts(demand, sheets, across, down, 5)
    different = fewest(demand, sheets, across, down)
    assert {len(layouts) for layouts in found} == {different}
    most, strips, area = holds(across, down)
    for layouts in found:
        assert sum(copies for copies, _ in layouts) == sheets
        for i in range(3):
            assert sum(copies * counts[i] for copies, counts in layouts) >= demand[i]
        for _, (h, t, o) in layouts:
            assert h <= most
            assert 10 * h + t <= strips
            assert 100 * h + 10 * t + o <= area


def test_three_different_sheets_are_needed() -> None:
    # A grid of 11 × 11 holds 1 hundred or ten tens, 2 tens more and 1 one. Four of them hold
    # 48 strips of ten: 20 for the hundreds, 27 tens; the last strip is cut into ones. So two
    # sheets have a hundred, two have none, and the one with the odd strip is a third.
    demand = (2, 27, 14)
    assert least_sheets(demand, 11, 11) == 4
    assert fewest(demand, 4, 11, 11) == len(fewest_layouts(demand, 4, 11, 11, 1)[0]) == 3


@pytest.mark.parametrize("layers", [1, 5])
@pytest.mark.parametrize("kits", [2, 6, 15, 30])
def test_one_layout_does_where_the_even_share_fits(kits: int, layers: int) -> None:
    kit = Pieces(hundreds=9, tens=19, ones=19)
    plan = pack_pieces(kit, A4, 10, CutWish(kits=kits, layers=layers, same_sheets=True))
    check_plan(plan)
    even = [-(-count * kits // plan.sheets) for count in (9, 19, 19)]
    most, strips, area = holds(20, 28)
    fits = even[0] <= most and 10 * even[0] + even[1] <= strips
    fits = fits and 100 * even[0] + 10 * even[1] + even[2] <= area
    assert (len(plan.cut_sheets) == 1) == fits


def test_the_least_sum() -> None:
    assert least_sum((3, 2), [1, 5], 11) == (1, 4)  # 3 + 8
    assert least_sum((4, 4), [1, 1], 7) == (1, 1)
    assert least_sum((4, 4), [1, 1], 9) is None
