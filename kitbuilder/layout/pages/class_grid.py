"""The grid of a class: children by sums, what is right, and what fits which mistake."""

from collections.abc import Sequence

from kitbuilder.design.style import Style
from kitbuilder.frozen import frozen
from kitbuilder.kit.class_marks import ChildMarks, ClassMarks
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.pages.child_page import pictogram_of
from kitbuilder.layout.parts.block import Block, row
from kitbuilder.layout.parts.contents import Panel, Rule
from kitbuilder.layout.parts.furniture import labelled, pictogram, wrapped
from kitbuilder.layout.parts.settings import Setting, settings
from kitbuilder.layout.parts.words import fitted, line, lines, placed_line, wide
from kitbuilder.number import Sum
from kitbuilder.number.mistakes.reading import Fit, Read, Verdict
from kitbuilder.number.mistakes.why import why

MOST_EACH = 20.0
"""The widest that a sum's column becomes, in mm."""


@frozen
class Measures:
    """Sizes of the grid in mm: a row, the head, the names, one sum's column; how it is set."""

    row: float
    head: float
    name: float
    right: float
    each: float
    text: Setting

    @classmethod
    def of(cls, marks: ClassMarks, width: float, text: Setting, style: Style) -> "Measures":
        """Return the sizes with as many sums in a row as the page has room for, up to nine."""
        grows = text.size / 3.9
        digits = max(len(s.aligned(s.whole)) for s in marks.sums)
        least = max(wide("− " + "8" * digits, text), wide("8" * digits, text) + 4 * grows + 2) + 2.4
        name, right = 26.0 * grows, max(8.0, wide(style.words("class_page.right"), text) + 2)
        count = max(1, min(9, len(marks.sums), int((width - name - right) / least)))
        each = min(MOST_EACH * grows, (width - name - right) / count)
        return cls(9.0 * grows, 17.0 * grows, name, right, each, text)

    def count(self, width: float) -> int:
        """Return how many sums stand side by side."""
        return max(1, int((width - self.name - self.right) / self.each + 1e-6))


def legend(marks: ClassMarks, width: float, text: Setting, style: Style) -> Block:
    """Return what the grid's marks mean, and the name of each picture that no group explains."""
    words = style.words
    parts = [
        labelled(pictogram("right", 3.6), words("class_page.right"), text),
        labelled(line("34", text), words("class_page.wrong"), text, 2.4),
        labelled(line("–", text), words("class_page.blank"), text, 2.4),
    ]
    named = {pictogram_of(group.key) for group in marks.groups.together}
    boxed = _boxed("35", "turned", 4.1 * text.size, 1.22 * text.lead, text)
    parts.append(_beside(boxed, words("class_page.fits"), width, text))
    for key in _keys(marks):
        if pictogram_of(key) not in named:
            named.add(pictogram_of(key))
            name = words(f"mistake.{key}.name")
            picture = pictogram(pictogram_of(key), 1.1 * text.size)
            parts.append(_beside(picture, name[:1].upper() + name[1:], width, text))
    return wrapped(parts, width, 4, 0.6)


def _beside(picture: Block, text: str, width: float, setting: Setting) -> Block:
    """Return what a picture of the grid means, beside it, in as many lines as it needs."""
    if picture.width + 2 + wide(text, setting) <= width:
        return labelled(picture, text, setting, 2.0)
    said = lines(text, setting, width - picture.width - 2)
    return row((picture, said), 2.0)


def _name(name: str, room: Rect, setting: Setting, least: float) -> Block:
    """Return a name in the grid: smaller or in two lines if need be; the longest are cut short."""
    width = room.width
    smallest = setting.sized(least)
    words = [word for word in name.split() if wide(word, smallest) > width]
    for word in words:
        end = next(k for k in range(len(word), 0, -1) if wide(word[:k] + "…", smallest) <= width)
        name = name.replace(word, word[:end] + "…")
    found = fitted(name, setting, width, least)
    if found.height > max(1.01 * setting.lead, min(room.height, 2.01 * smallest.lead)):
        return fitted(name.split()[0] + " …", setting, width, least)
    return found


def _boxed(answer: str, key: str, width: float, high: float, setting: Setting) -> Block:
    """Return an answer that fits a mistake: in a frame, with the mistake's pictogram."""
    side = min(1.03 * setting.size, high - 0.6)
    said = line(answer, setting)
    used = side + 1 + said.width
    left = (width - used) / 2
    panel = Item("panel", Rect(0, 0, width, high), Panel("tint", "write", 1.2))
    picture = pictogram(pictogram_of(key), side).at(left, (high - side) / 2)
    text = said.at(left + side + 1, (high - said.height) / 2)
    return Block((panel, *picture, *text), width, high)


def grid(
    children: Sequence[ChildMarks],
    sums: Sequence[Sum],
    sizes: Measures,
    width: float,
    style: Style,
    *,
    coded: bool,
) -> Block:
    """Return ``children`` by ``sums``, with the head."""
    text, least, words = sizes.text, settings(style.look).least, style.words
    foot_y = sizes.head - 0.7 * text.size - 0.6
    items = [placed_line(words("class_page.right_is"), least, 0, foot_y)]
    step = (sizes.head - 1.6) / 3
    for k, sum_ in enumerate(sums):
        middle = sizes.name + (k + 0.5) * sizes.each
        whole, part, rest = map(sum_.aligned, (sum_.whole, sum_.part, sum_.rest))
        x = middle + wide(whole, text) / 2
        for n, said in enumerate((whole, f"− {part}", rest)):
            items.append(placed_line(said, text, x, (n + 0.5) * step, "right"))
    items.append(placed_line(words("class_page.right"), least, width, foot_y, "right"))
    items.append(Item("rule", Rect(0, sizes.head - 0.4, width, 0.01), Rule("rule")))
    for at, child in enumerate(children):
        y = sizes.head + at * sizes.row
        name = child.code if coded else child.name
        room = Rect(0, y, sizes.name - 1, sizes.row)
        shown = _name(name, room, text, style.look.type_mm.least)
        items += shown.at(0, y + (sizes.row - shown.height) / 2)
        for k, sum_ in enumerate(sums):
            cell = Rect(sizes.name + k * sizes.each, y, sizes.each, sizes.row)
            items += _cell(child, sum_, cell, text)
        count = str(child.reading.right)
        items.append(placed_line(count, text, width, y + sizes.row / 2, "right"))
        items.append(Item("rule", Rect(0, y + sizes.row, width, 0.01), Rule("divider")))
    return Block(tuple(items), width, sizes.head + len(children) * sizes.row + 0.2)


def _cell(child: ChildMarks, sum_: Sum, cell: Rect, text: Setting) -> tuple[Item, ...]:
    """Return how a child's last answer to ``sum_`` stands in its cell."""
    at = next((k for k in reversed(range(len(child.given))) if child.given[k].sum == sum_), None)
    if at is None:
        return ()
    x, middle = cell.x + cell.width / 2, cell.y + cell.height / 2
    read = child.read_of(at)
    if read is None:
        return (placed_line("–", text, x, middle, "centre"),)
    if read.fit is Fit.RIGHT:
        side = 0.9 * text.size
        return pictogram("right", side).at(x - side / 2, middle - side / 2)
    answer, key = str(child.given[at].answer), _key(child, read)
    if not key:
        return (placed_line(answer, text, x, middle, "centre"),)
    high = min(1.59 * text.size, cell.height - 0.5)
    boxed = _boxed(answer, key, min(cell.width - 1.2, 4.4 * text.size), high, text)
    return boxed.at(x - boxed.width / 2, middle - boxed.height / 2)


def _key(child: ChildMarks, read: Read) -> str:
    """Return the mistake that an answer fits; empty where it fits none."""
    key = {Fit.HABIT: read.key, Fit.SLIP: "slip", Fit.SWAPPED: "order"}.get(read.fit, "")
    if key == "slip" and child.reading.verdict is Verdict.MORE:
        causes = why(read.answered.sum, read.answered.answer)  # it may be the first of a habit
        key = causes[0].key if causes else key
    return key


def _keys(marks: ClassMarks) -> tuple[str, ...]:
    """Return the mistakes whose pictures stand in the grid, each once."""
    found = (_key(child, read) for child in marks.children for read in child.reading.reads)
    return tuple(dict.fromkeys(key for key in found if key))
