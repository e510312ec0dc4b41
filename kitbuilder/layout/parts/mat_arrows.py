"""Arrows in a picture of the mat: straight or with one right angle, clear of the pieces.

An exchange runs across inside its zone. A move from zone to zone runs up or down its own column;
that of ones runs in the lane at their right. Where columns do not meet, what is taken out of the
whole leaves it upright and comes in from the side; what is pushed back leaves by the side.
"""

from collections.abc import Iterable, Mapping, Sequence

from kitbuilder.design.style import Style
from kitbuilder.frozen import frozen
from kitbuilder.kit.lesson.mat_scenes import Move
from kitbuilder.kit.mat_needs import Role
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.contents import Arrow, Point, State
from kitbuilder.layout.parts.furniture import cut_letter
from kitbuilder.layout.parts.mat_frame import MatFrame, ZoneFrame
from kitbuilder.layout.parts.piles import ONE_GAP
from kitbuilder.layout.parts.settings import Setting
from kitbuilder.layout.parts.words import placed_line

_CLEAR = 0.7
_HEAD = 4.0
_SHORT, _ASKED = 6.0, 15.0
_INTO = 1.0
_ALONG, _BELOW = 0.3, 0.7
_ROOMY = 36.0
_IN_DISC = 0.76
_ASKS = 1.28
# In mm: how far an arrow stands off pieces, what its head needs, how short it may be, and
# how far it goes into a zone without pieces; at which part of a bar's height it meets one from
# the side, or runs below ones; from what width of the ones' column on the lane is near the pieces;
# the size of an arrow's number as a part of its disc, and how wide the gap of a question is in ems.


@frozen
class Group:
    """The pieces of one column by their state, the loop round some, and where the column is."""

    boxes: Mapping[State, Rect]
    loop: Rect | None
    zone: ZoneFrame
    place: int

    def leaving(self) -> Rect:
        """The box of what moves away: what is gone, else what is there."""
        return self._first("gone", "here", "new")

    def arriving(self) -> Rect:
        """The box of what arrives: what is new, else what is needed, else what is there."""
        return self._first("new", "needed", "here")

    def all(self) -> Rect:
        """The box of all its pieces."""
        boxes = list(self.boxes.values())
        if not boxes:
            return self._none()
        x, y = min(b.x for b in boxes), min(b.y for b in boxes)
        return Rect(x, y, max(b.right for b in boxes) - x, max(b.bottom for b in boxes) - y)

    def _first(self, *wanted: State) -> Rect:
        return next((self.boxes[state] for state in wanted if state in self.boxes), self._none())

    def _none(self) -> Rect:
        column = self.zone.columns[self.place]
        return Rect(column.pile, self.zone.y + 6, 0.01, 0.01)


def arrows(
    moves: Iterable[Move], groups: Mapping[tuple[Role, int], Group], frame: MatFrame, style: Style
) -> tuple[Item, ...]:
    """Return an arrow for each of ``moves`` and what stands on it."""
    items: list[Item] = []
    for move in moves:
        source, target = groups[move.source], groups[move.target]
        if move.source[0] == move.target[0]:
            points = _across(source, target, frame, _ASKED if move.asks else _SHORT)
        elif source.zone.y == target.zone.y:
            points = _over(source, target)
        elif move.source[1] == 0:
            clear = (_ASKS / 2 + 0.15 if move.asks else 0.45) * style.look.type_mm.adult
            clear = max(clear, _half(style) + 0.6) if move.order else clear
            points = _in_lane(source, target, groups, clear)
        else:
            points = _in_column(source, target)
        items += _drawn(points, move, source, target, style)
    return tuple(items)


def _across(source: Group, target: Group, frame: MatFrame, least: float) -> list[Point]:
    """Return a level arrow between two columns of one zone, ``least`` mm long."""
    left = source.place > target.place
    start = source.loop or source.leaving()
    rows = source.all() if source.place == 0 else target.all()
    level = 3 * (1 + ONE_GAP) + 0.5
    if source.place and target.place:
        level = 5.0
    y = rows.y + level * frame.unit
    # where both stand close, the arrow begins on what it exchanges
    if left:
        end = target.all().x - _CLEAR
        return [(min(start.right + 0.2, end - least), y), (end, y)]
    start, end = source.loop or source.all(), target.all().right + _CLEAR
    return [(max(start.x - 0.4, end + least), y), (end, y)]


def _over(source: Group, target: Group) -> list[Point]:
    """Return the arrow between zones side by side: ones in their rows, tens below those."""
    out, there = source.leaving(), target.arriving()
    right = source.zone.x < target.zone.x
    start = out.right + 0.6 if right else out.x - 0.6
    end = there.x - _CLEAR if right else target.all().right + _CLEAR
    if source.place:
        y = out.y + _BELOW * out.height
        return [(start, y), (end, y)]
    top, low = max(out.y, there.y), min(out.bottom, there.bottom)
    y, x = out.y + out.height / 2, there.x + there.width / 2
    if top < low or not right:
        level = (top + low) / 2 if top < low else y
        return [(start, level), (end, level)]
    return [(start, y), (x, y), (x, there.bottom + _CLEAR)]


def _in_lane(
    source: Group, target: Group, groups: Mapping[tuple[Role, int], Group], clear: float
) -> list[Point]:
    """Return the arrow of ones, down or up the lane at their right."""
    column = source.zone.columns[0]
    rights = [g.all().right for g in groups.values() if g.place == 0 and g.boxes]
    same = [r for r in rights if column.x <= r <= column.x + column.width]
    lane = column.x + column.width - max(2.4, clear)
    if column.width > _ROOMY:
        lane = min(max(same, default=column.pile) + 8.0, lane)
    out, there = source.leaving(), target.arriving()
    y, level = out.y + out.height / 2, there.y + there.height / 2
    if source.zone.role == "whole":
        if not target.boxes:
            return [(lane, y), *_into(lane, source, target)]
        side = there.right + _CLEAR if lane > there.x else there.x - _CLEAR
        return [(lane, y), (lane, level), (side, level)]
    zone = target.zone
    if source.zone.y > zone.y and zone.x < lane < zone.x + zone.width:
        return [(out.right + _CLEAR, y), (lane, y), (lane, level)]
    return _in_column(source, target)


def _into(x: float, source: Group, target: Group) -> list[Point]:
    """Return the end of an arrow along ``x`` into a column without pieces, from above or below."""
    zone, column = target.zone, target.zone.columns[target.place]
    if source.zone.y < zone.y:
        return [(x, zone.y + _INTO)]
    if column.x < x < column.x + column.width:
        return [(x, zone.y + zone.height - _INTO)]
    y = zone.y + zone.height / 2
    return [(x, y), (column.x + column.width - _HEAD if x > column.x else column.x + _HEAD, y)]


def _in_column(source: Group, target: Group) -> list[Point]:
    """Return the arrow of larger pieces: straight where both overlap, else with one angle."""
    out, there = source.leaving(), target.arriving()
    down = source.zone.y < target.zone.y
    start = source.all().bottom + 0.8 if down else source.all().y - 0.8
    end = there.y - _CLEAR if down else target.all().bottom + _CLEAR
    x = out.x + out.width / 2
    if not target.boxes:
        return [(x, start), *_into(x, source, target)]
    low, high = max(out.x, there.x), min(out.right, there.right)
    if high - low > 0.5:
        x = high - 3.0 if high - low > 9 else (low + high) / 2
        return [(x, start if down else out.y - 0.6), (x, end)]
    if source.zone.role == "whole":
        y = there.y + _ALONG * there.height
        side = there.right + _CLEAR if x > there.right else there.x - _CLEAR
        if abs(x - side) < _HEAD:
            x = side + (_HEAD if x > there.right else -_HEAD)
        return [(x, start), (x, y), (side, y)]
    x, y = there.x + there.width / 2, out.y + _ALONG * out.height
    side = out.right + _CLEAR if x > out.right else out.x - _CLEAR
    return [(side, y), (x, y), (x, end)]


def _drawn(
    points: list[Point], move: Move, source: Group, target: Group, style: Style
) -> list[Item]:
    x, y = min(p[0] for p in points), min(p[1] for p in points)
    wide = max(max(p[0] for p in points) - x, 0.01)
    high = max(max(p[1] for p in points) - y, 0.01)
    inside = tuple((px - x, py - y) for px, py in points)
    rect = Rect(x, y, wide, high)
    arrow = Item("arrow", rect, Arrow(inside))
    if move.asks:
        size = 1.6 * style.look.type_mm.adult
        at = _middle(points, source, target)
        half = _ASKS / 2 * style.look.type_mm.adult
        beside = _beside(points, source, target, (half, size))
        if beside:
            setting = Setting(size, size, "heading", "accent")
            return [arrow, placed_line("?", setting, *beside, "centre")]
        gap = Rect(at[0] - half, at[1] - 0.5 * size, 2 * half, size)
        setting = Setting(size, size, "heading", "accent")
        arrow = Item("arrow", rect, Arrow(inside, gap.moved(-x, -y)))
        return [arrow, placed_line("?", setting, *at, "centre")]
    return [arrow, *_order(move.order, points, source, target, style)] if move.order else [arrow]


def _beside(
    points: Sequence[Point], source: Group, target: Group, mark: tuple[float, float]
) -> Point | None:
    """Return where a question stands beside an arrow that is too short to hold it, else None.

    ``mark`` is half the width and the height of the question, in mm.
    """
    half, high = mark
    (x, y), end = points[0], points[-1]
    if source.zone.y == target.zone.y:
        free = target.all().x - source.all().right if source.place > target.place else _ROOMY
        same = source.zone.role == target.zone.role
        if same and source.place > target.place and free < half + 1:  # no room above the arrow
            there = target.all()
            return there.x + there.width / 2, there.bottom + 0.6 * high
        return (
            (max(x, source.all().right) / 2 + end[0] / 2, y - 0.62 * high)
            if (same and free < 2 * half + _HEAD + 2)
            else None
        )
    if source.zone.y < target.zone.y and source.place and not target.boxes:
        room = end[1] - _HEAD - y
        return (x + half, y + min(0.5 * high, room / 2)) if room < 1.3 * high else None
    return None


def _half(style: Style) -> float:
    """Return half the width in mm of the disc with an arrow's number."""
    return style.look.type_mm.least / _IN_DISC / 2


def _order(
    order: int, points: Sequence[Point], source: Group, target: Group, style: Style
) -> list[Item]:
    """Return the number of an arrow in a disc at its tail, on what leaves where that is large."""
    (x, y), (x2, y2) = points[:2]
    half = _half(style)
    long = max(abs(x2 - x), abs(y2 - y))
    if source.zone.y == target.zone.y:
        back = half  # between zones side by side the disc stands before what leaves
    else:
        back = 0.0 if source.place == 0 else -(half + _CLEAR)
    disc = cut_letter(str(order), style, 2 * half)
    middle = (x + back * (x2 - x) / long, y + back * (y2 - y) / long)
    return [item._replace(what="order") for item in disc.at(middle[0] - half, middle[1] - half)]


def _middle(points: list[Point], source: Group, target: Group) -> Point:
    """Return where a question stands on an arrow: on its upright part, between two zones."""
    if source.zone.role == target.zone.role:
        (x1, y1), (x2, y2) = points[0], points[-1]
        return (x1 + x2) / 2, (y1 + y2) / 2
    if source.zone.y == target.zone.y:
        left, right = sorted((source.zone, target.zone), key=lambda zone: zone.x)
        return (left.x + left.width + right.x) / 2, points[0][1]
    near = source.zone.y + (source.zone.height - 5.5 if source.zone.y < target.zone.y else 1.0)
    return points[0][0], (points[0][1] + near) / 2
