"""Turns a card into what stands on its front: lines of words, layouts and frames."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from kitbuilder.design import metrics
from kitbuilder.design.load import Look
from kitbuilder.kit.card_records import Card, FactCard, LabelCard, SaidCard, TaskCard
from kitbuilder.layout.model import Item, Rect
from kitbuilder.number import digits
from kitbuilder.number.written import Column

LEADING = (1.12, 1.5)
"""Least and best spacing of what is said on a card, as multiples of the size of type."""

WRAPPED = 1.05
"""Line spacing within one thing said."""

DESCENT = 0.25
"""Depth of type below its line, as a part of its size."""

WRITTEN = 1.3
"""Least size of the digits of written columns, in sizes of the marks above them."""

PITCH = (12.0, 20.0)
"""Least and most width in mm of a column that a child writes in."""

SIGN = 0.8
"""Width of a layout's sign column, in columns."""

BELOW = 3.0
"""Space in mm between parts of a card."""

LONG = 24
"""Letters of the longest word that is never broken on a label."""

ACCENT = 0.25
"""Height of accents above capitals, as a part of the size of type."""

AFTER_SUM = (10.0, 8.0, 6.0, 4.5)
"""Spaces in mm between the sum at the top of a card and what stands below: the first that fits."""

OWN_GAP = 2.0
"""Space in mm below the name on a pupil's card."""

FRAME_GAP = 3.0
"""Space in mm between the two ten-frames."""

Face = tuple[Item, ...]


@dataclass(frozen=True, slots=True)
class Line:
    """One line of words, ``size`` mm of the em; its item's rectangle ends at the baseline."""

    text: str
    size: float


@dataclass(frozen=True, slots=True)
class Layout:
    """A column layout to write in, ones first: printed digits (or None), headings, pitch in mm."""

    tops: tuple[int | None, ...]
    bottoms: tuple[int | None, ...]
    headings: tuple[str, ...]
    pitch: float


@dataclass(frozen=True, slots=True)
class Worked:
    """Written columns with their marks, in digits of ``size`` mm."""

    columns: tuple[Column, ...]
    size: float


@dataclass(frozen=True, slots=True)
class Frames:
    """Ten-frames to lay ones on, at true size, in mm from the item's top left."""

    rects: tuple[Rect, ...]


def worked_size(columns: int, size: float) -> tuple[float, float]:
    """Return the width and height in mm of written columns with digits of ``size`` mm."""
    return (columns + 1) * 1.35 * size, 5.2 * size


def written_digits(usual: float, look: Look) -> float:
    """Return the size in mm of an adult's written columns: ``usual``, or what the marks ask."""
    return max(usual, WRITTEN * look.type_mm.least)


def layout_size(columns: int, headed: bool, pitch: float) -> tuple[float, float]:
    """Return the width and height in mm of a layout: headings, two marks, three rows."""
    return (columns + SIGN) * pitch, (5.1 if headed else 4.4) * pitch


def front(card: Card, ink: Rect, look: Look, unit: float) -> Face | None:
    """Return what stands on the front of ``card`` in ``ink``, or None where it does not fit."""
    match card:
        case TaskCard(own=str(own)) | FactCard(own=str(own)) if own:
            return _owned(card, own, ink, look, unit)
        case TaskCard() if card.day:
            return _dated(card, ink, look, unit)
        case TaskCard(stage="written"):
            return _written(card, ink, look)
        case TaskCard():
            return _asked(card, ink, look)
        case FactCard():
            faces = (_fact(card, ink, look, unit, after) for after in AFTER_SUM)
            return next((face for face in faces if face is not None), None)
        case SaidCard():
            return _told(card, ink, look)
        case LabelCard():
            return _label(card, ink, look)


def _owned(card: TaskCard | FactCard, own: str, ink: Rect, look: Look, unit: float) -> Face | None:
    """Whose card it is, small along the upper edge, and the card below it."""
    size = look.type_mm.least
    above = metrics.digit_height(size) + OWN_GAP
    if ink.height <= above:
        return None
    name = line_of(metrics.broken(own, size, ink.width)[0], size, ink.x, ink.y + above - OWN_GAP)
    below = Rect(ink.x, ink.y + above, ink.width, ink.height - above)
    face = front(replace(card, own=""), below, look, unit)
    return None if face is None else (name, *face)


def _dated(card: TaskCard, ink: Rect, look: Look, unit: float) -> Face | None:
    """The day in an adult's type, and the card below it."""
    size = look.type_mm.adult
    day = line_of(card.day, size, ink.x, ink.y + metrics.digit_height(size))
    above = 1.4 * size
    if ink.height <= above or day.rect.width > ink.width:
        return None
    below = Rect(ink.x, ink.y + above, ink.width, ink.height - above)
    face = front(replace(card, day=""), below, look, unit)
    return None if face is None else (day, *face)


def stacked(said: tuple[str, ...], size: float, area: Rect) -> Face | None:
    """Return what is ``said`` one below the other from the top of ``area``, or None if too much.

    What is wider than the area is broken into lines. The things said are as far apart as the
    area allows, within bounds; the lines of one stand closer.
    """
    groups = [metrics.wrap(text, size, area.width) for text in said]
    lines = [line for group in groups for line in group]
    if any(metrics.width(line, size) > area.width + 1e-6 for line in lines):
        return None
    baseline = area.y + metrics.digit_height(size)
    inner = WRAPPED * size
    room = area.bottom - DESCENT * size - baseline - inner * (len(lines) - len(groups))
    step = min(LEADING[1] * size, room / max(1, len(groups) - 1))
    if room < 0 or (len(groups) > 1 and step < LEADING[0] * size):
        return None
    placed = []
    for group in groups:
        for line in group:
            placed.append(line_of(line, size, area.x, baseline))
            baseline += inner
        baseline += step - inner
    return tuple(placed)


def line_of(text: str, size: float, x: float, baseline: float) -> Item:
    """Return a line of words that starts at ``x`` on ``baseline``, mm."""
    above = metrics.digit_height(size)
    rect = Rect(x, baseline - above, max(metrics.width(text, size), 0.01), above)
    return Item("line", rect, Line(text, size))


def _headed(text: str, size: float, ink: Rect, after: float) -> tuple[Item, Rect] | None:
    """Return ``text`` at the top of ``ink``, and the room from ``after`` mm below it."""
    line = line_of(text, size, ink.x, ink.y + metrics.digit_height(size))
    below = line.rect.bottom + after
    if line.rect.width > ink.width or below >= ink.bottom:
        return None
    return line, Rect(ink.x, below, ink.width, ink.bottom - below)


def _asked(card: TaskCard, ink: Rect, look: Look) -> Face | None:
    """The sum on one line, what to do below it, and a layout if it is to be written too.

    The layout stands beside the words, or below them on a card too narrow for that.
    """
    tops = [_headed(str(card.sum), look.type_mm.numeral, ink, after) for after in AFTER_SUM]
    heads = [top for top in tops if top is not None]
    if not heads:
        return None
    child, title = look.type_mm.child, heads[0][0]
    if card.stage not in ("both", "drawn"):
        stacks = (stacked(card.lines, child, room) for _, room in heads)
        return next(((title, *asked) for asked in stacks if asked is not None), None)
    for layout, rest in _layouts(card, title.rect, ink):
        for _, room in heads:
            left = rest.common(room)
            asked = stacked(card.lines, child, left) if left else None
            if asked is not None:
                return (title, *asked, layout)
    return None


def _layouts(card: TaskCard, title: Rect, ink: Rect) -> Iterator[tuple[Item, Rect]]:
    """Yield where an empty layout may stand, and what it leaves of ``ink`` for words.

    On a lying card it is beside them if it can be, on a standing one below, in all of a pack.
    """
    places = card.sum.places
    empty = (None,) * places
    pitch = min(14.0, ink.height / layout_size(places, bool(card.headings), 1)[1])
    width, height = layout_size(places, bool(card.headings), pitch)
    face = Layout(empty, empty, card.headings, pitch)
    if pitch < PITCH[0] or width > ink.width:
        return
    if ink.width >= ink.height and ink.width - width - BELOW >= title.width:
        beside = Item("layout", Rect(ink.right - width, ink.y, width, height), face)
        yield beside, Rect(ink.x, ink.y, ink.width - width - 2 * BELOW, ink.height)
    below = Item("layout", Rect(ink.x, ink.bottom - height, width, height), face)
    if ink.height > height + BELOW:
        yield below, Rect(ink.x, ink.y, ink.width, ink.height - height - BELOW)


def _written(card: TaskCard, ink: Rect, look: Look) -> Face | None:
    """The column layout alone, as large as it goes."""
    places, headed = card.sum.places, bool(card.headings)
    across, down = layout_size(max(places, 3), headed, 1)
    pitch = min(PITCH[1], ink.width / across, ink.height / down)
    if pitch < PITCH[0]:
        return None
    lower = len(str(card.sum.part))
    bottoms = tuple(d if k < lower else None for k, d in enumerate(digits(card.sum.part, places)))
    layout = Layout(digits(card.sum.whole, places), bottoms, card.headings, pitch)
    width, height = layout_size(places, headed, pitch)
    left, top = ink.x + (ink.width - width) / 2, ink.y + (ink.height - height) / 2
    return (Item("layout", Rect(left, top, width, height), layout),)


def _fact(card: FactCard, ink: Rect, look: Look, unit: float, after: float) -> Face | None:
    """The fact, a double ten-frame at true size below it, and how to go on beside the frame."""
    top = _headed(str(card.fact), look.type_mm.numeral, ink, after)
    if top is None:
        return None
    title, room = top
    high = 2 * unit
    if high * 2 + FRAME_GAP > room.height + 1e-6 or 5 * unit + 2 * BELOW >= room.width:
        return None
    frames = tuple(Rect(0, i * (high + FRAME_GAP), 5 * unit, high) for i in (0, 1))
    left = room.x + 5 * unit + 2 * BELOW
    beside = Rect(left, room.y, room.right - left, room.height)
    child = look.type_mm.child
    said = stacked(card.lines, child, beside)
    held = Rect(room.x, room.y, 5 * unit, 2 * high + FRAME_GAP)
    return None if said is None else (title, Item("frames", held, Frames(frames)), *said)


def _told(card: SaidCard, ink: Rect, look: Look) -> Face | None:
    """The heading, what is told in a child's type, and at the foot how to go on."""
    child, size = look.type_mm.child, look.type_mm.adult
    foot_lines = [line for text in card.foot for line in metrics.wrap(text, size, ink.width)]
    high = len(foot_lines) * 1.3 * size + (BELOW if foot_lines else 0.0)
    if ink.height <= high:
        return None
    room = Rect(ink.x, ink.y, ink.width, ink.height - high)
    foot = tuple(
        line_of(text, size, ink.x, ink.bottom - (len(foot_lines) - 1 - k) * 1.3 * size - 0.3 * size)
        for k, text in enumerate(foot_lines)
    )
    largest = look.type_mm.numeral if card.heading[:1].isdigit() else 1.2 * child
    for heading in (largest, child, 0.8 * child):
        for after in AFTER_SUM:
            top = _headed(card.heading, heading, room, after)
            said = stacked(card.lines, child, top[1]) if top else None
            if top and said is not None:
                return (top[0], *said, *foot)
    return None


def _label(card: LabelCard, ink: Rect, look: Look) -> Face | None:
    """The name, large, and what the pack holds."""
    numeral, child = look.type_mm.numeral, look.type_mm.child
    below = LEADING[1] * child * len(card.lines)
    if ink.height <= below + BELOW:
        return None
    held = Rect(ink.x, ink.y, ink.width, ink.height - below - BELOW)
    foot = Rect(ink.x, held.bottom + BELOW, ink.width, below)
    for size in (numeral, (numeral + child) / 2, child):
        above = ACCENT * size
        room = Rect(held.x, held.y + above, held.width, max(0.1, held.height - above))
        lines: tuple[str, ...] = (card.name,)
        if max(map(len, card.name.split())) > LONG:
            lines = metrics.broken(card.name, size, room.width)
        name = stacked(lines, size, room)
        counts = stacked(card.lines, child, foot)
        if name is not None and counts is not None:
            return (*name, *counts)
    return None
