"""The exchange pattern of a sum: which columns run short, which zeros are crossed."""

from kitbuilder.frozen import frozen
from kitbuilder.number.exchange import work
from kitbuilder.number.sums import PLACES, Sum

PATTERNS = ("none", "ones", "tens", "hundreds", "both", "across-zero")
"""Names of the patterns, easy to hard. ``ones``, ``tens``, ``hundreds``: that column alone is
short. ``both``: more than one column is short (of four places, two or three). ``across-zero``:
some exchange goes across a zero, whatever else is short."""


@frozen
class Pattern:
    """The exchanges of the written method, ones first.

    ``receives`` are the places that receive ten pieces, ``crossed`` those of them that are
    zeros and only pass pieces on to the place below.
    """

    receives: tuple[int, ...]
    crossed: tuple[int, ...]

    def __post_init__(self) -> None:
        if not set(self.receives) <= set(range(len(PLACES) - 1)):
            raise ValueError(f"Pattern.receives is {self.receives}; places must be 0 to 2")
        if not {(k, k - 1) for k in self.crossed} <= {
            (k, j) for k in self.receives for j in self.receives
        }:
            raise ValueError(f"Pattern.crossed is {self.crossed}; each must receive and pass on")

    @property
    def exchanges(self) -> int:
        """How many exchanges of one piece for ten are made."""
        return len(self.receives)

    @property
    def short(self) -> tuple[int, ...]:
        """The places that hold too few when they are reached."""
        return tuple(k for k in self.receives if k not in self.crossed)

    @property
    def name(self) -> str:
        """Its name, one of ``PATTERNS``."""
        if self.crossed:
            return "across-zero"
        if len(self.receives) > 1:
            return "both"
        return PLACES[self.receives[0]] if self.receives else "none"


def pattern(sum_: Sum) -> Pattern:
    """Return the exchange pattern of ``sum_``."""
    return pattern_of(sum_.whole, sum_.part)


def pattern_of(whole: int, part: int) -> Pattern:
    """Return the exchange pattern of ``whole`` − ``part`` (0 ≤ part ≤ whole ≤ 9999).

    Plain numbers in, a shared record out: for going through many sums.
    """
    return BY_MASKS[masks(whole, part)]


def masks(whole: int, part: int) -> tuple[int, int]:
    """Return the places that receive ten pieces and the zeros crossed, as bits (1 = ones)."""
    receives = crossed = lends = 0
    bit = 1
    while whole > 0:
        top, lent = whole % 10, lends
        _, lends = work(top, part % 10, lent)
        if lends:
            receives |= bit
            if lent and not top:
                crossed |= bit
        bit <<= 1
        whole //= 10
        part //= 10
    return receives, crossed


def _places(mask: int) -> tuple[int, ...]:
    return tuple(k for k in range(len(PLACES) - 1) if mask >> k & 1)


BY_MASKS = {
    (receives, crossed): Pattern(_places(receives), _places(crossed))
    for receives in range(8)
    for crossed in range(8)
    if crossed & ~(receives & receives << 1) == 0
}
"""Every pattern, by the two numbers ``masks`` returns."""
