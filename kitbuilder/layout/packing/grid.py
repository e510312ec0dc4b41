"""The whole units of a page, what they hold, and the least sheets for a demand of pieces."""

from typing import Literal

from kitbuilder.errors import RefusedError, Said
from kitbuilder.frozen import frozen
from kitbuilder.layout.printable import Page
from kitbuilder.number import Pieces

Kind = Literal["hundreds", "tens", "ones"]
KINDS: tuple[Kind, ...] = ("hundreds", "tens", "ones")
"""The pieces that are printed, largest first; ``Counts`` follows this order."""

Counts = tuple[int, int, int]
"""How many hundreds, tens and ones."""


def counts_of(pieces: Pieces) -> Counts:
    """Return how many hundreds, tens and ones there are among ``pieces``."""
    return pieces.hundreds, pieces.tens, pieces.ones


OUTLINE: dict[Kind, tuple[int, int]] = {"hundreds": (10, 10), "tens": (10, 1), "ones": (1, 1)}
"""The outline of each piece, in units."""

WHAT_SAID = {
    "hundreds": Said("pieces.hundreds"),
    "tens": Said("pieces.tens"),
    "ones": Said("pieces.ones"),
}
"""How each kind of piece is called in a refusal."""

MOST_CELLS = 20_000  # units on one sheet
MOST_PIECES = 60_000  # in one class set


def hundredths(mm: float) -> int:
    """Return ``mm`` as whole hundredths of a millimetre; more than two decimals is an error."""
    whole = round(mm * 100)
    if abs(whole - mm * 100) > 1e-6:
        raise ValueError(f"{mm} mm has more than two decimals")
    return whole


@frozen
class Grid:
    """The whole units of a page: ``across`` by ``down``, from the left and top margin on.

    Everything else is in hundredths of a millimetre. The grid starts at (``x``, ``y``);
    ``right`` and ``bottom`` are the margins there.
    """

    across: int
    down: int
    unit: int
    width: int
    height: int
    x: int
    y: int
    right: int
    bottom: int

    @classmethod
    def of(cls, page: Page, unit_mm: float) -> "Grid":
        """Return the grid of ``page``, reckoned in whole hundredths: 190 / 9.5 is 20."""
        unit = hundredths(unit_mm)
        if unit <= 0:
            raise ValueError(f"Grid.of: unit_mm is {unit_mm}; it must be above 0")
        width, height = hundredths(page.width), hundredths(page.height)
        m = page.margins
        x, y, right, bottom = map(hundredths, (m.left, m.top, m.right, m.bottom))
        return cls(*page.units(unit_mm), unit, width, height, x, y, right, bottom)

    def turned(self) -> "Grid":
        """Return the grid with left and top exchanged."""
        start, end = (self.y, self.x), (self.bottom, self.right)
        return Grid(self.down, self.across, self.unit, self.height, self.width, *start, *end)

    @property
    def trims(self) -> tuple[int, int]:
        """How many sides, left and right, then top and bottom, are trimmed on any sheet."""
        return (
            _trims(self.x, self.right, self.width - self.across * self.unit),
            _trims(self.y, self.bottom, self.height - self.down * self.unit),
        )

    def corner(self, width: int, height: int) -> tuple[int, int]:
        """Return where a core of that size starts, left and top.

        That is the grid's start; but where only the right or the bottom has no margin, the core
        ends there, for then one trim is enough.
        """
        return (
            self.x if self.right or not self.x else self.width - width,
            self.y if self.bottom or not self.y else self.height - height,
        )


def _trims(near: int, far: int, left: int) -> int:
    return max((near > 0) + (far > 0), int(left > 0))


def holds(across: int, down: int) -> tuple[int, int, int]:
    """Return (H, T, C), what a grid holds when it is cut from edge to edge.

    A grid of a × b units gives h hundreds, t tens and o ones exactly when h ≤ H,
    10h + t ≤ T and 100h + 10t + o ≤ C, where H = ⌊a/10⌋·⌊b/10⌋,
    T = (ab − w(a, b)) / 10, C = ab and w(a, b) = (a mod 10)·(b mod 10).

    Proof. *No more fits.* Every cut may be moved to a line of the grid (push all parts left
    and up: the cuts stay edge to edge). Let a × b be cut at a = c + d. If the remainders of c
    and d add up to less than 10 then w(a,b) = w(c,b) + w(d,b); otherwise the remainder of a is
    smaller than their sum, so w(a,b) ≤ w(c,b) + w(d,b). So the sum of w over the parts never
    falls. In the end, a hundred and a ten have w = 0, while a one (1) and an offcut of
    p × q units (w ≤ pq) have no more w than area. So ones and offcuts together cover at least
    w(a,b), which leaves ab − w(a,b) for hundreds and tens: the second bound. The first bound:
    moved to the grid, each hundred holds exactly one point whose coordinates are both 9 more
    than a multiple of ten, and there are H of those. The third is area.
    *That much fits.* Cut the grid at the multiples of ten: blocks of 10 × 10, each a hundred
    or ten tens, a band of columns whose 10 × 1 strips are tens, a band of rows likewise, and
    a corner of w ones. Every ten left over is ten ones. This attains all three bounds.

    Computed beside it: a full search over all grids up to 28 × 29 agrees
    (``tests/bench``; small grids in the suite).
    """
    corner = (across % 10) * (down % 10)
    return (across // 10) * (down // 10), (across * down - corner) // 10, across * down


def needs(demand: Counts) -> Counts:
    """Return what a demand needs of (H, T, C), as :func:`holds` tells them."""
    hundreds, tens, ones = demand
    return hundreds, 10 * hundreds + tens, 100 * hundreds + 10 * tens + ones


def least_sheets(demand: Counts, across: int, down: int) -> int:
    """Return the least number of sheets of a grid for ``demand``, by straight cuts.

    The three bounds of :func:`holds` are nested, so sheets may be filled one after the
    other, hundreds first: the greatest of the three ceilings is attained. A demand for a
    piece that fits on no sheet is a ValueError.
    """
    sheets = 0
    for need, room in zip(needs(demand), holds(across, down), strict=True):
        if need and not room:
            raise ValueError(f"least_sheets: a grid of {across} by {down} cannot hold {demand}")
        sheets = max(sheets, -(-need // room) if need else 0)
    return sheets


def largest_unit(page: Page, outline: tuple[int, int], kerf: float = 0.0) -> float:
    """Return the largest unit in mm, rounded down to hundredths, at which ``outline`` fits.

    The outline is in units, and a ``kerf`` of so many mm is taken from the page with it.
    """
    long, short = outline
    across, down = (hundredths(mm - kerf) for mm in (page.inside.width, page.inside.height))
    lying = min(across // long, down // short)
    standing = min(across // short, down // long)
    return max(lying, standing) / 100


def grid_for(page: Page, unit_mm: float, demand: Counts) -> Grid:
    """Return the grid of ``page`` once every piece of ``demand`` fits on it.

    Raises :class:`RefusedError` naming the piece and the largest unit that fits, or the limit
    that was passed.
    """
    total = sum(demand)
    if total > MOST_PIECES:
        raise RefusedError("pieces.too-many", field="children", total=total, most=MOST_PIECES)
    for what, count in zip(KINDS, demand, strict=True):
        limit = largest_unit(page, OUTLINE[what])
        if count and hundredths(unit_mm) > hundredths(limit):
            said = WHAT_SAID[what]
            raise RefusedError(
                "pieces.unit-too-large", field="unit", unit=unit_mm, what=said, most=limit
            )
    grid = Grid.of(page, unit_mm)
    cells = grid.across * grid.down
    if cells > MOST_CELLS:
        raise RefusedError(
            "pieces.too-fine", field="unit", unit=unit_mm, cells=cells, most=MOST_CELLS
        )
    return grid
