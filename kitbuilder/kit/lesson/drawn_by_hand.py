"""A sum drawn by hand instead of laid: squares, strokes and dots, and the marks they get."""

from dataclasses import replace

from kitbuilder.frozen import frozen
from kitbuilder.number import Sum, digits
from kitbuilder.number.exchange import exchanges

_TEN = 10
# So many are drawn for one that is struck: more than a digit is.


@frozen
class Cluster:
    """So many hundreds (place 2), tens or ones drawn together.

    A stroke goes through the last if that is exchanged, a ring round the first that come out.
    With ``blank`` there is only room for them yet.
    """

    place: int
    count: int
    struck: bool = False
    ringed: int = 0
    blank: bool = False


Drawn = tuple[Cluster, ...]
"""What is drawn of a number, the largest place first."""


def drawn(sum_: Sum) -> tuple[Drawn, ...]:
    """Return the drawing of ``sum_`` as it grows: the whole, the exchanges, the part ringed.

    On paper nothing moves: ten stand after what was drawn before, with room left for them among
    it. Without an exchange there is no second picture.
    """
    whole, part = (digits(number, sum_.places) for number in (sum_.whole, sum_.part))
    sources = {made.source for made in exchanges(sum_)}
    apart: Drawn = ()
    for k in range(sum_.places):
        counts = [n for n in (whole[k], _TEN if k + 1 in sources else 0) if n]
        found = [Cluster(k, n, struck=k in sources and not j) for j, n in enumerate(counts)]
        found[-1:] = [replace(last, ringed=part[k]) for last in found[-1:]]
        apart = (*found, *apart)
    changed = tuple(replace(c, ringed=0) for c in apart)
    built = [replace(c, struck=False, blank=c.count == _TEN) for c in changed]
    while built[-1].blank:
        built.pop()
    return (tuple(built), changed, apart) if sources else (tuple(built), apart)
