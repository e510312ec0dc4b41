"""Explains one wrong answer: every mistake that gives it, likeliest first."""

from functools import lru_cache

from kitbuilder.frozen import frozen
from kitbuilder.number.mistakes.decimal import OF_DECIMALS, POINT, decimal_answers, point_moved
from kitbuilder.number.mistakes.habits import ALL_HABITS
from kitbuilder.number.mistakes.posterior import FOLLOWED, SLIPS
from kitbuilder.number.mistakes.profiles import PROFILES, RIGHT, answers
from kitbuilder.number.mistakes.slips import ONE_OUT, SWAPPED, slip_place, swapped
from kitbuilder.number.sums import PLACES, Sum

SLIP = "slip"
ORDER = "order"

GOT_SO_FAR = 0.1
"""How much rarer a habit that every exchange shows is on a sum with a printed zero or a gap.

Such a sum is given to a child who has come through sums without (ours): where both give the
answer, the habit that needs the zero or the empty place comes first, as in the published
examples 140 − 21 = 121 and 347 − 9 = 348. So does what only decimals of different lengths show.
"""

FORGOTTEN = 0.04
"""Chance that a child who knows the way forgets once to lower the column handed in from.

Ours; an answer one ten out is far likelier that than a miscounted fact (common practice).
"""


@frozen
class Cause:
    """One explanation of a wrong answer.

    ``keys`` is a habit's key, ``slip`` (one more or one less in the column ``place``), or
    ``order`` (the right digits in another order); or two habits' keys, where both were at work.
    ``place`` is also the column of a habit that shows there alone. ``likelihood`` is the share
    among all causes of the answer, ``twins`` are habits that give the same number to this sum.
    """

    keys: tuple[str, ...]
    place: int | None
    likelihood: float
    twins: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        if self.key == SLIP and self.place is None:
            raise ValueError("a slip stands in a column: give Cause.place")

    @property
    def key(self) -> str:
        """The first of ``keys``: the only one, but where two habits were at work."""
        return self.keys[0]


@lru_cache(2048, typed=True)  # the pages of a class ask of one answer again and again
def why(sum_: Sum, answer: int) -> tuple[Cause, ...]:
    """Return every mistake that gives ``answer`` to ``sum_``, likeliest first.

    Two habits at once are told only where nothing simpler gives the answer. Empty for the right
    answer, and for one that nothing foreseen explains.
    """
    if answer == sum_.rest:
        return ()
    habits, others = _habits(sum_, answer), _others(sum_, answer)
    if any(key in OF_DECIMALS for keys, _ in others for key in keys):
        habits = {which: weight * GOT_SO_FAR for which, weight in habits.items()}
    weights = habits | others or _habits(sum_, answer, together=2)
    total = sum(weights.values())
    ordered = sorted(weights.items(), key=lambda item: -item[1])
    told = [key for (keys, _), _ in ordered for key in keys if key not in (SLIP, ORDER)]
    return tuple(
        Cause(keys, place, weight / total, _twins(keys, told)) for (keys, place), weight in ordered
    )


Weights = dict[tuple[tuple[str, ...], int | None], float]


def _habits(sum_: Sum, answer: int, together: int = 1) -> Weights:
    """Return how common each habit is that gives ``answer``, ``together`` of them at once."""
    special = {habit.key for habit in ALL_HABITS if habit.special}
    found: Weights = {}
    for profile, given in zip(PROFILES, answers(int(sum_.whole), int(sum_.part)), strict=True):
        if given != answer or len(profile.keys) != together:
            continue
        keys = tuple(sorted(profile.keys)) if together > 1 else profile.keys
        if (keys, None) in found:  # the same in all columns, or in another order
            found[keys, None] += profile.weight
            continue
        forgets = keys == ("not-lowered",) and profile.place is not None
        once = PROFILES[RIGHT].weight * FORGOTTEN if forgets else 0.0
        found[keys, profile.place] = found.get((keys, profile.place), once) + profile.weight
    holds = "0" in str(sum_.whole) or len(str(sum_.part)) < len(str(sum_.whole))
    if holds and any(special & {*keys} for keys, _ in found):
        found = {
            (keys, place): weight * (1 if special & {*keys} else GOT_SO_FAR)
            for (keys, place), weight in found.items()
        }
    steady = sum(f * share for f, share in FOLLOWED)
    return {which: weight * steady for which, weight in found.items()}


def _others(sum_: Sum, answer: int) -> Weights:
    """Return how common a slip, swapped digits and a mistake of decimals are that give it."""
    found: Weights = {}
    common = PROFILES[RIGHT].weight
    place = slip_place(int(sum_.whole), int(sum_.part), int(sum_.rest), answer)
    if place is not None:
        found[(SLIP,), place] = common * ONE_OUT * sum(rate * share for rate, share in SLIPS)
    if swapped(sum_.rest, answer):
        found[(ORDER,), None] = common * SWAPPED
    often = max(profile.weight for profile in PROFILES if profile.keys)
    for key, given in decimal_answers(sum_):  # as often as the most common habit (ours)
        if given == answer:
            found[(key,), None] = often * sum(f * share for f, share in FOLLOWED)
    if point_moved(sum_, answer):
        found[(POINT,), None] = often
    return found


def _twins(keys: tuple[str, ...], told: list[str]) -> tuple[str, ...]:
    if keys[0] in (SLIP, ORDER):
        return ()
    return tuple(dict.fromkeys(key for key in told if key not in keys))


def slip_in(sum_: Sum, place: int) -> int | None:
    """Return the answer of one slip in the column ``place``, one less or else one more.

    Only that slip gives it, and it is none of the sum's own numbers: a child who writes 48 for
    97 − 48 has more likely copied than counted one too few. None where there is no such answer.
    """
    if place >= len(PLACES):
        return None
    worth: int = 10**place
    for answer in (sum_.rest - worth, sum_.rest + worth):
        alone = answer not in (sum_.whole, sum_.part) and answer >= 0
        if alone and [(c.keys, c.place) for c in why(sum_, answer)] == [((SLIP,), place)]:
            return answer
    return None
