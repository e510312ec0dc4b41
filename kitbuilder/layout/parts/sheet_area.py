"""The grid of a page for an adult: margins, columns, and the room between header and foot."""

from kitbuilder.design.load import Paper
from kitbuilder.frozen import frozen
from kitbuilder.layout.model import Rect
from kitbuilder.layout.printable import Page

GUTTER = 5.0
"""Space between columns, in mm."""

MARGIN, NARROW_MARGIN, NARROW = 15.0, 12.0, 180.0
"""The margin in mm, that of a page narrower than ``NARROW``, and what is narrow."""

FOOT = 4.6
"""Height of the foot, in mm; it ends at the margin."""


@frozen
class SheetArea:
    """A page with what may be printed on for an adult: ``whole`` inside its margins, in mm."""

    page: Page
    whole: Rect

    @classmethod
    def of(cls, page: Page) -> "SheetArea":
        """Return the area of ``page``; a printer's own margins win where they are larger."""
        own = MARGIN if page.width >= NARROW else NARROW_MARGIN
        left = max(own, page.margins.left)
        right = max(own, page.margins.right)
        top, bottom = max(own, page.margins.top), max(own, page.margins.bottom)
        return cls(page, Rect(left, top, page.width - left - right, page.height - top - bottom))

    @classmethod
    def upright(cls, paper: Paper) -> "SheetArea":
        """Return the area of upright ``paper``."""
        return cls.of(Page.upright(paper))

    def body(self, top: float) -> Rect:
        """Return the room from ``top`` mm down to the foot."""
        foot = self.whole.bottom - FOOT - 1.0
        return Rect(self.whole.x, top, self.whole.width, max(0.1, foot - top))
