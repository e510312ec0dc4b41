"""Telling packs: how often every two mistakes are told apart, checked by replayed papers."""

from itertools import combinations
from time import process_time

import pytest
from paper import Paper

from kitbuilder.number import Sum
from kitbuilder.number.choice.fives import short_by_five
from kitbuilder.number.choice.patterns import pattern
from kitbuilder.number.choice.pool import Wish
from kitbuilder.number.choice.telling_pack import hidden, telling_pack
from kitbuilder.number.mistakes.habits import HABITS
from kitbuilder.number.mistakes.separation import (
    Levels,
    least_apart,
    levels,
    lowered_to_zero,
)

KEYS = ("", *(habit.key for habit in HABITS))


def apart(sums: tuple[Sum, ...]) -> int:
    """Return how often every two of all right and the habits get different answers, replayed."""
    given = {key: [Paper(s.whole, s.part, key).answer() for s in sums] for key in KEYS}
    return min(
        sum(a != b for a, b in zip(given[x], given[y], strict=True) if None not in (a, b))
        for x, y in combinations(KEYS, 2)
    )


TIMES = {1: 0, 2: 1, 3: 1, 4: 2, 6: 3, 9: 4, 12: 6}
PAIRED = {1: 0, 2: 0, 3: 1, 4: 1, 6: 2, 9: 3, 12: 4}
"""How often a pack of so many sums tells every two habits, and two pairs of them, apart."""


@pytest.mark.parametrize(("count", "times"), TIMES.items())
def test_a_pack_tells_every_two_mistakes_apart(count: int, times: int) -> None:
    pack = telling_pack(Wish(3), count, count)
    assert len(set(pack)) == count
    assert apart(pack) >= times
    singly, paired = least_apart(pack)
    assert singly == apart(pack) and paired >= PAIRED[count]


def test_sums_that_exchange_nowhere_or_once_tell_no_two_apart() -> None:
    assert least_apart([Sum(874, 523), Sum(43, 17)]) == (0, 0)


def test_a_pack_is_chosen_in_a_second() -> None:
    start = process_time()
    telling_pack(Wish(3), 36, 7)
    assert process_time() - start < 3.0


def test_published_pairs_tell_all_apart_once() -> None:
    # Computed by brute force: two sums of three places, or one of four.
    assert apart((Sum(400, 133), Sum(752, 60))) == 1
    assert apart((Sum(7100, 738),)) == 1


def test_no_column_is_short_by_five_and_none_is_lowered_to_zero() -> None:
    for sum_ in telling_pack(Wish(3), 20, 4):
        assert not short_by_five(sum_.whole, sum_.part)
        assert not lowered_to_zero(sum_.whole, sum_.part)
    assert lowered_to_zero(714, 618) and not lowered_to_zero(724, 618)
    assert lowered_to_zero(1000, 1) and not lowered_to_zero(2000, 1)
    assert short_by_five(432, 186)  # 8 from 3 is 5 short, from 2 it is 6
    assert short_by_five(442, 186)  # 8 from 4 is 4 short, from 3 it is 5
    assert not short_by_five(452, 286)


def test_levels_count_how_often() -> None:
    assert levels([0b011, 0b001, 0b111]).bits == (0b111, 0b011, 0b001)
    assert levels([0b011, 0b001, 0b111]).least(0b111) == 1
    assert levels([0b011, 0b001, 0b111]).least(0b001) == 3
    assert Levels().least(0b1) == 0


def test_two_places_hide_what_needs_a_zero_or_three_columns() -> None:
    never = {"zero-becomes-nine", "zero-becomes-ten", "zero-skipped", "from-leftmost"}
    assert {*hidden(2)} == never
    assert hidden(3) == hidden(4) == ()


def test_a_wish_keeps_its_kinds_and_the_seed_its_sums() -> None:
    wish = Wish(3, ("both",), below=600)
    pack = telling_pack(wish, 5, 9)
    assert {pattern(s).name for s in pack} == {"both"} and all(s.whole < 600 for s in pack)
    assert telling_pack(wish, 5, 9) == pack != telling_pack(wish, 5, 10)
