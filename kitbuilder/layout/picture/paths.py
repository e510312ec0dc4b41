"""Ways an arrow may go from zone to zone, the plainest first: straight, round a corner, between.

Each begins in its source's zone, on or beside what leaves, and ends in its target's column.
"""

from collections.abc import Iterator
from itertools import product

from kitbuilder.frozen import frozen
from kitbuilder.layout.model import Rect
from kitbuilder.layout.parts.contents import Point
from kitbuilder.layout.picture.frame_records import MatFrame, ZoneFrame
from kitbuilder.layout.picture.group import Group

Points = tuple[Point, ...]

_CLEAR, _OFF, _INTO, _EDGE, _NEAR_BY = 0.7, 0.8, 1.0, 0.1, 3.0
# In mm: how far an arrow stands off what it runs to and from, how far it goes into a zone
# without pieces, or only up to the names of its columns, and how far off a lane is near by.

_PARTS = (0.5, 0.75, 0.25, 0.9, 0.1)
_LEVELS = (0.5, 0.3, 0.7, 0.85)
# Where along a box an arrow may leave it or meet it.

_UNDER_HEADS = 1.4
# How far in mm under the names of columns an arrow begins where no pieces are.

_PAST = 0.3
# How far past the edge of what arrives an upright arrow may end, in parts of its head.


@frozen
class Journey:
    """A move from zone to zone: its pieces, its frame, the length of a head, and the least way."""

    source: Group
    target: Group
    frame: MatFrame
    head: float
    least: float

    def ways(self) -> Iterator[tuple[Points, ...]]:
        """Yield groups of ways, the plainest first."""
        if self.source.zone.y == self.target.zone.y:
            yield tuple(self._over())
            return
        yield tuple(self._straight())
        yield (*self._past(), *self._lane(), *self._corner())
        yield tuple(self._plain())
        yield tuple(self._between())

    def _plain(self) -> Iterator[Points]:
        """Yield the way up or down from the middle of what leaves, if its own column is there."""
        out, end, column = self.source.leaving(), self._end(), self.target.column
        x = out.x + out.width / 2
        if column.x < x < column.x + column.width:
            yield self._start(x, end), (x, end)

    @property
    def _down(self) -> bool:
        return self.source.zone.y < self.target.zone.y

    def _start(self, x: float, end: float) -> Point:
        """Return where an upright part to ``end`` begins: off the pieces, or on them if short."""
        out, every, way = self.source.leaving(), self.source.all(), 1 if self._down else -1
        under = every if self.source.place < 2 else out
        zone = self.source.zone
        low = max(every.bottom, zone.y + self.frame.heights.heads + _UNDER_HEADS)
        edge = low + _OFF if self._down else under.y - _OFF
        edge = min(max(edge, zone.y + 0.5), zone.y + zone.height - 0.5)
        if way * (end - edge) < self.least:
            far = end - way * self.least
            edge = min(edge, max(far, out.y + 1)) if self._down else max(edge, min(far, out.bottom))
        return x, edge

    def _end(self) -> float:
        """Return the y at which an upright arrow meets what arrives, or is in its empty zone."""
        zone, there = self.target.zone, self.target.arriving()
        if self.target.boxes:
            return there.y - _CLEAR if self._down else self.target.all().bottom + _CLEAR
        into = (2 if zone.low else 1) * _INTO
        return zone.y + into if self._down else zone.y + zone.height - into

    def _ends(self) -> tuple[float, ...]:
        """Return where an upright arrow may end: at what arrives, or before the column's name."""
        zone = self.target.zone
        edge = zone.y + _EDGE if self._down else zone.y + zone.height - _EDGE
        return self._end(), edge

    def _span(self) -> tuple[float, float]:
        """Return from where to where an upright arrow meets its target."""
        column, there = self.target.column, self.target.arriving()
        if self.target.boxes:
            return there.x, there.right
        return column.x + 1.5, column.x + column.width - 1.5

    def _straight(self) -> Iterator[Points]:
        out, (low, high), own = self.source.leaving(), self._span(), self.source.column
        if not self.source.boxes:  # nothing there: from anywhere in its column
            out = out._replace(x=own.x + 1.5, width=own.width - 3.0)
        low, high = max(low, out.x), min(high, out.right)
        if high - low > 0.5:
            for end, part in product(self._ends(), _PARTS):
                x = low + part * (high - low)
                yield (self._start(x, end), (x, end))

    def _past(self) -> Iterator[Points]:
        """Yield upright ways from what leaves that pass the edge of what arrives."""
        out, column, (low, high) = self.source.leaving(), self.target.column, self._span()
        by = _PAST * self.head
        for end, x in product(self._ends(), (high + by, low - by)):
            if out.x < x < out.right and column.x + 1 < x < column.x + column.width - 1:
                yield (self._start(x, end), (x, end))

    def _sides(self) -> Iterator[tuple[float, float]]:
        """Yield ends at the sides of what arrives, or in the middle of an empty column: x, y."""
        column, zone, there = self.target.column, self.target.zone, self.target.arriving()
        if not self.target.boxes:
            y, inside = zone.y + zone.height / 2, min(self.head + 2, column.width / 2)
            yield from ((column.x + inside, y), (column.x + column.width - inside, y))
            return
        for part in _LEVELS:
            y = there.y + part * there.height
            yield from ((there.right + _CLEAR, y), (self.target.all().x - _CLEAR, y))

    def _lane(self) -> Iterator[Points]:
        """Yield ways down the lane at the right of what leaves; of ones up it too."""
        if self.source.place and not self._down:
            return
        column, out = self.source.column, self.source.all()
        right = out.right
        target = self.target.column
        if self.target.boxes:
            right = max(right, min(self.target.all().right, column.x + column.width))
        for off in (2.4, 3.6, 5.2, 8.0, 10.5):
            for lane in (column.x + column.width - off, right + off):
                if not out.right + 0.6 < lane < column.x + column.width - 1.9:
                    continue
                begin = self._into_lane(lane)
                if target.x < lane < target.x + target.width and not self.target.boxes:
                    yield (*begin, (lane, self._end()))
                for x, level in self._sides():
                    if lane > x if x > self.target.arriving().x else lane < x:
                        yield (*begin, (lane, level), (x, level))

    def _into_lane(self, lane: float) -> Points:
        """Return how an arrow begins in ``lane``: beside what leaves, and not far off."""
        beside = self.source.outermost()
        y = beside.y + beside.height / 2
        if self.source.place:
            return (beside.right + _OFF / 2, y), (lane, y)
        edge = self.source.all().right + _OFF
        return ((lane, y),) if lane < edge + _NEAR_BY else ((edge, y), (lane, y))

    def _corner(self) -> Iterator[Points]:
        """Yield ways with one corner: into a side, or out of one."""
        out = self.source.leaving()
        for part, (x, y) in product(_PARTS, self._sides()):
            at = out.x + part * out.width
            right = x > self.target.arriving().x if self.target.boxes else at > x
            if abs(at - x) > 0.6 * self.head and (at > x) == right:
                yield (self._start(at, y), (at, y), (x, y))
        low, high = self._span()
        for part, level in product(_PARTS, _LEVELS):
            x, y = low + part * (high - low), out.y + level * out.height
            if not out.x - _CLEAR < x < out.right + _CLEAR:
                side = out.right + _CLEAR if x > out.right else out.x - _CLEAR
                yield ((side, y), (x, y), (x, self._end()))

    def _between(self) -> Iterator[Points]:
        """Yield ways between the rows of zones, from above or below into the target's column."""
        out, (low, high) = self.source.leaving(), self._span()
        column = self.target.column
        first, last = self._between_rows()
        starts = [out.x + part * out.width for part in _PARTS]
        if self.source.place == 0:
            own, right = self.source.column, self.source.all().right
            starts += [own.x + own.width - 2.6, right + 2.4, right + 4.0]
        ends = [low + part * (high - low) for part in (*_PARTS, -0.1, 1.1)]
        for level, start in product((0.5, 0.0, 1.0), starts):
            y = first + level * (last - first)
            begin: Points = (self._start(start, y),)
            if not out.x - 1 < start < out.right + 1:
                begin = self._into_lane(start)
            for end, x in product(self._ends(), ends):
                if column.x + 1 < x < column.x + column.width - 1:
                    yield (*begin, (start, y), (x, y), (x, end))
            for side, into in self._sides():
                off = 1 if not self.target.boxes or side > self.target.arriving().x else -1
                x = side + off * (self.head + 0.6)
                if column.x + 1 < x < column.x + column.width - 1:
                    yield (*begin, (start, y), (x, y), (x, into), (side, into))

    def _between_rows(self) -> tuple[float, float]:
        """Return from where to where there is room between the rows of the two zones."""
        upper = min(self.source.zone, self.target.zone, key=lambda zone: zone.y)
        rows = sorted({zone.y for zone in self.frame.zones})
        below = rows[rows.index(upper.y) + 1]
        named = any(zone.y == below and _named(zone, self.frame) for zone in self.frame.zones)
        end = below - (self.frame.heights.name if named else 0.0)
        start = upper.y + upper.height
        middle = (start + end) / 2
        return min(start + 1.2, middle), max(end - 1.2, middle)

    def _over(self) -> Iterator[Points]:
        """Yield ways between zones side by side."""
        out, there = self.source.leaving(), self.target.arriving()
        if not self.source.boxes:  # level with what is wanted there
            out = Rect(out.x, there.y, out.width, there.height)
        right = self.source.zone.x < self.target.zone.x
        start = out.right + 0.6 if right else out.x - 0.6
        end = there.x - _CLEAR if right else self.target.all().right + _CLEAR
        if not self.target.boxes:
            column = self.target.column
            end = column.x + column.width / 2
        for y in self._shared(out, there):
            yield ((start, y), (end, y))
        y = out.y + out.height / 2
        yield ((start, y), (end, y))
        x = there.x + there.width / 2
        for part, edge in product(_LEVELS, (there.bottom + _CLEAR, there.y - _CLEAR)):
            y = out.y + part * out.height
            if (
                self.target.boxes
                and abs(y - edge) > 0.6 * self.head
                and (y > edge) == (edge > there.y)
            ):
                yield ((start, y), (x, y), (x, edge))

    def _shared(self, out: Rect, there: Rect) -> Iterator[float]:
        """Yield levels at which both boxes are met from the side."""
        if not self.target.boxes:
            yield from (out.y + part * out.height for part in _LEVELS)
            return
        top, low = max(out.y, there.y), min(out.bottom, there.bottom)
        if top < low:
            parts = (0.5, 0.3, 0.7) if self.source.place == 0 else (0.7, 0.85, 0.95, 0.5)
            yield from (top + part * (low - top) for part in parts)


def _named(zone: ZoneFrame, frame: MatFrame) -> bool:
    return frame.manner == "full" and not zone.low
