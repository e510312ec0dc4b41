"""Mats over every sum below 100 and a thousand random wishes; run by hand."""

from hypothesis import given, settings
from kit.test_mat_needs import ARRANGEMENTS, counted, searched
from layout.mat.test_mats import check, wishes

from kitbuilder.design.load import Paper
from kitbuilder.kit.mat_needs import Arrangement, mat_needs
from kitbuilder.number.sums import Sum


def test_closed_forms_for_every_sum_below_100() -> None:
    # 5,049 pairs of whole and part, every column order, four arrangements.
    for arrangement in ARRANGEMENTS:
        for whole in range(1, 100):
            for part in range(whole + 1):
                sum_ = Sum(whole, part)
                found = counted(mat_needs([sum_], arrangement))
                assert found == searched(sum_, arrangement), (sum_, arrangement)


@given(wishes())
@settings(max_examples=1000, deadline=None, derandomize=True)
def test_a_thousand_wishes(wish: tuple[list[Sum], Arrangement, Paper]) -> None:
    check(wish)
