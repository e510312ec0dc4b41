"""The ladder of kinds of sums, by the exchanges they need."""

from kitbuilder.frozen import frozen
from kitbuilder.number.choice.patterns import pattern
from kitbuilder.number.sums import Sum


@frozen
class Rung:
    """A kind of sum.

    ``key`` names it to people, ``places`` are those of the whole, ``pattern`` is its exchange
    pattern's name and ``days`` what it takes when other kinds were met before.
    """

    key: str
    places: int
    pattern: str
    days: int


LADDER = (
    Rung("two", 2, "ones", 5),
    Rung("ones", 3, "ones", 2),
    Rung("tens", 3, "tens", 3),
    Rung("both", 3, "both", 4),
    Rung("across-zero", 3, "across-zero", 5),
)
"""From easy to hard. Four places would follow in the same order, then tenths and hundredths;
exchanging across a zero is by far the hardest (de Chiusole & Stefanutti 2013, Electronic Notes
in Discrete Mathematics 42:41-48)."""

RUNG_KEYS = tuple(rung.key for rung in LADDER)


def rung_of(sum_: Sum) -> Rung | None:
    """Return the kind of ``sum_``, or None where the ladder has no such kind."""
    name = pattern(sum_).name
    return next((r for r in LADDER if (r.places, r.pattern) == (sum_.places, name)), None)


def up_to(rung: Rung) -> tuple[Rung, ...]:
    """Return the kinds up to ``rung``, from easy to hard."""
    return LADDER[: LADDER.index(rung) + 1]
