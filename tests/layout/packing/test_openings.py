"""The bound on strokes that a search has raised, beside other searches."""

import pytest
from stroke_search import fewest_strokes

from kitbuilder.layout.cutting.pack import pack_pieces
from kitbuilder.layout.cutting.verify_cuts import check_plan
from kitbuilder.layout.packing.grid import Grid, Page
from kitbuilder.layout.packing.lower_bound import least_strokes
from kitbuilder.layout.packing.openings import raised
from kitbuilder.number.sums import Pieces

MANY = 99  # strokes that no bound comes near


def page(width: float, height: float, margin: float) -> Page:
    return Page(width, height, margin, margin, margin, margin)


@pytest.mark.parametrize(
    ("across", "down", "ones", "layers"),
    [(2, 1, 2, 2), (2, 1, 2, 3), (3, 1, 3, 2), (3, 1, 3, 3), (2, 2, 3, 3), (2, 2, 4, 3)],
)
def test_a_search_of_every_cut_never_finds_fewer(
    across: int, down: int, ones: int, layers: int
) -> None:
    grid = Grid.of(page(10 * across + 10, 10 * down + 10, 5), 10)
    bound = least_strokes(ones, 1, layers, grid.trims)
    found = raised(bound, MANY, (0, 0, ones), grid, 1, layers)
    assert bound <= found <= fewest_strokes(across, down, ones, layers)


def test_three_ones_in_a_row_take_five_strokes_in_stacks_of_three() -> None:
    # Four would be enough if the first two parts could always be cut in one stroke: but three
    # cannot be halved, and two parts of unlike length take a stroke each.
    grid = Grid.of(page(40, 20, 5), 10)
    assert least_strokes(3, 1, 3, grid.trims) == 4
    assert raised(4, MANY, (0, 0, 3), grid, 1, 3) == 5 == fewest_strokes(3, 1, 3, 3)


@pytest.mark.parametrize(
    ("kit", "paper", "unit", "without", "bound"),
    [
        # Four congruent quarters, of 10 × 17 or 12 × 17 units, have no room for five hundreds.
        (Pieces(17, 15, 5), page(215.9, 355.6, 5), 10, 11, 12),
        (Pieces(17, 15, 5), page(215.9, 279.4, 5), 8, 11, 12),
        # No stroke may be lost: four quarters would have to be 114 units each, with a hundred.
        (Pieces(16, 14, 3), page(215.9, 279.4, 5), 10, 10, 11),
        # Room is no matter here, but nothing is lost only where four quarters are alike, and the
        # quarters of 19 × 25 hold no hundred.
        (Pieces(18, 12, 1), page(215.9, 279.4, 10), 10, 10, 11),
        # Nine hundreds, nineteen tens and ones come in halves alike; nothing is in the way.
        (Pieces(19, 19, 9), page(210, 297, 5), 10, 13, 13),
    ],
)
def test_hundreds_that_no_quarter_holds_take_a_stroke_more(
    kit: Pieces, paper: Page, unit: float, without: int, bound: int
) -> None:
    plan = pack_pieces(kit, paper, unit, layers=5)
    check_plan(plan)
    grid = Grid.of(paper, unit)
    assert least_strokes(sum(kit.counts), plan.sheets, 5, grid.trims) == without
    assert plan.stroke_bound == bound <= plan.strokes


@pytest.mark.parametrize(
    ("demand", "across", "down", "layers", "bound", "strokes"),
    [
        # A plan of so many strokes is found, so the bound can be no higher; and it is as high.
        ((1, 1, 0), 11, 10, 3, 4, 5),
        ((1, 1, 1), 11, 11, 3, 4, 7),
        ((2, 2, 0), 22, 10, 4, 4, 5),
        ((2, 0, 0), 20, 10, 3, 4, 4),
        ((0, 4, 0), 10, 4, 3, 5, 5),
        ((0, 2, 0), 10, 2, 3, 4, 4),
    ],
)
def test_the_raised_bound_is_that_of_a_plan(
    demand: tuple[int, int, int], across: int, down: int, layers: int, bound: int, strokes: int
) -> None:
    paper = page(10 * across + 20, 10 * down + 20, 10)
    grid = Grid.of(paper, 10)
    assert least_strokes(sum(demand), 1, layers, grid.trims) == bound
    assert raised(bound, MANY, demand, grid, 1, layers) == strokes
    hundreds, tens, ones = demand
    assert pack_pieces(Pieces(ones, tens, hundreds), paper, 10, layers=layers).strokes == strokes


def test_a_bound_may_be_raised_more_than_once() -> None:
    # Three hundreds on 19 × 33 leave no other room for one: each must come out of a part of its
    # own. Eleven strokes are refuted by some 280,000 cuts.
    kit = Pieces(16, 14, 3)
    paper = page(215.9, 355.6, 10)
    assert least_strokes(33, 1, 5, Grid.of(paper, 10).trims) == 10
    assert pack_pieces(kit, paper, 10, layers=5).stroke_bound == 12


def test_nothing_is_searched_where_it_would_be_long_or_of_no_use() -> None:
    grid = Grid.of(page(40, 20, 5), 10)
    assert raised(4, 4, (0, 0, 3), grid, 1, 3) == 4  # the plan meets the bound
    assert raised(4, MANY, (0, 0, 3), grid, 3, 3) == 4  # as many sheets as a stack holds
    assert raised(9, MANY, (0, 0, 99), grid, 1, 3) == 9  # too many pieces
    crooked = Grid.of(Page(35, 10, 0, 0, 0, 0), 10)  # half a unit is left, and no margin
    assert raised(3, MANY, (0, 0, 3), crooked, 1, 3) == 3
