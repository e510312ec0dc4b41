"""Squares, strokes and dots as a child draws them, with strokes through them and rings round."""

from collections.abc import Iterator
from itertools import combinations, pairwise

from kitbuilder.kit.lesson.drawn_by_hand import Cluster, Drawn
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.block import Block, stack
from kitbuilder.layout.parts.contents import Dots, Loop, Panel, Rule, Strike

HIGH = 9.0
"""Height of a drawing in units: a stroke is 7 high, and a ring goes round it."""

_WIDE, _TALL = {0: 0.9, 1: 0.0, 2: 2.3, 3: 2.3}, {0: 0.9, 1: 7.0, 2: 2.3, 3: 3.0}
# Of one mark of each place, in units.

_ROWS, _COLUMN = {0: 5, 1: 1, 2: 2, 3: 2}, {0: 8.1, 1: 7.0, 2: 7.0, 3: 7.0}
_HALF = {0: 0.45, 1: 0.75, 2: 0.45, 3: 0.45}
# How many stand below each other, and how high they are; half of what is between them at least,
# where a ring goes.

_LAYERS, _LAYER = 2, 0.35
# A thousand is a square with so many more lines below it, as a pile of hundreds; their distance.

_DOT_BOX = 1.25
# The side of the box whose dot is as wide as it should be.
_EDGE, _MORE, _NEXT, _BETWEEN = 0.8, 0.8, 2.8, 0.8
# At both ends; more than usual before the ten that come; from place to place and line to line.


def drawn_width(drawing: Drawn) -> float:
    """Return how wide ``drawing`` is, in units."""
    return max(x + _across(c) for x, c in _placed(drawing)) + _EDGE


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


def _placed(drawing: Drawn) -> Iterator[tuple[float, Cluster]]:
    """Yield each cluster after where its left is, in units."""
    x, last = _EDGE, drawing[0].place
    for cluster in drawing:
        if x > _EDGE:
            x += 2 * _HALF[last] + _MORE if cluster.place == last else _NEXT
        yield x, cluster
        x, last = x + _across(cluster), cluster.place


def _step(place: int) -> float:
    return _WIDE[place] + 2 * _HALF[place]


def _across(cluster: Cluster) -> float:
    columns = -(-cluster.count // _ROWS[cluster.place])
    return columns * _step(cluster.place) - 2 * _HALF[cluster.place]


def _down(place: int, row: int) -> float:
    """Return where the top of a mark in ``row`` is, the first 0, in units."""
    step = (_COLUMN[place] - _TALL[place]) / max(1, _ROWS[place] - 1)
    return (HIGH - _COLUMN[place]) / 2 + row * step


def drawn_block(drawing: Drawn, unit: float) -> Block:
    """Return ``drawing`` with dots a little less than ``unit`` mm wide."""
    items: list[Item] = []
    for x, cluster in _placed(drawing):
        if not cluster.blank:
            items += _cluster(cluster, x, unit)
        if cluster.ringed:
            items.append(_ring(cluster, x, unit))
    return Block(tuple(items), drawn_width(drawing) * unit, HIGH * unit)


def _ring(cluster: Cluster, left: float, unit: float) -> Item:
    """Return the ring round the first of a cluster; over a column in part it has a step."""
    place = cluster.place
    half, tall, rows = _HALF[place], _TALL[place], _ROWS[place]
    full, over = divmod(cluster.ringed, rows)
    x, y = left - half, _down(place, 0) - half
    wide = (full + (over > 0)) * _step(place)
    low = _down(place, min(rows, cluster.ringed) - 1) + tall + half - y
    corners = [(0.0, 0.0), (wide, 0.0), (wide, low), (0.0, low)]
    if full and over:
        inner, high = full * _step(place), _down(place, over - 1) + tall + half - y
        corners[2:3] = [(wide, high), (inner, high), (inner, low)]
    loop = Loop(tuple((a * unit, b * unit) for a, b in corners), half * unit)
    return Item("ring", Rect(x * unit, y * unit, wide * unit, low * unit), loop)


def _cluster(cluster: Cluster, left: float, unit: float) -> Iterator[Item]:
    """Yield what is drawn of one cluster, from the top of each column down."""
    place, rows = cluster.place, _ROWS[cluster.place]
    for k in range(cluster.count):
        x = (left + k // rows * _step(place)) * unit
        y = _down(place, k % rows) * unit
        if place == 1:
            yield Item("stroke", Rect(x, y, 0.01, _TALL[1] * unit), Rule("write"))
            box = Rect(x - 0.6 * unit, y + 1.2 * unit, 1.2 * unit, 4.6 * unit)
        elif place == 0:
            side, more = _DOT_BOX * unit, (_DOT_BOX - _WIDE[0]) / 2 * unit
            box = Rect(x - more, y - more, side, side)
            yield Item("dot", box, Dots(1, 1))
        else:
            side = _WIDE[2] * unit
            box = Rect(x, y, side, side)
            yield Item("square", box, Panel(line="write", radius=0.0))
            for layer in range(_LAYERS if place == 3 else 0):
                low = box.bottom + (layer + 1) * _LAYER * unit
                yield Item("layer", Rect(x, low, side, 0.01), Rule("write"))
        if cluster.struck and k == cluster.count - 1:
            yield Item("strike", box, Strike())
