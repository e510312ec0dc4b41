"""Turns straight lines into lines drawn once each, in the order a machine should cut them."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from itertools import pairwise

Segment = tuple[float, float, float, float]
"""A straight line from (x1, y1) to (x2, y2), mm."""

_NEAR = 0.001
"""Lines closer than this many mm are one."""


def outline(x: float, y: float, right: float, bottom: float) -> tuple[Segment, ...]:
    """Return the four sides of a rectangle."""
    return (
        (x, y, right, y),
        (x, bottom, right, bottom),
        (x, y, x, bottom),
        (right, y, right, bottom),
    )


def merged(segments: Iterable[Segment]) -> tuple[Segment, ...]:
    """Join straight segments that touch or overlap on one line, so that none is drawn twice.

    Segments run across or down. Lines closer than a thousandth of a millimetre are one.
    """
    rows: dict[float, list[tuple[float, float]]] = defaultdict(list)
    columns: dict[float, list[tuple[float, float]]] = defaultdict(list)
    for x1, y1, x2, y2 in segments:
        if y1 == y2:
            rows[round(y1, 3)].append((min(x1, x2), max(x1, x2)))
        else:
            columns[round(x1, 3)].append((min(y1, y2), max(y1, y2)))
    across = [(a, y, b, y) for y in sorted(rows) for a, b in _joined(rows[y])]
    down = [(x, a, x, b) for x in sorted(columns) for a, b in _joined(columns[x])]
    return (*across, *down)


def beyond(segments: Iterable[Segment], others: Iterable[Segment]) -> tuple[Segment, ...]:
    """Return what of ``segments``, joined, does not lie on ``others``."""
    ends: dict[tuple[bool, float], list[tuple[float, float]]] = defaultdict(list)
    for x1, y1, x2, y2 in merged(others):
        ends[(y1 == y2, round(y1 if y1 == y2 else x1, 3))].append(
            (x1, x2) if y1 == y2 else (y1, y2)
        )
    found: list[Segment] = []
    for x1, y1, x2, y2 in merged(segments):
        across = y1 == y2
        at, (start, end) = (y1, (x1, x2)) if across else (x1, (y1, y2))
        for low, high in [*sorted(ends[(across, round(at, 3))]), (end, end)]:
            if min(low, end) > start + _NEAR:
                stop = min(low, end)
                found.append((start, at, stop, at) if across else (at, start, at, stop))
            start = max(start, high)
    return tuple(found)


def _joined(spans: list[tuple[float, float]]) -> list[tuple[float, float]]:
    done: list[tuple[float, float]] = []
    for start, end in sorted(spans):
        if done and start <= done[-1][1] + _NEAR:
            done[-1] = (done[-1][0], max(done[-1][1], end))
        else:
            done.append((start, end))
    return done


def cutting_order(segments: Iterable[Segment]) -> tuple[Segment, ...]:
    """Return ``segments`` without doubles, slanting ones first, then inner ones, outer ones last.

    A line is outer as far as nothing is enclosed on one of its sides: cut last, it keeps what
    lies inside in place until everything there is cut. Where a line is partly outer it is
    divided there.
    """
    straight, slanting = [], dict[Segment, None]()
    for x1, y1, x2, y2 in segments:
        line = (round(x1, 3), round(y1, 3), round(x2, 3), round(y2, 3))
        if line[0] == line[2] or line[1] == line[3]:
            straight.append(line)
        elif line not in slanting and (*line[2:], *line[:2]) not in slanting:
            slanting[line] = None
    cells = _Cells(merged(straight))
    inner: list[Segment] = []
    outer: list[Segment] = []
    for line in cells.lines:
        for piece, is_outer in cells.pieces(line):
            (outer if is_outer else inner).append(piece)
    return (*slanting, *inner, *outer)


def check_once(segments: Sequence[Segment]) -> None:
    """Raise ``ValueError`` where two of the ``segments`` run over each other, or one twice."""
    lines: dict[tuple[float, ...], list[tuple[float, float]]] = defaultdict(list)
    for x1, y1, x2, y2 in segments:
        if abs(y1 - y2) < _NEAR:
            lines[(0, round(y1, 3))].append((min(x1, x2), max(x1, x2)))
        elif abs(x1 - x2) < _NEAR:
            lines[(1, round(x1, 3))].append((min(y1, y2), max(y1, y2)))
        else:
            ends = sorted([(round(x1, 3), round(y1, 3)), (round(x2, 3), round(y2, 3))])
            lines[(2, *ends[0], *ends[1])].append((0, 1))
    for key, spans in lines.items():
        for one, other in pairwise(sorted(spans)):
            if other[0] < one[1] - 2 * _NEAR:
                raise ValueError(f"a line is there twice: {key[1:]} from {other[0]} mm on")


class _Cells:
    """The cells that lines across and down make of the plane, and which of them lie outside."""

    def __init__(self, lines: tuple[Segment, ...]) -> None:
        self.lines = lines
        self._xs = sorted({x for line in lines for x in (line[0], line[2])})
        self._ys = sorted({y for line in lines for y in (line[1], line[3])})
        self._column = {x: i for i, x in enumerate(self._xs)}
        self._row = {y: j for j, y in enumerate(self._ys)}
        # A side is named by the two cells it divides; cell (i, j) lies left of x i, above y j.
        self._walls = {side for line in lines for _, side in self._sides(line)}
        self._outside = self._flooded()

    def _sides(self, line: Segment) -> Iterable[tuple[Segment, frozenset[tuple[int, int]]]]:
        """Yield each stretch of ``line`` between crossings with the two cells it divides."""
        x1, y1, x2, y2 = line
        if y1 == y2:
            j = self._row[y1]
            for i in range(self._column[x1], self._column[x2]):
                stretch = (self._xs[i], y1, self._xs[i + 1], y1)
                yield stretch, frozenset([(i + 1, j), (i + 1, j + 1)])
        else:
            i = self._column[x1]
            for j in range(self._row[y1], self._row[y2]):
                stretch = (x1, self._ys[j], x1, self._ys[j + 1])
                yield stretch, frozenset([(i, j + 1), (i + 1, j + 1)])

    def _flooded(self) -> set[tuple[int, int]]:
        """Return the cells that are reached from the corner without crossing a line."""
        seen, todo = {(0, 0)}, [(0, 0)]
        while todo:
            i, j = todo.pop()
            for near in ((i - 1, j), (i + 1, j), (i, j - 1), (i, j + 1)):
                within = 0 <= near[0] <= len(self._xs) and 0 <= near[1] <= len(self._ys)
                if within and near not in seen and frozenset([(i, j), near]) not in self._walls:
                    seen.add(near)
                    todo.append(near)
        return seen

    def pieces(self, line: Segment) -> list[tuple[Segment, bool]]:
        """Return ``line`` divided where it turns from inner to outer, and which each part is."""
        found: list[tuple[Segment, bool]] = []
        for stretch, side in self._sides(line):
            is_outer = bool(side & self._outside)
            if found and found[-1][1] == is_outer:
                found[-1] = ((*found[-1][0][:2], *stretch[2:]), is_outer)
            else:
                found.append((stretch, is_outer))
        return found
