"""The moment of a lesson at which a mistake shows: what to look at again with the pieces."""

from kitbuilder.design.load import Words
from kitbuilder.kit.lesson.script import LessonStep, script
from kitbuilder.number import Sum
from kitbuilder.number.mistakes.one_out import OUT_BY

HANDED_IN = ("not-lowered", "handed-no-fetch", "empty-not-lowered", "from-leftmost")
ACROSS_ZERO = ("zero-becomes-nine", "zero-becomes-ten", "zero-skipped")
READ = ("n-minus-0", "top-not-brought", "order", "point")


def mistaken_step(sum_: Sum, key: str, place: int | None, words: Words) -> LessonStep:
    """Return the step of the lesson with ``sum_`` at which the mistake ``key`` shows.

    ``place`` is the column of the mistake. What went wrong in handing in shows at the exchange
    into that column, what went wrong across a zero at the first hundred opened; misreading at
    both parts, adding at the whole alone, a slip at the check; all else where a column has too
    few.
    """
    steps = script(sum_, words)
    looks = [s for s in steps if any(move.asks for move in s.scene.moves)]
    exchanges = [s for s in steps if _exchanges(s)]
    at = [s for s in exchanges if place is None or s.scene.moves[0].target[1] == place]
    read = [s for s in steps if not s.scene.moves][1:]
    if key == "slip" or key in OUT_BY:
        return next(s for s in steps if _pushes(s))
    if key == "added":
        return steps[0]
    found = {
        **dict.fromkeys(HANDED_IN, at or exchanges),
        **dict.fromkeys(ACROSS_ZERO, exchanges),
        **dict.fromkeys(READ, read),
    }.get(key, [s for s in looks if s.scene.moves[0].source[1] == place] or looks)
    return (found or read or list(steps))[0]


def _exchanges(step: LessonStep) -> bool:
    """Return whether a piece of the whole becomes ten of the next in it."""
    return any(
        move.source[0] == move.target[0] == "whole" and move.source[1] > move.target[1]
        for move in step.scene.moves
    )


def _pushes(step: LessonStep) -> bool:
    return any((move.source[0], move.target[0]) == ("part", "whole") for move in step.scene.moves)
