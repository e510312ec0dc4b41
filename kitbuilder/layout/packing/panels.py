"""Congruent panels of a sheet, which can be stacked and cut alike."""

from collections.abc import Sequence

from kitbuilder.frozen import frozen
from kitbuilder.layout.packing.grid import Grid
from kitbuilder.layout.packing.guillotine import OFFCUT, Axis, Part, framed, join, leaf


@frozen
class Division:
    """How a sheet falls into panels.

    It may be halved at its middle lines, across (``halved_x``) and down (``halved_y``), and
    each half or quarter is then ``columns`` × ``rows`` panels that meet at the middle line.
    Where it is not halved the panels start at the grid's left or top.
    """

    halved_x: bool
    halved_y: bool
    columns: int
    rows: int

    @property
    def cells(self) -> int:
        """Halves or quarters of a sheet."""
        return (1 + self.halved_x) * (1 + self.halved_y)

    @property
    def panels(self) -> int:
        """Panels of a sheet."""
        return self.cells * self.columns * self.rows

    def room(self, grid: Grid) -> tuple[int, int]:
        """Return the most units a panel may be across and down; 0 if there is no such panel."""
        return (
            _room(grid.width, grid.x, grid.right, grid.across, grid.unit, self.halved_x)
            // self.columns,
            _room(grid.height, grid.y, grid.bottom, grid.down, grid.unit, self.halved_y)
            // self.rows,
        )

    def strokes(self, sheets: int, layers: int) -> int:
        """Return about how many strokes turn ``sheets`` into trimmed panels."""
        count, parts = 0, sheets
        for halved in (self.halved_x, self.halved_y):
            count += 0 if halved else 2 * -(-parts // layers)
        for halved in (self.halved_x, self.halved_y):
            if halved:
                count += -(-parts // layers)
                parts *= 2
        count += (self.halved_x + self.halved_y) * -(-parts // layers)
        count += _halvings(parts, self.columns, layers)
        return count + _halvings(parts * self.columns, self.rows, layers)


def _room(size: int, near: int, far: int, units: int, unit: int, halved: bool) -> int:
    if not halved:
        return units
    return 0 if size % 2 else max(0, size // 2 - max(near, far)) // unit


def _halvings(bars: int, pieces: int, layers: int) -> int:
    """Return the strokes that halve ``bars`` alike until each is ``pieces`` equal parts."""
    counts = {pieces: bars}
    strokes = 0
    while (size := max(counts)) > 1:
        many = counts.pop(size)
        strokes += -(-many // layers)
        for half in (size // 2, size - size // 2):
            counts[half] = counts.get(half, 0) + many
    return strokes


def panelled(
    grid: Grid, division: Division, across: int, down: int, panels: Sequence[Part | None]
) -> Part:
    """Return a sheet whose panels, each ``across`` × ``down`` units, are ``panels``.

    They are told cell by cell (left to right, in each top to bottom) and in a cell column by
    column. None is a panel that falls off uncut.
    """
    shelf = _Shelf(grid, division, across * grid.unit, down * grid.unit)
    per_cell = division.columns * division.rows
    cells = [shelf.core(panels[i * per_cell : (i + 1) * per_cell]) for i in range(division.cells)]
    return shelf.sheet(cells)


@frozen
class _Shelf:
    grid: Grid
    division: Division
    across: int
    down: int

    def core(self, panels: Sequence[Part | None]) -> Part | None:
        rows = self.division.rows
        columns = [
            _row("y", panels[i : i + rows], self.across, self.down)
            for i in range(0, len(panels), rows)
        ]
        return _row("x", columns, self.across, rows * self.down)

    def sheet(self, cells: Sequence[Part | None]) -> Part:
        div, grid = self.division, self.grid
        width = grid.width // 2 if div.halved_x else div.columns * self.across
        height = grid.height // 2 if div.halved_y else div.rows * self.down
        per_column = 1 + div.halved_y
        columns = []
        for ix in range(1 + div.halved_x):
            column = [
                self._cell(cells[ix * per_column + iy], ix, iy, width, height)
                for iy in range(per_column)
            ]
            columns.append(_row("y", column, width, height))
        core = _joined("x", columns, width, height * per_column)
        x, y = grid.corner(core.width, core.height)
        core = core if div.halved_x else framed("x", core, x, grid.width)
        return core if div.halved_y else framed("y", core, y, grid.height)

    def _cell(self, core: Part | None, ix: int, iy: int, width: int, height: int) -> Part | None:
        """Add the margins at the outer sides of a half or quarter."""
        if core is None:
            return None
        core = framed("y", core, 0 if iy else height - core.height, height)
        return framed("x", core, 0 if ix else width - core.width, width)


def _row(axis: Axis, parts: Sequence[Part | None], width: int, height: int) -> Part | None:
    return _joined(axis, parts, width, height) if any(parts) else None


def _joined(axis: Axis, parts: Sequence[Part | None], width: int, height: int) -> Part:
    """Halve a row of equal parts again and again; a stretch of None falls off as one offcut."""
    if len(parts) == 1:
        return parts[0] or leaf(OFFCUT, width, height)
    if not any(parts):
        many = len(parts)
        return leaf(OFFCUT, *((width * many, height) if axis == "x" else (width, height * many)))
    middle = len(parts) // 2
    first = _joined(axis, parts[:middle], width, height)
    second = _joined(axis, parts[middle:], width, height)
    return join(axis, first, second)


def divisions(sheets: int, layers: int) -> list[Division]:
    """Return the ways worth trying to divide ``sheets`` for stacks of ``layers``."""
    most = max(4 * layers, 2 * sheets)
    return [
        Division(hx, hy, columns, rows)
        for hx in (False, True)
        for hy in (False, True)
        for columns in range(1, layers + 1)
        for rows in range(1, layers + 1)
        if (columns == 1 or rows == 1 or columns * rows <= layers)
        and sheets * columns * rows * (1 + hx) * (1 + hy) <= most
    ]
