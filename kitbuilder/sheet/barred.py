"""Turns a demand on a few sheets into sheets that fall into bars, cut by few strokes."""

from collections.abc import Iterator
from dataclasses import dataclass, field

from kitbuilder.sheet.bars import Move, fewest_moves, growth
from kitbuilder.sheet.columns import Builder
from kitbuilder.sheet.grid import Counts, Grid
from kitbuilder.sheet.panels import Division, panelled
from kitbuilder.sheet.parts import OFFCUT, Part, join

Sheets = list[tuple[int, Part]]


@dataclass(frozen=True, slots=True)
class Barred:
    """Sheets divided into bars ten wide and ``length`` long, and the strokes that follow."""

    cost: int
    division: Division
    turned: bool
    length: int
    bars: int
    first: tuple[Move, ...]  # to hundreds and strips
    ones: tuple[Move, ...]  # from strips to ones


def barred(demand: Counts, grid: Grid, sheets: int, layers: int, below: int) -> Iterator[Barred]:
    """Yield ways to cut ``sheets`` as bars in fewer strokes than ``below``."""
    hundreds, tens, ones = demand
    for division, turned, length in _divisions(grid):
        bars = sheets * division.panels
        start = division.strokes(sheets, layers)
        for strips, moves in _ones(ones, layers):
            most = below - 1 - start - len(moves)
            if growth(bars, hundreds + tens + strips, layers) > most:
                continue
            first = fewest_moves(length, bars, hundreds, tens + strips, layers, most)
            if first is not None:
                below = start + len(first) + len(moves)
                yield Barred(below, division, turned, length, bars, first, moves)


def _divisions(grid: Grid) -> Iterator[tuple[Division, bool, int]]:
    for halved_x in (False, True):
        for halved_y in (False, True):
            across, down = Division(halved_x, halved_y, 1, 1).room(grid)
            for columns in range(across // 10, 0, -1):
                yield Division(halved_x, halved_y, columns, 1), False, down
            for rows in range(down // 10, 0, -1):
                yield Division(halved_x, halved_y, 1, rows), True, across


def _ones(ones: int, layers: int) -> list[tuple[int, tuple[Move, ...]]]:
    """Return (strips, strokes that cut them into ones): more strips where that saves strokes."""
    if not ones:
        return [(0, ())]
    ways: list[tuple[int, tuple[Move, ...]]] = []
    for strips in range(-(-ones // 10), -(-ones // 10) + layers + 1):
        moves = fewest_moves(10, strips, 0, ones, layers)
        if moves is not None and (not ways or len(moves) < len(ways[-1][1])):
            ways.append((strips, moves))
    return ways


@dataclass(slots=True, eq=False)
class _Bar:
    """A bar in hand while the moves are replayed; cut at ``at`` if that is not 0."""

    length: int
    at: int = 0
    halves: tuple["_Bar", ...] = ()
    ones: bool = False  # a strip that is cut on, lengthwise
    kept: str = ""


@dataclass(slots=True)
class _Hand:
    """The bars in hand by length."""

    bars: dict[int, list[_Bar]] = field(default_factory=dict)

    def add(self, bar: _Bar) -> None:
        self.bars.setdefault(bar.length, []).append(bar)

    def replay(self, moves: tuple[Move, ...]) -> None:
        for move in moves:
            taken = [self.bars[move.length].pop(0) for _ in range(move.parts)]
            for bar in taken:
                bar.at = move.at
                bar.halves = (_Bar(move.at), _Bar(move.length - move.at))
                for half in bar.halves:
                    self.add(half)

    def keep(self, length: int, count: int, what: str) -> list[_Bar]:
        """Name ``count`` bars of ``length`` and return them."""
        kept = self.bars.get(length, [])[:count]
        for bar in kept:
            bar.kept = what
        self.bars[length] = self.bars.get(length, [])[count:]
        return kept


def barred_sheets(way: Barred, demand: Counts, grid: Grid, sheets: int, builder: Builder) -> Sheets:
    """Return the trees of ``way``."""
    hand, roots = _Hand(), [_Bar(way.length) for _ in range(way.bars)]
    for root in roots:
        hand.add(root)
    hand.replay(way.first)
    hand.keep(10, demand[0], "hundreds")
    hand.keep(1, demand[1], "tens")
    strips = sum(1 for _ in hand.bars.get(1, []))
    ones, lines = _Hand(), []
    for bar in hand.keep(1, min(strips, _strips(way)), "ones"):
        line = _Bar(10)
        ones.add(line)
        lines.append((bar, line))
    ones.replay(way.ones)
    ones.keep(1, demand[2], "ones")
    across = {id(bar): line for bar, line in lines}
    panels = [_part(root, across, way.turned, builder) for root in roots]
    size = (way.length, 10) if way.turned else (10, way.length)
    made: Sheets = []
    per_sheet = way.division.panels
    for i in range(sheets):
        mine = panels[i * per_sheet : (i + 1) * per_sheet]
        if not any(mine):
            return []
        made.append((1, panelled(grid, way.division, *size, mine)))
    return made


def _strips(way: Barred) -> int:
    """How many strips the strokes for ones begin with, at the least."""
    most = have = 0
    for move in way.ones:
        if move.length == 10:
            have += move.parts
            most = max(most, have)
    return most


def _part(bar: _Bar, lines: dict[int, _Bar], turned: bool, builder: Builder) -> Part | None:
    """Return the part of a bar, or None if nothing of it is kept."""
    if bar.halves:
        parts = [_part(half, lines, turned, builder) for half in bar.halves]
        if not any(parts):
            return None
        first, second = (
            part or _leaf(builder, OFFCUT, half.length, 10, turned)
            for part, half in zip(parts, bar.halves, strict=True)
        )
        return join("x" if turned else "y", first, second)
    if id(bar) in lines:
        return _line(lines[id(bar)], turned, builder)
    if bar.kept:
        return _leaf(builder, bar.kept, bar.length, 10, turned)
    return None


def _line(bar: _Bar, turned: bool, builder: Builder) -> Part | None:
    if bar.halves:
        parts = [_line(half, turned, builder) for half in bar.halves]
        if not any(parts):
            return None
        first, second = (
            part or _leaf(builder, OFFCUT, 1, half.length, turned)
            for part, half in zip(parts, bar.halves, strict=True)
        )
        return join("y" if turned else "x", first, second)
    return _leaf(builder, "ones", 1, 1, turned) if bar.kept else None


def _leaf(builder: Builder, what: str, along: int, over: int, turned: bool) -> Part:
    """Return a leaf ``along`` a bar and ``over`` it, in units."""
    return builder.leaf(what, along, over) if turned else builder.leaf(what, over, along)
