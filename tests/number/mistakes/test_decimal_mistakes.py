"""Mistakes that only decimals show."""

import pytest

from kitbuilder.kit.class_marks import Cell, class_marks
from kitbuilder.number import Sum
from kitbuilder.number.mistakes.decimal import decimal_answers, point_moved
from kitbuilder.number.mistakes.foreseen import foreseen
from kitbuilder.number.mistakes.why import why
from kitbuilder.number.scale import HUNDREDTHS, Scale
from kitbuilder.request.typed_sum import read_sum


def given(whole: int, part: int) -> dict[str, int]:
    return dict(decimal_answers(Sum(whole, part, HUNDREDTHS)))


def test_the_published_example() -> None:
    """6.2 - 1.47: 6 - 1 and 47 - 2; 6.2 - 1.4 and the 7 below; 147 under 62, the point of 1.47."""
    assert given(620, 147) == {"two-wholes": 545, "lone-digit": 487, "aligned-right": 85}


@pytest.mark.parametrize(
    ("whole", "part", "answers"),
    [
        (300, 147, {"lone-digit": 247, "aligned-right": 144}),  # 3 - 1, then 47; 147 under 3
        (310, 147, {"two-wholes": 246, "lone-digit": 177, "aligned-right": 116}),
        (620, 105, {"two-wholes": 530, "lone-digit": 525, "aligned-right": 43}),  # 5 - 2 is 3
        (625, 140, {"two-wholes": 521, "aligned-right": 611}),  # the 5 may be brought down
        (620, 100, {"aligned-right": 610}),
    ],
)
def test_each_is_worked_as_a_child_would(whole: int, part: int, answers: dict[str, int]) -> None:
    assert given(whole, part) == answers


def test_decimals_of_one_length_and_whole_numbers_show_none() -> None:
    assert given(625, 147) == {}
    assert decimal_answers(Sum(620, 147)) == ()


def test_decimals_typed_in_full_show_none() -> None:
    """6.20 - 3.45 is printed with as many decimals in both: nothing stands there alone."""
    sum_ = read_sum("6.20 - 3.45")
    assert decimal_answers(sum_) == () == decimal_answers(sum_.on(Scale(2, ",")))
    assert "3.25" in [str(one.answer) for one in foreseen(sum_)[:2]]  # smaller from larger
    assert decimal_answers(read_sum("6.2 - 3.45"))


def test_they_are_foreseen_and_explained() -> None:
    sum_ = Sum(620, 147, HUNDREDTHS)
    assert [str(one.answer) for one in foreseen(sum_)[:3]] == ["5.45", "4.87", "0.85"]
    assert [cause.key for cause in why(sum_, 545)] == ["two-wholes"]
    assert why(sum_, 487)[0].key == "lone-digit"
    assert why(Sum(620, 147), 545) == ()


def test_right_digits_with_the_point_elsewhere_are_told() -> None:
    sum_ = Sum(603, 248, HUNDREDTHS)
    for answer in (35500, 3550):
        assert point_moved(sum_, answer)
        assert [cause.key for cause in why(sum_, answer)] == ["point"]
    assert not point_moved(sum_, 355) and not point_moved(sum_, 350)
    assert not point_moved(Sum(603, 248), 3550)
    cells = [Cell(sum_, 35500, 2), Cell(Sum(520, 147, HUNDREDTHS), 3730, 2)]
    (child,) = class_marks([("Mia", cells)]).children
    assert child.reading.named == ("point",)
