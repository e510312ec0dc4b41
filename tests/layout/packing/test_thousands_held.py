"""Thousands on a grid: against a search that tries every place, and the least sheets of a kit."""

from functools import cache

import pytest

from kitbuilder.layout.packing.grid import holds, least_sheets
from kitbuilder.layout.packing.thousands_held import thousands_held, thousands_on


@cache
def searched(across: int, down: int) -> int:
    """Return the most parts of 20 × 50 units that cuts between units free from a grid."""
    best = int((across, down) in ((20, 50), (50, 20)))
    for at in range(1, across // 2 + 1):
        best = max(best, searched(at, down) + searched(across - at, down))
    for at in range(1, down // 2 + 1):
        best = max(best, searched(across, at) + searched(across, down - at))
    return best


def fewest_sheets(demand: tuple[int, int, int, int], across: int, down: int) -> int:
    """Return a number of sheets that ``demand`` (thousands first) needs at the least.

    A thousand takes what ten hundreds take of each bound of ``holds``: moved to the grid it
    covers ten of the points that tell hundreds apart, and it leaves no corner over.
    """
    needs = [0, 0, 0, 0]
    for place, count in enumerate(demand):
        for smaller in range(place, 4):
            needs[smaller] += 10 ** (smaller - place) * count
    rooms = (thousands_held(across, down), *holds(across, down))
    return max(-(-need // room) for need, room in zip(needs, rooms, strict=True))


@pytest.mark.parametrize(
    ("across", "down"), [(19, 90), (20, 49), (20, 50), (40, 57), (41, 53), (57, 53), (70, 70)]
)
def test_as_many_as_a_search_over_single_units_finds(across: int, down: int) -> None:
    assert thousands_held(across, down) == searched(across, down)


def test_they_lie_apart_on_the_grid() -> None:
    for across, down in ((40, 57), (57, 82), (99, 120)):
        placed = thousands_on(across, down, 99)
        assert len(placed) == thousands_held(across, down)
        cells = [
            (x, y)
            for p in placed
            for x in range(p.x, p.x + p.width)
            for y in range(p.y, p.y + p.height)
        ]
        assert len(cells) == len(set(cells)) == 1000 * len(placed)
        assert max(x for x, _ in cells) < across
        assert max(y for _, y in cells) < down


def test_a_full_kit_on_a4_takes_six_sheets_and_no_fewer() -> None:
    # 200 × 287 mm at 5 mm: 40 × 57 units. Two thousands a sheet: 5 sheets; all else fits one.
    assert thousands_held(40, 57) == 2
    assert -(-9 // 2) + least_sheets((19, 19, 18), 40, 57) == 6
    assert fewest_sheets((9, 19, 19, 18), 40, 57) == 6
