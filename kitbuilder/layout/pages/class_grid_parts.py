"""The grid of a class in parts that pages hold: few pages, each as full as the next."""

from dataclasses import replace

from kitbuilder.design.style import Style
from kitbuilder.kit.class_marks import ClassMarks
from kitbuilder.layout.model import Rect
from kitbuilder.layout.pages.class_grid import GridMeasures, grid, legend
from kitbuilder.layout.parts.block import Block, stack
from kitbuilder.layout.parts.settings import settings

GRID_GAP = 4.0
"""Height in mm between two parts of a class's pages."""

LARGEST_ROW = 1.35
"""How much higher than usual a row becomes where there is room."""

_LOW = 0.9
# The least height of a row beside a line of its words.

_EMPTY = 0.33
# The part of a page below the groups from which on rows begin there.


def grid_parts(marks: ClassMarks, body: Rect, room: float, style: Style) -> list[Block]:
    """Return the grid in parts; the first fits the ``room`` mm below the groups if it can.

    All children stand on one page where their rows are not too low for it; for that the legend
    stands alone below the groups.
    """
    sets = settings(style.look)
    texts = (sets.text, sets.text.sized(style.look.type_mm.least))
    all_sizes = [GridMeasures.of(marks, body.width, text, style) for text in texts]
    sizes = min(all_sizes, key=lambda some: -(-len(marks.sums) // some.count(body.width)))
    sizes = replace(sizes, head=3 * max(sizes.text.lead, sets.least.lead) + 1.6)
    means = legend(marks, body.width, sizes.text, style)
    count, across = len(marks.children), sizes.count(body.width)
    over, head = means.height + GRID_GAP, sizes.head + 0.4
    rooms = (room - over - head, body.height - over - head, body.height - head)
    each = sizes.head + count * sizes.row + GRID_GAP
    stacked = min(-(-len(marks.sums) // across), int((body.height - over + GRID_GAP) / each))
    if stacked > 1:  # several parts of few children on one page
        shared = (body.height - over + GRID_GAP) / stacked - GRID_GAP - head
        rooms = (min(rooms[0], shared), shared, shared)
    found: list[Block] = []
    if rooms[1] < count * _lowest(sizes) <= rooms[2] and means.height <= room:
        rooms, found = (0.0, rooms[2], rooms[2]), [means]  # with the groups, all rows on one page
    for start in range(0, len(marks.sums), across):
        at = 0
        for some, high in _rows(count, rooms, sizes):
            children, sums = marks.children[at : at + some], marks.sums[start : start + across]
            high_rows = replace(sizes, row=high)
            part = grid(children, sums, high_rows, body.width, style, coded=marks.coded)
            found.append(part if found else stack((means, part), GRID_GAP))
            at += some
        rooms = (0.0, rooms[2], rooms[2])
    return found


def _lowest(sizes: GridMeasures) -> float:
    return min(sizes.row, _LOW * sizes.text.lead)


def _rows(
    count: int, rooms: tuple[float, float, float], sizes: GridMeasures
) -> list[tuple[int, float]]:
    """Return how many of ``count`` rows each part has, and how high they are.

    ``rooms`` are the heights for rows below the groups, on a first page, and on each further one.
    """
    below, first, full = rooms
    usual = sizes.row
    low = _lowest(sizes)
    held = [below if count * low <= below or below > _EMPTY * full else first]
    if count * low > held[0]:
        while sum(int(high / usual) for high in held) < count:
            held.append(full)
    found = []
    for k, high in enumerate(held):
        some = min(max(1, int(high / usual)), -(-count // (len(held) - k)))
        some = count if k == len(held) - 1 else some
        found.append((some, max(low, min(LARGEST_ROW * usual, high / some - 1e-6))))
        count -= some
    return found
