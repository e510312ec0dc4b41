"""The foot of every page: a ten of true size, its number, the stock, and which sheet it is."""

import math
from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache

from kitbuilder.design.load import Words
from kitbuilder.design.style import Style
from kitbuilder.kit import phrases
from kitbuilder.kit.card_records import TaskCard
from kitbuilder.layout.blank_backs import is_blank
from kitbuilder.layout.cards.deal import CardFace
from kitbuilder.layout.cutting.cut_map import lettered
from kitbuilder.layout.mat.tiling import page_of
from kitbuilder.layout.model import Item, Rect, Sheet, SheetKind
from kitbuilder.layout.parts.contents import Line, PageNumber, Ruler
from kitbuilder.layout.parts.furniture import TRUE_TEN, Foot, foot, foot_below, foot_high
from kitbuilder.layout.parts.settings import settings
from kitbuilder.layout.parts.sheet_area import FOOT, SheetArea
from kitbuilder.layout.parts.words import placed_line, wide
from kitbuilder.layout.printable import Page

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

_LARGE, _LITTLE = 100.0, FOOT / 1.2
# The most size of a page's number in mm, and that of one which stands in its foot alone, where
# the look's least type is not larger.

_EPS = 1e-6

_Sides = tuple[float, float, float, float]
# Left, right, top and bottom of what is taken, in mm.


def footed(sheets: Sequence[Sheet], style: Style, layers: int = 1) -> tuple[Sheet, ...]:
    """Return ``sheets``, each with a foot; those that have one keep it, empty backs get none.

    It stands where nothing is cut or printed, as low as there is room. Cut ``layers`` at a time,
    lines have numbers and every sheet that is cut a letter; cut one by one, it is the other way
    round.
    """
    named = _names(sheets, style.words, layers)
    return tuple(
        _footed(
            sheet,
            named.get(sheet.number, "") if sheet.kind == SheetKind.PIECES else sheet.name,
            style,
        )
        for sheet in sheets
    )


def _names(sheets: Iterable[Sheet], words: Words, layers: int) -> dict[int, str]:
    """Return what each sheet of pieces is called in a sentence; an only sheet needs no name."""
    numbers = {sheet.number for sheet in sheets if sheet.kind == SheetKind.PIECES}
    if layers > 1:
        return {number: lettered(number - 1) for number in numbers}
    of = max(numbers, default=0)
    return {n: words("foot.of", number=n, count=of) for n in numbers if of > 1}


def _footed(sheet: Sheet, name: str, style: Style) -> Sheet:
    if is_blank(sheet):
        return sheet
    page = page_of(style.paper, sheet.width != style.paper.width_mm)
    has_foot = any(isinstance(item.content, PageNumber) for item in sheet.items)
    items = () if has_foot else _foot(sheet, name, page, style)
    items += _named(sheet, items, name, page, style)
    return sheet.with_items(items)


def _foot(sheet: Sheet, name: str, page: Page, style: Style) -> tuple[Item, ...]:
    """Return a foot outside what is cut, lying or standing, else between the frames of cards."""
    taken = [item.rect for item in sheet.items]
    lines = _lines(sheet)
    high, room, most = foot_high(style.look), _below_margin(page.inside, style), _LARGE
    place = _place([*taken, *lines], room, high, LENGTHS[:-2])
    if place is None:
        side = _place([*taken, *lines], page.inside, STANDING[1], (STANDING[0],))
        if side:
            return _standing(side, _notes(sheet, name, style.words), style)
        inks = [i.content.ink if isinstance(i.content, CardFace) else i.rect for i in sheet.items]
        place = _place([*taken, *lines], room, high, LENGTHS[-2:])
        place = place or _place([*inks, *lines], room, high, LENGTHS)
        if place is None:
            low = (FOOT + max(FOOT, settings(style.look).least.lead)) / 2
            most = max(_LITTLE, style.look.type_mm.least)
            place = _place([*inks, *lines], page.inside, low, LENGTHS)
    if place is None:
        return ()
    area = SheetArea(page, place.as_high(FOOT))
    said = _notes(sheet, name, style.words)
    holds = page.inside.width >= TRUE_TEN + _BESIDE
    for note, barred in _ways(said, _needed(sheet, name, style.words)):
        told = Foot(note, measured=holds, barred=barred, most=most)
        items = foot(told, area, style)
        texts = [item.content.text for item in items if isinstance(item.content, Line)]
        barred = any(isinstance(item.content, Ruler) for item in items)
        if (note in texts or not note) and len(texts) >= barred + bool(note):
            break
    return items


def _ways(said: Sequence[str], needed: Sequence[str]) -> Iterator[tuple[str, bool]]:
    """Yield what a foot may tell of what is to be ``said``, and whether with a ten: most first.

    What is ``needed`` is told without a ten sooner than not at all; a ten that cannot tell its
    length is left out.
    """
    runs = [said[:count] for count in range(len(said), 0, -1)]
    for count in range(len(needed), 0, -1):
        most = needed[:count]
        least = [run for run in runs if set(most) <= set(run)] + [most]
        yield from ((" · ".join(run), barred) for barred in (True, False) for run in least)
    yield from ((" · ".join(run), True) for run in runs)
    yield from (("", True), (said[0], False))


def _needed(sheet: Sheet, name: str, words: Words) -> list[str]:
    """Return what a foot must say: which sheet it is, the stock of task cards, what dots tell.

    And that cards are folded. Pieces need their ten more, and mostly have room elsewhere for their
    name.
    """
    told = [words(f"foot.{sheet.stock}")] if sheet.kind is SheetKind.TASK_CARDS else []
    told += [words("foot.fold")] if _is_folded(sheet) else []
    told += [words("foot.dots")] if _tells_dots(sheet) else []
    if not name or sheet.kind == SheetKind.PIECES:
        return told
    return [words("foot.sheet", name=name), *told]


def _below_margin(inside: Rect, style: Style) -> Rect:
    """Return ``inside`` without what a page number at its top reaches above its foot."""
    above = foot_below(style.look)
    return Rect(inside.x, inside.y + above, inside.width, inside.height - above)


def _named(
    sheet: Sheet, items: Sequence[Item], name: str, page: Page, style: Style
) -> tuple[Item, ...]:
    """Return which sheet it is, where its foot has no room to say so."""
    said = [item.content.text for item in items if isinstance(item.content, Line)]
    if not name or any(name in text for text in said):
        return ()
    text = _notes(sheet, name, style.words)[0]
    setting = settings(style.look).least
    place = _place(
        [*(item.rect for item in (*sheet.items, *items)), *_lines(sheet)],
        page.inside,
        setting.lead,
        (wide(text, setting) + 2 * ASIDE,),
    )
    if place is None:
        return ()
    middle = place.y + place.height / 2
    return (placed_line(text, setting, place.x + place.width / 2, middle, "centre"),)


def _lines(sheet: Sheet) -> list[Rect]:
    """Return the lines along which ``sheet`` is cut or folded, as thin rectangles."""
    return [
        Rect(min(c.x1, c.x2), min(c.y1, c.y2), abs(c.x2 - c.x1) + 0.1, abs(c.y2 - c.y1) + 0.1)
        for c in (*sheet.cuts, *sheet.folds)
    ]


def _standing(place: Rect, notes: Sequence[str], style: Style) -> tuple[Item, ...]:
    """Return a foot whose ten stands, what it measures and ``notes`` at its right."""
    sets, words = settings(style.look), style.words
    size = style.look.type_mm.heading
    x, middle = place.x + _BAR + 2, place.y + TRUE_TEN / 2
    y = place.bottom - max(STANDING[1] - TRUE_TEN, foot_below(style.look)) - FOOT
    number = Rect(x, y, STANDING[0] - _BAR - 2, FOOT)
    told = [phrases.length(words, "foot.long", TRUE_TEN), *notes]
    said = [text for text in told if x + wide(text, sets.least) <= place.right]
    return (
        Item("ruler", Rect(place.x, place.y, _BAR, TRUE_TEN), Ruler()),
        *(
            placed_line(text, sets.least, x, middle + k * sets.least.lead)
            for k, text in enumerate(said)
        ),
        Item("page_number", number, PageNumber(size)),
    )


def _notes(sheet: Sheet, name: str, words: Words) -> list[str]:
    """Return what a foot says: the pupil, which sheet it is, the stock, and whom it is for.

    On the first sheet of cards it says what the dots on them tell.
    """
    said = [sheet.section] if sheet.section else []
    if sheet.kind == SheetKind.PIECES and sheet.flip:
        said.append(words("foot.back", name=name) if name else words("foot.only_back"))
    elif name:
        said.append(words("foot.sheet", name=name))
    said.append(words(f"foot.{sheet.stock}"))
    if sheet.kerf and not sheet.flip:
        said.append(words("foot.thick"))
    if _is_folded(sheet):
        said.append(words("foot.fold"))
    if _tells_dots(sheet):
        said.append(words("foot.dots"))
    if sheet.kind in FOR_A_CHILD and not _is_folded(sheet):
        answers = sheet.flip and sheet.kind is not SheetKind.PIECES
        said.append(words("back.adult" if answers else "foot.child"))
    return said


def _is_folded(sheet: Sheet) -> bool:
    """Say whether ``sheet`` has cards to fold, whose backs are the adult's."""
    return sheet.kind is SheetKind.TASK_CARDS and bool(sheet.folds)


def _tells_dots(sheet: Sheet) -> bool:
    return sheet.number == 1 and any(_is_dotted(item) for item in sheet.items)


def _is_dotted(item: Item) -> bool:
    """Say whether ``item`` is the front of a card with a sum, whose dots tell how hard it is."""
    face = item.content
    return isinstance(face, CardFace) and isinstance(face.card, TaskCard) and not face.is_back


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
        step = 0
        while step <= int((inside.height - high) / _STEP):
            y = inside.bottom - high - step * _STEP
            strip = Rect(inside.x, y, inside.width, high)
            met = [s for s in sides if s[2] < strip.bottom and s[3] > y and s[0] < strip.right]
            for gap in _gaps(strip, met):
                if gap.width >= least - 1e-6:
                    return gap
            highest = max((top for _, _, top, _ in met), default=strip.bottom)
            # nothing gets freer before the strip has left the lowest of what it meets
            step += max(1, math.ceil((strip.bottom - highest) / _STEP - 1e-6))
    return None


def _gaps(strip: Rect, met: Iterable[_Sides]) -> Iterator[Rect]:
    """Yield the parts of ``strip`` from left to right that are free of what it has ``met``."""
    x, end = strip.x, strip.right
    for left, right in (*[(a, b) for a, b, _, _ in met], (end, end)):
        if left - x > 2 * ASIDE:
            yield Rect(x + ASIDE, strip.y, left - x - 2 * ASIDE, strip.height)
        x = max(x, right)
