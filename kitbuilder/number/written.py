"""Turns a sum into its written columns, ones first, with the marks made above them."""

from dataclasses import dataclass

from kitbuilder.number.exchange import fill
from kitbuilder.number.sums import Sum, digits


@dataclass(frozen=True, slots=True)
class Column:
    """One written column.

    ``marks`` are the numbers written above ``top``, in the order they are written: a zero
    that an exchange crosses carries 10, then 9. ``bottom`` is None where the part has no
    digit, ``answer`` is None where a zero would lead the answer.
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
    lower, result = len(str(sum_.part)), len(str(sum_.rest))
    return tuple(
        Column(
            top=tops[k],
            bottom=sum_.part // 10**k % 10 if k < lower else None,
            answer=sum_.rest // 10**k % 10 if k < result else None,
            marks=tuple(marks[k]),
        )
        for k in range(places)
    )
