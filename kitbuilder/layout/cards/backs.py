"""What stands on the back of a card, laid out: the columns, both parts as pieces, the check."""

from collections.abc import Iterator, Sequence

from kitbuilder.design.style import Style
from kitbuilder.frozen import frozen
from kitbuilder.kit.card_records import Back, Card, FactCard, TaskCard
from kitbuilder.layout.cards.fronts import Face, frame, inside
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.block import EMPTY, Block, stack
from kitbuilder.layout.parts.contents import Rule
from kitbuilder.layout.parts.furniture import labelled, pictogram
from kitbuilder.layout.parts.settings import Setting, settings
from kitbuilder.layout.parts.words import line, lines, wide
from kitbuilder.layout.parts.written_columns import worked
from kitbuilder.layout.picture.split import split, split_unit
from kitbuilder.number import Pieces, Sum

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
    face = said.at(inner.x, inner.y + (inner.height - said.height) / 2)
    if said.width + 2 + _HEAD > inner.width:
        return face
    return (*face, *pictogram("adult", _HEAD).at(inner.right - _HEAD, inner.y))


def backs_fit(cards: Sequence[Card], ink: Rect, style: Style) -> bool:
    """Say whether the backs of ``cards``, whose words differ in digits alone, fit ``ink``.

    Only the first is laid out; of the others the pieces are measured.
    """
    inner, first = inside(ink), cards[0]
    if inner is None or not isinstance(first, TaskCard) or not first.back:
        return back(first, ink, style) is not None
    framed = _framed(first.back, inner, style)
    bodies = list(_bodies(first.back, framed[2], style)) if framed else []
    found = [card.back for card in cards if isinstance(card, TaskCard) and card.back]
    return all(any(_unit(one, body) for body in bodies) for one in found)


def _checked(found: Back, inner: Rect, style: Style) -> Face | None:
    """The sum, its worked columns and exchanges, both parts as pieces, and the adding check."""
    framed = _framed(found, inner, style)
    for body in _bodies(found, framed[2], style) if framed else ():
        if framed and (unit := _unit(found, body)):
            return (*framed[0], *body.left, *_parts(found, body, unit), *framed[1])
    return None


def _framed(found: Back, inner: Rect, style: Style) -> tuple[Face, Face, Rect] | None:
    """Return a back's title and its foot, and the room between them."""
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
    return tuple(top), foot.at(inner.x, inner.bottom - foot.height), room


@frozen
class _Body:
    """What stands between a back's title and its foot, but for the pieces.

    ``left`` are its columns and exchanges, ``area`` the room of both parts beside or below
    them; ``names`` stand there, the pieces ``x`` mm further in, ``each`` mm for one part.
    """

    left: Face
    area: Rect
    names: tuple[Block, ...]
    check: Block
    x: float
    each: float


def _bodies(found: Back, room: Rect, style: Style) -> Iterator[_Body]:
    """Yield what may stand between a back's title and its foot, the largest digits first."""
    sets, least = settings(style.look), 1.3 * style.look.type_mm.least
    lying = room.width > room.height
    for size in (size for size in DIGITS if size >= least):
        columns = worked(found.columns, size, style.counting(found.sum.short().scale))
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
        body = _body(found, left.at(room.x, room.y), rest, style)
        if body is not None:
            yield body


def _body(found: Back, left: Face, area: Rect, style: Style) -> _Body | None:
    """Return where both parts stand in ``area``, each named, and the check under them."""
    sets = settings(style.look)
    check = labelled(pictogram("push", sets.child.size), found.check, sets.child, 2.5)
    if check.width > area.width:
        smaller = sets.child.sized(sets.child.size * 0.72)
        check = labelled(pictogram("push", smaller.size), found.check, smaller, 2.0)
    each = (area.height - check.height - 2 * 2.0) / 2
    if check.width > area.width or each < 12:
        return None
    numbers = (found.sum.part, found.sum.rest)
    names = tuple(
        _named(text, n, style) for text, n in zip((found.part, found.rest), numbers, strict=True)
    )
    if each < max(name.height for name in names) + 1:
        return None
    return _Body(left, area, names, check, max(name.width for name in names) + 4, each)


def _undrawn(sum_: Sum) -> bool:
    """Say whether no piece is large enough for the whole: ten ones beside hundredths."""
    return sum_.places > 3 and sum_.scale.decimals > 0


def _shown(found: Back) -> tuple[Pieces, Pieces]:
    return Pieces.of(found.sum.part), Pieces.of(found.sum.rest)


def _unit(found: Back, body: _Body) -> float:
    """Return the width in mm of a one in the pictures of both parts, 0 where they do not fit."""
    if _undrawn(found.sum):
        return UNIT[1]  # nothing is drawn
    beside = body.area.width - body.x
    if beside < 10:
        return 0.0
    room = (beside, body.each - 1.5, UNIT[1])
    unit = min(split_unit(pieces, *room) for pieces in _shown(found))
    return unit if unit >= UNIT[0] else 0.0


def _parts(found: Back, body: _Body, unit: float) -> Face:
    """Both parts, each named above its pieces, and the check under them."""
    area, high = body.area, body.each - 1.5
    drawn: list[Block] = [EMPTY, EMPTY]
    if not _undrawn(found.sum):
        drawn = [split(pieces, area.width - body.x, high, unit) for pieces in _shown(found)]
    items: list[Item] = []
    for number, (name, picture) in enumerate(zip(body.names, drawn, strict=True)):
        y = area.y + number * body.each
        items += name.at(area.x, y)
        items += picture.at(area.x + body.x, y)
    y = area.bottom - body.check.height
    items.append(Item("rule", Rect(area.x, y - 2.0, area.width, 0.01), Rule("divider")))
    items += body.check.at(area.x, y)
    return tuple(items)


def _named(text: str, number: int, style: Style) -> Block:
    """Return what a part is called, quietly, and its number below."""
    sets = settings(style.look)
    large = sets.child.sized(0.9 * sets.child.size)
    name = line(text, sets.least)
    value = line(str(number), large)
    return Block(
        (*name.items, *value.at(0, name.height)),
        max(name.width, value.width),
        name.height + value.height,
    )
