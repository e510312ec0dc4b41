"""The page on wrong answers: each mistake with a sum that shows it, and a question that is fair."""

import re

import pytest

from kitbuilder.design import load as designs
from kitbuilder.kit.advice import Mistake, WrongAnswers, _Telling, wrong_page
from kitbuilder.kit.lesson.mat_scenes import Move, Pile
from kitbuilder.number import PLACES, Sum
from kitbuilder.number.course.schedule import LESSONS
from kitbuilder.number.exchange import exchanges
from kitbuilder.number.mistakes.foreseen import shown
from kitbuilder.number.mistakes.why import why
from kitbuilder.number.scale import Scale

WORDS = designs.words()


def page(*sums: Sum) -> WrongAnswers:
    return wrong_page(sums, WORDS)


def mistake(key: str, *sums: Sum) -> Mistake:
    return next(found for found in page(*sums).mistakes if found.key == key)


def piles(found: Mistake) -> tuple[Pile, ...]:
    return found.scene.zones[0].piles


def test_five_mistakes_by_hand() -> None:
    # 71 − 48 = 23; turned |1 − 8| = 7, 7 − 4 = 3; ten fetched, none put back: 11 − 8, 7 − 4;
    # 0 where there was too little; 32 for 23; one slip less.
    found = [(one.key, one.answer) for one in page(Sum(71, 48)).mistakes]
    assert found == [
        ("turned", 37),
        ("not-lowered", 33),
        ("zero-when-short", 30),
        ("order", 32),
        ("slip", 22),
    ]


@pytest.mark.parametrize(
    ("whole", "language", "told"),
    [
        (53, "es", "Solo hay 3 unidades, y se escribió 0."),
        (50, "es", "No hay unidades, y se escribió 0."),
        (50, "en-GB", "No ones there, so 0 was written."),
    ],
)
def test_where_there_is_nothing_it_is_not_counted(whole: int, language: str, told: str) -> None:
    found = wrong_page([Sum(whole, 26)], designs.words(language)).mistakes
    assert next(one.told for one in found if one.key == "zero-when-short") == told


def test_a_zero_in_a_kit_takes_the_third_row() -> None:
    # 305 − 148: the zero became 9 and no hundred went: 15 − 8, 9 − 4, 3 − 1.
    found = mistake("zero-becomes-nine", *LESSONS)
    assert (found.sum, found.answer) == (Sum(305, 148), 257)
    assert piles(found)[0] == Pile(here=5, new=10, count=15)
    assert piles(found)[1] == Pile(new=9, count=9)
    assert "10 tens came, one was exchanged" in found.told
    assert piles(found)[2] == Pile(here=3, looped=True, count=3)


@pytest.mark.parametrize(
    ("sum_", "answer", "counts"),
    [
        (Sum(4002, 1768), 3234, (12, 9, 9, 4)),
        (Sum(5000, 2345), 3655, (10, 9, 9, 5)),
        (Sum(702, 368), 434, (12, 9, 7)),
        (Sum(4012, 1768), 3244, (12, 10, 9, 4)),
        (Sum(4302, 1768), 2634, (12, 9, 3, 4)),
        (Sum(300, 147, Scale(decimals=2)), 253, (10, 9, 3)),
    ],
    ids=str,
)
def test_the_answer_across_zeros_is_what_the_picture_leaves(
    sum_: Sum, answer: int, counts: tuple[int, ...]
) -> None:
    found = mistake("zero-becomes-nine", sum_)
    assert (found.sum, int(found.answer)) == (sum_, answer)
    assert tuple(pile.count for pile in piles(found)) == counts
    lies = sum(10**place * count for place, count in enumerate(counts))
    assert lies - int(sum_.part) == answer
    assert "zero-becomes-nine" in [cause.key for cause in why(sum_, answer)]


def test_the_picture_across_zeros_agrees_with_every_answer() -> None:
    telling = _Telling(WORDS, "two")
    for whole in (1000, 1001, 2030, 3004, 4002, 4100, 5040, 6200, 7007, 9010):
        for part in range(1, whole, 7):
            answer = dict(shown(whole, part)).get("zero-becomes-nine")
            if answer is None or answer in (whole, part):
                continue
            found = telling.zero(Sum(whole, part))
            lies = sum(10**k * (pile.count or 0) for k, pile in enumerate(piles(found)))
            assert lies - part == answer == found.answer, (whole, part)


def test_the_picture_of_a_half_done_exchange_agrees_with_every_answer() -> None:
    telling = _Telling(WORDS, "two")
    for whole in (43, 90, 254, 431, 608, 850, 3416):
        for part in range(1, whole, 3):
            answer = dict(shown(whole, part)).get("not-lowered")
            if answer in (None, whole, part) or len(exchanges(Sum(whole, part))) != 1:
                continue
            found = telling.lowered(Sum(whole, part))
            lies = sum(10**k * (pile.count or 0) for k, pile in enumerate(piles(found)))
            assert lies - part == answer == found.answer, (whole, part)


def test_pictures_show_the_moment_that_is_asked_about() -> None:
    # 634 − 258: 8 ones are wanted, 4 are there; ten came and all 3 tens are still there.
    turned = mistake("turned", Sum(634, 258)).scene
    # drawn among the four that are there, those that lack read as "add 4": they lie apart
    assert [zone.piles[0] for zone in turned.zones] == [Pile(4, count=4), Pile(needed=8)]
    assert turned.moves == (Move(("whole", 0), ("part", 0), asks=True),)
    lowered = piles(mistake("not-lowered", Sum(634, 218)))
    assert lowered[0] == Pile(here=4, new=10, count=14)
    assert lowered[1] == Pile(here=3, looped=True, count=3)
    # Of two pieces that stay the picture shows one: a sum with one exchange is taken instead.
    other = mistake("not-lowered", Sum(634, 258), Sum(634, 218))
    assert other.sum == Sum(634, 218) and other.name == "1 ten not put back"
    # 326 − 171: 12 − 7 is the tens' fact; of the ones 5 are left and a hundred has gone.
    slip = mistake("slip", Sum(326, 171))
    assert slip.answer == 145 and "12 − 7" in slip.told
    assert piles(slip) == (Pile(5, count=5), Pile(5, gone=7, count=5), Pile(2, count=2))


@pytest.mark.parametrize("sum_", [Sum(97, 48), Sum(53, 26), Sum(82, 41), Sum(63, 36)], ids=str)
def test_no_example_of_a_wrong_answer_is_copied_from_the_sum(sum_: Sum) -> None:
    """97 − 48 = 49: the slip of one less, 48, is the number taken out."""
    for found in page(sum_).mistakes:
        assert found.answer not in (found.sum.whole, found.sum.part, found.sum.rest)


def test_a_kit_without_telling_sums_has_another_example() -> None:
    turned = mistake("turned", Sum(78, 41))
    assert (turned.sum, turned.answer) == (Sum(53, 26), 33)  # |3 − 6| = 3, 5 − 2 = 3


@pytest.mark.parametrize(
    ("sum_", "answer"),
    [
        # 634 − 258 = 376; 305 − 148 = 157; 940 − 127 = 813: the hundreds stay where they are.
        (Sum(634, 258), 367),
        (Sum(305, 148), 175),
        (Sum(940, 127), 831),
        (Sum(634, 436), 189),  # 198
        (Sum(390, 189), 210),  # 201
        (Sum(42, 27), 51),  # 15
        # Where nothing new comes of it the page's own 53 − 26 = 27 does instead: 52 − 43 leaves
        # 9, a digit alone; 305 − 185 = 120 would end in 02; 93 − 54 = 39 gives the 93 of the
        # sum, and 121 − 65 = 56 its 65.
        (Sum(52, 43), 72),
        (Sum(305, 185), 72),
        (Sum(93, 54), 72),
        (Sum(121, 65), 72),
    ],
    ids=str,
)
def test_digits_changed_round(sum_: Sum, answer: int) -> None:
    assert mistake("order", sum_).answer == answer


@pytest.mark.parametrize("language", designs.names("words"))
def test_no_question_names_a_place_a_digit_or_an_answer(language: str) -> None:
    words = designs.words(language)
    places = [words(f"place.{place}") for place in PLACES]
    places += [words(f"single.{place}") for place in PLACES[1:]]
    for sums in (LESSONS, (Sum(71, 48),), (Sum(634, 258),)):
        for found in wrong_page(sums, words).mistakes:
            numbers = set(re.findall(r"\d+", found.asks))
            assert numbers <= {str(found.sum.whole)}
            assert not any(re.search(rf"\b{place}\b", found.asks) for place in places)


def test_decimals_show_a_mistake_of_their_own_and_no_answer_has_two_names() -> None:
    # 3 − 1.47: the lone 7 and 4 brought down give 2.47, smaller from larger gives 2.47 as well.
    scale = Scale(2)
    found = wrong_page([Sum(300, 147, scale)], WORDS).mistakes
    assert (found[0].key, found[0].answer) == ("lone-digit", 247)
    assert found[0].scene.zones[1].piles == (Pile(needed=7),)
    assert (found[1].key, int(found[1].sum.whole)) == ("turned", 353)
    assert len({(one.sum, one.answer) for one in found}) == len(found) == 5


def test_digits_turned_round_are_shown_where_they_are_wrong_and_nothing_else_gives_them() -> None:
    # "5 - 0 was worked for 0 - 5" stood by a right digit, and the answer had another name elsewhere
    words = designs.words()
    turned = wrong_page([Sum(3000, 1275), Sum(442, 277)], words).mistakes[0]
    assert turned.sum == Sum(442, 277) and turned.told == "7 − 4 was worked for 4 − 7."
