"""Paragraphs and figures laid one below the other, page after page."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from kitbuilder.design import metrics
from kitbuilder.design.load import Look
from kitbuilder.errors import RefusedError
from kitbuilder.kit.records import Say
from kitbuilder.layout.model import Item, Rect

LEADING = 1.4
"""Line spacing, as a multiple of the size of type."""

_BREAKS = {"heading": 0.0, "under": 0.3}
_BREAK = 0.6
# What it costs to begin a page with a heading, one under it, or anything else; the squares of
# the empty parts of pages are added.


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
    """Place ``blocks`` in ``area``, on as few pages as can be.

    Among these pages end where a heading follows if they can, and are filled alike. A heading,
    or one under it, is never the last thing on a page. Figures narrower than half the area
    stand beside each other. Raises ``RefusedError`` for a figure larger than the area.
    """
    rows = _rows(blocks, area, look)
    high = max((row.height for row in rows), default=0.0)
    if high > area.height + 1e-6:
        raise RefusedError(
            "page.too-low", field="paper", width=area.width, height=area.height, high=round(high)
        )
    return tuple(_stacked(rows[first:end], area) for first, end in pairwise(_starts(rows, area)))


_Pages = tuple[int, int, float, tuple[int, ...]]
"""How often a heading is parted from what follows, pages, their cost, and where each begins."""


def _starts(rows: Sequence["_Row"], area: Rect) -> tuple[int, ...]:
    """Return the row that each page begins with, and the number of rows."""
    best: list[_Pages] = [(0, 0, 0.0, (0,))]
    for end in range(1, len(rows) + 1):
        parted = end < len(rows) and rows[end - 1].keeps_next
        ways: list[_Pages] = []
        high = 0.0
        for first in range(end - 1, -1, -1):
            row = rows[first]
            high += row.height + (row.after + rows[first + 1].before if first < end - 1 else 0.0)
            if high > area.height + 1e-6:
                break
            breaks, pages, cost, starts = best[first]
            cost += (1 - high / area.height) ** 2 + (row.cost if first else 0.0)
            ways.append((breaks + parted, pages + 1, cost, (*starts, end)))
        best.append(min(ways))
    return best[-1][3] if rows else (0, 0)


def _stacked(rows: Sequence["_Row"], area: Rect) -> tuple[Item, ...]:
    """Place ``rows`` one below the other from the top of ``area``."""
    found: list[Item] = []
    y = area.y
    for position, row in enumerate(rows):
        y += row.before if position else 0.0
        for item in row.items:
            found.extend(_placed(item, y))
        y += row.height + row.after
    return tuple(found)


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
    """Items side by side, their tops at 0, with the space before and after them in mm.

    ``cost`` is what it costs to begin a page with it.
    """

    items: tuple[Item, ...]
    before: float = 0.0
    after: float = 0.0
    keeps_next: bool = False
    cost: float = _BREAK

    @property
    def height(self) -> float:
        return max(item.rect.height for item in self.items)


def _rows(blocks: Iterable[Say | Figure], area: Rect, look: Look) -> list[_Row]:
    rows: list[_Row] = []
    for block in blocks:
        if isinstance(block, Say):
            rows.append(_paragraph(block, area, look))
            continue
        if block.width > area.width + 1e-6:
            raise RefusedError(
                "page.too-narrow", field="paper", width=area.width, wide=round(block.width)
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
    lines = metrics.wrap(say.text, size, area.width - indent)
    for line in lines:
        if metrics.width(line, size) > area.width - indent:
            raise RefusedError("page.long-word", field="paper", given=line, size=size)
    rect = Rect(area.x, area.y, area.width, len(lines) * LEADING * size)
    after = {"title": 2.0, "heading": 0.8, "under": 1.5, "body": 1.5, "step": 0.8}[say.style]
    return Item("text", rect, TextBlock(lines, size, say.marker, indent)), after


def _paragraph(say: Say, area: Rect, look: Look) -> _Row:
    item, after = paragraph(say, Rect(area.x, 0, area.width, area.height), look)
    before = 0.7 * look.type_mm.heading if say.style == "heading" else 0.0
    cost = _BREAKS.get(say.style, _BREAK)
    return _Row((item,), before, after, say.style in _BREAKS, cost)


ADULT_INSET = 8.0
"""Space in mm between an adult's page's text and its margins."""
