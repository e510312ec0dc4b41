"""Answers that are nearly all one more, one less, or swapped in their digits: no slips any more."""

from collections.abc import Sequence
from itertools import pairwise

from kitbuilder.number.facts import facts_of
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

LEAST_OUT, MOST_OTHER = 3, 0.4
"""It is named where so many answers are one out in one direction in their ones, or swapped, and at
most such a share of all answers is anything else. Ours: who slips in one of ten facts is not named
(tests)."""


def shows_it(key: str, answered: Answered) -> bool:
    """Say whether an answer is as ``key``, one of ``IN_ANY_SUM``, has it."""
    rest = int(answered.sum.rest)
    if key == ORDER:
        return swapped(rest, answered.answer)
    return (answered.answer - rest) * OUT_BY[key] in _counted(answered.sum)


def _counted(sum_: Sum) -> set[int]:
    """Return by how much an answer is out that was counted: in the ones, or in any columns that
    an exchange filled, where the facts are too large to be known (ours)."""
    found = {0, 1}
    for k, (held, _) in enumerate(facts_of(int(sum_.whole), int(sum_.part))):
        if k and held >= 10:
            found |= {amount + 10**k for amount in found}
    return found - {0}


def tells_order(sum_: Sum) -> bool:
    """Say whether a swap of any two neighbours in its answer shows: no two of them are alike."""
    digits = str(int(sum_.rest))
    return all(one != other for one, other in pairwise(digits))


def one_out(answered: Sequence[Answered]) -> str:
    """Return which of ``IN_ANY_SUM`` nearly all answers show; empty where they show none."""
    for key in IN_ANY_SUM:
        fits = [a for a in answered if shows_it(key, a)]
        surely = [a for a in fits if key == ORDER or (a.answer - a.sum.rest) % 10]
        if len(surely) >= LEAST_OUT and len(answered) - len(fits) <= MOST_OTHER * len(answered):
            return key
    return ""
