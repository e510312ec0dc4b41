"""Arrows in a picture of the mat, each along the clearest of the ways that it may go.

An exchange runs across inside its zone. A move from zone to zone runs up or down its own column;
that of ones in the lane at their right. Where columns do not meet, it goes between the rows of
zones. What all of a zone does is one broad arrow.
"""

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace

from kitbuilder.design.style import Style
from kitbuilder.kit.lesson.mat_scenes import Move
from kitbuilder.kit.mat_needs import Role
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.contents import ARROW, HEAD_LONG, HEAD_WIDE, Arrow, Point
from kitbuilder.layout.parts.furniture import cut_letter
from kitbuilder.layout.picture.frame_records import MatFrame
from kitbuilder.layout.picture.ground import ArrowWay, Ground, Strange, bare, way
from kitbuilder.layout.picture.group import Group
from kitbuilder.layout.picture.paths import Journey, Points
from kitbuilder.layout.picture.piles import ONE_GAP
from kitbuilder.layout.picture.question import question, question_size

_CLEAR, _IN_DISC, _ALMOST, _BROAD, _GOOD, _FAIR = 0.7, 0.76, 1.7, 1.5, 3.5, 10.0
_LEVELS = (0.0, 1.24, -1.24, 2.48, 3.72)
# In mm, how far an arrow stands off pieces; the size of an arrow's number as a part of its disc;
# how many halves of a disc zones are apart if it stands between them;
# how broad the arrow of a whole zone is; what a way may cost at which no other is looked for,
# one with corners too; by how many units the level of an exchange may differ.

_OUT, _BACK, _LOW = (2 * (1 + ONE_GAP) + 0.5, 8.5), (3 * (1 + ONE_GAP) + 0.5, 5.0), 2.5
# How many units below the top of ones an exchange runs, and at most of tens and more, where it may
# begin on what is exchanged, off its slash; where it goes back; how many over its lower edge.

_SHORT = 2.6
# How many mm shorter than wanted an exchange is before it begins on what is exchanged.

_OVER, _OFF_PIECES, _HIDES, _TOUCHES, _AMONG, _UNTOLD = 0.2, 0.3, 40.0, 3.0, 4.0, 45.0
# How far in mm a disc is off its level arrow, and off pieces; what it costs a disc to lie on
# pieces, to come closer, to stand in the row of counts, or to be left out.


def chosen(
    moves: Iterable[Move],
    groups: Mapping[tuple[Role, int], Group],
    frame: MatFrame,
    style: Style,
    ground: Ground,
) -> tuple[ArrowWay, ...]:
    """Return the way of each of ``moves`` over ``ground``, clear of each other too."""
    found: list[ArrowWay] = []
    for move in moves:
        source, target = groups[move.source], groups[move.target]
        going = _clearest(move, source, target, frame, style, ground)
        ground = ground.with_arrow(going)
        found.append(going)
    return tuple(found)


def arrows(
    moves: Iterable[Move],
    ways: Iterable[ArrowWay],
    groups: Mapping[tuple[Role, int], Group],
    ground: Ground,
    style: Style,
) -> list[Item]:
    """Return the arrows along ``ways``, then what stands on them or beside.

    The number of an order is left out where it would meet words: those under a picture tell it too.
    """
    every = tuple(ways)
    drawn: list[Item] = []
    said: list[Item] = []
    for move, going in zip(moves, every, strict=True):
        gap = None
        if move.asks:
            others = tuple(box for some in every if some is not going for box in some.boxes)
            ends = groups[move.source], groups[move.target]
            item, gap = question(going, ends, replace(ground, arrows=others), style)
            said.append(item)
        elif going.disc and not any(going.disc.inset(0.4).overlaps(w) for w in ground.words):
            block = cut_letter(str(move.order), style, going.disc.width)
            said += [i._replace(what="order") for i in block.at(going.disc.x, going.disc.y)]
        drawn.append(_item(going, gap))
    return [*drawn, *said]


def _item(going: ArrowWay, gap: Rect | None) -> Item:
    x, y = min(p[0] for p in going.points), min(p[1] for p in going.points)
    wide = max(max(p[0] for p in going.points) - x, 0.01)
    high = max(max(p[1] for p in going.points) - y, 0.01)
    inside = tuple((px - x, py - y) for px, py in going.points)
    arrow = Arrow(inside, gap.moved(-x, -y) if gap else None, going.size)
    return Item("arrow", Rect(x, y, wide, high), arrow)


def _clearest(
    move: Move, source: Group, target: Group, frame: MatFrame, style: Style, ground: Ground
) -> ArrowWay:
    head = HEAD_LONG * style.look.lines_mm.arrow / ARROW
    least = head + 2.5 + (question_size(style)[1] if move.asks else 0.0)
    inside = move.source[0] == move.target[0]
    least += _half(style) if move.order and not source.place and not inside else 0.0
    own = list(source.boxes.values())
    if not move.every:
        own = [source.leaving()]
    if inside and target.boxes and target.place == 2:
        own.append(target.arriving())  # it steps down, and an arrow may end under its steps
    strange = _strange(source, target, frame) if not move.every else Strange()
    obstacles = ground.obstacles(own, strange)
    best: tuple[float, ArrowWay] | None = None
    journey = Journey(source, target, frame, head, least)
    for number, group in enumerate(_ways(move, source, target, frame, journey)):
        for rank, found in enumerate(group):
            for points, discs in _numbered(found, move, source, frame, style):
                most = best[0] - 0.01 * rank if best else math.inf
                if not move.every and bare(points, least) >= most:  # a broad one costs less
                    continue
                plain = way(points, style.look, _BROAD if move.every else 1.0)
                for disc in (*discs, None) if move.order else (None,):
                    going = _with(plain, disc)
                    cost = ground.cost(going, obstacles, least, most) + 0.01 * rank
                    cost += _hidden(disc, ground) if disc else _UNTOLD * (move.order > 0)
                    if best is None or cost < best[0]:
                        best = cost, going
        if best and best[0] < (_FAIR if number or move.every else _GOOD):
            break
    assert best, f"no way for {move}"
    return best[1]


def _strange(source: Group, target: Group, frame: MatFrame) -> Strange:
    """Return the zones and columns between which nothing moves from ``source`` to ``target``."""
    own = (source.zone.role, target.zone.role)
    zones = tuple(Rect(z.x, z.y, z.width, z.height) for z in frame.zones if z.role not in own)
    columns = tuple(
        Rect(column.x, group.zone.y, column.width, group.zone.height)
        for group in (source, target)
        for column in group.zone.columns
        if column not in (source.column, target.column)
    )
    stay = tuple(box for box in source.boxes.values() if box != source.leaving())
    return Strange(zones, columns, stay)


def _ways(
    move: Move, source: Group, target: Group, frame: MatFrame, journey: Journey
) -> Iterator[tuple[Points, ...]]:
    if move.every:
        every = tuple(_all_of(source, target, frame))
        yield tuple(points for points in every if _in_own_columns(points, source, target))
        yield every
    elif move.source[0] == move.target[0]:
        yield (
            *_under(source, target, frame, journey),
            *_across(source, target, frame, journey),
        )
    else:
        yield from journey.ways()


def _across(source: Group, target: Group, frame: MatFrame, journey: Journey) -> Iterator[Points]:
    """Yield level arrows between two columns of one zone, if close on what is exchanged."""
    left, least = source.place > target.place, journey.least
    out = source.loop or (source.leaving() if left else source.all())
    rows = source.all() if source.place == 0 else target.all()
    level, most = (_OUT if left else _BACK)[min(1, source.place, target.place)], max(_LEVELS)
    if left and target.place:  # no lower: it would leave below what is exchanged
        level, most = min(level, (source.leaving().bottom - rows.y) / frame.unit - _LOW), 0.0
    levels = [rows.y + (level + min(by, most)) * frame.unit for by in _LEVELS]
    if not left:  # at last where its number has room over the pieces
        thick = journey.head * ARROW / HEAD_LONG
        levels += [y + thick + _OVER - _OFF_PIECES for y in (target.arriving().y, rows.y)]
    end = target.all().x - _CLEAR if left else target.all().right + _CLEAR
    offs = (least, 0.8 * least, 0.6 * least) if left else (0.5 * least,)
    if left and end - out.right > least - _SHORT:
        offs = (min(least, end - out.right - 0.2),)
    for y in levels:
        for off in offs:
            start = min(out.right + 0.2, end - off) if left else max(out.x - 0.4, end + off)
            yield ((start, y), (end, y))


def _under(source: Group, target: Group, frame: MatFrame, journey: Journey) -> Iterator[Points]:
    """Yield an arrow that stays below the tens, or the steps of hundreds, where no room is before.

    It begins at the right of what is exchanged, well below its slash's end.
    """
    out, there = source.loop or source.leaving(), target.all()
    room = there.x - _CLEAR - out.right
    if source.place <= target.place or not target.place or room > 0.6 * journey.least:
        return
    start = out.right + 0.2
    if target.place == 1:
        end = there.bottom + _CLEAR
        y, x = end + journey.head + 1.6, max(there.x, start) + journey.head
        if y < out.bottom - 1 and x < there.right:
            yield ((start, y), (x, y), (x, end))
        return
    y = min(out.bottom - journey.head, there.bottom - frame.unit)
    end = there.x + y - (there.y + 10 * frame.unit) - _CLEAR
    if end - start > 0.8 * journey.least:
        yield ((start, y), (end, y))


def _all_of(source: Group, target: Group, frame: MatFrame) -> Iterator[Points]:
    """Yield arrows from the whole of one zone into another, above or below it."""
    first, last = source.zone, target.zone
    low, high = max(first.x, last.x), min(first.x + first.width, last.x + last.width)
    down = first.y < last.y
    for deep in (0.01, 0.12, 0.25, 0.4):  # from the edge: deeper it seems to leave a column
        for part in range(2, 39):
            x = low + (high - low) * (20 + (part // 2 if part % 2 else -part // 2)) / 40
            if down:
                yield (x, first.y + (1 - deep) * first.height), (x, last.y + 3.0)
                continue
            end = last.y + last.height
            for into in (3.0, frame.heights.digits + 1):
                yield (x, first.y + deep * first.height), (x, end - into)


def _in_own_columns(points: Points, source: Group, target: Group) -> bool:
    """Say whether an upright arrow leaves and meets columns of one place."""
    x = points[0][0]
    return any(
        all(column.x + 2 < x < column.x + column.width - 2 for column in both)
        for both in zip(source.zone.columns, target.zone.columns, strict=True)
    )


def _half(style: Style) -> float:
    """Return half the width in mm of the disc with an arrow's number."""
    return style.look.type_mm.least / _IN_DISC / 2


def _numbered(
    points: Points, move: Move, source: Group, frame: MatFrame, style: Style
) -> Iterator[tuple[Points, Sequence[Rect]]]:
    """Yield ways as an arrow may begin, with the places of its number if it has one."""
    (x, y), (x2, y2) = points[:2]
    half, level = _half(style), abs(x2 - x) > abs(y2 - y)
    if not move.order:
        yield points, []
    elif move.source[0] == move.target[0] or (level and len(points) == 2):
        yield points, _along(points, style)
    elif level:
        if abs(x2 - x) > 2 * half:  # not on the corner
            start = x + math.copysign(half, x2 - x), y
            yield (start, *points[1:]), [_round(*start, half)]
        yield points, _beside(points[1:], source, frame, style)
    else:
        start = _off_pieces(points, source, style)
        yield (start, *points[1:]), [_round(*start, half)]
        yield points, _beside(points, source, frame, style)


def _with(going: ArrowWay, disc: Rect | None) -> ArrowWay:
    """Return an arrow with its number in ``disc``, or without any."""
    return ArrowWay(going.points, going.size, (*going.boxes, disc), disc) if disc else going


def _hidden(disc: Rect, ground: Ground) -> float:
    """Return what a number costs that hides pieces, or is read as one more digit of a count."""
    found = sum(
        _HIDES * disc.overlaps(box) + _TOUCHES * disc.overlaps(box, 0.01 - _OFF_PIECES)
        for box in ground.pieces
    )
    y = disc.y + disc.height / 2
    return found + _AMONG * any(row.y < y < row.bottom for row in ground.rows)


def _round(x: float, y: float, half: float) -> Rect:
    """Return the disc round a middle."""
    return Rect(x - half, y - half, 2 * half, 2 * half)


def _off_pieces(points: Points, source: Group, style: Style) -> Point:
    """Return where an upright way begins if its number stands there, covering no piece."""
    (x, y), (_, y2) = points[:2]
    off, every, zone = _half(style) + 0.3, source.all(), source.zone
    head = HEAD_LONG * style.look.lines_mm.arrow / ARROW + 0.7 if len(points) == 2 else -0.3
    if y2 < y:
        return x, min(y, max(every.y - off, y2 + off + head, zone.y + 0.5))
    return x, max(y, min(every.bottom + off, y2 - off - head, zone.y + zone.height - 0.5))


def _along(points: Points, style: Style) -> list[Rect]:
    """Return discs over a level arrow, and under it."""
    (x, y), (x2, _) = points[0], points[-1]
    low, high = min(x, x2), max(x, x2)
    half, off = _half(style), style.look.lines_mm.arrow + _OVER
    return [
        _round(middle, y + by, half)
        for by in (-half - off, half + off)
        for middle in ((low + high) / 2, high - half, low + half, low - half / 2)
    ]


def _beside(points: Points, source: Group, frame: MatFrame, style: Style) -> list[Rect]:
    """Return discs beside an upright arrow: between rows of zones, or below what leaves."""
    (x, y), (_, y2) = points[:2]
    half, low = _half(style), source.zone.y + source.zone.height
    next_one = min((z.y for z in frame.zones if z.y > low), default=low)
    levels = [source.all().bottom + half + 0.3]
    if next_one - low > _ALMOST * half:
        levels.insert(0, (low + next_one) / 2)
    off = half + 0.2 + HEAD_WIDE * style.look.lines_mm.arrow / ARROW / 2
    return [
        _round(x + by, level, half)
        for level in levels
        if min(y, y2) < level < max(y, y2) + half
        for by in (off, -off)
    ]
