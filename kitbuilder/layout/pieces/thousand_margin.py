"""What stands beside thousands on their sheet: bands to put round them, and what the lines say."""

from collections.abc import Iterator, Sequence
from itertools import product

from kitbuilder.design.style import Style
from kitbuilder.frozen import frozen
from kitbuilder.layout.cutting.cut_marks import GAP
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.packing.grid import largest_unit
from kitbuilder.layout.packing.thousands_held import FLAT
from kitbuilder.layout.parts.block import Block, row, stack
from kitbuilder.layout.parts.contents import Rule
from kitbuilder.layout.parts.furniture import Foot, foot, pictogram, wrapped
from kitbuilder.layout.parts.settings import Setting, settings
from kitbuilder.layout.parts.sheet_area import FOOT, SheetArea
from kitbuilder.layout.parts.words import lines, placed_line, wide
from kitbuilder.layout.pieces.thousand_letters import strip
from kitbuilder.layout.printable import Page

HEAD = 7.0
"""Height above the thousands for scissors at the slit, where there is room, in mm."""

FOOT_ROOM = 5.6
"""Height that the page's foot takes below, in mm."""

THICK, GLUE = 4.0, 12.0
"""How thick ten layers may be, and how much of a band is glued, in mm."""

_LOW, _HIGH, _CLEAR, _SAMPLE = 4.6, 8.5, 5.0, 10.0
_LEAST_FOOT = 30.0
_GAP, _SCISSORS, _LEAST_SCISSORS, _APART = 0.8, 5.4, 3.0, 0.6


@frozen
class Band:
    """A band to cut out; from ``glue`` mm on from its left it is glued under its other end."""

    glue: float


def band_length(unit: float) -> float:
    """Return how long a band is that goes round a folded thousand, glue and all, in mm."""
    return 2 * (10 * unit + THICK) + GLUE


def head(spare: float, letter: float) -> float:
    """Return the height above the thousands, of ``spare`` mm; 0 where that is too little.

    Scissors stand there, and letters that need so many mm.
    """
    found = min(max(HEAD, letter), spare)
    return found if found >= _LEAST_SCISSORS + _APART else 0.0


def below(count: int, foot_room: float = FOOT_ROOM) -> float:
    """Return the least height below ``count`` thousands for their bands and the foot, in mm."""
    return _GAP + count * _LOW + foot_room


def most_unit(page: Page, kerf: float = 0.0) -> float:
    """Return the largest unit in mm, rounded down to hundredths, that a thousand fits ``page`` at.

    Below it there is room for its band and the page's foot.
    """
    high = page.inside.height - below(1) - kerf
    with_band = int(100 * high / max(FLAT) + 1e-6) / 100
    return min(largest_unit(page, FLAT, kerf), with_band)


def least_inside(unit: float, kerf: float = 0.0) -> tuple[float, float]:
    """Return the least width and height inside the margins that print a thousand and its band."""
    short, long = (unit * side + kerf for side in FLAT)
    return short, long + below(1)


def beside(
    core: Rect,
    slits: Sequence[tuple[float, float, float, float]],
    count: int,
    style: Style,
    kerf: float = 0.0,
    *,
    foot_beside: bool = False,
) -> Iterator[Item]:
    """Yield scissors where slits begin, a band for each thousand and a legend below ``core``.

    The first band begins where ``core`` is cut off, or with a machine's ``kerf`` a little below.
    The page's foot stands below the bands, or with ``foot_beside`` at the right of the lowest.
    """
    inside = Page.upright(style.paper).inside
    for x, y, x2, _ in slits:
        if x == x2:
            yield from _scissors(x, y, y - inside.y)
    room = inside.bottom - (0.0 if foot_beside else FOOT_ROOM) - core.bottom - _GAP
    long = band_length(style.unit)
    bands = next((n for n in range(count, 0, -1) if room / n >= _LOW - 1e-6), 0)
    if long > inside.width:
        bands = 0
    high = min(_HIGH, room / bands) if bands else 0.0
    top = core.bottom + _GAP
    first = top if kerf else core.bottom  # a machine cuts beside its lines: they stay apart
    for number in range(bands):
        yield from _band(Rect(core.x, first + number * high, long, high), style)
    left = core.x + (long + _CLEAR if bands else 0.0)
    if foot_beside:
        yield from _until(slits, core.y - inside.y, style)
        yield from _legend_and_foot(Rect(left, top, max(0.1, core.right - left), room), style)
        return
    right = core.right + _CLEAR
    letter = strip(style.look.type_mm.least)
    if core.y - inside.y < letter - GAP and inside.right - right - letter >= _unbroken(style):
        right += letter  # which stands at the upper end of the cut
    rooms = [
        Rect(x, y, max(0.1, inside.right - x), max(0.1, high))
        for x, y, high in ((left, top, room), (right, core.y + _GAP, core.height))
    ]
    yield from _legend(rooms, style)


def _until(
    slits: Sequence[tuple[float, float, float, float]], above: float, style: Style
) -> Iterator[Item]:
    """Yield how far the first slit goes, at the right of its scissors, if ``above`` has room."""
    least = settings(style.look).least
    for x, y, x2, y2 in slits[:1]:
        left = x + (_SCISSORS + _CLEAR) / 2
        said = style.words("thousand.until")
        if x == x2 and above >= least.lead + _APART and wide(said, least) < y2 - y:
            yield placed_line(said, least, left, y - _APART - least.lead / 2)


def _legend_and_foot(room: Rect, style: Style) -> Iterator[Item]:
    """Yield a legend and at its right the page's foot, above which a cut has its letter."""
    least = style.look.type_mm.least
    letter = 2 * strip(least)
    legend = _legend([Rect(room.x, room.y, max(0.1, room.width - letter), room.height)], style)
    yield from legend
    x = max((item.rect.right for item in legend), default=room.x) + GAP
    if room.right - x < _LEAST_FOOT:
        return
    area = SheetArea(
        Page.upright(style.paper),
        Rect(x, room.bottom - FOOT, max(0.1, room.right - x), FOOT),
    )
    told = Foot(style.words("foot.paper"), measured=True, most=max(FOOT / 1.2, least))
    yield from foot(told, area, style)


def _scissors(x: float, y: float, above: float) -> tuple[Item, ...]:
    """Return scissors at a slit's head, none where they do not fit ``above``: pieces stay clear."""
    side = min(_SCISSORS, above - _APART)
    if side < _LEAST_SCISSORS:
        return ()
    return pictogram("scissors", side, 1).at(x - side / 2, y - side - _APART)


def _band(rect: Rect, style: Style) -> Iterator[Item]:
    words, size = style.words, min(style.look.type_mm.adult, 0.69 * rect.height)
    glue = rect.width - GLUE
    yield Item("band", rect, Band(glue))
    text = Setting(size, rect.height)
    middle = rect.y + rect.height / 2
    told = placed_line(words("thousand.band"), text, rect.x + 4.0, middle)
    yield told
    least, said = settings(style.look).least, words("thousand.glue")
    if least.size > rect.height:
        return
    if wide(said, least) <= GLUE - 1:
        yield placed_line(said, least, rect.x + glue + GLUE / 2, middle, "centre")
    elif told.rect.right + 2.0 + wide(said, least) + 1.0 <= rect.x + glue:  # before its line
        yield placed_line(said, least, rect.x + glue - 1.0, middle, "right")


def _legend(rooms: Sequence[Rect], style: Style) -> tuple[Item, ...]:
    """Return what each kind of line is, in the first of the ``rooms`` that holds it.

    It stands in a column or in rows; the slit, at which scissors lie, is left out first.
    """
    least = settings(style.look).least
    for text, count in product((least, Setting(least.size, 1.1 * least.size)), (3, 2)):
        for room in rooms:
            signs = tuple(_signs(text, room.width, style))[:count]
            for block in (stack(signs, 0.6), wrapped(signs, room.width, 4.0, 0.1)):
                if block.height <= room.height and block.width <= room.width:
                    return block.at(room.x, room.y)
    return ()


def _unbroken(style: Style) -> float:
    """Return how wide a legend is in which both folds are said in one line, in mm."""
    least = settings(style.look).least
    return (
        _SAMPLE + 2.0 + max(wide(style.words(f"thousand.{way}"), least) for way in ("to", "away"))
    )


def _signs(text: Setting, width: float, style: Style) -> Iterator[Block]:
    """Yield each kind of line and what it is, in as many lines of words as ``width`` needs."""
    for key, rule in (("to", "to"), ("away", "away"), ("slit", "slit")):
        said = style.words(f"thousand.{key}")
        least = max(wide(word, text) for word in said.split())
        beside = min(max(width - _SAMPLE - 2.0, least), wide(said, text))
        yield row((_sample(rule, text.lead), lines(said, text, beside)), 2.0)


def _sample(name: str, high: float) -> Block:
    """Return a short line of the kind called ``name``."""
    content = Rule(name)  # type: ignore[arg-type]
    return Block((Item("rule", Rect(0, high / 2, _SAMPLE, 0.01), content),), _SAMPLE, high)
