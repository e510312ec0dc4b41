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
        # ten fetched and none handed in
        (Sum(72, 48), "not-lowered", 0, "10 ones came, but 7 tens are still there."),
        # in 431 − 256 the hundred is exchanged for the tens' column
        (Sum(431, 256), "not-lowered", 1, "10 tens came, but 4 hundreds are still there."),
        # across a zero nothing was handed in further left
        (
            Sum(503, 268),
            "zero-becomes-nine",
            None,
            "10 tens came, one was exchanged, 1 hundred not put back: still 5 hundreds.",
        ),
        (Sum(53, 27), "zero-becomes-nine", None, "7 ones must come out."),  # no zero in it
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


@pytest.mark.parametrize(
    ("sum_", "key", "place", "counts", "struck", "move"),
    [
        # as each child's answer says: 12 − 8 and 7 − 4; 12 − 5 and 4 − 2
        (Sum(72, 48), "not-lowered", 0, (12, 7), {}, (1, 0)),
        (Sum(431, 256), "not-lowered", 1, (5, 12, 4), {}, (2, 1)),
        (Sum(347, 9), "empty-not-lowered", 0, (17, 4, 3), {}, (1, 0)),
        # 733 − 216 = 427: 13 − 6, 3 − 1, 6 − 2
        (Sum(733, 216), "from-leftmost", 0, (13, 3, 6), {2: 7}, (2, 0)),
        # 71 − 48 = 20: none of 1 can be 8, 6 − 4
        (Sum(71, 48), "handed-no-fetch", 0, (1, 6), {1: 7}, (1, 0)),
        # 503 − 268 = 335: 13 − 8, 9 − 6, 5 − 2
        (Sum(503, 268), "zero-becomes-nine", None, (13, 9, 5), {}, (2, 1)),
        # 3006 − 1807 = 2199: 16 − 7, 9 − 0, 9 − 8, 3 − 1
        (Sum(3006, 1807), "zero-becomes-nine", None, (16, 9, 9, 3), {}, (3, 2)),
        # 702 − 368 = 344: 12 − 8, 10 − 6, 6 − 3
        (Sum(702, 368), "zero-becomes-ten", None, (12, 10, 6), {2: 7}, (1, 0)),
        # 304 − 75 = 279: 14 − 5, 0 − 7 answered 7, 2
        (Sum(304, 75), "zero-skipped", None, (14, 0, 2), {2: 3}, (2, 0)),
    ],
)
def test_an_exchange_is_shown_as_the_child_left_it(
    sum_: Sum,
    key: str,
    place: int | None,
    counts: tuple[int, ...],
    struck: dict[int, int],
    move: tuple[int, int],
) -> None:
    scene = mistaken_step(sum_, key, place, WORDS).scene
    (piles,) = (zone.piles for zone in scene.zones if zone.role == "whole")
    assert tuple(pile.count for pile in piles) == counts
    assert all(pile.here + pile.new == pile.count for pile in piles)
    assert {k: pile.before for k, pile in enumerate(piles) if pile.before is not None} == struck
    (arrow,) = scene.moves
    assert arrow.asks
    assert (arrow.source[1], arrow.target[1]) == move
    assert piles[move[0]].looped
