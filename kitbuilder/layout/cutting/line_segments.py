"""Straight lines across and down, joined, so that none is drawn twice."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from itertools import pairwise

from kitbuilder.counting import thousandth

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


def slanting(width: float, height: float, apart: float) -> tuple[Segment, ...]:
    """Return strokes up to the right over a rectangle, level ``apart`` mm from each other."""
    count = int((width + height) / apart)
    first = (width + height - (count - 1) * apart) / 2
    sums = (first + apart * k for k in range(count))
    return tuple(
        (max(0.0, s - height), min(s, height), min(s, width), max(0.0, s - width)) for s in sums
    )


def merged(segments: Iterable[Segment]) -> tuple[Segment, ...]:
    """Join straight segments that touch or overlap on one line, so that none is drawn twice.

    Segments run across or down. Lines closer than a thousandth of a millimetre are one.
    """
    rows: dict[float, list[tuple[float, float]]] = defaultdict(list)
    columns: dict[float, list[tuple[float, float]]] = defaultdict(list)
    for x1, y1, x2, y2 in segments:
        if y1 == y2:
            rows[thousandth(y1)].append((min(x1, x2), max(x1, x2)))
        else:
            columns[thousandth(x1)].append((min(y1, y2), max(y1, y2)))
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
