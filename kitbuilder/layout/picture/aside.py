"""Numbers under columns and names of zones: each where no arrow passes."""

from collections.abc import Sequence
from dataclasses import replace

from kitbuilder.design.style import Style
from kitbuilder.frozen import frozen
from kitbuilder.kit.lesson.mat_scenes import MatScene, Pile, ZoneScene
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.contents import Line, Panel
from kitbuilder.layout.parts.settings import Setting, settings
from kitbuilder.layout.parts.words import placed_line, wide
from kitbuilder.layout.picture.frame_records import Heights, MatFrame, ZoneFrame
from kitbuilder.layout.picture.ground import ArrowWay, NumberPlace

_APART = 1.6
# Numbers of one column apart, in mm.


@frozen
class PileCount:
    """The number under a column: its pile, and where there is room for it."""

    pile: Pile
    room: NumberPlace
    middle: float

    def aside(self, ways: Sequence[ArrowWay], style: Style, heights: Heights) -> list[Item]:
        """Return the number clear of the arrows along ``ways``."""
        boxes = [box for way in ways for box in way.boxes]
        left, _ = self.room.aside(boxes, [way.disc for way in ways if way.disc])
        left = self.room.rect.x if left is None else left
        left += 0.0 if self.pile.before is None else struck_over(style)
        return number_items(self.pile, left, self.middle, style, heights)


def struck_over(style: Style) -> float:
    """Return how far in mm the slash of a struck number reaches beyond it."""
    return 0.1 * settings(style.look).digits.size + style.look.lines_mm.frame / 2


def numbers_of(
    scene: MatScene, frame: MatFrame, pieces: tuple[Rect, ...], style: Style
) -> list[PileCount]:
    """Return the number of every column that has one, which is to keep off ``pieces``."""
    setting = name_setting(style)
    beside = (wide(z.name, setting) for z in scene.zones if frame.zone(z.role).low)
    named = max(beside, default=0.0)
    every = (
        _number(pile, place, frame.zone(zone.role), named, style, frame.heights)
        for zone in scene.zones
        for place, pile in enumerate(zone.piles)
        if pile.count is not None
    )
    return [replace(number, room=replace(number.room, pieces=pieces)) for number in every]


def _number(
    pile: Pile, place: int, there: ZoneFrame, named: float, style: Style, heights: Heights
) -> PileCount:
    """Return the number under a column, what it replaces struck out and quiet at its left.

    In a low zone names up to ``named`` mm wide stand before those of the first column. What stood
    there between is left out where the column has no room for it.
    """
    column, setting = there.columns[place], settings(style.look).digits
    y = there.y + there.height - heights.digits / 2 - 0.3
    total = _total(pile, style)
    if total > column.width - 1:
        pile = replace(pile, between=None)
        total = _total(pile, style)
    left, least, most = column.number - total / 2, column.x + 0.5, column.x + column.width - 0.5
    if there.low and place == len(there.columns) - 1:  # well apart from the name of the zone
        least += named + 2.8
        left = max(left, min(least + 2.7, column.x + column.width - total - 2.2))
    left = min(max(left, least), most - total)
    rect = Rect(left, y - heights.digits / 2 + 0.4, total, heights.digits - 0.8)
    room = NumberPlace(rect, min(least, left), max(most, left + total), wide("0", setting))
    return PileCount(pile, room, y)


def _struck(pile: Pile) -> list[str]:
    """Return the numbers that are struck out before the count of ``pile``."""
    return [str(n) for n in (pile.before, pile.between) if n is not None]


def _total(pile: Pile, style: Style) -> float:
    """Return the width in mm of the count of ``pile`` with what is struck out before it."""
    setting, struck = settings(style.look).digits, _struck(pile)
    framed = 1.8 if struck else 0.0
    over = (struck_over(style) + _APART) * len(struck) + framed
    return over + sum(wide(said, setting) for said in (*struck, str(pile.count)))


def number_items(pile: Pile, left: float, y: float, style: Style, heights: Heights) -> list[Item]:
    """Return the count of ``pile`` from ``left`` on, what it replaces struck out before it."""
    setting = settings(style.look).digits
    if pile.before is None:
        return [placed_line(str(pile.count), setting, left, y)]
    found: list[Item] = []
    for k, said in enumerate(_struck(pile)):
        left += struck_over(style) if k else 0.0
        struck = placed_line(said, setting.quiet(), left, y)
        assert isinstance(struck.content, Line)
        found.append(struck._replace(content=struck.content._replace(struck=True)))
        left += wide(said, setting) + _APART
    now = wide(str(pile.count), setting)
    box = Rect(left, y - heights.digits / 2 + 0.4, now + 1.8, heights.digits - 0.8)
    return [
        *found,
        Item("digit_box", box, Panel("accent_tint", "digit", 0.9)),
        placed_line(str(pile.count), setting, box.x + box.width / 2, y, "centre"),
    ]


def names_of(
    scene: MatScene, frame: MatFrame, boxes: Sequence[Rect], pieces: Sequence[Rect], style: Style
) -> list[Item]:
    """Return the names of zones clear of ``boxes`` of arrows; over them where nothing is clear."""
    found: list[Item] = []
    for zone in scene.zones:
        if not zone.name:
            continue
        there = frame.zone(zone.role)
        if frame.manner != "full":
            found += _inside(zone, there, boxes, pieces, frame, style)
        elif there.low:
            middle = there.y + there.height / 2
            found.append(placed_line(zone.name, name_setting(style).quiet(), there.x + 1.4, middle))
        else:
            y = there.y - frame.heights.name / 2
            setting, right = name_setting(style), there.x + there.width  # a name may be the wider
            x = min(there.x + 0.6, right - wide(zone.name, setting))
            item = placed_line(zone.name, setting, x, y)
            named = beside_arrows(item, (x, _first_end(there) - 0.6), boxes)
            assert isinstance(named.content, Line)
            over = named.content.over
            found.append(beside_arrows(item, (x, right - 0.6), boxes) if over else named)
    return found


def rooms_of(scene: MatScene, frame: MatFrame, style: Style) -> list[NumberPlace]:
    """Return where the names of zones would stand without arrows, and how far each can move."""
    found: list[NumberPlace] = []
    for zone in scene.zones:
        there = frame.zone(zone.role)
        for item in names_of(replace(scene, zones=(zone,)), frame, (), (), style):
            x, right = there.x, there.x + there.width
            if frame.manner != "full":
                middle = item.rect.x + item.rect.width / 2
                column = next(c for c in there.columns if c.x <= middle <= c.x + c.width)
                x, right = column.x, column.x + column.width - 0.6
            else:
                right = _first_end(there)
            rect = letters(item)
            if there.low:  # it stands beside numbers
                x, right = rect.x, rect.right
            found.append(NumberPlace(rect, min(rect.x, x + 0.6), max(rect.right, right - 0.6)))
    return found


def _first_end(zone: ZoneFrame) -> float:
    """Return where the first column ends: past it a name would seem that of what comes there."""
    first = min(zone.columns, key=lambda column: column.x)
    return first.x + first.width


def beside_arrows(item: Item, room: tuple[float, float], boxes: Sequence[Rect]) -> Item:
    """Return ``item`` beside ``boxes`` in ``room``; where it was, over them, if there is none."""
    rect = letters(item)
    place = NumberPlace(rect, room[0], max(room[1], rect.right))
    left, _ = place.aside(boxes)
    if left is not None:
        return item._replace(rect=item.rect.moved(left - rect.x, 0))
    assert isinstance(item.content, Line)
    return item._replace(content=item.content._replace(over=True))


def letters(item: Item) -> Rect:
    """Return where the letters of a line are: its rectangle has a leading above them."""
    assert isinstance(item.content, Line)
    size, middle = item.content.size, item.rect.y + item.content.base - 0.35 * item.content.size
    return Rect(item.rect.x, middle - 0.45 * size, item.rect.width, 0.9 * size)


def _inside(
    zone: ZoneScene,
    there: ZoneFrame,
    boxes: Sequence[Rect],
    pieces: Sequence[Rect],
    frame: MatFrame,
    style: Style,
) -> list[Item]:
    """Return a bare zone's name in one of its columns, below its pieces, if there is room.

    The tens' is the first where the zone is high, else that of the ones.
    """
    setting, heights = settings(style.look).least, frame.heights
    pad = 0.6 * heights.digits
    low = there.y + there.height - pad
    free = there.height - heights.heads - pad - 10 * frame.unit
    high = free > 0.9 * setting.size and len(there.columns) > 1
    first = 1 if high else 0
    found: list[Item] = []
    for place in (first, *(k for k in range(len(there.columns)) if k != first)):
        column = there.columns[place]
        right = column.x + column.width - 1.2
        item = placed_line(zone.name, setting, right, low - setting.lead / 2, "right")
        if item.rect.x < column.x + 0.5:
            continue
        clear = beside_arrows(item, (column.x + 0.5, right), (*boxes, *pieces))
        assert isinstance(clear.content, Line)
        if not clear.content.over:
            return [clear]
        if place == first:
            found.append(beside_arrows(item, (column.x + 0.5, right), boxes))
    return found[:1]


def name_setting(style: Style) -> Setting:
    """Return how the name of a zone is set."""
    text = settings(style.look).text
    return text.sized(max(style.look.type_mm.least, 0.95 * text.size))
