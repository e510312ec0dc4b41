"""The pages for a guillotine: stop by stop, what to stack, where to cut, how to set the stop."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from kitbuilder.design.style import Style
from kitbuilder.frozen import frozen
from kitbuilder.kit import phrases
from kitbuilder.layout.bag import Bag
from kitbuilder.layout.cutting.cut_map import CutMap, counted
from kitbuilder.layout.cutting.exploded import BEYOND, blade
from kitbuilder.layout.cutting.line_segments import Segment, beyond, outline, slanting
from kitbuilder.layout.cutting.stack_corners import corners
from kitbuilder.layout.cutting.stack_order import Line, Panel, Stop
from kitbuilder.layout.mat.join_notes import lettered_joins
from kitbuilder.layout.model import Item, Rect, Sheet, SheetKind
from kitbuilder.layout.parts.block import Block, alike, row, stack, without_rules
from kitbuilder.layout.parts.contents import Hatch, Rule
from kitbuilder.layout.parts.contents import Panel as Frame
from kitbuilder.layout.parts.furniture import (
    Heading,
    cut_letter,
    header,
    in_rows,
    letter_side,
    paper_sheets,
    pictogram,
    rule,
)
from kitbuilder.layout.parts.settings import settings
from kitbuilder.layout.parts.sheet_area import GUTTER, SheetArea
from kitbuilder.layout.parts.words import lines, placed_line, wide

SCALES = (0.6, 0.54, 0.48, 0.42, 0.36, 0.33, 0.3, 0.29, 0.27, 0.25, 0.22, 0.2, 0.18, 0.16, 0.14)
"""Sizes of the pictures, as parts of the true size: the largest that saves no page is taken."""

SMALL = (6.0, 30.0)
"""A small part is drawn this wide or this long (mm) at least, so that it can be seen."""

MOST = (0.5, 0.4)
"""The most width and height of a picture, as parts of the page's room."""

APART = 0.6
"""Space between two discs, mm."""

_GAP, _WIDEST, _AIR, _SLANT = 3.0, 4.0, 12.0, 2.2

_TICK, _LEAST_TICK, _BESIDE = 4.0, 1.6, 2.4
# Most and least side of a tick on what comes out finished, and its side where it stands below, mm.

_LARGER = (1.0, 1.2, 1.4, 1.6, 1.8, 2.0)
# How many times larger a picture is tried that has too little room for its corners.

_HAIR = 0.01
# What differs by less, in mm, is the same.

_HAND = 5.0
# Side of the scissors at a line that no clamp can hold, mm.


@frozen
class _Size:
    """How large pictures are, as a part of the true size; what parts hold is ``drawn`` or not.

    It takes no room of its own, and is drawn once the size is chosen.
    """

    scale: float
    drawn: bool = False


def stack_pages(
    cut: CutMap, bag: Bag, style: Style, mats: Sequence[Sheet] = ()
) -> tuple[Sheet, ...]:
    """Return the pages on cutting ``cut`` in stacks; ``bag`` says what goes into each bag.

    ``mats`` are all sheets of mats, those that are cut with their letters.
    """
    if not cut.sheets:
        return ()
    area = SheetArea.upright(style.paper)
    words = style.words
    note = words("stacks.note", layers=cut.layers)
    top, y = header(Heading("scissors", words("title.cutting"), ("adult",), note), area, style)
    room = area.body(y)
    last = _last(cut, bag, room.width, style, mats)

    def blocks(size: _Size) -> list[Block]:
        return [*_blocks(cut, room, style, size), *last]

    scale = min(SCALES, key=lambda each: _count(blocks(_Size(each)), room))
    pages = _paged(blocks(_Size(scale, drawn=True)), room)
    return paper_sheets(SheetKind.CUTTING, top, pages, area, style)


def _count(blocks: Sequence[Block], room: Rect) -> int:
    return len(alike(blocks, room.height, _GAP))


def _paged(blocks: Sequence[Block], room: Rect) -> Iterator[tuple[Item, ...]]:
    """Yield the items of pages that hold ``blocks``, filled alike, spare height shared."""
    for page in alike(blocks, room.height, _GAP):
        shown = without_rules(page)
        spare = room.height - sum(b.height for b in shown) - _GAP * (len(shown) - 1)
        gap = _GAP + max(0.0, min(_AIR, spare / len(shown)))
        yield stack(shown, gap).at(room.x, room.y)


def _blocks(cut: CutMap, room: Rect, style: Style, size: _Size) -> list[Block]:
    """Return how a stack is cut, and the stops."""
    words, sets = style.words, settings(style.look)
    how = [lines(words("stacks.how"), sets.text, room.width)]
    if any(line.by_hand for stop in cut.stops for panel in stop.panels for line in panel.lines):
        by_hand = lines(words("stacks.by_hand"), sets.text, room.width - 2 * _HAND)
        how.append(row((pictogram("scissors", _HAND), by_hand), _HAND / 3))
    if any(one.kept for one in cut.sheets):
        how.append(lines(words("stacks.blank"), sets.text, room.width))
    if any(panel.turned for stop in cut.stops for panel in stop.panels):
        how.append(lines(words("stacks.turn"), sets.text, room.width))
    told = stack(how, 0.8)
    found = [told, rule(room.width)]
    small: list[Block] = []
    for stop in cut.stops:
        rows = _stop(stop, room, style, size)
        if len(rows) == 1:
            small += rows
            continue
        found += [*_rows(small, room.width), *rows]
        small = []
    return [*found, *_rows(small, room.width)]


def _last(cut: CutMap, bag: Bag, width: float, style: Style, mats: Sequence[Sheet]) -> list[Block]:
    """Return what is done with what is cut."""
    words, sets = style.words, settings(style.look)
    found, said = [rule(width)], []
    if joined := [*lettered_joins(mats, style)]:
        told = lines(words("stacks.glue"), sets.text, width)
        found.append(stack((told, row(joined, GUTTER)), 2.0))
    if bag.pieces or bag.things:
        held = (*bag.pieces, *bag.things)
        said.append(words("stacks.bag", things=" · ".join(held)))
    said += bag.beside
    if cut.plan and any(count.count for count in cut.plan.spares):
        said.append(words("cutting.spares", pieces=counted(cut.plan.spares, words)))
    found += [lines(text, sets.text, width) for text in said]
    return [*found, lines(words("stacks.care"), sets.least, width)]


def _rows(blocks: Sequence[Block], width: float) -> list[Block]:
    return in_rows(blocks, width, GUTTER, _WIDEST * GUTTER)


def _stop(stop: Stop, room: Rect, style: Style, size: _Size) -> list[Block]:
    """Return one stop: what to stack and how often to cut, and rows of pictures of its parts."""
    text = settings(style.look).text
    told = _told(stop, style)
    pictures = [_picture(panel, stop, room, style, size) for panel in stop.panels]
    across = max(sum(p.width + GUTTER for p in pictures) - GUTTER, max(wide(t, text) for t in told))
    across = min(across, room.width)
    first, *rest = _rows(pictures, across)
    said = [lines(line, text, across) for line in told]
    return [stack((*said, first), 1.5), *rest]


def _told(stop: Stop, style: Style) -> tuple[str, ...]:
    words = style.words
    whole = all(panel.whole for panel in stop.panels)
    held = words.count("count.sheet" if whole else "count.part", stop.parts)
    if stop.parts > 1:
        held = words("cutting.at_a_time", parts=held, layers=min(stop.layers, stop.parts))
    cuts = words.count("count.cut", stop.strokes)
    return held, words("cutting.each_line", cuts=cuts) if len(stop.numbers) > 1 else cuts


def _source(panel: Panel, stop: Stop, style: Style) -> str:
    """Return where parts of a picture come from, how many of several, how many to turn."""
    words = style.words
    names = panel.sheets
    name = phrases.joined(words, names) if len(names) < 4 else f"{names[0]} – {names[-1]}"
    if panel.whole:
        said = words("cutting.sheet", name=name, what=words(f"title.{panel.whole}"))
    else:
        said = words("cutting.of", name=name)
    if panel.turned:
        said = words("cutting.turned", source=said, count=panel.turned)
    many = len(stop.panels) > 1
    return words("cutting.share", count=panel.parts, source=said) if many else said


def _picture(panel: Panel, stop: Stop, room: Rect, style: Style, size: _Size) -> Block:
    """Return a part with its numbered lines, each with the length that stays under the clamp."""
    sets = settings(style.look)
    short, long = sorted((panel.width, panel.height))
    scale = max(size.scale, min(SMALL[0] / short, SMALL[1] / long))
    most = MOST[0] * room.width / panel.width, MOST[1] * room.height / panel.height
    scale = _clear(panel, room, min(scale, *most), style)
    width, height = panel.width * scale, panel.height * scale
    down, across = ([n for n in panel.lines if n.down == way] for way in (True, False))
    side = letter_side(style) + APART
    left, top = (BEYOND + (side if some else 0.0) for some in (across, down))
    black = corners(panel, scale, style)
    items = [*_part(panel, scale, black, style).at(left, top)] if size.drawn else []
    whole = Rect(0, 0, width, height)
    for line, end in (_ends(down, scale, style) | _ends(across, scale, style)).items():
        items += _line(line, end, (left, top), whole, scale, style)
    items += black.at(left, top)  # over the lines
    right = max((item.rect.right for item in items), default=left + width)
    bottom = max((item.rect.bottom for item in items), default=top + height)
    over = max(0.0, -min((item.rect.x for item in items), default=0.0))  # a length at the left
    picture = Block(tuple(items), max(right, left + width), max(bottom, top + height))
    picture = picture.moved(over, 0)
    said = lines(_source(panel, stop, style), sets.least, max(picture.width, 45.0))
    return stack((picture, said), 1.0)


def _part(panel: Panel, scale: float, black: Block, style: Style) -> Block:
    """Return the part before it is cut: what it holds, what falls off, what comes out finished.

    Ticks and words are clear of its ``black`` corners.
    """
    squares = [item.rect for item in black.items if item.what == "corner"]
    whole = Rect(0, 0, panel.width * scale, panel.height * scale)
    items = [Item("part", whole, Frame("paper", "bubble", 0.0))]
    for rect in [rect.scaled(scale) for rect in panel.falls]:
        items.append(Item("falls", rect, Frame("tint", "none", 0.0)))
        items.append(Item("hatch", rect, Hatch(slanting(rect.width, rect.height, _SLANT))))
    rects = [rect.scaled(scale) for rect in (*panel.inside, *panel.kept)]
    sides = [side for r in rects for side in outline(r.x, r.y, r.right, r.bottom)]
    others = [*outline(0, 0, whole.right, whole.bottom), *(_segment(n, scale) for n in panel.lines)]
    for x1, y1, x2, y2 in beyond(sides, others):
        rect = Rect(x1, y1, max(x2 - x1, 0.01), max(y2 - y1, 0.01))
        items.append(Item("inside", rect, Rule("divider")))
    for rect in (done.scaled(scale) for done in panel.done):
        spot = _clear_of(squares, rect) or _below(rect, whole)
        if spot:
            items += pictogram("right", spot.width).at(spot.x, spot.y)
    items += _kept([rect.scaled(scale) for rect in panel.kept], squares, style)
    return Block(tuple(items), whole.width, whole.height)


def _kept(cards: Sequence[Rect], squares: Sequence[Rect], style: Style) -> Iterator[Item]:
    """Yield the word on each of the ``cards`` that says to keep it, where there is room."""
    said, least = style.words("stacks.keep"), settings(style.look).least
    long = wide(said, least)
    for card in cards:
        x, y = card.x + card.width / 2, card.y + card.height / 2
        taken = Rect(x - long / 2, y - least.size / 2, long, least.size)
        if card.holds(taken) and not any(map(taken.overlaps, squares)):
            yield placed_line(said, least, x, y, "centre")


def _clear_of(squares: Sequence[Rect], rect: Rect) -> Rect | None:
    """Return where in ``rect`` a tick is clear of ``squares``: the largest, then the middle."""
    least = min(rect.width, rect.height)
    for share in (0.8, 0.65, 0.5, 0.4):
        side = min(_TICK, share * least)
        room = rect.width - side, rect.height - side
        for across, down in ((0.5, 0.5), (0.92, 0.5), (0.5, 0.92), (0.92, 0.92)):
            spot = Rect(rect.x + across * room[0], rect.y + down * room[1], side, side)
            if side >= _LEAST_TICK and not any(spot.overlaps(one) for one in squares):
                return spot
    return None


def _below(rect: Rect, whole: Rect) -> Rect | None:
    """Return the place of a tick below a part whose lowest piece ``rect`` is too thin for one."""
    if whole.bottom - rect.bottom > APART:
        return None
    return Rect(rect.x + (rect.width - _BESIDE) / 2, whole.bottom + APART, _BESIDE, _BESIDE)


def _segment(line: Line, scale: float) -> Segment:
    at, start, end = line.at * scale, line.start * scale, line.end * scale
    return (at, start, at, end) if line.down else (start, at, end, at)


@frozen
class _End:
    """Where a line's number and its length stand along the part, mm."""

    number: float
    length: float


def _ends(lines: Sequence[Line], scale: float, style: Style) -> dict[Line, _End]:
    """Return where the numbers and lengths of ``lines``, which all run one way, stand."""
    text = settings(style.look).text
    told = [wide(_stopped(line, style), text) if line.down else text.size for line in lines]
    said = [_HAND if line.by_hand else each for line, each in zip(lines, told, strict=True)]
    at = [line.at * scale for line in lines]
    numbers = _apart(at, letter_side(style) + APART)
    lengths = _apart(at, max(said, default=0.0) + APART)
    return {line: _End(*both) for line, *both in zip(lines, numbers, lengths, strict=True)}


def _apart(at: Sequence[float], room: float) -> list[float]:
    """Return places ``room`` mm apart or more, as near as can be to those wanted."""
    order = sorted(range(len(at)), key=lambda k: at[k])
    groups: list[list[int]] = []

    def start(group: Sequence[int]) -> float:
        first, middle = at[group[0]], sum(at[k] for k in group) / len(group)
        most = min(first, room / 2 - BEYOND)  # none leaves the picture
        return max(middle - room * (len(group) - 1) / 2, most)

    for k in order:
        groups.append([k])
        while len(groups) > 1 and start(groups[-2]) + room * len(groups[-2]) > start(groups[-1]):
            groups[-2:] = [groups[-2] + groups[-1]]
    found = {k: start(group) + room * n for group in groups for n, k in enumerate(group)}
    return [found[k] for k in range(len(at))]


def _clear(panel: Panel, room: Rect, scale: float, style: Style) -> float:
    """Return a scale at which each line's number stands at its own line; ``scale`` without room.

    Nor lies a corner beside the part, on what is said there.
    """
    side = letter_side(style) + APART + 0.01
    gaps = [
        b - a
        for down in (True, False)
        for a, b in pairwise(sorted(line.at for line in panel.lines if line.down == down))
    ]
    wanted = max((side / gap for gap in gaps), default=0.0)
    most = min(MOST[0] * room.width / panel.width, MOST[1] * room.height / panel.height)
    least = max(scale, min(wanted, most))
    larger = (times * least for times in _LARGER if times == 1 or times * least <= most)
    return next((one for one in larger if _holds_corners(panel, one, style)), least)


def _holds_corners(panel: Panel, scale: float, style: Style) -> bool:
    whole = Rect(0, 0, panel.width * scale, panel.height * scale)
    return all(whole.holds(item.rect) for item in corners(panel, scale, style).items)


def _line(
    line: Line, end: _End, corner: tuple[float, float], part: Rect, scale: float, style: Style
) -> list[Item]:
    """Return one line, its number at the left or top, its length at the right or foot."""
    side = letter_side(style)
    x, y = corner
    marks = _stroke(line, end, part.height if line.down else part.width, scale)
    if line.down:
        disc = cut_letter(str(line.number), style).at(x + end.number - side / 2, y - BEYOND - side)
        low = y + part.height + BEYOND + 0.5 * settings(style.look).text.lead
        told = _length(line, x + end.length, low, style)
        marks = [Item(what, Rect(r.y, r.x, r.height, r.width), rule) for what, r, rule in marks]
    else:
        disc = cut_letter(str(line.number), style).at(x - BEYOND - side, y + end.number - side / 2)
        told = _length(line, x + part.width + BEYOND + 1, y + end.length, style)
    return [*Block(tuple(marks), 0, 0).at(x, y), *disc, *told]


def _stroke(line: Line, end: _End, along: float, scale: float) -> list[Item]:
    """Return a line that lies, as long as its cut, and thin leads over waste to its number.

    Where the cut ends at the edge of the part, which is ``along`` mm long, it reaches beyond.
    """
    at, start, stop = line.at * scale, line.start * scale, line.end * scale
    near, far = (BEYOND if abs(to - at) < _HAIR else BEYOND / 2 for to in (end.number, end.length))
    first = start if start > _HAIR else -near
    last = stop if stop < along - _HAIR else along + far
    bent = *_led(at, end.number, -near, -BEYOND), *_led(at, end.length, along + far, along + BEYOND)
    over = [(low, high) for low, high in ((-near, first), (last, along + far)) if high > low]
    return [
        *(Item("lead", rect, Rule("cut")) for rect in bent),
        *(Item("lead", Rect(low, at, high - low, 0.01), Rule("snip")) for low, high in over),
        blade(first, at, last - first),
    ]


def _length(line: Line, x: float, y: float, style: Style) -> tuple[Item, ...]:
    """Return the length under the clamp, or scissors, below (x, y) or at its right."""
    if line.by_hand:
        left = x - _HAND / 2 if line.down else x
        return pictogram("scissors", _HAND).at(left, y - _HAND / 2)
    text = settings(style.look).text
    return (placed_line(_stopped(line, style), text, x, y, "centre" if line.down else "left"),)


def _stopped(line: Line, style: Style) -> str:
    return phrases.number(style.words, line.stop)


def _led(at: float, to: float, bend: float, end: float) -> list[Rect]:
    """Return the way from a line's end at ``bend`` to what stands beside it, ``to`` mm down."""
    if abs(to - at) < _HAIR:
        return []
    low, left = min(at, to), min(bend, end)
    return [Rect(bend, low, 0.01, abs(to - at)), Rect(left, to, abs(end - bend), 0.01)]
