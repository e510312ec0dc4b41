"""What a mat must hold: closed forms against every laying, and the moments told."""

from random import Random

import pytest

from kitbuilder.kit.mat_needs import (
    ZONES,
    Arrangement,
    Holding,
    MatNeeds,
    Moment,
    filling_sums,
    fullest,
    layings,
    mat_needs,
    roles,
)
from kitbuilder.number.steps import Act
from kitbuilder.number.stock import stock
from kitbuilder.number.sums import Pieces, Sum

ARRANGEMENTS: tuple[Arrangement, ...] = (*ZONES, "add")


def counted(needs: MatNeeds) -> dict[str, list[int]]:
    """The most pieces of each role, ones first."""
    return {
        role: [needs.holding(role, k).most for k in range(needs.places)]
        for role in roles(needs.arrangement)
    }


def searched(sum_: Sum, arrangement: Arrangement) -> dict[str, list[int]]:
    """Brute force: every laying's counts, zone by zone."""
    most = [Pieces() for _ in roles(arrangement)]
    for laying in layings(sum_, arrangement):
        most = [a.most(b) for a, b in zip(most, laying.pieces, strict=True)]
    return {
        role: list(pieces.counts[: sum_.places])
        for role, pieces in zip(roles(arrangement), most, strict=True)
    }


def test_needs_of_three_sums() -> None:
    # 634 − 258: ones first 12 tens lie there, tens first 13. 604 − 167: 14 ones, 10 tens
    # (604 has none, a hundred gives ten). 71 − 48: 11 ones. Counted by hand.
    assert counted(mat_needs([Sum(634, 258)], "two")) == {"whole": [14, 13, 6], "part": [8, 5, 2]}
    assert counted(mat_needs([Sum(604, 167)], "two")) == {"whole": [14, 10, 6], "part": [7, 6, 1]}
    assert counted(mat_needs([Sum(71, 48)], "two")) == {"whole": [11, 7], "part": [8, 4]}
    # The rest is 376; tens first, 8 tens are left before one is exchanged for the ones, and
    # hundreds first, 4 hundreds before one is exchanged for the tens.
    three = counted(mat_needs([Sum(634, 258)], "three"))
    assert three == {"whole": [14, 13, 6], "part": [8, 5, 2], "rest": [6, 8, 4]}
    add = counted(mat_needs([Sum(634, 258)], "add"))
    assert add == {"first": [8, 5, 2], "second": [6, 7, 3], "together": [14, 13, 6]}


def test_the_moment_names_what_is_taken_first() -> None:
    needs = mat_needs([Sum(71, 48), Sum(634, 258)], "two")
    assert needs.holding("whole", 1).moment == Moment(Sum(634, 258), Act.EXCHANGE, 1)
    assert needs.holding("whole", 0).moment == Moment(Sum(634, 258), Act.EXCHANGE, None)
    assert needs.holding("whole", 2).moment == Moment(Sum(634, 258), Act.BUILD, None)
    assert needs.holding("part", 0).moment == Moment(Sum(71, 48), Act.TAKE, None)
    # 653 − 158: ones first, 4 tens get ten more; tens first, five go and ten come. The 15 lie
    # together only when the parts are pushed together and ten ones handed in for a ten.
    assert mat_needs([Sum(653, 158)], "two").holding("whole", 1) == Holding(
        1, "whole", 15, Moment(Sum(653, 158), Act.EXCHANGE_BACK, None)
    )
    # On three zones 4 hundreds rest when they are taken first and none was handed in for tens.
    rest = mat_needs([Sum(634, 258)], "three").holding("rest", 2)
    assert rest == Holding(2, "rest", 4, Moment(Sum(634, 258), Act.TAKE, 2))
    # Of two sums that fill a zone alike the first is named.
    alike = mat_needs([Sum(71, 48), Sum(81, 48)], "two")
    assert alike.holding("whole", 0).moment == Moment(Sum(71, 48), Act.EXCHANGE, None)
    assert mat_needs([Sum(40, 40)], "three").holding("rest", 1) == Holding(1, "rest", 0, None)


@pytest.mark.parametrize("arrangement", ARRANGEMENTS)
def test_closed_forms_agree_with_every_laying(arrangement: Arrangement) -> None:
    rng = Random(5)
    for _ in range(40):
        whole = rng.randrange(1, 1000)
        sum_ = Sum(whole, rng.randint(0, whole))
        assert counted(mat_needs([sum_], arrangement)) == searched(sum_, arrangement), sum_


@pytest.mark.parametrize("arrangement", ARRANGEMENTS)
def test_within_is_the_most_of_all_its_sums(arrangement: Arrangement) -> None:
    for limit in (2, 9, 11, 20, 57, 101):
        every = mat_needs([Sum(w, p) for w in range(limit) for p in range(w + 1)], arrangement)
        assert counted(mat_needs(filling_sums(limit), arrangement)) == counted(every), limit


def test_the_fullest_of_sums_need_as_many_pieces_and_as_large_mats_as_all() -> None:
    rng = Random(3)
    wholes = (rng.randrange(20, 1000) for _ in range(60))
    every = [Sum(whole, rng.randrange(10, whole)) for whole in wholes]
    few = fullest(every)
    assert len(few) < 9 and set(few) <= set(every)  # of three columns nine zones at most
    assert stock(few) == stock(every)
    for arrangement in ZONES:
        assert counted(mat_needs(few, arrangement)) == counted(mat_needs(every, arrangement))


def test_within_a_thousand() -> None:
    # The zone of the whole holds the stock of any sum to 999: 9 hundreds, 19 tens, 18 ones.
    # 19 tens: nine are left and nine taken, and ten ones pushed together make one more.
    needs = mat_needs(filling_sums(1000), "three")
    assert counted(needs) == {"whole": [18, 19, 9], "part": [9, 9, 9], "rest": [9, 9, 9]}
    assert needs.holding("whole", 1).moment == Moment(Sum(190, 99), Act.EXCHANGE_BACK, None)


def test_within_ten_thousand() -> None:
    needs = mat_needs(filling_sums(10_000), "two")
    assert counted(needs) == {"whole": [18, 19, 19, 9], "part": [9, 9, 9, 9]}


@pytest.mark.parametrize("arrangement", ARRANGEMENTS)
def test_closed_forms_agree_in_four_places(arrangement: Arrangement) -> None:
    rng = Random(7)
    for _ in range(8):
        whole = rng.randrange(1000, 10_000)
        sum_ = Sum(whole, rng.randint(0, whole))
        assert counted(mat_needs([sum_], arrangement)) == searched(sum_, arrangement), sum_


def test_every_laying_keeps_the_value_of_the_whole() -> None:
    rng = Random(6)
    for _ in range(30):
        whole = rng.randrange(1, 1000)
        sum_ = Sum(whole, rng.randint(0, whole))
        for arrangement in ARRANGEMENTS:
            for laying in layings(sum_, arrangement):
                assert sum(p.value for p in laying.pieces) == whole


def test_needs_check_themselves() -> None:
    with pytest.raises(ValueError, match="no sums"):
        mat_needs([], "two")
    for limit in (1, 10_001):
        with pytest.raises(ValueError, match="limit"):
            filling_sums(limit)
    with pytest.raises(ValueError, match=r"Holding\.most"):
        Holding(0, "whole", 3, None)
    for most in (0, -1):
        with pytest.raises(ValueError, match=r"Holding\.most"):
            Holding(0, "whole", most, Moment(Sum(71, 48), Act.BUILD, None))
    with pytest.raises(ValueError, match=r"Holding\.place"):
        Holding(4, "whole", 0, None)
    with pytest.raises(ValueError, match=r"MatNeeds\.holdings"):
        MatNeeds("two", 1, ())
