"""Squares, strokes and dots as a child draws them, with strokes through them and rings round."""

from collections.abc import Iterator
from itertools import combinations, pairwise

from kitbuilder.kit.lesson.drawn_by_hand import Cluster, Drawn
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.block import Block, stack
from kitbuilder.layout.parts.contents import Dots, Panel, Rule, Strike

HIGH = 9.0
"""Height of a drawing in units: a stroke is 7 high, and a ring goes round it."""

_SQUARE, _STROKE, _DOT = (2.7, 2), (1.5, 1), (1.4, 5)
# From one to the next across, in units, and how many stand below each other.

_DOWN = 1.4
_PLACES = {0: _DOT, 1: _STROKE, 2: _SQUARE, 3: _SQUARE}
_LONG, _WIDE = 7.0, {0: 0.9, 1: 0.0, 2: 2.3, 3: 2.3}
_LAYERS, _LAYER = 2, 0.45
# A thousand is a square with so many more lines below it, as a pile of hundreds; their distance.

_DOT_BOX = 1.25
# The side of the box whose dot is as wide as it should be.
_RING, _APART, _NEXT, _BETWEEN = 0.7, 0.8, 2.2, 0.8
# Round a ring; at least between clusters of one place, from place to place, and from line to line.


def drawn_width(drawing: Drawn) -> float:
    """Return how wide ``drawing`` is, in units."""
    return sum(gap + _wide(c) for gap, c in _gaps(drawing)) + _RING


def drawn_within(drawing: Drawn, room: Rect, most: float) -> tuple[Block, float]:
    """Return ``drawing`` as large as ``room`` holds it, and its unit in mm, ``most`` at most.

    It stands in a line, or in as many lines of whole places as make it largest.
    """
    ways = [
        (min(room.width / max(map(drawn_width, rows)), room.height / _high(len(rows))), rows)
        for rows in _in_rows(drawing)
    ]
    fits, rows = max(ways, key=lambda way: way[0])
    unit = min(most, fits)
    return stack([drawn_block(row, unit) for row in rows], _BETWEEN * unit), unit


def _high(lines: int) -> float:
    """Return how high so many lines are, in units."""
    return HIGH * lines + _BETWEEN * (lines - 1)


def _in_rows(drawing: Drawn) -> Iterator[list[Drawn]]:
    """Yield the ways to break ``drawing`` between its places, the fewest lines first."""
    places = list(dict.fromkeys(cluster.place for cluster in drawing))
    for lines in range(1, len(places) + 1):
        for breaks in combinations(range(1, len(places)), lines - 1):
            ends = pairwise((0, *breaks, len(places)))
            rows = (places[start:end] for start, end in ends)
            yield [tuple(c for c in drawing if c.place in row) for row in rows]


def _gaps(drawing: Drawn) -> Iterator[tuple[float, Cluster]]:
    last: Cluster | None = None
    for cluster in drawing:
        gap = _RING
        if last is not None:
            step = _PLACES[cluster.place][0] - _WIDE[cluster.place]
            gap = max(_APART, step) if cluster.place == last.place else _NEXT
            gap += _RING * ((cluster.mark == "ring") + (last.mark == "ring"))
        yield gap, cluster
        last = cluster


def _wide(cluster: Cluster) -> float:
    step, down = _PLACES[cluster.place]
    return (-(-cluster.count // down) - 1) * step + _WIDE[cluster.place]


def drawn_block(drawing: Drawn, unit: float) -> Block:
    """Return ``drawing`` with dots a little less than ``unit`` mm wide."""
    items: list[Item] = []
    x = 0.0
    for gap, cluster in _gaps(drawing):
        x += gap
        found = [*_cluster(cluster, x * unit, unit)]
        items += found
        if cluster.mark == "ring":
            high = max(item.rect.bottom for item in found) + 0.6 * unit
            wide_ = (_wide(cluster) + 2 * _RING) * unit
            ring = Rect((x - _RING) * unit, 0.2 * unit, wide_, high)
            items.append(Item("ring", ring, Panel(line="loop", radius=_RING * unit)))
        x += _wide(cluster)
    return Block(tuple(items), (x + _RING) * unit, HIGH * unit)


def _cluster(cluster: Cluster, left: float, unit: float) -> Iterator[Item]:
    """Yield what is drawn of one cluster, from the top of each column down."""
    step, down = _PLACES[cluster.place]
    for k in range(cluster.count):
        x, y = left + k // down * step * unit, 1.0 * unit
        if cluster.place == 1:
            box = Rect(x, y, 0.01, _LONG * unit)
            yield Item("stroke", box, Rule("write"))
            box = Rect(x - 0.6 * unit, y + 1.2 * unit, 1.2 * unit, 4.6 * unit)
        elif cluster.place == 0:
            side = _DOT_BOX * unit
            box = Rect(x - (side - _WIDE[0] * unit) / 2, y + k % down * _DOWN * unit, side, side)
            yield Item("dot", box, Dots(1, 1))
        else:
            side = _WIDE[2] * unit
            layers = _LAYERS if cluster.place == 3 else 0
            below = _LONG - _WIDE[2] - layers * _LAYER
            box = Rect(x, y + k % down * below * unit, side, side)
            yield Item("square", box, Panel(line="write", radius=0.0))
            for layer in range(layers):
                low = box.bottom + (layer + 1) * _LAYER * unit
                yield Item("layer", Rect(x, low, side, 0.01), Rule("write"))
        if cluster.mark == "struck":
            yield Item("strike", box, Strike())
