"""Turns arrow cards, digits and signs into rows of small cards, and record sheets into layouts."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from kitbuilder.design import metrics
from kitbuilder.design.load import Paper
from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError
from kitbuilder.kit.card_records import RecordSheet
from kitbuilder.layout.cards.fronts import PITCH, Layout, Line, layout_size
from kitbuilder.layout.model import Cut, Item, Rect, Sheet, SheetKind
from kitbuilder.layout.page import Page

HEIGHT = 30.0
"""Height in mm of arrow cards and of loose digits."""

DIGIT = 28.0
"""Size in mm (of the em) of the digits on them."""

TIP = 12.0
"""Length in mm of an arrow card's tip."""

LOOSE = 20.0
"""Width in mm of a loose digit or sign."""


@dataclass(frozen=True, slots=True)
class Arrow:
    """An arrow card: its number in digits of ``size`` mm, then a tip ``tip`` mm long.

    Each digit is ``pitch`` mm wide, exactly as the typeface sets it, so that cards stacked
    tip on tip show one number: on 600 lies 30, on its 0 lies 4, and 634 is read.
    """

    number: int
    size: float
    pitch: float
    tip: float


@dataclass(frozen=True, slots=True)
class Loose:
    """A loose digit or sign of ``size`` mm; a digit has a line below, so that 6 is not 9."""

    text: str
    size: float


def digit_pitch(size: float) -> float:
    """Return the width in mm of a digit set at ``size`` mm. Raises ``ValueError`` if they vary."""
    widths = {round(metrics.width(digit, size), 6) for digit in "0123456789"}
    if len(widths) != 1:
        raise ValueError(f"digits of the typeface have different widths: {sorted(widths)}")
    return widths.pop()


def arrow_sheets(numbers: Sequence[int], paper: Paper) -> Iterator[Sheet]:
    """Yield sheets of arrow cards for ``numbers``, row by row in the order given."""
    pitch = digit_pitch(DIGIT)
    sized = [
        (len(str(number)) * pitch + TIP, Item("arrow_card", Rect(0, 0, 1, 1), arrow))
        for number in numbers
        for arrow in [Arrow(number, DIGIT, pitch, TIP)]
    ]
    return _rows(SheetKind.ARROW_CARDS, sized, paper)


def digit_sheets(texts: Sequence[str], paper: Paper) -> Iterator[Sheet]:
    """Yield sheets of loose digits and signs, row by row in the order given."""
    sized = [(LOOSE, Item("digit_card", Rect(0, 0, 1, 1), Loose(text, DIGIT))) for text in texts]
    return _rows(SheetKind.DIGIT_CARDS, sized, paper)


def _rows(kind: SheetKind, sized: Sequence[tuple[float, Item]], paper: Paper) -> Iterator[Sheet]:
    """Place items of given widths in rows from edge to edge of the margins, page after page.

    Cuts run across first, then each row is cut down. Raises ``RefusedError`` for a card wider
    than the page.
    """
    page = Page.upright(paper)
    inside = page.inside
    if sized and max(width for width, _ in sized) > inside.width:
        raise RefusedError("card.small-cards", paper=paper.name, count=len(sized), option="margin")
    rows = _filled(sized, inside.width)
    each = max(1, int(inside.height / HEIGHT + 1e-9))
    for number, start in enumerate(range(0, len(rows), each), 1):
        items: list[Item] = []
        cuts: list[Cut] = []
        for j, row in enumerate(rows[start : start + each]):
            x, y = inside.x, inside.y + j * HEIGHT
            cuts.append(Cut(x, y, x, y + HEIGHT))
            for width, item in row:
                items.append(Item(item.what, Rect(x, y, width, HEIGHT), item.content))
                x += width
                cuts.append(Cut(x, y, x, y + HEIGHT))
        lines = range(len(rows[start : start + each]) + 1)
        across = (Cut(0, inside.y + j * HEIGHT, page.width, inside.y + j * HEIGHT) for j in lines)
        yield Sheet(kind, number, "card", page.width, page.height, tuple(items), (*across, *cuts))


def _filled(sized: Sequence[tuple[float, Item]], room: float) -> list[list[tuple[float, Item]]]:
    rows: list[list[tuple[float, Item]]] = []
    left = 0.0
    for width, item in sized:
        if not rows or width > left + 1e-9:
            rows.append([])
            left = room
        rows[-1].append((width, item))
        left -= width
    return rows


def record_sheet(record: RecordSheet, style: Style) -> Sheet:
    """Return a page of empty column layouts under a heading, as many as fit in rows."""
    page = Page.upright(style.paper)
    inside = page.inside.inset(3)
    size = style.look.type_mm.child
    above = metrics.digit_height(size)
    title = Item(
        "line",
        Rect(inside.x, inside.y, metrics.width(record.title, size), above),
        Line(record.title, size),
    )
    places = len(record.headings)
    pitch = (PITCH[0] + PITCH[1]) / 2 - 2
    width, height = layout_size(places, True, pitch)
    gap = 8.0
    top = title.rect.bottom + gap
    across = int((inside.width + gap) / (width + gap))
    down = int((inside.bottom - gap - top + gap) / (height + gap))
    if across < 1 or down < 1:
        raise RefusedError("card.no-record", paper=style.paper.name, option="margin")
    empty = Layout((None,) * places, (None,) * places, record.headings, pitch)
    step = inside.width / across
    items = [
        Item("layout", Rect(inside.x + i * step, top + j * (height + gap), width, height), empty)
        for j in range(down)
        for i in range(across)
    ]
    return Sheet(SheetKind.RECORD, 1, "paper", page.width, page.height, (title, *items))
