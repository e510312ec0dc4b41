"""The picture of a thousand half folded agrees with the folds printed on its sheet."""

from itertools import pairwise

import pytest

from kitbuilder.design import load as designs
from kitbuilder.design.style import Style
from kitbuilder.layout.pages.folding_pictures import zigzag
from kitbuilder.layout.parts.contents import Line, Outline
from kitbuilder.layout.pieces.thousand import FOLDS


@pytest.mark.parametrize("width", [76.0, 87.5, 120.0])
def test_folds_away_are_ridges_and_squares_show_on_the_side_that_is_seen(width: float) -> None:
    style = Style(designs.paper("a4"), designs.words(), designs.look("plain"))
    items = zigzag(width, style).items
    panels = [(i.rect, i.content) for i in items if isinstance(i.content, Outline)]
    ends = [[(rect.x + x, rect.y + y) for x, y in one.corners[:2]] for rect, one in panels]
    for before, after in pairwise(ends):
        assert before[1] == pytest.approx(after[0])
    for k, (way, _) in enumerate(FOLDS[:4]):
        fold, left, right = ends[k][1][1], ends[k][0][1], ends[k + 1][1][1]
        ridge = fold < min(left, right)  # y grows downwards
        assert ridge == (way == "away") and (ridge or fold > max(left, right)), k + 1
    # Printed side up, a panel that falls to the right shows it; one that rises shows its back.
    shown = [one.cells is not None for _, one in panels]
    assert shown == [falls[0][1] < falls[1][1] for falls in ends]
    numbers = [item.content.text for item in items if isinstance(item.content, Line)]
    assert {"1", "2", "3", "4"} <= set(numbers)
