"""A metre to glue from four lengths: tens and ones lie on it as its tenths and hundredths."""

from collections.abc import Iterator

from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError
from kitbuilder.kit import phrases
from kitbuilder.layout.model import Cut, Item, Rect, Sheet, SheetKind
from kitbuilder.layout.parts.contents import Panel, Rule
from kitbuilder.layout.parts.furniture import Foot, Heading, foot, header
from kitbuilder.layout.parts.settings import settings
from kitbuilder.layout.parts.sheet_area import SheetArea
from kitbuilder.layout.parts.words import lines, placed_line, wide
from kitbuilder.layout.printable import Page

LENGTHS, LONG = 4, 250.0
"""How many lengths make the metre, and each one's in mm."""

GLUED = 10.0
"""Millimetres of a length's end that lie under the next one."""

ONE, TENTH = 10.0, 100.0
"""A hundredth and a tenth of a metre in mm: a one and a ten where a one is 10 mm wide."""

HIGH, _TENTHS, _HUNDREDTHS = 33.0, 9.0, 20.5
# Height of a length, and where on it the row of tenths and that of hundredths begin, in mm.


def metre_sheets(style: Style) -> tuple[Sheet, ...]:
    """Return the page of the metre, lying; its cuts run from edge to edge.

    Raises ``RefusedError`` where pieces have another size, or the paper is too small.
    """
    page = Page.turned(style.paper)
    area, inside, words = SheetArea.of(page), page.inside, style.words
    items, top = header(Heading("paper", words("metre.title"), ("adult",)), area, style)
    told = lines(words("metre.told"), settings(style.look).text, area.whole.width)
    top += told.height + 3.0
    high = LENGTHS * HIGH
    if inside.width < LONG + GLUED or area.body(top).height < high:
        raise RefusedError("metre.paper", option="metre", field="paper", paper=style.paper.name)
    if abs(style.unit - ONE) > 1e-6:
        raise RefusedError("metre.unit", option="unit", unit=style.unit)
    items = (*items, *told.at(area.whole.x, top - told.height - 3.0))
    left = inside.x + (inside.width - LONG - GLUED) / 2
    for k in range(LENGTHS):
        items = (*items, *_length(k, left, top + k * HIGH, style))
    ends = (left, left + LONG + GLUED)
    cuts = [Cut(0, top + k * HIGH, page.width, top + k * HIGH) for k in range(LENGTHS + 1)]
    cuts += [Cut(x, top, x, top + high) for x in ends]
    items = (*items, *foot(Foot(words("metre.foot")), area, style))
    return (Sheet(SheetKind.METRE, 1, "paper", page.width, page.height, items, tuple(cuts)),)


def _length(number: int, left: float, top: float, style: Style) -> Iterator[Item]:
    """Yield one length from its left end: numbers, tenths, hundredths, and where it is glued."""
    start = number * LONG
    row = top + _TENTHS
    for edge in _edges(start, TENTH):
        yield Item("rule", Rect(left + edge - start, row - 2, 0.01, ONE + 2), Rule("write"))
    for y in (row, row + ONE):
        yield Item("rule", Rect(left, y, LONG, 0.01), Rule("write"))
    row = top + _HUNDREDTHS
    for edge in _edges(start, ONE):
        yield Item("grid", Rect(left + edge - start, row, 0.01, ONE), Rule("grid"))
    for y in (row, row + ONE):
        yield Item("rule", Rect(left, y, LONG, 0.01), Rule("write"))
    yield from _numbers(start, left, top, style)
    end = Rect(left + LONG, top, GLUED, HIGH)
    if number < LENGTHS - 1:
        yield Item("panel", end, Panel("gone", "none", 0.0))
    yield Item("rule", Rect(end.x, top, 0.01, HIGH), Rule("dashed"))


def _edges(start: float, step: float) -> Iterator[float]:
    """Yield every multiple of ``step`` on the length that begins at ``start`` mm, its ends too."""
    first = -int(-start // step)
    last = int((start + LONG) // step)
    yield from (k * step for k in range(first, last + 1))


def _numbers(start: float, left: float, top: float, style: Style) -> Iterator[Item]:
    """Yield the numbers of the tenths, in metres; at an end inside it, on one length alone."""
    setting = settings(style.look).text
    for edge in _edges(start, TENTH):
        if edge == start + LONG and edge < LENGTHS * LONG:
            continue
        said = f"{phrases.number(style.words, edge / 1000)} m"
        half = wide(said, setting) / 2
        x = left + edge - start
        x = min(max(x, left + half + 1.0), left + LONG - half - 1.0)
        yield placed_line(said, setting, x, top + 4.2, "centre")
