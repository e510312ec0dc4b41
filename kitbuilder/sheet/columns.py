"""Turns counts of pieces into one block laid in columns, with as little left over as can be.

A block is ``wide`` columns of ten units and ``narrow`` columns of one unit, all ``rows`` long.
A wide column holds hundreds, then tens lying across, then rows of ten ones. The narrow columns
hold tens standing up, side by side, and in the last ``rows`` mod 10 rows ones. Every block
that is full is cut without an inner offcut, and a full block attains all three bounds of
:func:`kitbuilder.sheet.grid.holds`. Below a full block one line across all columns may hold a
few more ones. A block may be turned: columns lie as rows.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import lru_cache

from kitbuilder.sheet.grid import Counts
from kitbuilder.sheet.parts import OFFCUT, Axis, Part, join, leaf, line_up


@dataclass(frozen=True, slots=True)
class Block:
    """``counts`` laid in columns; ``offcuts`` is how many inner offcuts are left over.

    ``line`` of the ones lie in a last line across all columns; ``rows`` does not count it.
    """

    counts: Counts
    wide: int
    narrow: int
    rows: int
    turned: bool
    offcuts: int
    line: int = 0

    @property
    def across(self) -> int:
        """Units from left to right."""
        return self.length if self.turned else self.breadth

    @property
    def down(self) -> int:
        """Units from top to bottom."""
        return self.breadth if self.turned else self.length

    @property
    def breadth(self) -> int:
        """Units over all columns."""
        return 10 * self.wide + self.narrow

    @property
    def length(self) -> int:
        """Units along a column, the last line with it."""
        return self.rows + (self.line > 0)

    @property
    def parts(self) -> int:
        """Pieces and offcuts in the end."""
        return sum(self.counts) + self.offcuts


@lru_cache(maxsize=20_000)
def best_block(counts: Counts, across: int, down: int, fixed: bool = False) -> Block | None:
    """Return the block for ``counts`` within the grid that leaves the fewest offcuts.

    Ties go to the smaller block. With ``fixed`` the block's surroundings are cut off as
    offcuts too (a panel of a fixed size). None if the counts do not fit.
    """
    best: tuple[tuple[int, int], Block] | None = None
    for turned, (a, b) in ((False, (across, down)), (True, (down, across))):
        for narrow in range(min(9, a) + 1):
            for wide in range((a - narrow) // 10 + 1):
                for block in _of_breadth(counts, wide, narrow, b, turned):
                    rim = (block.across < across) + (block.down < down) if fixed else 0
                    rank = (block.offcuts + rim, block.across * block.down)
                    if best is None or rank < best[0]:
                        best = (rank, block)
                    if rank[0] == 0:  # full: no block is smaller
                        return block
    if best is None:
        return None
    return replace(best[1], offcuts=best[0][0])


def _of_breadth(counts: Counts, wide: int, narrow: int, most: int, turned: bool) -> Iterator[Block]:
    block = _shortest(counts, wide, narrow, most, turned)
    if block:
        yield block
        if block.offcuts > 1:
            lined = _lined(counts, wide, narrow, most, turned)
            if lined:
                yield lined


def _lined(counts: Counts, wide: int, narrow: int, most: int, turned: bool) -> Block | None:
    """Return a full block with one line of ones below it, if there is one."""
    hundreds, tens, ones = counts
    rows, over = divmod(100 * hundreds + 10 * tens + ones, 10 * wide + narrow)
    body = Block((hundreds, tens, ones - over), wide, narrow, rows, turned, 0)
    if not 0 < over <= ones or not 0 < rows < most or hundreds > wide * (rows // 10):
        return None
    if _free(body) != 0 or _inner_offcuts(body):
        return None
    return replace(body, counts=counts, offcuts=1, line=over)


def _shortest(counts: Counts, wide: int, narrow: int, most: int, turned: bool) -> Block | None:
    hundreds, tens, ones = counts
    across = 10 * wide + narrow
    if not across or (hundreds and not wide):
        return None
    rows = max(1, -(-(100 * hundreds + 10 * tens + ones) // across))
    if hundreds:
        rows = max(rows, -(-hundreds // wide) * 10)
    while rows <= most:
        block = Block(counts, wide, narrow, rows, turned, 0)
        free = _free(block)
        if free >= 0:
            offcuts = _inner_offcuts(block)
            return Block(counts, wide, narrow, rows, turned, offcuts) if offcuts else block
        # Each row more frees at most a strip a column, and once a strip a narrow column.
        rows += max(1, (-free - narrow) // (wide + narrow))
    return None


def _corner(block: Block) -> int:
    return min(block.counts[2], block.narrow * (block.rows % 10))


def _free(block: Block) -> int:
    """Strips of ten left over; negative if the counts do not fit."""
    hundreds, tens, ones = block.counts
    strips = block.wide * block.rows - 10 * hundreds + block.narrow * (block.rows // 10)
    return strips - tens - -(-(ones - _corner(block)) // 10)


def _columns(block: Block) -> list[tuple[int, int]]:
    """Hundreds and strips of each wide column, from the first."""
    left = block.counts[0]
    columns = []
    for _ in range(block.wide):
        held = min(left, block.rows // 10)
        left -= held
        columns.append((held, block.rows - 10 * held))
    return columns


def _inner_offcuts(block: Block) -> int:
    # Strips are filled narrow groups first, then the wide columns in order (see Builder).
    ones = block.counts[2]
    used = block.counts[1] + -(-(ones - _corner(block)) // 10)
    rooms = [block.narrow] * (block.rows // 10 if block.narrow else 0)
    offcuts = int((ones - _corner(block)) % 10 > 0)
    for room in rooms + [strips for _, strips in _columns(block)]:
        offcuts += room > used
        used = max(0, used - room)
    if block.narrow and block.rows % 10:
        offcuts += min(_ragged(ones, *way) for way in _ways(block))
    return offcuts


def _ways(block: Block) -> tuple[tuple[int, int], tuple[int, int]]:
    """The corner's length of a line and number of lines, by rows and by columns."""
    return (block.narrow, block.rows % 10), (block.rows % 10, block.narrow)


def _ragged(ones: int, length: int, lines: int) -> int:
    """Offcuts of a corner that ``ones`` fill line after line."""
    if ones >= length * lines:
        return 0
    return (ones % length > 0) + (-(-ones // length) < lines)


class Builder:
    """Builds the parts of blocks for one ``unit`` (hundredths of a mm), sharing equal parts."""

    def __init__(self, unit: int) -> None:
        self.unit = unit
        self._made: dict[tuple[object, ...], Part] = {}

    def block(self, block: Block) -> Part:
        """Return the parts of ``block``."""
        key = ("block", block)
        if key not in self._made and block.line:
            hundreds, tens, ones = block.counts
            body = replace(block, counts=(hundreds, tens, ones - block.line), line=0)
            line = self.line(block.line, block.breadth, not block.turned)
            self._made[key] = join("x" if block.turned else "y", self.block(body), line)
        if key not in self._made:
            queue = _Strips(block.counts[1], block.counts[2] - _corner(block))
            narrow = [self._narrow(block, queue)] if block.narrow else []
            wide = [
                self._wide(held, queue.take(strips), block.turned)
                for held, strips in _columns(block)
            ]
            self._made[key] = line_up("y" if block.turned else "x", wide + narrow)
        return self._made[key]

    def panel(self, block: Block, across: int, down: int) -> Part:
        """Return ``block`` in the corner of a panel of ``across`` × ``down`` units."""
        key = ("panel", block, across, down)
        if key not in self._made:
            part = self.block(block)
            if block.down < down:
                part = join("y", part, self.leaf(OFFCUT, block.across, down - block.down))
            if block.across < across:
                part = join("x", part, self.leaf(OFFCUT, across - block.across, down))
            self._made[key] = part
        return self._made[key]

    def leaf(self, what: str, across: int, down: int) -> Part:
        """Return a finished part of ``across`` by ``down`` units; equal ones are one object."""
        key = (what, across, down)
        if key not in self._made:
            self._made[key] = leaf(what, across * self.unit, down * self.unit)
        return self._made[key]

    def _leaf(self, what: str, across: int, down: int, turned: bool) -> Part:
        return self.leaf(what, down, across) if turned else self.leaf(what, across, down)

    def _wide(self, held: int, filled: "_Filled", turned: bool) -> Part:
        key = ("wide", held, filled, turned)
        if key not in self._made:
            parts = [self._leaf("hundreds", 10, 10, turned)] * held
            parts += [self._leaf("tens", 10, 1, turned)] * filled.tens
            parts += self._ones(filled, not turned)
            if filled.free:
                parts.append(self._leaf(OFFCUT, 10, filled.free, turned))
            self._made[key] = line_up("x" if turned else "y", parts)
        return self._made[key]

    def _group(self, filled: "_Filled", turned: bool) -> Part:
        """Return standing strips of ten, side by side."""
        key = ("group", filled, turned)
        if key not in self._made:
            parts = [self._leaf("tens", 1, 10, turned)] * filled.tens
            parts += self._ones(filled, turned)
            if filled.free:
                parts.append(self._leaf(OFFCUT, filled.free, 10, turned))
            self._made[key] = line_up("y" if turned else "x", parts)
        return self._made[key]

    def _ones(self, filled: "_Filled", lying: bool) -> list[Part]:
        full, over = divmod(filled.ones, 10)
        strips = [self.line(10, 10, lying)] * full
        return strips + ([self.line(over, 10, lying)] if over else [])

    def line(self, ones: int, length: int, lying: bool) -> Part:
        """Return a strip one unit wide of ``ones`` and, if it is longer, an offcut."""
        key = ("line", ones, length, lying)
        if key not in self._made:
            parts = [self.leaf("ones", 1, 1)] * ones
            if length > ones:
                parts.append(self._leaf(OFFCUT, length - ones, 1, not lying))
            self._made[key] = line_up("x" if lying else "y", parts)
        return self._made[key]

    def _narrow(self, block: Block, queue: "_Strips") -> Part:
        y: Axis = "x" if block.turned else "y"
        groups = [
            self._group(queue.take(block.narrow), block.turned) for _ in range(block.rows // 10)
        ]
        if block.rows % 10:
            groups.append(self._corner(block))
        return line_up(y, groups)

    def _corner(self, block: Block) -> Part:
        ones = _corner(block)
        ways = _ways(block)
        by_columns = _ragged(ones, *ways[1]) < _ragged(ones, *ways[0])
        length, lines = ways[by_columns]
        lying = by_columns == block.turned
        full, over = divmod(ones, length)
        parts = [self.line(length, length, lying)] * full
        if over:
            parts.append(self.line(over, length, lying))
        empty = lines - len(parts)
        if empty:
            parts.append(self._leaf(OFFCUT, length, empty, not lying))
        return line_up("y" if lying else "x", parts)


@dataclass(frozen=True, slots=True)
class _Filled:
    """What strips of ten hold: some tens, then ones, then nothing."""

    tens: int
    ones: int
    free: int


class _Strips:
    """Hands out tens, then ones, to the strips of ten in order."""

    def __init__(self, tens: int, ones: int) -> None:
        self.tens = tens
        self.ones = ones

    def take(self, strips: int) -> _Filled:
        """Return what the next ``strips`` strips hold."""
        tens = min(self.tens, strips)
        ones = min(self.ones, 10 * (strips - tens))
        self.tens -= tens
        self.ones -= ones
        return _Filled(tens, ones, strips - tens - -(-ones // 10))
