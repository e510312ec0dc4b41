"""Strokes over what falls off of a sheet in the size of a ten, which would be taken for one."""

from collections.abc import Sequence

from kitbuilder.layout.cutting.cut_plan import CutPlan
from kitbuilder.layout.cutting.line_segments import slanting
from kitbuilder.layout.model import Item, Rect, Sheet
from kitbuilder.layout.parts.contents import Hatch

_SLANT, _OFF, _NEARLY = 5.0, 1.2, 0.15
# In mm, how far strokes are apart, and off the lines to cut; how much of a unit what falls off may
# differ from a ten.


def with_hatched(sheets: Sequence[Sheet], plan: CutPlan) -> tuple[Sheet, ...]:
    """Return the ``sheets`` of ``plan`` with strokes over what would be taken for a ten."""
    unit = plan.unit_mm
    made = []
    for sheet, one in zip(sheets, plan.cut_sheets, strict=True):
        items, page = [], Rect(0, 0, sheet.width, sheet.height).inset(0.01)
        for node in one.root.ends():
            short, long = sorted((node.rect.width, node.rect.height))
            off = max(abs(short - unit), abs(long - 10 * unit))
            inside = page.holds(node.rect)  # no line is at the sheet's own edge
            if node.falls and inside and off < _NEARLY * unit:
                rect = node.rect.inset(_OFF)
                items.append(Item("hatch", rect, Hatch(slanting(rect.width, rect.height, _SLANT))))
        made.append(sheet.with_items(items))
    return tuple(made)
