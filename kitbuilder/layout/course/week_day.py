"""A day of a week in its frame: its sums with boxes to tick, its small facts."""

from kitbuilder.design.style import Style
from kitbuilder.kit.course.course_records import Asked, WeekDay
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.block import EMPTY, Block, row, stack
from kitbuilder.layout.parts.contents import Panel, Rule
from kitbuilder.layout.parts.furniture import pictogram, tick
from kitbuilder.layout.parts.settings import Setting, growth, settings
from kitbuilder.layout.parts.words import capital, fitted, line, lines, wide

MOST_SUMS = 3
"""Sums in one row of a day."""

MOST_CHECKED = 4
"""The same where a day has more, as the check has: it has no boxes for how it was helped."""

PAD, STAGE_SIDE = 2.6, 7.4
"""The space inside a day's frame, and the side of a stage's pictogram, in mm."""

_NAME, _SMALLEST, _CLEAR, _APART = 0.15, 0.5, 1.4, 4.0
# The share of the width for a day's name, less in large type; the least share of a child's type
# that a sum is printed in so that a day's stand in one row; what stays clear between the boxes of
# two sums, and between a sum and the next one's stage, mm.


def framed(block: Block) -> bool:
    """Say whether ``block`` is a day."""
    return any(item.what == "day" for item in block.items)


def grown(day: Block, more: float) -> Block:
    """Return ``day`` ``more`` mm higher: its frame and lines grow, the rest stays in the middle."""
    items = []
    for item in day.items:
        rect = item.rect
        if item.what in ("day", "between"):
            grown = Rect(rect.x, rect.y, rect.width, rect.height + more)
            items.append(Item("panel" if item.what == "day" else "rule", grown, item.content))
        else:
            items.append(Item(item.what, rect.moved(0, more / 2), item.content))
    return Block(tuple(items), day.width, day.height + more)


def day_block(day: WeekDay, width: float, pad: float, style: Style) -> Block:
    """Return a day in its frame: its name, its sums with boxes to tick, how it was helped.

    What it holds stands ``pad`` mm inside at top and foot. Where a day has many they are done
    alone.
    """
    sets = settings(style.look)
    inner = width - 2 * PAD
    many = len(day.sums) > MOST_SUMS
    helped = EMPTY if many else _helped(inner, style)
    small = sets.heading.sized(0.8 * sets.heading.size)
    widest = (
        *(wide(w, sets.text) for w in day.note.split()),
        *(wide(w, small) for w in day.title.split()),
    )
    named = max(_NAME * inner / growth(style.look) ** 2, *widest)
    name = stack(
        (
            fitted(day.title, sets.heading, named, 0.8 * sets.heading.size),
            lines(day.note, sets.text, named) if day.note else EMPTY,
        ),
        0.6,
    )
    middle = _sums(day, inner - named - helped.width - (2 if many else 4) * PAD, style)
    high = max(name.height, middle.height, helped.height)
    x = PAD + named + 2 * PAD
    right = width - PAD - helped.width
    lines_at = (x,) if many else (x, right)
    whole = Rect(0, 0, width, high + 2 * pad)
    items = [
        Item("day", whole, Panel("none", "zone", 2.2)),
        *(Item("between", Rect(at - PAD, pad, 0.01, high), Rule("divider")) for at in lines_at),
        *name.at(PAD, pad + (high - name.height) / 2),
        *middle.at(x, pad + (high - middle.height) / 2),
        *helped.at(right, pad + (high - helped.height) / 2),
    ]
    return Block(tuple(items), width, whole.height)


def _helped(width: float, style: Style) -> Block:
    """Return how a day's sums were done, to tick."""
    return stack((tick(label, width, style) for label in style.words.lines("week.helped")), 0.8)


def _sums(day: WeekDay, width: float, style: Style) -> Block:
    """Return a day's sums, two or three a row, with its small facts below them."""
    words, sets = style.words, settings(style.look)
    widest = max((wide(str(asked.sum), sets.child) for asked in day.sums), default=1.0)
    most = MOST_SUMS if len(day.sums) <= MOST_SUMS else MOST_CHECKED
    across = min(most, max(2, len(day.sums)))
    ticked = _ticks(width, style).width + _CLEAR
    taken = STAGE_SIDE + 2.0 + _APART  # the last of a row needs nothing after it
    while across > 1 and (width + _APART) / across < taken + _SMALLEST * widest:
        across -= 1
    while across > 2 and width / across < ticked:
        across -= 1
    each = (width + _APART) / across
    size = min(1.0, (each - taken) / widest) * sets.child.size
    clear = _APART - _CLEAR
    cells = [_asked(asked, each - clear, sets.child.sized(size), style) for asked in day.sums]
    rows = [row(cells[k : k + across], clear) for k in range(0, len(cells), across)]
    facts = EMPTY
    if day.facts:
        side = sets.text.lead
        said = lines(words("week.facts", facts=day.facts), sets.text, width - side - 1.4)
        sign = pictogram("facts", side).items
        facts = Block((*sign, *said.at(side + 1.4, 0)), width, said.height)
    return stack((stack(rows, 1.6), facts), 1.6)


def _asked(asked: Asked, width: float, setting: Setting, style: Style) -> Block:
    """Return a sum with its stage before it and boxes to tick below."""
    sum_ = line(str(asked.sum), setting)
    high = max(STAGE_SIDE, capital(setting))
    stage = pictogram(f"stage-{asked.stage}", STAGE_SIDE).at(0, (high - STAGE_SIDE) / 2)
    top = Block((*stage, *sum_.at(STAGE_SIDE + 2.0, (high - sum_.height) / 2)), width, high)
    boxes = _ticks(width, style)
    at = min(STAGE_SIDE + 2.0, max(0.0, width - _CLEAR - boxes.width))
    return stack((top, boxes.moved(at, 0)), 1.0).as_wide(width)


def _ticks(width: float, style: Style) -> Block:
    """Return the boxes to tick of a sum, beside each other where ``width`` allows it."""
    labels = [tick(label, width, style) for label in style.words.lines("week.ticks")]
    beside = row(labels, 2.0)
    return beside if beside.width <= width else stack(labels, 0.4)
