"""A grid of sheets that a mat is printed on, and what lies on which of them."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from itertools import accumulate
from typing import NamedTuple

from kitbuilder.design.load import Paper
from kitbuilder.frozen import frozen
from kitbuilder.layout.model import Rect
from kitbuilder.layout.printable import Page

GLUE = 8.0
"""Millimetres of a sheet that lie under the one it is glued to, at the least."""

FOOT = 8.0
"""Height in mm of a page's foot, below the mat and what is said of its joins."""

SLIVER = 30.0
"""Least part of a row of zones, in mm, that a join may leave on a sheet."""

BETWEEN, THROUGH = 3, 9
"""What a join through a stretch costs, where one between two costs 1: between pieces, or not."""

_EPS = 1e-6


def page_of(paper: Paper, turned: bool) -> Page:
    """Return the page of ``paper``, upright or lying on its long side."""
    return Page.turned(paper) if turned else Page.upright(paper)


@dataclass(frozen=True)
class Grid:
    """Sheets of one size, all lying the same way, ``across`` of them in each of ``down`` rows.

    Below its part of the mat each keeps ``note`` mm clear, for what is said of its joins.
    """

    paper: Paper
    turned: bool
    across: int
    down: int
    note: float = 0.0

    @cached_property
    def page(self) -> Page:
        """One page, lying as all do."""
        return page_of(self.paper, self.turned)

    @cached_property
    def area(self) -> Rect:
        """The part of a page that may hold a mat, in the page's mm."""
        inside = self.page.inside
        return Rect(inside.x, inside.y, inside.width, inside.height - FOOT - self.note)

    @property
    def glued(self) -> tuple[float, float]:
        """How far a glued sheet's part of the mat stands from the margin: right, down, in mm."""
        area = self.area
        return max(0.0, GLUE - area.x), max(0.0, GLUE - area.y)

    @cached_property
    def widths(self) -> tuple[float, ...]:
        """The width of the mat on each sheet of a row, mm."""
        wide, less = self.area.width, self.glued[0]
        return (wide, *(wide - less,) * (self.across - 1))

    @cached_property
    def heights(self) -> tuple[float, ...]:
        """The height of the mat on each sheet of a column, mm."""
        high, less = self.area.height, self.glued[1]
        return (high, *(high - less,) * (self.down - 1))

    @cached_property
    def tiles(self) -> tuple[Rect, ...]:
        """The part of the mat on each sheet, row by row, in the mat's mm."""
        rows = zip(accumulate((0.0, *self.heights)), self.heights, strict=False)
        return tuple(
            Rect(x, y, wide, high)
            for y, high in rows
            for x, wide in zip(accumulate((0.0, *self.widths)), self.widths, strict=False)
        )

    def spot(self, index: int) -> tuple[float, float]:
        """Return where on its page the tile of that index begins, mm."""
        right, down = self.glued
        area, row, column = self.area, index // self.across, index % self.across
        return area.x + right * (column > 0), area.y + down * (row > 0)


class Stretch(NamedTuple):
    """A stretch of a mat, across or down, that takes ``least`` mm and may grow where it ``grows``.

    A join may run through it between pieces at ``stops`` (mm from its start); through pieces
    if it is ``cuttable``; or where it begins, unless it is ``tied`` to the one before.
    """

    least: float
    tied: bool = False
    grows: bool = True
    stops: tuple[float, ...] = ()
    cuttable: bool = True


@frozen
class Stretches:
    """The sizes of stretches in mm over full sheets, and what the joins through them cost."""

    sizes: tuple[float, ...]
    cost: int

    @property
    def edges(self) -> tuple[float, ...]:
        """Where the first begins, each next one, and the last ends, mm."""
        return tuple(accumulate((0.0, *self.sizes)))


@lru_cache(1024)  # asked again for smaller headings
def divide(stretches: tuple[Stretch, ...], sheets: tuple[float, ...]) -> Stretches | None:
    """Return the cheapest way to lay ``stretches`` over sheets of so many mm, or None.

    Every sheet is filled: what is left is shared equally by the stretches on it that grow.
    """
    if sum(one.least for one in stretches) > sum(sheets) + len(sheets) * _EPS:
        return None
    best = _filling(stretches, sheets, (0, stretches[0].least), {})
    return Stretches(_grown(stretches, best[0], sheets), best[1]) if best else None


_Bands = tuple[tuple[tuple[int, float], ...], ...]
# For each sheet the stretches on it, by index, and how much of each.

_Begin = tuple[int, float]
# The stretch that sheets begin with, by index, and how many mm of it remain.

_Known = dict[tuple[_Begin, int], tuple[_Bands, int] | None]
# The cheapest ways that were found, by how they begin and on how many sheets.


def _filling(
    stretches: Sequence[Stretch], sheets: tuple[float, ...], begin: _Begin, known: _Known
) -> tuple[_Bands, int] | None:
    """Return the cheapest way to fill ``sheets``, the first of several, and what it costs."""
    key = begin, len(sheets)
    if key not in known:
        ways = _fillings(stretches, sheets, begin, known)
        known[key] = min(ways, key=lambda way: way[1], default=None)
    return known[key]


def _fillings(
    stretches: Sequence[Stretch], sheets: tuple[float, ...], begin: _Begin, known: _Known
) -> Iterator[tuple[_Bands, int]]:
    """Yield every way to fill the first of ``sheets``, the cheapest to fill the others after it."""
    start, left = begin
    band: list[tuple[int, float]] = []
    room = sheets[0]
    for index in range(start, len(stretches)):
        here = stretches[index]
        least = left if index == start else here.least
        if len(sheets) > 1:
            for part, cost in _parts(here, least, room):
                rest = max(SLIVER if cost == THROUGH else 0.0, least - part)
                some = (*band, (index, part))
                after = _filling(stretches, sheets[1:], (index, rest), known)
                if after and _fills(stretches, some, sheets[0]):
                    yield (some, *after[0]), cost + after[1]
        if least > room + _EPS:
            return
        band.append((index, least))
        room -= least
        if not _fills(stretches, band, sheets[0]):
            continue
        if index + 1 == len(stretches):
            if len(sheets) == 1:
                yield (tuple(band),), 0
        elif len(sheets) > 1 and not stretches[index + 1].tied:
            following = index + 1, stretches[index + 1].least
            after = _filling(stretches, sheets[1:], following, known)
            if after:
                yield (tuple(band), *after[0]), 1 + after[1]


def _fills(stretches: Sequence[Stretch], band: Sequence[tuple[int, float]], sheet: float) -> bool:
    """Say whether what is on a sheet fills it, or grows to."""
    spare = sheet - sum(size for _, size in band)
    return spare <= _EPS or any(stretches[index].grows for index, _ in band)


def _parts(stretch: Stretch, left: float, room: float) -> Iterator[tuple[float, int]]:
    """Yield how much of a stretch may end a sheet with so much room, and what that costs."""
    done = stretch.least - left
    stops = [s - done for s in stretch.stops if done + _EPS < s <= done + room + _EPS]
    if stops:
        yield max(stops), BETWEEN
    elif stretch.cuttable and room >= SLIVER:
        yield room, THROUGH


def _grown(
    stretches: Sequence[Stretch], bands: _Bands, sheets: tuple[float, ...]
) -> tuple[float, ...]:
    """Return the sizes with every sheet filled."""
    sizes = [0.0] * len(stretches)
    for band, sheet in zip(bands, sheets, strict=True):
        growing = sum(stretches[index].grows for index, _ in band)
        spare = sheet - sum(size for _, size in band)
        for index, size in band:
            sizes[index] += size + (spare / growing if stretches[index].grows else 0.0)
    return tuple(sizes)
