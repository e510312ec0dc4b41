"""The moment of a lesson at which a mistake shows: what to look at again with the pieces."""

from collections.abc import Sequence

from kitbuilder.design.load import Words
from kitbuilder.kit.lesson.mishandled import mishandled
from kitbuilder.kit.lesson.script import LessonStep, script
from kitbuilder.number import Sum, digits
from kitbuilder.number.mistakes.one_out import OUT_BY

HANDED_IN = ("not-lowered", "handed-no-fetch", "empty-not-lowered", "from-leftmost")
"""Mistakes that are made in one exchange."""

ACROSS_ZERO = ("zero-becomes-nine", "zero-becomes-ten", "zero-skipped")
"""Mistakes that are made in two or more exchanges in a row."""
READ = ("n-minus-0", "top-not-brought", "order", "point")


def mistaken_step(sum_: Sum, key: str, place: int | None, words: Words) -> LessonStep:
    """Return the step of the lesson with ``sum_`` at which the mistake ``key`` shows.

    ``place`` is the column of the mistake. What went wrong in an exchange shows as the child
    left it: in the exchange into that column, or across a zero; misreading shows at both parts,
    adding at the whole alone, a slip at the check; all else where a column has too few.
    """
    steps = script(sum_, words)
    looks = [s for s in steps if any(move.asks for move in s.scene.moves)]
    exchanges = [s for s in steps if _exchanges(s)]
    read = [s for s in steps if not s.scene.moves][1:]
    if key == "slip" or key in OUT_BY:
        return next(s for s in steps if _pushes(s))
    if key == "added":
        return steps[0]
    if chain := _chain(exchanges, key, place, sum_):
        return mishandled(chain, key, words)
    looks = [s for s in looks if s.scene.moves[0].source[1] == place] or looks
    found = read if key in READ else looks
    return (found or read or list(steps))[0]


def _chain(
    exchanges: Sequence[LessonStep], key: str, place: int | None, sum_: Sum
) -> list[LessonStep]:
    """Return the exchanges in which the mistake ``key`` was made; empty where it is not of one."""
    targets = [s.scene.moves[0].target[1] for s in exchanges]
    if key in HANDED_IN and exchanges:
        fits = range(sum_.places - 2) if key == "from-leftmost" else (place,)
        return [exchanges[next((n for n, k in enumerate(targets) if k in fits), 0)]]
    if key not in ACROSS_ZERO:
        return []
    follows = [n for n, k in enumerate(targets[:-1]) if targets[n + 1] == k - 1]
    digit = digits(sum_.whole, sum_.places)
    start = next((n for n in follows if not digit[targets[n]]), None)
    if start is None:
        return []
    end = start + 1
    while end in follows:
        end += 1
    return list(exchanges[start : end + 1])


def _exchanges(step: LessonStep) -> bool:
    """Return whether a piece of the whole becomes ten of the next in it."""
    return any(
        move.source[0] == move.target[0] == "whole" and move.source[1] > move.target[1]
        for move in step.scene.moves
    )


def _pushes(step: LessonStep) -> bool:
    return any((move.source[0], move.target[0]) == ("part", "whole") for move in step.scene.moves)
