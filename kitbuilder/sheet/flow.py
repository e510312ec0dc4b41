"""Turns paragraphs and figures into items one below the other, page after page."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from kitbuilder import measure
from kitbuilder.designs import Look, Paper
from kitbuilder.errors import RefusedError
from kitbuilder.kit.records import Say
from kitbuilder.sheet.page import Page
from kitbuilder.sheet.records import Item, Rect, Sheet

LEADING = 1.4
"""Line spacing, as a multiple of the size of type."""

FEW = 0.2
"""Share of a page that is too little for the last one."""

ENDS = (0.95, 0.9, 0.85, 0.8, 0.75, 0.7, 0.65, 0.6)
"""Where earlier pages may end then, as shares of their height: the first that leaves enough."""


@dataclass(frozen=True, slots=True)
class TextBlock:
    """A paragraph broken into lines: size in mm, and a marker hanging left of ``indent`` mm."""

    lines: tuple[str, ...]
    size: float
    marker: str = ""
    indent: float = 0.0


@dataclass(frozen=True, slots=True)
class Figure:
    """Something drawn in a box of its own, ``width`` by ``height`` mm, with a gap below it.

    There may be space ``before`` it too, where something stands above.
    """

    what: str
    width: float
    height: float
    content: object
    gap: float = 4.0
    before: float = 0.0


@dataclass(frozen=True, slots=True)
class Group:
    """Items that stay together; their rectangles count from the group's top left."""

    items: tuple[Item, ...]


def flow(blocks: Iterable[Say | Figure], area: Rect, look: Look) -> tuple[tuple[Item, ...], ...]:
    """Place ``blocks`` in ``area``, going on to a new page where one is full.

    A heading, or one under it, is never the last thing on a page. Where little would be left
    for the last page, earlier ones end sooner if that costs no page. Figures narrower than half
    the area stand beside each other. Raises ``RefusedError`` for a figure larger than the area.
    """
    rows = _rows(blocks, area, look)
    full = _paged(rows, area, area.height)
    if len(full) == 1 or _filled(full[-1], area) >= FEW:
        return full
    evened = (_paged(rows, area, share * area.height) for share in ENDS)
    enough = (one for one in evened if len(one) == len(full) and _filled(one[-1], area) >= FEW)
    return next(enough, full)


def _filled(page: Sequence[Item], area: Rect) -> float:
    """Return how much of ``area``'s height what stands on ``page`` takes."""
    return (max((item.rect.bottom for item in page), default=area.y) - area.y) / area.height


def _paged(rows: Sequence["_Row"], area: Rect, most: float) -> tuple[tuple[Item, ...], ...]:
    """Place ``rows``; a page ends before a row that would go beyond ``most`` mm of it.

    Only a row too high for that goes on to the end of its page.
    """
    pages: list[list[Item]] = [[]]
    y = area.y
    for position, row in enumerate(rows):
        height = max(i.rect.height for i in row.items)
        keep = _kept(rows[position:])
        before = row.before if pages[-1] else 0.0
        if pages[-1] and y + before + height + keep > area.y + most + 1e-6:
            pages.append([])
            y, before = area.y, 0.0
        if y + before + height > area.bottom + 1e-6:
            raise RefusedError(
                f"The page prints {area.width:g} by {area.height:g} mm, too small for something "
                f"{height:.0f} mm high; choose a larger paper."
            )
        for item in row.items:
            pages[-1].extend(_placed(item, y + before))
        y += before + height + row.after
    return tuple(tuple(page) for page in pages)


def _kept(rows: Sequence["_Row"]) -> float:
    """Return the height of what must stand on the page of the first of ``rows`` below it."""
    high = 0.0
    for row, below in pairwise(rows):
        if not row.keeps_next:
            break
        high += row.after + below.height
    return high


def _placed(item: Item, y: float) -> tuple[Item, ...]:
    """Move ``item`` down by ``y``; a group falls apart into its items, moved to its place."""
    rect = item.rect.moved(0, y)
    if isinstance(item.content, Group):
        return tuple(
            Item(i.what, i.rect.moved(rect.x, rect.y), i.content) for i in item.content.items
        )
    return (Item(item.what, rect, item.content),)


@dataclass(frozen=True, slots=True)
class _Row:
    """Items side by side, their tops at 0, with the space before and after them in mm."""

    items: tuple[Item, ...]
    before: float = 0.0
    after: float = 0.0
    keeps_next: bool = False

    @property
    def height(self) -> float:
        return self.before + max(i.rect.height for i in self.items)


def _rows(blocks: Iterable[Say | Figure], area: Rect, look: Look) -> list[_Row]:
    rows: list[_Row] = []
    for block in blocks:
        if isinstance(block, Say):
            rows.append(_paragraph(block, area, look))
            continue
        if block.width > area.width + 1e-6:
            raise RefusedError(
                f"The page prints {area.width:g} mm across, too narrow for something "
                f"{block.width:.0f} mm wide; choose a larger paper."
            )
        last = rows[-1].items if rows else ()
        right = last[-1].rect.right + block.gap if last and last[-1].what == block.what else None
        if right is not None and right + block.width <= area.right + 1e-6:
            item = Item(block.what, Rect(right, 0, block.width, block.height), block.content)
            rows[-1] = replace(rows[-1], items=(*last, item))
        else:
            item = Item(block.what, Rect(area.x, 0, block.width, block.height), block.content)
            rows.append(_Row((item,), block.before, block.gap))
    return rows


def paragraph(say: Say, area: Rect, look: Look, size: float | None = None) -> tuple[Item, float]:
    """Return ``say`` set at the top of ``area``, and the space in mm that belongs after it.

    ``size`` is the height of type in mm, that of its style if not given. The item is as wide
    as the area and as high as its lines. Raises ``RefusedError`` for a word wider than the area.
    """
    sizes = {"title": look.type_mm.title, "heading": look.type_mm.heading}
    size = size or sizes.get(say.style, look.type_mm.adult)
    indent = 1.8 * size if say.marker else 0.0
    lines = measure.wrap(say.text, size, area.width - indent)
    for line in lines:
        if measure.width(line, size) > area.width - indent:
            raise RefusedError(f"{line!r} is too long for the page; choose a larger paper.")
    rect = Rect(area.x, area.y, area.width, len(lines) * LEADING * size)
    after = {"title": 2.0, "heading": 0.8, "under": 1.5, "body": 1.5, "step": 0.8}[say.style]
    return Item("text", rect, TextBlock(lines, size, say.marker, indent)), after


def _paragraph(say: Say, area: Rect, look: Look) -> _Row:
    item, after = paragraph(say, Rect(area.x, 0, area.width, area.height), look)
    before = 0.7 * look.type_mm.heading if say.style == "heading" else 0.0
    return _Row((item,), before, after, say.style in ("heading", "under"))


ADULT_INSET = 8.0
"""Space in mm between an adult's page's text and its margins."""


def flowed(
    title: str, blocks: Sequence[Say | Figure], paper: Paper, look: Look, section: str = ""
) -> tuple[Sheet, ...]:
    """Return the pages of paper that ``blocks`` flow over, none for no blocks."""
    if not blocks:
        return ()
    page = Page.upright(paper)
    pages = flow(blocks, page.inside.inset(ADULT_INSET), look)
    return tuple(
        Sheet(title, number, "paper", page.width, page.height, items, section=section)
        for number, items in enumerate(pages, 1)
    )
