"""Turns the list of a kit's sheets into its cover: what to print, how, and how to check it."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from kitbuilder import measure
from kitbuilder.designs import Look, Paper, Words
from kitbuilder.kit import phrases
from kitbuilder.kit.records import Kit, Say
from kitbuilder.sheet.flow import LEADING, Figure, Group, flow, paragraph
from kitbuilder.sheet.page import Page
from kitbuilder.sheet.records import Item, Rect, Sheet

BAR = 100.0
"""Length in mm of the bars that show whether a print is at true size."""

BANK_CARD = (85.6, 53.98)
"""Width and height in mm of an ID-1 card (ISO/IEC 7810, from memory)."""

CORNER = 6.0
"""Length in mm of the two strokes of a corner mark."""

LISTED = 12
"""Sums named on the cover before it says how many more there are."""


@dataclass(frozen=True, slots=True)
class Table:
    """A table to draw: rows of cells, headings first; ``columns`` are left edges in mm."""

    rows: tuple[tuple[str, ...], ...]
    columns: tuple[float, ...]
    size: float


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
    kit: Kit, sheets: Sequence[Sheet], paper: Paper, words: Words, look: Look
) -> tuple[Sheet, ...]:
    """Return the cover of a kit whose other sheets are ``sheets``; one page as a rule.

    Without ``sheets`` it does not say what to print.
    """
    page = Page.upright(paper)
    marks = Item("corner_marks", page.inside, CornerMarks())
    area = page.inside.inset(CORNER)
    pages: tuple[tuple[Item, ...], ...] = ((),)
    for _ in range(4):  # the table's page numbers depend on how many pages come before
        before = len(pages)
        blocks = (
            *_about(kit, paper, words),
            *_size_check(words, look, area),
            *_contents(sheets, before, words, look, area),
        )
        pages = flow(blocks, area, look)
        if len(pages) == before:
            break
    return tuple(
        Sheet("cover", number, "paper", page.width, page.height, (marks, *items))
        for number, items in enumerate(pages, 1)
    )


def _about(kit: Kit, paper: Paper, words: Words) -> list[Say | Figure]:
    made = words("cover.made_for", paper=paper.name, unit=f"{paper.unit_mm:g}")
    said = [f"{words('cover.lead')} {made}"]
    if kit.limit:
        said.append(words("cover.made_for_within", limit=kit.limit))
    if kit.sums:
        named = [str(s) for s in kit.sums[:LISTED]]
        more = len(kit.sums) - len(named)
        named += [words("cover.more_sums", count=more)] if more else []
        said.append(words("cover.made_for_sums", sums=phrases.joined(words, named)))
    if kit.pieces.value:
        said.append(words("cover.pieces_made", pieces=phrases.pieces(words, kit.pieces)))
    return [Say("title", words("cover.title")), *(Say("body", text) for text in said)]


def _size_check(words: Words, look: Look, area: Rect) -> list[Say | Figure]:
    """Return the size check with its steps and the cautions beside it, or below if narrow."""
    steps = [
        Say("step", line, f"{n}.") for n, line in enumerate(words.lines("cover.check_steps"), 1)
    ]
    care = [Say("heading", words("cover.care"))]
    care += [Say("step", line, "–") for line in words.lines("cover.cautions")]
    heading = Say("heading", words("cover.check"))
    check = SizeCheck(words("cover.bar"), words("cover.bank_card"))
    wide, high, gap = BAR, BAR, 8.0
    room = area.width - wide - gap
    if room < 60:
        return [heading, *steps, Figure("size_check", wide, high, check), *care]
    beside: list[Item] = [Item("size_check", Rect(0, 0, wide, high), check)]
    y = 0.0
    for said in (*steps, *care):
        y += 3.0 if said.style == "heading" else 0.0
        item, after = paragraph(said, Rect(wide + gap, y, room, 1), look)
        beside.append(item)
        y = item.rect.bottom + after
    return [heading, Figure("group", area.width, max(high, y), Group(tuple(beside)))]


def _contents(
    sheets: Sequence[Sheet], before: int, words: Words, look: Look, area: Rect
) -> list[Say | Figure]:
    if not sheets:
        return []
    return [Say("heading", words("cover.contents")), _table(sheets, before, words, look, area)]


def _table(sheets: Sequence[Sheet], before: int, words: Words, look: Look, area: Rect) -> Figure:
    keys = ("page", "what", "stock", "cut", "copies")
    rows = [tuple(words(f"cover.column_{key}") for key in keys)]
    first = before + 1
    rows.append(_row("cover", 1, before, "paper", False, 1, words))
    for title, same in groupby(sheets, key=lambda sheet: sheet.title):
        group = list(same)
        last = first + len(group) - 1
        cut = any(sheet.cuts for sheet in group)
        copies = max(sheet.copies for sheet in group)
        rows.append(_row(title, first, last, group[0].stock, cut, copies, words))
        first = last + 1
    size = look.type_mm.adult
    gap = 2 * size
    widths = [max(measure.width(row[i], size) for row in rows) + gap for i in range(len(keys))]
    columns = tuple(sum(widths[:i]) for i in range(len(keys)))
    return Figure(
        "table", area.width, len(rows) * LEADING * size, Table(tuple(rows), columns, size)
    )


def _row(
    title: str, first: int, last: int, stock: str, cut: bool, copies: int, words: Words
) -> tuple[str, ...]:
    pages = str(first) if first == last else f"{first}–{last}"
    yes = words("cover.cut_yes" if cut else "cover.cut_no")
    return pages, words(f"title.{title}"), words(f"cover.stock_{stock}"), yes, str(copies)
