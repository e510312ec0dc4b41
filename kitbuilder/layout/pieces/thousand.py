"""A thousand, printed flat and folded into a stack of ten hundreds, and its sheets.

Flat it is 20 × 50 units, ten hundreds in two columns of five. The line between the columns is slit
from one end to the last line across, so that every fold is of one layer. Folded across to and fro,
then with the two stacks back to back, ten layers lie on each other, printed squares outside, and
what joins the stacks lies within: it bends round nothing.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Literal

from kitbuilder.design.load import LEAST_UNIT, Paper
from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError, Said
from kitbuilder.frozen import frozen
from kitbuilder.layout.cutting.cut_marks import CUT_MARK, GAP, LETTER
from kitbuilder.layout.model import Cut, Item, Rect, Sheet, SheetKind
from kitbuilder.layout.packing.grid import Grid, hundredths
from kitbuilder.layout.packing.thousands_held import PlacedThousand, thousands_held, thousands_on
from kitbuilder.layout.parts.contents import PageNumber, Panel
from kitbuilder.layout.pieces.thousand_letters import strip, with_letters
from kitbuilder.layout.pieces.thousand_margin import (
    FOOT_ROOM,
    below,
    beside,
    head,
    least_inside,
    most_unit,
)
from kitbuilder.layout.printable import Page

Way = Literal["to", "away"]

Segment = tuple[float, float, float, float]

FOLDS: tuple[tuple[Way, Segment], ...] = (
    ("away", (0, 10, 20, 10)),
    ("to", (0, 20, 20, 20)),
    ("away", (0, 30, 20, 30)),
    ("to", (0, 40, 20, 40)),
    ("away", (10, 40, 10, 50)),
)
"""The folds of a standing thousand, in units from its top left: printed squares to you or away."""

SLIT: Segment = (10, 0, 10, 40)
"""The slit of a standing thousand, in units."""

_LEAST_MARGIN = 5
"""The least margin in mm that is told to be tried: most printers reach as far (practice)."""

_BAND_SIDES = 2
# Cuts that free bands, beside one below each: at both ends. The first begins where a thousand ends.


@frozen
class Thousands:
    """Thousands printed flat: their outlines, folds to you and away, and slits, mm on the page.

    A machine cuts half a ``kerf`` beside each outline.
    """

    unit: float
    outlines: tuple[Rect, ...]
    to: tuple[Segment, ...]
    away: tuple[Segment, ...]
    slits: tuple[Segment, ...]
    kerf: float = 0.0


def check_thousand(paper: Paper, kerf: float = 0.0) -> None:
    """Refuse a unit at which a thousand does not fit ``paper``, naming the largest that does."""
    most = most_unit(Page.upright(paper), kerf)
    if most < LEAST_UNIT:
        short, long = least_inside(LEAST_UNIT, kerf)
        spare = min((paper.width_mm - short) / 2, (paper.height_mm - long) / 2)
        if spare >= _LEAST_MARGIN:
            raise RefusedError(
                "pieces.margin-thousand", paper=paper.name, option="margin", most=int(spare + 1e-6)
            )
        raise RefusedError("pieces.no-thousand", paper=paper.name, least=LEAST_UNIT, field="paper")
    if hundredths(paper.unit_mm) > hundredths(most):
        raise RefusedError(
            "pieces.too-large",
            paper=paper.name,
            what=Said("pieces.thousands"),
            unit=Said("pieces.unit", unit=paper.unit_mm),
            option="unit",
            most=most,
            repair=Said("repair.unit", unit=most),
        )


def thousand_sheets(count: int, style: Style, kerf: float = 0.0) -> tuple[Sheet, ...]:
    """Return the least sheets that hold ``count`` thousands; full ones are alike, told as copies.

    Where a machine takes a ``kerf`` away, each stands alone on its sheet.
    """
    if not count:
        return ()
    check_thousand(style.paper, kerf)
    grid = Grid.of(Page.upright(style.paper), style.unit)
    held = 1 if kerf else _held(grid, style)
    full, left = divmod(count, held)
    pairs = [(full, held)] if full else []
    pairs += [(1, left)] if left else []
    return tuple(
        _sheet(number, copies, thousands_on(grid.across, grid.down, some), style, kerf)
        for number, (copies, some) in enumerate(pairs, 1)
    )


def _held(grid: Grid, style: Style) -> int:
    """Return how many thousands a sheet holds with a band for each and a letter at each cut."""
    most = thousands_held(grid.across, grid.down)
    for count in range(most, 1, -1):
        if _is_whole(_sheet(1, 1, thousands_on(grid.across, grid.down, count), style, 0.0)):
            return count
    return 1


def _is_whole(sheet: Sheet) -> bool:
    """Say whether each thousand of ``sheet`` has its band, and each cut its letter."""
    each = Counter(item.what for item in sheet.items)
    return each["band"] == each["thousand"] and each[CUT_MARK] == len(sheet.cuts)


def _sheet(
    number: int, copies: int, blocks: Sequence[PlacedThousand], style: Style, kerf: float
) -> Sheet:
    """Return a sheet; where its letters have no room else, its foot stands beside the bands."""
    below = _placed(number, copies, blocks, style, kerf)
    if kerf or _is_whole(below):
        return below
    beside = _placed(number, copies, blocks, style, kerf, foot_beside=True)
    numbered = any(isinstance(item.content, PageNumber) for item in beside.items)
    return beside if numbered and _is_whole(beside) else below


def _placed(
    number: int,
    copies: int,
    blocks: Sequence[PlacedThousand],
    style: Style,
    kerf: float,
    *,
    foot_beside: bool = False,
) -> Sheet:
    page, unit = Page.upright(style.paper), style.unit
    core = _core(blocks, style, kerf, foot_beside=foot_beside)
    rects = [
        Rect(core.x + b.x * unit, core.y + b.y * unit, b.width * unit, b.height * unit)
        for b in blocks
    ]
    content = flat(rects, unit, kerf)
    each = (Item("thousand", rect, Panel("none", "none", 0.0)) for rect in rects)  # for its cuts
    extra = tuple(beside(core, content.slits, len(rects), style, kerf, foot_beside=foot_beside))
    bands = sum(item.what == "band" for item in extra)
    snips = len(content.slits) + (bands + _BAND_SIDES if bands else 0)
    items = (Item("thousands", core, content), *each, *extra)
    folds = tuple(Cut(*line) for line in (*content.to, *content.away))
    cuts = () if kerf else tuple(_cuts(core, rects, page))
    size = page.width, page.height
    sheet = Sheet(SheetKind.THOUSANDS, number, "paper", *size, items, cuts, copies)
    sheet = replace(sheet, kerf=kerf, folds=folds, snips=0 if kerf else snips)
    above_foot = page.inside.as_high(page.inside.height - (0.0 if foot_beside else FOOT_ROOM))
    return with_letters(sheet, above_foot, style.look.type_mm.least)


def _core(
    blocks: Sequence[PlacedThousand], style: Style, kerf: float, *, foot_beside: bool
) -> Rect:
    """Return where ``blocks`` lie on their page, with room for letters and bands."""
    inside, unit = Page.upright(style.paper).inside, style.unit
    high = unit * max(block.y + block.height for block in blocks)
    wide = unit * max(block.x + block.width for block in blocks)
    spare = inside.height - high - kerf
    least = style.look.type_mm.least
    letter = least / LETTER + GAP
    above = head(spare - below(len(blocks)), letter)
    if foot_beside:
        above = head(min(letter, spare - below(len(blocks), 0.0)), letter)
    left = inside.x + max(0.0, kerf / 2)
    if not kerf and above < letter and inside.width - wide >= 2 * strip(least):
        above, left = 0.0, left + strip(least)  # the letters stand beside, bands are the higher
    return Rect(left, inside.y + kerf / 2 + above, wide, high)


def flat(rects: Sequence[Rect], unit: float, kerf: float = 0.0) -> Thousands:
    """Return thousands that are printed at ``rects``; those that lie are slit from the left."""
    ways: dict[str, list[Segment]] = {"to": [], "away": [], "slit": []}
    for rect in rects:
        for way, line in (*FOLDS, ("slit", SLIT)):
            x1, y1, x2, y2 = (unit * at for at in line)
            if rect.width > rect.height:
                x1, y1, x2, y2 = y1, x1, y2, x2
            ways[way].append((rect.x + x1, rect.y + y1, rect.x + x2, rect.y + y2))
    to, away, slits = (tuple(ways[way]) for way in ("to", "away", "slit"))
    return Thousands(unit, tuple(rects), to, away, slits, kerf)


def _cuts(core: Rect, rects: Sequence[Rect], page: Page) -> Iterator[Cut]:
    """Yield the cuts from edge to edge that free ``rects``, in order."""
    for y in (core.bottom, core.y):
        if 0 < y < page.height:
            yield Cut(0, y, page.width, y)
    for x in (core.x, core.right):
        if 0 < x < page.width:
            yield Cut(x, core.y, x, core.bottom)
    yield from _between(core, rects)


def _between(part: Rect, rects: Sequence[Rect]) -> Iterator[Cut]:
    """Yield the cuts that divide ``part`` into ``rects``."""
    if len(rects) == 1 and part == rects[0]:
        return
    for x in sorted({r.right for r in rects if r.right < part.right - 0.01}):
        if all(r.right <= x + 0.01 or r.x >= x - 0.01 for r in rects):
            yield Cut(x, part.y, x, part.bottom)
            first = Rect(part.x, part.y, x - part.x, part.height)
            second = Rect(x, part.y, part.right - x, part.height)
            yield from _halves(first, second, rects)
            return
    for y in sorted({r.bottom for r in rects if r.bottom < part.bottom - 0.01}):
        if all(r.bottom <= y + 0.01 or r.y >= y - 0.01 for r in rects):
            yield Cut(part.x, y, part.right, y)
            first = Rect(part.x, part.y, part.width, y - part.y)
            second = Rect(part.x, y, part.width, part.bottom - y)
            yield from _halves(first, second, rects)
            return


def _halves(first: Rect, second: Rect, rects: Sequence[Rect]) -> Iterator[Cut]:
    for half in (first, second):
        held = [r for r in rects if half.holds(r, 0.01)]
        if held:
            yield from _between(half, held)
