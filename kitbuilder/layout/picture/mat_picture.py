"""A picture of the mat at one moment: zones, pieces in their states, numbers, loops and arrows."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from functools import lru_cache

from kitbuilder.design import metrics
from kitbuilder.design.style import Style
from kitbuilder.frozen import frozen
from kitbuilder.kit.lesson.mat_scenes import MatScene, Pile, ZoneScene
from kitbuilder.kit.mat_needs import Role
from kitbuilder.layout.mat.lying import PILE_STEP
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.block import Block
from kitbuilder.layout.parts.contents import Line, Panel, Pictogram, Rule, SmallPieces, State
from kitbuilder.layout.parts.settings import Setting, settings
from kitbuilder.layout.parts.words import placed_line
from kitbuilder.layout.picture.aside import letters, names_of, numbers_of, rooms_of
from kitbuilder.layout.picture.frame_needs import UNDER_NAME
from kitbuilder.layout.picture.frame_records import Column, Heights, MatFrame, ZoneFrame
from kitbuilder.layout.picture.ground import Ground
from kitbuilder.layout.picture.group import Group
from kitbuilder.layout.picture.mat_arrows import arrows, chosen
from kitbuilder.layout.picture.piles import APART, laid

_LOOP, _MOST_LOOP, _ABOVE, _APART = 0.29, 0.95, 0.25, 0.1
# How far a loop stands off what it holds, in units and at most in mm; its line above and below,
# and off what it does not hold.

_BY_LOOP = 1.4
# In mm, what a loop round a hundred or more needs between that and the end of its column.

_OVER_LOOPS = 0.28
# How far in mm the names of columns stand above their room's middle: off the loops below.


@frozen
class _Placed:
    """One pile where it lies: the box of each state's pieces, and of them all.

    The last ``passing`` of those gone are new too.
    """

    boxes: dict[State, Rect]
    runs: tuple[tuple[State, tuple[Rect, ...]], ...]
    loop: Rect | None
    passing: int


@lru_cache(64)  # a page that is tried in many ways shows the same in each
def mat_picture(scene: MatScene, frame: MatFrame, style: Style) -> Block:
    """Return the picture of ``scene`` in ``frame``."""
    piles: dict[tuple[Role, int], _Placed] = {}
    for zone in scene.zones:
        there = frame.zone(zone.role)
        for place, pile in enumerate(zone.piles):
            piles[zone.role, place] = _placed(pile, place, there, frame, style)
    items: list[Item] = []
    for zone in scene.zones:
        items += _zone(zone, frame.zone(zone.role), scene, style, frame.heights)
    for placed in piles.values():
        items += _pieces(placed, frame.unit)
    if scene.outcome and frame.manner == "full":
        items += _outcome(scene.outcome, frame, style, frame.heights)
    return Block((*items, *_said(scene, frame, piles, items, style)), frame.width, frame.height)


def _said(
    scene: MatScene,
    frame: MatFrame,
    piles: Mapping[tuple[Role, int], _Placed],
    items: Sequence[Item],
    style: Style,
) -> list[Item]:
    """Return arrows, numbers and names: those step aside where an arrow passes."""
    groups = {
        key: Group(
            dict(placed.boxes),
            placed.loop,
            frame.zone(key[0]),
            key[1],
            next((rects for state, rects in placed.runs if state == "gone"), ()),
        )
        for key, placed in piles.items()
    }
    pieces = tuple(box for placed in piles.values() for box in placed.boxes.values())
    numbers = numbers_of(scene, frame, pieces, style) if frame.manner == "full" else []
    ground = Ground(
        Rect(0, 0, frame.width, frame.height),
        tuple(letters(i) for i in items if i.what == "line"),
        (*(number.room for number in numbers), *rooms_of(scene, frame, style)),
        pieces,
        tuple(x for i in items if i.what in ("zone", "divider") for x in _lines(i)),
        rows=_rows(frame),
    )
    ways = chosen(scene.moves, groups, frame, style, ground)
    boxes = tuple(box for way in ways for box in way.boxes)
    names = names_of(scene, frame, boxes, pieces, style)
    counts = [item for number in numbers for item in number.aside(ways, style, frame.heights)]
    words = (
        *ground.words,
        *(letters(i) if i.what == "line" else i.rect for i in (*names, *counts)),
    )
    ground = replace(ground, words=words, numbers=())
    return [*counts, *arrows(scene.moves, ways, groups, ground, style), *names]


def _rows(frame: MatFrame) -> tuple[Rect, ...]:
    """Return where numbers stand side by side, in each zone."""
    high, zones = frame.heights.digits, frame.zones if frame.manner == "full" else ()
    return tuple(Rect(z.x, z.y + z.height - high, z.width, high) for z in zones)


def _lines(item: Item) -> tuple[Rect, ...]:
    """Return where the lines of a zone's frame, or a divider, run."""
    x, y, wide, high = item.rect
    if item.what == "divider":
        return (Rect(x - 0.2, y, 0.4, high),)
    return (
        Rect(x, y - 0.3, wide, 0.6),
        Rect(x, y + high - 0.3, wide, 0.6),
        Rect(x - 0.3, y, 0.6, high),
        Rect(x + wide - 0.3, y, 0.6, high),
    )


def _placed(pile: Pile, place: int, zone: ZoneFrame, frame: MatFrame, style: Style) -> _Placed:
    column, heights = zone.columns[place], frame.heights
    top = zone.y + (heights.heads if zone.named or frame.manner != "full" else UNDER_NAME)
    unit = frame.unit
    apart = pile.looped and place >= 2 and frame.under  # else its number stands there
    end = column.x + column.width - _BY_LOOP if apart else column.reach
    room = (max(end, column.reach) - column.pile) / unit
    high = (zone.y + zone.height - heights.digits - 0.6 - top) / unit
    runs = tuple(
        (
            state,
            tuple(
                Rect(column.pile + r.x * unit, top + r.y * unit, r.width * unit, r.height * unit)
                for r in rects
            ),
        )
        for state, rects in laid(
            pile, place, under=frame.under, gap=frame.gap, room=room, high=high
        )
    )
    boxes = {state: _around(some) for state, some in runs}
    loop = None
    if pile.looped:
        held = boxes.get("gone") or runs[-1][1][-1]
        others = [rect for _, some in runs for rect in some]
        loop = _loop(held, others, column, unit, style.look.lines_mm.loop / 2)
    return _Placed(boxes, runs, loop, pile.passing)


def _loop(held: Rect, pile: Sequence[Rect], column: Column, unit: float, half: float) -> Rect:
    """Return a loop round what is ``held`` of a ``pile``, its line ``half`` as wide at each side.

    It is clear of what lies beside that or below, of the column's name and its number, and
    no further out than ``held`` where others are seen under that.
    """
    off = min(_LOOP * unit + 0.3, _MOST_LOOP)
    over = min(off, _ABOVE + half)
    large = pile[0].width > 9 * unit  # its number is close below
    if large and any(r.x < held.x for r in pile):
        over = 0.0
    ends = (column.x, *(min(r.right, held.x) for r in pile if r.x < held.x))
    starts = (column.x + column.width, *(r.x for r in pile if r.x >= held.right))
    lower = (held.bottom + off + half, *(r.y for r in pile if r.y >= held.bottom))
    rooms = held.x - max(ends), min(starts) - held.right
    left, right = (max(0.0, min(off, room / 2, room - half - _APART)) for room in rooms)
    under = max(0.0, min(over, min(lower) - held.bottom - half - _APART))
    under = 0.0 if large else under
    wide, high = held.width + left + right, held.height + over + under
    return Rect(held.x - left, held.y - over, wide, high)


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
        edges: tuple[Rect, ...] = ()
        if state == "gone" and over:
            edges = tuple(_strip(rect, unit) for rect in inside)
        elif state == "gone" and inside[0].width > 9 * unit:  # each is struck where it is seen
            wide, high = PILE_STEP * unit, 6 * unit
            edges = tuple(Rect(r.x, r.y + r.x, wide, high) for r in inside[:-1]) + inside[-1:]
        passing = placed.passing if state == "gone" else 0
        items.append(Item("small_pieces", box, SmallPieces(inside, unit, state, edges, passing)))
    if placed.loop:
        items.append(Item("loop", placed.loop, Panel(line="loop", radius=1.6)))
    return items


def _strip(rect: Rect, unit: float) -> Rect:
    """Return where a gone hundred under others is struck: inside the strip that is seen of it.

    The first lies apart from what stays. Each is struck lower than the one before: level, slashes
    and edges run into a zigzag.
    """
    wide = PILE_STEP * unit * (1 if rect.x else 1 + APART)
    return Rect(rect.right - wide, rect.y + rect.x, wide, 6 * unit)


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
            if place == style.words.scale.decimals and any(p.count is not None for p in zone.piles):
                items.append(_point(line.x, there, style, heights))
        middle = column.x + column.width / 2
        if there.named:
            y = there.y + heights.heads / 2 - _OVER_LOOPS
            items.append(placed_line(scene.columns[place], sets.least, middle, y, "centre"))
        if zone.note and place == zone.note_at:
            y = there.y + there.height * 0.42
            items += _note(zone.note, column.width - 1.5, middle, y, sets.text.quiet())
    return items


def _point(x: float, there: ZoneFrame, style: Style, heights: Heights) -> Item:
    """Return the decimal point on the line at ``x`` between two columns, level with numbers."""
    y = there.y + there.height - heights.digits / 2 - 0.3
    point = placed_line(style.words.scale.point, settings(style.look).digits, x, y, "centre")
    assert isinstance(point.content, Line)
    return point._replace(content=point.content._replace(over=True))


def _note(text: str, room: float, x: float, y: float, setting: Setting) -> Iterator[Item]:
    """Yield the lines of a note in a column without pieces, round the middle at (x, y)."""
    broken = metrics.wrap(text, setting.size, room, setting.family)
    top = y - setting.lead * (len(broken) - 1) / 2
    for number, part in enumerate(broken):
        yield placed_line(part, setting, x, top + number * setting.lead, "centre")


def _outcome(text: str, frame: MatFrame, style: Style, heights: Heights) -> list[Item]:
    setting = settings(style.look).digits
    side = setting.size
    y = frame.zone("whole").y - heights.name / 2
    right = frame.width - 0.5
    return [
        Item("pictogram", Rect(right - side, y - side / 2, side, side), Pictogram("right")),
        placed_line(text, setting, right - side - 1.5, y, "right"),
    ]
