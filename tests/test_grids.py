"""The grids of the tests: each two of paper, words and look meet."""

from itertools import combinations, product

import grids
import pytest
from grids import pairs


@pytest.mark.parametrize("axes", [("abcd", "efg", "hijk"), ("ab", "cde", "fghi"), ("abc",) * 3])
def test_every_two_values_meet(axes: tuple[str, str, str], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(grids, "WHOLE", False)
    found = pairs(*axes)
    for one, other in combinations(range(3), 2):
        assert {(a[one], a[other]) for a in found} == {*product(axes[one], axes[other])}
    assert len(found) == len({*found}) == max(len(a) * len(b) for a, b in combinations(axes, 2))
    monkeypatch.setattr(grids, "WHOLE", True)
    assert pairs(*axes) == [*product(*axes)]
