"""Narrow strips are cut off one by one: a clamp holds the rest of their row, but for the last."""

from kitbuilder.layout.packing.guillotine import (
    Part,
    cut_types,
    join,
    leaf,
    line_up,
    strokes_needed,
    walk,
)
from kitbuilder.layout.packing.narrow_strips import CLAMP, peeled

TEN = leaf("tens", 10_000, 1_000)
HUNDRED = leaf("hundreds", 10_000, 10_000)


def by_hand(tree: Part, copies: int, layers: int) -> int:
    """Return how many strokes no clamp can hold at either side."""
    held = cut_types([(copies, tree)])
    return sum(-(-n // layers) for kind, n in held.items() if kind[1] - kind[2] < 100 * CLAMP)


def finished(tree: Part) -> list[tuple[int, int, str]]:
    return sorted((x, y, part.what) for x, y, part in walk(tree) if part.what)


def test_one_strip_of_a_row_is_cut_by_hand_and_no_stroke_is_added() -> None:
    halved = join("y", HUNDRED, line_up("y", [TEN] * 8))
    tree = peeled(halved)
    assert finished(tree) == finished(halved)
    assert (by_hand(halved, 5, 5), by_hand(tree, 5, 5)) == (4, 1)
    strokes = [strokes_needed(cut_types([(5, one)]), 5) for one in (halved, tree)]
    assert strokes == [8, 8]


def test_rows_that_a_clamp_holds_are_halved_as_before() -> None:
    row = line_up("x", [HUNDRED] * 4)
    assert cut_types([(1, peeled(row))]) == cut_types([(1, row)])
