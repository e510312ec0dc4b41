"""A child's wrong sum done again shows the step of the mistaken column, not those before it."""

import pytest

from kitbuilder.design import load as designs
from kitbuilder.kit.lesson.again import again
from kitbuilder.number import Sum
from kitbuilder.number.mistakes.profiles import PROFILES

WORDS = designs.words("en-GB")
HUNDRED, TEN = "Exchange 1 hundred for 10 tens.", "Exchange 1 ten for 10 ones."


def titles(whole: int, part: int, key: str, place: int | None, count: int = 2) -> list[str]:
    answers = [p.answer(whole, part) for p in PROFILES if p.keys == (key,) and p.place == place]
    answer = next(a for a in answers if a is not None and a != whole - part)
    found = again(Sum(whole, part), answer, key, place, WORDS)
    return [step.title for step in found.window(count)]


@pytest.mark.parametrize("count", [2, 4])
@pytest.mark.parametrize(
    ("whole", "part", "key", "place", "title"),
    [
        (660, 82, "not-lowered", 1, HUNDRED),  # the ones were right
        (660, 82, "not-lowered", 0, TEN),
        (431, 257, "turned", 1, HUNDRED),
        (431, 257, "turned", 0, TEN),
        (431, 257, "turned", None, TEN),
        (4312, 1785, "turned", 2, "Exchange 1 thousand for 10 hundreds."),
        (627, 354, "not-lowered", None, HUNDRED),
        (627, 354, "turned", None, HUNDRED),
        (627, 354, "zero-when-short", None, HUNDRED),
        (627, 354, "handed-no-fetch", None, HUNDRED),
        (733, 216, "from-leftmost", None, TEN),
        (347, 9, "empty-not-lowered", None, TEN),
        (503, 268, "zero-becomes-nine", None, "First exchange 1 hundred for 10 tens."),
        (503, 268, "zero-becomes-ten", None, "Now exchange 1 ten for 10 ones."),
        (503, 268, "zero-skipped", None, "First exchange 1 hundred for 10 tens."),
        (140, 21, "zero-top-bottom", None, TEN),
        (253, 38, "top-not-brought", None, "Read both parts."),
    ],
)
def test_the_pictures_hold_the_step_of_the_mistaken_column(
    whole: int, part: int, key: str, place: int | None, title: str, count: int
) -> None:
    assert title in titles(whole, part, key, place, count)


@pytest.mark.parametrize(
    ("place", "title"),
    [(0, "2 ones out. 8 tens too?"), (1, "Take 8 tens out. Read both parts."), (2, HUNDRED)],
)
def test_a_slip_shows_what_was_taken_from_its_column(place: int, title: str) -> None:
    found = again(Sum(660, 82), 578 + 10**place, "slip", place, WORDS)
    assert title in [step.title for step in found.window(2)]


def test_of_a_sum_that_takes_nothing_out_what_is_left_is_shown() -> None:
    found = again(Sum(20, 0), 10, "slip", 1, WORDS)
    assert found.steps
    assert found.at == len(found.steps) - 1


def test_what_the_first_step_builds_is_just_laid() -> None:
    # its title tells to build, its picture what must come out: the pieces lay there as before
    found = again(Sum(403, 284), 219, "zero-becomes-nine", None, WORDS)
    piles = found.steps[0].scene.zones[0].piles
    assert found.steps[0].title.startswith("Build only 403.")
    assert [(pile.here, pile.new) for pile in piles] == [(0, 3), (0, 0), (0, 4)]


@pytest.mark.parametrize(
    ("whole", "part", "last"),
    [
        (43, 17, "Exchange 10 ones for 1 ten. 43 again?"),
        (260, 99, "Exchange back, twice. 260 again?"),  # 161 and 99: 1 hundred, 15 tens, 10 ones
        (4002, 1768, "Exchange back, three times. 4002 again?"),
    ],
)
def test_pushed_together_it_is_exchanged_back_as_often_as_in_the_lesson(
    whole: int, part: int, last: str
) -> None:
    later = again(Sum(whole, part), whole - part - 10, "slip", None, WORDS).later
    assert [step.move or step.title for step in later] == ["Push them together.", last]
