"""The best unit: what each would take, and which are worth choosing."""

from dataclasses import replace
from pathlib import Path

import pytest
from click.testing import CliRunner

from kitbuilder.cli import main
from kitbuilder.design.style import Style
from kitbuilder.kit.mat_needs import MatWish
from kitbuilder.layout.pieces.making import Making
from kitbuilder.layout.unit_costs import UNITS, UnitCost, unit_costs, worth_choosing
from kitbuilder.number import Sum
from kitbuilder.pipeline import build, held
from kitbuilder.request.file import first_wishes
from kitbuilder.request.request import Request, fitted_paper


def cost(unit: float, pieces: int | None, mats: int | None, cards: bool = True) -> UnitCost:
    return UnitCost(unit, 0, pieces, 0, mats, 0, 0, cards)


def costs_at(request: Request, *units: float) -> tuple[UnitCost, ...]:
    press = request.press
    kit = held(request)
    return unit_costs(kit, Style(request.paper, press.words, press.look), Making(), units)


def test_the_units_are_5_to_15_in_halves() -> None:
    assert (UNITS[0], UNITS[-1], len(UNITS)) == (5, 15, 21)
    assert all((2 * unit).is_integer() for unit in UNITS)


def test_a_smaller_unit_must_save_sheets() -> None:
    costs = [cost(9, 1, 1), cost(9.5, 1, 2), cost(10, 2, 2), cost(11, 2, 2), cost(12, 3, 1)]
    # 11 beats 10 as it takes no more; 9.5 saves a sheet of pieces; 9 saves a sheet of mat too.
    assert [c.unit for c in worth_choosing(costs)] == [9, 9.5, 11, 12]
    for unusable in (cost(13, None, 1), cost(13, 1, None), cost(13, 1, 1, cards=False)):
        assert worth_choosing([*costs, unusable]) == worth_choosing(costs)


def test_a_second_hundred_across_saves_sheets() -> None:
    # Margins of 10 mm on a4 leave 190 mm: twenty units of 9.5, but nineteen of 10, so that
    # four hundreds take one sheet instead of two.
    request = Request((Sum(431, 256),), fitted_paper("a4", 10))
    costs = {c.unit: c for c in costs_at(request, 9.5, 10)}
    assert (costs[9.5].hundreds, costs[10].hundreds) == (4, 2)
    assert (costs[9.5].piece_sheets, costs[10].piece_sheets) == (1, 2)
    assert costs[9.5] in worth_choosing(list(costs.values()))


def test_the_comparison_is_what_the_kit_takes(tmp_path: Path) -> None:
    request = Request(first_wishes().sums, replace(fitted_paper("a4"), unit_mm=8.0))
    laid = build(request, tmp_path).laid
    (found,) = costs_at(request, 8)
    assert laid.cutting is not None
    assert (found.piece_sheets, found.strokes) == (laid.cutting.sheets, laid.cutting.strokes)
    assert found.mat_sheets == sum(s.kind == "mat" for s in laid.sheets)


@pytest.mark.parametrize("wish", [MatWish(("exchange",)), MatWish(())])
def test_a_kit_without_a_mat_of_zones_has_no_size_of_mat(wish: MatWish) -> None:
    request = Request((Sum(71, 48),), fitted_paper("a4"), mats=wish)
    assert {(c.mat_width, c.mat_height) for c in costs_at(request, 8, 10)} == {(0, 0)}


@pytest.mark.parametrize("words", [("71-48", "--paper", "a5")])
def test_the_table_marks_the_best_and_warns(words: tuple[str, ...]) -> None:
    done = CliRunner().invoke(main, ["sizes", *words])
    assert done.exit_code == 0, done.output
    rows = done.output.splitlines()
    assert "hundreds a sheet" in rows[0]
    assert [row.split()[0] for row in rows[1:22]] == [f"{unit:g}" for unit in UNITS]
    assert any(row.startswith(("11 *", "11.5 *", "12.5 *", "13 *")) for row in rows)
    assert "do not mix with bought ones" in rows[-1]


@pytest.mark.usefixtures("anew")
def test_a_paper_too_small_is_told_in_the_table(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("kitbuilder.layout.mat.mat_plan.MOST_SHEETS", 8)
    done = CliRunner().invoke(main, ["sizes", "71-48", "--paper", "60x60mm"])
    assert done.exit_code == 0
    assert done.output.splitlines()[-3].startswith("*")
    assert "does not fit" in done.output
