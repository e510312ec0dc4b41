"""Turns parts of one outline into the ways one stroke can cut them, and what each gains."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache

Part = tuple[int, int, int, int]
"""Edges to cut off a part: of the paper, and within a unit, across; then the same down."""

Parts = Counter[Part]
Way = tuple[tuple[int, int] | None, tuple[int, int] | None, int]
"""The edges, across, of both halves of a part; None for one that is dropped; and the gain."""

Choice = tuple[Part, Way | None, int]
"""So many parts of a kind that are cut in one way, or left."""


def turned(part: Part) -> Part:
    """Return a part laid across."""
    return part[2:] + part[:2]


def each(parts: Iterable[tuple[Part, int]]) -> Iterator[Part]:
    """Yield every part of pairs of a kind and how many."""
    for part, count in parts:
        for _ in range(count):
            yield part


def choices(
    parts: Sequence[tuple[Part, int]], gain: int, layers: int, free: int | None = None
) -> Iterator[tuple[Choice, ...]]:
    """Yield ways to cut some of ``parts``, ``layers`` at most, that gain at least ``gain``.

    ``parts`` are pairs of a kind and how many; ``free`` is what is left of the layers.
    """
    free = layers if free is None else free
    if not parts:
        if gain <= 0 and free < layers:
            yield ()
        return
    (part, count), *rest = parts
    most = [max(way[2] for way in _ways(*p[:2], p[2] + p[3])) for p, _ in rest]
    later = max([0, *most]) * min(free, sum(n for _, n in rest))
    ways = _ways(*part[:2], part[2] + part[3])
    for chosen, cut, gained in _dealt(part, ways, count, free, gain - later):
        for more in choices(rest, gain - gained, layers, free - cut):
            yield (*chosen, *more)


def _dealt(
    part: Part, ways: Sequence[Way], count: int, free: int, gain: int
) -> Iterator[tuple[tuple[Choice, ...], int, int]]:
    """Yield ways to cut up to ``free`` of ``count`` parts: the choices, how many, the gain."""
    if not ways:
        if gain <= 0:
            yield ((part, None, count),) if count else (), 0, 0
        return
    best = max(0, ways[0][2])
    if best * min(count, free) < gain:
        return
    for many in range(min(count, free), -1, -1):
        gained = many * ways[0][2]
        for chosen, cut, more in _dealt(part, ways[1:], count - many, free - many, gain - gained):
            mine = ((part, ways[0], many),) if many else ()
            yield (*mine, *chosen), cut + many, more + gained


@lru_cache(maxsize=64)
def _ways(paper: int, broken: int, along: int) -> tuple[Way, ...]:
    """Return the ways to cut a part with these edges across and ``along`` edges down.

    The gain is what :func:`kitbuilder.sheet.bound.least_strokes` counts.
    """
    ends = ((0, 0),), ((1, 0), (0, 1)), ((1, 1),)
    found: dict[Way, None] = {}
    for a, b in ends[paper]:
        for c, d in ends[broken]:
            for new in (0, 1) if paper < 2 else (0,):  # cut within a unit
                one, two = (a, c + new), (b, d + new)
                if max(c, d) + new > 2:
                    continue
                found[one, two, 1 - 2 * new - along] = None
                found[one, None, paper + broken - sum(one)] = None
                found[None, two, paper + broken - sum(two)] = None
    return tuple(sorted(found, key=lambda way: -way[2]))
