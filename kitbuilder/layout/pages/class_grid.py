"""The grid of a class: children by sums, what is right, and what fits which mistake."""

from collections.abc import Iterator, Sequence
from itertools import islice

from kitbuilder.design.style import Style
from kitbuilder.frozen import frozen
from kitbuilder.kit.class_marks import ChildMarks, ClassMarks
from kitbuilder.layout.lesson.mistake_pictograms import pictogram_of
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.block import Block, row
from kitbuilder.layout.parts.contents import Panel, Rule
from kitbuilder.layout.parts.furniture import labelled, pictogram, wrapped
from kitbuilder.layout.parts.settings import Setting, settings
from kitbuilder.layout.parts.words import line, lines, name_in, placed_line, wide
from kitbuilder.number import Sum
from kitbuilder.number.mistakes.reading import Fit, Verdict

MOST_EACH = 20.0
"""The widest that a sum's column becomes, in mm."""

_MOST_NAME = 0.3
# The part of a page that names are given beside wider columns of sums, for two lines each.

_AROUND, _INSIDE = 1.2, 1.6
# Room beside an answer's frame, and in it beside its picture and number, in mm.


@frozen
class GridMeasures:
    """Sizes of the grid in mm: a row, the head, the names, one sum's column; how it is set."""

    row: float
    head: float
    name: float
    right: float
    each: float
    text: Setting

    @classmethod
    def of(cls, marks: ClassMarks, width: float, text: Setting, style: Style) -> "GridMeasures":
        """Return the sizes with as many sums in a row as there is room for, rows alike long.

        A column is as wide as its widest answer needs, with its frame; names have what is left.
        """
        grows, least = text.size / 3.9, _least_column(marks, text)
        counts = [style.words("class_page.right"), *map(_right, marks.children)]
        name, right = 26.0 * grows, max(8.0, max(wide(count, text) for count in counts) + 2)
        across = max(1, int((width - name - right) / least))
        count = -(-len(marks.sums) // -(-len(marks.sums) // across))
        smallest = text.sized(style.look.type_mm.least)
        names = [_who(child, marks.coded) for child in marks.children]
        in_two = 2 + max(max(0.6 * wide(n, smallest), *_words_wide(n, smallest)) for n in names)
        room = (width - right - max(name, min(in_two, _MOST_NAME * width))) / count
        each = min(MOST_EACH * grows, max(least, room), (width - name - right) / count)
        longest = 2 + max(wide(n, text) for n in names)
        name = max(name, min(longest, width - right - count * each))
        return cls(9.0 * grows, 17.0 * grows, name, right, each, text)

    def count(self, width: float) -> int:
        """Return how many sums stand side by side."""
        return max(1, int((width - self.name - self.right) / self.each + 1e-6))


def _right(child: ChildMarks) -> str:
    """Return how many answers are right, of how many where some sums were left out."""
    right, count = child.reading.right, len(child.reading.reads)
    if not count:
        return "–"
    return f"{right}/{count}" if count < len(child.given) else str(right)


def _words_wide(name: str, setting: Setting) -> list[float]:
    return [0.0, *(wide(word, setting) for word in name.replace("-", "- ").split())]


def _least_column(marks: ClassMarks, text: Setting) -> float:
    """Return the width of a column that holds every sum and every answer, in a frame or bare."""
    needs = [wide(f"− {s.short().aligned(s.short().part)}", text) + _AROUND for s in marks.sums]
    for child in marks.children:
        for read in child.reading.reads:
            said = wide(str(child.given[read.answered.row].answer), text)
            needs.append(said + _AROUND + (_framed_extra(text) if child.shown_key(read) else 0.0))
    return max(needs)


def _framed_extra(text: Setting) -> float:
    """Return what a frame and its picture add to an answer, in mm."""
    return _side(text) + 1.0 + _INSIDE


def _side(text: Setting) -> float:
    return 1.03 * text.size


def _who(child: ChildMarks, coded: bool) -> str:
    return child.code if coded else child.name


def legend(marks: ClassMarks, width: float, text: Setting, style: Style) -> Block:
    """Return what the grid's marks mean, and the name of each picture that no group explains."""
    words, rests = style.words, {sum_.rest for sum_ in marks.sums}
    wrong, fits = islice((str(one) for one in range(34, 1000) if one not in rests), 2)
    parts = [
        labelled(pictogram("right", 3.6), words("class_page.right"), text),
        labelled(line(wrong, text), words("class_page.wrong"), text, 2.4),
        labelled(line("–", text), words("class_page.blank"), text, 2.4),
    ]
    named = {pictogram_of(group.key) for group in marks.groups.together}
    boxed = _boxed(fits, "turned", 4.1 * text.size, 1.22 * text.lead, text)
    parts.append(_beside(boxed, words("class_page.fits"), width, text))
    for key in _keys(marks):
        if pictogram_of(key) not in named:
            named.add(pictogram_of(key))
            boxed = _boxed("", key, 0.0, 0.9 * text.lead, text)
            name = words(f"mistake.{key}.name")
            if key == "slip" and any(marks.children[at].reading.rivals for at in marks.groups.told):
                name = words("child_page.perhaps", mistake=name)
            parts.append(_beside(boxed, name, width, text))
    for sum_, answer in _twofold(marks):
        told = words("class_page.twofold", answer=answer, sum=sum_)
        parts.append(lines(told, text, width) if wide(told, text) > width else line(told, text))
    return wrapped(parts, width, 4, 0.6)


def _twofold(marks: ClassMarks) -> Iterator[tuple[Sum, int]]:
    """Yield the first sum whose wrong answer fits a mistake in one row, another in the next.

    Not where one of those children may have made either, for then other sums decide nothing.
    """
    known: dict[tuple[Sum, int], set[str]] = {}
    for child in marks.children:
        decided = child.reading.verdict in (Verdict.HABIT, Verdict.SLIPS)
        decided = decided and not child.reading.rivals
        for read in child.reading.reads:
            cell, key = child.given[read.answered.row], child.shown_key(read)
            if key and cell.answer is not None:
                known.setdefault((cell.sum, cell.answer), set()).add(key if decided else "")
    yield from islice((k for k, keys in known.items() if len(keys) > 1 and "" not in keys), 1)


def _beside(picture: Block, text: str, width: float, setting: Setting) -> Block:
    """Return what a picture of the grid means, beside it, in as many lines as it needs."""
    if picture.width + 2 + wide(text, setting) <= width:
        return labelled(picture, text, setting, 2.0)
    said = lines(text, setting, width - picture.width - 2)
    return row((picture, said), 2.0)


def _boxed(answer: str, key: str, width: float, high: float, setting: Setting) -> Block:
    """Return an answer that fits a mistake, or none: in a frame, with the mistake's pictogram."""
    side = min(_side(setting), high - 0.6)
    said = line(answer, setting)
    used = side + (1 + said.width if answer else 0.0)
    width = max(width, used + _INSIDE)
    left = (width - used) / 2
    panel = Item("panel", Rect(0, 0, width, high), Panel(radius=1.2))
    picture = pictogram(pictogram_of(key), side).at(left, (high - side) / 2)
    text = said.at(left + side + 1, (high - said.height) / 2) if answer else ()
    return Block((panel, *picture, *text), width, high)


def grid(
    children: Sequence[ChildMarks],
    sums: Sequence[Sum],
    sizes: GridMeasures,
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
        short = sum_.short()
        whole, part, rest = map(short.aligned, (short.whole, short.part, short.rest))
        x = middle + wide(whole, text) / 2
        for n, said in enumerate((whole, f"− {part}", rest)):
            items.append(placed_line(said, text, x, (n + 0.5) * step, "right"))
    items.append(placed_line(words("class_page.right"), least, width, foot_y, "right"))
    items.append(Item("rule", Rect(0, sizes.head - 0.4, width, 0.01), Rule("rule")))
    for at, child in enumerate(children):
        y = sizes.head + at * sizes.row
        room = (sizes.name - 1, sizes.row)
        shown = name_in(_who(child, coded), text, room, style.look.type_mm.least)
        items += shown.at(0, y + (sizes.row - shown.height) / 2)
        for k, sum_ in enumerate(sums):
            cell = Rect(sizes.name + k * sizes.each, y, sizes.each, sizes.row)
            items += _cell(child, sum_, cell, text)
        items.append(placed_line(_right(child), text, width, y + sizes.row / 2, "right"))
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
    answer, key = str(child.given[at].answer), child.shown_key(read)
    if not key:
        return (placed_line(answer, text, x, middle, "centre"),)
    high = min(1.59 * text.size, cell.height - 0.5)
    boxed = _boxed(answer, key, min(cell.width - _AROUND, 4.4 * text.size), high, text)
    return boxed.at(x - boxed.width / 2, middle - boxed.height / 2)


def _keys(marks: ClassMarks) -> tuple[str, ...]:
    """Return the mistakes whose pictures stand in the grid, each once."""
    found = (child.shown_key(read) for child in marks.children for read in child.reading.reads)
    return tuple(dict.fromkeys(key for key in found if key))
