"""Turns the steps of a sum into scenes to draw: what lies there, what was just laid or taken."""

from collections.abc import Sequence

from kitbuilder.kit.mat_needs import Arrangement
from kitbuilder.kit.records import Scene
from kitbuilder.number import Pieces
from kitbuilder.number.steps import Act, Step


def scenes(done: Sequence[Step], arrangement: Arrangement = "two") -> tuple[Scene, ...]:
    """Return the scene after each of the steps ``done``, without labels.

    On a mat with a zone for the rest, the rest is moved there when the part is out.
    """
    found = []
    before = (Pieces(), Pieces())
    for step in done:
        now = (step.table.whole, step.table.part)
        gone = Pieces() if step.act is Act.TOGETHER else _more(before[0], now[0])
        if step.act is Act.PARTS and arrangement != "two":
            left, now = now[0], (Pieces(), now[1])
            moved = Scene(*now, ghosts=left, rest=left, laid_rest=left, arrangement=arrangement)
            found.append(moved)
        elif step.act in (Act.PARTS, Act.CHECK):
            found.append(Scene(*now, arrangement=arrangement))
        else:
            laid = (_more(now[0], before[0]), _more(now[1], before[1]))
            found.append(Scene(*now, *laid, gone, arrangement=arrangement))
        before = now
    return tuple(found)


def _more(these: Pieces, those: Pieces) -> Pieces:
    pairs = zip(these.counts, those.counts, strict=True)
    return Pieces(*(max(0, a - b) for a, b in pairs))


def _pieces(place: int, count: int) -> Pieces:
    return Pieces.by_place((0,) * place + (count,))
