"""The ladder of kinds of sums, by the exchanges they need."""

from kitbuilder.frozen import frozen
from kitbuilder.number.choice.patterns import pattern
from kitbuilder.number.sums import PLACES, Sum


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
"""From easy to hard. Sums of four places follow, each exchange pattern a kind of its own, and
tenths and hundredths are learned as the sums of their hundredths are; exchanging across a zero
is by far the hardest (de Chiusole & Stefanutti 2013, Electronic Notes in Discrete Mathematics
42:41-48)."""

THOUSANDS, THOUSANDS_DAYS = "thousands", 5

RUNG_KEYS = tuple(rung.key for rung in LADDER)


def rung_of(sum_: Sum) -> Rung | None:
    """Return the kind of ``sum_``, or None where there is no such kind.

    Sums of four places that exchange have one for each pattern, after the ladder.
    """
    name = pattern(sum_).name
    if sum_.places == len(PLACES) and name != "none":
        return Rung(THOUSANDS, sum_.places, name, THOUSANDS_DAYS)
    return next((r for r in LADDER if (r.places, r.pattern) == (sum_.places, name)), None)


def up_to(rung: Rung) -> tuple[Rung, ...]:
    """Return the kinds up to ``rung``, from easy to hard."""
    return (*before(rung), rung)


def before(rung: Rung) -> tuple[Rung, ...]:
    """Return the kinds before ``rung``, from easy to hard: of thousands all of the ladder."""
    return LADDER[: LADDER.index(rung)] if rung in LADDER else LADDER
