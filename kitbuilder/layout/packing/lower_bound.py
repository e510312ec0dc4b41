"""Turns a demand and a number of sheets into a number of strokes no plan can go below."""

from collections import Counter
from functools import lru_cache
from itertools import combinations_with_replacement, product

Margins = tuple[int, int]
"""Untrimmed margins of a part: how many of its left and right, of its top and bottom."""

LARGEST_OPENING = 5  # most parts followed one by one while fewer than K are in hand


def least_strokes(pieces: int, sheets: int, layers: int, margins: Margins = (2, 2)) -> int:
    """Return a lower bound on strokes for ``pieces`` on ``sheets``, each holding a piece.

    ``margins`` counts the sides of a sheet that must be trimmed, left and right, top and
    bottom. Let U be the parts in hand that still hold a piece and M their untrimmed margins,
    all told. A part cut is either a trim (M falls by one), or a division (U grows by one, and
    each margin it crosses is then on both halves), or drops something else (no gain). In the
    end U is the number of pieces and M is 0. So a stroke brings the cuts still to do,
    pieces + M − U, down by at most one for each part it goes through: at most K, and at most
    U. While U is below K, all ways to begin are searched, with every part of a stack free to
    be cut in its own way; from then on each stroke is taken to go through K parts.
    At K = 1 the bound is pieces + margins · sheets − sheets.
    """
    sides = sum(margins)
    if sheets >= layers:
        return -(-(pieces + sides * sheets - sheets) // layers)
    if layers > LARGEST_OPENING:
        return by_doubling(pieces + sides * sheets - sheets, sheets, layers)
    return strokes_from((_tidy(*margins),) * sheets, pieces, layers)


def by_doubling(left: int, parts: int, layers: int) -> int:
    """Return the strokes that ``left`` cuts take at least, from so many ``parts`` in hand."""
    strokes = 0
    while left > 0:
        step = min(parts, layers)
        left, parts, strokes = left - step, parts + step, strokes + 1
    return strokes


@lru_cache(maxsize=4096)
def strokes_from(parts: tuple[Margins, ...], pieces: int, layers: int) -> int:
    """Return a lower bound on strokes for ``pieces`` from ``parts`` in hand, each holding one.

    ``parts`` are told by their untrimmed margins, in order, the smaller first in each.
    """
    left = pieces + sum(map(sum, parts)) - len(parts)
    if left <= 0:
        return 0
    if len(parts) >= layers:
        return -(-left // layers)
    return 1 + min(strokes_from(after, pieces, layers) for after in _after(parts))


def _after(state: tuple[Margins, ...]) -> set[tuple[Margins, ...]]:
    """Return what one stroke can make of the parts in hand.

    Every part is cut: a part trimmed, or halved where it has no margins, can do whatever it
    could have done if left alone.
    """
    ways = [
        combinations_with_replacement(_moves(part), count)
        for part, count in sorted(Counter(state).items())
    ]
    return {
        tuple(sorted(part for group in choice for parts in group for part in parts))
        for choice in product(*ways)
    }


@lru_cache(maxsize=32)
def _moves(part: Margins) -> tuple[tuple[Margins, ...], ...]:
    """Return what one cut makes of a part; only parts that hold a piece are kept."""
    moves: dict[tuple[Margins, ...], None] = {}
    for along, across in (part, part[::-1]):
        if along:
            moves[(_tidy(along - 1, across),)] = None
        near = -(-along // 2)
        moves[tuple(sorted((_tidy(near, across), _tidy(along - near, across))))] = None
    return tuple(moves)


def _tidy(a: int, b: int) -> Margins:
    return (min(a, b), max(a, b))
