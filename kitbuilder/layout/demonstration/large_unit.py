"""How large the pieces of a demonstration are: the unit, the page, and the rows it holds."""

from collections.abc import Iterable, Iterator

from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError
from kitbuilder.frozen import frozen
from kitbuilder.layout.cards.halving import strip_high
from kitbuilder.layout.parts.furniture import foot_high
from kitbuilder.layout.printable import Page

LEAST_BOARD, MOST_BOARD, STEP = 20, 50, 5
"""Least and most width in mm of a one that a class sees from afar, and the steps between."""

UNITS = range(LEAST_BOARD, MOST_BOARD + 1, STEP)


@frozen
class TensBoard:
    """A ``page`` with ``rows`` of ten ones of ``unit`` mm on it, above its foot at ``end``."""

    page: Page
    unit: float
    rows: int
    end: float

    @property
    def bands(self) -> tuple[int, ...]:
        """The rows of each part of a hundred: one part where a page holds it whole."""
        parts = -(-10 // self.rows)
        return tuple(10 // parts + (k < 10 % parts) for k in range(parts))


def board(style: Style) -> TensBoard:
    """Return the largest pieces whose hundreds are whole; else the largest whose tens are.

    A unit that was asked for, of 20 mm or more, is kept. Raises ``RefusedError`` where no ten
    fits the page.
    """
    asked, paper = style.unit, style.paper.name
    found = list(_boards(style, [asked] if asked >= LEAST_BOARD else UNITS))
    most = 0.0 if found else _largest(style)
    if most >= LEAST_BOARD:
        raise RefusedError("demonstration.unit", option="unit", unit=asked, paper=paper, most=most)
    if not found:
        raise RefusedError("demonstration.too-large", paper=paper, field="paper")
    return max(found, key=lambda b: (len(b.bands) == 1, b.unit, b.rows))


def _largest(style: Style) -> float:
    """Return the largest unit in whole tenths of a millimetre whose tens fit; 0 if none is."""
    tenths = range(10 * MOST_BOARD, 10 * LEAST_BOARD - 1, -1)
    return next((unit / 10 for unit in tenths if any(_boards(style, [unit / 10]))), 0.0)


def _boards(style: Style, units: Iterable[float]) -> Iterator[TensBoard]:
    held = tuple(units)
    for page in (Page.upright(style.paper), Page.turned(style.paper)):
        end = round(page.height - strip_high(page, foot_high(style.look)), 2)
        for unit in held:
            rows = int((end - page.inside.y) / unit + 1e-9)
            if 10 * unit <= page.inside.width + 1e-6 and rows > 0:
                yield TensBoard(page, unit, rows, end)
