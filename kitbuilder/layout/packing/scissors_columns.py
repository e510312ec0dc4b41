"""Pieces in columns ten units wide, to be cut with a pair of scissors.

One cut takes the foot off the sheet, a few run lengthways between the columns, then every line
across is cut, and strips of ones are snipped. A column holds hundreds, then tens lying across,
then strips of ten ones. Only where there is no room otherwise stands a narrow column beside
them: tens upright, side by side, and ones in its last rows. Filled to the end, the columns hold
whatever :func:`kitbuilder.layout.packing.grid.holds` allows.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import IntEnum

from kitbuilder.frozen import frozen
from kitbuilder.layout.packing.grid import Counts, Grid
from kitbuilder.layout.packing.guillotine import OFFCUT, Axis, Part, join, leaf, walk

LETTER_ROOM = 900
"""Clear space that the letters of the cuts need above and below the columns, hundredths of a mm."""


class Step(IntEnum):
    """The steps in which a sheet is cut with scissors."""

    FOOT = 1
    LENGTHWAYS = 2
    ACROSS = 3
    SNIP = 4


@frozen
class Shapes:
    """What hundreds, tens and ones are called, and how many rows of a column the first two take."""

    names: tuple[str, str, str] = ("hundreds", "tens", "ones")
    hundred: int = 10
    ten: int = 1


PLAIN = Shapes()
DOUBLED = Shapes(("folded_hundreds", "folded_tens", "ones"), 20, 2)
"""Hundreds and tens printed twice side by side, to be folded."""


@dataclass(slots=True)
class _Column:
    """A column ``width`` units wide from the left, and what lies in it, in rows."""

    free: int
    hundreds: int = 0
    tens: int = 0
    ones: int = 0


@frozen
class _Block:
    """Wide columns, a narrow one of ``narrow`` units (0: none), all ``rows`` units long.

    ``groups`` are the (tens, ones) that stand in the narrow column, ten rows each; ``corner``
    are the ones in its last rows.
    """

    wide: tuple[_Column, ...]
    narrow: int
    rows: int
    groups: tuple[tuple[int, int], ...]
    corner: int


def column_sheet(
    counts: Counts, grid: Grid, shapes: Shapes = PLAIN, *, footed: bool = False
) -> Part | None:
    """Return the tree of a sheet that holds ``counts`` in columns, or None if they do not fit.

    Of all columns those that fewest cuts divide are taken, upright ones rather than lying ones;
    with ``footed`` only those that leave a foot and room for letters.
    """
    ways: list[tuple[tuple[int, int], Part]] = []
    for turned, page in ((False, grid), (True, grid.turned())):
        for block in _blocks(counts, page, shapes):
            sheet = _Builder(page, shapes).sheet(block)
            if footed and sheet.step != Step.FOOT:
                continue
            leaves = sum(part.halves is None for *_, part in walk(sheet))
            ways.append(((leaves + 2 * turned, block.rows), _flipped(sheet, turned)))
    return min(ways, key=lambda way: way[0])[1] if ways else None


def upright_sheet(counts: Counts, grid: Grid) -> Part | None:
    """Return the tree of a sheet with ``counts`` in the shortest standing columns, or None."""
    blocks = list(_blocks(counts, grid, PLAIN))
    if not blocks:
        return None
    return _Builder(grid, PLAIN).sheet(min(blocks, key=lambda block: block.rows))


def fits(counts: Counts, grid: Grid, shapes: Shapes = PLAIN) -> bool:
    """Say whether a sheet holds ``counts`` in columns."""
    return any(next(_blocks(counts, page, shapes), None) for page in (grid, grid.turned()))


def _blocks(counts: Counts, grid: Grid, shapes: Shapes) -> Iterator[_Block]:
    """Yield the shortest columns that hold ``counts``; narrow ones only where there must be."""
    most = grid.across // 10
    found = False
    for narrow in range(grid.across % 10 + 1):
        for wide in range(most if narrow else 1, most + 1):
            if not wide + narrow:
                continue
            hundreds, tens, ones = counts
            area = 10 * (shapes.hundred * hundreds + shapes.ten * tens) + ones
            for rows in range(max(1, -(-area // (10 * wide + narrow))), grid.down + 1):
                block = _filled(counts, wide, narrow, rows, shapes)
                if block:
                    found = True
                    yield block
                    break
        if found:
            return


def _filled(counts: Counts, wide: int, narrow: int, rows: int, shapes: Shapes) -> _Block | None:
    """Return columns of so many rows that hold ``counts``, or None if they do not."""
    hundreds, tens, ones = counts
    columns = [_Column(rows) for _ in range(wide)]
    for column in columns:
        column.hundreds = min(hundreds, rows // shapes.hundred)
        column.free -= shapes.hundred * column.hundreds
        hundreds -= column.hundreds
    corner = min(ones, narrow * (rows % 10))
    ones -= corner
    groups = []
    for _ in range(rows // 10 if narrow else 0):
        standing = min(tens, narrow // shapes.ten)
        strips = min(-(-ones // 10), narrow - standing * shapes.ten)
        groups.append((standing, min(ones, 10 * strips)))
        tens, ones = tens - standing, ones - groups[-1][1]
    # strips of ones first where a ten leaves a row over, then where least is free
    columns_by_room = sorted(columns, key=lambda c: c.free)
    for column in [c for c in columns_by_room if c.free % shapes.ten]:
        ones -= _lay_ones(column, min(ones, 10))
    left = tens
    for column in columns_by_room:
        spare = sum(c.free // shapes.ten for c in columns_by_room if c is not column)
        keep = max(0, left - spare) * shapes.ten
        ones -= _lay_ones(column, min(ones, 10 * max(0, column.free - keep)))
        column.tens = min(left, column.free // shapes.ten)
        column.free -= shapes.ten * column.tens
        left -= column.tens
    if hundreds or left or ones:
        return None
    return _Block(tuple(columns), narrow, rows, tuple(groups), corner)


def _lay_ones(column: _Column, ones: int) -> int:
    column.ones += ones
    column.free -= -(-ones // 10)
    return ones


@frozen
class _Builder:
    """Builds the tree of a sheet from what lies in its columns."""

    grid: Grid
    shapes: Shapes

    def sheet(self, block: _Block) -> Part:
        """Return the whole sheet: foot, then columns, then what lies in them."""
        grid = self.grid
        high = block.rows * grid.unit
        top, foot = self._ends(grid.height - grid.y - grid.bottom - high)
        upper = grid.height - foot
        columns = [self._wide(column, top, upper) for column in block.wide]
        if block.narrow:
            columns.append(self._narrow(block, top, upper))
        width = sum(column.width for column in columns)
        left = grid.corner(width, high)[0]
        right = grid.width - left - width
        row = [leaf(OFFCUT, left, upper)] if left else []
        row += columns
        row += [leaf(OFFCUT, right, upper)] if right else []
        part = _chain("x", row, Step.LENGTHWAYS)
        return join("y", part, leaf(OFFCUT, grid.width, foot), Step.FOOT) if foot else part

    def _ends(self, spare: int) -> tuple[int, int]:
        """Return the height above the columns, and that of a foot if its letter has room."""
        if spare >= 2 * LETTER_ROOM:
            return self.grid.y + LETTER_ROOM, self.grid.bottom + spare - LETTER_ROOM
        return self.grid.y + spare, 0

    def _wide(self, column: _Column, top: int, upper: int) -> Part:
        unit, shapes = self.grid.unit, self.shapes
        hundred, ten, _ = shapes.names
        parts = [leaf(hundred, 10 * unit, shapes.hundred * unit)] * column.hundreds
        parts += [leaf(ten, 10 * unit, shapes.ten * unit)] * column.tens
        parts += self._strips(column.ones, 10)
        return self._stacked(parts, 10, top, upper)

    def _narrow(self, block: _Block, top: int, upper: int) -> Part:
        unit, ten = self.grid.unit, self.shapes.ten
        parts = []
        for tens, ones in block.groups:
            row = [leaf(self.shapes.names[1], ten * unit, 10 * unit)] * tens
            row += [_flipped(strip, True) for strip in self._strips(ones, 10)]
            left = block.narrow * unit - sum(part.width for part in row)
            row += [leaf(OFFCUT, left, 10 * unit)] if left else []
            parts.append(_chain("x", row, Step.SNIP))
        parts += self._strips(block.corner, block.narrow)
        return self._stacked(parts, block.narrow, top, upper)

    def _strips(self, ones: int, length: int) -> list[Part]:
        """Return lying strips of ``length`` units with ``ones`` in all."""
        unit, strips = self.grid.unit, []
        while ones > 0:
            row = [leaf("ones", unit, unit)] * min(ones, length)
            if ones < length:
                row.append(leaf(OFFCUT, (length - ones) * unit, unit))
            strips.append(_chain("x", row, Step.SNIP))
            ones -= length
        return strips

    def _stacked(self, parts: Sequence[Part], wide: int, top: int, upper: int) -> Part:
        """Return a column of ``parts`` with what falls off above and below them."""
        width = wide * self.grid.unit
        below = upper - top - sum(part.height for part in parts)
        head = [leaf(OFFCUT, width, top)] if top else []
        tail = [leaf(OFFCUT, width, below)] if below else []
        return _chain("y", [*head, *parts, *tail], Step.ACROSS)


def _chain(axis: Axis, parts: Sequence[Part], step: Step) -> Part:
    """Return ``parts`` in a row, cut off one after the other."""
    whole = parts[-1]
    for part in reversed(parts[:-1]):
        whole = join(axis, part, whole, step)
    return whole


def _flipped(part: Part, turned: bool) -> Part:
    """Return ``part`` with left and top exchanged, if it is ``turned``."""
    if not turned:
        return part
    halves = part.halves
    if halves is None:
        return leaf(part.what, part.height, part.width)
    first, second = halves
    axis: Axis = "y" if part.axis == "x" else "x"
    return join(axis, _flipped(first, True), _flipped(second, True), part.step)
