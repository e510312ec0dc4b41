"""Maximum matching, by Edmonds' blossom algorithm."""

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


class _Forest:
    """The alternating paths from one free vertex, the root; odd rings are shrunk to their bases."""

    def __init__(self, partner: list[int], root: int) -> None:
        size = len(partner)
        self.partner = partner
        self.before = [FREE] * size  # the vertex a path came from, for vertices at odd distance
        self.base = list(range(size))
        self.reached = {root}
        self.queue = deque([root])

    def reach(self, vertex: int) -> None:
        """Note that an alternating path of even length ends at ``vertex``."""
        if vertex not in self.reached:
            self.reached.add(vertex)
            self.queue.append(vertex)

    def flip(self, end: int) -> None:
        """Match along the path that ends at the free vertex ``end``."""
        while end != FREE:
            other = self.before[end]
            following = self.partner[other]
            self.partner[end], self.partner[other] = other, end
            end = following

    def shrink(self, here: int, there: int) -> None:
        """Shrink the odd ring that the edge ``here`` – ``there`` closes to its base."""
        stem = self._common_base(here, there)
        ring: set[int] = set()
        for start, across in ((here, there), (there, here)):
            vertex, child = start, across
            while self.base[vertex] != stem:
                ring |= {self.base[vertex], self.base[self.partner[vertex]]}
                self.before[vertex] = child
                child = self.partner[vertex]
                vertex = self.before[child]
        for vertex, base in enumerate(self.base):
            if base in ring:
                self.base[vertex] = stem
                self.reach(vertex)

    def _common_base(self, here: int, there: int) -> int:
        passed = {vertex := self.base[here]}
        while self.partner[vertex] != FREE:
            vertex = self.base[self.before[self.partner[vertex]]]
            passed.add(vertex)
        vertex = self.base[there]
        while vertex not in passed:
            vertex = self.base[self.before[self.partner[vertex]]]
        return vertex


def _augment(neighbours: Sequence[Sequence[int]], partner: list[int], root: int) -> None:
    """Lengthen the matching by an alternating path from ``root``, if there is one."""
    forest = _Forest(partner, root)
    base, before = forest.base, forest.before
    while forest.queue:
        here = forest.queue.popleft()
        for there in neighbours[here]:
            if base[here] == base[there] or partner[here] == there:
                continue
            if there == root or (partner[there] != FREE and before[partner[there]] != FREE):
                forest.shrink(here, there)
            elif before[there] == FREE:
                before[there] = here
                if partner[there] == FREE:
                    forest.flip(there)
                    return
                forest.reach(partner[there])
