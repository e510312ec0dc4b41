"""Each mistake is looked at again at the moment where it shows."""

import pytest

from kitbuilder.design import load as designs
from kitbuilder.kit.lesson.mistaken import mistaken_step
from kitbuilder.number import Sum

WORDS = designs.words("en-GB")


@pytest.mark.parametrize(
    ("sum_", "key", "place", "title"),
    [
        # turned round: 7 ones are wanted of 3; the pieces show that there are too few
        (Sum(53, 27), "turned", 0, "7 ones must come out."),
        # ten fetched and none handed in: the exchange itself
        (Sum(72, 48), "not-lowered", 0, "Exchange 1 ten for 10 ones."),
        # in 431 − 256 the hundred is exchanged for the tens' column
        (Sum(431, 256), "not-lowered", 1, "Exchange 1 hundred for 10 tens."),
        # across a zero nothing was handed in further left: the hundred that is opened
        (Sum(503, 268), "zero-becomes-nine", None, "No tens here. Open a hundred first."),
        (Sum(53, 27), "slip", None, "Push them together."),
        (Sum(53, 27), "order", None, "Read both parts."),
        (Sum(53, 27), "added", None, "Build only 53."),
        (Sum(57, 23), "turned", None, "Read both parts."),  # nothing is short in it
    ],
)
def test_the_moment_is_that_of_the_mistake(
    sum_: Sum, key: str, place: int | None, title: str
) -> None:
    assert mistaken_step(sum_, key, place, WORDS).title == title
