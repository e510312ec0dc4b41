"""The page of one child: what was written, what to ask, the same sum with pieces, and what next."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from kitbuilder.design.style import Style
from kitbuilder.errors import RefusedError
from kitbuilder.kit.child_words import ChildWords
from kitbuilder.kit.class_marks import ChildMarks
from kitbuilder.kit.lesson.again import Again, again
from kitbuilder.kit.lesson.mat_scenes import MatScene
from kitbuilder.kit.lesson.script import LessonStep
from kitbuilder.kit.phrases import capital
from kitbuilder.layout.lesson.mistake_pictograms import pictogram_of
from kitbuilder.layout.model import Item, Rect, Sheet, SheetKind
from kitbuilder.layout.pages.child_next import GROWN, next_sums
from kitbuilder.layout.parts.block import EMPTY, Block, beside, row, shared, stack
from kitbuilder.layout.parts.child_sum import written
from kitbuilder.layout.parts.contents import Panel, SmallPieces
from kitbuilder.layout.parts.furniture import (
    Foot,
    Heading,
    foot,
    header,
    pictogram,
    rule,
    step_heading,
    step_number,
    wrapped,
)
from kitbuilder.layout.parts.legend import MARKS, legend, marks_of
from kitbuilder.layout.parts.settings import growth, settings
from kitbuilder.layout.parts.sheet_area import GUTTER, SheetArea
from kitbuilder.layout.parts.speech import speech
from kitbuilder.layout.parts.words import fitted, line, lines, parted, wide
from kitbuilder.layout.picture.frame_records import MatFrame
from kitbuilder.layout.picture.mat_frame import mat_frame
from kitbuilder.layout.picture.mat_picture import mat_picture

LEAST_ONE, SMALLER_ONE, SMALLEST_ONE = 1.9, 1.5, 1.4
"""The least width in mm of a one in a page's pictures, where three stand in a row, and in the
fullest sums."""

LARGE_ONE = 2.6
"""The same in mm in large type, where a page holds such a picture."""

_GAP, _PAD, _CLOSE, _LINED = 2.2, 3.0, 3.0, 0.8
# Close: between three pictures; lined: from what is told to a picture, and from line to line.
_MOST_HIGH, _MOST_ALONE = 92.0, 124.0
# The most height of a picture in mm, and of one that has a page of its own.
_MOST_APART = 24.0  # the most that spare height adds to a gap, in mm
_MORE = 22.0  # the most that a row of next sums becomes higher, in mm, where its page has room
_Layout = tuple[int, int, int, str, float]
_LAYOUTS: tuple[_Layout, ...] = (
    (6, 3, 2, "one", LEAST_ONE),
    (4, 4, 1, "one", LEAST_ONE),
    (4, 2, 2, "one", LEAST_ONE),
    (3, 3, 1, "one", SMALLER_ONE),
    (2, 2, 1, "one", SMALLER_ONE),
    (3, 3, 1, "one", SMALLEST_ONE),
    (2, 2, 1, "one", SMALLEST_ONE),
    (4, 2, 1, "later", LEAST_ONE),
    (2, 1, 1, "later", LEAST_ONE),
    (2, 1, 1, "later", SMALLEST_ONE),
    (2, 1, 1, "first", SMALLEST_ONE),
    (4, 2, 2, "alone", LEAST_ONE),
    (4, 2, 2, "alone", SMALLEST_ONE),
    (2, 1, 2, "apart", SMALLEST_ONE),
    (2, 1, 1, "alone", LEAST_ONE),
    (2, 1, 1, "alone", SMALLEST_ONE),
)
# How pictures may lie, the best first: how many at most, how many across, rows on a page, in which
# of the rooms, the least one.

_LARGE = tuple((2, 1, 1, room, LARGE_ONE) for room in ("later", "last", "alone"))
# The same in large type, before these: it is for who sees little, for two pages more at most.


def child_sheets(child: ChildMarks, said: ChildWords, first: int, style: Style) -> list[Sheet]:
    """Return the page of ``child``, which has a wrong sum to show; a second for large pictures.

    ``first`` is its number among those of its kind.
    """
    area = SheetArea.upright(style.paper)
    heading = Heading("left", said.title, ("adult", "child"), said.note)
    items, top = header(heading, area, style)
    body = area.body(top)
    pages = _pages(child, said, body, style)
    if len(pages) > 1:
        pages = _pages(child, replace(said, first=said.first_later), body, style)
    size = area.page.width, area.page.height
    sheets = []
    for k, page in enumerate(pages):
        below = _foot(k + 1, len(pages), area, style)
        placed = (*items, *_spread(page, body).items, *below)
        sheet = Sheet(SheetKind.MARKS, first + k, "paper", *size, placed)
        sheets.append(replace(sheet, section=said.name))
    return sheets


def _foot(number: int, count: int, area: SheetArea, style: Style) -> tuple[Item, ...]:
    """Return the foot of a page, which says of several which it is; without a bar if need be."""
    note = style.words("foot.of", number=number, count=count) if count > 1 else ""
    below = foot(Foot(note), area, style)
    if not note or any(getattr(item.content, "text", "") == note for item in below):
        return below
    return foot(Foot(note, barred=False), area, style)


def _pages(child: ChildMarks, said: ChildWords, body: Rect, style: Style) -> list[list[Block]]:
    """Return the blocks of each page of ``child``."""
    opening, later = _opening(said, body, style)
    tasks = next_sums(child, said, body.width, style, 0.0)
    head, needed = _titled(said, body.width, style)
    rooms = _rooms(body.height, head, opening, tasks, legend(body.width, style, MARKS[:-1]))
    pictures = _pictures(said, needed, body.width, rooms, style)
    needs = [lines(f"{said.stock}.", settings(style.look).text, body.width)]
    without = needs if child.next.practice else []
    middle = [stack((head, pictures[0]), 1.6), *pictures[1:]] if pictures else without
    ending = [rule(body.width), tasks] if tasks.height else []
    pages = _keyed([*opening, *middle, *later, *ending], body, style)
    if pages[-1] == [tasks]:  # on a page of its own
        large = (next_sums(child, said, body.width, style, grows) for grows in GROWN)
        pages[-1] = [next((b for b in large if b.height <= body.height), tasks)]
    spare = body.height - sum(block.height + 2 * _GAP for block in pages[-1])
    if len(pages) > 1 and pages[-1][-1] is tasks and len(pages[-1]) > 1 and spare > 0:
        pages[-1][-1] = next_sums(child, said, body.width, style, 0.0, min(_MORE, spare / 3))
    return pages


def _opening(said: ChildWords, body: Rect, style: Style) -> tuple[list[Block], list[Block]]:
    """Return what stands before the pictures, and what of it comes after them for want of room."""
    text, width = settings(style.look).text, body.width
    lead = lines(parted(" ".join(said.lead), text, width), text, width)
    apart = stack([lines(parted(one, text, width), text, width) for one in said.lead])
    lead = min(apart, lead, key=lambda block: block.height)  # a sentence begins a line if it can
    wrote, later = _wrote(said, width, style), []
    if wrote.height > body.height:  # in large type on a small page
        later = [stack([lines(one, text, width) for one in said.further], 1.5)]
        said = replace(said, further=())
        wrote = _wrote(said, width, style)
    if wrote.height > body.height:
        return [lead, _framed(said, width / 2, 0.0, style), *_asked(said, width, style)], later
    full = lead.height + _GAP + wrote.height > body.height
    return [wrote, lead] if full else [lead, wrote], later  # no page for a line alone


def _spread(page: list[Block], body: Rect) -> Block:
    """Return the blocks of a page, what height is spare between them, and above a block alone."""
    spare = body.height - sum(block.height + _GAP for block in page)
    placed = shared(page, body, _GAP, min(_MOST_APART, max(0.0, spare) / len(page)))
    left = body.height - placed.height
    return placed.moved(0, left / 3 if left > body.height / 4 else 0.0)


def _paged(blocks: list[Block], high: float) -> list[list[Block]]:
    """Return ``blocks`` on pages ``high`` mm high, none of which begins with a line."""
    pages, left = [], blocks
    while left:
        taken = _fitting(left, high)
        pages.append(left[:taken])
        left = [b for k, b in enumerate(left[taken:]) if k or b.height > 1]
    return pages


def _fitting(blocks: list[Block], high: float) -> int:
    """Return how many of ``blocks`` one page takes; a line before the last stays with it."""
    used, count = 0.0, 0
    for block in blocks:
        need = block.height + (_GAP if count else 0.0)
        if count and used + need > high + 1e-6:
            break
        used, count = used + need, count + 1
    if count < len(blocks) and count > 1 and blocks[count - 1].height < 1:
        count -= 1
    return count


def _keyed(blocks: list[Block], body: Rect, style: Style) -> list[list[Block]]:
    """Return ``blocks`` on as few pages as can be, and what the marks in their pictures mean.

    That stands below the pictures of the first page that has room.
    """
    pictured = [k for k, b in enumerate(blocks) if any(i.what == "small_pieces" for i in b.items)]
    shown = {
        item.content.state if isinstance(item.content, SmallPieces) else item.what
        for k in pictured
        for item in blocks[k].items
    }
    marks = [mark for mark in MARKS if ("loop" if mark == "exchanged" else mark) in shown]
    key = legend(body.width, style, marks)
    closed = [(k, _closed(blocks[k], key, body.width)) for k in reversed(pictured)]
    ways = [
        (end[-1], _paged([*blocks[:k], *end, *blocks[k + 1 :]], body.height)) for k, end in closed
    ]

    def worth(way: tuple[Block, list[list[Block]]]) -> tuple[int, int]:
        end, pages = way
        return len(pages), next(n for n, page in enumerate(pages) if any(b is end for b in page))

    return min(ways, key=worth)[1] if marks else _paged(blocks, body.height)


def _closed(block: Block, key: Block, width: float) -> list[Block]:
    """Return ``block`` with the ``key`` at the end of its last line, or below where no room is."""
    low = block.height - key.height
    ends = [item.rect.right for item in block.items if item.rect.bottom > low + 0.1]
    wide_ = max((item.rect.right for item in key.items), default=0.0)
    if not ends or max(ends) + 2 * GUTTER + wide_ > width:
        return [block, key]
    return [Block((*block.items, *key.at(width - wide_, low)), width, block.height)]


def _rooms(
    high: float, head: Block, above: Iterable[Block], tasks: Block, key: Block
) -> dict[str, float]:
    """Return the heights in mm for pictures below ``head`` on a page ``high`` mm high.

    ``one``: with all else on one page; ``first`` and ``later``: a row on each page, the sums below
    the later one; ``last``: the same after a page without; ``alone``: on a page of their own;
    ``apart``: the same, what is told before on the page before, what is told after on the next;
    ``under``: over the sums.
    ``key``: what their marks mean takes.
    """
    alone, keyed = high - head.height - _GAP, key.height + _GAP
    first = alone - sum(block.height + _GAP for block in above) - _GAP
    below = tasks.height + _GAP + keyed
    return {
        "one": first - below,  # nothing needs to be spread there
        "first": first,
        "later": min(first, high - below - 2 * _GAP),
        "last": min(alone - keyed, high - below - 2 * _GAP),
        "alone": alone - keyed,
        "apart": high - keyed,
        "under": high - below - 2 * _GAP,
        "key": keyed,
    }


def _heading(text: str, style: Style) -> Block:
    return line(text, settings(style.look).heading)


def _titled(said: ChildWords, width: float, style: Style) -> tuple[Block, Block]:
    """Return the title of the pictures with the pieces that are needed, and those on their own.

    They stand at the title's right end; where there is no room for them, on their own.
    """
    title, least = _heading(said.pieces, style), settings(style.look).least
    if title.width + GUTTER + wide(said.stock, least) > width:
        return title, lines(said.stock, least, width)
    small = line(said.stock, least)
    items = (*title.items, *small.at(width - small.width, title.height - small.height))
    return Block(items, width, title.height), EMPTY


def _wrote(said: ChildWords, width: float, style: Style) -> Block:
    """Return the child's own sum in a frame, and beside it the mistake and what to ask."""
    across = 0.32 * width
    right = stack(_asked(said, width - across - GUTTER, style), 1.5)
    return row((_framed(said, across, right.height, style), right), GUTTER)


def _framed(said: ChildWords, across: float, high: float, style: Style) -> Block:
    """Return the child's own sum in a frame ``across`` mm wide and ``high`` or higher."""
    sets, room = settings(style.look), across - 2 * _PAD
    face = pictogram("child", 7.8)
    try:
        name = beside(face, lines(said.wrote, sets.text, room - face.width - 1.6))
    except RefusedError:  # a word is wider
        name = lines(parted(said.wrote, sets.text, room), sets.text, room)
    sum_ = written(said.shown, sets.child, said.answer, said.key)
    if sum_.width > room:  # in large type on a small page
        smaller = sets.child.sized(sets.child.size * room / sum_.width)
        sum_ = written(said.shown, smaller, said.answer, said.key)
    block = stack((name, Block(sum_.at((room - sum_.width) / 2, 0), room, sum_.height)), _GAP)
    high = max(block.height + 2 * _PAD, high)
    frame = Item("panel", Rect(0, 0, across, high), Panel("paper", "zone"))
    return Block((frame, *block.at(_PAD, (high - block.height) / 2)), across, high)


def _asked(said: ChildWords, width: float, style: Style) -> tuple[Block, Block]:
    """Return the mistake in the child's sum, and what to ask."""
    sets = settings(style.look)
    told = [lines(text, sets.text, width) for text in (said.happened, said.first) if text]
    asks = [speech("adult", text, width, style) for text in said.asks]
    asks += [lines(text, sets.text, width) for text in said.further]
    asks += [lines(text, sets.text.quiet(), width) for text in said.watch]
    mistake, heading = _mistake(said, width, style), _heading(said.ask, style)
    return stack((mistake, *told), 1.5), stack((heading, *asks), 1.5)


def _mistake(said: ChildWords, width: float, style: Style) -> Block:
    setting = settings(style.look).heading
    side = 8.0
    name = fitted(capital(said.mistake), setting, width - side - 3, 0.84 * setting.size)
    return beside(pictogram(pictogram_of(said.key), side), name, 3).as_wide(width)


def _pictures(
    said: ChildWords, needed: Block, width: float, rooms: Mapping[str, float], style: Style
) -> tuple[Block, ...]:
    """Return rows of pictures of the sum with pieces, all of it or up to where the mistake shows.

    The steps without a picture are told, below the pieces ``needed``; all where no picture fits.
    None where there is no piece for ten ones beside hundredths.
    """
    if said.shown.places > 3 and said.shown.scale.decimals:
        return ()
    every = again(said.shown, said.answer, said.key, said.place, style.words)
    for done, (count, across, rows, room, least) in _tried(every, style):
        shown = done.window(count)
        gap = GUTTER if across < 3 else _CLOSE
        each = (width - gap * (across - 1)) / across
        heads = _heads(shown, each, style)
        if heads is None:
            continue
        before, after = told = _told(done, shown, needed, width, style)
        free, scenes = rooms[room], [step.scene for step in shown]
        if room != "apart":
            free -= _used(told, two=len(shown) > across * rows)
        key = legend(width, style, marks_of(scenes))
        if room == "one" and len(_closed(after, key, width)) == 1:
            free += rooms["key"]  # which has a line of its own no longer
        high = (free - _GAP * (rows - 1)) / rows - heads - 1
        most = _MOST_ALONE if room == "alone" or least == LARGE_ONE else _MOST_HIGH
        frame = _frame(scenes, (each, min(high, most)), least, style)
        if frame is not None:
            first, frames = done.steps.index(shown[0]) + 1, [frame] * len(shown)
            alone = _alone(room, told, frame.height + heads + 1, rooms)
            for number, high in alone.items():
                high = min(high - heads - 1, _MOST_ALONE)
                larger = mat_frame(scenes, each, style, high=high, least=frame.unit)
                frames[number] = larger or frame
            pictured = _rows(shown, first, across, frames, each, style)
            if room == "apart":
                return (before, *pictured, after)
            ahead = (before,) if 0 in alone else ()
            return (*ahead, *_between((EMPTY if ahead else before, after), pictured))
    numbers = range(1, len(every.steps) + len(every.later) + 1)
    told_all = stack((needed, _numbered(every, numbers, width, style)), 1.0)
    return (told_all,) if told_all.height <= rooms["alone"] else ()


def _heads(shown: Iterable[LessonStep], width: float, style: Style) -> float | None:
    """Return how high the headings of steps are; None where a word is wider than a picture."""
    try:
        return max(step_heading(9, step.title, width, style).height for step in shown)
    except RefusedError:
        return None


def _alone(
    room: str, told: tuple[Block, Block], used: float, rooms: Mapping[str, float]
) -> dict[int, float]:
    """Return which of two pictures has a page to itself, and how high it may be with its heading.

    The first has it if what is told before has room on the page before; the last if the next sums
    have none below it. It needs no more than it has ``used``.
    """
    before, after = told
    if room == "last" and before.height + _GAP <= rooms["first"]:
        return {0: rooms["apart"]}
    if room == "first":
        left = after.height + _LINED
        return {1: rooms["under" if used + left <= rooms["under"] else "apart"] - left}
    return {}


def _tried(done: Again, style: Style) -> list[tuple[Again, _Layout]]:
    """Return how ``done`` may be pictured, the best first.

    On a page that is full, or where only two pictures stand, one in which nothing moves is rather
    told.
    """
    moved = done.moved()
    if growth(style.look) > 1:
        return [(moved, layout) for layout in (*_LARGE, *_LAYOUTS)]
    one = [layout for layout in _LAYOUTS if layout[3] == "one"]
    more = _LAYOUTS[len(one) :]
    return [
        *((some, k) for some in (done, moved) for k in one),
        *((moved if k[0] == 2 else done, k) for k in more),
    ]


def _frame(
    scenes: Sequence[MatScene], room: tuple[float, float], least: float, style: Style
) -> MatFrame | None:
    """Return the frame in ``room``, its pieces smaller if only so an exchange's arrow has room."""
    width, high = room
    frame = mat_frame(scenes, width, style, high=high, least=least)
    if frame is None or frame.opened or least > SMALLER_ONE:
        return frame
    smaller = mat_frame(scenes, width, style, high=high, least=SMALLEST_ONE)
    return smaller if smaller and smaller.opened else frame


def _used(told: tuple[Block, Block], *, two: bool) -> float:
    """Return the height that is left out of pictures for what is ``told``, if on ``two`` pages."""
    used = [block.height + _LINED for block in told if block.height]
    return max(used, default=0.0) if two else sum(used)


def _told(
    done: Again, shown: tuple[LessonStep, ...], needed: Block, width: float, style: Style
) -> tuple[Block, Block]:
    """Return the steps before the pictures ``shown``, below what is ``needed``, and after them.

    They are numbered as the pictures are.
    """
    start = done.steps.index(shown[0])
    end = start + len(shown)
    last = len(done.steps) + len(done.later)
    before, after = (
        _numbered(done, some, width, style)
        for some in (range(1, start + 1), range(end + 1, last + 1))
    )
    return stack((needed, before), 1.0), after


def _numbered(done: Again, numbers: Iterable[int], width: float, style: Style) -> Block:
    """Return the steps of ``done`` with those ``numbers`` in words."""
    every = [step.move or step.title for step in (*done.steps, *done.later)]
    told = [_step(n, every[n - 1], width, style) for n in numbers]
    return wrapped(told, width, 3.5, _LINED, 6.0)


def _step(number: int, said: str, width: float, style: Style) -> Block:
    """Return a step without a picture: its number with its words beside it."""
    text = settings(style.look).text
    square = step_number(number, style, text.lead)
    room = width - square.width - _GAP
    told = line(said, text) if wide(said, text) <= room else lines(said, text, room)
    return beside(square, told)


def _between(told: tuple[Block, Block], rows: tuple[Block, ...]) -> tuple[Block, ...]:
    """Return ``rows`` of pictures with what is told before the first and after the last."""
    before, after = told
    first, *others = rows
    *placed, last = stack((before, first), _LINED), *others
    return (*placed, stack((last, after), _LINED))


def _rows(
    shown: tuple[LessonStep, ...],
    first: int,
    across: int,
    frames: Sequence[MatFrame],
    each: float,
    style: Style,
) -> tuple[Block, ...]:
    rows = []
    for start in range(0, len(shown), across):
        some = shown[start : start + across]
        heads = [step_heading(first + start + k, s.title, each, style) for k, s in enumerate(some)]
        high = max(head.height for head in heads)
        cells = []
        for head, step, frame in zip(heads, some, frames[start:], strict=False):
            picture = mat_picture(step.scene, frame, style)
            items = (*head.items, *picture.at(0, high + 1))
            cells.append(Block(items, each, high + 1 + picture.height))
        rows.append(row(cells, GUTTER if across < 3 else _CLOSE))
    return tuple(rows)
