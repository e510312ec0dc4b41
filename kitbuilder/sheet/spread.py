"""Turns a demand into what each of the least sheets holds."""

from kitbuilder.sheet.grid import Counts, holds


def spread_greedily(
    demand: Counts, sheets: int, across: int, down: int
) -> list[tuple[int, Counts]]:
    """Return (copies, counts), each sheet filled with hundreds, then tens, then ones.

    It never needs more than :func:`kitbuilder.sheet.grid.least_sheets`, because the three
    bounds are nested. A demand that does not fit is a ValueError.
    """
    most, strips, area = holds(across, down)
    hundreds, tens, ones = demand
    filled: list[tuple[int, Counts]] = []
    for _ in range(sheets):
        h = min(hundreds, most)
        t = min(tens, strips - 10 * h)
        o = min(ones, area - 100 * h - 10 * t)
        hundreds, tens, ones = hundreds - h, tens - t, ones - o
        if filled and filled[-1][1] == (h, t, o):
            filled[-1] = (filled[-1][0] + 1, (h, t, o))
        else:
            filled.append((1, (h, t, o)))
    if hundreds or tens or ones:
        raise ValueError(f"spread_greedily: {sheets} sheets cannot hold {demand}")
    return filled
