"""The wrong answers that are foreseen for a sum."""

from kitbuilder.frozen import frozen
from kitbuilder.number.mistakes.decimal import decimal_answers
from kitbuilder.number.mistakes.habits import HABITS, outcomes
from kitbuilder.number.mistakes.why import why
from kitbuilder.number.sums import Sum


@frozen
class WrongAnswer:
    """A foreseen wrong ``answer`` and the habits that give it, most likely first."""

    answer: int
    keys: tuple[str, ...]


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


def foreseen(sum_: Sum) -> tuple[WrongAnswer, ...]:
    """Return the wrong answers foreseen for ``sum_``, most likely first, each once.

    Habits give them; those that only decimals show come first. The habits of one answer stand in
    the order in which ``why`` explains it.
    """
    keys: dict[int, list[str]] = {}
    for key, answer in (*decimal_answers(sum_), *shown(sum_.whole, sum_.part)):
        keys.setdefault(answer, []).append(key)
    return tuple(
        WrongAnswer(sum_.number(answer), tuple(_ranked(sum_, answer, those)))
        for answer, those in keys.items()
    )


def _ranked(sum_: Sum, answer: int, keys: list[str]) -> list[str]:
    """Return ``keys``, the likeliest first."""
    if len(keys) < 2:
        return keys
    told = [key for cause in why(sum_, answer) for key in cause.keys]
    return sorted(keys, key=lambda key: told.index(key) if key in told else len(told))
