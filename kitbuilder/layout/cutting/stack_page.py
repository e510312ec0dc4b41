"""The pages for a guillotine: stop by stop, what to stack, where to cut, how to set the stop."""

from collections.abc import Iterator, Sequence

from kitbuilder.design.style import Style
from kitbuilder.kit import phrases
from kitbuilder.layout.bag import Bag
from kitbuilder.layout.cutting.cut_lines import Segment, beyond, outline
from kitbuilder.layout.cutting.cut_map import CutMap, counted
from kitbuilder.layout.cutting.exploded import BEYOND, blade
from kitbuilder.layout.cutting.stack_order import Line, Panel, Stop
from kitbuilder.layout.model import Item, Rect, Sheet, SheetKind
from kitbuilder.layout.parts.block import Block, row, stack
from kitbuilder.layout.parts.contents import NumberSquare, Rule
from kitbuilder.layout.parts.contents import Panel as Frame
from kitbuilder.layout.parts.furniture import (
    Heading,
    cut_letter,
    header,
    letter_side,
    paper_sheets,
    pictogram,
    rule,
)
from kitbuilder.layout.parts.settings import settings
from kitbuilder.layout.parts.sheet_area import GUTTER, SheetArea
from kitbuilder.layout.parts.words import lines, placed_line, wide

SCALES = (0.3, 0.25, 0.22, 0.2, 0.18, 0.16, 0.14)
"""Sizes of the pictures, as parts of the true size: the largest that saves no page is taken."""

SMALL = (6.0, 30.0)
"""A small part is drawn this wide or this long (mm) at least, so that it can be seen."""

CORNER = 4.0
"""Most side of the black corner at which a stack is knocked square, mm."""

APART = 0.6
"""Space between two discs, mm."""

_GAP = 3.0


def stack_pages(cut: CutMap, bag: Bag, style: Style) -> tuple[Sheet, ...]:
    """Return the pages on cutting ``cut`` in stacks; ``bag`` says what goes into each bag."""
    if not cut.sheets:
        return ()
    area = SheetArea.upright(style.paper)
    words = style.words
    note = words("stacks.note", layers=cut.layers)
    top, y = header(Heading("scissors", words("stacks.title"), ("adult",), note), area, style)
    room = area.body(y)
    ways = [list(_paged(_blocks(cut, bag, room, style, scale), room)) for scale in SCALES]
    pages = min(ways, key=len)
    return paper_sheets(SheetKind.CUTTING, top, pages, area, style)


def _paged(blocks: Sequence[Block], room: Rect) -> Iterator[tuple[Item, ...]]:
    page: list[Block] = []
    for block in blocks:
        if page and sum(b.height + _GAP for b in page) + block.height > room.height:
            yield stack(page, _GAP).at(room.x, room.y)
            page = []
        page.append(block)
    if page:
        yield stack(page, _GAP).at(room.x, room.y)


def _blocks(cut: CutMap, bag: Bag, room: Rect, style: Style, scale: float) -> list[Block]:
    words, sets = style.words, settings(style.look)
    found = [lines(words("stacks.how"), sets.text, room.width), rule(room.width)]
    small: list[Block] = []
    for stop in cut.stops:
        rows = _stop(stop, cut.layers, room, style, scale)
        if len(rows) == 1:
            small += rows
            continue
        found += [*_rows(small, room.width), *rows]
        small = []
    found += _rows(small, room.width)
    found.append(rule(room.width))
    said = []
    if bag.pieces or bag.things:
        held = (*bag.pieces, *bag.things)
        said.append(words("stacks.bag", things=phrases.joined(words, held)))
    said += bag.beside
    if cut.plan and any(count.count for count in cut.plan.spares):
        said.append(words("cutting.spares", pieces=counted(cut.plan.spares, words)))
    found += [lines(text, sets.text, room.width) for text in said]
    return [*found, lines(words("stacks.care"), sets.least, room.width)]


def _rows(blocks: Sequence[Block], width: float) -> list[Block]:
    """Return ``blocks`` in rows no wider than ``width``, a thin line between two rows."""
    rows: list[list[Block]] = []
    for block in blocks:
        if rows and sum(b.width + GUTTER for b in rows[-1]) + block.width <= width:
            rows[-1].append(block)
        else:
            rows.append([block])
    return [row(some, GUTTER) for some in rows]


def _stop(stop: Stop, layers: int, room: Rect, style: Style, scale: float) -> list[Block]:
    """Return one stop: what to stack and how often to cut, and rows of pictures of its parts."""
    text = settings(style.look).text
    told = _told(stop, layers, style)
    pictures = [_picture(panel, stop, room, style, scale) for panel in stop.panels]
    across = max(sum(p.width + GUTTER for p in pictures) - GUTTER, max(wide(t, text) for t in told))
    across = min(across, room.width)
    first, *rest = _rows(pictures, across)
    said = [lines(line, text, across) for line in told]
    return [stack((*said, first), 1.5), *rest]


def _told(stop: Stop, layers: int, style: Style) -> tuple[str, ...]:
    words = style.words
    whole = all(panel.whole for panel in stop.panels)
    held = words.count("count.sheet" if whole else "count.part", stop.parts)
    if stop.parts > 1:
        held = words("cutting.at_a_time", parts=held, layers=min(layers, stop.parts))
    cuts = words.count("count.cut", stop.strokes)
    return held, words("cutting.each_line", cuts=cuts) if len(stop.numbers) > 1 else cuts


def _source(panel: Panel, stop: Stop, style: Style) -> str:
    """Return where the parts of a picture come from, and how many where there are others."""
    words = style.words
    names = panel.sheets
    name = phrases.joined(words, names) if len(names) < 4 else f"{names[0]} – {names[-1]}"
    if panel.whole:
        said = words("cutting.sheet", name=name, what=words(f"title.{panel.whole}"))
    else:
        said = words("cutting.of", name=name)
    many = len(stop.panels) > 1
    return words("cutting.share", count=panel.parts, source=said) if many else said


def _picture(panel: Panel, stop: Stop, room: Rect, style: Style, scale: float) -> Block:
    """Return a part with its numbered lines, each with the length that stays under the clamp."""
    sets = settings(style.look)
    short, long = sorted((panel.width, panel.height))
    scale = max(scale, min(SMALL[0] / short, SMALL[1] / long))
    most = 0.5 * room.width / panel.width, 0.3 * room.height / panel.height
    scale = min(scale, *most)
    width, height = panel.width * scale, panel.height * scale
    part = _part(panel, scale)
    ends = [_end(line, scale, style) for line in panel.lines]
    both = list(zip(panel.lines, ends, strict=True))
    left = _leveled([end for line, end in both if not line.down], letter_side(style))
    top = _leveled([end for line, end in both if line.down], letter_side(style))
    items = [*part.at(left, top)]
    for line, end in both:
        items += _line(line, end, (left, top), (width, height), scale, style)
    side = min(CORNER, 0.5 * width, 0.5 * height)
    items.append(Item("corner", Rect(left, top, side, side), NumberSquare()))  # over the lines
    right = max((item.rect.right for item in items), default=left + width)
    bottom = max((item.rect.bottom for item in items), default=top + height)
    picture = Block(tuple(items), max(right, left + width), max(bottom, top + height))
    said = lines(_source(panel, stop, style), sets.least, max(picture.width, 45.0))
    return stack((picture, said), 1.0)


def _part(panel: Panel, scale: float) -> Block:
    """Return the part before it is cut: what it holds, what falls off, what comes out finished."""

    def placed(rect: Rect) -> Rect:
        return Rect(rect.x * scale, rect.y * scale, rect.width * scale, rect.height * scale)

    whole = Rect(0, 0, panel.width * scale, panel.height * scale)
    items = [Item("part", whole, Frame("paper", "bubble", 0.0))]
    items += [Item("falls", placed(rect), Frame("tint", "none", 0.0)) for rect in panel.falls]
    rects = [*map(placed, panel.inside)]
    sides = [side for r in rects for side in outline(r.x, r.y, r.right, r.bottom)]
    others = [*outline(0, 0, whole.right, whole.bottom), *(_segment(n, scale) for n in panel.lines)]
    for x1, y1, x2, y2 in beyond(sides, others):
        rect = Rect(x1, y1, max(x2 - x1, 0.01), max(y2 - y1, 0.01))
        items.append(Item("inside", rect, Rule("divider")))
    for rect in map(placed, panel.done):
        side = min(4.0, 0.8 * min(rect.width, rect.height))
        if side >= 1.6:
            x, y = rect.x + (rect.width - side) / 2, rect.y + (rect.height - side) / 2
            items += pictogram("right", side).at(x, y)
    return Block(tuple(items), whole.width, whole.height)


def _segment(line: Line, scale: float) -> Segment:
    at, start, end = line.at * scale, line.start * scale, line.end * scale
    return (at, start, at, end) if line.down else (start, at, end, at)


class _End:
    """Where a line's number and its length stand: how far from the part, in levels."""

    def __init__(self, at: float, room: float) -> None:
        self.at = at
        self.room = room
        self.level = 0


def _end(line: Line, scale: float, style: Style) -> _End:
    text = settings(style.look).text
    said = wide(f"{line.kept:g}", text)
    return _End(line.at * scale, max(letter_side(style), said if line.down else text.size) + APART)


def _leveled(ends: Sequence[_End], side: float) -> float:
    """Give ends that lie close a level each; return the room that all of them take, mm."""
    taken: list[_End] = []
    for end in sorted(ends, key=lambda end: end.at):
        while any(
            o.level == end.level and abs(o.at - end.at) < max(o.room, end.room) for o in taken
        ):
            end.level += 1
        taken.append(end)
    levels = max((end.level + 1 for end in ends), default=0)
    return BEYOND + levels * (side + APART)


def _line(
    line: Line,
    end: _End,
    corner: tuple[float, float],
    size: tuple[float, float],
    scale: float,
    style: Style,
) -> list[Item]:
    """Return one line, its number at the left or top, its length at the right or foot."""
    text = settings(style.look).text
    side = letter_side(style)
    out = BEYOND + end.level * (side + APART)
    said = f"{line.kept:g}"
    along = size[1] if line.down else size[0]
    start, stop = line.start * scale, line.end * scale
    first, last = min(start, -out) if start < along / 3 else start, max(stop, along + BEYOND)
    x, y = corner
    if line.down:
        at = x + end.at
        disc = cut_letter(str(line.number), style).at(at - side / 2, y - out - side)
        low = y + along + BEYOND + (end.level + 0.5) * text.lead
        return [
            blade(at, y + first, last - first, down=True),
            *disc,
            placed_line(said, text, at, low, "centre"),
        ]
    at = y + end.at
    disc = cut_letter(str(line.number), style).at(x - out - side, at - side / 2)
    aside = x + along + BEYOND + 1 + end.level * (wide("888", text) + 1)
    return [blade(x + first, at, last - first), *disc, placed_line(said, text, aside, at)]
