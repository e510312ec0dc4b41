"""The page that is printed: upright or turned, its margins, and whole units inside them."""

from typing import Self

from kitbuilder.design.load import Margins, Paper
from kitbuilder.frozen import frozen
from kitbuilder.layout.model import Rect


@frozen
class Page:
    """One printed side: its size and margins in millimetres."""

    width: float
    height: float
    margins: Margins

    @classmethod
    def upright(cls, paper: Paper) -> Self:
        """Return the page as the profile gives it."""
        return cls(paper.width_mm, paper.height_mm, paper.margins_mm)

    @classmethod
    def turned(cls, paper: Paper) -> Self:
        """Return the page lying on its long side.

        Nobody knows which way a printer turns it, so opposite sides both keep the larger of
        the two margins that may fall there.
        """
        m = paper.margins_mm
        ends, sides = max(m.top, m.bottom), max(m.left, m.right)
        return cls(paper.height_mm, paper.width_mm, Margins(ends, ends, sides, sides))

    @classmethod
    def sized(cls, width: float, height: float, *margins: float) -> Self:
        """Return a page with its left, right, top and bottom margins, mm."""
        left, right, top, bottom = margins
        return cls(width, height, Margins(left, right, top, bottom))

    @property
    def inside(self) -> Rect:
        """The part that prints, mm from the page's top left."""
        m = self.margins
        return Rect(
            m.left,
            m.top,
            round(self.width - m.left - m.right, 2),
            round(self.height - m.top - m.bottom, 2),
        )

    def units(self, unit: float) -> tuple[int, int]:
        """Return how many whole units lie across and down inside the margins.

        Reckoned in hundredths of a mm: 190 / 9.5 is 20.
        """
        inside = self.inside
        return _times(inside.width, unit), _times(inside.height, unit)


def _times(length: float, unit: float) -> int:
    return round(100 * length) // round(100 * unit)
