"""The arithmetic of sums: exchanges, steps, written columns and stock."""

from itertools import permutations
from random import Random

import pytest

from kitbuilder.number import Pieces, Sum
from kitbuilder.number.exchange import Exchange, exchanges
from kitbuilder.number.steps import Act, steps
from kitbuilder.number.stock import stock, stock_within
from kitbuilder.number.written import columns

# (whole, part, answer, places that hand in a piece, source)
PUBLISHED = [
    (874, 523, 351, [], "DfE 2013, Mathematics programmes of study KS1-2, App. 1 (from memory)"),
    (932, 457, 475, [1, 2], "as above: 8 hundreds 12 tens 12 ones (from memory)"),
    (856, 138, 718, [1], "NZ Ministry of Education, Decomposition: ten to ones"),
    (856, 162, 694, [2], "NZ Ministry of Education, Decomposition: hundred to tens"),
    (856, 168, 688, [1, 2], "NZ Ministry of Education, Decomposition: both"),
    (856, 123, 733, [], "NZ Ministry of Education, Decomposition: no rewriting"),
    (546, 278, 268, [1, 2], "NZ Ministry of Education: 4 hundreds 13 tens 16 ones"),
]


def test_an_exchange_hands_in_a_ten_a_hundred_or_a_thousand() -> None:
    # A one has no smaller neighbour, and nothing is larger than a thousand.
    assert [Exchange(source).target for source in (1, 2, 3)] == [0, 1, 2]
    for source in (0, 4):
        with pytest.raises(ValueError, match=f"source is {source}; it must be 1 to 3"):
            Exchange(source)


def test_a_step_counts_what_is_taken_and_nothing_else() -> None:
    # 305 − 148 takes 8 ones, 4 tens and a hundred; an exchange always is one for ten.
    done = steps(Sum(305, 148))
    assert [step.count for step in done if step.act is Act.TAKE] == [8, 4, 1]
    assert {step.count for step in done if step.act is not Act.TAKE} == {0}


@pytest.mark.parametrize(("whole", "part", "rest", "sources", "source"), PUBLISHED)
def test_published_sums(whole: int, part: int, rest: int, sources: list[int], source: str) -> None:
    sum_ = Sum(whole, part)
    assert sum_.rest == rest, source
    assert [e.source for e in exchanges(sum_)] == sources, source


@pytest.mark.parametrize(
    ("sum_", "held"),
    [
        (Sum(932, 457), (12, 12, 8)),  # DfE 2013, App. 1 (from memory)
        (Sum(546, 278), (16, 13, 4)),  # NZ Ministry of Education
        (Sum(856, 138), (16, 4, 8)),  # NZ: 800 + 40 + 16
        (Sum(856, 162), (6, 15, 7)),  # NZ: 700 + 150 + 6
        (Sum(856, 168), (16, 14, 7)),  # NZ: 700 + 140 + 16
    ],
)
def test_marks_end_at_the_renamed_whole(sum_: Sum, held: tuple[int, ...]) -> None:
    assert tuple((c.marks or (c.top,))[-1] for c in columns(sum_)) == held


def test_a_zero_crossed_carries_ten_then_nine() -> None:
    ones, tens, hundreds = columns(Sum(604, 167))
    assert (ones.marks, tens.marks, hundreds.marks) == ((14,), (10, 9), (5,))
    assert [c.answer for c in (ones, tens, hundreds)] == [7, 3, 4]


def test_no_leading_zero_and_no_digit_below() -> None:
    ones, tens, hundreds = columns(Sum(102, 97))
    assert (ones.answer, tens.answer, hundreds.answer) == (5, None, None)
    assert hundreds.bottom is None
    assert [c.answer for c in columns(Sum(7, 7))] == [0]  # nothing left is still written


def test_exchanges_over_all_three_digit_sums() -> None:
    # Computed by brute force over both digits' differences, not by the code under test:
    # 404,550 sums; none 135,225, one 180,225, two 89,100 of which 16,200 cross a zero.
    found = {0: 0, 1: 0, 2: 0}
    across = 0
    rng = Random(3)
    wholes = rng.sample(range(100, 1000), 90)
    for whole in wholes:
        for part in range(100, whole):
            o, t = whole % 10 < part % 10, whole // 10 % 10
            p = part // 10 % 10
            expected = int(o) + int(t - o < p)
            made = exchanges(Sum(whole, part))
            assert len(made) == expected
            found[expected] += 1
            across += [e.source for e in made] == [2, 1]
    assert sum(found.values()) > 20000
    assert across > 0


def test_the_steps_of_604_less_167() -> None:
    acts = [(s.act, s.place, s.table.whole.counts[:3]) for s in steps(Sum(604, 167))]
    assert acts == [
        (Act.BUILD, None, (4, 0, 6)),
        (Act.EXCHANGE, 1, (4, 10, 5)),
        (Act.EXCHANGE, 0, (14, 9, 5)),
        (Act.TAKE, 0, (7, 9, 5)),
        (Act.TAKE, 1, (7, 3, 5)),
        (Act.TAKE, 2, (7, 3, 4)),
        (Act.PARTS, None, (7, 3, 4)),
        (Act.TOGETHER, None, (14, 9, 5)),
        (Act.EXCHANGE_BACK, 0, (4, 10, 5)),
        (Act.EXCHANGE_BACK, 1, (4, 0, 6)),
        (Act.CHECK, None, (4, 0, 6)),
    ]


def test_every_step_keeps_the_value_of_the_whole() -> None:
    rng = Random(1)
    for _ in range(500):
        whole = rng.randrange(10000)
        sum_ = Sum(whole, rng.randint(0, whole))
        for step in steps(sum_):
            assert step.table.together.value == whole
        end = steps(sum_)
        parts = next(s for s in end if s.act is Act.PARTS)
        assert (parts.table.part.value, parts.table.whole.value) == (sum_.part, sum_.rest)
        assert end[-1].table.whole == Pieces.of(whole)


def searched(whole: int, part: int) -> tuple[int, int, int]:
    """Brute force: the most pieces of each place, by walking lists for every column order."""
    top = [0, 0, 0]
    for order in permutations(range(3)):
        rest = [int(c) for c in f"{whole:03d}"[::-1]]
        need = [int(c) for c in f"{part:03d}"[::-1]]
        out = [0, 0, 0]

        def see(rest: list[int] = rest, out: list[int] = out) -> None:
            for k in range(3):
                top[k] = max(top[k], rest[k] + out[k])

        def give(k: int, rest: list[int] = rest) -> None:
            if rest[k + 1] == 0:
                give(k + 1)
            rest[k + 1] -= 1
            rest[k] += 10
            see()

        see()
        for k in order:
            while rest[k] < need[k]:
                give(k)
            rest[k] -= need[k]
            out[k] += need[k]
            see()
        rest = [a + b for a, b in zip(rest, out, strict=True)]
        out = [0, 0, 0]
        for k in range(2):
            for j in range(3):
                top[j] = max(top[j], rest[j])
            if rest[k] > 9:
                rest[k] -= 10
                rest[k + 1] += 1
        for j in range(3):
            top[j] = max(top[j], rest[j])
    return top[0], top[1], top[2]


def test_stock_is_exactly_what_a_search_finds() -> None:
    rng = Random(2)
    for _ in range(1500):
        whole = rng.randrange(1000)
        part = rng.randint(0, whole)
        assert stock([Sum(whole, part)]).counts[:3] == searched(whole, part), (whole, part)


def test_stock_agrees_with_every_table_in_every_order() -> None:
    rng = Random(4)
    for _ in range(300):
        whole = rng.randrange(10000)
        sum_ = Sum(whole, rng.randint(0, whole))
        most = Pieces()
        for order in permutations(range(sum_.places)):
            for step in steps(sum_, order):
                most = most.most(step.table.together)
        assert stock([sum_]) == most, sum_


def test_stock_for_any_sum_to_999() -> None:
    # Nine hundreds build 9xx; 19 tens, as in 198 − 99: nine tens taken first, then a hundred
    # exchanged; 18 ones, as in 18 − 9, because a nine is never short.
    assert stock_within(1000) == Pieces(ones=18, tens=19, hundreds=9)
    assert stock([Sum(198, 99)]).tens == 19


def test_stock_for_any_sum_to_9999() -> None:
    # As to 999: a place with a larger one above it may hold its nine and ten more.
    assert stock_within(10_000) == Pieces(ones=18, tens=19, hundreds=19, thousands=9)
    assert stock_within(5000) == Pieces(ones=18, tens=19, hundreds=19, thousands=4)
    assert stock([Sum(4003, 1758)]) == Pieces(ones=13, tens=10, hundreds=10, thousands=4)


def test_stock_within_is_the_most_of_its_sums() -> None:
    for limit in (1, 9, 10, 20, 57, 100, 120):
        every = stock(Sum(w, p) for w in range(limit) for p in range(w + 1))
        assert stock_within(limit) == every, limit


@pytest.mark.parametrize(
    ("whole", "part", "says"),
    [(10000, 1, "whole"), (-1, 0, "whole"), (5, 6, "part"), (5, -1, "part")],
)
def test_a_sum_checks_itself(whole: int, part: int, says: str) -> None:
    with pytest.raises(ValueError, match=f"Sum.{says}"):
        Sum(whole, part)


def test_four_digits_are_the_most_that_pieces_build() -> None:
    assert Pieces.of(9999) == Pieces(9, 9, 9, 9)
    with pytest.raises(ValueError, match="0 to 9999"):
        Pieces.of(10_000)


def test_pieces_check_themselves() -> None:
    with pytest.raises(ValueError, match=r"Pieces\.tens"):
        Pieces(tens=-1)
    with pytest.raises(ValueError, match="stock_within"):
        stock_within(0)
