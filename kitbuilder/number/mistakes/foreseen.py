"""Turns a sum into its foreseen wrong answers, and a wrong answer into what explains it."""

from dataclasses import dataclass

from kitbuilder.number.mistakes.habits import HABITS, outcomes
from kitbuilder.number.sums import PLACES, Sum

SLIP = "slip"
ORDER = "order"


@dataclass(frozen=True, slots=True)
class Mistake:
    """One explanation of a wrong answer.

    ``key`` is a habit's key, or ``slip`` (one more or one less in the column ``place``), or
    ``order`` (the right digits in the wrong order).
    """

    key: str
    place: int | None = None

    def __post_init__(self) -> None:
        if (self.key == SLIP) != (self.place is not None):
            raise ValueError(f"Mistake {self.key} has place {self.place}; only a slip has one")


@dataclass(frozen=True, slots=True)
class WrongAnswer:
    """A foreseen wrong ``answer`` and the habits that give it, most likely first."""

    answer: int
    keys: tuple[str, ...]


def shown(whole: int, part: int) -> list[tuple[str, int]]:
    """Return (key, wrong answer) of each habit that shows in the sum, most likely first.

    A habit shows when the answer it gives is not the right one. Plain numbers, for going
    through many sums.
    """
    rest = whole - part
    return [
        (habit.key, answer)
        for habit, answer in zip(HABITS, outcomes(whole, part), strict=True)
        if answer is not None and answer != rest
    ]


def foreseen(sum_: Sum) -> tuple[WrongAnswer, ...]:
    """Return the wrong answers that habits give to ``sum_``, most likely first, each once."""
    keys: dict[int, list[str]] = {}
    for key, answer in shown(sum_.whole, sum_.part):
        keys.setdefault(answer, []).append(key)
    return tuple(WrongAnswer(answer, tuple(those)) for answer, those in keys.items())


def explain(sum_: Sum, answer: int) -> tuple[Mistake, ...]:
    """Return every mistake that gives ``answer`` to ``sum_``, most likely first.

    Slips and the wrong order of digits are tried only when no habit fits, the slip first: it
    is one fact, while the order needs every digit right. Empty for the right answer, and for
    one that nothing foreseen explains.
    """
    if answer == sum_.rest:
        return ()
    habits = tuple(Mistake(key) for key, gives in shown(sum_.whole, sum_.part) if gives == answer)
    return habits or _slip(sum_, answer) + _order(sum_, answer)


def slip_in(sum_: Sum, place: int) -> int | None:
    """Return the answer of one slip in the column ``place``, one less or else one more.

    Only that slip gives it, and it is none of the sum's own numbers: a child who writes 48 for
    97 − 48 has more likely copied than counted one too few. None where there is no such answer.
    """
    worth: int = 10**place
    for answer in (sum_.rest - worth, sum_.rest + worth):
        alone = answer not in (sum_.whole, sum_.part)
        if alone and explain(sum_, answer) == (Mistake(SLIP, place),):
            return answer
    return None


def _slip(sum_: Sum, answer: int) -> tuple[Mistake, ...]:
    for place in range(len(PLACES)):
        worth = 10**place
        lowered = sum_.whole % worth < sum_.part % worth
        holds_fact = sum_.part >= worth or lowered
        digit = sum_.rest // worth % 10
        change = (answer - sum_.rest) / worth
        if holds_fact and change in (-1, 1) and 0 <= digit + change <= 9:
            return (Mistake(SLIP, place),)
    return ()


def _order(sum_: Sum, answer: int) -> tuple[Mistake, ...]:
    right = str(sum_.rest)
    given = str(answer).zfill(len(right))  # 012 for 120 reads as the number 12
    return (Mistake(ORDER),) if sorted(given) == sorted(right) else ()
