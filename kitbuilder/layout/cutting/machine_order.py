"""The order in which a machine cuts lines: nothing comes loose with a line left inside it."""

from bisect import bisect_left
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from itertools import product

from kitbuilder.counting import thousandth
from kitbuilder.layout.cutting.line_segments import Segment, merged


def cutting_order(
    segments: Iterable[Segment], page: tuple[float, float] | None = None
) -> tuple[Segment, ...]:
    """Return ``segments`` without doubles so that nothing comes loose with a line left inside it.

    Slanting ones come first, then lines that part nothing, inner ones before outer ones, then
    those that hold everything together, each part being let go when all within it is cut. Lines
    are divided where it must be. ``page`` is the width and height of the sheet, mm, where lines
    run to its edges; else there is a rim of the sheet around everything.
    """
    straight, slanting = [], dict[Segment, None]()
    for x1, y1, x2, y2 in segments:
        line = (thousandth(x1), thousandth(y1), thousandth(x2), thousandth(y2))
        if line[0] == line[2] or line[1] == line[3]:
            straight.append(line)
        elif line not in slanting and (*line[2:], *line[:2]) not in slanting:
            slanting[line] = None
    regions = _Regions(merged(straight), page)
    return (*slanting, *merged(regions.inner), *merged(regions.outer), *regions.last)


_Cell = tuple[int, int]
"""Column and row of a cell, counted from 0."""

_Side = tuple[Segment, int, int]
"""A stretch of a line, and the two regions that it parts."""


class _Regions:
    """The regions that straight lines make of a sheet, and which stretches of lines part them.

    ``last`` join all regions as a tree does, each branch from its tip; of all other stretches
    ``outer`` touch the region at the corner of the sheet, and ``inner`` do not.
    """

    def __init__(self, lines: tuple[Segment, ...], page: tuple[float, float] | None) -> None:
        xs = {x for line in lines for x in (line[0], line[2])} or {0.0}
        ys = {y for line in lines for y in (line[1], line[3])} or {0.0}
        left, top = (0.0, 0.0) if page else (min(xs) - 1, min(ys) - 1)
        right, bottom = page or (max(xs) + 1, max(ys) + 1)
        self._xs = sorted({left, right} | {x for x in xs if left < x < right})
        self._ys = sorted({top, bottom} | {y for y in ys if top < y < bottom})
        longest = sorted(lines, key=lambda line: line[0] + line[1] - line[2] - line[3])
        stretches = [one for line in longest for one in self._stretches(line)]
        region = self._flooded({cells for _, cells in stretches})
        sides = [(line, region[a], region[b]) for line, (a, b) in stretches]
        rim = region[0, 0]
        touching = [side for side in sides if rim in side[1:]]
        others = [side for side in sides if rim not in side[1:]]
        tree = _tree([*touching, *others])
        self.inner = [side[0] for side in others if side not in tree]
        self.outer = [side[0] for side in touching if side not in tree]
        self.last = _in_rows(_from_tips(tree, rim))

    def _stretches(self, line: Segment) -> Iterator[tuple[Segment, tuple[_Cell, _Cell]]]:
        """Yield each stretch of ``line`` between crossings with the two cells it divides."""
        x1, y1, x2, y2 = line
        xs, ys = self._xs, self._ys
        if y1 == y2 and ys[0] < y1 < ys[-1]:
            j = bisect_left(ys, y1)
            for i in range(bisect_left(xs, x1), bisect_left(xs, x2)):
                yield (xs[i], y1, xs[i + 1], y1), ((i, j - 1), (i, j))
        elif x1 == x2 and xs[0] < x1 < xs[-1]:
            i = bisect_left(xs, x1)
            for j in range(bisect_left(ys, y1), bisect_left(ys, y2)):
                yield (x1, ys[j], x1, ys[j + 1]), ((i - 1, j), (i, j))

    def _flooded(self, walls: set[tuple[_Cell, _Cell]]) -> dict[_Cell, int]:
        """Return the number of the region of each cell."""
        region: dict[_Cell, int] = {}
        cells = product(range(len(self._xs) - 1), range(len(self._ys) - 1))
        for number, start in enumerate(cells):
            todo = [] if start in region else [start]
            region.setdefault(start, number)
            while todo:
                i, j = todo.pop()
                for near in ((i - 1, j), (i + 1, j), (i, j - 1), (i, j + 1)):
                    within = 0 <= near[0] < len(self._xs) - 1 and 0 <= near[1] < len(self._ys) - 1
                    wall = (min(near, (i, j)), max(near, (i, j)))
                    if within and near not in region and wall not in walls:
                        region[near] = region[i, j]
                        todo.append(near)
        return region


def _tree(sides: Sequence[_Side]) -> set[_Side]:
    """Return sides that join all regions and make no ring, the first ones if they can."""
    head: dict[int, int] = {}

    def found(region: int) -> int:
        while region in head:
            region = head[region]
        return region

    tree = set()
    for side in sides:
        a, b = found(side[1]), found(side[2])
        if a != b:
            head[a] = b
            tree.add(side)
    return tree


def _from_tips(tree: Iterable[_Side], root: int) -> list[Segment]:
    """Return the sides of ``tree`` so that each lets go a region with nothing beyond it."""
    near: dict[int, list[tuple[Segment, int]]] = defaultdict(list)
    for line, a, b in tree:
        near[a].append((line, b))
        near[b].append((line, a))
    order = [root]
    parent: dict[int, tuple[Segment | None, int]] = {root: (None, root)}
    for region in order:
        for line, other in near[region]:
            if other not in parent:
                parent[other] = (line, region)
                order.append(other)
    size = dict.fromkeys(order, 1)
    for region in reversed(order[1:]):
        size[parent[region][1]] += size[region]
    found: list[Segment] = []
    waiting = [(root, False)]
    while waiting:
        region, done = waiting.pop()
        side, above = parent[region]
        if done:
            found += [side] if side else []
            continue
        waiting.append((region, True))
        children = [(size[other], way, other) for way, other in near[region] if other != above]
        waiting += [(other, False) for *_, other in sorted(children, reverse=True)]
    return found


def _in_rows(stretches: Sequence[Segment]) -> list[Segment]:
    """Join stretches that follow each other on one line."""
    rows: list[Segment] = []
    for line in stretches:
        both = merged([rows[-1], line]) if rows else ()
        if len(both) == 1:
            rows[-1] = both[0]
        else:
            rows.append(line)
    return rows
