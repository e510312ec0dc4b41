"""Exchange patterns and small facts, against counts and rules written another way."""

from collections import Counter
from random import Random

import pytest

from kitbuilder.number import Sum
from kitbuilder.number.choice.patterns import BY_MASKS, PATTERNS, Pattern, pattern, pattern_of
from kitbuilder.number.exchange import exchanges
from kitbuilder.number.facts import ALL_FACTS, CROSSING_TEN, TEN_AND_CROSSING, Fact, facts
from kitbuilder.number.written import columns


def test_counts_over_all_three_digit_sums() -> None:
    # By definition: ten pieces come to a place exactly when the last digits of the whole are
    # below those of the part; a place is crossed when it is 0 and the place below receives.
    # Counts computed by brute force: 404,550 sums; by exchanges none 135,225, one 180,225,
    # two 89,100; by columns short when reached none 135,225, one 196,425, two 72,900.
    by_exchanges: Counter[int] = Counter()
    by_short: Counter[int] = Counter()
    names: Counter[str] = Counter()
    for whole in range(100, 1000):
        for part in range(100, whole):
            ones = whole % 10 < part % 10
            tens = whole % 100 < part % 100
            across = ones and whole // 10 % 10 == 0
            found = pattern_of(whole, part)
            assert found.receives == ((0,) if ones else ()) + ((1,) if tens else ())
            assert found.crossed == ((1,) if across else ())
            by_exchanges[found.exchanges] += 1
            by_short[len(found.short)] += 1
            names[found.name] += 1
    assert by_exchanges == {0: 135_225, 1: 180_225, 2: 89_100}
    assert by_short == {0: 135_225, 1: 196_425, 2: 72_900}
    assert names["across-zero"] == 16_200
    assert names == {
        "none": 135_225,
        "ones": 91_125,
        "tens": 89_100,
        "both": 72_900,
        "across-zero": 16_200,
    }


def test_patterns_agree_with_the_exchanges_made() -> None:
    random = Random(3)
    for _ in range(3000):
        whole = random.randrange(10_000)
        sum_ = Sum(whole, random.randrange(whole + 1))
        found = pattern(sum_)
        assert sorted(e.target for e in exchanges(sum_)) == list(found.receives)
        # A crossed zero is marked 10, then 9.
        assert found.crossed == tuple(
            k for k, column in enumerate(columns(sum_)) if column.marks == (10, 9)
        )


@pytest.mark.parametrize(
    ("sum_", "name"),
    [
        (Sum(856, 123), "none"),  # NZ Ministry of Education, "Decomposition" (read): no rewriting
        (Sum(856, 138), "ones"),  # as above: ten to ones
        (Sum(856, 162), "tens"),  # as above: hundred to tens
        (Sum(856, 168), "both"),  # as above: both
        (Sum(1856, 962), "both"),  # a hundred to tens, then a thousand to hundreds
        (Sum(1356, 723), "hundreds"),  # computed: only 3 hundreds are too few
        (Sum(604, 167), "across-zero"),
        (Sum(1000, 1), "across-zero"),
    ],
)
def test_names(sum_: Sum, name: str) -> None:
    assert pattern(sum_).name == name


def test_two_zeros_crossed() -> None:
    found = pattern(Sum(1003, 7))
    assert (found.crossed, found.short, found.exchanges) == ((1, 2), (0,), 3)


def test_a_pattern_that_cannot_be_is_refused() -> None:
    with pytest.raises(ValueError, match="receives"):
        Pattern((3,), ())
    with pytest.raises(ValueError, match="crossed"):
        Pattern((1,), (1,))  # a zero that hands nothing on is not crossed
    assert {p.name for p in BY_MASKS.values()} == set(PATTERNS)


def test_there_are_100_facts_of_which_36_cross_ten() -> None:
    # Computed: 55 facts with whole 0 to 9, 9 with whole 10 (parts not 0), 36 with 11 to 18.
    counts = Counter(
        "below" if f.whole < 10 else "ten" if f.whole == 10 else "above" for f in ALL_FACTS
    )
    assert counts == {"below": 55, "ten": 9, "above": 36}
    assert len(set(ALL_FACTS)) == 100
    assert (len(CROSSING_TEN), len(TEN_AND_CROSSING)) == (36, 45)
    assert {(f.whole, f.part) for f in CROSSING_TEN} == {
        (a + b, a) for a in range(10) for b in range(10) if a + b > 10
    }


def test_a_column_that_lent_counts_as_lowered() -> None:
    assert facts(Sum(420, 157)) == (Fact(10, 7), Fact(11, 5), Fact(3, 1))


def test_facts_are_what_the_written_columns_hold() -> None:
    random = Random(5)
    for _ in range(3000):
        whole = random.randrange(10_000)
        part = random.randrange(whole + 1)
        held = [
            ((column.marks or (column.top,))[-1], column.bottom)
            for column in columns(Sum(whole, part))
            if column.bottom is not None
        ]
        if part:
            assert [(f.whole, f.part) for f in facts(Sum(whole, part))] == held


def test_through_ten() -> None:
    # US CCSS 1.OA.C.6 (read): 13 − 4 = 13 − 3 − 1 = 10 − 1 = 9.
    assert Fact(13, 4).through_ten == (3, 1)
    assert Fact(13, 5).through_ten == (3, 2)
    for fact in CROSSING_TEN:
        first, second = fact.through_ten
        assert fact.whole - first == 10
        assert (first + second, 10 - second) == (fact.part, fact.rest)
    with pytest.raises(ValueError, match="does not cross ten"):
        _ = Fact(10, 4).through_ten


@pytest.mark.parametrize(("whole", "part"), [(10, 10), (19, 9), (4, 5), (12, 1), (3, -1)])
def test_what_is_no_small_fact(whole: int, part: int) -> None:
    with pytest.raises(ValueError, match="Fact"):
        Fact(whole, part)
