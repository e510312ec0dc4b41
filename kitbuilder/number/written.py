"""The written columns of a sum, ones first, with the marks made above them."""

from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache

from kitbuilder.frozen import frozen
from kitbuilder.number.exchange import fill
from kitbuilder.number.steps import Act, Step
from kitbuilder.number.sums import Sum, digits


@frozen
class Column:
    """One written column.

    ``marks`` are the numbers written above ``top``, in the order they are written: a zero
    that an exchange crosses carries 10, then 9. ``bottom`` is None where the part has no
    digit, ``answer`` is None where a zero would lead the answer. Decimals have a digit in each
    column as far as the ones.
    """

    top: int
    bottom: int | None
    answer: int | None
    marks: tuple[int, ...]


def columns(sum_: Sum) -> tuple[Column, ...]:
    """Return the written columns of ``sum_``, ones first.

    The last mark of a column is what the column holds when it is worked.
    Source: decomposition as in England, DfE 2013, Mathematics programmes of study KS1-2,
    Appendix 1 (from memory) and New Zealand Ministry of Education, "Decomposition: a written
    form of subtraction".
    """
    places = sum_.places
    tops = digits(sum_.whole, places)
    table = tops
    marks: list[list[int]] = [[] for _ in tops]
    for place, needed in enumerate(digits(sum_.part, places)):
        if table[place] < needed:
            table, made = fill(table, place)
            for exchange in made:
                before = marks[exchange.source] or [tops[exchange.source]]
                marks[exchange.source].append(before[-1] - 1)
                held = marks[exchange.target] or [tops[exchange.target]]
                marks[exchange.target].append(held[-1] + 10)
        table = (*table[:place], table[place] - needed, *table[place + 1 :])
    lower, result = sum_.width(sum_.part), sum_.width(sum_.rest)
    return tuple(
        _column(
            tops[k],
            sum_.part // 10**k % 10 if k < lower else None,
            sum_.rest // 10**k % 10 if k < result else None,
            tuple(marks[k]),
        )
        for k in range(places)
    )


def small_ones(sum_: Sum) -> tuple[bool, ...]:
    """Return the columns, ones first, at which a small 1 is written when both parts are added."""
    first, second = digits(sum_.rest, sum_.places), digits(sum_.part, sum_.places)
    carried, found = False, []
    for one, other in zip(first, second, strict=True):
        found.append(carried)
        carried = one + other + carried > 9
    return tuple(found)


@lru_cache(4096)
def _column(top: int, bottom: int | None, answer: int | None, marks: tuple[int, ...]) -> Column:
    """Return a column; the same few stand in thousands of sums, and are held once."""
    return Column(top, bottom, answer, marks)


def columns_after(sum_: Sum, done: Sequence[Step]) -> tuple[tuple[Column, ...], ...]:
    """Return the written columns of ``sum_`` as they stand after each of its steps ``done``.

    An exchange writes its two marks. A taking writes the answer of its column, and of the
    columns before it in which nothing is taken; PARTS writes the rest of the answer. ``done``
    are ``steps(sum_)``, ones first.
    """
    worked = columns(sum_)
    marks = [0] * sum_.places
    answered = 0
    found = []
    for step in done:
        if step.act is Act.EXCHANGE and step.place is not None:
            marks[step.place] += 1
            marks[step.place + 1] += 1
        elif step.act is Act.TAKE and step.place is not None:
            answered = step.place + 1
        elif step.act is Act.PARTS:
            answered = sum_.places
        found.append(
            tuple(
                replace(c, marks=c.marks[: marks[k]], answer=c.answer if k < answered else None)
                for k, c in enumerate(worked)
            )
        )
    return tuple(found)
