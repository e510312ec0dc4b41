"""How large the pieces of a demonstration are: the unit, the page, and the rows it holds."""

from collections.abc import Iterator

from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError
from kitbuilder.frozen import frozen
from kitbuilder.layout.cards.halving import strip_high
from kitbuilder.layout.page import Page
from kitbuilder.layout.parts.furniture import foot_high

LEAST_BOARD, MOST_BOARD, STEP = 20, 50, 5
"""Least and most width in mm of a one that a class sees from afar, and the steps between."""


@frozen
class Board:
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


def board(style: Style) -> Board:
    """Return the largest pieces whose hundreds are whole; else the largest whose tens are.

    A unit that was asked for, of 20 mm or more, is kept. Raises ``RefusedError`` where no ten
    fits the page.
    """
    found = list(_boards(style))
    if not found:
        raise RefusedError("demonstration.too-large", paper=style.paper.name, field="paper")
    return max(found, key=lambda b: (len(b.bands) == 1, b.unit, b.rows))


def _boards(style: Style) -> Iterator[Board]:
    asked = style.paper.unit_mm
    units = [asked] if asked >= LEAST_BOARD else range(LEAST_BOARD, MOST_BOARD + 1, STEP)
    for page in (Page.upright(style.paper), Page.turned(style.paper)):
        end = round(page.height - strip_high(page, foot_high(style.look)), 2)
        for unit in units:
            rows = int((end - page.inside.y) / unit + 1e-9)
            if 10 * unit <= page.inside.width + 1e-6 and rows > 0:
                yield Board(page, unit, rows, end)
