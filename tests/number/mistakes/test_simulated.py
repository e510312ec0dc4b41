"""A small class of simulated pupils: its mistakes are named, and hardly ever wrongly.

The whole simulation is in tests/bench; these bounds are below its figures by twice the deviation
that so few pupils have.
"""

from functools import cache

import pytest
from pupils import HABITS, Child, asked_tally, tally

from kitbuilder.number import Sum
from kitbuilder.number.choice.pool import Wish
from kitbuilder.number.choice.telling_pack import candidates, telling_pack


@cache
def nine() -> tuple[Sum, ...]:
    return telling_pack(Wish(3), 9, 1)


def test_nine_sums_name_each_habit() -> None:
    found = tally([Child(habit, 0.85) for habit in HABITS], 25, nine(), 1)
    assert found.average >= 96 and min(found.shares.values()) >= 82
    assert found.wrongly <= 1


def test_who_works_rightly_is_not_accused() -> None:
    assert tally([Child(slips=0.1), Child(slips=0.05)], 150, nine(), 2).wrong <= 1


def test_a_habit_in_one_column_is_named() -> None:
    sums = telling_pack(Wish(3), 12, 1)
    children = [Child(key, 1.0, 0.05, at) for key in ("turned", "not-lowered") for at in (0, 1)]
    assert tally(children, 25, sums, 3).average >= 93


def test_fewer_sums_name_fewer() -> None:
    # what makes the first test fail: three sums are too few
    found = tally([Child(habit, 0.85) for habit in HABITS], 20, nine()[:3], 1)
    assert found.average < 96


@pytest.mark.parametrize(("most", "named"), [(12, (99, 100)), (2, (0, 97))])
def test_asked_one_by_one_three_sums_name_nearly_all(most: int, named: tuple[int, int]) -> None:
    children = [Child(habit) for habit in ("", *HABITS)]
    mean, found = asked_tally(children, 40, candidates(Wish(3), 1), 3, most)
    right = found.pupils.pop("")
    assert right == 40 and found.named.pop("") == 0
    assert named[0] <= found.average <= named[1]
    assert found.wrong <= 4 and mean <= 3
