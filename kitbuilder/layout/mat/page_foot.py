"""The foot of a page that is used up to the printer's own margins."""

from kitbuilder.design.style import Style
from kitbuilder.layout.mat.tiling import page_of
from kitbuilder.layout.model import Rect, Sheet
from kitbuilder.layout.parts.furniture import Foot, foot, foot_below
from kitbuilder.layout.parts.sheet_area import SheetArea

_ASIDE = 3.0
# How far the foot ends before the right margin, in mm.

_NUMBER = 6.0
# The most size of a page's number in mm: a larger one would reach up to a mat's frame.


def footed(sheet: Sheet, style: Style) -> Sheet:
    """Return ``sheet`` with a ten of true size and its number inside the margins."""
    page = page_of(style.paper, sheet.width != style.paper.width_mm)
    below = foot_below(style.look, _NUMBER)
    inside = page.inside
    width, height = inside.width - _ASIDE, inside.height - below  # clear of a cut along the margin
    area = SheetArea(page, Rect(inside.x, inside.y, width, height))
    return sheet.with_items(foot(Foot(most=_NUMBER), area, style))
