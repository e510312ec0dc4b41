"""Numbers with tenths and hundredths: how they are written, and what they are in columns."""

import copy
import json

import pytest

from kitbuilder.number import Sum
from kitbuilder.number.mistakes.foreseen import foreseen, shown
from kitbuilder.number.scale import HUNDREDTHS, WHOLE, Scale
from kitbuilder.number.steps import steps
from kitbuilder.number.stock import stock
from kitbuilder.number.written import columns


@pytest.mark.parametrize(
    ("count", "written"),
    [(300, "3"), (620, "6.2"), (147, "1.47"), (5, "0.05"), (0, "0"), (1000, "10"), (305, "3.05")],
)
def test_hundredths_are_written_without_zeros_at_the_end(count: int, written: str) -> None:
    assert str(HUNDREDTHS.number(count)) == written
    assert f"{Scale(2, ',').number(count)}" == written.replace(".", ",")


def test_money_keeps_its_zeros() -> None:
    assert str(Scale(2, ",", "{number} €").number(300)) == "3,00 €"
    assert str(Scale(2, ".", "£{number}").number(5)) == "£0.05"


def test_a_number_is_reckoned_with_as_it_is() -> None:
    number = HUNDREDTHS.number(620)
    assert number == 620 and number - 147 == 473
    assert json.dumps([number]) == "[620]"
    assert str(copy.deepcopy(number)) == "6.2"


def test_whole_numbers_stay_plain() -> None:
    assert type(Sum(43, 17).whole) is type(Sum(43, 17).rest) is type(WHOLE.number(3)) is int


@pytest.mark.parametrize("decimals", [-1, 4])
def test_there_are_up_to_three_decimals(decimals: int) -> None:
    assert [str(Scale(some).number(5)) for some in range(4)] == ["5", "0.5", "0.05", "0.005"]
    with pytest.raises(ValueError, match="0 to 3"):
        Scale(decimals)


def test_a_sum_of_decimals_is_the_sum_of_its_hundredths() -> None:
    """All that is done and all that lies on the table is as for 300 - 147."""
    sum_ = Sum(300, 147, HUNDREDTHS)
    assert (str(sum_), str(sum_.rest)) == ("3 − 1.47", "1.53")
    assert sum_ != Sum(300, 147)
    assert Sum(3, 1).on(HUNDREDTHS) == Sum(300, 100, HUNDREDTHS)
    assert steps(sum_) == steps(Sum(300, 147))
    assert stock([sum_]) == stock([Sum(300, 147)])
    assert columns(sum_) == columns(Sum(300, 147))
    with pytest.raises(ValueError, match="has decimals"):
        sum_.on(WHOLE)


def test_columns_of_decimals_reach_the_ones() -> None:
    """0.62 - 0.47: a zero stands before the point in every row, 0.15 has one too."""
    found = columns(Sum(62, 47, HUNDREDTHS))
    assert [(c.top, c.bottom, c.answer) for c in found] == [(2, 7, 5), (6, 4, 1), (0, 0, 0)]
    assert Sum(62, 47, HUNDREDTHS).places == 3
    assert [c.top for c in columns(Sum(62, 47))] == [2, 6]


def test_wrong_answers_are_written_as_the_sum_is() -> None:
    assert "2.47" in [str(one.answer) for one in foreseen(Sum(300, 147, HUNDREDTHS))]
    assert {type(answer) for _, answer in shown(HUNDREDTHS.number(300), 147)} == {int}
