"""What lies in a picture of the mat, and how well an arrow goes over it."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import NamedTuple

from kitbuilder.design.look import Look
from kitbuilder.frozen import frozen
from kitbuilder.layout.model import Rect
from kitbuilder.layout.parts.contents import ARROW, HEAD_LONG, HEAD_WIDE, Point

_WORD, _NUMBER, _CROSSED, _PIECE, _OWN, _MOVABLE = 100.0, 90.0, 80.0, 60.0, 1.0, 2.0
_ASTRAY, _STUB, _BEND, _LONG, _READ, _LOST = 200.0, 25.0, 1.0, 0.02, 50.0, 40.0
_NARROW, _TIGHT, _DIGIT = 2.5, 4.0, 120.0
_ZONE, _COLUMN, _NEAR, _BY_WORDS = 30.0, 15.0, 8.0, 1.5
# What it costs an arrow to go over a word, a number without room beside it, another arrow, pieces,
# those that it takes, and what can step aside; to leave the picture, to have no shaft; and for
# each corner and each mm; to set a disc beside a number, which is read as one more digit, or on it,
# where it is left out; to come close to what steps aside, or closer; to pass through a zone or a
# column that is not its own, or over pieces that stay in that; and a question to stand by words,
# or in a row of numbers, where it is read as a digit.

_AIR, _ROUND, _CLOSE, _SHAFT, _OFF_PIECES = 0.35, 1.0, 0.5, 1.6, 0.5
# In mm, how far words and numbers stay off an arrow, where there is room and where not, how
# much of its shaft is to be seen, and how far a number stays off pieces.


@frozen
class NumberPlace:
    """A number, or a zone's name: where it would stand, and from where to where it can.

    ``digit`` is how wide in mm one of a number's digits is. It never moves onto ``pieces``.
    """

    rect: Rect
    left: float
    right: float
    digit: float = 0.0
    pieces: tuple[Rect, ...] = ()

    def aside(
        self, boxes: Iterable[Rect], discs: Iterable[Rect] = ()
    ) -> tuple[float | None, float]:
        """Return the left edge nearest to its own that is clear of ``boxes``; None for none.

        A number is a digit off ``discs``, if it can be. And what it costs to stand there.
        """
        met = [(box.x, box.right, 0.0) for box in boxes if self._level(box)]
        met += [(disc.x, disc.right, self.digit) for disc in discs if self._level(disc)]
        off = _OFF_PIECES
        beside = [(p.x - off, p.right + off) for p in self.pieces if self._level(p)]
        ample = _ROUND + 0.8 * self.digit, 1, _MOVABLE  # a shaft is read as a 1
        usual = (_ROUND, 1, _NARROW), (_CLOSE, 1, _TIGHT), (_ROUND, 0, _READ)
        for off, apart, cost in (ample, *usual):
            spans = [(x - (by := max(off, apart * digit)), end + by) for x, end, digit in met]
            left = self._clear([*spans, *beside])
            if left is not None:
                return left, cost
        return None, _NUMBER

    def near(self, boxes: Iterable[Rect], off: float = _ROUND) -> bool:
        """Say whether it stands less than ``off`` mm beside one of ``boxes``."""
        x, y, wide, high = self.rect
        low, end, top, bottom = x - off, x + wide + off, y - _ROUND, y + high + _ROUND
        return any(low < a + w and a < end and top < b + h and b < bottom for a, b, w, h in boxes)

    def _level(self, box: Rect) -> bool:
        """Say whether ``box`` lies in the line of what stands here."""
        (_, y, _, high), (_, top, _, tall) = self.rect, box
        return top + tall > y - _AIR and top < y + high + _AIR

    def _clear(self, met: Sequence[tuple[float, float]]) -> float | None:
        """Return the left edge nearest to its own where none of the spans ``met`` is."""
        own, _, width, _ = self.rect
        first, last = self.left - 1e-6, self.right - width + 1e-6
        found = [own, self.left, self.right - width]
        found += [x for low, high in met for x in (low - width, high)]
        for x in sorted([x for x in found if first <= x <= last], key=lambda x: abs(x - own)):
            if all(x + width <= low + 1e-6 or x >= high - 1e-6 for low, high in met):
                return x
        return None


@frozen
class ArrowWay:
    """An arrow through ``points``, ``size`` its width in parts of the look's, covering boxes.

    The number of its order, if it has one, stands in a ``disc``.
    """

    points: tuple[Point, ...]
    size: float
    boxes: tuple[Rect, ...]
    disc: Rect | None = None


def way(points: Sequence[Point], look: Look, most: float = 1.0) -> ArrowWay:
    """Return the arrow through ``points``; it is thinner where its last part is short."""
    (x1, y1), (x2, y2) = points[-2:]
    full = look.lines_mm.arrow
    long = math.hypot(x2 - x1, y2 - y1)
    size = min(most, max(ARROW / full * 0.8, long / (HEAD_LONG * full / ARROW + _SHAFT)))
    return ArrowWay(tuple(points), size, covered(points, full * size))


def covered(points: Sequence[Point], width: float) -> tuple[Rect, ...]:
    """Return the boxes of an arrow ``width`` mm wide: of its shaft, part by part, and its head."""
    half = width / 2
    (x0, y0), after = points[:2]
    long = max(math.dist(points[0], after), width)
    tail = x0 + half * (after[0] - x0) / long, y0 + half * (after[1] - y0) / long
    points = (tail, *points[1:])
    boxes = [
        Rect(
            min(a[0], b[0]) - half,
            min(a[1], b[1]) - half,
            abs(a[0] - b[0]) + width,
            abs(a[1] - b[1]) + width,
        )
        for a, b in pairwise(points)
    ]
    (x1, y1), (x2, y2) = points[-2:]
    long = math.hypot(x2 - x1, y2 - y1) or 1.0
    back, wide = HEAD_LONG * width / ARROW, HEAD_WIDE * width / ARROW / 2
    bx, by = x2 - back * (x2 - x1) / long, y2 - back * (y2 - y1) / long
    if abs(x2 - x1) > abs(y2 - y1):
        head = Rect(min(bx, x2), y2 - wide, back, 2 * wide)
        boxes[-1] = Rect(min(x1, bx) - half, y1 - half, abs(bx - x1) + width, width)
    else:
        head = Rect(x2 - wide, min(by, y2), 2 * wide, back)
        boxes[-1] = Rect(x1 - half, min(y1, by) - half, width, abs(by - y1) + width)
    return (*boxes, head)


def bare(points: Sequence[Point], least: float) -> float:
    """Return what an arrow through ``points`` costs whatever it goes over."""
    long = sum(math.dist(a, b) for a, b in pairwise(points))
    return _STUB * max(0.0, 1 - long / least) + _BEND * (len(points) - 2) + _LONG * long


@frozen
class Strange:
    """Zones and columns that a move does not come from, and pieces that stay where it does."""

    zones: tuple[Rect, ...] = ()
    columns: tuple[Rect, ...] = ()
    near: tuple[Rect, ...] = ()


class Obstacle(NamedTuple):
    """Where an arrow should not go: its edges in mm, and what it costs to meet it."""

    left: float
    top: float
    right: float
    bottom: float
    cost: float


@frozen
class Ground:
    """What arrows go over: words that stay, numbers and names that step aside, pieces, lines.

    In ``rows`` numbers stand side by side, and what else stands there is read with them.
    """

    page: Rect
    words: tuple[Rect, ...]
    numbers: tuple[NumberPlace, ...]
    pieces: tuple[Rect, ...]
    lines: tuple[Rect, ...] = ()
    arrows: tuple[Rect, ...] = ()
    discs: tuple[Rect, ...] = ()
    rows: tuple[Rect, ...] = ()

    def obstacles(self, own: Sequence[Rect], strange: Strange) -> tuple[Obstacle, ...]:
        """Return what an arrow from ``own`` pieces may meet here, the worst first."""
        taken = (*own, *strange.near)
        others = [piece for piece in self.pieces if piece not in taken]
        return tuple(
            Obstacle(rect.x - by, rect.y - by, rect.right + by, rect.bottom + by, cost)
            for cost, rects, by in (
                (_WORD, self.words, _AIR),
                (_CROSSED, self.arrows, _AIR),
                (_PIECE, others, -0.2),
                (_ZONE, strange.zones, -0.5),
                (_COLUMN, strange.columns, -0.5),
                (_NEAR, strange.near, -0.2),
                (_OWN, own, -0.2),
            )
            for rect in rects
        )

    def cost(
        self, going: ArrowWay, obstacles: Sequence[Obstacle], least: float, most: float
    ) -> float:
        """Return how badly ``going`` lies among ``obstacles``, wanted ``least`` mm long at least.

        What costs ``most`` or more is not reckoned to its end.
        """
        boxes = [(x, y, x + wide, y + high) for x, y, wide, high in going.boxes]
        found = bare(going.points, least) + _STUB * (1 - going.size)
        found += _ASTRAY * sum(not self.page.holds(box, 0.5) for box in going.boxes)
        for left, top, right, low, cost in obstacles:
            if found >= most:
                return found
            for x, y, x2, y2 in boxes:
                if x < right and x2 > left and y < low and y2 > top:
                    found += cost
                    break
        discs = (going.disc,) if going.disc else ()
        for number in self.numbers:
            if found >= most:
                break
            if number.near(going.boxes) or number.near(discs, number.digit):
                every = (*self.arrows, *going.boxes)
                place, by = number.aside(every, (*self.discs, *discs))
                found += by + _LOST * (place is None and number.near(discs, 0.0))
        return found

    def met_by(self, box: Rect, own: Sequence[Rect]) -> float:
        """Return how badly a question in ``box`` lies here, its arrow covering ``own`` boxes."""
        found = _ASTRAY * (not self.page.holds(box)) + _PIECE * _met(box, self.pieces, 0.2)
        found += _DIGIT * _met(box, self.rows, -0.4)
        found += 4 * _WORD * _met(box, self.words, 0.5) + _BY_WORDS * _met(box, self.words, 2.0)
        return found + _CROSSED * _met(box, (*self.arrows, *own, *self.lines), 0.2)

    def with_arrow(self, going: ArrowWay) -> "Ground":
        """Return the ground with one more arrow on it."""
        discs = (*self.discs, going.disc) if going.disc else self.discs
        return replace(self, arrows=(*self.arrows, *going.boxes), discs=discs)


def _met(box: Rect, others: Iterable[Rect], by: float) -> int:
    """Return how many of ``others`` ``box`` meets, ``by`` mm round it."""
    return sum(box.overlaps(other, -by) for other in others)
