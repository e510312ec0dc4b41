"""The foot of a page that is used up to the printer's own margins."""

from dataclasses import replace

from kitbuilder.design.style import Style
from kitbuilder.layout.mat.tiling import page_of
from kitbuilder.layout.model import Sheet
from kitbuilder.layout.parts.furniture import Foot, foot
from kitbuilder.layout.parts.sheet_area import FOOT, SheetArea

_NUMBER = 0.6
# How far a page number's letters may reach below the foot's middle, in ems.


def footed(sheet: Sheet, style: Style) -> Sheet:
    """Return ``sheet`` with a ten of true size and its number inside the margins."""
    page = page_of(style.paper, sheet.width != style.paper.width_mm)
    below = max(0.0, _NUMBER * style.look.type_mm.heading - FOOT / 2)
    area = SheetArea(page, replace(page.inside, height=page.inside.height - below))
    return replace(sheet, items=(*sheet.items, *foot(Foot(), area, style)))
