"""Turns parts of one outline into the halves one stroke can make of them."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

from kitbuilder.layout.packing.lower_bound import Margins

Part = tuple[int, int, int, int]
"""Edges to cut off a part: of the paper, and within a unit, across; then the same down."""

Parts = tuple[tuple[Part, int], ...]
"""Kinds of part, and how many of each."""

Way = tuple[tuple[int, int] | None, tuple[int, int] | None, int]
"""The edges, across, of both halves of a part; None for one that is dropped; and the gain."""

Choice = tuple[Part, Way | None, int]
"""So many parts of a kind that are cut in one way, or left."""


@dataclass(frozen=True, slots=True)
class Halves:
    """What one stroke makes of parts of one outline.

    ``made`` are the halves kept on either side of the cut, and the parts not cut; ``counts``
    how many there are of the three; ``margins`` those of all. The parts cut had ``papers``
    edges of the paper across; ``within`` says whether one of them ends within a unit.
    """

    made: tuple[Parts, Parts, Parts]
    counts: tuple[int, int, int]
    margins: tuple[Margins, ...]
    papers: frozenset[int]
    within: bool


def turned(part: Part) -> Part:
    """Return a part laid across."""
    return part[2:] + part[:2]


def margins(parts: Iterable[tuple[Part, int]]) -> Iterator[Margins]:
    """Yield how many edges each part has to cut off, across and down, the smaller first."""
    for (a, b, c, d), count in parts:
        for _ in range(count):
            yield min(a + b, c + d), max(a + b, c + d)


@lru_cache(maxsize=4096)
def halves(parts: Parts, gain: int, layers: int) -> tuple[Halves, ...]:
    """Return what cutting ``layers`` of ``parts`` at most can make, with a gain of ``gain``.

    The gain is what ``lower_bound.least_strokes`` counts.
    """
    return tuple(_halves(chosen) for chosen in _choices(parts, gain, layers, layers))


def _halves(chosen: Sequence[Choice]) -> Halves:
    kept: tuple[Counter[Part], Counter[Part], Counter[Part]] = (Counter(), Counter(), Counter())
    for part, way, count in chosen:
        for half, edges in zip(kept, (way or (None, None))[:2], strict=False):
            if edges:
                half[edges + part[2:]] += count
        if not way:
            kept[2][part] += count
    one, two, left = made = tuple(tuple(half.items()) for half in kept)
    cut = [(part, way) for part, way, _ in chosen if way]
    return Halves(
        (one, two, left),
        (kept[0].total(), kept[1].total(), kept[2].total()),
        tuple(margins(pair for half in made for pair in half)),
        frozenset(part[0] for part, _ in cut),
        any(part[1] or any(edges and edges[1] for edges in way[:2]) for part, way in cut),
    )


def _choices(
    parts: Sequence[tuple[Part, int]], gain: int, layers: int, free: int
) -> Iterator[tuple[Choice, ...]]:
    """Yield ways to cut some of ``parts`` with ``free`` of the layers left."""
    if not parts:
        if gain <= 0 and free < layers:
            yield ()
        return
    (part, count), *rest = parts
    most = [max(way[2] for way in _ways(*p[:2], p[2] + p[3])) for p, _ in rest]
    later = max([0, *most]) * min(free, sum(n for _, n in rest))
    ways = _ways(*part[:2], part[2] + part[3])
    for chosen, cut, gained in _dealt(part, ways, count, free, gain - later):
        for more in _choices(rest, gain - gained, layers, free - cut):
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
    """Return the ways to cut a part with these edges across and ``along`` edges down."""
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
