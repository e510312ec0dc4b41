"""A bar layout: a few sheets that fall into bars, cut by few strokes.

A bar is ten units wide or a few more. It is cut crosswise into ends, ten long, and strips, one
long. An end is a hundred and, where the bar is wider than ten, some tens; a strip is a ten with
ones at its end, or only ones. So three times bars fall into lengths of ten and of one
(``packing.bar_search``), and all of them may be cut K alike.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field

from kitbuilder.frozen import frozen
from kitbuilder.layout.packing.bar_search import BarMove, fewest_moves, growth
from kitbuilder.layout.packing.block_tree import Builder
from kitbuilder.layout.packing.grid import Counts, Grid
from kitbuilder.layout.packing.guillotine import OFFCUT, Part, join
from kitbuilder.layout.packing.panels import Division, panelled

Sheets = list[tuple[int, Part]]


MOST_TRIED = 24  # candidates whose strokes are searched
EFFORT = 54_000  # candidates times pieces squared, about


@frozen
class Bars:
    """Sheets divided into bars of ``breadth`` by ``length``, and what is cut from them.

    Each bar is cut crosswise into ``hundreds`` ends, ten long, and ``strips``, one long. The
    ends, ``breadth`` long when they lie across, become a hundred each and ``tens`` in all; the
    strips become the other tens and the ones. ``cost`` is what no strokes can go below.
    """

    cost: int
    start: int
    division: Division
    turned: bool
    breadth: int
    length: int
    bars: int
    strips: int
    tens: int


@frozen
class Barred:
    """Bars and the strokes that cut them, their ends and their strips."""

    bars: Bars
    first: tuple[BarMove, ...]
    ends: tuple[BarMove, ...]
    strips: tuple[BarMove, ...]


def barred(demand: Counts, grid: Grid, sheets: int, layers: int, below: int) -> Iterator[Barred]:
    """Yield ways to cut ``sheets`` as bars in fewer strokes than ``below``."""
    ways = sorted(
        _bars(demand, grid, sheets, layers, below), key=lambda way: (way.cost, way.breadth)
    )
    for way in ways[: max(3, min(MOST_TRIED, EFFORT // sum(demand) ** 2))]:
        if way.cost >= below:
            return
        found = _searched(way, demand, layers, below - 1)
        if found:
            below = way.start + len(found.first) + len(found.ends) + len(found.strips)
            yield found


def _searched(way: Bars, demand: Counts, layers: int, most: int) -> Barred | None:
    """Return ``way`` with strokes for it, ``most`` in all, or None if they are not found."""
    hundreds, tens, ones = demand
    most -= way.start
    goals = (
        (way.length, way.bars, hundreds, way.strips),
        (way.breadth, hundreds, hundreds, way.tens),
        (way.breadth, way.strips, tens - way.tens, ones),
    )
    least = [growth(bars, long + short, layers) for _, bars, long, short in goals]
    found: list[tuple[BarMove, ...]] = []
    for i in (2, 1, 0):
        length, bars, long, short = goals[i]
        left = most - sum(least[:i]) - sum(map(len, found))
        moves = fewest_moves(length, bars, long, short, layers, left) if bars else ()
        if moves is None:
            return None
        found.append(moves)
    return Barred(way, found[2], found[1], found[0])


def _bars(demand: Counts, grid: Grid, sheets: int, layers: int, below: int) -> Iterator[Bars]:
    hundreds, all_tens, ones = demand
    for division, turned, breadth, room in _divisions(grid):
        bars = sheets * division.panels
        start = division.strokes(sheets, layers)
        for tens in sorted({0, min(all_tens, hundreds * (breadth - 10))}):
            strip_tens = all_tens - tens
            need = max(-(-strip_tens // (breadth // 10)), -(-(10 * strip_tens + ones) // breadth))
            cost = start + growth(hundreds, hundreds + tens, layers)
            for strips in range(need, need + layers + 1) if need else (0,):
                least = max(-(-(10 * hundreds + strips) // bars), -(-hundreds // bars) * 10)
                if least > room or bars > hundreds + strips:
                    continue
                total = cost + growth(bars, hundreds + strips, layers)
                total += growth(strips, strip_tens + ones, layers) if strips else 0
                if total < below:
                    for length in sorted({least, room}):
                        yield Bars(
                            total, start, division, turned, breadth, length, bars, strips, tens
                        )


def _divisions(grid: Grid) -> Iterator[tuple[Division, bool, int, int]]:
    """Yield divisions into one row of bars: (division, turned, breadth, most length)."""
    for halved_x in (False, True):
        for halved_y in (False, True):
            across, down = Division(halved_x, halved_y, 1, 1).room(grid)
            for turned, over, length in ((False, across, down), (True, down, across)):
                for many in range(over // 10, 0, -1):
                    columns, rows = (1, many) if turned else (many, 1)
                    division = Division(halved_x, halved_y, columns, rows)
                    for breadth in range(10, over // many + 1):
                        yield division, turned, breadth, length


@dataclass(slots=True, eq=False)
class _Bar:
    """A bar in hand while the moves are replayed; cut at ``at`` if that is not 0."""

    length: int
    at: int = 0
    halves: tuple["_Bar", ...] = ()
    across: "_Bar | None" = None  # the same part, to be cut on the other way
    kept: str = ""


@dataclass(slots=True)
class _Hand:
    """The bars in hand by length."""

    bars: dict[int, list[_Bar]] = field(default_factory=dict)

    def add(self, bar: _Bar) -> _Bar:
        self.bars.setdefault(bar.length, []).append(bar)
        return bar

    def replay(self, moves: tuple[BarMove, ...]) -> None:
        for move in moves:
            for bar in self.take(move.length, move.parts):
                bar.at = move.at
                bar.halves = (_Bar(move.at), _Bar(move.length - move.at))
                for half in bar.halves:
                    self.add(half)

    def take(self, length: int, count: int) -> list[_Bar]:
        """Take ``count`` bars of ``length`` out of the hand."""
        have = self.bars.get(length, [])
        self.bars[length] = have[count:]
        return have[:count]

    def keep(self, length: int, count: int, what: str) -> None:
        """Name ``count`` bars of ``length``."""
        for bar in self.take(length, count):
            bar.kept = what


def barred_sheets(way: Barred, demand: Counts, grid: Grid, sheets: int, builder: Builder) -> Sheets:
    """Return the trees of ``way``."""
    bars, (hundreds, tens, ones) = way.bars, demand
    hand = _Hand()
    roots = [hand.add(_Bar(bars.length)) for _ in range(bars.bars)]
    hand.replay(way.first)
    ends = _turned(hand.take(10, hundreds), bars.breadth, way.ends)
    ends.keep(10, hundreds, "hundreds")
    ends.keep(1, bars.tens, "tens")
    strips = _turned(hand.take(1, bars.strips), bars.breadth, way.strips)
    strips.keep(10, tens - bars.tens, "tens")
    strips.keep(1, ones, "ones")
    panels = [_part(root, bars.breadth, bars.turned, builder) for root in roots]
    along, over = bars.length, bars.breadth
    size = (along, over) if bars.turned else (over, along)
    made: Sheets = []
    per_sheet = bars.division.panels
    for i in range(sheets):
        mine = panels[i * per_sheet : (i + 1) * per_sheet]
        if not any(mine):
            return []
        made.append((1, panelled(grid, bars.division, *size, mine)))
    return made


def _turned(bars: list[_Bar], breadth: int, moves: tuple[BarMove, ...]) -> _Hand:
    """Return the hand after ``moves`` on ``bars`` laid across, ``breadth`` long."""
    hand = _Hand()
    for bar in bars:
        bar.across = hand.add(_Bar(breadth))
    hand.replay(moves)
    return hand


def _part(bar: _Bar, over: int, turned: bool, builder: Builder) -> Part | None:
    """Return the part of a bar ``over`` units wide, or None if nothing of it is kept."""
    if bar.across:
        return _part(bar.across, bar.length, not turned, builder)
    if bar.halves:
        parts = [_part(half, over, turned, builder) for half in bar.halves]
        if not any(parts):
            return None
        first, second = (
            part or _leaf(builder, OFFCUT, half.length, over, turned)
            for part, half in zip(parts, bar.halves, strict=True)
        )
        return join("x" if turned else "y", first, second)
    return _leaf(builder, bar.kept, bar.length, over, turned) if bar.kept else None


def _leaf(builder: Builder, what: str, along: int, over: int, turned: bool) -> Part:
    """Return a leaf ``along`` a bar and ``over`` it, in units."""
    return builder.leaf(what, along, over) if turned else builder.leaf(what, over, along)
