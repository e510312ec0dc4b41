"""Answers that are nearly all one more, one less, or swapped in their digits: no slips any more."""

from collections.abc import Sequence
from itertools import pairwise

from kitbuilder.number.mistakes.posterior import Answered
from kitbuilder.number.mistakes.slips import swapped
from kitbuilder.number.sums import Sum

ONE_MORE, ONE_LESS = "one-more", "one-less"
"""Counted back in ones: the number it starts from counted as the first one, or one step too many
(common practice)."""

OUT_BY = {ONE_MORE: 1, ONE_LESS: -1}

ORDER = "order"
"""The digits of the right answer stand in another order (from memory)."""

IN_ANY_SUM = (*OUT_BY, ORDER)
"""Mistakes that come whatever the sum exchanges: any sum shows them."""

LEAST_OUT, MOST_OTHER = 3, 0.35
"""It is named where so many answers are one out in one direction, or swapped, and at most such a
share of all answers is anything else. Ours: who slips in one of ten facts is not named (tests)."""


def shows_it(key: str, answered: Answered) -> bool:
    """Say whether an answer is as ``key``, one of ``IN_ANY_SUM``, has it."""
    rest = int(answered.sum.rest)
    if key == ORDER:
        return swapped(rest, answered.answer)
    return answered.answer - rest == OUT_BY[key]


def tells_order(sum_: Sum) -> bool:
    """Say whether a swap of any two neighbours in its answer shows: no two of them are alike."""
    digits = str(int(sum_.rest))
    return all(one != other for one, other in pairwise(digits))


def one_out(answered: Sequence[Answered]) -> str:
    """Return which of ``IN_ANY_SUM`` nearly all answers show; empty where they show none."""
    for key in IN_ANY_SUM:
        count = sum(shows_it(key, a) for a in answered)
        if count >= LEAST_OUT and len(answered) - count <= MOST_OTHER * len(answered):
            return key
    return ""
