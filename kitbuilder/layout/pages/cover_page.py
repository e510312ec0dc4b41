"""Turns the list of a kit's sheets into its cover: what to print, how, and how to check it."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from kitbuilder.design.load import Look, Words
from kitbuilder.design.style import Style
from kitbuilder.kit import phrases
from kitbuilder.kit.records import Kit, Say
from kitbuilder.layout.model import Item, Rect, Sheet, SheetKind
from kitbuilder.layout.page import Page
from kitbuilder.layout.pieces.sturdy import FOLDED
from kitbuilder.layout.text.flow import Figure, Group, flow, paragraph
from kitbuilder.layout.text.page_refs import guide_page
from kitbuilder.layout.text.table import table
from kitbuilder.number import Pieces

BAR = 100.0
"""Length in mm of the bars that show whether a print is at true size."""

BANK_CARD = (85.6, 53.98)
"""Width and height in mm of an ID-1 card (ISO/IEC 7810, from memory)."""

CORNER = 6.0
"""Length in mm of the two strokes of a corner mark."""

OF_A_WEEK = (SheetKind.WEEK, SheetKind.WORKSHEET, SheetKind.WORKSHEET_KEY)
"""Kinds of sheets that stand in one row of what to print."""

LISTED = 12
"""Sums named on the cover before it says how many more there are."""


@dataclass(frozen=True, slots=True)
class SizeCheck:
    """The bars and the bank card's outline to draw, with their words."""

    bar: str
    card: str


@dataclass(frozen=True, slots=True)
class CornerMarks:
    """Marks in the four corners of what must print; strokes ``length`` mm long."""

    length: float = CORNER


def cover_sheets(
    kit: Kit, sheets: Sequence[Sheet], style: Style, *, listed: bool
) -> tuple[Sheet, ...]:
    """Return the cover of a kit whose other sheets are ``sheets``; one page as a rule.

    With ``listed`` it says what to print; else it is one of many kits, and a print run does.
    """
    page = Page.upright(style.paper)
    marks = Item("corner_marks", page.inside, CornerMarks())
    area = page.inside.inset(CORNER)
    held = _to_cut(sheets) if listed else kit.pieces
    about = (*_about(kit, held, style, alone=listed), *_sturdy(sheets, style.words))

    def flowed(beside: bool) -> tuple[tuple[Item, ...], ...]:
        pages: tuple[tuple[Item, ...], ...] = ((),)
        for _ in range(4):  # the table's page numbers depend on how many pages come before
            before = len(pages)
            blocks = (
                *about,
                *_size_check(style, area, _cautions(style.words) if beside else ()),
                *(_contents(sheets, before, style, area) if listed else ()),
                *(() if beside else _cautions(style.words)),
            )
            pages = flow(blocks, area, style.look)
            if len(pages) == before:
                break
        return pages

    pages = min((flowed(beside) for beside in (True, False)), key=len)
    return tuple(
        Sheet(SheetKind.COVER, number, "paper", page.width, page.height, (marks, *items))
        for number, items in enumerate(pages, 1)
    )


def _to_cut(sheets: Sequence[Sheet]) -> Pieces:
    """Return all pieces on all copies of ``sheets``, spares among them."""
    found = Counter[str]()
    for sheet in sheets:
        for item in sheet.items:
            if sheet.kind == SheetKind.PIECES and not sheet.flip:
                found[item.what.removeprefix("folded_")] += sheet.copies
    return Pieces(found["ones"], found["tens"], found["hundreds"])


def _about(kit: Kit, held: Pieces, style: Style, *, alone: bool) -> list[Say | Figure]:
    unit = phrases.number(style.words, style.paper.unit_mm)
    made = style.words("cover.made_for", paper=style.paper.name, unit=unit)
    said = [f"{style.words('cover.lead')} {made}" if kit.pieces.value and kit.mats else made]
    if kit.limit:
        said.append(style.words("cover.made_for_within", limit=kit.limit))
    if kit.packs and kit.packs[0].name:
        said.append(style.words("cover.packs", count=len(kit.packs)))
    if kit.sums and _serves_sums(kit):
        named = [str(s) for s in kit.sums[:LISTED]]
        more = len(kit.sums) - len(named)
        named += [style.words("cover.more_sums", count=more)] if more else []
        said.append(style.words("cover.made_for_sums", sums=phrases.joined(style.words, named)))
    if kit.pieces.value:
        key = "cover.pieces_made" if alone else "cover.pieces_each"
        said.append(style.words(key, pieces=phrases.pieces(style.words, held)))
    return [Say("title", style.words("cover.title")), *(Say("body", text) for text in said)]


def _serves_sums(kit: Kit) -> bool:
    """Say whether anything printed is for the kit's own sums; small facts and arrows are not."""
    asked = any(pack.tasks for pack in kit.packs)
    return bool(asked or kit.pieces.value or kit.mats or kit.guide or kit.course.weeks)


def _sturdy(sheets: Sequence[Sheet], words: Words) -> list[Say | Figure]:
    """Return what must be known of pieces that are folded, or printed on both sides."""
    pieces = [sheet for sheet in sheets if sheet.kind == SheetKind.PIECES]
    said = []
    if any(item.what in FOLDED for sheet in pieces for item in sheet.items):
        said.append(Say("body", words("cover.sturdy_fold")))
    if any(sheet.flip for sheet in pieces):
        said.append(Say("body", words("cover.sturdy_backs")))
    return [*said]


def _size_check(style: Style, area: Rect, more: tuple[Say, ...]) -> list[Say | Figure]:
    """Return the size check with its steps and ``more`` beside it, or below on a narrow page."""
    steps = [
        Say("step", line, f"{n}.")
        for n, line in enumerate(style.words.lines("cover.check_steps"), 1)
    ]
    heading = Say("heading", style.words("cover.check"))
    check = SizeCheck(style.words("cover.bar"), style.words("cover.bank_card"))
    column = _column([*steps, *more], style.look, area)
    if not column:
        return [heading, *steps, Figure("size_check", BAR, BAR, check), *more]
    beside = (Item("size_check", Rect(0, 0, BAR, BAR), check), *column)
    high = max(item.rect.bottom for item in beside)
    return [heading, Figure("group", area.width, high, Group(beside))]


def _cautions(words: Words) -> tuple[Say, ...]:
    lines = words.lines("cover.cautions")
    return (Say("heading", words("cover.care")), *(Say("step", line, "–") for line in lines))


def _column(said: Sequence[Say], look: Look, area: Rect) -> tuple[Item, ...]:
    """Return paragraphs set one below the other beside the bars; none on a narrow page."""
    gap = 8.0
    room = area.width - BAR - gap
    if room < 60:
        return ()
    placed: list[Item] = []
    y = 0.0
    for say in said:
        y += 3.0 if say.style == "heading" else 0.0
        item, after = paragraph(say, Rect(BAR + gap, y, room, 1), look)
        placed.append(item)
        y = item.rect.bottom + after
    return tuple(placed)


def _contents(
    sheets: Sequence[Sheet], before: int, style: Style, area: Rect
) -> tuple[Say | Figure, ...]:
    """Return what to print, and where to read on when all is cut."""
    heading = Say("heading", style.words("cover.contents"))
    made: tuple[Say | Figure, ...] = (heading, _table(sheets, before, style, area))
    later = [before + k for k, sheet in enumerate(sheets, 1) if sheet.later]
    if later:
        made += (Say("body", style.words("cover.later", pages=ranges(later))),)
    guide = guide_page(sheets, before)
    return made if guide is None else (*made, Say("body", style.words("cover.then", page=guide)))


def ranges(pages: Sequence[int]) -> str:
    """Return page numbers in order, neighbours as a range: 3–5, 8."""
    runs: list[list[int]] = []
    for page in pages:
        if runs and page == runs[-1][1] + 1:
            runs[-1][1] = page
        else:
            runs.append([page, page])
    return ", ".join(str(a) if a == b else f"{a}–{b}" for a, b in runs)


def _table(sheets: Sequence[Sheet], before: int, style: Style, area: Rect) -> Figure:
    """Return the list of what to print at once."""
    keys = ("page", "what", "stock", "cut", "copies")
    rows = [tuple(style.words(f"cover.column_{key}") for key in keys)]
    first = before + 1
    groups = [list(same) for _, same in groupby(sheets, key=_belongs)]
    for group in groups:
        if group[0].later:
            first += len(group)
            continue
        titles = {sheet.kind for sheet in group}
        title = group[0].kind if len(titles) == 1 or titles <= set(OF_A_WEEK) else "cards"
        rows.append(_row(style.words(f"title.{title}"), first, group, style.words))
        first += len(group)
    return table(rows, area.width, style.look.type_mm.adult)


def _belongs(sheet: Sheet) -> tuple[str, int, bool]:
    """Return what sheets of one row have in common: a kind, or that they are pupils' cards, and
    how many copies are printed."""
    of_pupils = sheet.section and sheet.stock == "card"
    kind = SheetKind.WEEK if sheet.kind in OF_A_WEEK else sheet.kind
    return "" if of_pupils else kind, sheet.copies, sheet.later


def _row(what: str, first: int, group: Sequence[Sheet], words: Words) -> tuple[str, ...]:
    last = first + len(group) - 1
    pages = str(first) if first == last else f"{first}–{last}"
    stocks = dict.fromkeys(words(f"cover.stock_{sheet.stock}") for sheet in group)
    stock = phrases.joined(words, tuple(stocks))
    sides = next((sheet.flip for sheet in group if sheet.flip), None)
    if sides:
        stock = words(f"cover.sides_{sides}", stock=stock)
    cut = words("cover.cut_yes" if any(sheet.cuts for sheet in group) else "cover.cut_no")
    if any(sheet.folds for sheet in group):
        cut = words("cover.fold")
    return pages, what, stock, cut, str(max(sheet.copies for sheet in group))
