"""A lesson with a class on one page: minutes, questions, groups, names to watch."""

from collections.abc import Iterator

from kitbuilder.design.style import Style
from kitbuilder.kit import phrases
from kitbuilder.kit.course.course_records import LessonOutline
from kitbuilder.layout.course.flowing import flowing
from kitbuilder.layout.model import Item, Rect, Sheet, SheetKind
from kitbuilder.layout.parts.block import EMPTY, Block, beside, row, stack
from kitbuilder.layout.parts.contents import Panel, Rule
from kitbuilder.layout.parts.furniture import Heading, pictogram, rule, wrapped
from kitbuilder.layout.parts.settings import settings
from kitbuilder.layout.parts.sheet_area import GUTTER, SheetArea
from kitbuilder.layout.parts.speech import speech
from kitbuilder.layout.parts.words import fitted, line, lines, placed_line, wide
from kitbuilder.number import Sum

PARTS = (("facts", "facts", 5), ("board", "build", 10), ("pairs", "stage-pieces", 15))
ENDS, ALONE = ("together", "push", 5), ("alone", "child", 5)
"""The parts of a lesson: the key of its words, its pictogram, its minutes."""

WATCHED = (6, 5, 4)
"""Rows for names to watch: the first that costs no page is taken."""

_SIDE, _ROW, _PAD = 10.0, 8.0, 2.6


def outline_sheets(outline: LessonOutline, style: Style, who: str = "pairs") -> tuple[Sheet, ...]:
    """Return the page of ``outline``, or as many as it needs; ``pairs`` or ``groups`` have bags."""
    ways = [tuple(_sheets(outline, who, rows, style)) for rows in WATCHED]
    return next((way for way in ways if len(way) == 1), ways[0])


def _sheets(outline: LessonOutline, who: str, rows: int, style: Style) -> Iterator[Sheet]:
    words = style.words
    width = SheetArea.upright(style.paper).whole.width
    blocks = [_needs(outline, who, width, style)]
    for part, picture, minutes in (*PARTS, ENDS):
        key = who if part == "pairs" else part
        blocks += (rule(width), _part(outline, key, picture, minutes, width, style))
    blocks += (rule(width), _groups(outline, width, style), _watch(rows, width, style))
    note = words("outline.note", count=sum(m for _, _, m in (*PARTS, ENDS, ALONE)))
    heading = Heading("time", words("outline.title", sum=outline.sum), ("adult",), note)
    yield from flowing(SheetKind.OUTLINE, heading, blocks, style)


def _needs(outline: LessonOutline, who: str, width: float, style: Style) -> Block:
    """Return the aim, and what each pair or group and the board need."""
    words, sets = style.words, settings(style.look)
    pieces = phrases.pieces(words, outline.pieces)
    aim = lines(words("outline.aim"), sets.speech, width)
    needs = (
        ("envelope", words(f"outline.{who}_have", pieces=pieces)),
        ("build", words("outline.mat")),
        ("adult", words("outline.large")),
    )
    side, gap, text = 7.0, 1.6, sets.text
    rooms = (min(wide(said, text) + 0.1, width - side - gap) for _, said in needs)
    cells = [
        beside(pictogram(name, side), lines(said, text, room), gap)
        for (name, said), room in zip(needs, rooms, strict=True)
    ]
    return stack((aim, wrapped(cells, width, 4.0, 1.4)), 2.4)


def _part(
    outline: LessonOutline, key: str, picture: str, minutes: int, width: float, style: Style
) -> Block:
    """Return one part of the lesson: its minutes, what is done, what is asked."""
    words, sets = style.words, settings(style.look)
    number = line(str(minutes), sets.title)
    unit = line(words("outline.minutes"), sets.least)
    across = max(number.width, unit.width)
    time = Block(
        (
            *number.at((across - number.width) / 2, 0),
            *unit.at((across - unit.width) / 2, number.height),
        ),
        across,
        number.height + unit.height,
    )
    left = max(across, wide("000", sets.title)) + 3.0
    room = width - left - _SIDE - 3.0
    slots = {"sum": outline.sum, "facts": ", ".join(map(str, outline.facts))}
    said = words(f"outline.{key}_told", **slots)
    if key in ("pairs", "groups") and outline.pairs:
        said = f"{said} {words('outline.pairs_sums', sums=', '.join(map(_solved, outline.pairs)))}"
    told = stack(
        (
            line(words(f"outline.{key}"), sets.heading),
            lines(said, sets.text, room),
            *(
                speech("adult", said, room, style)
                for said in words.lines(f"outline.{key.replace('groups', 'pairs')}_asks")
            ),
        ),
        0.8,
    )
    body = beside(time.as_wide(left), pictogram(picture, _SIDE), 0.0)
    return Block(
        (*body.items, *told.at(left + _SIDE + 3.0, 0)), width, max(body.height, told.height)
    )


def _solved(sum_: Sum) -> str:
    """Return ``sum_`` with its answer, for the teacher."""
    return f"{sum_} = {sum_.rest}"


def _groups(outline: LessonOutline, width: float, style: Style) -> Block:
    """Return what those do who are stuck, who are early, and what each does alone to end."""
    words, sets = style.words, settings(style.look)
    across = 3 if width > 150 * sets.text.size / 3.9 else 1
    each = (width - GUTTER * (across - 1)) / across
    inner = each - 2 * _PAD
    cells = []
    for key, picture, minutes in (("stuck", "stage-pieces", 0), ("early", "push", 0), ALONE):
        time = line(f"{minutes} {words('outline.minutes')}", sets.least) if minutes else EMPTY
        said = lines(words(f"outline.{key}"), sets.heading, inner - 8.6 - time.width)
        title = beside(pictogram(picture, 7.0), said).as_wide(inner - time.width)
        title = beside(title, time, 0.0)
        told = lines(words(f"outline.{key}_told", exit=outline.exit), sets.text, inner)
        solved = sets.speech.sized(1.6 * sets.text.size)
        last = fitted(_solved(outline.exit), solved, inner, sets.text.size)
        cells.append(stack((title, told, last if key == "alone" else EMPTY), 1.0))
    highest = max(cell.height for cell in cells)
    framed = []
    for cell in cells:
        high = (highest if across > 1 else cell.height) + 2 * _PAD
        frame = Item("panel", Rect(0, 0, each, high), Panel("none", "frame", 2.2))
        framed.append(Block((frame, *cell.at(_PAD, _PAD)), each, high))
    return row(framed, GUTTER) if across > 1 else stack(framed, 2.0)


def _watch(rows: int, width: float, style: Style) -> Block:
    """Return a table for the names to watch: a box under each heading, the rest a note."""
    words, text = style.words, settings(style.look).text
    name, *boxes, note = words.lines("outline.watch")
    high = max(_ROW, 1.6 * text.size)
    starts = [max(0.32 * width, wide(name, text) + 4.0)]
    for label in boxes:
        starts.append(starts[-1] + wide(label, text) + 5.0)
    noted = width - starts[-1] >= wide(note, text)
    labels = (*boxes, note) if noted else boxes
    items = [placed_line(name, text, 0, high / 2)]
    items += (
        placed_line(label, text.quiet(), x, high / 2)
        for label, x in zip(labels, starts, strict=False)
    )
    for k in range(1, rows + 1):
        y = k * high
        items.append(Item("rule", Rect(0, y + high - 1.2, starts[0] - 4.0, 0.01), Rule("write")))
        for label, x in zip(boxes, starts, strict=False):
            box = Rect(x + wide(label, text) / 2 - 2.2, y + 1.8, 4.4, 4.4)
            items.append(Item("tick_box", box, Panel(line="write", radius=0.8)))
        if noted:
            last = Rect(starts[-1], y + high - 1.2, width - starts[-1], 0.01)
            items.append(Item("rule", last, Rule("write")))
    return Block(tuple(items), width, (rows + 1) * high)
