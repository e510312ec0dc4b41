"""The page that says how sheets are cut with a pair of scissors, in five pictured steps."""

from collections.abc import Iterator, Sequence
from itertools import groupby

from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError
from kitbuilder.kit import phrases
from kitbuilder.layout.cutting.cut_map import CutMap, counted
from kitbuilder.layout.cutting.cut_plan import CutPlan
from kitbuilder.layout.cutting.cut_tree import CutNode, CutSheet, strokes
from kitbuilder.layout.cutting.exploded import (
    GAP,
    Run,
    Scale,
    column_picture,
    foot_picture,
    lengthways_picture,
    part,
    runs,
)
from kitbuilder.layout.model import Item, Rect, Sheet, SheetKind
from kitbuilder.layout.packing.scissors_columns import Step
from kitbuilder.layout.page import Page
from kitbuilder.layout.parts.block import EMPTY, Block, row, stack
from kitbuilder.layout.parts.contents import Panel, Rule
from kitbuilder.layout.parts.furniture import (
    Foot,
    Heading,
    foot,
    header,
    pictogram,
    rule,
    step_heading,
    tick,
    wrapped,
)
from kitbuilder.layout.parts.settings import Setting, settings
from kitbuilder.layout.parts.sheet_area import GUTTER, SheetArea
from kitbuilder.layout.parts.words import line, lines, wide
from kitbuilder.layout.pieces.cut_marks import CutMark, with_cut_marks
from kitbuilder.layout.pieces.heaps import heap

LEAST = 2.4
"""The least space between two rows of the page, in mm."""

SIZES = (1.0, 0.93, 0.86, 0.8, 0.74, 0.68, 0.62, 0.56, 0.5)
"""How large pictures are tried, as parts of what looks best."""


def scissors_pages(cut: CutMap, bag: Sequence[str], style: Style) -> tuple[Sheet, ...]:
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
    pages = list(_paged(_blocks(cut, bag, room, style, SIZES[0]), room))
    for size_ in SIZES[1:]:
        if len(pages) > 1:
            smaller = list(_paged(_blocks(cut, bag, room, style, size_), room))
            pages = min(pages, smaller, key=len)
    size = (area.page.width, area.page.height)
    if any(item.rect.right > size[0] or item.rect.bottom > size[1] for p in pages for item in p):
        raise RefusedError(
            "page.too-low", field="paper", width=room.width, height=room.height, high=size[1]
        )
    return tuple(
        Sheet(SheetKind.CUTTING, number, "paper", *size, (*top, *page, *foot(Foot(), area, style)))
        for number, page in enumerate(pages, 1)
    )


def _blocks(cut: CutMap, bag: Sequence[str], room: Rect, style: Style, size: float) -> list[Block]:
    found = [_key(room.width, style)]
    found += _steps(cut.plan, bag, room, style, size) if cut.plan else []
    found += _others(cut, room.width, style)
    care = lines(style.words("scissors.care"), settings(style.look).least, room.width)
    return [*found, care]


def _paged(blocks: Sequence[Block], room: Rect) -> Iterator[tuple[Item, ...]]:
    """Yield the items of pages that hold ``blocks``, spare height shared between them."""
    page: list[Block] = []
    for block in blocks:
        used = sum(b.height + LEAST for b in page)
        if page and used + block.height > room.height:
            yield _shared(_without_rules(page), room)
            page = []
        page.append(block)
    if page:
        yield _shared(page, room)


def _without_rules(page: list[Block]) -> list[Block]:
    """Return ``page`` without a thin line at its top or foot."""
    while page and page[0].height < 0.1:
        page = page[1:]
    while page and page[-1].height < 0.1:
        page = page[:-1]
    return page


def _shared(blocks: Sequence[Block], room: Rect) -> tuple[Item, ...]:
    spare = room.height - sum(block.height for block in blocks) - LEAST * (len(blocks) - 1)
    gap = LEAST + max(0.0, min(7.0, spare / max(1, len(blocks) - 1)))
    return stack(blocks, gap).at(room.x, room.y)


def _key(width: float, style: Style) -> Block:
    """Return what lines are cut, and what lines never."""
    text = settings(style.look).text
    dark = (
        pictogram("scissors", 7.0),
        Block((Item("rule", Rect(0, 3.5, 12, 0.01), Rule("rule")),), 12, 7.0),
    )
    ground = Block((Item("rule", Rect(0, 3.5, 12, 0.01), Rule("divider")),), 12, 7.0)
    grey = (ground.over(Block(pictogram("never", 5.0).at(3.5, 1.0), 12, 7.0)),)
    cells = []
    for signs, key, share in ((dark, "scissors.dark", 0.58), (grey, "scissors.grey", 0.42)):
        across = share * (width - GUTTER)
        signed = row(signs, 1.0)
        said = lines(style.words(key), text, across - signed.width - 2.5)
        down = max(0.0, (7.0 - said.height) / 2)
        cells.append(_wide(row((signed, said.moved(0, down)), 2.5), across))
    return row(cells, GUTTER)


def _wide(block: Block, width: float) -> Block:
    return Block(block.items, width, block.height)


def _steps(plan: CutPlan, bag: Sequence[str], room: Rect, style: Style, size: float) -> list[Block]:
    """Return the steps of cutting the pieces, one sheet as their picture."""
    marked = {one: _letters(one, style) for one in plan.cut_sheets}
    first = max(marked, key=lambda one: (len(marked[one]), one.root.number == Step.FOOT))
    letters = marked[first]
    has_foot = first.root.number == Step.FOOT
    upper = first.root.halves[0] if has_foot else first.root
    high, half = 0.165 * room.height * size, (room.width - GUTTER) / 2
    cells: list[tuple[tuple[str, str], Block]] = []
    if has_foot:
        scale = _scale(first.root, (0.55 * half, high), style)
        said = (style.words("scissors.foot", letter=letters[0]), style.words("scissors.foot_note"))
        cells.append((said, foot_picture(first.root, letters[0], scale, style)))
    parts = list(upper.after(Step.LENGTHWAYS))
    if len(parts) > 1:
        names = letters[has_foot:] or [""] * (len(parts) - 1)
        scale = _scale(upper, (half - GAP * len(parts), high), style)
        held = sum(not node.falls for node in parts)
        said = (_lengthways(names, style), style.words.count("scissors.long", held))
        cells.append((said, lengthways_picture(upper, names, scale, style)))
    rows = [_step_row(cells, room.width, style), rule(room.width)] if cells else []
    number = len(cells) + 1
    rows += [_across(upper, number, room, style, size), rule(room.width)]
    snips = any(n.number == Step.SNIP for one in plan.cut_sheets for n in one.root.divided())
    if not snips:
        return [*rows, _count(plan, bag, number + 1, room.width, style)]
    if half >= _count_width(plan, style):
        snip = _snip(number + 1, half, style)
        return [*rows, row((snip, _count(plan, bag, number + 2, half, style)), GUTTER)]
    snip = _snip(number + 1, room.width, style)
    return [*rows, snip, rule(room.width), _count(plan, bag, number + 2, room.width, style)]


def _letters(one: CutSheet, style: Style) -> list[str]:
    """Return the letters that stand on a sheet; none where there is no room for them."""
    inside, least = Page.upright(style.paper).inside, style.look.type_mm.least
    marks = (item.content for item in with_cut_marks(one.printed, inside, least).items)
    return [mark.letter for mark in marks if isinstance(mark, CutMark)]


def _step_row(cells: Sequence[tuple[tuple[str, str], Block]], width: float, style: Style) -> Block:
    """Return the first steps side by side; a single one has its picture beside its words."""
    half = (width - GUTTER) / 2
    if len(cells) > 1:
        steps = [_step(k, said, half, picture, style) for k, (said, picture) in enumerate(cells, 1)]
        return row(steps, GUTTER)
    ((said, picture),) = cells
    words = _step(1, said, half, EMPTY, style)
    return row((words, picture.moved(max(0.0, (half - picture.width) / 2), 0)), GUTTER)


def _scale(node: CutNode, room: tuple[float, float], style: Style) -> Scale:
    """Return the scale at which ``node`` fits ``room`` (width and height, mm)."""
    times = min(room[0] / node.rect.width, room[1] / node.rect.height)
    return Scale(times, times * style.unit)


def _step(number: int, said: tuple[str, str], width: float, picture: Block, style: Style) -> Block:
    heading = step_heading(number, said[0], width, style)
    note = lines(said[1], settings(style.look).text, width - 10).moved(10, 0)
    shift = max(0.0, (width - picture.width) / 2)
    return _wide(stack((heading, note, picture.moved(shift, 0)), 1.5), width)


def _lengthways(letters: Sequence[str], style: Style) -> str:
    if not any(letters):
        return style.words("scissors.long_lines")
    if len(letters) == 1:
        return style.words("scissors.line", letters=letters[0])
    named = phrases.joined(style.words, letters)
    return style.words("scissors.lines", letters=named)


def _across(upper: CutNode, number: int, room: Rect, style: Style, size: float) -> Block:
    """Return the step of cutting every column across, columns that are alike pictured once."""
    words, text = style.words, settings(style.look).text
    found: dict[tuple[Run, ...], list[CutNode]] = {}
    for column in upper.after(Step.LENGTHWAYS):
        if not column.falls:
            found.setdefault(runs(column), []).append(column)
    widest = (room.width - GUTTER * (len(found) - 1)) / len(found)
    pictures: list[Block] = []
    for same in found.values():
        sides = sorted((same[0].rect.width, same[0].rect.height))
        times = size * min(0.176, 0.22 * room.height / sides[1], 0.4 * widest / sides[0])
        picture = column_picture(same[0], Scale(times, times * style.unit), style)
        if len(same) > 1:
            said = line(words("cutting.parts", count=len(same)), text)
            picture = stack((said, picture), 1.5)
        pictures.append(_wide(picture, widest))
    heading = step_heading(number, words("scissors.across"), room.width, style)
    note = lines(words("scissors.across_note"), text, room.width - 10).moved(10, 0)
    return stack((heading, note, row(pictures, GUTTER)), 1.5)


def _snip(number: int, width: float, style: Style) -> Block:
    """Return the step of snipping strips into ones."""
    unit = min(4.4, (width - 20) / 17)
    items: list[Item] = []
    strip = tuple(Rect(k * unit, 0, unit, unit) for k in range(10))
    for top, count in ((3.0, 10), (3.0 + 2.4 * unit, 5)):
        items += [
            Item("pieces", r.moved(0, top), Panel("paper", "bubble", 0.0)) for r in strip[:count]
        ]
    middle = 9 * unit
    items.append(Item("blade", Rect(middle, 1.0, 0.01, unit + 4), Rule("cut")))
    items += pictogram("scissors", 5.4, 3).at(middle - 2.7, unit + 4.6)
    loose = ((12, 0.0), (13.4, 1.5), (14.6, 0.1), (13.0, 3.1))
    items += [
        Item("pieces", Rect(x * unit, 3 + y * unit, unit, unit), Panel("paper", "bubble", 0.0))
        for x, y in loose
    ]
    picture = Block(tuple(items), 16 * unit, 3.0 + 4.4 * unit)
    said = style.words("scissors.snip"), style.words("scissors.snip_note")
    return _step(number, said, width, picture, style)


CELL_GAP = 2.0
"""The least space between two envelopes, mm."""


def _cells(plan: CutPlan, style: Style) -> list[Block]:
    """Return an envelope for each kind of piece, what goes into it, and a box to tick."""
    text = settings(style.look).text
    cells = []
    for count in plan.bag:
        if not count.count:
            continue
        said = counted((count,), style.words)
        across = wide(said, text) + text.size + 2.0
        picture = heap(count.what, count.count, across - 1.0, 17.0, 1.9)
        shown = Block(picture.at(0, 17.0 - picture.height), across, 17.0)
        envelope = pictogram("envelope", min(15.0, across - 2))
        held = stack((shown, envelope, tick(said, across, style)), 0.5)
        cells.append(_wide(held, across))
    return cells


def _count_width(plan: CutPlan, style: Style) -> float:
    """Return the width that the envelopes need side by side."""
    return row(_cells(plan, style), CELL_GAP).width


def _count(plan: CutPlan, bag: Sequence[str], number: int, width: float, style: Style) -> Block:
    """Return the step of counting the pieces of a kit into envelopes."""
    words, text = style.words, settings(style.look).text
    heading = step_heading(number, words("scissors.count"), width, style)
    note = words("scissors.count_bag" if bag else "scissors.count_note")
    noted = [lines(note, text, width - 10).moved(10, 0)]
    if any(count.count for count in plan.spares):
        left = words("cutting.spares", pieces=counted(plan.spares, words))
        noted.append(lines(left, text, width - 10).moved(10, 0))
    held = wrapped(_cells(plan, style), width, CELL_GAP, 2.0)
    return _wide(stack((heading, *noted, held), 1.5), width)


def _others(cut: CutMap, width: float, style: Style) -> list[Block]:
    """Return small pictures of the other sheets with the lines to cut on them."""
    words, sets = style.words, settings(style.look)
    others = [*(one.printed for one in cut.sheets), *cut.others]
    by_hand = (s for s in others if s.cuts and s.kind is not SheetKind.PIECES)
    found = [(same, _thumb(same[0], 20.0, 15.0)) for same in _by_kind(by_hand)]
    pieces = cut.plan.cut_sheets if cut.plan and len(cut.plan.cut_sheets) > 1 else ()
    for one in reversed(pieces):
        times = min(20.0 / one.sheet.width, 15.0 / one.sheet.height)
        found.insert(0, ([one.printed], part(one.root, Scale(times, times * style.unit))))
    cells = []
    for sheets, picture in found:
        copies, cuts = sum(sheet.copies for sheet in sheets), strokes(sheets, cut.layers)
        said = stack(
            (
                _short(words(f"title.{sheets[0].kind}"), sets.text, width - 23.0),
                _short(words.count("count.sheet", copies), sets.least, width - 23.0),
                _short(words.count("count.cut", cuts), sets.least, width - 23.0),
            )
        )
        cells.append(row((_wide(picture, 20.0), said), 3.0))
    if not cells:
        return []
    each = max(cell.width for cell in cells)
    per_row = max(1, int((width + GUTTER) / (each + GUTTER)))
    across = (width - GUTTER * (per_row - 1)) / per_row
    rows = [
        row([_wide(cell, across) for cell in cells[k : k + per_row]], GUTTER)
        for k in range(0, len(cells), per_row)
    ]
    heading = lines(words("scissors.others"), sets.heading, width)
    return [rule(width), stack((heading, rows[0]), 2.0), *rows[1:]]


def _short(text: str, setting: Setting, room: float) -> Block:
    """Return ``text`` on one line, or broken where it is wider than ``room`` mm."""
    return line(text, setting) if wide(text, setting) <= room else lines(text, setting, room)


def _by_kind(sheets: Iterator[Sheet]) -> list[list[Sheet]]:
    return [list(same) for _, same in groupby(sheets, key=lambda sheet: sheet.kind)]


def _thumb(sheet: Sheet, width: float, height: float) -> Block:
    times = min(width / sheet.width, height / sheet.height)
    across, high = sheet.width * times, sheet.height * times
    items = [Item("sheet", Rect(0, 0, across, high), Panel("paper", "bubble", 0.0))]
    for cut in sheet.cuts:
        x, y = min(cut.x1, cut.x2) * times, min(cut.y1, cut.y2) * times
        long = max(abs(cut.x2 - cut.x1), abs(cut.y2 - cut.y1)) * times
        down = cut.x1 == cut.x2
        rect = Rect(x, y, 0.01, long) if down else Rect(x, y, long, 0.01)
        items.append(Item("blade", rect, Rule("cut" if len(sheet.cuts) < 8 else "divider")))
    return Block(tuple(items), width, max(high, 1.0))
