"""Answers one out in one direction, time after time, are no slips."""

from itertools import pairwise

import pytest

from kitbuilder.design import load as designs
from kitbuilder.kit.child_words import child_words
from kitbuilder.kit.class_marks import Cell, class_marks
from kitbuilder.number import Sum
from kitbuilder.number.course.next_sums import next_sums
from kitbuilder.number.mistakes.asking import settled
from kitbuilder.number.mistakes.posterior import Answered
from kitbuilder.number.mistakes.reading import Reading, Verdict, read

SUMS = [Sum(w, p) for w, p in [(54, 28), (63, 35), (81, 54), (92, 76), (71, 38), (50, 23)]]


def reading(*outs: int) -> Reading:
    given = zip(SUMS, outs, strict=False)
    return read([Answered(sum_, sum_.rest + out, k) for k, (sum_, out) in enumerate(given)])


@pytest.mark.parametrize(
    "outs", [(1, 1, 1), (1, 1, 1, 1), (1, 1, 0, 1, 1, 1), (1, 0, 1, 1, 1, -1), (0, 1, 1, 0, 1)]
)
def test_nearly_always_one_more_is_named(outs: tuple[int, ...]) -> None:
    more, less = reading(*outs), reading(*(-out for out in outs))
    assert more.named == ("one-more",) and less.named == ("one-less",)
    assert more.verdict is Verdict.HABIT and settled(more)
    assert more.evidence == tuple(k for k, out in enumerate(outs) if out == 1)


@pytest.mark.parametrize("outs", [(1, 1), (1, -1, 1, -1), (1, 1, 0, 0, 0, 1), (0, 0, 0, 1)])
def test_slips_to_and_fro_are_not(outs: tuple[int, ...]) -> None:
    assert not reading(*outs).named


def test_who_swaps_the_digits_time_after_time_is_named_and_who_does_once_is_not() -> None:
    swaps = [int(str(sum_.rest)[::-1]) - sum_.rest for sum_ in SUMS]  # 62 for 26
    often, once = reading(*swaps), reading(*swaps[:1], 0, 0, 0, 0)
    assert often.named == ("order",) and often.verdict is Verdict.HABIT
    assert not once.named and once.verdict is not Verdict.HABIT
    cells = [Cell(sum_, sum_.rest + out) for sum_, out in zip(SUMS, swaps, strict=True)]
    marks = class_marks([("Mia", cells), ("Bo", cells)])
    assert [(group.key, group.children) for group in marks.groups.together] == [("order", (0, 1))]
    said = child_words(marks.children[0], designs.words())
    assert said is not None and said.asks[1] == "How many, as I point?"
    assert len(marks.children[0].next.practice) == 5


@pytest.mark.parametrize("given", [{(53, 27): 62}, {(304, 147): 175}, {(61, 38): 32, (93, 36): 75}])
def test_who_swaps_digits_practises_sums_whose_answers_show_it(
    given: dict[tuple[int, int], int],
) -> None:
    asked = [Sum(*sum_) for sum_ in given]
    found = read([Answered(s, given[s.whole, s.part], k) for k, s in enumerate(asked)])
    practice = next_sums(found, asked).practice
    assert len(practice) == 5
    for sum_ in practice:
        digits = str(sum_.rest)
        assert all(a != b for a, b in pairwise(digits))  # 33 stays 33, 344 may stay 344
        assert "0" not in str(sum_.whole)  # no zero was this child's trouble


@pytest.mark.parametrize(
    ("name", "steps"),
    [("en-GB", "14 − 8 is 14 − 4, then 10 − 4"), ("es", "14 − 8 es 14 − 4, luego 10 − 4")],
)
def test_the_childs_page_tells_how_the_fact_is_found(name: str, steps: str) -> None:
    cells = [Cell(sum_, sum_.rest + 1, 2) for sum_ in SUMS[:4]]
    (child,) = class_marks([("Mia", cells)]).children
    said = child_words(child, designs.words(name))
    assert said is not None and said.key == "one-more" and said.answer == said.shown.rest + 1
    assert steps in " ".join(said.watch)
    assert len(child.next.practice) == 5 and not child.next.telling


def test_who_counts_the_first_number_in_any_large_fact_does_one_thing_all_along() -> None:
    given = {(52, 27): 26, (83, 46): 38, (241, 118): 124, (435, 162): 283, (523, 267): 267}
    answered = [Answered(Sum(*sum_), answer, k) for k, (sum_, answer) in enumerate(given.items())]
    hugo = read([*answered, Answered(Sum(816, 349), 478, 5), Answered(Sum(635, 412), 233, 6)])
    assert hugo.named == ("one-more",) and hugo.evidence == (0, 1, 2, 3, 4, 5)  # 3 − 1 is known


def test_slips_in_the_tens_alone_are_not_one_mistake_all_along() -> None:
    sums = [Sum(435, 162), Sum(527, 253), Sum(618, 345)]
    assert not read([Answered(sum_, sum_.rest + 10, k) for k, sum_ in enumerate(sums)]).named


def test_where_most_answers_would_be_slips_none_of_them_is_one() -> None:
    # the leftmost digit is always one too small, also where nothing is exchanged (65 − 23 = 32)
    given = {(52, 28): 14, (71, 34): 27, (346, 129): 117, (532, 258): 174, (65, 23): 32}
    cells = [Cell(Sum(*sum_), answer) for sum_, answer in given.items()]
    (all_wrong, a_few) = class_marks(
        [("Leo", cells), ("Mia", [*cells[:2], *(Cell(c.sum, c.sum.rest) for c in cells[2:])])]
    ).children
    assert all_wrong.reading.verdict is Verdict.UNKNOWN and settled(all_wrong.reading)
    assert all_wrong.reading.evidence == (0, 1, 2, 3, 4)
    assert not any(all_wrong.shown_key(one) for one in all_wrong.reading.reads)
    said = child_words(all_wrong, designs.words())
    assert said is not None and said.mistake == "Not a mistake we know"
    assert a_few.reading.verdict is Verdict.SLIPS
