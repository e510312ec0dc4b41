"""The exchanges of a sum: which columns run short, and where each ten comes from."""

from kitbuilder.frozen import frozen
from kitbuilder.number.sums import Sum, digits


@frozen
class Exchange:
    """One piece of place ``source`` handed in for ten of the next smaller place.

    ``source`` is the place's index: 1 is a ten for ten ones, 2 a hundred for ten tens.
    """

    source: int

    def __post_init__(self) -> None:
        if not 1 <= self.source <= 3:
            raise ValueError(f"Exchange.source is {self.source}; it must be 1 to 3")

    @property
    def target(self) -> int:
        """Index of the place that receives ten pieces."""
        return self.source - 1


def work(top: int, bottom: int, lent: int) -> tuple[int, int]:
    """Return what a column holds when it is worked, ones first, and what it is lent.

    ``top`` and ``bottom`` are its digits (0 where the part has none), ``lent`` is 1 if it
    has handed a piece to the column before it. The second number is 1 if ten pieces come
    from the next larger place. A zero that has lent holds 9: ten came, one went.
    """
    held = top - lent
    return (held + 10, 1) if held < bottom else (held, 0)


def fill(table: tuple[int, ...], place: int) -> tuple[tuple[int, ...], tuple[Exchange, ...]]:
    """Return the table after ten pieces more lie in ``place``, and the exchanges that did it.

    The ten come from the nearest larger place that holds a piece; every empty place on the
    way receives ten and passes one on, so an exchange across a zero is two exchanges.
    Counts are ones first. Raises ``ValueError`` when no larger place holds a piece.
    """
    source = place + 1
    while source < len(table) and table[source] == 0:
        source += 1
    if source >= len(table):
        raise ValueError(f"fill: no place above {place} holds a piece in {table}")
    counts = list(table)
    made = []
    for higher in range(source, place, -1):
        counts[higher] -= 1
        counts[higher - 1] += 10
        made.append(Exchange(higher))
    return tuple(counts), tuple(made)


def exchanges(sum_: Sum) -> tuple[Exchange, ...]:
    """Return every exchange of the written method, ones first, in the order made."""
    table = digits(sum_.whole, sum_.places)
    made: list[Exchange] = []
    for place, needed in enumerate(digits(sum_.part, sum_.places)):
        if table[place] < needed:
            table, new = fill(table, place)
            made.extend(new)
        table = (*table[:place], table[place] - needed, *table[place + 1 :])
    return tuple(made)
