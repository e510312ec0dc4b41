"""A picture of the mat at one moment: zones, pieces in their states, numbers, loops and arrows."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from kitbuilder.design import metrics
from kitbuilder.design.style import Style
from kitbuilder.frozen import frozen
from kitbuilder.kit.lesson.mat_scenes import MatScene, Pile, ZoneScene
from kitbuilder.kit.mat_needs import Role
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.block import Block
from kitbuilder.layout.parts.contents import Arrow, Line, Panel, Pictogram, Rule, SmallPieces, State
from kitbuilder.layout.parts.mat_arrows import Group, arrows
from kitbuilder.layout.parts.mat_frame import (
    HEAD_GAP,
    PAD,
    UNDER_NAME,
    Heights,
    MatFrame,
    ZoneFrame,
)
from kitbuilder.layout.parts.piles import laid
from kitbuilder.layout.parts.settings import Setting, settings
from kitbuilder.layout.parts.words import placed_line, wide

_LOOP, _MOST_LOOP, _ABOVE = 0.29, 0.95, 0.25
# How far a loop stands off what it holds, in units and at most in mm; its line above and below.


@frozen
class _Placed:
    """One pile where it lies: the box of each state's pieces, and of them all."""

    boxes: dict[State, Rect]
    runs: tuple[tuple[State, tuple[Rect, ...]], ...]
    loop: Rect | None


def mat_picture(scene: MatScene, frame: MatFrame, style: Style) -> Block:
    """Return the picture of ``scene`` in ``frame``."""
    heights, full = frame.heights, frame.manner == "full"
    piles: dict[tuple[Role, int], _Placed] = {}
    for zone in scene.zones:
        there = frame.zone(zone.role)
        for place, pile in enumerate(zone.piles):
            piles[zone.role, place] = _placed(pile, place, there, frame, style)
    groups = {
        key: Group(dict(placed.boxes), placed.loop, frame.zone(key[0]), key[1])
        for key, placed in piles.items()
    }
    moved = arrows(scene.moves, groups, frame, style)
    shafts = [x for item in moved for x in _shafts(item)]
    items: list[Item] = []
    for zone in scene.zones:
        items += _zone(zone, frame.zone(zone.role), scene, style, heights)
    for (role, place), placed in piles.items():
        items += _pieces(placed, frame.unit)
        zone = next(z for z in scene.zones if z.role == role)
        if full:
            items += _digits(zone, place, frame.zone(role), shafts, style, heights)
        elif frame.manner == "headed":
            items += _headed(zone, place, frame, style)
    words = [i for i in items if i.what in ("line", "digit_box")]
    named = [zone for zone in scene.zones if zone.name]
    if full:
        names = [_name(zone, frame.zone(zone.role), style, heights) for zone in named]
        items += _clear(moved, words)
    else:
        names = [i for z in named for i in _name_inside(z, frame.zone(z.role), style, frame)]
        items += _clear(moved, [*words, *names])
    items += names
    if scene.outcome and full:
        items += _outcome(scene.outcome, frame, style, heights)
    return Block(tuple(items), frame.width, frame.height)


def _clear(moved: Sequence[Item], words: Sequence[Item]) -> list[Item]:
    """Return arrows, then what stands on them; a number that would meet ``words`` is left out.

    The words under a picture tell the order too.
    """
    arrows_: list[Item] = []
    said: list[Item] = []
    for item in moved:
        taken = (*words, *(other for other in said if other.what != item.what))
        if item.what == "arrow":
            arrows_.append(item)
        elif any(item.rect.inset(0.4).overlaps(other.rect) for other in taken):
            last = arrows_[-1]
            assert isinstance(last.content, Arrow)
            arrows_[-1] = last._replace(content=replace(last.content, gap=None))
        else:
            said.append(item)
    return [*arrows_, *said]


def _shafts(item: Item) -> tuple[float, ...]:
    """Return the x of each upright part of an arrow."""
    if not isinstance(item.content, Arrow):
        return ()
    ways = pairwise(item.content.points)
    return tuple(item.rect.x + a[0] for a, b in ways if abs(a[0] - b[0]) < 0.01)


def _placed(pile: Pile, place: int, zone: ZoneFrame, frame: MatFrame, style: Style) -> _Placed:
    column, heights = zone.columns[place], frame.heights
    top = zone.y + (heights.heads if zone.named or frame.manner != "full" else UNDER_NAME)
    unit = frame.unit
    runs = tuple(
        (
            state,
            tuple(
                Rect(column.pile + r.x * unit, top + r.y * unit, r.width * unit, r.height * unit)
                for r in rects
            ),
        )
        for state, rects in laid(pile, place, under=frame.under, gap=frame.gap)
    )
    boxes = {state: _around(some) for state, some in runs}
    loop = None
    if pile.looped:
        held = boxes.get("gone") or runs[-1][1][-1]
        off = min(_LOOP * frame.unit + 0.3, _MOST_LOOP)
        over = min(off, _ABOVE + style.look.lines_mm.loop / 2)  # clear of the column's name
        loop = Rect(held.x - off, held.y - over, held.width + 2 * off, held.height + 2 * over)
    return _Placed(boxes, runs, loop)


def _around(rects: tuple[Rect, ...]) -> Rect:
    x, y = min(r.x for r in rects), min(r.y for r in rects)
    return Rect(x, y, max(r.right for r in rects) - x, max(r.bottom for r in rects) - y)


def _pieces(placed: _Placed, unit: float) -> list[Item]:
    """Return a pile's pieces, one item a state, and the loop over them."""
    items = []
    over = len(placed.runs) > 1 and placed.runs[0][0] == "gone"
    for state, rects in placed.runs:
        box = placed.boxes[state]
        inside = tuple(rect.moved(-box.x, -box.y) for rect in rects)
        edges = tuple(_edge(rect, unit) for rect in inside) if over and state == "gone" else ()
        items.append(Item("small_pieces", box, SmallPieces(inside, unit, state, edges)))
    if placed.loop:
        items.append(Item("loop", placed.loop, Panel(line="loop", radius=1.6)))
    return items


def _edge(rect: Rect, unit: float) -> Rect:
    """Return where a gone hundred under others is struck: at its right edge, which is seen."""
    side = 2.6 * unit
    return Rect(rect.right - 0.7 * side, rect.y + 0.4 * rect.height, side, side)


def _zone(
    zone: ZoneScene, there: ZoneFrame, scene: MatScene, style: Style, heights: Heights
) -> list[Item]:
    """Return a zone's frame, the lines between its columns, and their names."""
    sets = settings(style.look)
    rect = Rect(there.x, there.y, there.width, there.height)
    items = [Item("zone", rect, Panel("none", "zone", 1.8))]
    for place, column in enumerate(there.columns):
        if place:
            line = Rect(column.x + column.width, there.y, 0.01, there.height)
            items.append(Item("divider", line, Rule("divider")))
        lane = 0.0
        middle = column.x + (column.width - lane) / 2
        if there.named:
            y = there.y + heights.heads / 2 - 0.1
            items.append(placed_line(scene.columns[place], sets.least, middle, y, "centre"))
        if zone.note and place == zone.note_at:
            y = there.y + there.height * 0.42
            items += _note(zone.note, column.width - 1.5, middle, y, sets.text.quiet())
    return items


def _note(text: str, room: float, x: float, y: float, setting: Setting) -> Iterator[Item]:
    """Yield the lines of a note in a column without pieces, round the middle at (x, y)."""
    broken = metrics.wrap(text, setting.size, room, setting.family)
    top = y - setting.lead * (len(broken) - 1) / 2
    for number, part in enumerate(broken):
        yield placed_line(part, setting, x, top + number * setting.lead, "centre")


def _name(zone: ZoneScene, there: ZoneFrame, style: Style, heights: Heights) -> Item:
    if there.low:
        y = there.y + there.height / 2
        return placed_line(zone.name, _name_setting(style).quiet(), there.x + 1.4, y)
    item = placed_line(zone.name, _name_setting(style), there.x + 0.6, there.y - heights.name / 2)
    assert isinstance(item.content, Line)
    return item._replace(content=item.content._replace(over=there.y > heights.name + 0.1))


def _name_inside(
    zone: ZoneScene, there: ZoneFrame, style: Style, frame: MatFrame
) -> tuple[Item, ...]:
    """Return a bare zone's name, if there is room: below its tens where it is high, else its ones.

    Where zones stand below each other it is drawn over a passing arrow.
    """
    setting, heights = settings(style.look).least, frame.heights
    pad = 0.4 if frame.manner == "headed" else 0.6 * heights.digits
    low = there.y + there.height - pad
    free = there.height - heights.heads - pad - 10 * frame.unit
    high = free > 0.9 * setting.size and len(there.columns) > 1
    column = there.columns[1 if high else 0]
    right = column.x + column.width - PAD / 2
    item = placed_line(zone.name, setting, right, low - setting.lead / 2, "right")
    assert isinstance(item.content, Line)
    item = item._replace(content=item.content._replace(over=frame.manner == "bare"))
    return (item,) if item.rect.x >= column.x + 0.5 else ()


def _name_setting(style: Style) -> Setting:
    text = settings(style.look).text
    return text.sized(max(style.look.type_mm.least, 0.95 * text.size))


def _digits(
    zone: ZoneScene,
    place: int,
    there: ZoneFrame,
    shafts: list[float],
    style: Style,
    heights: Heights,
) -> list[Item]:
    """Return the number under a column, what it replaces struck out and quiet at its left.

    Both keep clear of arrows that pass beside them.
    """
    pile = zone.piles[place]
    if pile.count is None:
        return []
    setting = settings(style.look).digits
    column, y = there.columns[place], there.y + there.height - heights.digits / 2 - 0.3
    now = wide(str(pile.count), setting)
    changed = pile.before is not None
    old = wide(str(pile.before), setting) if changed else 0.0
    total = old + 1.6 + now + 1.8 if changed else now
    left = column.number - total / 2
    clear = 0.37 * setting.size
    for x in shafts:
        if left - clear < x < left + total + clear and column.x < x < column.x + column.width:
            before, after = x - clear - total, x + clear
            left = before if before >= column.x + 0.6 else after
    least = column.x + 0.5
    if there.low and place == len(there.columns) - 1:  # well apart from the name of the zone
        left = column.x + column.width - total - 2.2
        least += wide(zone.name, _name_setting(style)) + 2.8
    left = min(max(left, least), column.x + column.width - total - 0.5)
    return _number(pile, left, y, style, heights)


def _number(pile: Pile, left: float, y: float, style: Style, heights: Heights) -> list[Item]:
    """Return the count of ``pile`` from ``left`` on, what it replaces struck out before it."""
    setting = settings(style.look).digits
    if pile.before is None:
        return [placed_line(str(pile.count), setting, left, y)]
    now, old = wide(str(pile.count), setting), wide(str(pile.before), setting)
    struck = placed_line(str(pile.before), setting.quiet(), left, y)
    assert isinstance(struck.content, Line)
    box = Rect(left + old + 1.6, y - heights.digits / 2 + 0.4, now + 1.8, heights.digits - 0.8)
    return [
        struck._replace(content=struck.content._replace(struck=True)),
        Item("digit_box", box, Panel("accent_tint", "digit", 0.9)),
        placed_line(str(pile.count), setting, box.x + box.width / 2, y, "centre"),
    ]


def _headed(zone: ZoneScene, place: int, frame: MatFrame, style: Style) -> list[Item]:
    """Return a column's name and its count beside it, in the middle over its pieces."""
    sets, there, pile = settings(style.look), frame.zone(zone.role), zone.piles[place]
    column, head = there.columns[place], wide(frame.heads[place], sets.least)
    y = there.y + frame.heights.heads / 2 - 0.25  # clear of a loop below
    number = wide(str(pile.count), sets.digits) if pile.count is not None else 0.0
    if pile.before is not None:
        number += wide(str(pile.before), sets.digits) + 3.4
    total = head + (HEAD_GAP + number if number else 0.0)
    left = column.x + (column.width - total) / 2
    items = [placed_line(frame.heads[place], sets.least.quiet(), left, y)]
    if number:
        items += _number(pile, left + head + HEAD_GAP, y, style, frame.heights)
    return items


def _outcome(text: str, frame: MatFrame, style: Style, heights: Heights) -> list[Item]:
    setting = settings(style.look).digits
    side = setting.size
    y = frame.zones[0].y - heights.name / 2
    right = frame.width - 0.5
    return [
        Item("pictogram", Rect(right - side, y - side / 2, side, side), Pictogram("right")),
        placed_line(text, setting, right - side - 1.5, y, "right"),
    ]
