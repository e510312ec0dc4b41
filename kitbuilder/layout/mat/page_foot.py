"""The foot of a page that is used up to the printer's own margins."""

from kitbuilder.design.style import Style
from kitbuilder.kit import phrases
from kitbuilder.layout.mat.tiling import page_of
from kitbuilder.layout.model import Item, Rect, Sheet
from kitbuilder.layout.parts.contents import Line, Ruler
from kitbuilder.layout.parts.furniture import Foot, foot, foot_below, told_below
from kitbuilder.layout.parts.settings import settings
from kitbuilder.layout.parts.sheet_area import SheetArea
from kitbuilder.layout.parts.words import placed_line

_ASIDE = 3.0
# How far the foot ends before the right margin, in mm.

_CLEAR = 0.4
# The least air around a ten that stands higher, in mm.

_NUMBER = 6.0
# The most size of a page's number in mm: a larger one would reach up to a mat's frame.


def footed(sheet: Sheet, style: Style) -> Sheet:
    """Return ``sheet`` with a ten of true size and its number inside the margins."""
    page = page_of(style.paper, sheet.width != style.paper.width_mm)
    below = foot_below(style.look, _NUMBER)
    inside = page.inside
    width, height = inside.width - _ASIDE, inside.height - below  # clear of a cut along the margin
    area = SheetArea(page, Rect(inside.x, inside.y, width, height))
    return sheet.with_items(_measured(foot(Foot(most=_NUMBER), area, style), sheet, inside, style))


def _measured(
    items: tuple[Item, ...], sheet: Sheet, inside: Rect, style: Style
) -> tuple[Item, ...]:
    """Return a foot that tells below its ten how long it is, where nothing tells it yet.

    The ten stands higher then, unless it would meet what is printed above it.
    """
    bar = next((item for item in items if isinstance(item.content, Ruler)), None)
    if bar is None or any(isinstance(item.content, Line) for item in items):
        return items
    setting, rect = settings(style.look).least, bar.rect
    said = phrases.length(style.words, "foot.long", rect.width)
    high, middle = told_below(inside.bottom, setting.size)
    told = placed_line(said, setting, rect.x + rect.width / 2, middle, "centre")
    up = min(0.0, high - rect.y - rect.height / 2)
    raised = Item(bar.what, rect.moved(0, up), bar.content)
    if told.rect.bottom > sheet.height:  # pages without margins
        return items
    if any(item.rect.overlaps(raised.rect.inset(-_CLEAR)) for item in sheet.items):
        return items
    return (raised, *(item for item in items if item is not bar), told)
