"""The pages of a class: pupils by sums, what fits which mistake, and whom to teach together."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from kitbuilder.design.style import Style
from kitbuilder.kit.class_marks import ChildMarks, ClassMarks
from kitbuilder.layout.model import Item, Rect, Sheet, SheetKind
from kitbuilder.layout.pages.child_page import pictogram_of
from kitbuilder.layout.parts.block import Block, row, stack
from kitbuilder.layout.parts.contents import Panel, Rule
from kitbuilder.layout.parts.furniture import (
    Foot,
    Heading,
    foot,
    header,
    labelled,
    pictogram,
    rule,
    tick,
    wrapped,
)
from kitbuilder.layout.parts.settings import settings
from kitbuilder.layout.parts.sheet_area import GUTTER, SheetArea
from kitbuilder.layout.parts.words import fitted, line, lines, placed_line, wide
from kitbuilder.number import Sum
from kitbuilder.number.mistakes.groups import Group
from kitbuilder.number.mistakes.reading import Fit, Read, Verdict
from kitbuilder.number.mistakes.why import why

_GAP = 4.0
_LARGER = (1.35, 1.3, 1.25, 1.2, 1.15, 1.1, 1.05)
# How much higher the rows become where the pages have room.
_CLOSER = 0.66
# Of a row's height, the least that it may be where so the whole class stands on one page.

_NOTES, _LINE = 30.0, 9.0
# The least room for notes, and from one line of them to the next, in mm.

MOST_EACH = 20.0
"""The widest that a sum's column becomes, in mm."""


@dataclass(frozen=True, slots=True)
class _Measures:
    """Sizes of the grid in mm, by the look's type: a row, the head, the names, one sum's column."""

    row: float
    head: float
    name: float
    right: float
    each: float
    side: float

    @classmethod
    def of(cls, marks: ClassMarks, width: float, style: Style) -> "_Measures":
        """Return the sizes with as many sums in a row as the page has room for, up to nine."""
        text = settings(style.look).text
        grows = text.size / 3.9
        side = 4.0 * grows
        digits = max(len(str(s.whole)) for s in marks.sums)
        least = max(wide("− " + "8" * digits, text), wide("8" * digits, text) + side + 2) + 2.4
        name, right = 26.0 * grows, max(8.0, wide(style.words("class_page.right"), text) + 2)
        count = max(1, min(9, len(marks.sums), int((width - name - right) / least)))
        each = min(MOST_EACH * grows, (width - name - right) / count)
        return cls(9.0 * grows, 17.0 * grows, name, right, each, side)

    def count(self, width: float) -> int:
        """Return how many sums stand side by side."""
        return max(1, int((width - self.name - self.right) / self.each + 1e-6))


def class_sheets(marks: ClassMarks, first: int, style: Style) -> tuple[Sheet, ...]:
    """Return the pages of the class, the first numbered ``first`` among those of its kind."""
    area = SheetArea.upright(style.paper)
    words = style.words
    note = words("class_page.note", children=len(marks.children), sums=len(marks.sums))
    heading = Heading("left", words("class_page.title"), ("adult",), note)
    items, top = header(heading, area, style)
    body = area.body(top)
    pages: list[list[Block]] = [[]]
    high = 0.0
    for block in _blocks(marks, body, style):
        if high and high + block.height > body.height:
            pages.append([])
            high = 0.0
        pages[-1].append(block)
        high += block.height + _GAP
    room = body.height - sum(block.height + _GAP for block in pages[0])
    if len(pages) > 1 and room > _NOTES:
        pages[0].append(_notes(room, body.width, style))
    return tuple(
        Sheet(
            SheetKind.MARKS,
            first + k,
            "paper",
            area.page.width,
            area.page.height,
            (*items, *stack(page, _GAP).at(body.x, body.y), *foot(Foot(), area, style)),
        )
        for k, page in enumerate(pages)
    )


def _notes(room: float, width: float, style: Style) -> Block:
    """Return lines ``room`` mm high for what is seen with the pieces."""
    title = line(style.words("class_page.notes"), settings(style.look).heading)
    count = int((room - title.height) / _LINE)
    gap = Block((), width, (room - title.height) / count)
    return stack((title, *(part for _ in range(count - 1) for part in (gap, rule(width)))))


def _blocks(marks: ClassMarks, body: Rect, style: Style) -> Iterator[Block]:
    """Yield whom to teach together, which is read first, then the grid below or on new pages."""
    used = 0.0
    for block in _groups(marks, body, style):
        if used and used + block.height > body.height:
            used = 0.0
        used += block.height + _GAP
        yield block
    yield from _grids(marks, body, used, style)


def _legend(marks: ClassMarks, width: float, style: Style) -> Block:
    """Return what the grid's marks mean, and the name of each picture that no group explains."""
    sets, words = settings(style.look), style.words
    parts = [
        labelled(pictogram("right", 3.6), words("class_page.right"), sets.text),
        labelled(line("34", sets.text), words("class_page.wrong"), sets.text, 2.4),
        labelled(line("–", sets.text), words("class_page.blank"), sets.text, 2.4),
    ]
    named = {pictogram_of(group.key) for group in marks.groups.together}
    boxed = _boxed("35", "turned", 4.1 * sets.text.size, style)
    parts.append(_beside(boxed, words("class_page.fits"), width, style))
    for key in _keys(marks):
        if pictogram_of(key) not in named:
            named.add(pictogram_of(key))
            name = words(f"mistake.{key}.name")
            picture = pictogram(pictogram_of(key), 1.1 * sets.text.size)
            parts.append(_beside(picture, name[:1].upper() + name[1:], width, style))
    return wrapped(parts, width, 5, 1.5)


def _beside(picture: Block, text: str, width: float, style: Style) -> Block:
    """Return what a picture of the grid means, beside it, in as many lines as it needs."""
    setting = settings(style.look).text
    if picture.width + 2 + wide(text, setting) <= width:
        return labelled(picture, text, setting, 2.0)
    said = lines(text, setting, width - picture.width - 2)
    return row((picture, said), 2.0)


def _name(name: str, width: float, style: Style) -> Block:
    """Return a name in the grid: smaller or in two lines if need be; the longest are cut short."""
    setting, least = settings(style.look).text, style.look.type_mm.least
    smallest = setting.sized(least)
    words = [word for word in name.split() if wide(word, smallest) > width]
    for word in words:
        end = next(k for k in range(len(word), 0, -1) if wide(word[:k] + "…", smallest) <= width)
        name = name.replace(word, word[:end] + "…")
    found = fitted(name, setting, width, least)
    if found.height > 2.01 * smallest.lead:
        return fitted(name.split()[0] + " …", setting, width, least)
    return found


def _boxed(answer: str, key: str, width: float, style: Style) -> Block:
    """Return an answer that fits a mistake: in a frame, with the mistake's pictogram."""
    setting = settings(style.look).text
    grows = setting.size / 3.9
    high, side = 5.4 * grows, 4.0 * grows
    said = line(answer, setting)
    used = side + 1 + said.width
    left = (width - used) / 2
    panel = Item("panel", Rect(0, 0, width, high), Panel("tint", "write", 1.2))
    picture = pictogram(pictogram_of(key), side).at(left, (high - side) / 2)
    text = said.at(left + side + 1, (high - said.height) / 2)
    return Block((panel, *picture, *text), width, high)


def _grids(marks: ClassMarks, body: Rect, used: float, style: Style) -> Iterator[Block]:
    """Yield the grid in parts that a page holds: the first under what is ``used``, then full."""
    sizes = _Measures.of(marks, body.width, style)
    legend = _legend(marks, body.width, style)
    over = legend.height + _GAP + sizes.head
    full = body.height - sizes.head - 0.4
    first = body.height - used - over - 0.4
    if first < len(marks.children) * _CLOSER * sizes.row:  # the whole class on a page of its own
        first = body.height - over - 0.4
    across = sizes.count(body.width)
    if across >= len(marks.sums):
        sizes = replace(sizes, row=_row_height(len(marks.children), first, full, sizes.row))
    for start in range(0, len(marks.sums), across):
        sums = marks.sums[start : start + across]
        at = 0
        while at < len(marks.children):
            opens = not start and not at
            room = max(1, int((first if opens else full) / sizes.row))
            some = marks.children[at : at + room]
            grid = _grid(some, sums, sizes, body.width, style, coded=marks.coded)
            yield stack((legend, grid), _GAP) if opens else grid
            at += room


def _row_height(count: int, first: float, full: float, least: float) -> float:
    """Return the height of ``count`` rows: the largest on as few pages as ``least`` takes."""
    if _CLOSER * least <= first / count < least:
        return first / count - 1e-6
    below = count - int(first / least)
    more = -(-below // max(1, int(full / least))) if below > 0 else 0
    for larger in _LARGER:
        high = larger * least
        if int(first / high) + more * int(full / high) >= count:
            return high
    return least


def _grid(
    children: Sequence[ChildMarks],
    sums: Sequence[Sum],
    sizes: _Measures,
    width: float,
    style: Style,
    *,
    coded: bool,
) -> Block:
    sets, words = settings(style.look), style.words
    foot_y = sizes.head - 0.7 * sets.text.size - 0.6
    items = [placed_line(words("class_page.right_is"), sets.least, 0, foot_y)]
    step = (sizes.head - 1.6) / 3
    for k, sum_ in enumerate(sums):
        middle = sizes.name + (k + 0.5) * sizes.each
        x = middle + wide(str(sum_.whole), sets.text) / 2
        for n, text in enumerate((f"{sum_.whole}", f"− {sum_.part}", f"{sum_.rest}")):
            items.append(placed_line(text, sets.text, x, (n + 0.5) * step, "right"))
    items.append(placed_line(words("class_page.right"), sets.least, width, foot_y, "right"))
    items.append(Item("rule", Rect(0, sizes.head - 0.4, width, 0.01), Rule("rule")))
    for at, child in enumerate(children):
        y = sizes.head + at * sizes.row
        name = child.code if coded else child.name
        said = _name(name, sizes.name - 1, style)
        items += said.at(0, y + (sizes.row - said.height) / 2)
        for k, sum_ in enumerate(sums):
            cell = Rect(sizes.name + k * sizes.each, y, sizes.each, sizes.row)
            items += _cell(child, sum_, cell, style)
        count = str(child.reading.right)
        items.append(placed_line(count, sets.text, width, y + sizes.row / 2, "right"))
        items.append(Item("rule", Rect(0, y + sizes.row, width, 0.01), Rule("divider")))
    return Block(tuple(items), width, sizes.head + len(children) * sizes.row + 0.2)


def _cell(child: ChildMarks, sum_: Sum, cell: Rect, style: Style) -> tuple[Item, ...]:
    """Return how a child's last answer to ``sum_`` stands in its cell."""
    sets = settings(style.look)
    at = next((k for k in reversed(range(len(child.given))) if child.given[k].sum == sum_), None)
    if at is None:
        return ()
    x, middle = cell.x + cell.width / 2, cell.y + cell.height / 2
    read = child.read_of(at)
    if read is None:
        return (placed_line("–", sets.text, x, middle, "centre"),)
    if read.fit is Fit.RIGHT:
        side = 0.9 * sets.text.size
        return pictogram("right", side).at(x - side / 2, middle - side / 2)
    answer, key = str(read.answered.answer), _key(child, read)
    if not key:
        return (placed_line(answer, sets.text, x, middle, "centre"),)
    boxed = _boxed(answer, key, min(cell.width - 1.2, 4.4 * sets.text.size), style)
    return boxed.at(x - boxed.width / 2, middle - boxed.height / 2)


def _key(child: ChildMarks, read: Read) -> str:
    """Return the mistake that an answer fits; empty where it fits none."""
    key = {Fit.HABIT: read.key, Fit.SLIP: "slip", Fit.SWAPPED: "order"}.get(read.fit, "")
    if key == "slip" and child.reading.verdict is Verdict.MORE:
        key = why(read.answered.sum, read.answered.answer)[0].key  # it may be the first of a habit
    return key


def _keys(marks: ClassMarks) -> tuple[str, ...]:
    """Return the mistakes whose pictures stand in the grid, each once."""
    found = (_key(child, read) for child in marks.children for read in child.reading.reads)
    return tuple(dict.fromkeys(key for key in found if key))


def _groups(marks: ClassMarks, body: Rect, style: Style) -> Iterator[Block]:
    """Yield whom to teach together, up to three frames to a row, and what the others need."""
    sets, words, found = settings(style.look), style.words, marks.groups
    count = len(found.together)
    across = min(3 if body.width > 150 and count != 4 else 2, max(1, count))
    width = (body.width - GUTTER * (across - 1)) / across
    for start in range(0, len(found.together), across):
        some = found.together[start : start + across]
        cells = [_group(group, marks, width, style) for group in some]
        high = max(cell.height for cell in cells)
        framed = row([_framed(cell, width, high) for cell in cells], GUTTER)
        title = line(words("marks.together"), sets.heading)
        yield stack((title, framed), 1.6) if not start else framed
    others = []
    for key, children in (
        ("again", found.again),
        ("watched", found.watch),
        ("more", found.more),
        ("ready", found.ready),
    ):
        if children:
            names = ", ".join(_who(marks.children[at], marks) for at in children)
            others.append(lines(words(f"marks.group.{key}", names=names), sets.text, body.width))
    if others:
        yield stack(others, 1.2)


def _who(child: ChildMarks, marks: ClassMarks) -> str:
    return child.code if marks.coded else child.name


def _group(group: Group, marks: ClassMarks, width: float, style: Style) -> Block:
    """Return one group: the mistake, its children with boxes to tick, and the one question."""
    sets, words = settings(style.look), style.words
    inner = width - 6
    name = words(f"mistake.{group.key}.name")
    title = fitted(name[:1].upper() + name[1:], sets.heading, inner - 9, 0.8 * sets.heading.size)
    high = max(7.0, title.height)
    head = Block(
        (*pictogram(pictogram_of(group.key), 7).at(0, 0), *title.at(9, (high - title.height) / 2)),
        inner,
        high,
    )
    names = [tick(_who(marks.children[at], marks), inner, style) for at in group.children]
    shown = marks.children[group.children[0]].shown_sum()
    whole = shown.sum.whole if shown else ""
    asks = words("speech.quoted", said=words(f"mistake.{group.key}.asks", whole=whole))
    return stack((head, wrapped(names, inner, 4, 0.8), lines(asks, sets.text, inner)), 2.0)


def _framed(block: Block, width: float, high: float) -> Block:
    panel = Item("panel", Rect(0, 0, width, high + 6), Panel("none", "zone", 2.2))
    return Block((panel, *block.at(3, 3)), width, high + 6)
