"""The records of a mat in a picture: where its zones and columns stand, in mm."""

from typing import Literal

from kitbuilder.design.style import Style
from kitbuilder.frozen import frozen
from kitbuilder.kit.mat_needs import Role
from kitbuilder.layout.parts.settings import settings

BARE, BARE_PAD = 1.6, 1.8
"""Between bare zones one below the other, and above and below their pieces, in mm."""

PAD = 2.4
"""Clear space in mm at each side of a column's pieces, where there is room."""

ASKED = 1.3
"""How wide a question is, in an adult's ems."""

Manner = Literal["full", "bare"]
"""How much a picture tells: names and numbers too, or zones alone, their names inside."""


@frozen
class Air:
    """Space in a column: ``gap`` units between its tens, ``pad`` mm at each side of its pieces.

    Before one that exchanges there are ``opened`` mm more for the arrow.
    """

    gap: float
    pad: float
    opened: float = 0.0


@frozen
class Column:
    """One column of a zone, in mm from the picture's left: all of it, and where its pile begins.

    ``number`` is the middle of what is said of its count; pieces may lie up to ``reach``.
    """

    x: float
    width: float
    pile: float
    number: float
    reach: float


@frozen
class ZoneFrame:
    """One zone in mm from the picture's top left; columns ones first; ``named`` has headings.

    A zone in which no pieces are shown is ``low``: its name stands beside its numbers.
    """

    role: Role
    x: float
    y: float
    width: float
    height: float
    columns: tuple[Column, ...]
    named: bool
    low: bool = False


@frozen
class MatFrame:
    """The frame that scenes of one lesson share: ``unit`` mm the width of a one.

    The arrow of an exchange has ``opened`` mm more before its column.
    """

    unit: float
    gap: float
    under: bool
    width: float
    height: float
    zones: tuple[ZoneFrame, ...]
    heights: "Heights"
    manner: Manner = "full"
    opened: float = 0.0

    def zone(self, role: Role) -> ZoneFrame:
        """Return the zone of ``role``."""
        return next(zone for zone in self.zones if zone.role == role)


@frozen
class Heights:
    """Heights in mm of a zone's name, its columns' names, the digits, an arrow, a question."""

    name: float
    heads: float
    digits: float
    arrow: float
    question: float

    @classmethod
    def of(cls, style: Style, manner: Manner) -> "Heights":
        """Return the heights in the look of ``style``; a bare zone has space alone."""
        sets = settings(style.look)
        digits, arrow = 1.12 * sets.digits.size, style.look.lines_mm.arrow + 1.0
        asks = ASKED * style.look.type_mm.adult
        if manner != "full":
            return cls(BARE, BARE_PAD, BARE_PAD - 0.6, arrow, asks)
        return cls(1.22 * sets.text.size, 1.3 * sets.least.size, digits, arrow, asks)
