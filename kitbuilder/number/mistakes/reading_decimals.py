"""Reads the mistakes that only decimals of different lengths show, in one child's answers."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import replace

from kitbuilder.number.mistakes.decimal import POINT, decimal_answers, point_moved
from kitbuilder.number.mistakes.posterior import posterior
from kitbuilder.number.mistakes.reading import (
    LEADS,
    LEAST_FITTING,
    Fit,
    Likely,
    Read,
    Reading,
    Verdict,
)
from kitbuilder.number.sums import Sum


def with_decimals(reading: Reading, sums: Sequence[Sum]) -> Reading:
    """Return ``reading``, of hundredths, with a mistake of decimals where the answers show one.

    ``sums`` are those given, by the rows of the answers. A mistake is named where as many wrong
    answers fit it, and as large a share of them, as name a habit, and no habit fits more. Where
    one answer alone fits, more is asked. How likely it is to come again, of the wrong answers, is
    told by Laplace's rule of succession.
    """
    wrong = [one for one in reading.reads if one.fit is not Fit.RIGHT]
    fitting = {
        one.answered.row: _keys(sums[one.answered.row], one.answered.answer) for one in wrong
    }
    counts = Counter(key for keys in fitting.values() for key in keys)
    if not counts:
        return reading
    key, count = counts.most_common(1)[0]
    explained = max((_by_habit(reading, named) for named in reading.named), default=0)
    if count < explained or count < LEADS * len(wrong):
        return reading
    named = count >= LEAST_FITTING
    likely = (Likely(key, (count + 1) / (len(wrong) + 2)),)
    verdict = Verdict.HABIT if named else Verdict.MORE
    return replace(
        reading,
        verdict=verdict,
        habits=likely,
        named=(key,) if named else (),
        reads=_fitted(reading, key, fitting),
    )


def counted_in_tenths(reading: Reading, less: int) -> Reading:
    """Return the ``reading`` of sums of tenths, each counted as ``less``, with these as ones.

    What is said of the child stays; a column is the one that many places lower.
    """
    lower = len(str(less)) - 1
    reads = tuple(
        replace(
            one,
            answered=replace(
                one.answered, sum=one.answered.sum.per(less), answer=one.answered.answer // less
            ),
        )
        for one in reading.reads
    )
    habits = tuple(
        replace(likely, place=None if likely.place is None else max(0, likely.place - lower))
        for likely in reading.habits
    )
    after = posterior([one.answered for one in reads])
    return replace(reading, habits=habits, reads=reads, after=after)


def _keys(sum_: Sum, answer: int) -> tuple[str, ...]:
    found = tuple(key for key, given in decimal_answers(sum_) if given == answer)
    return (POINT, *found) if point_moved(sum_, answer) else found


def _by_habit(reading: Reading, key: str) -> int:
    return sum(one.fit is Fit.HABIT and one.key == key for one in reading.reads)


def _fitted(reading: Reading, key: str, fitting: Mapping[int, Sequence[str]]) -> tuple[Read, ...]:
    return tuple(
        replace(one, fit=Fit.HABIT, key=key) if key in fitting.get(one.answered.row, ()) else one
        for one in reading.reads
    )
