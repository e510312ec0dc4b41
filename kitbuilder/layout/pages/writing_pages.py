"""When to write, on pages: boxes to tick, moves with the sum beside each, columns to write in."""

from collections.abc import Sequence
from dataclasses import dataclass

from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError
from kitbuilder.kit.lesson.moments import counted
from kitbuilder.kit.lesson.writing import Writing, WrittenMove
from kitbuilder.layout.model import Item, Rect, Sheet, SheetKind
from kitbuilder.layout.parts.block import Block, row, shared, stack
from kitbuilder.layout.parts.columns import ruled, worked
from kitbuilder.layout.parts.contents import Rule
from kitbuilder.layout.parts.furniture import (
    Foot,
    Heading,
    foot,
    header,
    step_heading,
    tick,
    wrapped,
)
from kitbuilder.layout.parts.mat_frame import MatFrame, mat_frame
from kitbuilder.layout.parts.mat_picture import mat_picture
from kitbuilder.layout.parts.settings import settings
from kitbuilder.layout.parts.sheet_area import GUTTER, SheetArea
from kitbuilder.layout.parts.words import fitted, lines, placed_line

LEAST_ONE = 1.9
"""The least width in mm of a one in the pictures."""

_GAP, _CLOSE, _MUCH = 2.4, 0.6, 60.0
_DIGITS, _PITCH = 2.0, 9.4
# The size of the written digits in sizes of the text; the width of a column to write in, in mm.


@dataclass(frozen=True, slots=True)
class _Way:
    """How moves stand: how many in a row ``width`` mm wide each, and how."""

    across: int
    width: float
    frame: MatFrame
    low: bool


def writing_sheets(page: Writing, first: int, style: Style) -> tuple[Sheet, ...]:
    """Return the pages of ``page``, on one if they fit, numbered from ``first`` on."""
    area = SheetArea.upright(style.paper)
    items, top = header(Heading("pencil", page.title, ("adult", "child")), area, style)
    body = area.body(top)
    opening, now = _opening(page, body.width, style), _now(page, body.width, style)
    way = _way(page, (body.width, body.height, opening.height, now.height), style)
    cells = [_cell(n, move, way, style) for n, move in enumerate(page.moves, 1)]
    rows = [row(cells[k : k + way.across], GUTTER) for k in range(0, len(cells), way.across)]
    blocks = [opening, *rows, now]
    sheets: list[Sheet] = []
    while blocks:
        taken, high = 1, blocks[0].height
        while taken < len(blocks) and high + _GAP + blocks[taken].height <= body.height + 1e-6:
            high += _GAP + blocks[taken].height
            taken += 1
        placed = shared(blocks[:taken], body, _GAP, _MUCH)
        found = (*items, *placed.items, *foot(Foot(), area, style))
        number = first + len(sheets)
        sheets.append(
            Sheet(SheetKind.GUIDE, number, "paper", area.page.width, area.page.height, found)
        )
        blocks = blocks[taken:]
    return tuple(sheets)


def _opening(page: Writing, width: float, style: Style) -> Block:
    """Return when to begin, and what holds for every mark."""
    sets = settings(style.look)
    ticks = wrapped([tick(said, width, style) for said in page.ticks], width, 4.0, 1.0)
    line = Block((Item("rule", Rect(0, 0, width, 0.01), Rule("divider")),), width, 0.01)
    rule = fitted(page.rule, sets.heading, width, sets.text.size)
    said = (lines(page.lead, sets.text, width), ticks, line)
    return stack((*said, stack((rule, lines(page.told, sets.text, width)), 0.2)), 1.6)


def _now(page: Writing, width: float, style: Style) -> Block:
    """Return what the child does now, beside or over two columns to write in."""
    sets = settings(style.look)
    pitch = max(_PITCH, 1.5 * sets.text.size)
    grids = [_grid(letters, pitch, page.marks, style) for letters in page.headings]
    across = sum(grid.width for grid in grids) + GUTTER
    line = Item("rule", Rect(0, 0, width, 0.01), Rule("rule"))
    beside = width - across - 2 * GUTTER
    room = beside if beside > 42 else width
    said = stack(
        (
            fitted(page.now, sets.heading, room, sets.text.size),
            lines(page.now_told, sets.text, room),
        ),
        0.8,
    )
    right = row(grids, GUTTER)
    if room < width:
        high = max(said.height, right.height) + 2.0
        return Block((line, *said.at(0, 2.0), *right.at(width - across, 2.0)), width, high)
    below = stack((said, right), 2.0)
    return Block((line, *below.at(0, 2.0)), width, below.height + 2.0)


def _grid(letters: Sequence[str], pitch: float, marks: str, style: Style) -> Block:
    """Return empty columns under their letters, and the word beside the row of marks."""
    empty = (None,) * len(letters)
    grid = ruled(empty, empty, letters, pitch, style)
    quiet = settings(style.look).least
    said = placed_line(marks, quiet, grid.width + 1.2, 1.15 * pitch)
    return Block((*grid.items, said), said.rect.right, grid.height)


def _way(page: Writing, room: tuple[float, float, float, float], style: Style) -> _Way:
    """Return the way with the fewest pages whose ones are large enough.

    ``room`` is the width and height of a page, and the heights of what stands at its beginning
    and its end, in mm.
    """
    width, height, before, after = room
    for pages in range(1, len(page.moves) + 2):
        for across, low in ((2, False), (2, True), (1, False), (1, True)):
            each = (width - GUTTER * (across - 1)) / across
            rows = -(-len(page.moves) // across)
            held = -(-rows // pages)
            other = before + after + _GAP if pages == 1 else max(before, after)
            high = (height - other) / held - _GAP
            frame = _frame(page.moves, (each, high), low, style)
            if frame is not None:
                return _Way(across, each, frame, low)
    raise RefusedError("page.too-low", field="paper", width=width, height=height, high=height + 1)


def _frame(
    moves: Sequence[WrittenMove], cell: tuple[float, float], low: bool, style: Style
) -> MatFrame | None:
    """Return the frame of the pictures beside their sums in cells of that width and height."""
    width, high = cell
    try:
        heading = max(step_heading(1, move.title, width, style).height for move in moves)
    except RefusedError:  # a word is wider than the cell
        return None
    room = width - max(_written(move, style).width for move in moves) - 0.6 * GUTTER
    scenes = [counted(move.scene) if low else move.scene for move in moves]
    left = high - heading - _CLOSE
    written = max(_written(move, style).height for move in moves)
    if room < 20 or written > left:
        return None
    return mat_frame(scenes, room, style, high=left, least=LEAST_ONE)


def _written(move: WrittenMove, style: Style) -> Block:
    size = _DIGITS * settings(style.look).text.size
    return worked(
        move.columns, size, style, since=move.before, rows=2 if len(move.columns) > 2 else 1
    )


def _cell(number: int, move: WrittenMove, way: _Way, style: Style) -> Block:
    """Return one move: its heading, its picture and the sum as it is then written."""
    scene = counted(move.scene) if way.low else move.scene
    picture = mat_picture(scene, way.frame, style)
    written = _written(move, style)
    beside = Block(
        (*picture.items, *written.at(way.width - written.width, 3.0)),
        way.width,
        max(picture.height, written.height + 3.0),
    )
    found = stack((step_heading(number, move.title, way.width, style), beside), _CLOSE)
    return Block(found.items, way.width, found.height)
