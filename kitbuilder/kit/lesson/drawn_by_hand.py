"""A sum drawn by hand instead of laid: squares, strokes and dots, and the marks they get."""

from typing import Literal

from kitbuilder.frozen import frozen
from kitbuilder.number import Sum, digits
from kitbuilder.number.exchange import exchanges

Mark = Literal["plain", "ring", "struck"]
"""A ring goes round what comes out, a stroke through what is exchanged."""


@frozen
class Cluster:
    """So many hundreds (place 2), tens or ones drawn together, with one mark."""

    place: int
    count: int
    mark: Mark = "plain"


Drawn = tuple[Cluster, ...]
"""What is drawn of a number, the largest place first."""


def drawn(sum_: Sum) -> tuple[Drawn, ...]:
    """Return the drawing of ``sum_`` as it grows: the whole, the exchanges, the part ringed.

    Without an exchange there is no second picture.
    """
    places = range(sum_.places)
    whole, part, rest = (
        digits(number, sum_.places) for number in (sum_.whole, sum_.part, sum_.rest)
    )
    sources = {made.source for made in exchanges(sum_)}
    gone = [1 if k in sources else 0 for k in places]
    come = [10 if k + 1 in sources else 0 for k in places]
    built = [Cluster(k, whole[k]) for k in places]
    changed, apart = [], []
    for k in places:
        old = max(0, whole[k] - gone[k])
        new = whole[k] + come[k] - gone[k] - old
        changed += [Cluster(k, gone[k], "struck"), Cluster(k, new), Cluster(k, old)]
        apart += [
            Cluster(k, gone[k], "struck"), Cluster(k, part[k], "ring"), Cluster(k, rest[k]),
        ]  # fmt: skip
    found = (built, changed, apart) if sources else (built, apart)
    return tuple(tuple(c for c in reversed(stage) if c.count) for stage in found)
