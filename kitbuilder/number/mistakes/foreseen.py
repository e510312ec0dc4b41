"""The wrong answers that are foreseen for a sum."""

from collections.abc import Sequence

from kitbuilder.frozen import frozen
from kitbuilder.number.mistakes.decimal import OF_DECIMALS, decimal_answers
from kitbuilder.number.mistakes.habits import ALL_HABITS, HABITS, outcomes
from kitbuilder.number.mistakes.one_out import IN_ANY_SUM, ORDER, OUT_BY
from kitbuilder.number.mistakes.profiles import answer_of
from kitbuilder.number.mistakes.why import why
from kitbuilder.number.sums import Sum

Mistake = tuple[str, int | None]
"""A mistake's key, and the only column in which it shows; None where it shows in all."""

GIVING = (*(habit.key for habit in ALL_HABITS), *IN_ANY_SUM, *OF_DECIMALS)
"""Mistakes that say which answer they give to a sum."""


@frozen
class WrongAnswer:
    """A foreseen wrong ``answer`` and the mistakes that give it, most likely first.

    ``place`` is the column in which alone the first of them shows, None where it shows in all.
    """

    answer: int
    keys: tuple[str, ...]
    place: int | None = None


def shown(whole: int, part: int) -> list[tuple[str, int]]:
    """Return (key, wrong answer) of each habit that shows in the sum, most likely first.

    A habit shows when the answer it gives is not the right one. Plain numbers, for going
    through many sums.
    """
    whole, part = int(whole), int(part)  # what is kept of them is bare of how they are written
    rest = whole - part
    return [
        (habit.key, answer)
        for habit, answer in zip(HABITS, outcomes(whole, part), strict=True)
        if answer is not None and answer != rest
    ]


def answer_by(mistake: Mistake, sum_: Sum) -> int | None:
    """Return the wrong answer that ``mistake`` gives to ``sum_``, None where it gives none."""
    key, place = mistake
    rest, given = int(sum_.rest), dict(decimal_answers(sum_)).get(key)
    if key in OUT_BY:
        given = rest + OUT_BY[key]
    elif key == ORDER:
        given = _swapped(f"{rest}")
    elif given is None:
        given = answer_of(key, place, sum_)
    return None if given is None or given < 0 or given == rest else given


def _swapped(digits: str) -> int | None:
    """Return ``digits`` with the last two neighbours swapped that differ, none of them a 0."""
    for k in reversed(range(1, len(digits))):
        one, other = digits[k - 1], digits[k]
        if one != other and "0" not in (one, other):
            return int(f"{digits[: k - 1]}{other}{one}{digits[k + 1 :]}")
    return None


def foreseen(sum_: Sum, first: Sequence[Mistake] = ()) -> tuple[WrongAnswer, ...]:
    """Return the wrong answers foreseen for ``sum_``, most likely first, each once.

    What the mistakes ``first`` give comes before all else, under their names. Habits give the
    others; those that only decimals show come first. The habits of one answer stand in the order
    in which ``why`` explains it.
    """
    own: dict[int, Mistake] = {}
    for mistake in first:
        if (given := answer_by(mistake, sum_)) is not None:
            own.setdefault(given, mistake)
    keys = {answer: [key] for answer, (key, _) in own.items()}
    for key, answer in (*decimal_answers(sum_), *shown(sum_.whole, sum_.part)):
        if key not in keys.setdefault(answer, []):
            keys[answer].append(key)
    found = []
    for answer, those in keys.items():
        named = those[:1] if answer in own else []
        ranked = (*named, *_ranked(sum_, answer, those[len(named) :]))
        place = own[answer][1] if named else None
        found.append(WrongAnswer(sum_.number(answer), ranked, place))
    return tuple(found)


def _ranked(sum_: Sum, answer: int, keys: list[str]) -> list[str]:
    """Return ``keys``, the likeliest first."""
    if len(keys) < 2:
        return keys
    told = [key for cause in why(sum_, answer) for key in cause.keys]
    return sorted(keys, key=lambda key: told.index(key) if key in told else len(told))
