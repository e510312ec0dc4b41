"""When to write, on pages: boxes to tick, moves with the sum beside each, columns to write in."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import lru_cache
from itertools import combinations, pairwise, product

from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError
from kitbuilder.frozen import frozen
from kitbuilder.kit.lesson.drawn_by_hand import Drawn
from kitbuilder.kit.lesson.mat_scenes import MatScene
from kitbuilder.kit.lesson.moments import counted
from kitbuilder.kit.lesson.writing import Writing, WrittenMove
from kitbuilder.layout.lesson.lesson_steps import NoPictureError
from kitbuilder.layout.model import Item, Rect, Sheet, SheetKind
from kitbuilder.layout.parts.block import EMPTY, Block, level, row, split, spread, stack
from kitbuilder.layout.parts.contents import Arrow
from kitbuilder.layout.parts.furniture import (
    Foot,
    Heading,
    foot,
    header,
    rule,
    step_heading,
    tick,
    wrapped,
)
from kitbuilder.layout.parts.settings import growth, settings
from kitbuilder.layout.parts.sheet_area import GUTTER, SheetArea
from kitbuilder.layout.parts.words import fitted, line, lines, placed_line, wide
from kitbuilder.layout.parts.written_columns import Ruling, ruled, worked
from kitbuilder.layout.picture.frame_records import MatFrame, ZoneFrame
from kitbuilder.layout.picture.mat_frame import mat_frame
from kitbuilder.layout.picture.mat_picture import mat_picture
from kitbuilder.layout.worksheets.drawn import HIGH, drawn_block, drawn_width

LEAST_ONE = 1.9
"""The least width in mm of a one in the pictures."""

_MOST_DOT = 1.3
# The most width in mm of a dot of the drawing, in the usual look.

_GAP, _CLOSE, _ASIDE = 2.4, 0.6, 3.0
_APART, _BETWEEN = 2.2, 0.8
# From drawing to drawing in sizes of the text, and from line to line of them in units.

_DIGITS, _PITCH = 2.0, 9.4
# The size of the written digits in sizes of the text; the width of a column to write in, in mm.

_BELOW = 0.87
# How much of its worth a picture loses where the written sum stands below it.

_WORDS, _LEAST_WORDS = 0.45, 42.0
# The least share of the width for the words beside two grids, and their least width in mm.

_LARGER, _SMALLER, _FOOT = (1.9, 1.6, 1.35, 1.2, 1.0), (0.85, 0.8, 0.7), 0.5
# How much larger columns and the drawing may be on a last page that has room; how much smaller the
# drawing on small paper; what more than the usual gap is clear below it, in mm.

_MOST_END = 0.6
# The most of a page's height that one block at its end may have.

_CLEAR = 2.0
# What larger pictures leave clear above the foot, in mm.

_Numbered = tuple[int, WrittenMove]


@frozen
class _Way:
    """How moves stand: how many in a row ``width`` mm wide each, and how.

    With ``low`` the part is numbers alone; the written sum stands ``beside`` its picture or below.
    """

    across: int
    width: float
    low: bool
    beside: bool = True


def writing_sheets(page: Writing, first: int, style: Style) -> tuple[Sheet, ...]:
    """Return the pages of ``page``, on one if they fit, numbered from ``first`` on."""
    area = SheetArea.upright(style.paper)
    items, top = header(Heading("pencil", page.title, ("adult", "child")), area, style)
    body = area.body(top)
    tried = [page]
    if growth(style.look) > 1 and page.moves[-1].parted:  # worth no page in large type
        tried.append(replace(page, moves=(*page.moves[:-1], replace(page.moves[-1], parted=None))))
    pages = min((_pages(some, body, style) for some in tried), key=len)
    size = area.page.width, area.page.height
    return tuple(
        Sheet(SheetKind.GUIDE, n, "paper", *size, (*items, *shown, *foot(Foot(on), area, style)))
        for n, (shown, on) in enumerate(pages, first)
    )


def _pages(page: Writing, body: Rect, style: Style) -> list[tuple[tuple[Item, ...], str]]:
    """Return the items of the pages that ``page`` fills, each with the move that comes next."""
    opening = _opening(page, body.width, style)
    endings = _endings(page, body, style)
    after = sum(block.height for block in endings)
    way, frame = _way(page, (body.width, body.height, opening.height, after), style)
    moves = tuple(enumerate(page.moves, 1))
    rows = [
        _row(moves[k : k + way.across], way, frame, style) for k in range(0, len(moves), way.across)
    ]
    if growth(style.look) > 1:
        apart = split([opening, *rows, *endings], body, _GAP)
        rows = _larger(apart, rows, moves, (way, frame), body.height, style)
    found, done = [], 0
    for some in _ended([opening, *rows], endings, page, body, style):
        done += way.across * sum(block in rows for block in some)
        on = style.words("guide_pages.goes_on", step=done + 1) if done < len(moves) else ""
        found.append((spread(some, body, _GAP), on))
    return found


def _row(moves: Sequence[_Numbered], way: _Way, frame: MatFrame, style: Style) -> Block:
    """Return ``moves`` beside each other."""
    heads = level([step_heading(n, move.title, way.width, style) for n, move in moves])
    cells = [
        _cell(head, move, way, frame, style) for head, (_, move) in zip(heads, moves, strict=True)
    ]
    return row(cells, GUTTER)


def _larger(
    pages: Sequence[Sequence[Block]],
    rows: Sequence[Block],
    moves: Sequence[_Numbered],
    drawn: tuple[_Way, MatFrame],
    high: float,
    style: Style,
) -> list[Block]:
    """Return the ``rows`` of ``moves``, as large as each of ``pages`` ``high`` mm high can hold."""
    (way, frame), found = drawn, list[Block]()
    for some in pages:
        count = sum(block in rows for block in some)
        spare = max(0.0, high - _CLEAR - sum(block.height + _GAP for block in some))
        first = len(found)
        here = moves[first * way.across : (first + count) * way.across]
        for k, block in enumerate(rows[first : first + count]):
            told = max(_told(move, way.width, style).height for _, move in here)
            room = block.height + spare / count - told
            tried = (
                (one, _frame([move for _, move in here], room, one, frame.unit, style))
                for one in (way, replace(way, beside=not way.beside))
            )
            fits = [(one, fit) for one, fit in tried if fit]
            best = max(fits, key=_worth, default=(way, frame))
            found.append(_row(here[k * way.across : (k + 1) * way.across], *best, style))
    return found


def _ended(
    blocks: Sequence[Block], endings: Sequence[Block], page: Writing, body: Rect, style: Style
) -> list[list[Block]]:
    """Return the pages of ``blocks`` and ``endings``, those larger if the last page has room."""
    pages = split([*blocks, *endings], body, _GAP)
    for ending in _larger_endings(page, body, style):
        tried = split([*blocks, *ending], body, _GAP)
        high = max((block.height for block in ending), default=body.height + 1)
        if high <= body.height and tried[:-1] == pages[:-1]:
            pages = tried
            break
    return pages


def _larger_endings(page: Writing, body: Rect, style: Style) -> Iterator[Sequence[Block]]:
    """Yield what may stand at the end of the last page, the largest first.

    In large type the drawing has lines enough: all of it in one line was small beside the words.
    """
    large = growth(style.look) > 1
    for sizes in product(_LARGER, _LARGER) if large else zip(_LARGER, _LARGER, strict=True):
        yield _large_ending(page, sizes, body.width, style)
    for dots in (*_LARGER, *_SMALLER) if large else ():
        yield _endings(page, body, style, dots)


def _opening(page: Writing, width: float, style: Style) -> Block:
    """Return when to begin, and what holds for every mark."""
    sets = settings(style.look)
    ticks = wrapped([tick(said, width, style) for said in page.ticks], width, 4.0, 1.0)
    holds = fitted(page.rule, sets.heading, width, sets.text.size)
    said = (lines(page.lead, sets.text, width), ticks, rule(width))
    return stack((*said, stack((holds, lines(page.told, sets.text, width)), 0.2)), 1.6)


def _endings(page: Writing, body: Rect, style: Style, dots: float = 0.0) -> list[Block]:
    """Return what the child does now beside columns to write in, and later, in one block.

    Two blocks where it would be too high. The drawing has lines enough for ``dots`` so many times
    as wide as usual, one where that is 0.
    """
    width, text = body.width, settings(style.look).text
    pitch = max(_PITCH, 1.5 * text.size)
    one, two = (_grids(page.headings, count, pitch, page.marks, style) for count in (1, 2))
    roomy = width - two.width - 2 * GUTTER > _WORDS * width and growth(style.look) == 1
    right = two if roomy else one  # beside large words one leaves pictures more room
    beside = width - right.width - 2 * GUTTER
    room = beside if beside > _LEAST_WORDS else width
    drawing = _drawing(page, room, dots, style)
    now, later = _now(page, room, style), _later(page, room, style, drawing)
    both = _ruled(stack((now, later), 0.8), right, width)
    broad = _later(page, width, style, _drawing(page, width, dots, style))
    if dots:  # below the columns there may be more room
        both = min(both, stack((_ruled(now, right, width), broad), 0.8), key=lambda b: b.height)
    if both.height <= _MOST_END * body.height:
        return [both]
    if now.width + two.width > width:  # the grids stand below: the words take the whole width
        now = _now(page, width, style)
    return [_ruled(now, two, width), _ruled(broad, EMPTY, width)]


def _large_ending(
    page: Writing, sizes: tuple[float, float], width: float, style: Style
) -> tuple[Block, ...]:
    """Return all that under a line, the drawing below columns.

    Columns and dots are ``sizes`` times as large as usual. Without room for words beside the
    columns there is none.
    """
    sets, large = settings(style.look), growth(style.look) > 1
    larger, dots = sizes
    pitch = larger * max(_PITCH, 1.5 * sets.text.size)
    both = (_grids(page.headings, count, pitch, page.marks, style) for count in (2, 1))
    # so much large text is read more easily in long lines
    least = max(_WORDS * width, wide(page.now, sets.heading) if large else 0.0)
    fits = (g for g in both if width - g.width - 2 * GUTTER > least)
    if (grids := next(fits, None)) is None:
        return ()
    room = width - grids.width - 2 * GUTTER
    now, later = _now(page, room, style), _later(page, width if large else room, style)
    said = [_beside(now, grids, width), later]
    if not large:
        said = [_beside(stack((now, later), 2.4), grids, width)]
    drawing = _drawing(page, width, dots, style, larger=True)
    return rule(width, "rule"), *said, drawing._replace(height=drawing.height + _FOOT)


def _ruled(said: Block, right: Block, width: float) -> Block:
    """Return both under a line."""
    (ruling,) = rule(width, "rule").items
    below = _beside(said, right, width)
    return Block((ruling, *below.at(0, 2.0)), width, below.height + 2.0)


def _beside(said: Block, right: Block, width: float) -> Block:
    """Return ``said``, ``right`` beside it or, without room, below."""
    if said.width + right.width <= width:
        return row((said.as_wide(width - right.width), right))
    return stack((said, right), 2.0)


def _now(page: Writing, room: float, style: Style) -> Block:
    """Return what the child does now, in ``room`` mm."""
    sets = settings(style.look)
    title = fitted(page.now, sets.heading, room, sets.text.size)
    return stack((title, lines(page.now_told, sets.text, room)), 0.8)


def _later(page: Writing, room: float, style: Style, drawing: Block = EMPTY) -> Block:
    """Return how a sum is drawn, in ``room`` mm, with the ``drawing``."""
    sets = settings(style.look)
    title = fitted(page.draw, sets.heading, room, sets.text.size)
    return stack((title, drawing, lines(page.draw_told, sets.text, room)), 0.8)


def _drawing(
    page: Writing, width: float, dots: float, style: Style, *, larger: bool = False
) -> Block:
    """Return a sum and how it is drawn step by step, ``dots`` times as wide as usual at most.

    The sum stands before its drawing; where dots would become smaller, above it if the drawing
    is ``larger``, else it is left out: pictures need the height. Large type has lines enough for
    the dots, one where those are 0.
    """
    text, grown = settings(style.look).text, growth(style.look)
    most, apart = (dots or 1.0) * (_MOST_DOT * grown), _APART * text.size
    said = line(page.drawn, text)
    taken = sum(drawn_width(stage) for stage in page.drawing)
    room = width - apart * (len(page.drawing) - 1)
    unit = min(most, room / taken)
    steps = _steps(page.drawing, unit, apart)
    lined = dots > 0 and grown > 1
    if lined:
        steps = _in_lines(page.drawing, width, most, apart)
    if lined or taken * unit + said.width + apart > room:
        return stack((said if larger else EMPTY, steps), 0.4)
    before = said.at(0, (steps.height - said.height) / 2)
    left = said.width + apart
    return Block((*before, *steps.at(left, 0)), left + steps.width, steps.height)


def _in_lines(stages: Sequence[Drawn], width: float, most: float, apart: float) -> Block:
    """Return a sum drawn step by step in as few lines as make its dots as large as they can be."""
    last = len(stages)
    breaks = (some for count in range(last) for some in combinations(range(1, last), count))
    ways = [[stages[a:b] for a, b in pairwise((0, *some, last))] for some in breaks]

    def unit(runs: list[Sequence[Drawn]]) -> float:
        arrows = (len(run) - (not k) for k, run in enumerate(runs))
        needs = (sum(map(drawn_width, run)) for run in runs)
        return min(most, *((width - apart * n) / m for n, m in zip(arrows, needs, strict=True)))

    best = max(ways, key=unit)
    drawn = (_steps(run, unit(best), apart, after=k > 0) for k, run in enumerate(best))
    return stack(drawn, _BETWEEN * unit(best))


def _steps(stages: Sequence[Drawn], unit: float, apart: float, *, after: bool = False) -> Block:
    """Return a sum drawn step by step, arrows between the pictures ``apart`` mm from each other.

    One stands before the first too if that comes ``after`` others.
    """
    items: list[Item] = []
    x = 0.0
    for stage in stages:
        if items or after:
            way = Rect(x + 0.15 * apart, HIGH * unit / 2, 0.7 * apart, 0.01)
            items.append(Item("arrow", way, Arrow(((0.0, 0.0), (way.width, 0.0)), size=0.8)))
            x += apart
        block = drawn_block(stage, unit)
        items += block.at(x, 0)
        x += block.width
    return Block(tuple(items), x, HIGH * unit)


def _grids(letters: Sequence[str], count: int, pitch: float, marks: str, style: Style) -> Block:
    """Return ``count`` times empty columns under their letters, then what the row of marks is."""
    empty = (None,) * len(letters)
    grids = row([ruled(empty, empty, Ruling(letters), pitch, style)] * count, GUTTER)
    quiet = settings(style.look).least
    said = placed_line(marks, quiet, grids.width + 1.2, 1.15 * pitch)
    return Block((*grids.items, said), said.rect.right, grids.height)


def _way(
    page: Writing, room: tuple[float, float, float, float], style: Style
) -> tuple[_Way, MatFrame]:
    """Return the way with the fewest pages whose ones are large enough, and its pictures' frame.

    ``room`` is the width and height of a page, and the heights of what stands at its beginning
    and its end, in mm.
    """
    width, height, before, after = room
    half = (width - GUTTER) / 2
    ways = (
        _Way(2, half, low=False),
        _Way(2, half, low=True),
        _Way(1, width, low=False),
        _Way(1, width, low=True),
        _Way(1, width, low=False, beside=False),
        _Way(1, width, low=True, beside=False),
    )
    least = (growth(style.look) * LEAST_ONE, LEAST_ONE)
    for apart, one, pages in product((False, True), least, range(1, len(page.moves) + 1)):
        taken = (0.0, 0.0) if apart else (before + _GAP, after + _GAP)
        found = []
        for way in ways:
            told = _told(page.moves[-1], way.width, style).height
            rows = -(-len(page.moves) // way.across)
            high = _most_high(rows, pages, height, (taken[0], taken[1] + told)) - _GAP
            if frame := _frame(page.moves, high, way, one, style):
                found.append((way, frame))
        if found:
            return max(found, key=_worth)
    raise NoPictureError(page.moves[0].scene)


def _worth(found: tuple[_Way, MatFrame]) -> tuple[bool, float]:
    """Return how good a way is: the part with its pieces, then the size of those."""
    way, frame = found
    return not way.low, frame.unit * (1.0 if way.beside else _BELOW)


def _most_high(rows: int, pages: int, height: float, taken: tuple[float, float]) -> float:
    """Return how high each of ``rows`` may be on so many ``pages``, each ``height`` mm high.

    Of the first page and of the last so much is ``taken``.
    """
    first, last = taken
    if pages == 1:
        return (height - first - last) / rows
    rooms = (height - first, *(height,) * (pages - 2), height - last)
    fits = {room / count for room in rooms for count in range(1, rows + 1)}
    for high in sorted(fits, reverse=True):
        if high > 0 and sum(int(room / high + 1e-9) for room in rooms if room > 0) >= rows:
            return high
    return 0.0


def _frame(
    moves: Sequence[WrittenMove], high: float, way: _Way, least: float, style: Style
) -> MatFrame | None:
    """Return the frame of the pictures where a move is ``high`` mm high at most."""
    try:
        heading = max(step_heading(1, move.title, way.width, style).height for move in moves)
    except RefusedError:  # a word is wider than the cell
        return None
    sums = [_written(move, style) for move in moves]
    written = max(block.height for block in sums) + _ASIDE
    room, left = way.width, high - heading - 2 * _CLOSE
    if way.beside:
        room -= max(block.width for block in sums) + _ASIDE
    if room < 20 or written > left:
        return None
    scenes = [counted(move.scene) if way.low else move.scene for move in moves]
    left -= 0.0 if way.beside else written
    return mat_frame(scenes, room, style, high=left, least=least) if left > 0 else None


@lru_cache(64)  # each way in which the moves may stand asks how large it is
def _written(move: WrittenMove, style: Style) -> Block:
    size = _DIGITS * settings(style.look).text.size
    own, rows = style.counting(move.scale), 2 if len(move.columns) > 2 else 1
    return worked(move.columns, size, own, since=move.before, rows=rows)


def _told(move: WrittenMove, width: float, style: Style, frame: MatFrame | None = None) -> Block:
    """Return what comes after the last move; large type leaves the room to pictures if it can.

    Both parts lie in the zones of ``frame`` that are numbers alone, or in such a row of their own.
    """
    if not move.told or (growth(style.look) > 1 and not move.parted):
        return EMPTY
    text = settings(style.look).text
    said = [lines(move.told, text, width)]
    if parted := move.parted:
        if not (frame and _bare(frame)):
            frame = mat_frame([parted.scene], frame.width if frame else width, style)
        shown = _rows_alone(parted.scene, frame, style) if frame else EMPTY
        said = [lines(parted.told, text, width), shown, *said]
    return stack(said, _CLOSE)


def _bare(frame: MatFrame) -> list[ZoneFrame]:
    """Return the zones of ``frame`` that have room for numbers alone."""
    return [zone for zone in frame.zones if zone.height < frame.heights.digits + 1.0]


def _rows_alone(scene: MatScene, frame: MatFrame, style: Style) -> Block:
    """Return the zones of ``scene`` that are numbers alone in ``frame``, and nothing else of it."""
    bare = _bare(frame)
    top = min(zone.y - (0.0 if zone.low else frame.heights.name) for zone in bare)
    moved = tuple(replace(zone, y=zone.y - top) for zone in bare)
    held = tuple(zone for zone in scene.zones if zone.role in {one.role for one in bare})
    cut = replace(frame, zones=moved, height=max(zone.y + zone.height for zone in moved))
    return mat_picture(replace(scene, zones=held), cut, style)


def _cell(heading: Block, move: WrittenMove, way: _Way, frame: MatFrame, style: Style) -> Block:
    """Return one move: its heading, its picture and the sum as it is then written, what is told."""
    picture = mat_picture(counted(move.scene) if way.low else move.scene, frame, style)
    written = _written(move, style)
    if way.beside:
        right = written.at(way.width - written.width, _ASIDE)
        high = max(picture.height, written.height + _ASIDE)
        shown = Block((*picture.items, *right), way.width, high)
    else:
        shown = stack((picture, written), _ASIDE)
    told = _told(move, way.width, style, frame)
    return stack((heading, shown, told), _CLOSE).as_wide(way.width)
