"""The sheets of a cover, and which of its blocks stand on the page that is printed first."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from kitbuilder.design.style import Style
from kitbuilder.kit.records import CutWish, Kit
from kitbuilder.layout.cover.cover import INDENT, Cover
from kitbuilder.layout.cover.last_steps import last_steps
from kitbuilder.layout.cover.needs import needs
from kitbuilder.layout.cover.print_lists import later_weeks, ranges
from kitbuilder.layout.cover.size_check import CornerMarks, size_check, small_check
from kitbuilder.layout.cover.title import SMALLER, hero, purpose, small_hero, sums_told, tags
from kitbuilder.layout.cover.what_to_print import lists
from kitbuilder.layout.model import Item, Rect, Sheet, SheetKind
from kitbuilder.layout.parts.block import EMPTY, Block, alike, stack
from kitbuilder.layout.parts.furniture import Foot, foot
from kitbuilder.layout.parts.sheet_area import SheetArea
from kitbuilder.layout.parts.words import lines

LEAST = 1.4
"""The least space between two blocks, in mm."""


def cover_sheets(
    kit: Kit, sheets: Sequence[Sheet], style: Style, cutting: CutWish, file: str = ""
) -> tuple[Sheet, ...]:
    """Return the cover of a kit whose other sheets are ``sheets``; one page on A4 and Letter.

    It says what to print, but for one of many kits, where a print run does, and which files of
    the kind ``file`` a machine cuts from.
    """
    area = SheetArea.upright(style.paper)
    body, page = area.body(area.whole.y), area.page
    cover = Cover(kit, sheets, style, body.width, None, cutting, file)
    pages = _pages(cover, body)
    if cutting.kits == 1 and later_weeks(sheets) > 1:  # listed where that takes no further page
        listed = _pages(replace(cover, by_week=True), body)
        pages = listed if len(listed) == len(pages) else pages
    small = any(sheet.kind is SheetKind.PIECES for sheet in sheets)
    note = style.words("cover.small") if small else ""
    marks = Item("corner_marks", page.inside, CornerMarks())
    below = foot(Foot(note), area, style)
    return tuple(
        Sheet(SheetKind.COVER, number, "paper", page.width, page.height, (marks, *items, *below))
        for number, items in enumerate(pages, 1)
    )


def _pages(cover: Cover, body: Rect) -> tuple[tuple[Item, ...], ...]:
    """Return the items of a cover's pages; the lists' page numbers depend on how many there are."""
    pages: tuple[tuple[Item, ...], ...] = ((),)
    for _ in range(4):
        before = len(pages)
        listed = before if cover.cutting.kits == 1 else None
        pages = tuple(_paged(*_blocks(replace(cover, before=listed), body.height), body))
        if len(pages) == before:
            break
    return pages


def _paged(first: Sequence[Block], rest: Sequence[Block], body: Rect) -> Iterator[tuple[Item, ...]]:
    """Yield the items of as few pages as hold the blocks in order, air shared between them.

    The ``first`` stand on one page: its size is checked on it before anything else is printed.
    """
    after = [block for block in rest if block.height]
    kept, *runs = alike([stack(first, LEAST), *after], body.height, LEAST)
    for run in ([*first, *kept[1:]], *runs):
        spare = body.height - sum(block.height for block in run)
        gap = min(48.0, spare / len(run)) if len(run) > 1 else 0.0
        yield stack(run, max(1.0, gap)).at(body.x, body.y)


def _blocks(cover: Cover, room: float) -> tuple[list[Block], list[Block]]:
    """Return the blocks of the page that is printed first, ``room`` mm high, and what follows."""
    name = "alone" if cover.before is not None else "alone_run"  # a print run comes before it
    alone = cover.step(1, name, cover.width, "printer", "cover.alone_told", _goes_on(cover))
    top, check = hero(cover), size_check(cover)
    rest, last = lists(cover), last_steps(cover)
    tight = _high([top, alone, check]) > room
    if tight:  # the size is checked on the page that is printed alone
        check, said = small_check(cover), purpose(cover)
        for count in range(len(said), -1, -1):
            top = small_hero(cover, said[:count])
            if _high([top, alone, check]) <= room:
                break
        later = [lines(one, cover.sets.text, cover.width) for one in said[count:]]
        below = tags(cover, cover.width - INDENT).moved(INDENT, 0)
        last[-1:] = [stack((*last[-1:], below), 3.0), *later]
    strip = needs(cover) if cover.before is not None else EMPTY  # a print run tells of a whole set
    after = [strip, *rest, *last]
    if cover.wide and cover.before is not None:
        heroes = (top, *(hero(cover, part) for part in SMALLER))
        fits = (some for some in heroes if _high([some, alone, check, *after]) <= room)
        if small := next(fits, None):
            return [small, strip, alone, check], [*rest, *last]
    if not tight and not cover.wide and _high([top, alone, check, *after]) > room:
        for sums in (tags(cover, cover.width), sums_told(cover)):  # all on one page, if it can be
            small = stack((small_hero(cover, purpose(cover)), sums), 2.0)
            if _high([small, alone, small_check(cover), *after]) <= room:
                return [small, alone, small_check(cover)], after
    return [top, alone, check], after


def _goes_on(cover: Cover) -> str:
    """Return which further pages of the cover are printed and read, if there are any."""
    later = range(2, (cover.before or 0) + 1)
    if len(later) > 1:
        return cover.words("cover.next_pages", pages=ranges(later))
    return cover.words("cover.next_page", pages=ranges(later)) if later else ""


def _high(blocks: Sequence[Block]) -> float:
    """Return how high ``blocks`` are with the least space between them, in mm."""
    return sum(block.height + LEAST for block in blocks if block.height) - LEAST
