"""The foot of a page that is used up to the printer's own margins."""

from dataclasses import replace

from kitbuilder.design.style import Style
from kitbuilder.layout.mat.tiling import page_of
from kitbuilder.layout.model import Sheet
from kitbuilder.layout.parts.furniture import Foot, foot
from kitbuilder.layout.parts.sheet_area import FOOT, SheetArea

_NUMBER, _ASIDE = 0.6, 3.0
# How far a page number's letters may reach below the foot's middle, in ems; and how far the foot
# ends before the right margin, in mm.


def footed(sheet: Sheet, style: Style) -> Sheet:
    """Return ``sheet`` with a ten of true size and its number inside the margins."""
    page = page_of(style.paper, sheet.width != style.paper.width_mm)
    below = max(0.0, _NUMBER * style.look.type_mm.heading - FOOT / 2)
    inside = page.inside
    width, height = inside.width - _ASIDE, inside.height - below  # clear of a cut along the margin
    area = SheetArea(page, replace(inside, width=width, height=height))
    return replace(sheet, items=(*sheet.items, *foot(Foot(), area, style)))
