"""The page that says how sheets are cut with a pair of scissors, in numbered, pictured steps."""

from bisect import bisect_left
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import lru_cache
from itertools import groupby

from kitbuilder.design.load import Words
from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError
from kitbuilder.layout.bag import Bag
from kitbuilder.layout.cutting.cut_map import CutMap
from kitbuilder.layout.cutting.cut_marks import line_signs
from kitbuilder.layout.cutting.cut_tree import strokes
from kitbuilder.layout.cutting.line_segments import Segment, merged
from kitbuilder.layout.cutting.scissors_steps import piece_steps
from kitbuilder.layout.cutting.sheet_steps import keeping
from kitbuilder.layout.mat.mat_cuts import joined_sheets
from kitbuilder.layout.mat.mat_text import sheet_name
from kitbuilder.layout.model import Item, Rect, Sheet, SheetKind
from kitbuilder.layout.parts.block import MOST_GAP, Block, alike, row, stack, without_rules
from kitbuilder.layout.parts.contents import Panel, Rule
from kitbuilder.layout.parts.furniture import (
    Heading,
    cut_letter,
    header,
    letter_side,
    paper_sheets,
    rule,
)
from kitbuilder.layout.parts.settings import Setting, settings
from kitbuilder.layout.parts.sheet_area import GUTTER, SheetArea
from kitbuilder.layout.parts.words import line, lines, wide

LEAST = 2.4
"""The least space between two rows of the page, in mm."""

TWO = 150.0
"""The least width in mm of a page on which two other sheets stand side by side in any type."""

SIZES = (1.35, 1.25, 1.15, 1.07, 1.0, 0.93, 0.86, 0.8, 0.74, 0.68, 0.62, 0.56, 0.5)
"""How large pictures are tried, as parts of what looks best."""

_LARGER = (2.0, 1.8, 1.65, 1.5, 1.35)
# The same for pictures of the sheets of pieces alone, where the fewest pages are several.

_WHOLE = 0.8
# The size of pictures down to which those of one sheet are made to stand beside each other.

_MATS = (SheetKind.MAT, SheetKind.ADDITION_MAT)

_FLAT = (34.0, 44.0)
"""How large a sheet of thousands is pictured at most, in mm."""


def scissors_pages(cut: CutMap, bag: Bag, style: Style) -> tuple[Sheet, ...]:
    """Return the pages on cutting everything of ``cut`` with scissors.

    ``bag`` says what goes into each bag; it is empty where there is one kit. Pictures are as
    large as the fewest pages allow. Raises ``RefusedError`` where large words leave a small page.
    """
    if not cut.sheets:
        return ()
    area = SheetArea.upright(style.paper)
    words = style.words
    heading = Heading("scissors", words("title.cutting"), ("adult",), words("scissors.note"))
    top, y = header(heading, area, style)
    room = area.body(y)
    pages = _fewest(lambda size, pieces: _blocks(cut, bag, room, style, (size, pieces)), room)
    size = (area.page.width, area.page.height)
    if any(item.rect.right > size[0] or item.rect.bottom > size[1] for p in pages for item in p):
        raise RefusedError(
            "page.too-low", field="paper", width=room.width, height=room.height, high=size[1]
        )
    return paper_sheets(SheetKind.CUTTING, top, pages, area, style)


def _fewest(blocks: Callable[[float, float], list[Block]], room: Rect) -> list[tuple[Item, ...]]:
    """Return the fewest pages, filled alike, their pictures as large as those allow.

    Smaller pictures never take more pages or blocks. On several pages they may be smaller only
    down to ``_WHOLE`` to need fewer blocks, and those of pieces larger than others.
    """

    @lru_cache(len(SIZES) + len(_LARGER))
    def at(size: float, pieces: float) -> tuple[tuple[int, int], list[list[Block]]]:
        found = blocks(size, pieces)
        pages = alike(found, room.height, LEAST)
        return (len(pages), len(found) if len(pages) > 1 and size >= _WHOLE else 0), pages

    whole = [size for size in SIZES if size >= _WHOLE]
    fewer = at(SIZES[-1], SIZES[-1])[0][0] < at(whole[-1], whole[-1])[0][0]
    sizes = SIZES[len(whole) :] if fewer else whole
    best = at(sizes[-1], sizes[-1])[0]
    size = sizes[bisect_left(sizes, 1, key=lambda size: at(size, size)[0] == best)]
    pages = at(size, size)[1]
    if len(pages) > 1:
        ways = (at(size, max(size, larger))[1] for larger in _LARGER)
        held = (w for w in ways if all(b.height <= room.height for page in w for b in page))
        pages = next((w for w in held if [*map(len, w)] == [*map(len, pages)]), pages)
    return [_shared(without_rules(page), room) for page in pages]


def _blocks(
    cut: CutMap, bag: Bag, room: Rect, style: Style, sizes: tuple[float, float]
) -> list[Block]:
    """Return the blocks of all pages; ``sizes`` are those of pictures, and of sheets of pieces."""
    size, pieces = sizes
    found = [_key(room.width, style)]
    found += piece_steps(cut.plan, bag, room, style, pieces) if cut.plan else []
    found += _others(cut, room.width, style, size)
    care = lines(style.words("scissors.care"), settings(style.look).least, room.width)
    return [*found, care]


def _shared(blocks: Sequence[Block], room: Rect) -> tuple[Item, ...]:
    spare = room.height - sum(block.height for block in blocks) - LEAST * (len(blocks) - 1)
    most = MOST_GAP if spare < room.height / 4 else 2 * MOST_GAP
    gap = LEAST + max(0.0, min(most, spare / max(1, len(blocks) - 1)))
    return stack(blocks, gap).at(room.x, room.y)


def _key(width: float, style: Style) -> Block:
    """Return what lines are cut, and what lines never."""
    signs = line_signs(7.0, 1.0, 5.0)
    shares = 0.58 * (width - GUTTER), 0.42 * (width - GUTTER)
    both = row(_keys(signs, shares, style), GUTTER)
    below = stack(_keys(signs, (width, width), style), 1.5)
    return min(both, below, key=lambda block: block.height)


def _keys(signs: Sequence[Block], widths: Sequence[float], style: Style) -> list[Block]:
    """Return each sign of a line with what it means, in one of ``widths`` mm."""
    text = settings(style.look).text
    cells = []
    for signed, key, across in zip(signs, ("scissors.dark", "scissors.grey"), widths, strict=True):
        said = lines(style.words(key), text, across - signed.width - 2.5)
        down = max(0.0, (7.0 - said.height) / 2)
        cells.append(row((signed, said.moved(0, down)), 2.5).as_wide(across))
    return cells


def _others(cut: CutMap, width: float, style: Style, size: float) -> list[Block]:
    """Return small pictures of the other sheets with the lines to cut on them."""
    words, sets = style.words, settings(style.look)
    others = [*(one.printed for one in cut.sheets), *cut.others]
    by_hand = [s for s in others if s.cuts and s.kind is not SheetKind.PIECES]
    thousands = [s for s in by_hand if s.kind is SheetKind.THOUSANDS]
    first = [_thousands(thousands, cut.layers, width, style)] if thousands else []
    by_hand = [s for s in others if s.kind in _MATS or (s in by_hand and s not in thousands)]
    kinds = (list(same) for _, same in groupby(by_hand, key=lambda s: (s.kind, s.later)))
    found = [same for same in kinds if any(sheet.cuts for sheet in same)]
    if not found:
        return [rule(width), *first] if first else []
    kept = {one.sheet.kind: one.kept for one in cut.sheets if one.kept}
    rooms = ((width - GUTTER) / 2, width) if width >= TWO else (width,)
    ways = [
        _in_rows([_other(same, cut.layers, kept, (room, size), style) for same in found], width)
        for room in rooms
    ]
    rows = min(ways, key=lambda way: sum(block.height for block in way))
    heading = lines(words("scissors.others"), sets.heading, width)
    above = [rule(width), *first] if first else []
    return [*above, rule(width), stack((heading, rows[0]), 2.0), *rows[1:]]


def _other(
    sheets: Sequence[Sheet],
    layers: int,
    kept: Mapping[SheetKind, Sequence[Item]],
    drawn: tuple[float, float],
    style: Style,
) -> Block:
    """Return what ``sheets`` of one kind are beside their picture.

    ``drawn`` are the width that both may have, in mm, and the size of the mat in pictures.
    """
    (room, size), keep = drawn, kept.get(sheets[0].kind, ())
    joined = sheets[0].kind in _MATS
    picture = joined_sheets(sheets, size) if joined else _thumb(sheets[0], 20.0, 15.0, keep)
    picture = picture.as_wide(max(20.0, picture.width))
    said = _counted(sheets, layers, room - picture.width - 3.0, style, keep=keep)
    return row((picture, stack(said)), 3.0)


def _in_rows(cells: Sequence[Block], width: float) -> list[Block]:
    """Return ``cells`` beside each other in rows ``width`` mm wide."""
    each = max(cell.width for cell in cells)
    per_row = max(1, int((width + GUTTER) / (each + GUTTER)))
    across = (width - GUTTER * (per_row - 1)) / per_row
    return [
        row([cell.as_wide(across) for cell in cells[k : k + per_row]], GUTTER)
        for k in range(0, len(cells), per_row)
    ]


def _counted(
    sheets: Sequence[Sheet], layers: int, room: float, style: Style, *, keep: Sequence[Item] = ()
) -> tuple[Block, ...]:
    """Return what ``sheets`` of one kind are, how many, how many lines are seen and cut on them.

    How many cuts that takes is told where it is more. Which lines come first is said, and what
    there is to ``keep`` of that which falls off.
    """
    words, sets = style.words, settings(style.look)
    folded = sheets[0].kind is SheetKind.THOUSANDS
    copies = sum(sheet.copies for sheet in sheets)
    seen = sum(len(_seen(sheet)) * -(-sheet.copies // layers) for sheet in sheets)
    counts = [f"{words.count('count.sheet', copies)}, {words.count('count.line', seen)}"]
    if (cuts := strokes(sheets, layers)) > seen:
        said = "scissors.with_slits" if folded else "scissors.in_all"
        counts.append(words(said, cuts=words.count("count.cut", cuts)))
    if not folded and any(map(_edges_first, sheets)):
        counts.append(words("scissors.edges_first"))
    if keep:
        counts.append(words(f"scissors.kept.{keeping(keep)}"))
    named = _short(_named(sheets[0], words), sets.text, room)
    return (named, *(_short(said, sets.least, room) for said in counts))


def _seen(sheet: Sheet) -> tuple[Segment, ...]:
    """Return the lines to cut that are seen on a sheet: one that others part is one."""
    return merged((cut.x1, cut.y1, cut.x2, cut.y2) for cut in sheet.cuts)


def _edges_first(sheet: Sheet) -> bool:
    """Whether a line of a sheet would cut too far if it were cut from edge to edge."""
    spans = {(x2 - x1 >= sheet.width - 0.01) or (y2 - y1 >= sheet.height - 0.01)
             for x1, y1, x2, y2 in _seen(sheet)}  # fmt: skip
    return len(spans) > 1


def _thousands(sheets: Sequence[Sheet], layers: int, width: float, style: Style) -> Block:
    """Return what is cut of a sheet of thousands, lines with their letters, and the order."""
    side, sheet = letter_side(style), sheets[0]
    items = list(_thumb(sheet, *_FLAT).items)
    times = items[0].rect.width / sheet.width
    items += _slits_and_bands(sheet, times)
    for index, cut in enumerate(sheet.cuts):
        down = cut.x1 == cut.x2
        x = cut.x1 * times - side / 2 if down else items[0].rect.right + 1.0
        y = -side - 1.0 if down else cut.y1 * times - side / 2
        items += cut_letter(chr(ord("A") + index), style).at(x, y)
    high = items[0].rect.height + side + 1.0
    picture = Block(tuple(items), items[0].rect.width + side / 2 + 1.0 + side, high)
    picture = picture.moved(side / 2, side + 1.0)
    sets, room = settings(style.look), width - picture.width - 4.0
    heading = lines(style.words("title.thousands"), sets.heading, room)
    _, *counts = _counted(sheets, layers, room, style)
    then = style.words("scissors.thousands", folding=style.words("title.folding"))
    told = lines(then, sets.text, room)
    return row((picture, stack((heading, told, *counts), 1.2)), 4.0)


def _slits_and_bands(sheet: Sheet, times: float) -> Iterator[Item]:
    """Yield the slits of a sheet of thousands and its bands, so many ``times`` as large."""
    for item in sheet.items:
        x, y, wide_, high = (times * at for at in item.rect)
        if item.what == "band":
            yield Item("band", Rect(x, y, wide_, high), Panel("none", "bubble", 0.0))
        for slit in getattr(item.content, "slits", ()):
            x1, y1, x2, y2 = (times * at for at in slit)
            line = Rect(x1, y1, max(x2 - x1, 0.01), max(y2 - y1, 0.01))
            yield Item("blade", line, Rule("snip"))


def _short(text: str, setting: Setting, room: float) -> Block:
    """Return ``text`` on one line, or broken where it is wider than ``room`` mm."""
    return line(text, setting) if wide(text, setting) <= room else lines(text, setting, room)


def _named(sheet: Sheet, words: Words) -> str:
    """Return what a sheet is, and whether it is printed only later."""
    name = sheet_name(sheet, words)
    return words("scissors.later", what=name) if sheet.later else name


def _thumb(sheet: Sheet, width: float, height: float, keep: Sequence[Item] = ()) -> Block:
    """Return a small picture of a sheet, the lines to cut on it and what there is to ``keep``."""
    times = min(width / sheet.width, height / sheet.height)
    across, high = sheet.width * times, sheet.height * times
    items = [Item("sheet", Rect(0, 0, across, high), Panel("paper", "bubble", 0.0))]
    items += [Item("kept", i.rect.scaled(times), Panel("paper", "bubble", 0.3)) for i in keep]
    for cut in sheet.cuts:
        x, y = min(cut.x1, cut.x2) * times, min(cut.y1, cut.y2) * times
        long = max(abs(cut.x2 - cut.x1), abs(cut.y2 - cut.y1)) * times
        down = cut.x1 == cut.x2
        rect = Rect(x, y, 0.01, long) if down else Rect(x, y, long, 0.01)
        items.append(Item("blade", rect, Rule("cut" if len(sheet.cuts) < 8 else "snip")))
    return Block(tuple(items), width, max(high, 1.0))
