"""Turns a mini kit's pieces into trees of cuts that leave room for its card and its steps."""

from collections.abc import Iterator
from dataclasses import dataclass

from kitbuilder.design.style import Style
from kitbuilder.kit.card_records import TaskCard
from kitbuilder.layout.mini.mini_card import mini_front
from kitbuilder.layout.model import Rect
from kitbuilder.layout.packing.block_tree import Builder
from kitbuilder.layout.packing.column_block import Block, best_block
from kitbuilder.layout.packing.grid import Counts, Grid, least_sheets
from kitbuilder.layout.packing.guillotine import OFFCUT, Part, join, leaf, trimmed

PIECES = ("hundreds", "tens", "ones")

PAD = 4.0
"""Clear space in mm inside the parts that are no pieces."""

CARD_SIZES = ((120.0, 77.0), (110.0, 87.0), (92.0, 97.0), (148.0, 97.0), (190.0, 77.0))
"""Widths and heights in mm tried for a card that does not stand beside the pieces."""

BELOW = 6000
"""From this height on (hundredths of a mm) the head stands below the card, else beside it."""

TRIES = 6
"""Rests of the pieces that are tried on the last sheet."""


@dataclass(frozen=True, slots=True)
class Room:
    """What is laid out on which grid; the steps need ``least_steps`` (hundredths of a mm).

    That is the least height of a part as wide as the page that holds them.
    """

    grid: Grid
    builder: Builder
    card: TaskCard
    style: Style
    least_steps: int

    @property
    def inside(self) -> tuple[int, int]:
        """Width and height of what prints, hundredths of a mm."""
        grid = self.grid
        return grid.width - grid.x - grid.right, grid.height - grid.y - grid.bottom


def ways(room: Room, counts: Counts, full: int, apart: bool) -> Iterator[list[Part]]:
    """Yield trees of cuts for ``full`` sheets of pieces and one that holds the rest and more.

    With ``apart`` the steps have a sheet of their own, which is not cut and not among them.
    """
    grid, builder = room.grid, room.builder
    for rest in _rests(counts, grid, full):
        filled = tuple(a - b for a, b in zip(counts, rest, strict=True))
        whole = _filled(room, (filled[0], filled[1], filled[2]), full)
        if whole is None:
            continue
        for block in _blocks(rest, grid):
            for core in _cores(room, builder.block(block) if block else None, apart):
                yield [*whole, trimmed(core, grid.width, grid.height, grid.x, grid.y)]


def _rests(counts: Counts, grid: Grid, full: int) -> Iterator[Counts]:
    """Yield what may lie on the last sheet if ``full`` sheets hold the others, least first."""
    found = []
    for hundreds in range(counts[0] + 1):
        for tens in range(counts[1] + 1):
            for ones in range(counts[2] + 1):
                left = (counts[0] - hundreds, counts[1] - tens, counts[2] - ones)
                needed = least_sheets(left, grid.across, grid.down) if any(left) else 0
                if needed <= full:
                    area = 100 * hundreds + 10 * tens + ones
                    found.append((area, (hundreds, tens, ones)))
    yield from (rest for _, rest in sorted(found)[:TRIES])


def _filled(room: Room, counts: Counts, full: int) -> list[Part] | None:
    """Return ``full`` sheets that hold ``counts``, hundreds first; None where none is needed."""
    grid, left, trees = room.grid, list(counts), []
    for _ in range(full):
        held = _most((left[0], left[1], left[2]), grid)
        block = best_block(held, grid.across, grid.down) if any(held) else None
        if block is None:
            return None
        core = room.builder.block(block)
        trees.append(trimmed(core, grid.width, grid.height, grid.x, grid.y))
        left = [a - b for a, b in zip(left, held, strict=True)]
    return trees if not any(left) else None


def _most(left: Counts, grid: Grid) -> Counts:
    """Return as much of ``left`` as one sheet holds, larger pieces first."""
    held = [0, 0, 0]
    for k in range(3):
        while held[k] < left[k]:
            held[k] += 1
            if least_sheets((held[0], held[1], held[2]), grid.across, grid.down) > 1:
                held[k] -= 1
                break
    return held[0], held[1], held[2]


def _blocks(counts: Counts, grid: Grid) -> Iterator[Block | None]:
    """Yield blocks for ``counts``, low ones first: the narrowest of its height, and the widest."""
    if not any(counts):
        yield None
        return
    for down in range(1, grid.down + 1):
        for across in range(1, grid.across + 1):
            block = best_block(counts, across, down)
            if block is not None:
                yield block
                break


def _cores(room: Room, pieces: Part | None, apart: bool) -> Iterator[Part]:
    """Yield ways to lay card, head and steps (unless ``apart``) beside and below the pieces."""
    width, height = room.inside
    if not apart and height - (pieces.height if pieces else 0) < room.least_steps:
        return
    if pieces and height > pieces.height and _fits(room, width - pieces.width, pieces.height):
        beside = join("x", pieces, leaf("task_card", width - pieces.width, pieces.height))
        below = "head" if apart else "steps"
        yield join("y", beside, leaf(below, width, height - pieces.height))
    above = pieces.height if pieces else 0
    for wide, high in ((round(100 * w), round(100 * h)) for w, h in CARD_SIZES):
        left = height - above - high
        if (
            wide >= width
            or left <= (0 if apart else room.least_steps)
            or not _fits(room, wide, high)
        ):
            continue
        name = "head" if width - wide > 6000 else OFFCUT
        below = "head" if apart else "steps"
        if apart and left >= BELOW:
            name = OFFCUT
        elif apart and name == "head":
            below = OFFCUT
        row = join("x", leaf("task_card", wide, high), leaf(name, width - wide, high))
        core = join("y", row, leaf(below, width, left))
        if pieces is None:
            yield core
            continue
        top = pieces
        if pieces.width < width:
            top = join("x", pieces, leaf(OFFCUT, width - pieces.width, pieces.height))
        yield join("y", top, core)


def _fits(room: Room, width: int, height: int) -> bool:
    """Say whether the card fits ``width`` by ``height`` hundredths of a mm."""
    if min(width, height) < 100 * (2 * PAD + 10):
        return False
    ink = Rect(0, 0, width / 100, height / 100).inset(PAD)
    return mini_front(room.card, ink, room.style) is not None
