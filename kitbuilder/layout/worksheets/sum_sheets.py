"""Pages of sums for a child to write, a line for the name above, and the key for the adult."""

from kitbuilder.design.style import Style
from kitbuilder.kit.card_records import Pack
from kitbuilder.layout.model import Item, Rect, Sheet, SheetKind
from kitbuilder.layout.parts.block import EMPTY, Block, stack
from kitbuilder.layout.parts.child_sum import written
from kitbuilder.layout.parts.contents import Panel, Rule
from kitbuilder.layout.parts.furniture import Foot, Heading, foot, header
from kitbuilder.layout.parts.settings import Setting, settings
from kitbuilder.layout.parts.sheet_area import SheetArea
from kitbuilder.layout.parts.words import lines, name_in, placed_line
from kitbuilder.layout.worksheets.sum_grid import fits, grid
from kitbuilder.number import Sum

_NAME_LINE, _WRITE, _MOST_ACROSS, _LARGER = 13.0, 9.0, 4, 1.5


def sum_sheets(packs: tuple[Pack, ...], style: Style) -> list[Sheet]:
    """Return the pages of sums to write of each pack that has some, each with its key after it."""
    sheets: list[Sheet] = []
    for pack in packs:
        if pack.sheet:
            sheets += _pages(pack, style, len(sheets))
    return sheets


def _pages(pack: Pack, style: Style, before: int) -> list[Sheet]:
    area = SheetArea.upright(style.paper)
    words = style.words
    asked = Heading("pencil", words("sum_sheet.title"), ("child",))
    key = Heading("right", words("sum_sheet.key"), ("adult",))
    top = max(header(h, area, style)[1] for h in (asked, key))
    body = area.body(top)
    told = _told(pack.name, body.width, style)
    above = max(_NAME_LINE, told.height + 3)
    cells = _cells(pack.sheet, body, above, style)
    found: list[Sheet] = []
    for kind, heading in ((SheetKind.SUM_SHEET, asked), (SheetKind.SUM_KEY, key)):
        for start in range(0, len(pack.sheet), len(cells)):
            sums = pack.sheet[start : start + len(cells)]
            items = [*header(heading, area, style)[0], *foot(Foot(), area, style)]
            if kind is SheetKind.SUM_SHEET:
                items += _name(pack.name, body, style)
            else:
                items += told.at(body.x, body.y)
            for number, (cell, sum_) in enumerate(zip(cells, sums, strict=False), start + 1):
                items += _sum(sum_, number, cell, style, told=kind is SheetKind.SUM_KEY)
            number = before + len(found) + 1
            size, section = (area.page.width, area.page.height), pack.name
            found.append(Sheet(kind, number, "paper", *size, tuple(items), section=section))
    return found


def _digits(sums: tuple[Sum, ...], width: float, style: Style) -> tuple[Setting, int]:
    """Return the digits' setting and how many sums stand in a row: as large as a child reads."""
    size = 1.1 * settings(style.look).child.size
    places = max(sum_.places for sum_ in sums)
    need = (places + 1) * 0.98 * size + 8
    across = max(1, min(_MOST_ACROSS, fits(width, need)))
    return Setting(size, 1.2 * size), across


def _cells(sums: tuple[Sum, ...], body: Rect, above: float, style: Style) -> tuple[Rect, ...]:
    """Return the places of the sums on one page, row by row: few sums fill it too."""
    setting, most = _digits(sums, body.width, style)
    high = written(sums[0], setting).height + _WRITE
    room = Rect(body.x, body.y + above, body.width, body.height - above)
    rows = max(1, fits(room.height, high))
    across = next(
        (n for n in range(min(2, most, len(sums)), most) if -(-len(sums) // n) <= rows),
        most,
    )
    return grid(len(sums), room, across, rows).places


def _told(name: str, width: float, style: Style) -> Block:
    """Return whose key it is, if that is known, and what an adult does with the answers."""
    sets = settings(style.look)
    told = lines(style.words("sum_sheet.how"), sets.text, width)
    whose = name_in(name, sets.heading, (width, 0.0), sets.least.size) if name else EMPTY
    return stack((whose, told))


def _name(name: str, body: Rect, style: Style) -> tuple[Item, ...]:
    """Return the line for the child's name, filled in where it is known."""
    sets = settings(style.look)
    said = placed_line(style.words("sum_sheet.name"), sets.text, body.x, body.y + 4)
    left = said.rect.right + 2
    line = Item("rule", Rect(left, body.y + 6.4, body.right - left, 0.01), Rule("rule"))
    known = name_in(name, sets.text, (line.rect.width - 1, 0.0), sets.least.size)
    return (said, line, *(known.at(left + 1, body.y + 4 - known.height / 2) if name else ()))


def _sum(sum_: Sum, number: int, cell: Rect, style: Style, *, told: bool) -> tuple[Item, ...]:
    sets = settings(style.look)
    setting, _ = _digits((sum_,), cell.width, style)
    one = written(sum_, setting)
    room = (cell.width - 6) / one.width, (cell.height - 6) / (one.height + _WRITE)
    block = written(
        sum_, setting.sized(setting.size * min(_LARGER, *room)), sum_.rest if told else None
    )
    counted = placed_line(f"{number}.", sets.least, cell.x + 1.8, cell.y + 3.2)
    left = cell.x + min(cell.width - block.width - 3, (cell.width - block.width) / 2 + 4)
    frame = Item("panel", cell, Panel("none", "zone", 2.2))
    return (frame, counted, *block.at(left, cell.y + _WRITE - 1))
