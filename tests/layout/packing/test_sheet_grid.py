"""Whole units on a page, what a grid holds, and the least sheets."""

import pytest
from sheet_search import guillotine

from kitbuilder.errors import RefusedError
from kitbuilder.layout.packing.grid import (
    MOST_PIECES,
    OUTLINE,
    Grid,
    grid_for,
    holds,
    largest_unit,
    least_sheets,
)
from kitbuilder.layout.printable import Page

A4 = Page.sized(210, 297, 5, 5, 5, 5)


def test_units_are_reckoned_in_whole_hundredths() -> None:
    # 190 / 9.5 is 20 exactly; in floating point 190 // 9.5 is 20 but 0.3 // 0.1 is 2, and
    # 205.9 − 10 leaves 195.9000…02: neither may leak into a count.
    assert Grid.of(Page.sized(210, 297, 10, 10, 10, 10), 9.5).across == 20
    assert Grid.of(Page.sized(0.5, 0.5, 0.1, 0.1, 0, 0), 0.1).across == 3
    assert Grid.of(Page.sized(215.9, 279.4, 6.35, 6.35, 6.35, 6.35), 9.5).across == 21
    with pytest.raises(ValueError, match="two decimals"):
        Grid.of(A4, 9.555)


def test_the_grid_holds_what_a_full_search_finds() -> None:
    # Every way to cut every grid up to 28 × 29 from edge to edge (larger ones: tests/bench).
    found = guillotine(28, 29)
    for (a, b), most_tens in found.items():
        hundreds, strips, area = holds(a, b)
        assert area == a * b
        assert len(most_tens) == hundreds + 1, (a, b)
        for h, tens in enumerate(most_tens):
            assert tens == strips - 10 * h, (a, b, h)


@pytest.mark.parametrize(
    ("demand", "grid", "sheets", "why"),
    [
        ((9, 19, 19), (20, 28), 3, "4 hundreds a sheet"),
        ((54, 114, 114), (20, 28), 14, "54 hundreds by fours"),
        ((9, 19, 19), (19, 27), 5, "19 units across: 2 hundreds a sheet"),
        ((0, 46, 0), (19, 28), 1, "532 − 9 · 8 = 460 units for tens"),
        ((0, 47, 0), (19, 28), 2, "one ten too many for straight cuts"),
        ((0, 0, 561), (20, 28), 2, "area"),
        ((0, 0, 0), (20, 28), 0, "nothing"),
    ],
)
def test_least_sheets(
    demand: tuple[int, int, int], grid: tuple[int, int], sheets: int, why: str
) -> None:
    assert least_sheets(demand, *grid) == sheets, why


def test_a_piece_that_fits_nowhere_has_no_number_of_sheets() -> None:
    with pytest.raises(ValueError, match="cannot hold"):
        least_sheets((1, 0, 0), 9, 40)


@pytest.mark.parametrize(("what", "unit"), [("hundreds", 20.0), ("tens", 28.7), ("ones", 200.0)])
def test_the_largest_unit_fits_and_a_hundredth_more_does_not(what: str, unit: float) -> None:
    # a4 less 5 mm all round is 200 × 287: a tenth of 200, a tenth of 287, and 200 whole.
    demand = tuple(int(what == kind) for kind in ("hundreds", "tens", "ones"))
    assert largest_unit(A4, OUTLINE[what]) == unit  # type: ignore[index]
    assert grid_for(A4, unit, demand)  # type: ignore[arg-type]
    with pytest.raises(RefusedError, match=f"{unit:g} mm"):
        grid_for(A4, unit + 0.01, demand)  # type: ignore[arg-type]


def test_absurd_sizes_are_refused_with_the_limit() -> None:
    with pytest.raises(RefusedError, match=str(MOST_PIECES)):
        grid_for(A4, 10, (0, 0, MOST_PIECES + 1))
    with pytest.raises(RefusedError, match="units on one sheet"):
        grid_for(A4, 1, (0, 0, 1))
    with pytest.raises(ValueError, match="above 0"):
        Grid.of(A4, 0)
