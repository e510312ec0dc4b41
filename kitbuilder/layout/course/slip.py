"""The slip for the teacher: how a sum went at home, to be cut off."""

from kitbuilder.design.style import Style
from kitbuilder.layout.model import Item, Rect, Sheet, SheetKind
from kitbuilder.layout.parts.block import Block, beside, row, stack
from kitbuilder.layout.parts.contents import Line, Rule
from kitbuilder.layout.parts.furniture import Foot, Heading, foot, header, pictogram, tick, wrapped
from kitbuilder.layout.parts.settings import Setting, settings
from kitbuilder.layout.parts.sheet_area import SheetArea
from kitbuilder.layout.parts.words import line, lines, placed_line
from kitbuilder.number.course.stages import STAGES

SLIPS = 4
"""Slips for the teacher on one page, at most."""

FACES = ("face-good", "face-middling", "face-hard")

_GAP, _FACE, _TO_WRITE = 3.0, 8.0, 10.0
# The space between rows, a face's side, and the least line that a date is written on, in mm.


def slip_sheet(style: Style) -> tuple[Sheet, int]:
    """Return a page of slips for the teacher, one below the other to be cut, and how many."""
    area = SheetArea.upright(style.paper)
    note, least = style.words("slip.note"), settings(style.look).least
    heading = Heading("envelope", style.words("title.slip"), ("adult",), note)
    head, top = header(heading, area, style)
    if not any(isinstance(i.content, Line) and i.content.text == note for i in head):
        told = lines(note, least, area.whole.width)  # no room beside the title
        head, top = (*head, *told.at(area.whole.x, top - 3.0)), top + told.height
    body = area.body(top - 3.0)
    one = slip(body.width, style)
    each = max(1, min(SLIPS, int(body.height / one.height)))
    step = body.height / each
    items = tuple(
        item
        for number in range(each)
        for item in one.at(body.x, body.y + number * step + (step - one.height) / 2)
    )
    page = area.page
    items = (*head, *items, *foot(Foot(), area, style))
    return Sheet(SheetKind.SLIP, 1, "paper", page.width, page.height, items), each


def slip(width: float, style: Style) -> Block:
    """Return a slip ``width`` mm wide below the line that it is cut along.

    It asks for: name or code, date, sum, stage, what was done unasked, minutes, how it felt, and
    one line.
    """
    words, sets = style.words, settings(style.look)
    title = line(words("slip.title"), sets.heading)
    named = [(words("slip.name"), 3.0), (words("slip.date"), 1.4)]
    names = blanks(named, width - title.width - 4.0, sets.text)
    opening = [beside(title, names, 4.0)]
    if min(i.rect.width for i in names.items if i.what == "rule") < _TO_WRITE:
        opening = [title, blanks(named, width, sets.text)]
    faces = row([pictogram(name, _FACE) for name in FACES], 2.4)
    summed = [(words("slip.sum"), 1.6), (words("slip.minutes"), 1.0)]
    sums = blanks(summed, width - faces.width - 6.0, sets.text)
    stages = [
        beside(pictogram(f"stage-{stage}", 6.4), tick(words(f"stages.{stage}"), width, style))
        for stage in STAGES
    ]
    unasked = [
        line(words("slip.unasked"), sets.text.quiet()),
        *(tick(said, width, style) for said in words.lines("slip.ticks")),
    ]
    last = blanks([(words("slip.noticed"), 1.0)], width, sets.text)
    rows = (
        _cut(width),
        *opening,
        beside(sums, faces, 6.0),
        wrapped(stages, width, 4.0, 1.0),
        wrapped(unasked, width, 4.0, 1.0),
        last,
    )
    return stack(rows, _GAP)


def blanks(named: list[tuple[str, float]], width: float, setting: Setting) -> Block:
    """Return lines to write on, each after its name; numbers are shares of what is left."""
    quiet, high = setting.quiet(), 1.5 * setting.size
    words = [line(name, quiet) for name, _ in named]
    room = width - sum(w.width for w in words) - 1.6 * len(named) - 4.0 * (len(named) - 1)
    total = sum(share for _, share in named)
    items: list[Item] = []
    x = 0.0
    for (name, share), word in zip(named, words, strict=True):
        items.append(placed_line(name, quiet, x, high / 2))
        start, long = x + word.width + 1.6, max(6.0, room * share / total)
        y = high / 2 + 0.45 * setting.size
        items.append(Item("rule", Rect(start, y, long, 0.01), Rule("write")))
        x = start + long + 4.0
    return Block(tuple(items), width, high)


def _cut(width: float) -> Block:
    side = 6.0
    dashed = Item("rule", Rect(side, side / 2, width - side, 0.01), Rule("dashed"))
    return Block((*pictogram("scissors", side).items, dashed), width, side)
