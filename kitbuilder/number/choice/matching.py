"""Turns a graph into a largest set of its edges of which no two share an end."""

from collections import deque
from collections.abc import Sequence

FREE = -1


def matching(neighbours: Sequence[Sequence[int]]) -> list[int]:
    """Return the partner of each vertex in a largest matching, ``FREE`` where it has none.

    ``neighbours[v]`` lists the vertices joined to ``v``. Source: Edmonds 1965, Paths, trees
    and flowers, Canadian Journal of Mathematics 17:449-467: grow a tree of alternating paths
    from each free vertex, shrinking each odd ring to its base. Time grows with the cube of
    the number of vertices.
    """
    partner = [FREE] * len(neighbours)
    for root in range(len(neighbours)):
        if partner[root] == FREE:
            _augment(neighbours, partner, root)
    return partner


def _augment(neighbours: Sequence[Sequence[int]], partner: list[int], root: int) -> None:
    """Lengthen the matching by an alternating path from ``root``, if there is one."""
    size = len(neighbours)
    before = [FREE] * size  # the vertex a path came from, for vertices at odd distance
    base = list(range(size))
    reached = {root}
    queue = deque([root])
    while queue:
        here = queue.popleft()
        for there in neighbours[here]:
            if base[here] == base[there] or partner[here] == there:
                continue
            if there == root or (partner[there] != FREE and before[partner[there]] != FREE):
                _shrink(partner, before, base, here, there, reached, queue)
            elif before[there] == FREE:
                before[there] = here
                if partner[there] == FREE:
                    _flip(partner, before, there)
                    return
                reached.add(partner[there])
                queue.append(partner[there])


def _flip(partner: list[int], before: list[int], end: int) -> None:
    while end != FREE:
        other = before[end]
        following = partner[other]
        partner[end], partner[other] = other, end
        end = following


def _shrink(
    partner: list[int],
    before: list[int],
    base: list[int],
    here: int,
    there: int,
    reached: set[int],
    queue: deque[int],
) -> None:
    """Shrink the odd ring that the edge ``here`` – ``there`` closes to its base."""
    stem = _common_base(partner, before, base, here, there)
    ring: set[int] = set()
    for start, across in ((here, there), (there, here)):
        vertex, child = start, across
        while base[vertex] != stem:
            ring |= {base[vertex], base[partner[vertex]]}
            before[vertex] = child
            child = partner[vertex]
            vertex = before[partner[vertex]]
    for vertex in range(len(base)):
        if base[vertex] in ring:
            base[vertex] = stem
            if vertex not in reached:
                reached.add(vertex)
                queue.append(vertex)


def _common_base(
    partner: list[int], before: list[int], base: list[int], here: int, there: int
) -> int:
    passed = set()
    vertex = here
    while True:
        vertex = base[vertex]
        passed.add(vertex)
        if partner[vertex] == FREE:
            break
        vertex = before[partner[vertex]]
    vertex = base[there]
    while vertex not in passed:
        vertex = base[before[partner[vertex]]]
    return vertex
