"""When a stage is done: how many sums of a kind go well before the next stage."""

from kitbuilder.number.course.rungs import LADDER, Rung
from kitbuilder.number.course.stages import STAGES, Stage

SHORTEST = min(rung.days for rung in LADDER)
"""Days of the kind that asks for least that is new."""

_FIRST = (3, 3, 2, 2)
_LATER = (2, 2, 1, 2)
_SHORT = (1, 1, 1, 2)
# Sums a stage, in order. A later kind takes fewer, and one that has only two days the fewest
# (common practice).


def sums_before_going_on(rung: Rung, opening: Rung) -> dict[Stage, int]:
    """Return how many sums of ``rung`` go well at each stage; a course begins with ``opening``."""
    later = _SHORT if rung.days == SHORTEST else _LATER
    counts = _FIRST if rung == opening else later
    return dict(zip(STAGES, counts, strict=True))
