"""A block of pieces laid in columns, with as little left over as can be.

A block is ``wide`` columns of ten units and ``narrow`` columns of one unit, all ``rows`` long.
A wide column holds hundreds, then tens lying across, then rows of ten ones. The narrow columns
hold tens standing up, side by side, and in the last ``rows`` mod 10 rows ones. Every block
that is full is cut without an inner offcut, and a full block attains all three bounds of
``grid.holds``. Below a full block one line across all columns may hold a
few more ones. A block may be turned: columns lie as rows.
"""

from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache

from kitbuilder.frozen import frozen
from kitbuilder.layout.packing.grid import Counts


@frozen
class ColumnBlock:
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


@lru_cache(maxsize=20_000)
def best_block(counts: Counts, across: int, down: int, fixed: bool = False) -> ColumnBlock | None:
    """Return the block for ``counts`` within the grid that leaves the fewest offcuts.

    Ties go to the smaller block. With ``fixed`` the block's surroundings are cut off as
    offcuts too (a panel of a fixed size). None if the counts do not fit.
    """
    best: tuple[tuple[int, int], ColumnBlock] | None = None
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


def _of_breadth(
    counts: Counts, wide: int, narrow: int, most: int, turned: bool
) -> Iterator[ColumnBlock]:
    block = _shortest(counts, wide, narrow, most, turned)
    if block:
        yield block
        if block.offcuts > 1:
            lined = _lined(counts, wide, narrow, most, turned)
            if lined:
                yield lined


def _lined(counts: Counts, wide: int, narrow: int, most: int, turned: bool) -> ColumnBlock | None:
    """Return a full block with one line of ones below it, if there is one."""
    hundreds, tens, ones = counts
    rows, over = divmod(100 * hundreds + 10 * tens + ones, 10 * wide + narrow)
    body = ColumnBlock((hundreds, tens, ones - over), wide, narrow, rows, turned, 0)
    if not 0 < over <= ones or not 0 < rows < most or hundreds > wide * (rows // 10):
        return None
    if _free(body) != 0 or _inner_offcuts(body):
        return None
    return replace(body, counts=counts, offcuts=1, line=over)


def _shortest(
    counts: Counts, wide: int, narrow: int, most: int, turned: bool
) -> ColumnBlock | None:
    hundreds, tens, ones = counts
    across = 10 * wide + narrow
    if not across or (hundreds and not wide):
        return None
    rows = max(1, -(-(100 * hundreds + 10 * tens + ones) // across))
    if hundreds:
        rows = max(rows, -(-hundreds // wide) * 10)
    while rows <= most:
        block = ColumnBlock(counts, wide, narrow, rows, turned, 0)
        free = _free(block)
        if free >= 0:
            offcuts = _inner_offcuts(block)
            return ColumnBlock(counts, wide, narrow, rows, turned, offcuts) if offcuts else block
        # Each row more frees at most a strip a column, and once a strip a narrow column.
        rows += max(1, (-free - narrow) // (wide + narrow))
    return None


def corner_ones(block: ColumnBlock) -> int:
    """Ones in the corner, below the standing tens."""
    return min(block.counts[2], block.narrow * (block.rows % 10))


def _free(block: ColumnBlock) -> int:
    """Strips of ten left over; negative if the counts do not fit."""
    hundreds, tens, ones = block.counts
    strips = block.wide * block.rows - 10 * hundreds + block.narrow * (block.rows // 10)
    return strips - tens - -(-(ones - corner_ones(block)) // 10)


def wide_columns(block: ColumnBlock) -> list[tuple[int, int]]:
    """Hundreds and strips of each wide column, from the first."""
    left = block.counts[0]
    columns = []
    for _ in range(block.wide):
        held = min(left, block.rows // 10)
        left -= held
        columns.append((held, block.rows - 10 * held))
    return columns


def _inner_offcuts(block: ColumnBlock) -> int:
    # Strips are filled narrow groups first, then the wide columns in order (see Builder).
    ones = block.counts[2]
    used = block.counts[1] + -(-(ones - corner_ones(block)) // 10)
    rooms = [block.narrow] * (block.rows // 10 if block.narrow else 0)
    offcuts = int((ones - corner_ones(block)) % 10 > 0)
    for room in rooms + [strips for _, strips in wide_columns(block)]:
        offcuts += room > used
        used = max(0, used - room)
    if block.narrow and block.rows % 10:
        offcuts += min(ragged(ones, *way) for way in corner_ways(block))
    return offcuts


def corner_ways(block: ColumnBlock) -> tuple[tuple[int, int], tuple[int, int]]:
    """The corner's length of a line and number of lines, by rows and by columns."""
    return (block.narrow, block.rows % 10), (block.rows % 10, block.narrow)


def ragged(ones: int, length: int, lines: int) -> int:
    """Offcuts of a corner that ``ones`` fill line after line."""
    if ones >= length * lines:
        return 0
    return (ones % length > 0) + (-(-ones // length) < lines)
