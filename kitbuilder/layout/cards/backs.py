"""What stands on the back of a card, laid out: the columns, both parts as pieces, the check."""

from collections.abc import Iterator

from kitbuilder.design.style import Style
from kitbuilder.kit.card_records import Back, Card, FactCard, TaskCard
from kitbuilder.layout.cards.fronts import Face, frame, inside
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.block import EMPTY, Block, stack
from kitbuilder.layout.parts.columns import worked
from kitbuilder.layout.parts.contents import Rule
from kitbuilder.layout.parts.furniture import labelled, pictogram
from kitbuilder.layout.parts.settings import Setting, settings
from kitbuilder.layout.parts.split import split, split_unit
from kitbuilder.layout.parts.words import line, lines, wide
from kitbuilder.number import Pieces

DIGITS = (11.0, 10.0, 9.0, 8.0, 7.0, 6.0)
"""Sizes in mm of the digits of worked columns on a card: the first that fits."""

UNIT = (0.9, 2.2)
"""Least and most width in mm of a one in the pictures of both parts."""

_HEAD, _GAP = 9.0, 5.0


def back(card: Card, ink: Rect, style: Style) -> Face | None:
    """Return what stands on the back of ``card``: empty for no back, None if it does not fit."""
    inner = inside(ink)
    if inner is None:
        return None
    match card:
        case TaskCard() if card.back:
            face = _checked(card.back, inner, style)
        case FactCard() if card.steps:
            face = _steps(card.steps, inner, style)
        case _:
            return ()
    return None if face is None else (frame(ink), *face)


def _steps(steps: tuple[str, ...], inner: Rect, style: Style) -> Face | None:
    size = style.look.type_mm.numeral
    setting = Setting(size, 1.3 * size)
    if any(wide(text, setting) > inner.width for text in steps):
        return None
    said = stack(line(text, setting) for text in steps)
    if said.height > inner.height:
        return None
    return said.at(inner.x, inner.y + (inner.height - said.height) / 2)


def _checked(found: Back, inner: Rect, style: Style) -> Face | None:
    """The sum, its worked columns and exchanges, both parts as pieces, and the adding check."""
    sets = settings(style.look)
    title = line(str(found.sum), sets.child)
    note = line(found.adult, sets.least)
    if title.width + _HEAD + 2 > inner.width:
        return None
    top = list(title.at(inner.x, inner.y))
    top += pictogram("adult", _HEAD).at(inner.right - _HEAD, inner.y)
    if title.width + note.width + _HEAD + 6 <= inner.width:
        top += note.at(inner.right - _HEAD - 2 - note.width, inner.y + (_HEAD - note.height) / 2)
    y = inner.y + max(title.height, _HEAD) + 1.2
    top.append(Item("rule", Rect(inner.x, y, inner.width, 0.01), Rule("divider")))
    foot = lines(found.end, sets.text, inner.width)
    high = inner.bottom - foot.height - 2 - y - 2.5
    if high <= 10:
        return None
    room = Rect(inner.x, y + 2.5, inner.width, high)
    for body in _bodies(found, room, style):
        return (*top, *body, *foot.at(inner.x, inner.bottom - foot.height))
    return None


def _bodies(found: Back, room: Rect, style: Style) -> Iterator[Face]:
    """Yield what stands between a back's title and its foot, the largest digits first."""
    sets, least = settings(style.look), 1.3 * style.look.type_mm.least
    lying = room.width > room.height
    for size in (size for size in DIGITS if size >= least):
        columns = worked(found.columns, size, style)
        across = max(columns.width, 0.36 * room.width) if lying else room.width
        swaps = [lines(text, sets.text, across) for text in found.exchanges]
        left = stack((columns, stack(swaps)), 2.5)
        if left.width > room.width or left.height > room.height:
            continue
        if lying:
            x = room.x + across + _GAP
            rest = Rect(x, room.y, max(0.1, room.right - x), room.height)
        else:
            y = room.y + left.height + _GAP
            rest = Rect(room.x, y, room.width, max(0.1, room.bottom - y))
        parts = _parts(found, rest, style)
        if parts is not None:
            yield (*left.at(room.x, room.y), *parts)


def _parts(found: Back, area: Rect, style: Style) -> Face | None:
    """Both parts, each named above its pieces, and the check under them."""
    sets = settings(style.look)
    check = labelled(pictogram("push", sets.child.size), found.check, sets.child, 2.5)
    if check.width > area.width:
        smaller = sets.child.sized(sets.child.size * 0.72)
        check = labelled(pictogram("push", smaller.size), found.check, smaller, 2.0)
    each = (area.height - check.height - 2 * 2.0) / 2
    if check.width > area.width or each < 12:
        return None
    shown = (Pieces.of(found.sum.part), Pieces.of(found.sum.rest))
    names = [
        _named(text, n, style) for text, n in zip((found.part, found.rest), shown, strict=True)
    ]
    if each < max(name.height for name in names) + 1:
        return None
    left = max(name.width for name in names) + 4
    drawn: list[Block] = [EMPTY, EMPTY]
    if found.sum.places < 4:
        beside = area.width - left
        if beside < 10:
            return None
        unit = min(split_unit(pieces, beside, each - 1.5, UNIT[1]) for pieces in shown)
        if unit < UNIT[0]:
            return None
        drawn = [split(pieces, beside, each - 1.5, unit) for pieces in shown]
    items: list[Item] = []
    for number, (name, picture) in enumerate(zip(names, drawn, strict=True)):
        y = area.y + number * each
        items += name.at(area.x, y)
        items += picture.at(area.x + left, y)
    y = area.bottom - check.height
    items.append(Item("rule", Rect(area.x, y - 2.0, area.width, 0.01), Rule("divider")))
    items += check.at(area.x, y)
    return tuple(items)


def _named(text: str, pieces: Pieces, style: Style) -> Block:
    """Return what a part is called, quietly, and its number below."""
    sets = settings(style.look)
    number = sets.child.sized(0.9 * sets.child.size)
    name = line(text, sets.least)
    value = line(str(pieces.value), number)
    return Block(
        (*name.items, *value.at(0, name.height)),
        max(name.width, value.width),
        name.height + value.height,
    )
