"""What is done, asked, said and written at each move of a script, in words."""

from dataclasses import dataclass

from kitbuilder.design.load import Words
from kitbuilder.kit import phrases
from kitbuilder.number import PLACES, Sum
from kitbuilder.number.course.script import Cue, Move


@dataclass(frozen=True, slots=True)
class Turn:
    """One move in words: the child's hand, the adult's question, what may be said, the mark.

    What does not occur is empty.
    """

    cue: Cue
    hand: str
    asks: str
    says: str
    writes: str


def turn(move: Move, sum_: Sum, words: Words) -> Turn:
    """Return ``move`` of ``sum_`` in words."""
    slots = _slots(move, sum_, words)
    hand, asks, says = words.lines(f"moves.{move.cue.value}", **slots)
    writes = ""
    if move.cue is Cue.BUILD:
        writes = words("moves.writes.sum", **slots)
    elif move.cue is Cue.ADD:
        writes = words("moves.writes.carry")
    elif move.mark:
        key = "below" if move.mark.struck is None else "above"
        writes = words(f"moves.writes.{key}", **slots)
    return Turn(move.cue, hand, asks, says, writes)


def _slots(move: Move, sum_: Sum, words: Words) -> dict[str, object]:
    slots: dict[str, object] = {"whole": sum_.whole, "part": sum_.part, "rest": sum_.rest}
    slots["pieces"] = phrases.pieces(words, move.table.whole)
    if move.place is None:
        return slots
    place = move.place - 1 if move.cue is Cue.HAND else move.place
    held = move.table.whole.counts[move.place]
    slots |= {
        "place": words(f"place.{PLACES[place]}"),
        "count": phrases.count(words, place, move.count),
        "left": held,
        "column": words(f"place.{PLACES[move.place]}"),
    }
    if place + 1 < len(PLACES):
        slots["source"] = words(f"single.{PLACES[place + 1]}")
        slots["next"] = words(f"place.{PLACES[place + 1]}")
    if place + 2 < len(PLACES):
        slots["further"] = words(f"single.{PLACES[place + 2]}")
    if place:
        slots["lower"] = words(f"place.{PLACES[place - 1]}")
    if move.mark:
        slots |= {"struck": move.mark.struck, "written": move.mark.written}
    return slots
