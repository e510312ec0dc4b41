"""The grids of the tests: each two of paper, words and look meet."""

from itertools import combinations, product

import grids
import pytest
from grids import each, pairs


@pytest.mark.parametrize("axes", [("abcd", "efg", "hijk"), ("ab", "cde", "fghi"), ("abc",) * 3])
def test_every_two_values_meet(axes: tuple[str, str, str], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(grids, "WHOLE", False)
    found = pairs(*axes)
    for one, other in combinations(range(3), 2):
        assert {(a[one], a[other]) for a in found} == {*product(axes[one], axes[other])}
    assert len(found) == len({*found}) == max(len(a) * len(b) for a, b in combinations(axes, 2))
    monkeypatch.setattr(grids, "WHOLE", True)
    assert pairs(*axes) == [*product(*axes)]


def test_each_value_is_there(monkeypatch: pytest.MonkeyPatch) -> None:
    axes = ("abcd", "ef", "ghi")
    monkeypatch.setattr(grids, "WHOLE", False)
    found = each(*axes)
    assert len(found) == 4 and [{*one} for one in zip(*found, strict=True)] == [*map(set, axes)]
    monkeypatch.setattr(grids, "WHOLE", True)
    assert each(*axes) == [*product(*axes)]
