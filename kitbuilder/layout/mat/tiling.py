"""Turns the size of a mat into sheets: how many, which turned, and where they join."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from math import ceil

from kitbuilder.design.load import Paper
from kitbuilder.layout.model import Rect
from kitbuilder.layout.page import Page

SLIVER = 20.0
"""Least part of a zone, in mm, that a join may leave on a sheet."""

INSIDE = 6
"""What a join through a zone costs, against a join between two."""

_EPS = 1e-6


@dataclass(frozen=True, slots=True)
class Segment:
    """A stretch of a mat, across or down: a column, a row of zones, a line of labels.

    ``least`` mm; ``splits`` if a join may run through it; ``grows`` if it takes room that is
    left; ``before`` is what a join at its start costs.
    """

    least: float
    splits: bool
    grows: bool
    before: int


@dataclass(frozen=True, slots=True)
class Division:
    """Sizes of the segments in mm, where the joins lie, and what the joins cost."""

    sizes: tuple[float, ...]
    joins: tuple[float, ...]
    cost: int

    @property
    def length(self) -> float:
        """All segments together, mm."""
        return sum(self.sizes)

    @property
    def edges(self) -> tuple[float, ...]:
        """Where the first segment starts, each next one, and the last ends, mm."""
        found = [0.0]
        for size in self.sizes:
            found.append(found[-1] + size)
        return tuple(found)


@dataclass(frozen=True, slots=True)
class Tiling:
    """Bands of sheets: rows from top to bottom, or columns from left to right if not ``rows``.

    Each band is (turned, how many sheets).
    """

    rows: bool
    bands: tuple[tuple[bool, int], ...]

    @property
    def sheets(self) -> int:
        """How many sheets in all."""
        return sum(count for _, count in self.bands)

    @property
    def mixed(self) -> bool:
        """Say whether some sheets are turned and some are not."""
        return len({turned for turned, _ in self.bands}) > 1


@cache
def printable(paper: Paper, turned: bool) -> Rect:
    """Return the part of the page that prints, lying on its long side or not, mm."""
    return (Page.turned(paper) if turned else Page.upright(paper)).inside


def tilings(width: float, height: float, paper: Paper, sheets: int) -> Iterator[Tiling]:
    """Yield the tilings of ``sheets`` sheets that cover ``width`` by ``height`` mm."""
    for rows in (True, False):
        across = [
            _per_band(width if rows else height, paper, rows, turned) for turned in (False, True)
        ]
        deep = [_depth(paper, rows, turned) for turned in (False, True)]
        length = height if rows else width
        for plain in range(sheets // across[0] + 1):
            turned, odd = divmod(sheets - plain * across[0], across[1])
            if odd or plain * deep[0] + turned * deep[1] < length - _EPS:
                continue
            some = ((False, across[0]),) * plain
            others = ((True, across[1]),) * turned
            if some and others:
                yield Tiling(rows, some + others)
                yield Tiling(rows, others + some)
            elif rows:
                yield Tiling(rows, some + others)


def divide(
    segments: tuple[Segment, ...], caps: tuple[float, ...], *, grow: bool
) -> Division | None:
    """Return the cheapest way to lay ``segments`` over sheets of ``caps`` mm, or None.

    With ``grow`` every sheet is filled by the segments that grow; without it the segments
    keep their least size. A join runs through a segment only where it splits.
    """
    best: Division | None = None
    for bands, cost in _fillings(segments, caps, 0, segments[0].least, grow):
        if best is None or cost < best.cost:
            sizes = [0.0] * len(segments)
            joins = [0.0]
            for band, cap in zip(bands, caps, strict=True):
                grown = _grown(segments, band, cap) if grow else band
                for index, size in grown:
                    sizes[index] += size
                joins.append(joins[-1] + sum(size for _, size in grown))
            best = Division(tuple(sizes), tuple(joins[1:-1]), cost)
    return best


def cover(across: tuple[float, ...], down: tuple[float, ...]) -> tuple[Rect, ...]:
    """Return the rectangles between the edges ``across`` and ``down``, row by row."""
    return tuple(
        Rect(x1, y1, x2 - x1, y2 - y1) for y1, y2 in pairwise(down) for x1, x2 in pairwise(across)
    )


def clear_spans(rect: Rect, tiles: tuple[Rect, ...]) -> tuple[Rect, ...]:
    """Return the parts of ``rect`` that lie on one tile each."""
    found = []
    for tile in tiles:
        x, y = max(rect.x, tile.x), max(rect.y, tile.y)
        right, bottom = min(rect.right, tile.right), min(rect.bottom, tile.bottom)
        if right - x > _EPS and bottom - y > _EPS:
            found.append(Rect(x, y, right - x, bottom - y))
    return tuple(found)


_Band = tuple[tuple[int, float], ...]


def _fillings(
    segments: tuple[Segment, ...], caps: tuple[float, ...], start: int, left: float, grow: bool
) -> Iterator[tuple[tuple[_Band, ...], int]]:
    """Yield every way to fill ``caps`` from segment ``start``, of which ``left`` mm remain."""
    band: list[tuple[int, float]] = []
    room = caps[0]
    for index in range(start, len(segments)):
        segment = segments[index]
        least = left if index == start else segment.least
        here = room if grow else min(room, least - SLIVER)
        if len(caps) > 1 and segment.splits and here >= SLIVER:
            rest = max(SLIVER, least - here)
            inside = (*band, (index, here))
            for bands, cost in _fillings(segments, caps[1:], index, rest, grow):
                yield (inside, *bands), cost + INSIDE
        if least > room + _EPS:
            return
        band.append((index, least))
        room -= least
        if index + 1 == len(segments):
            if len(caps) == 1:
                yield (tuple(band),), 0
        elif len(caps) > 1:
            after = segments[index + 1]
            for bands, cost in _fillings(segments, caps[1:], index + 1, after.least, grow):
                yield (tuple(band), *bands), cost + after.before


def _grown(segments: tuple[Segment, ...], band: _Band, cap: float) -> _Band:
    growing = sum(size for index, size in band if segments[index].grows)
    if growing <= 0:
        return band
    factor = 1 + (cap - sum(size for _, size in band)) / growing
    return tuple((index, size * factor if segments[index].grows else size) for index, size in band)


def _per_band(span: float, paper: Paper, rows: bool, turned: bool) -> int:
    area = printable(paper, turned)
    return max(1, ceil((span - _EPS) / (area.width if rows else area.height)))


def _depth(paper: Paper, rows: bool, turned: bool) -> float:
    area = printable(paper, turned)
    return area.height if rows else area.width
