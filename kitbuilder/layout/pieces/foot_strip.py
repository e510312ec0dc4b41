"""What stands on card that falls off: what to cut, and labels for envelopes."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from kitbuilder.design.style import Style
from kitbuilder.layout.cutting.cut_map import counted
from kitbuilder.layout.cutting.cut_marks import around, line_signs
from kitbuilder.layout.cutting.cut_plan import Count
from kitbuilder.layout.cutting.folded_pieces import FOLDED
from kitbuilder.layout.model import Item, Rect, Sheet
from kitbuilder.layout.packing.scissors_columns import Step
from kitbuilder.layout.parts.block import Block, beside, row, stack
from kitbuilder.layout.parts.contents import Line, Panel, Rule
from kitbuilder.layout.parts.settings import Setting, settings
from kitbuilder.layout.parts.words import fitted, line, lines
from kitbuilder.layout.picture.heaps import heaps
from kitbuilder.layout.printable import Page

_IN = 8.0
"""Clear space at the left and right of the strip, mm."""

_LETTER = 18.0
"""Width that the letter of the cut takes at the right, mm."""

_NOTE = 8.0
"""Height of the page's own note at the foot, mm."""

_LOW, _HIGH = 21.0, 50.0
"""The least and the most height of a label, mm."""

_CARD, _HIGHEST = 38.0, 80.0
"""Height below labels that holds a card, mm; where there is less, labels are so high at most."""

LARGEST = 2.6
"""The most width of a one in a label's picture, mm."""

_GAP, _PAD = 2.5, 3.0

_NARROW = 30.0
"""The least width of a label, mm."""


def with_foot_strips(
    sheets: Sequence[Sheet], bag: Sequence[Count], style: Style
) -> tuple[Sheet, ...]:
    """Return ``sheets`` with words on what falls off; the highest strip bears labels of ``bag``."""
    strips = [_strip(sheet, style) for sheet in sheets]
    heights = [strip.height if strip else 0.0 for strip in strips]
    labelled = heights.index(max(heights)) if bag and heights else -1
    made = []
    for index, (sheet, strip) in enumerate(zip(sheets, strips, strict=True)):
        own = bag if index == labelled else ()
        folds = any(item.what in FOLDED for item in sheet.items)
        items = _contents(strip, own, style, folds=folds) if strip else ()
        made.append(sheet.with_items(items))
    return tuple(made)


def with_labels(sheets: Sequence[Sheet], bag: Sequence[Count], style: Style) -> tuple[Sheet, ...]:
    """Return ``sheets`` of cards, labels of ``bag`` on the first that leaves room for them.

    They stand below the cards or else beside them, on what falls off.
    """
    made = list(sheets)
    for index, sheet in enumerate(made):
        for rest in rests(sheet, style):
            items = _labels_alone(rest, bag, style)
            if items:
                made[index] = sheet.with_items(items)
                return tuple(made)
    return tuple(made)


def rests(sheet: Sheet, style: Style) -> Iterator[Rect]:
    """Yield the printable card below a sheet's cards, and that at their right."""
    page = Page.turned if sheet.width > sheet.height else Page.upright
    inside = page(style.paper).inside
    cards = around([item.rect for item in sheet.items])
    end, right = inside.bottom - _NOTE, inside.right - _IN
    if end > cards.bottom:
        yield Rect(inside.x + _IN, cards.bottom, inside.width - 2 * _IN, end - cards.bottom)
    if right > cards.right + _IN:
        x = cards.right + _IN
        yield Rect(x, cards.y, right - x, min(cards.bottom, end) - cards.y)


def _labels_alone(rest: Rect, bag: Sequence[Count], style: Style) -> tuple[Item, ...]:
    """Return a line of words and labels on ``rest``, none where there is too little of it."""
    kinds = sum(bool(count.count) for count in bag)
    if not kinds or rest.width < _NARROW * kinds:
        return ()
    said = lines(style.words("scissors.rest_labels"), settings(style.look).text, rest.width)
    room = rest.height - said.height - 3 * _GAP
    if room < _LOW:
        return ()
    usual = room > _HIGH + _CARD
    labels = _labels(bag, rest.width, _HIGH if usual else min(room, _HIGHEST), style)
    return stack((said, labels), _GAP).at(rest.x, rest.y + _GAP)


def with_card_told(sheet: Sheet, count: int, style: Style) -> Sheet:
    """Return ``sheet`` whose words on what falls off tell of ``count`` cards beside labels too.

    Words that would take more lines are left as they are.
    """
    text, known = settings(style.look).text, style.words("scissors.rest_labels")
    told = line(style.words("scissors.rest_card" if count == 1 else "scissors.rest_cards"), text)
    room = max((item.rect.right for item in sheet.items if item.what == "label"), default=0.0)
    items: list[Item] = []
    for item in sheet.items:
        said = isinstance(item.content, Line) and item.content.text == known
        if said and item.rect.x + told.width <= max(room, sheet.width - item.rect.x):
            items += told.at(item.rect.x, item.rect.y)
        else:
            items.append(item)
    return replace(sheet, items=tuple(items))


def _strip(sheet: Sheet, style: Style) -> Rect | None:
    """Return the printable part of the foot of a sheet, or None where it has none below."""
    inside = Page.upright(style.paper).inside
    for stop, cut in zip(sheet.stops, sheet.cuts, strict=True):
        if stop == Step.FOOT and cut.y1 == cut.y2 and cut.y1 < inside.bottom - _NOTE:
            high = inside.bottom - _NOTE - cut.y1
            return Rect(inside.x + _IN, cut.y1, inside.width - 2 * _IN, high)
    return None


def _contents(strip: Rect, bag: Sequence[Count], style: Style, *, folds: bool) -> tuple[Item, ...]:
    """Return as much as has room: what to cut, then labels."""
    words, sets = style.words, settings(style.look)
    narrow = strip.width - _LETTER
    key = _key(narrow, style, folds=folds)
    used = key.height + _GAP
    blocks = [key]
    if strip.height < used + _GAP:
        return ()
    said = lines(
        words("scissors.strip_labels" if bag else "scissors.strip_falls"), sets.text, narrow
    )
    room = strip.height - used - said.height - 3 * _GAP
    if bag and room >= _LOW:
        blocks = [said, key, _labels(bag, strip.width, min(_HIGH, room), style)]
    return stack(blocks, _GAP).at(strip.x, strip.y + _GAP)


def _key(width: float, style: Style, *, folds: bool) -> Block:
    """Return what lines are cut, what lines never and, where there are some, what lines fold."""
    text = settings(style.look).text
    dark, grey = line_signs(5.0, 0.5, 3.6)
    dashed = Block((Item("rule", Rect(0, 2.5, 17, 0.01), Rule("to")),), 17, 5.0)
    cells = [
        row((sign, line(style.words(key), text)), 2.0)
        for sign, key in (
            (dark, "scissors.dark_short"),
            (grey, "scissors.grey"),
            *([(dashed, "scissors.dashed")] if folds else []),
        )
    ]
    whole = row(cells, 6.0)
    return whole if whole.width <= width else stack(cells, 0.5)


def _labels(bag: Sequence[Count], width: float, height: float, style: Style) -> Block:
    """Return a label for the envelope of each kind, side by side."""
    counts = [count for count in bag if count.count]
    across = min(64.0, (width - 2 * (len(counts) - 1)) / len(counts))
    child = settings(style.look).child
    setting = Setting(min(child.size, 0.34 * height), min(child.lead, 0.4 * height))
    room, least = across - 2 * _PAD, style.look.type_mm.least
    said = [fitted(counted((count,), style.words), setting, room, least) for count in counts]
    names = [name.as_wide(max(item.rect.right for item in name.items)) for name in said]
    ways = [_pictured(names, counts, (room, height - 2 * _PAD), low=low) for low in (False, True)]
    high = height - 2 * _PAD + 1e-6
    fits = (way for way in ways if all(b.width <= room and b.height <= high for b in way))
    labels = []
    for held in next(fits, ways[0]):
        frame = Block((Item("label", Rect(0, 0, across, height), Panel()),), across, height)
        labels.append(frame.over(Block(held.at(_PAD, _PAD), across, height)))
    return row(labels, 2.0)


def _pictured(
    names: Sequence[Block], counts: Sequence[Count], room: tuple[float, float], *, low: bool
) -> list[Block]:
    """Return each of ``names`` in its ``room``, its pieces below or, where that is low, beside."""
    width, high = room
    rooms = [
        (width - name.width - 2.0, high) if low else (width, high - name.height - 1.0)
        for name in names
    ]
    pictures = heaps([(count.what, count.count) for count in counts], rooms, LARGEST)
    if not low:
        return [stack(both, 1.0) for both in zip(names, pictures, strict=True)]
    found = []
    for name, picture in zip(names, pictures, strict=True):
        both = beside(name, picture, max(2.0, width - name.width - picture.width))
        down = max(0.0, (high - both.height) / 2)
        found.append(Block(both.at(0, down), both.width, down + both.height))
    return found
