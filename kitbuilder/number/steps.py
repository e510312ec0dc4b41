"""The steps a child takes with pieces: what is on the table at each one."""

from collections.abc import Iterator, Sequence
from enum import Enum

from kitbuilder.frozen import frozen
from kitbuilder.number.exchange import Exchange, fill
from kitbuilder.number.sums import Pieces, Sum, digits


class Act(Enum):
    """What is done in a step."""

    BUILD = "build"
    EXCHANGE = "exchange"
    TAKE = "take"
    PARTS = "parts"
    TOGETHER = "together"
    EXCHANGE_BACK = "exchange_back"
    CHECK = "check"


@frozen
class Table:
    """The pieces in sight: those still in the zone of the whole, and the part taken out."""

    whole: Pieces
    part: Pieces

    @property
    def together(self) -> Pieces:
        """All pieces on the table."""
        return self.whole + self.part


@frozen
class Step:
    """One step: what is done, at which place, with how many pieces, and the table after it.

    ``place`` is the index of the column worked in (for an exchange, the column that receives
    the ten), or None where the step is about all columns. ``count`` is the number of pieces
    taken in a TAKE, else 0.
    """

    act: Act
    table: Table
    place: int | None = None
    count: int = 0


def steps(sum_: Sum, order: tuple[int, ...] | None = None) -> tuple[Step, ...]:
    """Return the steps of the concrete method for ``sum_``.

    Only the whole is built. Then, column by column in ``order`` (place indexes; ones first
    by default), a column that is short is filled by exchanges and the part is taken out.
    PARTS shows both parts. TOGETHER pushes them together, each EXCHANGE_BACK hands in ten
    pieces for one (ones first), and CHECK shows the whole as it was built.
    A column that takes nothing has no TAKE. Source: common practice.
    """
    places = sum_.places
    whole = digits(sum_.whole, places)
    taken = (0,) * places
    done = [Step(Act.BUILD, _table(whole, taken))]
    needed = digits(sum_.part, places)
    for place in order if order is not None else range(places):
        if whole[place] < needed[place]:
            for exchange in fill(whole, place)[1]:
                whole = _swap(whole, exchange, forward=True)
                done.append(Step(Act.EXCHANGE, _table(whole, taken), exchange.target))
        if needed[place]:
            whole = _add(whole, place, -needed[place])
            taken = _add(taken, place, needed[place])
            done.append(Step(Act.TAKE, _table(whole, taken), place, needed[place]))
    done.append(Step(Act.PARTS, done[-1].table))
    done.extend(_rebuild(done[-1].table.together.counts[:places]))
    return tuple(done)


def short_place(ahead: Sequence[Step]) -> int:
    """Return the place that the exchange at the head of ``ahead`` is made for.

    It is the place of the taking that comes next: a column is filled only to take from it.
    """
    return next(s.place for s in ahead if s.act is Act.TAKE and s.place is not None)


def _rebuild(counts: tuple[int, ...]) -> Iterator[Step]:
    nothing = (0,) * len(counts)
    yield Step(Act.TOGETHER, _table(counts, nothing))
    for place in range(len(counts) - 1):
        if counts[place] >= 10:
            counts = _swap(counts, Exchange(place + 1), forward=False)
            yield Step(Act.EXCHANGE_BACK, _table(counts, nothing), place)
    yield Step(Act.CHECK, _table(counts, nothing))


def _swap(counts: tuple[int, ...], exchange: Exchange, *, forward: bool) -> tuple[int, ...]:
    sign = 1 if forward else -1
    return _add(_add(counts, exchange.source, -sign), exchange.target, 10 * sign)


def _add(counts: tuple[int, ...], place: int, change: int) -> tuple[int, ...]:
    return (*counts[:place], counts[place] + change, *counts[place + 1 :])


def _table(whole: tuple[int, ...], part: tuple[int, ...]) -> Table:
    return Table(Pieces.by_place(whole), Pieces.by_place(part))
