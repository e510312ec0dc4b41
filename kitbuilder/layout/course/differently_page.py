"""For adults who learned another way: what it does, in pictures, and why pieces show exchange."""

from collections.abc import Iterator, Sequence

from kitbuilder.design.style import Style
from kitbuilder.layout.course.flowing import flowing
from kitbuilder.layout.model import Item, Rect, Sheet, SheetKind
from kitbuilder.layout.parts.block import Block, beside, row, stack
from kitbuilder.layout.parts.contents import Arrow, Fill, Panel, SmallPieces
from kitbuilder.layout.parts.furniture import Heading, pictogram, rule, step_number
from kitbuilder.layout.parts.settings import settings
from kitbuilder.layout.parts.sheet_area import GUTTER, SheetArea
from kitbuilder.layout.parts.words import line, lines, placed_line
from kitbuilder.layout.parts.written_columns import worked
from kitbuilder.layout.picture.piles import spots
from kitbuilder.number.course.schedule import LESSONS
from kitbuilder.number.written import columns

_BAR, _BETWEEN, _ONE = 15.0, 4.0, 5.6
# In mm: a bar's height, what is between two, and the width of a one.

_NARROW = 140.0
_WHOLE, _PART = LESSONS[0].whole, LESSONS[0].part


def differently_sheets(style: Style) -> Iterator[Sheet]:
    """Yield the page; on narrow paper its parts stand below each other.

    Equal adding was found surer (Murray, second-hand) and harder to explain (Brownell & Moser,
    second-hand), so no way is called better.
    """
    words, sets = style.words, settings(style.look)
    width = SheetArea.upright(style.paper).whole.width
    across = 2 if width > _NARROW * sets.text.size / 3.9 else 1
    each = (width - GUTTER * (across - 1)) / across
    first = [
        _part("equal", _bars(each, _equal(), style), each, style),
        _part("up", _bars(each, _counting_up(), style), each, style),
    ]
    second = [
        _part("show", _exchange(each, style), each, style),
        _home(each, style),
    ]
    pairs = [row(first, GUTTER), row(second, GUTTER)] if across > 1 else [*first, *second]
    face = 1.3 * sets.heading.size
    lead = lines(words("differently.lead"), sets.speech, width - face - 3.0)
    blocks = [beside(pictogram("right", face), lead, 3.0)]
    for pair in pairs:
        blocks += (rule(width), pair)
    heading = Heading("stage-written", words("title.differently"), ("adult",))
    yield from flowing(SheetKind.DIFFERENTLY, heading, blocks, style, 14.0)


def _part(key: str, picture: Block, width: float, style: Style) -> Block:
    """Return a heading, its picture, and what it shows."""
    words, sets = style.words, settings(style.look)
    slots = {"whole": _WHOLE, "part": _PART}
    told = [
        lines(said, sets.text, width) for said in words.lines(f"differently.{key}_lines", **slots)
    ]
    heading = lines(words(f"differently.{key}"), sets.heading, width)
    return stack((heading, picture, *told), 2.0).as_wide(width)


Bar = tuple[tuple[int, str, Fill], ...]
"""Lengths one after the other, each with what stands in it and how it is filled."""


def _equal() -> tuple[Bar, ...]:
    """Two numbers, then both of them ten more: their difference is as long as before."""
    rest = LESSONS[0].rest
    return (
        ((_PART, str(_PART), "paper"), (rest, "?", "accent_tint")),
        ((10, "+10", "tint"), (_PART, str(_PART), "paper"), (rest, "?", "accent_tint")),
    )


def _counting_up() -> tuple[Bar, ...]:
    """From the part to the next ten, by tens, and on to the whole."""
    to_ten = -_PART % 10
    ones = _WHOLE % 10
    tens = _WHOLE - ones - _PART - to_ten
    jumps: Bar = (
        (_PART, str(_PART), "paper"),
        (to_ten, f"+{to_ten}", "accent_tint"),
        (tens, f"+{tens}", "accent_tint"),
        (ones, f"+{ones}", "accent_tint"),
    )
    return (((_WHOLE, str(_WHOLE), "paper"),), jumps)


def _bars(width: float, bars: Sequence[Bar], style: Style) -> Block:
    """Return bars, each as long as its number; a short part's words stand under it."""
    setting = settings(style.look).text
    unit = width / (_WHOLE + 10)
    items: list[Item] = []
    y = 0.0
    for bar in bars:
        x, low = 0.0, y + _BAR
        for length, said, fill in bar:
            across = length * unit
            items.append(Item("bar", Rect(x, y, across, _BAR), Panel(fill, "write", 0.6)))
            word = placed_line(said, setting, x + across / 2, y + _BAR / 2, "centre")
            if word.rect.width > across - 1.0:
                middle = y + _BAR + setting.lead / 2
                word = placed_line(said, setting, x + across / 2, middle, "centre")
                low = max(low, y + _BAR + setting.lead)
            items.append(word)
            x += across
        y = low + _BETWEEN
    return Block(tuple(items), width, y - _BETWEEN)


def _exchange(width: float, style: Style) -> Block:
    """Return a ten, an arrow, the ten ones that cover it, and the sum with its marks."""
    high = 10 * _ONE
    ten = tuple(spot.scaled(_ONE) for spot in spots(1, 1, under=False))
    ones = tuple(spot.scaled(_ONE) for spot in spots(0, 10, under=False))
    tall, across = max(one.bottom for one in ones), max(one.right for one in ones)
    start, end = _ONE + 3.0, 0.34 * width
    way = Arrow(((0, high / 2), (end - start, high / 2)))
    box = Rect(end + 3.0, (high - tall) / 2, across, tall)
    written = worked(columns(LESSONS[0]), 2.4 * style.look.type_mm.adult, style)
    items = (
        Item("small_pieces", Rect(0, 0, _ONE, high), SmallPieces(ten, _ONE)),
        Item("arrow", Rect(start, 0, end - start, high), way),
        Item("small_pieces", box, SmallPieces(ones, _ONE, "new")),
        *written.at(width - written.width, (high - written.height) / 2),
    )
    return Block(items, width, high)


def _home(width: float, style: Style) -> Block:
    """Return what to do at home, step by step."""
    words, sets = style.words, settings(style.look)
    found = [line(words("differently.home"), sets.heading)]
    for number, said in enumerate(words.lines("differently.home_lines"), 1):
        square = step_number(number, style)
        told = lines(said, sets.text, width - square.width - 2.4)
        found.append(beside(square, told, 2.4))
    return stack(found, 7.0).as_wide(width)
