"""Turns the parts in hand into a number of strokes that pieces cannot be made of them with.

Every outline that is no piece asks for a stroke of its own; ones come out of strips one wide,
two at most from each part; and the cuts still to do (see ``packing.lower_bound``) are
done no faster than the outlines in hand, halved or joined by others, allow for two strokes, and
K parts a stroke after that.
"""

from collections.abc import Iterable, Sequence
from itertools import chain

from kitbuilder.layout.packing.cut_ways import Halves, Part, Parts, turned
from kitbuilder.layout.packing.grid import PIECES, Counts, needs
from kitbuilder.layout.packing.lower_bound import by_doubling

Outline = tuple[int, int]
Class = tuple[int, int, Parts]
State = tuple[Class, ...]
"""The parts of each outline, the largest outline first."""


def joined(others: State, made: Iterable[tuple[int, int, Parts]]) -> State:
    """Return ``others`` and what was ``made``: parts of an outline that may lie across."""
    classes: dict[Outline, dict[Part, int]] = {}
    for x, y, parts in chain(others, made):
        for part, count in parts:
            outline, kept = ((x, y), part) if x <= y else ((y, x), turned(part))
            if x == y:
                kept = min(kept, turned(kept))
            kinds = classes.setdefault(outline, {})
            kinds[kept] = kinds.get(kept, 0) + count
    found = [(x, y, tuple(sorted(parts.items()))) for (x, y), parts in classes.items()]
    return tuple(sorted(found, key=lambda one: (-one[0] * one[1], one)))


def too_late(state: State, room: Counts, demand: Counts, layers: int, left: int) -> bool:
    """Say whether ``left`` strokes surely cannot make the pieces in demand of a state.

    ``room`` is what its parts hold, as ``grid.holds`` tells it for each.
    """
    kinds = wide = edges = count = 0
    lacking = list(demand)
    for x, y, parts in state:
        whole = sum(many for part, many in parts if not any(part))
        open_ = sum(many for _, many in parts) - whole
        count += whole + open_
        edges += sum(sum(part) * many for part, many in parts)
        if (piece := PIECES.get((x, y))) is None:
            open_ += whole
        else:
            open_ += max(0, whole - lacking[piece])
            lacking[piece] -= whole
        strokes = -(-open_ // layers)
        kinds += strokes
        wide += strokes if x > 1 else 0
    if lacking[2] < 0 or max(kinds, wide - (-lacking[2] // (2 * layers))) > left:
        return True
    work = sum(demand) + edges - count
    if not edges and room[2] > needs(demand)[2]:
        work += 1  # something must be dropped
    if work > layers * left - _unused(state, demand, layers):
        return True
    return _soonest(state, count, work, layers) > left


def _unused(state: State, demand: Counts, layers: int) -> int:
    """Return by how many parts strokes through the largest outline to cut fall short of K each.

    All of its parts are in hand, and every one of them is cut once. (Cutting less than a unit off a
    part would leave one of the same label, but costs no less than a place in a stack left empty.)
    """
    return next((-count % layers for one in state if (count := _to_cut(one, demand))), 0)


def _to_cut(one: Class, demand: Counts) -> int:
    """Return how many parts of one outline cannot stay as they are."""
    x, y, parts = one
    count = sum(many for _, many in parts)
    if (piece := PIECES.get((x, y))) is not None:
        count -= min(demand[piece], sum(many for part, many in parts if not any(part)))
    return count


def never(
    others: Sequence[Class],
    made: Halves,
    cut: Outline,
    work: int,
    demand: Counts,
    layers: int,
    left: int,
) -> bool:
    """Say whether :func:`too_late` holds wherever the parts with outline ``cut`` are cut.

    That is, wherever the halves are like no other part in hand, and no pieces; ``work`` is cuts
    still to do.
    """
    one, two, rest = made.counts
    to_cut = [count for other in others if (count := _to_cut(other, demand))]
    to_cut += [count for count in (one, two, 0 if cut in PIECES else rest) if count]
    if sum(-(-count // layers) for count in to_cut) > left:
        return True
    largest = [rest] if rest and cut not in PIECES else to_cut
    if work > layers * left - min((-count % layers for count in largest), default=0):
        return True
    sizes = [sum(count for _, count in parts) for *_, parts in others]
    sizes += [count for count in made.counts if count]
    return work > max(_most(sizes, i, layers, left) for i in range(len(sizes)))


def most_cuts(parts: int, layers: int, strokes: int) -> int:
    """Return the cuts that so many strokes do at most, from so many parts in hand."""
    done = 0
    for _ in range(strokes):
        done += min(parts + done, layers)
    return done


def _most(sizes: Sequence[int], i: int, layers: int, left: int) -> int:
    """Return the cuts of ``left`` strokes, the first through parts of the outline ``i``."""
    if not left:
        return 0
    first = min(sizes[i], layers)
    if left == 1:
        return first
    joining = max([0, *sizes[:i], *sizes[i + 1 :]]) + 2 * first
    second = min(joining, layers, sum(sizes) + first)
    return first + second + most_cuts(sum(sizes) + first + second, layers, left - 2)


def _soonest(state: State, parts: int, work: int, layers: int) -> int:
    """Return the strokes that ``work`` cuts take at least, with so many parts to cut."""
    if work <= 0:
        return 0
    sizes = [(x, y, sum(many for _, many in kinds)) for x, y, kinds in state]
    least = work
    for i, (x, y, first) in enumerate(sizes):
        second = 2 * first
        for one, two, many in (*sizes[:i], *sizes[i + 1 :]):
            second = max(second, many + _joining(x, y, first, one, two))
        left, hand, strokes = work, parts, 0
        for limit in (first, second):
            if left > 0:
                step = min(hand, layers, limit)
                left, hand, strokes = left - step, hand + step, strokes + 1
        strokes += by_doubling(left, hand, layers)
        least = min(least, strokes)
        if (x, y) not in PIECES or any(any(part) for part, _ in state[i][2]):
            break
    return least


def _joining(x: int, y: int, cut: int, one: int, two: int) -> int:
    """Return how many halves of ``cut`` parts may get the outline ``one`` by ``two``."""
    joining = 0
    for kept, shortened in ((x, y), (y, x)):
        for same, short in ((one, two), (two, one)):
            if kept == same and short < shortened:
                joining = max(joining, cut * (1 + (abs(shortened - 2 * short) <= 2)))
    return joining
