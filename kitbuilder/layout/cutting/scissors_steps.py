"""The numbered steps in which the pieces are cut with scissors, counted and packed."""

from collections.abc import Callable, Sequence
from functools import partial

from kitbuilder.design.style import Style
from kitbuilder.kit import phrases
from kitbuilder.layout.bag import Bag
from kitbuilder.layout.cutting.cut_map import counted
from kitbuilder.layout.cutting.cut_plan import CutPlan
from kitbuilder.layout.cutting.cut_tree import strokes
from kitbuilder.layout.cutting.exploded import ABOVE, flat
from kitbuilder.layout.cutting.folded_pieces import FOLDED
from kitbuilder.layout.cutting.sheet_steps import (
    SheetSteps,
    columns_shown,
    foot_said,
    foot_shown,
    keeping,
    long_said,
    long_shown,
    sheet_shown,
    sheet_steps,
)
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.packing.scissors_columns import Step
from kitbuilder.layout.parts.block import EMPTY, Block, row, stack
from kitbuilder.layout.parts.contents import Arrow, Panel, Rule, SmallPieces
from kitbuilder.layout.parts.furniture import (
    letter_side,
    pictogram,
    rule,
    step_heading,
    step_number,
    tick,
    wrapped,
)
from kitbuilder.layout.parts.settings import settings
from kitbuilder.layout.parts.sheet_area import GUTTER
from kitbuilder.layout.parts.words import line, lines, wide
from kitbuilder.layout.picture.heaps import heap_width, heaps

WHOLE, COLUMN = 0.165, 0.22
"""Height of the pictures of a whole sheet and of a column, as parts of a page's."""

FIRST = 0.36
"""Width of the first step where the next one stands beside it, as part of a page's."""


def piece_steps(plan: CutPlan, bag: Bag, room: Rect, style: Style, size: float) -> list[Block]:
    """Return the steps of cutting the pieces; several sheets have a row of pictures each.

    ``size`` says how large pictures are, as a part of what looks best. ``bag`` is empty where
    there is one kit.
    """
    sheets = [sheet_steps(one, style) for one in plan.cut_sheets]
    several = len(sheets) > 1
    rows, number = (_each if several else _only)(sheets, room, style, size)
    half = (room.width - GUTTER) / 2

    def count(step: int, width: float) -> Block:
        return _count(plan, bag, step, width, style, min(1.0, size))

    trees = [one.root for one in plan.cut_sheets]
    steps: list[Callable[[int, float, Style], Block]] = []
    if any(node.number == Step.SNIP for tree in trees for node in tree.divided()):
        steps.append(partial(_snip, plan))
    doubled = [
        what for what in FOLDED if any(leaf.what == what for t in trees for leaf in t.ends())
    ]
    if doubled:
        steps.append(partial(_fold, doubled))
    if len(steps) == 1 and half >= _count_width(plan, style):
        both = row((steps[0](number, half, style), count(number + 1, half)), GUTTER)
        if both.height <= room.height:
            return [*rows, both]
    last = number + len(steps)
    if len(steps) == 2 and half >= _FOLDING:
        both = row([step(number + k, half, style) for k, step in enumerate(steps)], GUTTER)
        return [*rows, both, rule(room.width), count(last, room.width)]
    for step in steps:
        rows += [step(number, room.width, style), rule(room.width)]
        number += 1
    return [*rows, count(last, room.width)]


def _only(
    sheets: Sequence[SheetSteps], room: Rect, style: Style, size: float
) -> tuple[list[Block], int]:
    """Return the steps of the only sheet, and the number of the next step."""
    (steps,) = sheets
    high, half = WHOLE * room.height * size, (room.width - GUTTER) / 2
    cells: list[tuple[tuple[str, str], Block]] = []
    if steps.foot is not None:
        said = (foot_said(steps, style), _falls(sheets, style))
        above = ABOVE + letter_side(style) if steps.names else 0.0  # as high as the columns beside
        cells.append((said, foot_shown(steps, (0.55 * half, high + above), style)))
    if steps.names:
        held = sum(not node.falls for node in steps.long)
        said = (long_said(steps, style), style.words.count("scissors.long", held))
        cells.append((said, long_shown(steps, (half, high), style)))
    beside = _both(steps, cells, room, style, size) if len(cells) == 1 else None
    if beside is not None:
        return [beside, rule(room.width)], 3
    rows = [_step_row(cells, room.width, style), rule(room.width)] if cells else []
    number = len(cells) + 1
    many = len(steps.columns())
    widest = (room.width - GUTTER * (many - 1)) / many
    pictures = columns_shown(steps, widest, COLUMN * room.height, size, style)
    across = row([picture.as_wide(widest) for picture in pictures], GUTTER)
    rows += [stack((_across(number, many, room.width, style), across), 1.5), rule(room.width)]
    return rows, number + 1


def _both(
    steps: SheetSteps,
    cells: Sequence[tuple[tuple[str, str], Block]],
    room: Rect,
    style: Style,
    size: float,
) -> Block | None:
    """Return the only first step with that of cutting across beside it, None without room."""
    ((said, _),) = cells
    high, first = COLUMN * room.height, FIRST * room.width
    if not steps.names or wide(said[0], settings(style.look).heading) > 1.8 * first:
        return None
    pictures = columns_shown(steps, room.width, high, size, style)
    across = row(pictures, GUTTER)
    width = room.width - first - GUTTER
    if across.width > width:
        return None
    picture = long_shown(steps, (first, max(across.height - ABOVE - 6.0, 20.0)), style)
    if picture.width > first:
        return None
    second = stack(
        (
            _across(2, len(steps.columns()), width, style),
            across.moved((width - across.width) / 2, 0),
        ),
        1.5,
    )
    return row((_step(1, said, first, picture, style), second), GUTTER)


def _falls(sheets: Sequence[SheetSteps], style: Style) -> str:
    """Return what becomes of a foot, and whether anything on it is kept."""
    kept = [item for steps in sheets for item in steps.one.kept]
    falls = style.words("scissors.foot_falls")
    return f"{falls} {style.words(f'scissors.keep.{keeping(kept)}')}" if kept else falls


def _each(
    sheets: Sequence[SheetSteps], room: Rect, style: Style, size: float
) -> tuple[list[Block], int]:
    """Return two steps, below them a row of pictures for each of several sheets, and a number.

    The number is that of the next step.
    """
    half = (room.width - GUTTER) / 2
    both = row((_lengthways(sheets, half, style), _across(2, 2, half, style)), GUTTER)
    below = stack((_lengthways(sheets, room.width, style), _across(2, 2, room.width, style)), 3.0)
    least = both.height + settings(style.look).text.size  # short lines are read worse
    rows = [below if below.height <= least else both, rule(room.width)]
    for steps in sheets:
        rows += [*_sheet_rows(steps, len(sheets), room, style, size), rule(room.width)]
    return rows, 3


def _lengthways(sheets: Sequence[SheetSteps], width: float, style: Style) -> Block:
    """Return the step of cutting each of several sheets into long parts."""
    first = step_heading(1, style.words("scissors.each"), width, style)
    if any(steps.foot is not None for steps in sheets):
        text = settings(style.look).text
        note = lines(_falls(sheets, style), text, width - 10).moved(10, 0)
        first = stack((first, note), 1.5)
    return first.as_wide(width)


def _sheet_rows(steps: SheetSteps, of: int, room: Rect, style: Style, size: float) -> list[Block]:
    """Return one of several sheets, ``of`` in all: its name, its lines in order, its pictures.

    Where they do not stand beside each other, the columns have a row and the name of their own.
    """
    said = " ".join(filter(None, (foot_said(steps, style), long_said(steps, style))))
    text = settings(style.look).text
    high = WHOLE * room.height * size
    first = sheet_shown(steps, (0.64 * room.width, high), style)
    number = step_number(2, style)
    widest = room.width - number.width - 2.0
    columns = columns_shown(steps, 0.5 * room.width, COLUMN * room.height, size, style)
    across = row((number, wrapped(columns, widest, 3.0, 2.0, most=3.0)), 2.0)
    name, told = _sheet_name(steps, of, style), line(said, text)
    if name.width + 6.0 + told.width <= room.width:
        head = [row((name, told.moved(0, max(0.0, 0.7 * (name.height - told.height)))), 6.0)]
    else:
        head = [name, lines(said, text, room.width) if said else EMPTY]
    if not first:
        return [stack((*head, across), 1.5).as_wide(room.width)]
    cut = row((step_number(1, style), row(first, 3.0)), 2.0)
    half = (room.width - GUTTER) / 2
    if max(cut.width, across.width) <= half:  # each below the words on its step
        both = row((cut.as_wide(half), across), GUTTER)
        return [stack((*head, both), 1.5).as_wide(room.width)]
    if cut.width + 4.0 + across.width <= room.width:
        beside = wrapped((cut, across), room.width, 4.0, 2.0)
        return [stack((*head, beside), 1.5).as_wide(room.width)]
    named = [_sheet_name(steps, of, style, counted_=False), across]
    return [stack(some, 1.5).as_wide(room.width) for some in ([*head, cut], named)]


def _sheet_name(steps: SheetSteps, of: int, style: Style, *, counted_: bool = True) -> Block:
    """Return the number of one of several sheets, and how many sheets and cuts that is."""
    words, sets = style.words, settings(style.look)
    printed = steps.one.printed
    said = words("foot.of", number=printed.number, count=of)
    name = line(words("scissors.sheet", name=said), sets.heading)
    if not counted_:
        return name
    copies, cuts = printed.copies, strokes([printed], 1)
    many = words.count("count.sheet", copies), words.count("count.cut", cuts)
    counts = line(phrases.joined(words, many), sets.least)
    return row((name, counts.moved(0, max(0.0, (name.height - counts.height) * 0.7))), 3.0)


def _across(number: int, columns: int, width: float, style: Style) -> Block:
    """Return the heading and note of the step of cutting all ``columns`` across."""
    words, text = style.words, settings(style.look).text
    heading = step_heading(number, words.count("scissors.across", columns), width, style)
    note = lines(words("scissors.across_note"), text, width - 10).moved(10, 0)
    return stack((heading, note), 1.5).as_wide(width)


def _step_row(cells: Sequence[tuple[tuple[str, str], Block]], width: float, style: Style) -> Block:
    """Return the first steps side by side; a single one has its picture beside its words."""
    half = (width - GUTTER) / 2
    if len(cells) > 1:
        steps = [_step(k, said, half, picture, style) for k, (said, picture) in enumerate(cells, 1)]
        return row(steps, GUTTER)
    ((said, picture),) = cells
    words = _step(1, said, half, EMPTY, style)
    return row((words, picture.moved(max(0.0, (half - picture.width) / 2), 0)), GUTTER)


def _step(number: int, said: tuple[str, str], width: float, picture: Block, style: Style) -> Block:
    heading = step_heading(number, said[0], width, style)
    note = lines(said[1], settings(style.look).text, width - 10).moved(10, 0)
    shift = max(0.0, (width - picture.width) / 2)
    return stack((heading, note, picture.moved(shift, 0)), 1.5).as_wide(width)


def lengths_of_strips(plan: CutPlan) -> list[int]:
    """Return how many ones the strips of ``plan`` have, each length once, the longest first."""
    found: set[int] = set()
    for one in plan.cut_sheets:
        ones = sorted(
            (round(item.rect.y, 2), round(item.rect.x, 2), item.rect.right)
            for item in one.sheet.items
            if item.what == "ones"
        )
        count, last = 0, (0.0, 0.0)
        for y, x, right in ones:
            if count and (count == MOST_SNIPPED or y != last[0] or x > last[1] + 0.1):
                found.add(count)
                count = 0
            count, last = count + 1, (y, right)
        found.add(count)
    return sorted(found - {0}, reverse=True)


def _snip(plan: CutPlan, number: int, width: float, style: Style) -> Block:
    """Return the step of snipping strips of ``plan``, two lengths of them at most, into ones."""
    unit = min(4.4, (width - 20) / 17)
    items: list[Item] = []
    strip = tuple(Rect(k * unit, 0, unit, unit) for k in range(10))
    shown = lengths_of_strips(plan)[:2] or [MOST_SNIPPED]
    for top, count in zip((3.0, 3.0 + 2.4 * unit), shown, strict=False):
        items += [
            Item("pieces", r.moved(0, top), Panel("paper", "bubble", 0.0)) for r in strip[:count]
        ]
    middle = max(1, shown[0] - 1) * unit
    items.append(Item("blade", Rect(middle, 1.0, 0.01, unit + 4), Rule("cut")))
    items += pictogram("scissors", 5.4, 3).at(middle - 2.7, unit + 4.6)
    loose = ((12, 0.0), (13.4, 1.5), (14.6, 0.1), (13.0, 3.1))
    items += [
        Item("pieces", Rect(x * unit, 3 + y * unit, unit, unit), Panel("paper", "bubble", 0.0))
        for x, y in loose
    ]
    picture = Block(tuple(items), 16 * unit, 3.0 + 4.4 * unit)
    note = style.words("scissors.snip_note")
    if style.unit < SMALL:
        mm = phrases.number(style.words, style.unit)
        note = f"{style.words('scissors.small', unit=mm)} {note}"
    said = style.words("scissors.snip"), note
    return _step(number, said, width, picture, style)


def _fold(doubled: Sequence[str], number: int, width: float, style: Style) -> Block:
    """Return the step of folding the kinds of pieces ``doubled`` and gluing their halves."""
    unit = 1.1
    cells = []
    for what in doubled:
        across, high, once = (10, 20, 10) if what == "folded_hundreds" else (2, 10, 1)
        open_ = Rect(0, 0, across * unit, high * unit)
        closed = Rect(0, 0, once * unit, 10 * unit)
        arrow = Item("arrow", Rect(0, 5 * unit, 7.0, 0.01), Arrow(((0.0, 0.0), (7.0, 0.0))))
        piece = Item("pieces", closed, SmallPieces((closed,), unit))
        before = Block(flat(what, open_), open_.width, open_.height)
        after = Block((piece,), closed.width, closed.height)
        cells.append(row((before, Block((arrow,), 7.0, closed.height), after), 1.5))
    picture = row((*cells, pictogram("glue", 9.0)), 6.0)
    said = style.words("scissors.fold"), style.words("scissors.fold_note")
    return _step(number, said, width, picture, style)


SMALL = 7.0
"""Below this width of a one in mm scissors, within about 0.5 mm (common practice), are coarse."""

MOST_SNIPPED = 10
"""Ones of a strip at most: as many as a column is wide."""

_FOLDING = 70.0
# The least width in mm of half a page on which two small steps stand side by side.

_COUNTED = 1.6
# How wide a one is in the pictures of what goes into envelopes, mm, where there is room.

CELL_GAP = 2.0
"""The least space between two envelopes, mm."""


HEAP, ENVELOPE, SMALLEST = 17.0, 15.0, 0.66
"""Height of a heap and side of an envelope in mm, and the least part of both they are drawn at."""


def _cells(plan: CutPlan, style: Style, size: float) -> list[Block]:
    """Return an envelope for each kind of piece, what goes into it, and a box to tick."""
    text = settings(style.look).text
    high, side = HEAP * max(SMALLEST, size), ENVELOPE * max(SMALLEST, size)
    counts = [count for count in plan.bag if count.count]
    kinds = [(count.what, count.count) for count in counts]
    told = [counted((count,), style.words) for count in counts]
    largest = _COUNTED * max(SMALLEST, size)
    rooms = [
        (max(wide(said, text) + text.size + 1.0, heap_width(*kind, largest)), high)
        for said, kind in zip(told, kinds, strict=True)
    ]
    pictures = heaps(kinds, rooms, largest)
    high = max(high, *(picture.height for picture in pictures))
    cells = []
    for said, room, picture in zip(told, rooms, pictures, strict=True):
        across = room[0] + 1.0
        shown = Block(picture.at(0, high - picture.height), across, high)
        envelope = pictogram("envelope", min(side, across - 2))
        held = stack((shown, envelope, tick(said, across, style)), 0.5)
        cells.append(held.as_wide(across))
    return cells


def _count_width(plan: CutPlan, style: Style) -> float:
    """Return the width that the envelopes need side by side."""
    return row(_cells(plan, style, 1.0), CELL_GAP).width


def _count(plan: CutPlan, bag: Bag, number: int, width: float, style: Style, size: float) -> Block:
    """Return the step of counting the pieces of a kit into envelopes."""
    words, text = style.words, settings(style.look).text
    heading = step_heading(number, words("scissors.count"), width, style)
    note = words("scissors.count_bag" if bag.pieces else "scissors.count_note")
    told = [words("scissors.beside", things=", ".join(bag.things))] if bag.things else []
    said = [*told, *bag.beside] if bag.pieces else []
    if any(count.count for count in plan.spares):
        said.append(words("cutting.spares", pieces=counted(plan.spares, words)))
    first, *noted = (lines(one, text, width - 10).moved(10, 0) for one in (note, *said))
    held = wrapped(_cells(plan, style, size), width, CELL_GAP, 2.0)
    return stack((heading, first, held, *noted), 1.5).as_wide(width)
