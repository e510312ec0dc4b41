"""What stands on the front of a card, laid out: a frame, a sum, what to do, columns to write in."""

from collections.abc import Iterator, Sequence
from itertools import product

from kitbuilder.design import metrics
from kitbuilder.design.style import Style
from kitbuilder.kit.card_records import (
    BlankCard,
    Card,
    FactCard,
    LabelCard,
    SaidCard,
    StoryCard,
    TaskCard,
)
from kitbuilder.layout.cards.said_front import said_face, story_face
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.block import Block, stack
from kitbuilder.layout.parts.contents import Dots, Line, Panel, Rule, SmallPieces
from kitbuilder.layout.parts.furniture import pictogram
from kitbuilder.layout.parts.settings import Setting, settings
from kitbuilder.layout.parts.words import line, lines, placed_line, wide
from kitbuilder.layout.parts.written_columns import Ruling, ruled
from kitbuilder.number import digits, written
from kitbuilder.number.exchange import exchanges

Face = tuple[Item, ...]

CORNER = 3.6
"""Radius of a card's frame, in mm."""

PAD = 3.6
"""Clear space in mm between a card's frame and what stands in it."""

PITCH = (12.0, 20.0)
"""Least and most width in mm of a column that a child writes in."""

NUMERALS = (1.25, 1.0, 0.85)
"""Sizes of the sum at the top of a card, in the look's numerals: the first that fits."""

_LINE_LEAD = (1.12, 1.8)
# Least and most from line to line of what is to be done, in sizes of type.

_WHOLE = (1.0, 0.92)
# Parts of their usual size that lines are tried at before one is broken.

_HEAD, _PITCH_STEP = 12.0, 0.75
_BELOW = 3.0
_ANSWER = 1.12
# Height of the box for the answer, in sizes of the child's type.

_BLANK = (10.0, 4.5)
# Least width in mm of a place to write a number of the adding check, and the room for a sign.

_OWN = ((3.0, 0.7), (2.2, 0.6))
# How far above a card's lower side the middle of its name stands, and the room it takes: in mm,
# or in sizes of its type where that is more.

HARDEST = 4
"""Dots that tell how hard a sum is."""

LONG = 24
"""Letters of the longest word that is never broken on a label."""

TASKS = {
    "pieces": ("build", "take", "exchange", "left", "push"),
    "both": ("build", "take", "exchange", "left", "push"),
    "drawn": ("stage-drawn", "take", "exchange", "left", "stage-written"),
}
"""The pictograms beside what is to be done, by stage."""


def front(card: Card, ink: Rect, style: Style) -> Face | None:
    """Return what stands on the front of ``card`` in ``ink``, or None where it does not fit."""
    inner = inside(ink)
    own = card.own if isinstance(card, TaskCard | BlankCard | FactCard) else ""
    high = _of_own(1, style)
    if inner is None or inner.height <= high:
        return None
    if own:
        inner = Rect(inner.x, inner.y, inner.width, inner.height - high)
    match card:
        case TaskCard(stage="written"):
            face = _written(card, inner, style)
        case TaskCard():
            face = _under(card, _title(str(card.sum), card, inner, style), inner, style)
        case BlankCard():
            face = _blank(card, inner, style)
        case FactCard():
            face = _fact(card, inner, style)
        case SaidCard():
            face = said_face(card, inner, style)
        case StoryCard():
            face = story_face(card, inner, style)
        case LabelCard():
            face = _label(card, inner, style)
    if face is None:
        return None
    return (frame(ink), *face, *(_owned(own, ink, style) if own else ()))


def _owned(own: str, ink: Rect, style: Style) -> tuple[Item, ...]:
    """Whose card it is and its number, small, along the lower side of the frame."""
    setting = settings(style.look).least
    room = ink.width - 2 * CORNER
    said = own if wide(own, setting) <= room else metrics.broken(own, setting.size, room)[0]
    y = ink.bottom - _of_own(0, style)
    return (placed_line(said, setting, ink.right - CORNER, y, "right"),)


def _of_own(which: int, style: Style) -> float:
    """Return how high a card's name stands, or the room it takes, in mm."""
    usual, ems = _OWN[which]
    return max(usual, ems * style.look.type_mm.least)


def inside(ink: Rect) -> Rect | None:
    """Return the room inside a card's frame, or None where there is none."""
    if min(ink.width, ink.height) <= 2 * PAD:
        return None
    return ink.inset(PAD)


def frame(ink: Rect) -> Item:
    """Return a card's frame."""
    return Item("card_frame", ink, Panel(line="write", radius=CORNER))


def hardness(card: TaskCard) -> int:
    """Return how hard a sum is, 1 to ``HARDEST``: places beyond two, exchanges, a crossed zero."""
    made, tops = exchanges(card.sum), digits(card.sum.whole, card.sum.places)
    crossed = any(tops[exchange.source] == 0 for exchange in made)
    return max(1, min(HARDEST, (card.sum.places > 2) + len(made) + crossed))


def _title(text: str, card: TaskCard | FactCard, inner: Rect, style: Style) -> Iterator[Block]:
    """Yield the top of a card, largest first: the sum, a child's face, and how hard it is."""
    for part in NUMERALS:
        size = part * style.look.type_mm.numeral
        said = line(text, Setting(size, 1.05 * size))
        if said.width + _HEAD + 4 > inner.width:
            continue
        items = list(said.items)
        high = max(said.height, _HEAD + 4.2)
        items += pictogram("child", _HEAD).at(inner.width - _HEAD, 0)
        if isinstance(card, TaskCard):
            box = Rect(inner.width - _HEAD, _HEAD + 1.0, _HEAD, 2.4)
            items.append(Item("dots", box, Dots(hardness(card), HARDEST)))
        high += 1.2
        items.append(Item("rule", Rect(0, high, inner.width, 0.01), Rule("divider")))
        yield Block(tuple(items), inner.width, high)


def _under(
    card: TaskCard | BlankCard, titles: Iterator[Block], inner: Rect, style: Style
) -> Face | None:
    """The first of ``titles`` under which what is to be done has room, with columns to write in.

    They stand beside the words, or below them on a card too narrow for that.
    """
    for title in titles:
        room = _below(inner, title)
        if room is None:
            continue
        if card.stage == "pieces":
            asked = _to_do(card, room, style, answer=True)
            if asked is not None:
                return (*title.at(inner.x, inner.y), *asked)
            continue
        for part, (columns, rest) in product((*_WHOLE, 0.0), _columns(card, room, style)):
            asked = _to_do(card, rest, style, answer=False, whole=part)
            if asked is not None:
                return (*title.at(inner.x, inner.y), *asked, *columns)
    return None


def _below(inner: Rect, title: Block) -> Rect | None:
    top = inner.y + title.height + _BELOW
    return Rect(inner.x, top, inner.width, inner.bottom - top) if top + 5 < inner.bottom else None


def _to_do(
    card: TaskCard | BlankCard, room: Rect, style: Style, *, answer: bool, whole: float = 0.0
) -> Face | None:
    """What to do, a pictogram beside each line; with ``answer`` a box to write what is left.

    ``whole`` is the part of the usual size at which no line is broken; for none some may be.
    """
    size = style.look.type_mm.child * (whole or 1.0)
    setting = Setting(size, _LINE_LEAD[0] * size)
    side = size
    left = 1.27 * size
    rows = []
    for name, text in zip(TASKS[card.stage], card.lines, strict=True):
        if any(wide(w, setting) > room.width - left for w in text.split()):
            return None
        said = lines(text, setting, room.width - left)
        if whole and len(said.items) > 1:
            return None
        picture = pictogram(name, side).at(0, (setting.lead - side) / 2)
        rows.append(Block((*picture, *said.at(left, 0)), room.width, said.height))
    need = sum(row.height for row in rows)
    if need > room.height + 1e-6:
        return None
    gap = min((_LINE_LEAD[1] - _LINE_LEAD[0]) * size, (room.height - need) / (len(rows) - 1))
    items = list(stack(rows, gap).at(room.x, room.y))
    if answer:
        items += _answer_box(card, rows, gap, room, size)
    return tuple(items)


def _answer_box(
    card: TaskCard | BlankCard, rows: Sequence[Block], gap: float, room: Rect, size: float
) -> list[Item]:
    """A box for the answer at the right of what is left, where there is room."""
    asked = TASKS[card.stage].index("left")
    y = room.y + sum(row.height + gap for row in rows[:asked])
    used = max(item.rect.right for item in rows[asked].items)
    across = (card.places + 0.8) * 0.75 * size
    if room.width - used < across + 3:
        return []
    high = _ANSWER * size
    box = Rect(room.right - across, y + (rows[asked].height - high) / 2, across, high)
    return [Item("answer_place", box, Panel("paper", "write", 1.4))]


def _columns(card: TaskCard | BlankCard, room: Rect, style: Style) -> Iterator[tuple[Face, Rect]]:
    """Yield where empty columns may stand, and what they leave of ``room`` for words."""
    places = card.places
    if isinstance(card, TaskCard):
        short = card.sum.short()
        places, style = short.places, style.counting(short.scale)
    empty = (None,) * places
    across, down = Ruling(card.headings).size(places)
    most = min(18.0, room.height / down, room.width / across)
    for step in range(int((most - PITCH[0]) / _PITCH_STEP) + 1 if most >= PITCH[0] else 0):
        found = ruled(empty, empty, Ruling(card.headings), most - step * _PITCH_STEP, style)
        if room.width >= room.height:
            x = room.right - found.width
            rest = Rect(room.x, room.y, max(0.1, x - _BELOW - room.x), room.height)
            yield found.at(x, room.y), rest
        y = room.bottom - found.height
        if y - _BELOW - room.y > 1:
            rest = Rect(room.x, room.y, room.width, y - _BELOW - room.y)
            yield found.at(room.x, y), rest


def _written(card: TaskCard, inner: Rect, style: Style) -> Face | None:
    """The columns alone, as large as they go, with the adding check below them."""
    sum_ = card.sum.short()
    setting = settings(style.look).text.quiet()
    check = 2.2 * setting.size
    room = Rect(inner.x, inner.y, inner.width, inner.height - check - 1.5)
    across, down = Ruling(card.headings).size(max(sum_.places, 3))
    pitch = min(PITCH[1], room.width / across, room.height / down)
    if pitch < PITCH[0]:
        return None
    bottoms = tuple(column.bottom for column in written.columns(sum_))
    tops, own = digits(sum_.whole, sum_.places), style.counting(sum_.scale)
    found = ruled(tops, bottoms, Ruling(card.headings), pitch, own)
    dots = Rect(inner.right - _HEAD, inner.y, _HEAD, 2.4)
    left, top = room.x + (room.width - found.width) / 2, room.y + (room.height - found.height) / 2
    if top < dots.bottom + 0.6:  # a low card has room for them above the sign alone
        dots = dots.moved(inner.x - dots.x, 0)
    items = list(found.at(left, top))
    items.append(Item("dots", dots, Dots(hardness(card), HARDEST)))
    items += _check_line(inner, setting, style)
    return tuple(items)


def _blank(card: BlankCard, inner: Rect, style: Style) -> Face | None:
    """Places for a sum of one's own, and what to do with it: or the columns alone, empty.

    They stand alone in writing, and where all the words have no room beside them.
    """
    if card.stage != "written":
        face = _under(card, own_sums(card.places, inner, style), inner, style)
        if face is not None or card.stage == "pieces":
            return face
    setting = settings(style.look).text.quiet()
    high = inner.height - 2.2 * setting.size - 1.5
    across, down = Ruling(card.headings).size(max(card.places, 3))
    pitch = min(PITCH[1], inner.width / across, high / down)
    if pitch < PITCH[0]:
        return None
    empty = (None,) * card.places
    found = ruled(empty, empty, Ruling(card.headings), pitch, style)
    x, y = inner.x + (inner.width - found.width) / 2, inner.y + (high - found.height) / 2
    own, room = style.words("free_card.dealt"), x - inner.x - _BELOW
    told = all(wide(word, setting) <= room for word in own.split())
    said = lines(own, setting, room).at(inner.x, inner.y) if told else ()
    return (*found.at(x, y), *said, *_check_line(inner, setting, style))


def own_sums(
    places: int, inner: Rect, style: Style, numerals: Sequence[float] = NUMERALS
) -> Iterator[Block]:
    """Yield the top of a card for a sum of one's own, largest first: two boxes and a minus."""
    for part in numerals:
        size = part * style.look.type_mm.numeral
        setting = Setting(size, 1.05 * size)
        box = (places * 0.62 + 0.3) * size
        minus = line("−", setting)
        gap = 0.15 * size
        second = box + minus.width + 2 * gap
        if second + box + _HEAD + 4 > inner.width:
            continue
        high = max(1.05 * size, _HEAD + 1.0)
        items = [
            Item("answer_place", Rect(x, 0, box, high - 1.0), Panel("paper", "write", 1.4))
            for x in (0.0, second)
        ]
        items += minus.at(box + gap, (high - 1.0 - minus.height) / 2)
        items += pictogram("child", _HEAD).at(inner.width - _HEAD, 0)
        items.append(Item("rule", Rect(0, high + 1.2, inner.width, 0.01), Rule("divider")))
        yield Block(tuple(items), inner.width, high + 1.2)


def _check_line(inner: Rect, setting: Setting, style: Style) -> list[Item]:
    """Blanks for the adding check along the foot of a card, beside its name.

    A pictogram stands there instead where the name would leave too little to write in.
    """
    y = inner.bottom - setting.lead / 2
    name: Sequence[Item] = (placed_line(style.words("card.check"), setting, inner.x, y),)
    sign, start = setting.sized(1.2 * setting.size), name[0].rect.right + 2.0
    if inner.right - start < 3 * _BLANK[0] + 2 * _BLANK[1]:
        side = 1.5 * setting.size
        name, start = pictogram("push", side).at(inner.x, y - side / 2), inner.x + side + 1.5
    each, gap = (inner.right - start - 2 * _BLANK[1]) / 3, _BLANK[1]
    items = [*name]
    for k in range(3):
        x = start + k * (each + gap)
        blank = Rect(x, y + 0.45 * setting.size, each, 0.01)
        items.append(Item("rule", blank, Rule("write")))
        if k < 2:
            items.append(placed_line("+="[k], sign, x + each + gap / 2, y, "centre"))
    return items


def _fact(card: FactCard, inner: Rect, style: Style) -> Face | None:
    """The fact, a double ten-frame at true size below it, and how to go on beside the frame."""
    unit = style.paper.unit_mm
    titles = list(_title(str(card.fact), card, inner, style))
    asking = [block for title in titles if (block := _asking(title, inner.width))]
    for title in asking or titles:
        room = _below(inner, title)
        wide_frames, high = 4 * unit + _BELOW, 5 * unit
        if room is None or high > room.height or wide_frames + 2 * _BELOW >= room.width:
            continue
        left = room.x + wide_frames + 2 * _BELOW
        size = style.look.type_mm.child
        setting = Setting(size, _LINE_LEAD[0] * size)
        across = room.right - left
        if any(wide(word, setting) > across for text in card.lines for word in text.split()):
            continue
        said = stack((lines(text, setting, across) for text in card.lines), 0.3 * size)
        if said.height > room.height:
            continue
        frames = [
            Rect(x + k // 5 * unit, room.y + k % 5 * unit, unit, unit)
            for x in (room.x, room.x + 2 * unit + _BELOW)
            for k in range(10)
        ]
        held = Rect(room.x, room.y, wide_frames, high)
        cells = tuple(r.moved(-held.x, -held.y) for r in frames)
        pieces = Item("frames", held, SmallPieces(cells, unit))
        return (*title.at(inner.x, inner.y), pieces, *said.at(left, room.y))
    return None


def _asking(title: Block, width: float) -> Block | None:
    """Return the title of a fact with a sign and a box for the answer, if there is room."""
    sum_ = title.items[0]
    assert isinstance(sum_.content, Line)
    size = sum_.content.size
    sign = placed_line(
        "=", Setting(size, size), sum_.rect.right + 0.5 * size, sum_.rect.y + sum_.rect.height / 2
    )
    box = Rect(sign.rect.right + 0.4 * size, sum_.rect.y + 0.1 * size, 1.3 * size, 0.85 * size)
    if box.right > width - _HEAD - 3:
        return None
    place = Item("answer_place", box, Panel("paper", "write", 1.4))
    return Block((*title.items, sign, place), title.width, title.height)


def _label(card: LabelCard, inner: Rect, style: Style) -> Face | None:
    """The name, large, and what the pack holds."""
    child, numeral = style.look.type_mm.child, style.look.type_mm.numeral
    setting = Setting(child, _LINE_LEAD[1] * child)
    if any(wide(text, setting) > inner.width - _HEAD - 3 for text in card.lines):
        return None
    counts = stack(line(text, setting) for text in card.lines)
    room = inner.height - counts.height - _BELOW
    for size in (numeral, (numeral + child) / 2, child):
        large = Setting(size, 1.2 * size)
        if max(map(len, card.name.split())) > LONG:
            parts = metrics.broken(card.name, size, inner.width)
            name = stack(line(part, large) for part in parts)
        elif any(wide(word, large) > inner.width for word in card.name.split()):
            continue
        else:
            name = lines(card.name, large, inner.width)
        if name.height <= room and name.width <= inner.width:
            return (
                *name.at(inner.x, inner.y),
                *counts.at(inner.x, inner.bottom - counts.height),
                *pictogram("child", _HEAD).at(inner.right - _HEAD, inner.bottom - _HEAD),
            )
    return None
