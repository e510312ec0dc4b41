"""Answers that are all one more, or all one less: not a slip, but the way facts are found."""

from collections.abc import Sequence

from kitbuilder.number.mistakes.posterior import Answered

ONE_MORE, ONE_LESS = "one-more", "one-less"
"""Counted back in ones: the number it starts from counted as the first one, or one step too many
(common practice)."""

OUT_BY = {ONE_MORE: 1, ONE_LESS: -1}

LEAST_OUT, MOST_OTHER = 3, 0.35
"""It is named where so many answers are one out in one direction, and at most such a share of all
answers is anything else. Ours: who slips in one of ten facts is not named (tests)."""


def one_out(answered: Sequence[Answered]) -> str:
    """Return which way nearly all answers are one out; empty where they are not."""
    for key, out in OUT_BY.items():
        count = sum(a.answer - a.sum.rest == out for a in answered)
        if count >= LEAST_OUT and len(answered) - count <= MOST_OTHER * len(answered):
            return key
    return ""
