"""What a child does, and what the adult asks, move by move: one order for every page."""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum

from kitbuilder.number.course.stages import Stage
from kitbuilder.number.steps import Act, Step, Table, steps
from kitbuilder.number.sums import Pieces, Sum, digits


class Cue(Enum):
    """A turn of the talk beside the pieces; its words stand under the same name."""

    BUILD = "build"
    GUESS = "guess"
    LOOK = "look"
    WHERE = "where"
    HAND = "hand"
    FETCH = "fetch"
    TRACE = "trace"
    TAKE = "take"
    STAY = "stay"
    READ = "read"
    PUSH = "push"
    BACK = "back"
    ADD = "add"


ADDING = (Cue.ADD,)
PUSHING = (Cue.PUSH, Cue.BACK)


@dataclass(frozen=True, slots=True)
class Mark:
    """What is written in a column after a move: ``written``, with ``struck`` struck out.

    With something struck it is a new count above, else the digit below.
    """

    place: int
    written: int
    struck: int | None = None


@dataclass(frozen=True, slots=True)
class Move:
    """One turn: what it is about, the table after it, and the mark written after the hand.

    ``place`` is the column: of HAND the one handed in from, of FETCH the one that receives
    ten, of WHERE and LOOK the one that is short, of TRACE the zero that passed a piece on.
    """

    cue: Cue
    table: Table
    place: int | None = None
    count: int = 0
    mark: Mark | None = None


def script(sum_: Sum, stage: Stage = "both") -> tuple[Move, ...]:
    """Return the moves of ``sum_`` at ``stage``, ones first.

    The part and the rest are pushed together while there are pieces; from the second stage
    on they are added in columns. A mark follows its hand; pieces alone leave none.
    """
    left_out = {
        "pieces": ADDING,
        "both": (),
        "drawn": PUSHING,
        "written": PUSHING,
    }[stage]
    moves = tuple(move for move in _moves(sum_) if move.cue not in left_out)
    if stage != "pieces":
        return moves
    return tuple(Move(m.cue, m.table, m.place, m.count) for m in moves)


def _moves(sum_: Sum) -> Iterator[Move]:
    built = Table(Pieces.of(sum_.whole), Pieces())
    yield Move(Cue.BUILD, built)
    yield Move(Cue.GUESS, built)
    done = steps(sum_)
    table, written = built, len(str(sum_.rest))
    for place, needed in enumerate(digits(sum_.part, sum_.places)):
        for move in _filled(done, place, table):
            yield move
            table = move.table
        cue = Cue.TAKE if needed else Cue.STAY
        table = next((s.table for s in done if s.act is Act.TAKE and s.place == place), table)
        digit = table.whole.counts[place]
        mark = Mark(place, digit) if place < written else None
        yield Move(cue, table, place, needed, mark)
    yield Move(Cue.READ, table)
    for step in done:
        if step.act is Act.TOGETHER:
            yield Move(Cue.PUSH, step.table)
        if step.act is Act.EXCHANGE_BACK:
            yield Move(Cue.BACK, step.table, step.place)
    yield Move(Cue.ADD, done[-1].table)


def _filled(done: tuple[Step, ...], place: int, table: Table) -> Iterator[Move]:
    """Yield the exchanges made for the column ``place``, from ``table`` on."""
    exchanges = [
        step for at, step in enumerate(done) if step.act is Act.EXCHANGE and _for(done[at:], place)
    ]
    if not exchanges:
        return
    yield Move(Cue.LOOK, table, place)
    if len(exchanges) > 1:
        yield Move(Cue.WHERE, table, place)
    for step in exchanges:
        target = step.place or 0
        whole = list(table.whole.counts)
        held = whole[target + 1]
        whole[target + 1] -= 1
        handed = Table(Pieces.by_place(tuple(whole)), table.part)
        yield Move(Cue.HAND, handed, target + 1, 1, Mark(target + 1, held - 1, held))
        before = whole[target]
        yield Move(Cue.FETCH, step.table, target, 10, Mark(target, before + 10, before))
        table = step.table
    if len(exchanges) > 1:
        yield Move(Cue.TRACE, table, place + 1)


def _for(ahead: tuple[Step, ...], place: int) -> bool:
    return next(s.place for s in ahead if s.act is Act.TAKE) == place
