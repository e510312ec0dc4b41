"""Fronts of cards that ask in words: a story with its bars, an addition to lay and push."""

from collections.abc import Iterator

from kitbuilder.design import metrics
from kitbuilder.design.style import Style
from kitbuilder.frozen import frozen
from kitbuilder.kit.card_records import SaidCard, StoryCard
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.block import Block, stack
from kitbuilder.layout.parts.contents import Arrow, Panel, Rule, SmallPieces
from kitbuilder.layout.parts.furniture import pictogram
from kitbuilder.layout.parts.settings import Setting, settings
from kitbuilder.layout.parts.words import fitted, lines, placed_line, wide
from kitbuilder.number import Sum

_FACE, _GAP = 11.0, 2.4
# Side of the child's face, and space between the parts of a card, in mm.

BAR, LEAST_BAR = 10.0, 6.2
"""Most and least height in mm of a bar."""

_APART, _TICK, _DROP = 1.6, 2.6, 4.6
# Between bars, of the ends of a bracket, and of the arrow below what is taken away, in mm.

_BRACKET = 1.6
# Height of a bracket over a bar, in sizes of an adult's type.

_SEEN = 0.3
# Least length of a dashed bar, in its heights.


def headed(name: str, heading: str, width: float, style: Style) -> Block | None:
    """Return the top of a card: a pictogram, its heading, a child's face, a line below.

    None where a word of the heading, or a sum in it, is too wide.
    """
    sets = settings(style.look)
    side = _FACE if name else 0.0
    size = min(style.look.type_mm.numeral, 1.25 * sets.child.size)
    setting = sets.title if name else Setting(size, size)
    least, room = 0.6 * setting.size, width - side - _FACE - 6
    parts = metrics.wrap(heading, least, 0.0, setting.family)
    if any(wide(part, setting.sized(least)) > room for part in parts):
        return None
    said = fitted(heading, setting, room, least)
    left = side + 2.5 if name else 0.0
    high = max(_FACE, said.height)
    items = list(said.at(left, (high - said.height) / 2))
    items += pictogram(name, side).at(0, (high - side) / 2) if name else ()
    items += pictogram("child", _FACE).at(width - _FACE, (high - _FACE) / 2)
    items.append(Item("rule", Rect(0, high + 1.0, width, 0.01), Rule("divider")))
    return Block(tuple(items), width, high + 1.0)


def _close(style: Style) -> Setting:
    """Return a child's type, its lines close."""
    size = settings(style.look).child.size
    return Setting(size, 1.12 * size)


def story_face(card: StoryCard, inner: Rect, style: Style) -> tuple[Item, ...] | None:
    """Return the story over its bars, whose lengths are the numbers; None where it is too long."""
    child = _close(style)
    if any(wide(word, child) > inner.width for word in card.text.split()):
        return None
    head = headed(f"story-{card.kind}", card.heading, inner.width, style)
    if head is None or any(
        wide(w, settings(style.look).text) > inner.width for w in card.foot.split()
    ):
        return None
    told = lines(card.text, child, inner.width)
    foot = lines(card.foot, settings(style.look).text, inner.width)
    fixed = head.height + told.height + foot.height + 2.5 * _GAP
    bars = _bars(card, inner.width, inner.height - fixed, style)
    if bars is None:
        return None
    spare = (inner.height - fixed - bars.height) / 3
    y = inner.y + head.height + _GAP / 2
    below = y + told.height + _GAP + spare
    return (
        *head.at(inner.x, inner.y),
        *told.at(inner.x, y + min(spare, 2.0)),
        *bars.at(inner.x, below),
        *foot.at(inner.x, inner.bottom - foot.height),
    )


@frozen
class _Scale:
    """How long a bar is: ``unit`` mm for each one; ``high`` mm high, in what language's type."""

    unit: float
    high: float
    style: Style

    @property
    def setting(self) -> Setting:
        """How numbers on bars are set."""
        size = max(self.style.look.type_mm.least, min(0.62 * self.high, 6.0))
        return Setting(size, size)

    def bar(self, count: int, x: float, y: float, said: str, *, out: bool = False) -> list[Item]:
        """A bar for ``count`` with its number on it, or right of it where it is too short."""
        box = Rect(x, y, count * self.unit, self.high)
        panel = Panel("accent_tint" if out else "paper", "write", 0.2)
        return [Item("bar", box, panel), self._said(said, box)]

    def unknown(self, count: int, x: float, y: float) -> list[Item]:
        """A dashed bar for what is asked; very few of thousands can still be seen."""
        box = Rect(x, y, max(count * self.unit, _SEEN * self.high), self.high)
        inside = SmallPieces((Rect(0, 0, box.width, box.height),), self.high, "needed")
        return [Item("small_pieces", box, inside), self._said("?", box)]

    def _said(self, said: str, box: Rect) -> Item:
        middle = box.y + box.height / 2
        if wide(said, self.setting) + 1.6 > box.width:
            return placed_line(said, self.setting, box.right + 1.2, middle)
        return placed_line(said, self.setting, box.x + box.width / 2, middle, "centre")


def _bars(card: StoryCard, width: float, room: float, style: Style) -> Block | None:
    """Return the bars of a story ``width`` mm wide and at most ``room`` high, or None."""
    fixed = _APART if card.kind != "take" else _BRACKET * style.look.type_mm.adult + _DROP
    rows = 1 if card.kind == "take" else 2
    high = min(BAR, (room - fixed) / rows)
    if high < max(LEAST_BAR, 1.5 * style.look.type_mm.least):
        return None
    sum_ = card.sum
    aside = 9.0 if min(sum_.part, sum_.rest) * width < 17.0 * sum_.whole else 0.0
    scale = _Scale((width - aside) / sum_.whole, high, style)
    made = {"take": _taken, "missing": _missing, "difference": _compared}[card.kind]
    return Block(tuple(made(sum_, scale)), width, rows * high + fixed)


def _taken(sum_: Sum, scale: _Scale) -> Iterator[Item]:
    """The whole in a bracket over one bar, of which the part leaves."""
    top = _BRACKET * scale.style.look.type_mm.adult
    long = sum_.whole * scale.unit
    y = top / 2
    setting = settings(scale.style.look).text
    said = placed_line(str(sum_.whole), setting, long / 2, y - 0.3, "centre")
    for x, end in ((0.0, said.rect.x - 1.2), (said.rect.right + 1.2, long)):
        yield Item("rule", Rect(x, y, end - x, 0.01), Rule("write"))
    for x in (0.0, long - 0.01):
        yield Item("rule", Rect(x, y - _TICK / 2, 0.01, _TICK), Rule("write"))
    yield said
    yield from scale.unknown(sum_.rest, 0.0, top)
    left = sum_.rest * scale.unit
    yield from scale.bar(sum_.part, left, top, str(sum_.part), out=True)
    middle, below = left + sum_.part * scale.unit / 2, top + scale.high
    arrow = Arrow(((0.0, 0.3), (0.0, _DROP)), size=0.8)
    yield Item("arrow", Rect(middle, below, 0.01, _DROP), arrow)


def _missing(sum_: Sum, scale: _Scale) -> Iterator[Item]:
    """The whole over what is left and the part that is asked."""
    y = scale.high + _APART
    yield from scale.bar(sum_.whole, 0.0, 0.0, str(sum_.whole))
    unknown = scale.unknown(sum_.part, sum_.rest * scale.unit, y)
    rest = scale.bar(sum_.rest, 0.0, y, str(sum_.rest))
    if rest[1].rect.x > sum_.rest * scale.unit:  # its number stands in the dashed bar
        unknown[1] = Item(
            "line", unknown[1].rect.moved(rest[1].rect.width / 2, 0), unknown[1].content
        )
    yield from (*unknown, *rest)


def _compared(sum_: Sum, scale: _Scale) -> Iterator[Item]:
    """The larger over the smaller, and how much more it is."""
    y = scale.high + _APART
    yield from scale.bar(sum_.whole, 0.0, 0.0, str(sum_.whole))
    part = scale.bar(sum_.part, 0.0, y, str(sum_.part))
    yield from part
    start = max(sum_.part * scale.unit, part[1].rect.right) + 1.0
    end, middle = sum_.whole * scale.unit, y + scale.high / 2
    asked = placed_line("?", scale.setting, (start + end) / 2, middle, "centre")
    if end - start < 14:
        yield placed_line("?", scale.setting, end + 1.2, middle)
        arrow = Arrow(((0.0, 0.0), (max(1.0, end - start), 0.0)), size=0.8)
        yield Item("arrow", Rect(start, middle, max(1.0, end - start), 0.01), arrow)
        return
    for here, there in ((asked.rect.x - 1.0, start), (asked.rect.right + 1.0, end)):
        x, long = min(here, there), abs(there - here)
        arrow = Arrow(((here - x, 0.0), (there - x, 0.0)), size=0.8)
        yield Item("arrow", Rect(x, middle, long, 0.01), arrow)
    yield asked


def said_face(card: SaidCard, inner: Rect, style: Style) -> tuple[Item, ...] | None:
    """Return what is to be done under its heading, each line beside its pictogram."""
    child = _close(style)
    side, left = child.size, 1.27 * child.size
    room = inner.width - left
    if any(wide(word, child) > room for text in card.lines for word in text.split()):
        return None
    head = headed("", card.heading, inner.width, style)
    if head is None:
        return None
    rows = []
    for name, text in zip(card.pictograms, card.lines, strict=True):
        said = lines(text, child, room)
        picture = pictogram(name, side).at(0, (child.lead - side) / 2)
        rows.append(Block((*picture, *said.at(left, 0)), inner.width, said.height))
    spare = inner.height - head.height - _GAP - sum(row.height for row in rows)
    if spare < 0:
        return None
    below = stack(rows, min(0.6 * child.size, spare / max(1, len(rows) - 1)))
    return (*head.at(inner.x, inner.y), *below.at(inner.x, inner.y + head.height + _GAP))
