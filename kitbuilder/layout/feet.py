"""The foot of every page: a ten of true size, its number, the stock, and its letter where cut."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import lru_cache

from kitbuilder.design.load import Words
from kitbuilder.design.style import Style
from kitbuilder.layout.cards.deal import CardFace
from kitbuilder.layout.cutting.cut_map import lettered
from kitbuilder.layout.model import Item, Rect, Sheet, SheetKind
from kitbuilder.layout.page import Page
from kitbuilder.layout.parts.contents import Line, PageNumber, Ruler
from kitbuilder.layout.parts.furniture import TRUE_TEN, Foot, foot, foot_below, foot_high
from kitbuilder.layout.parts.settings import settings
from kitbuilder.layout.parts.sheet_area import FOOT, SheetArea
from kitbuilder.layout.parts.words import placed_line, wide

ASIDE = 3.0
"""Least space in mm between a foot and the printer's margin, or a cut."""

LENGTHS = (10_000.0, 150.0, 118.0, 66.0, 46.0)
"""Widths in mm that a foot is tried at, from the whole page to a ten of 30 mm."""

FOR_A_CHILD = (
    SheetKind.PIECES,
    SheetKind.MAT,
    SheetKind.ADDITION_MAT,
    SheetKind.EXCHANGE_BOARD,
    SheetKind.EXCHANGE_CARDS,
    SheetKind.TASK_CARDS,
    SheetKind.FACT_CARDS,
    SheetKind.STORY_CARDS,
    SheetKind.ARROW_CARDS,
    SheetKind.DIGIT_CARDS,
)
"""What has no header that tells whom it is for."""

STANDING = 24.0, TRUE_TEN + 2.0
"""Width and height in mm of a foot that stands."""

_BAR = 2.4
_BESIDE = 18.0
_STEP = 0.5
# The bar's height, what a page's number takes beside it, and how finely a place is sought, in mm.

_EPS = 1e-6

_Sides = tuple[float, float, float, float]
# Left, right, top and bottom of what is taken, in mm.


def footed(sheets: Sequence[Sheet], style: Style) -> tuple[Sheet, ...]:
    """Return ``sheets``, each with a foot; those that have one keep it.

    It stands where nothing is cut or printed, as low as there is room.
    """
    return tuple(_footed(sheet, style) for sheet in sheets)


def _footed(sheet: Sheet, style: Style) -> Sheet:
    if any(isinstance(item.content, PageNumber) for item in sheet.items):
        return sheet
    items = _foot(sheet, _page(sheet, style), style)
    spare = sheet.spare + (0,) * len(items) if sheet.spare else ()
    return replace(sheet, items=(*sheet.items, *items), spare=spare)


def _foot(sheet: Sheet, page: Page, style: Style) -> tuple[Item, ...]:
    """Return a foot outside what is cut, lying or standing, else between the frames of cards."""
    taken = [item.rect for item in sheet.items]
    lines = [
        Rect(min(c.x1, c.x2), min(c.y1, c.y2), abs(c.x2 - c.x1) + 0.1, abs(c.y2 - c.y1) + 0.1)
        for c in (*sheet.cuts, *sheet.folds)
    ]
    high, room = foot_high(style.look), _below_margin(page.inside, style)
    place = _place([*taken, *lines], room, high, LENGTHS[:-2])
    if place is None:
        side = _place([*taken, *lines], page.inside, STANDING[1], (STANDING[0],))
        if side:
            return _standing(side, sheet, style)
        inks = [i.content.ink if isinstance(i.content, CardFace) else i.rect for i in sheet.items]
        place = _place([*taken, *lines], room, high, LENGTHS[-2:])
        place = place or _place([*inks, *lines], room, FOOT, LENGTHS)
    if place is None:
        return ()
    area = SheetArea(page, place.as_high(FOOT))
    said = _notes(sheet, style.words)
    holds = page.inside.width >= TRUE_TEN + _BESIDE
    for count in range(len(said), 0, -1):
        items = foot(Foot(" · ".join(said[:count]), measured=holds), area, style)
        barred = any(isinstance(item.content, Ruler) for item in items)
        if sum(isinstance(item.content, Line) for item in items) > barred:
            break
    return items


def _below_margin(inside: Rect, style: Style) -> Rect:
    """Return ``inside`` without what a page number at its top reaches above its foot."""
    above = foot_below(style.look)
    return Rect(inside.x, inside.y + above, inside.width, inside.height - above)


def _standing(place: Rect, sheet: Sheet, style: Style) -> tuple[Item, ...]:
    """Return a foot whose ten stands, what it measures and the page's number at its right."""
    sets, words = settings(style.look), style.words
    size = style.look.type_mm.heading
    x, middle = place.x + _BAR + 2, place.y + TRUE_TEN / 2
    y = place.bottom - max(STANDING[1] - TRUE_TEN, foot_below(style.look)) - FOOT
    number = Rect(x, y, STANDING[0] - _BAR - 2, FOOT)
    told = [words("foot.long", length=f"{TRUE_TEN:g}"), *_notes(sheet, words)]
    said = [text for text in told if x + wide(text, sets.least) <= place.right]
    return (
        Item("ruler", Rect(place.x, place.y, _BAR, TRUE_TEN), Ruler()),
        *(
            placed_line(text, sets.least, x, middle + k * sets.least.lead)
            for k, text in enumerate(said)
        ),
        Item("page_number", number, PageNumber(size)),
    )


def _page(sheet: Sheet, style: Style) -> Page:
    turned = sheet.width != style.paper.width_mm
    return Page.turned(style.paper) if turned else Page.upright(style.paper)


def _notes(sheet: Sheet, words: Words) -> list[str]:
    """Return what a foot says: the pupil, the sheet's letter, the stock, and whom it is for."""
    said = [sheet.section] if sheet.section else []
    if sheet.kind == SheetKind.PIECES:
        name = lettered(sheet.number - 1)
        said.append(words("foot.back" if sheet.flip else "foot.sheet", name=name))
    said.append(words(f"foot.{sheet.stock}"))
    if sheet.kind in FOR_A_CHILD:
        said.append(words("foot.child"))
    return said


def _place(
    taken: Sequence[Rect], inside: Rect, high: float, widths: Sequence[float]
) -> Rect | None:
    """Return a free place so ``high``, in mm: the widest first, then the lowest and leftmost."""
    sides = sorted((r.x, r.right, r.y + _EPS, r.bottom - _EPS) for r in taken)
    return _lowest(tuple(sides), inside, high, tuple(widths))


@lru_cache(64)
def _lowest(
    sides: tuple[_Sides, ...], inside: Rect, high: float, widths: tuple[float, ...]
) -> Rect | None:
    """Return the place of ``_place``; sheets of a pack have the same ``sides`` of what is taken."""
    for width in widths:
        least = min(width, inside.width - 2 * ASIDE)
        for step in range(int((inside.height - high) / _STEP) + 1):
            y = inside.bottom - high - step * _STEP
            for gap in _gaps(Rect(inside.x, y, inside.width, high), sides):
                if gap.width >= least - 1e-6:
                    return gap
    return None


def _gaps(strip: Rect, sides: Sequence[_Sides]) -> Iterator[Rect]:
    """Yield the free parts of ``strip`` from left to right."""
    x, end, high, low = strip.x, strip.right, strip.y, strip.bottom
    met = [(a, b) for a, b, top, bottom in sides if top < low and bottom > high and a < end]
    for left, right in (*met, (end, end)):
        if left - x > 2 * ASIDE:
            yield Rect(x + ASIDE, strip.y, left - x - 2 * ASIDE, strip.height)
        x = max(x, right)
