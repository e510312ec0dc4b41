"""Blocks: items placed together, which are then stacked, set side by side and shared out."""

from collections.abc import Iterable, Sequence
from itertools import pairwise
from typing import NamedTuple

from kitbuilder.layout.model import Item, NoRoomError, Rect

MOST_GAP = 7.0
"""The most that spare height adds to a gap between two blocks, in mm."""


class Block(NamedTuple):
    """Items that count from a top left of their own, and the room they take in mm."""

    items: tuple[Item, ...]
    width: float
    height: float

    def at(self, x: float, y: float) -> tuple[Item, ...]:
        """Return the items with the block's top left at (x, y)."""
        if not (x or y):
            return self.items
        new = tuple.__new__  # in half of the time: every rectangle was checked when it was made
        return tuple(
            [
                new(Item, (what, new(Rect, (left + x, top + y, width, height)), content))
                for what, (left, top, width, height), content in self.items
            ]
        )

    def moved(self, dx: float, dy: float) -> "Block":
        """Return the block with its items shifted and its room grown by as much."""
        return Block(self.at(dx, dy), self.width + dx, self.height + dy)

    def as_wide(self, width: float) -> "Block":
        """Return the block, counted as ``width`` mm wide."""
        return Block(self.items, width, self.height)

    def over(self, other: "Block") -> "Block":
        """Return both blocks on one top left, this one painted first."""
        wide, high = max(self.width, other.width), max(self.height, other.height)
        return Block((*self.items, *other.items), wide, high)


EMPTY = Block((), 0.0, 0.0)


def stack(blocks: Iterable[Block], gap: float = 0.0) -> Block:
    """Return ``blocks`` one below the other, ``gap`` mm apart; empty ones take no gap."""
    items: list[Item] = []
    wide = y = 0.0
    for block in blocks:
        if not block.height:
            continue
        y += gap if y else 0.0
        items += block.at(0, y)
        wide, y = max(wide, block.width), y + block.height
    return Block(tuple(items), wide, y)


def row(blocks: Sequence[Block], gap: float = 0.0) -> Block:
    """Return ``blocks`` side by side, ``gap`` mm apart, their tops in line."""
    items: list[Item] = []
    high = x = 0.0
    for block in blocks:
        x += gap if items else 0.0
        items += block.at(x, 0)
        high, x = max(high, block.height), x + block.width
    return Block(tuple(items), x, high)


def beside(left: Block, right: Block, gap: float = 1.6) -> Block:
    """Return two blocks side by side, their middles in line."""
    high = max(left.height, right.height)
    items = (
        *left.at(0, (high - left.height) / 2),
        *right.at(left.width + gap, (high - right.height) / 2),
    )
    return Block(items, left.width + gap + right.width, high)


def level(blocks: Sequence[Block]) -> tuple[Block, ...]:
    """Return ``blocks`` as high as the highest, each at its foot: what is below them is in line."""
    high = max(block.height for block in blocks)
    return tuple(Block(b.at(0, high - b.height), b.width, high) for b in blocks)


def shared(blocks: Sequence[Block], area: Rect, least: float, most: float = MOST_GAP) -> Block:
    """Return ``blocks`` stacked in ``area``, what height is spare shared between them.

    Gaps are at least ``least`` mm and grow by at most ``most``. Raises ``NoRoomError`` where
    they do not fit.
    """
    gaps = max(1, len(blocks) - 1)
    need = sum(block.height for block in blocks) + least * (len(blocks) - 1)
    if need > area.height + 1e-6:
        raise NoRoomError(f"blocks {need:.1f} mm high do not fit {area.height:.1f} mm")
    gap = least + min(most, (area.height - need) / gaps)
    found = stack(blocks, gap)
    return Block(found.at(area.x, area.y), area.width, found.height)


MOST_SPREAD = 60.0
"""The most that spare height adds to a gap on a page with little on it, in mm."""


MOST_CLEAR = 20.0
"""The most that such a page keeps clear of its foot, in mm."""


def paged(blocks: Sequence[Block], area: Rect, least: float) -> tuple[tuple[Item, ...], ...]:
    """Return the items of ``blocks`` on pages of ``area``, each page as full as it gets.

    Gaps are ``least`` mm or more: a page with little on it spreads it, so that no third of it
    is empty, and keeps clear of its foot. Lines without height stand between blocks
    alone, never first or last on a page.
    """
    return tuple(spread(some, area, least) for some in split(list(blocks), area, least))


def spread(page: Sequence[Block], area: Rect, least: float) -> tuple[Item, ...]:
    """Return the items of ``page``, spread over ``area``."""
    spare = area.height - sum(block.height for block in page) - least * (len(page) - 1)
    share = spare / len(page) if len(page) > 1 else 0.0
    clear = min(share, MOST_CLEAR) if share > MOST_GAP else 0.0
    found = shared(page, area.as_high(area.height - clear), least, MOST_SPREAD)
    spare = area.height - clear - found.height
    down = 0.5 * spare if spare > area.height / 6 else 0.0
    return found.moved(0, down).items


def split(left: list[Block], area: Rect, least: float) -> list[list[Block]]:
    """Return what stands on each page; a last page with little on it takes from that before."""
    pages: list[list[Block]] = []
    while left:
        taken, high = 1, left[0].height
        while taken < len(left) and high + least + left[taken].height <= area.height + 1e-6:
            high += least + left[taken].height
            taken += 1
        pages.append(_without_lines(left[:taken]))
        left = left[taken:]
        while left and left[0].height < 1:
            left = left[1:]
    if len(pages) > 1 and len(pages[-1]) == 1 and len(pages[-2]) > 2:
        moved = pages[-2][-1]
        if moved.height + least + pages[-1][0].height <= area.height:
            pages[-1].insert(0, moved)
            pages[-2] = _without_lines(pages[-2][:-1])
    return pages


def _without_lines(blocks: list[Block]) -> list[Block]:
    """Return ``blocks`` without lines at their end."""
    while len(blocks) > 1 and blocks[-1].height < 1:
        blocks = blocks[:-1]
    return blocks


def alike(blocks: Sequence[Block], room: float, gap: float) -> list[list[Block]]:
    """Return ``blocks`` in order on as few pages of ``room`` mm as hold them, filled alike.

    Alike: the squares of what stays free have the least sum. A block that is higher than a page
    has one of its own.
    """
    best: list[tuple[int, float, tuple[int, ...]]] = [(0, 0.0, ())]  # pages, squares, their ends
    for end in range(1, len(blocks) + 1):
        found = []
        for start in range(end):
            high = sum(block.height for block in blocks[start:end]) + gap * (end - start - 1)
            if high <= room + 1e-6 or end - start == 1:
                pages, squares, ends = best[start]
                found.append((pages + 1, squares + max(0.0, room - high) ** 2, (*ends, end)))
        best.append(min(found))
    ends = best[-1][2]
    return [list(blocks[a:b]) for a, b in pairwise((0, *ends))]


def without_rules(page: Sequence[Block]) -> Sequence[Block]:
    """Return ``page`` without a thin line at its top or foot."""
    while page and page[0].height < 0.1:
        page = page[1:]
    while page and page[-1].height < 0.1:
        page = page[:-1]
    return page
