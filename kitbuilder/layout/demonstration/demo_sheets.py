"""Large pieces and names on card, for a demonstration on the board or the floor."""

from collections.abc import Iterator, Sequence

from kitbuilder.design.style import Style
from kitbuilder.frozen import frozen
from kitbuilder.kit.demonstration import Demonstration
from kitbuilder.layout.cards.halving import strip_high
from kitbuilder.layout.demonstration.large_unit import TensBoard
from kitbuilder.layout.model import Cut, Item, Rect, Sheet, SheetKind
from kitbuilder.layout.parts.contents import Panel, Rule
from kitbuilder.layout.parts.furniture import foot_high
from kitbuilder.layout.parts.settings import Setting, settings
from kitbuilder.layout.parts.words import placed_line, wide
from kitbuilder.layout.printable import Page
from kitbuilder.number import Pieces

NAME_HIGH = 50.0
"""Most height in mm of a name for a column or a zone."""

_EDGE = 8.0
"""Clear space in mm before and after a name on its strip."""


@frozen
class _Bar:
    """Some rows across a page: a piece or a part of one. ``ones`` are cut apart; 0 for none.

    ``joins`` are the letters of the joins at its upper and its lower edge, or empty.
    """

    what: str
    rows: int
    ones: int = 0
    joins: tuple[str, str] = ("", "")


def demo_sheets(pieces: Pieces, board: TensBoard, style: Style) -> tuple[Sheet, ...]:
    """Return the sheets of large ``pieces``, each bar of rows on the first page with room."""
    pages: list[list[_Bar]] = []
    for bar in _bars(pieces, board.bands):
        for held in pages:
            if sum(one.rows for one in held) + bar.rows <= board.rows:
                held.append(bar)
                break
        else:
            pages.append([bar])
    return tuple(_sheet(held, n, board, style) for n, held in enumerate(pages, 1))


def _bars(pieces: Pieces, bands: Sequence[int]) -> Iterator[_Bar]:
    """Yield all pieces, or the parts of hundreds, the largest first; ones in rows of ten."""
    letters = ["", *"abcdefghi"[: len(bands) - 1], ""]
    for _ in range(pieces.hundreds):
        for k, rows in enumerate(bands):
            yield _Bar("large_hundred", rows, joins=(letters[k], letters[k + 1]))
    for _ in range(pieces.tens):
        yield _Bar("large_ten", 1)
    for start in range(0, pieces.ones, 10):
        yield _Bar("large_one", 1, min(10, pieces.ones - start))


def _sheet(bars: Sequence[_Bar], number: int, board: TensBoard, style: Style) -> Sheet:
    page, unit = board.page, board.unit
    x, y = page.inside.x, page.inside.y
    right = x + 10 * unit
    items: list[Item] = []
    across, snips = [Cut(x, y, right, y)], list[Cut]()
    for bar in bars:
        rect = Rect(x, y, (bar.ones or 10) * unit, bar.rows * unit)
        if bar.ones:
            items += (
                Item(bar.what, Rect(x + k * unit, y, unit, unit), Panel("none", "none"))
                for k in range(bar.ones)
            )
            ends = (x + k * unit for k in range(1, min(bar.ones, 9) + 1))
            snips += (Cut(end, y, end, y + unit) for end in ends)
        else:
            items.append(Item(bar.what, rect, Panel("none", "none")))
            items += _grid(rect, unit)
            items += _joins(bar, rect, style)
        y += bar.rows * unit
        across.append(Cut(x, y, right, y))
    ways = [Cut(0, board.end, page.width, board.end)]
    ways += [Cut(at, 0, at, board.end) for at in (x, right)]
    cuts = (*ways, *across, *snips)
    kind = SheetKind.DEMO_PIECES
    return Sheet(kind, number, "card", page.width, page.height, tuple(items), cuts)


def _grid(rect: Rect, unit: float) -> Iterator[Item]:
    """Yield the lines between the ones of a piece."""
    for k in range(1, round(rect.width / unit)):
        yield Item("grid", Rect(rect.x + k * unit, rect.y, 0.01, rect.height), Rule("grid"))
    for k in range(1, round(rect.height / unit)):
        yield Item("grid", Rect(rect.x, rect.y + k * unit, rect.width, 0.01), Rule("grid"))


def _joins(bar: _Bar, rect: Rect, style: Style) -> Iterator[Item]:
    """Yield a small letter at both ends of each edge that is taped to another part's."""
    setting = settings(style.look).least
    for letter, y in zip(bar.joins, (rect.y + 3.5, rect.bottom - 3.5), strict=True):
        for x in (rect.x + 4, rect.right - 4) if letter else ():
            yield placed_line(letter, setting, x, y, "centre")


def name_sheets(shown: Demonstration, style: Style) -> tuple[Sheet, ...]:
    """Return the names of columns and zones on strips as wide as the page."""
    page = Page.turned(style.paper)
    inside, end = page.inside, page.height - strip_high(page, foot_high(style.look))
    names = (*shown.columns, *shown.zones)
    room = end - inside.y
    each = max(1, int(room / NAME_HIGH))
    high = room / each
    largest = min(0.62 * high, *(_fitting(name, inside.width - 2 * _EDGE) for name in names))
    sheets = []
    for number, start in enumerate(range(0, len(names), each), 1):
        items, cuts = [], [Cut(0, end, page.width, end)]
        for k, name in enumerate(names[start : start + each]):
            place = Rect(inside.x, inside.y + k * high, inside.width, high)
            setting = Setting(largest, largest, "heading")
            middle = place.y + high / 2
            items.append(placed_line(name, setting, page.width / 2, middle, "centre"))
            if place.bottom < end - 1e-6:
                cuts.append(Cut(0, place.bottom, page.width, place.bottom))
        kind = SheetKind.DEMO_NAMES
        size = page.width, page.height
        sheets.append(Sheet(kind, number, "card", *size, tuple(items), tuple(cuts)))
    return tuple(sheets)


def _fitting(text: str, width: float) -> float:
    """Return the size in mm at which ``text`` is ``width`` mm wide."""
    return width / wide(text, Setting(1.0, 1.0, "heading"))
