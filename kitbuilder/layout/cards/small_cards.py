"""Arrow cards, digits and signs in rows of small cards, and pages of columns to write in."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import groupby

from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError
from kitbuilder.frozen import frozen
from kitbuilder.kit.card_records import RecordSheet
from kitbuilder.layout.cards.small_help import below_arrows, below_digits, beside_arrows
from kitbuilder.layout.model import Cut, Item, Rect, Sheet, SheetKind
from kitbuilder.layout.parts.contents import Rule
from kitbuilder.layout.parts.furniture import Foot, Heading, foot, header
from kitbuilder.layout.parts.settings import Setting, settings
from kitbuilder.layout.parts.sheet_area import SheetArea
from kitbuilder.layout.parts.words import cut_to, placed_line
from kitbuilder.layout.parts.written_columns import Ruling, ruled
from kitbuilder.layout.printable import Page

HEIGHT = 27.0
"""Height in mm of arrow cards and of loose digits."""

PITCH = 18.0
"""Width in mm of a digit on an arrow card: stacked tip on tip, cards show one number."""

DIGIT = 19.0
"""Size in mm (of the em) of the digits on them."""

TIP = 9.0
"""Length in mm of an arrow card's tip."""

LOOSE = 20.0
"""Width in mm of a loose digit or sign."""

_HELP, _HELP_GAP = 34.0, 6.0
# Least width in mm of the help beside arrow cards, and the space before it.

_COLUMN = 14.0


@frozen
class ArrowCard:
    """An arrow card: its number, its tip's length in mm, and its digits laid out.

    The digits count from the item's top left.
    """

    number: int
    tip: float
    face: tuple[Item, ...]


@frozen
class LooseCard:
    """A loose digit or sign laid out; a digit has a line below, so that 6 is not 9."""

    text: str
    face: tuple[Item, ...]


Small = tuple[float, Item]
"""A small card: its width in mm and its item, whose place is not known yet."""


def arrow_sheets(numbers: Sequence[int], style: Style, name: str = "") -> Iterator[Sheet]:
    """Yield sheets of arrow cards for ``numbers``: a row for each leading digit where it fits.

    Beside them stands how they are laid on each other, where there is room; at their feet the
    pupil's ``name``, if they are one pupil's.
    """
    sized = [(len(str(n)) * PITCH + TIP, _arrow_card(n)) for n in numbers]
    room = Page.upright(style.paper).inside.width
    lead = sorted(range(len(numbers)), key=lambda k: (str(numbers[k])[0], -numbers[k]))
    rows = [[sized[k] for k in some] for _, some in groupby(lead, key=lambda k: str(numbers[k])[0])]
    if max((sum(width for width, _ in row) for row in rows), default=0.0) > room:
        rows = _filled(sized, room)
    yield from _rows(SheetKind.ARROW_CARDS, rows, style, name)


def _arrow_card(number: int) -> Item:
    setting = Setting(DIGIT, HEIGHT)
    face = tuple(
        placed_line(digit, setting, (k + 0.5) * PITCH, HEIGHT / 2, "centre")
        for k, digit in enumerate(str(number))
    )
    return Item("arrow_card", Rect(0, 0, 1, 1), ArrowCard(number, TIP, face))


def digit_sheets(texts: Sequence[str], style: Style, name: str = "") -> Iterator[Sheet]:
    """Yield sheets of loose digits and signs, row by row in the order given, of pupil ``name``."""
    sized = [(LOOSE, _loose_card(text)) for text in texts]
    rows = _filled(sized, Page.upright(style.paper).inside.width)
    return _rows(SheetKind.DIGIT_CARDS, rows, style, name)


def _loose_card(text: str) -> Item:
    face = [placed_line(text, Setting(DIGIT, HEIGHT), LOOSE / 2, HEIGHT / 2, "centre")]
    if text.isdigit():
        face.append(Item("rule", Rect(LOOSE / 2 - 3, HEIGHT - 2.4, 6, 0.01), Rule("write")))
    return Item("digit_card", Rect(0, 0, 1, 1), LooseCard(text, tuple(face)))


def _rows(
    kind: SheetKind, rows: Sequence[Sequence[Small]], style: Style, name: str
) -> Iterator[Sheet]:
    """Place rows of small cards from the margins' top left, page after page, a foot below them.

    The foot is cut off first, with the pupil's ``name`` above it, then what stands beside the
    rows, then across, then each row down. Raises ``RefusedError`` for a card wider than the page.
    """
    helped = kind is SheetKind.ARROW_CARDS
    area = SheetArea.upright(style.paper)
    note = foot(Foot(style.words("small_cards.cut")), area, style)
    if name:
        area, whose = _named(name, area, style)
        note = (*note, whose)
    page, inside = area.page, area.page.inside
    widest = max((sum(width for width, _ in row) for row in rows), default=0.0)
    if widest > inside.width + 1e-6:
        count = sum(map(len, rows))
        raise RefusedError("card.small-cards", paper=style.paper.name, count=count, option="margin")
    right = inside.x + widest if helped else page.width
    left = inside.x + widest + _HELP_GAP
    room = Rect(left, inside.y + 4, max(1.0, area.whole.right - left), 1)
    each = max(1, int((area.body(inside.y).bottom - inside.y) / HEIGHT + 1e-9))
    for number, start in enumerate(range(0, len(rows), each), 1):
        items, cuts = _placed(rows[start : start + each], inside, right)
        bottom = cuts[-1].y2
        free = [Cut(0, bottom, page.width, bottom)]
        free += [Cut(right, 0, right, bottom)] if helped else []
        free += [Cut(0, y, right, y) for y in dict.fromkeys(cut.y1 for cut in cuts)]
        if helped and room.width >= _HELP:
            items += beside_arrows(room, area, style) if not start else ()
        elif start + each >= len(rows):
            below = area.body(bottom + _HELP_GAP)
            items += below_arrows(below, style) if helped else below_digits(below, style)
        items += note
        yield Sheet(kind, number, "card", page.width, page.height, tuple(items), (*free, *cuts))


def _named(name: str, area: SheetArea, style: Style) -> tuple[SheetArea, Item]:
    """Return what is left of ``area`` above a pupil's ``name`` at the right, and the name."""
    text, body, whole = settings(style.look).text, area.body(0), area.whole
    shown = cut_to(name, text, whole.width)
    said = placed_line(shown, text, whole.right, body.bottom - text.lead / 2, "right")
    return replace(area, whole=whole.as_high(whole.height - text.lead)), said


def _placed(
    rows: Sequence[Sequence[Small]], inside: Rect, right: float
) -> tuple[list[Item], list[Cut]]:
    """Return the cards of ``rows`` from the top left of ``inside``, and the cuts down between.

    No cut is made where ``right`` is cut along anyway.
    """
    items: list[Item] = []
    cuts: list[Cut] = []
    for j, row in enumerate(rows):
        x, y = inside.x, inside.y + j * HEIGHT
        cuts.append(Cut(x, y, x, y + HEIGHT))
        for width, item in row:
            items.append(Item(item.what, Rect(x, y, width, HEIGHT), item.content))
            x += width
            if x < right - 1e-6:
                cuts.append(Cut(x, y, x, y + HEIGHT))
    return items, cuts


def _filled(sized: Sequence[Small], room: float) -> list[list[Small]]:
    """Return ``sized`` in rows no wider than ``room``, in the order given."""
    rows: list[list[Small]] = []
    left = 0.0
    for width, item in sized:
        if not rows or width > left + 1e-9:
            rows.append([])
            left = room
        rows[-1].append((width, item))
        left -= width
    return rows


def record_sheet(record: RecordSheet, style: Style, name: str = "") -> Sheet:
    """Return a page of empty columns under a heading, as many as fit in rows, of pupil ``name``."""
    area = SheetArea.upright(style.paper)
    items, top = header(Heading("pencil", record.title, ("child",), name), area, style)
    body = area.body(top)
    places, ruling = len(record.headings), Ruling(record.headings)
    width, height = (_COLUMN * v for v in ruling.size(places))
    gap = 6.0
    across = int((body.width + gap) / (width + gap))
    down = int((body.height + gap) / (height + gap))
    if across < 1 or down < 1:
        raise RefusedError("card.no-record", paper=style.paper.name, option="margin")
    empty = (None,) * places
    block = ruled(empty, empty, ruling, _COLUMN, style)
    step, drop = body.width / across, (body.height + gap) / down
    columns = [
        item
        for j in range(down)
        for i in range(across)
        for item in block.at(body.x + i * step + (step - width) / 2, body.y + j * drop)
    ]
    page = (*items, *columns, *foot(Foot(), area, style))
    return Sheet(SheetKind.RECORD, 1, "paper", area.page.width, area.page.height, page)
