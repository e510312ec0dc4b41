"""What stands round the steps of a page for tonight: the sum, what to do first, what helps."""

from collections.abc import Sequence

from kitbuilder.design.style import Style
from kitbuilder.frozen import frozen
from kitbuilder.kit import phrases
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.block import Block, beside, row, stack
from kitbuilder.layout.parts.contents import Line, Rule
from kitbuilder.layout.parts.furniture import TRUE_TEN, Foot, foot, pictogram, wrapped
from kitbuilder.layout.parts.legend import MARKS, Mark, legend, legend_row
from kitbuilder.layout.parts.settings import Setting, settings
from kitbuilder.layout.parts.sheet_area import FOOT, GUTTER, SheetArea
from kitbuilder.layout.parts.words import lines, placed_line, wide

_SUM = 12.0
"""Size of the sum, in mm."""

_HEAD, _SIDE = 10.0, 7.6
# Sides of the people at the top and of the pictograms of what is needed, in mm.


@frozen
class Top:
    """A page's title, its sum, what is done first beside its pictogram, and where it begins.

    ``needs`` are none on a later page; below them stands what ``marks`` of pictures mean.
    """

    title: str
    sum: str
    needs: tuple[tuple[str, str], ...]
    y: float
    marks: tuple[Mark, ...] = ()


def head_items(top: Top, area: SheetArea, style: Style) -> tuple[tuple[Item, ...], float]:
    """Return title, sum and what is done first, and the y at which the steps may begin."""
    sets, whole = settings(style.look), area.whole
    size = min(_SUM, 1.35 * sets.title.size)
    high = max(_HEAD, 0.86 * size)
    middle = top.y + high / 2
    title = placed_line(top.title, sets.title.sized(0.8 * sets.title.size), whole.x, middle)
    sum_ = placed_line(top.sum, Setting(size, size), title.rect.right + 3, middle)
    right = whole.right - 2 * _HEAD - 10
    items = [title, sum_]
    for k, head in enumerate(("adult", "child")):
        if sum_.rect.right + 3 <= right:
            items += pictogram(head, _HEAD).at(right + k * (_HEAD + 1), top.y)
    y = top.y + high + 0.6
    items.append(_line(whole, y))
    told = _told(top, whole.width, style)
    if not told:
        return tuple(items), y + 2.4
    block = stack(told, 1.4)
    items += block.at(whole.x, y + 1.4)
    y += block.height + 2.8
    items.append(_line(whole, y))
    return tuple(items), y + 1.6


def _told(top: Top, width: float, style: Style) -> list[Block]:
    """Return what is needed, and what marks mean: a few of them in a row with the last need."""
    if top.needs and 0 < len(top.marks) < len(MARKS):
        *others, last = top.needs
        side, text = _side(style), settings(style.look).text
        own = _need(last, min(width, side + 2.1 + wide(last[1], text)), side, style)
        means = [_as_high(legend_row(mark, style), own.height) for mark in top.marks]
        few = wrapped(means, width, 3.0, 0.4, 6.0)
        return [_needs(others, width, style), wrapped([own, few], width, 3.0, 0.4)]
    told = [_needs(top.needs, width, style)] if top.needs else []
    return told + ([legend(width, style)] if top.marks else [])


def _as_high(block: Block, high: float) -> Block:
    return Block(block.at(0, (high - block.height) / 2), block.width, high)


def _side(style: Style) -> float:
    """Return the side in mm of the pictogram of what is needed."""
    return max(_SIDE, 1.7 * settings(style.look).text.size)


def _line(whole: Rect, y: float) -> Item:
    return Item("rule", Rect(whole.x, y, whole.width, 0.01), Rule("rule"))


def _needs(needs: Sequence[tuple[str, str]], width: float, style: Style) -> Block:
    """Return pictograms with their words, side by side where they have room, else in rows.

    Side by side, what has more to say has more room.
    """
    text = settings(style.look).text
    side = _side(style)
    room = width - GUTTER * (len(needs) - 1) - len(needs) * (side + 2)
    long = [max(wide(said, text), sum(wide(s, text) for _, s in needs) / 5) for _, said in needs]
    shares = [room * own / sum(long) for own in long]
    fit = all(
        max(wide(word, text) for word in said.split()) <= share
        for (_, said), share in zip(needs, shares, strict=True)
    )
    if not fit or room + len(needs) * (side + 2) < 30 * text.size:
        return stack((_need(need, width, side, style) for need in needs), 1.0)
    cells = [
        _need(need, side + 2 + share, side, style)
        for need, share in zip(needs, shares, strict=True)
    ]
    return row(cells, GUTTER)


def _need(need: tuple[str, str], width: float, side: float, style: Style) -> Block:
    name, said = need
    text = settings(style.look).text
    return beside(pictogram(name, side), lines(said, text, width - side - 2), 2)


def foot_items(
    help_: Sequence[Block], where: str, area: SheetArea, style: Style
) -> tuple[tuple[Item, ...], float]:
    """Return what helps, and below it the page's foot, and the y above them.

    The foot says where the mat is; where its ten leaves no room, that stands above it.
    """
    sets, whole = settings(style.look), area.whole
    low = foot(Foot(where), area, style)
    said = {i.content.text for i in low if isinstance(i.content, Line)}
    beside = {where, phrases.length(style.words, "foot.long", TRUE_TEN)} <= said
    blocks = [*help_]
    if where and not beside:
        low = foot(Foot(), area, style)
        blocks.append(lines(where, sets.least, whole.width))
    block = stack(blocks)
    y = whole.bottom - FOOT - block.height - 0.6
    return (_line(whole, y - 1.0), *block.at(whole.x, y), *low), y - 2.0
