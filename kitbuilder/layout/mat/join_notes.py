"""What each sheet of a mat says of how it joins: in words, and in a picture of all its sheets."""

from collections.abc import Iterator, Mapping, Sequence

from kitbuilder.design.load import Words
from kitbuilder.design.style import Style
from kitbuilder.layout.mat.mat_records import Edge, MatTile
from kitbuilder.layout.mat.tiling import FOOT
from kitbuilder.layout.model import Item, Rect, Sheet
from kitbuilder.layout.parts.block import Block
from kitbuilder.layout.parts.contents import Fill, PageNumber, Panel
from kitbuilder.layout.parts.furniture import pictogram, told_below
from kitbuilder.layout.parts.settings import Setting, settings
from kitbuilder.layout.parts.words import lines, placed_line, wide

_LEADING = 1.3
_PICTOGRAM, _ASIDE = 5.0, 7.0
# The height of a line in ems; the pictogram before the words, and where these begin after it, mm.

_MOST_PAGE = 888
# As wide as the page of a mat is thought to be before it is known.

_HIGH, _AIR = 1.1, 1.0
# The least height of a sheet in the picture in ems of its number, and what stays clear of it, mm.

_CORNER = 19.0
# What the page's own number takes in the corner below the mat, with air beside the picture, mm.


def with_joins(sheets: Sequence[Sheet], style: Style, before: int = 0) -> tuple[Sheet, ...]:
    """Return all ``sheets`` of a kit in order, those of a mat now telling which page joins where.

    The sheets of one mat follow each other; so many pages stand ``before`` all.
    """
    return tuple(_joined(page, sheet, style) for page, sheet in enumerate(sheets, before + 1))


def _joined(page: int, sheet: Sheet, style: Style) -> Sheet:
    tile = sheet.items[0].content if sheet.items else None
    if not isinstance(tile, MatTile) or len(tile.mat.tiles) == 1:
        return sheet
    first = page - tile.number + 1
    return sheet.with_items((*_said(sheet, tile, first, style), *_shown(sheet, tile, first, style)))


def note_height(across: int, width: float, style: Style) -> float:
    """Return how high the words are at most below a mat ``across`` sheets wide.

    They stand in a column ``width`` mm wide with the picture.
    """
    most: dict[Edge, int] = dict.fromkeys(("right", "bottom", "left", "top"), _MOST_PAGE)
    cuts: tuple[tuple[Edge, ...], ...] = ((), ("right",), ("bottom",), ("right", "bottom"))
    room = _room(across, width, style)
    said = (lines(_sentence(most, cut, style.words), _text(style), room) for cut in cuts)
    return max(block.height for block in said) + 1 + _raised(style)


def _raised(style: Style) -> float:
    """Return how far the foot's bar may stand above the foot, for its length in large type, mm."""
    middle, _ = told_below(0.0, settings(style.look).least.size)
    return max(0.0, -middle + 2 * _AIR - FOOT)


def _text(style: Style) -> Setting:
    text = settings(style.look).text.quiet()
    return Setting(text.size, _LEADING * text.size, text.face, text.tone)


def _room(across: int, width: float, style: Style) -> float:
    """Return how wide the words may be beside the pictogram, the picture and the page's number."""
    return max(width / 2, width - _ASIDE - across * _cell(style) - _CORNER)


def _cell(style: Style) -> float:
    return wide("88", settings(style.look).least) + 1.2


def _sentence(pages: Mapping[Edge, int], cut: Sequence[Edge], words: Words) -> str:
    """Return what is done with a sheet that meets those ``pages`` and is ``cut`` so."""
    if len(cut) == 2:
        return words("mat.cut.both", right=pages["right"], below=pages["bottom"])
    if cut:
        return words(f"mat.cut.{cut[0]}", page=pages[cut[0]])
    if len(pages) > 1:
        return words("mat.cut.none", first=pages["top"], second=pages["left"])
    return words("mat.cut.last", page=next(iter(pages.values())))


def _said(sheet: Sheet, tile: MatTile, first: int, style: Style) -> tuple[Item, ...]:
    """Return the words of a sheet of the mat whose first is page ``first``."""
    rect = sheet.items[0].rect
    pages = {join.edge: first + join.other - 1 for join in tile.joins}
    cut = [join.edge for join in tile.joins if join.cut]
    room = _room(tile.mat.across, rect.width, style)
    block = lines(_sentence(pages, cut, style.words), _text(style), room)
    icon = pictogram("scissors" if "bottom" in cut else "glue", _PICTOGRAM)
    y = rect.bottom + 0.3
    told = (*icon.at(rect.x, y), *block.at(rect.x + _ASIDE, y))
    if "right" not in cut:
        return told
    return (*told, *pictogram("scissors", _PICTOGRAM, 3).at(rect.right - _PICTOGRAM - 0.4, y))


def _shown(sheet: Sheet, tile: MatTile, first: int, style: Style) -> tuple[Item, ...]:
    """Return a small picture of all sheets as they join, this one dark; none without room."""
    rect = sheet.items[0].rect
    number = next(item.rect for item in sheet.items if isinstance(item.content, PageNumber))
    least = settings(style.look).least
    down = len(tile.mat.tiles) // tile.mat.across
    right = min(number.x, rect.right) - 2 * _AIR
    taken = [item.rect for item in sheet.items[1:] if item.rect.right > right - rect.width / 4]
    for bottom in (number.bottom, number.bottom - FOOT):
        room = bottom - rect.bottom - 2 * _AIR
        low = _HIGH * least.size
        if room < down * low:
            continue
        width = _cell(style)
        high = min(room / down, max(low, width * sheet.height / sheet.width))
        pages = [str(first + index) for index in range(len(tile.mat.tiles))]
        picture = _sheets(pages, tile.mat.across, (width, high), style, tile.number)
        x, y = right - picture.width, bottom - picture.height
        box = Rect(x, y, picture.width, picture.height)
        if not any(box.overlaps(one) for one in taken):
            return picture.at(x, y)
    return ()


def lettered_joins(sheets: Sequence[Sheet], style: Style) -> Iterator[Block]:
    """Yield a small picture of each mat that several of ``sheets`` make, with their letters."""
    seen = set[tuple[str, ...]]()
    for start, sheet in enumerate(sheets):
        tile = sheet.items[0].content if sheet.items else None
        if not isinstance(tile, MatTile) or tile.number > 1 or len(tile.mat.tiles) == 1:
            continue
        letters = tuple(one.name for one in sheets[start : start + len(tile.mat.tiles)])
        if letters not in seen:
            seen.add(letters)
            width = _cell(style)
            cell = width, max(_HIGH * settings(style.look).least.size, width)
            yield _sheets(letters, tile.mat.across, cell, style)


def _sheets(
    names: Sequence[str], across: int, cell: tuple[float, float], style: Style, here: int = 0
) -> Block:
    """Return the sheets of a mat side by side with their ``names``; number ``here`` is dark."""
    least, (width, high) = settings(style.look).least, cell
    items = []
    for index, name in enumerate(names):
        row, column = divmod(index, across)
        rect = Rect(column * width, row * high, width, high)
        fill: Fill = "gone" if index + 1 == here else "paper"
        items.append(Item("sheet", rect, Panel(fill, "write", 0.0)))
        middle = rect.y + high / 2
        if name:
            items.append(placed_line(name, least, rect.x + width / 2, middle, "centre"))
    return Block(tuple(items), across * width, len(names) // across * high)
