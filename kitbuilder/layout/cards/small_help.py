"""How arrow cards and loose digits are laid, on what is left of their sheets."""

from collections.abc import Sequence
from itertools import accumulate

from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.block import EMPTY, Block, row, stack
from kitbuilder.layout.parts.contents import Arrow, Outline, Rule
from kitbuilder.layout.parts.settings import Setting, settings
from kitbuilder.layout.parts.sheet_area import SheetArea
from kitbuilder.layout.parts.speech import speech
from kitbuilder.layout.parts.words import lines, placed_line

_PITCH, _HIGH, _TIP, _DIGIT = 7.2, 10.8, 3.6, 7.4
# Of the small pictures of cards, in mm.

_GAP = 8.0

_MUCH, _LARGER, _WIDE, _WIDE_DECIMAL = 110.0, 1.9, 99.0, 146.0
# From how much height on in mm digits are shown larger, how much at most, and how wide a picture
# of two sums is at their size, of whole numbers and of decimals.

_SLID = 0.65
# Which part of a card shows at the left of the one that lies half on it.

_UPPER = 0.4
# Which part of much spare height is above.


def beside_arrows(room: Rect, area: SheetArea, style: Style) -> tuple[Item, ...]:
    """Return how arrow cards are laid on each other, from ``room`` down, if it has the height."""
    sets, words = settings(style.look), style.words
    blocks = [
        lines(words("small_cards.lay"), sets.heading, room.width),
        stack([_arrow(parts) for parts in (("300",), ("40",), ("5",))], 1.6),
        _down(),
        _arrow(("3", "4", "5")),
        speech("adult", words("small_cards.asks"), room.width, style),
        lines(words("small_cards.none"), sets.text, room.width),
        _arrow(("30", "5")),
    ]
    cut = lines(words("small_cards.cut_first"), sets.text, room.width)
    ways = (stack(some, 4.0) for some in ((cut, *blocks), blocks))
    below = area.body(0).bottom
    found = next((way for way in ways if room.y + way.height <= below), EMPTY)
    return found.at(room.x, room.y)


def below_arrows(room: Rect, style: Style) -> tuple[Item, ...]:
    """Return the same below the cards, side by side, if there is room."""
    cards = stack([_arrow(parts) for parts in (("300",), ("40",), ("5",))], 1.6)
    laid, high = _arrow(("3", "4", "5")), cards.height
    middle = Block(laid.at(0, (high - laid.height) / 2), laid.width, high)
    picture = row((cards, _across(high), middle), 3.0)
    keys = ("small_cards.lay", "small_cards.asks", "small_cards.none")
    found = _beside(picture, keys, room, style)
    cut = lines(style.words("small_cards.cut_first"), settings(style.look).text, room.width)
    y = max((item.rect.bottom for item in found), default=room.y) + 2.0
    if y + cut.height <= room.bottom:
        found = (*found, *cut.at(room.x, y))
    return found


def below_digits(room: Rect, style: Style) -> tuple[Item, ...]:
    """Return how a sum is laid with loose digits, below them, if there is room."""
    ahead, scale, wide = ("", "", ""), style.words.scale, _WIDE
    if scale.decimals:  # 6.43 - 2.17: the same moves, one place to the right of the ones
        ahead = (f"6{scale.point}", f"2{scale.point}", f"4{scale.point}")
        wide = _WIDE_DECIMAL
    whole, part, rest = (f"{a}{b}" for a, b in zip(ahead, ("43", "17", "26"), strict=True))
    size = min(_LARGER, room.width / wide) if room.height > _MUCH else min(1.0, room.width / wide)
    before = _sum(size, (whole, part))
    after = _sum(size, (whole, part), (*ahead[0], "3", "13"), rest)
    picture = row((before, _across(before.height), after), 3.0)
    keys = ("small_cards.digits", "small_cards.digits_ask", "small_cards.digits_told")
    return _beside(picture, keys, room, style)


def _beside(
    picture: Block, keys: tuple[str, str, str], room: Rect, style: Style
) -> tuple[Item, ...]:
    """Return ``picture`` with a heading, a question and a sentence at its right, or below it."""
    sets, words = settings(style.look), style.words
    across = room.width - picture.width - _GAP
    width = across if across >= 16 * sets.text.size else room.width
    try:
        said = stack(
            (
                lines(words(keys[0]), sets.heading, width),
                lines(words(keys[2]), sets.text, width),
                speech("adult", words(keys[1]), width, style),
            ),
            2.5,
        )
    except RefusedError:  # a word is wider
        return ()
    found = row((picture, said), _GAP) if width == across else stack((said, picture), _GAP)
    if found.height > room.height:
        return ()
    spare = room.height - found.height
    return found.at(room.x, room.y + (_UPPER * spare if spare > _MUCH / 2 else 0.0))


def _arrow(parts: Sequence[str]) -> Block:
    """A small picture of an arrow card, or of some on each other, of each what shows of it."""
    digits = "".join(parts)
    across, tip = len(digits) * _PITCH, _TIP
    corners = ((0.0, 0.0), (across, 0.0), (across + tip, _HIGH / 2), (across, _HIGH), (0.0, _HIGH))
    items = [Item("outline", Rect(0, 0, across + tip, _HIGH), Outline(corners))]
    items += (
        placed_line(digit, Setting(_DIGIT, _HIGH), (k + 0.5) * _PITCH, _HIGH / 2, "centre")
        for k, digit in enumerate(digits)
    )
    for end in list(accumulate(map(len, parts)))[:-1]:
        items.append(Item("rule", Rect(end * _PITCH, 0, 0.01, _HIGH), Rule("divider")))
    return Block(tuple(items), across + tip, _HIGH)


def _sum(
    part: float, numbers: tuple[str, str], over: tuple[str, ...] = (), answer: str = ""
) -> Block:
    """A sum laid in columns with cards ``part`` times as large as small ones.

    ``over`` lies on the whole, ``answer`` below. Of two digits over the last column the first
    is slid in at the left, where it has room.
    """
    high, setting = part * _HIGH, Setting(part * _DIGIT, part * _HIGH)
    wide, step = 1.45 * part * _PITCH, high + 1.2
    slid, last = _SLID * wide, len(numbers[0]) - 1
    items: list[Item] = []

    def lay(text: str, column: int, y: float) -> None:
        x = (column + 1) * (wide + 1.2) + slid * (column == last) - slid * (len(text) - 1)
        for digit in text:
            corners = ((0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high))
            items.append(Item("outline", Rect(x, y, wide, high), Outline(corners)))
            items.append(placed_line(digit, setting, x + wide / 2, y + high / 2, "centre"))
            x += slid

    for down, number in enumerate(numbers):
        for column, digit in enumerate(number):
            lay(over[column] if over and not down else digit, column, down * step)
    lay("−", -1, step)
    right = (len(numbers[0]) + 1) * (wide + 1.2) + slid
    items.append(Item("rule", Rect(0, 2 * step, right, 0.01), Rule("sum")))
    for column, digit in enumerate(answer):
        lay(digit, column, 2 * step + 1.2)
    return Block(tuple(items), right, 3 * step + 1.2)


def _down() -> Block:
    arrow = Arrow(((11.0, 0.0), (11.0, 8.0)))
    return Block((Item("arrow", Rect(0, 0, 22, 8), arrow),), 22, 8)


def _across(height: float) -> Block:
    y = height / 2
    return Block((Item("arrow", Rect(0, y, 9, 0.01), Arrow(((0.0, 0.0), (9.0, 0.0)))),), 9, height)
