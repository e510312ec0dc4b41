"""Turns a bound on strokes into a higher one, where a search shows that it cannot be met.

``packing.lower_bound`` counts parts and edges. Few sheets in a stack ask for more: a stroke
goes through congruent parts alone, and four congruent quarters of a sheet may have no room for its
hundreds. So every way to begin is searched, and followed until it has failed.

**What a state is.** The parts in hand that hold a piece, by outline. A side has a label, a whole
number of units, such that equal lengths have equal labels. Where the paper's edges are cut off it,
the label is its length. Where one is left on, it is the whole units that can be used and E more; E
is the page's smallest margin in units, rounded up, and every margin is taken to be that small.
A side may also end in the middle of a unit; such an end must be cut off too, and the label may
then be one more than the whole units in it. A sheet's own side has the label its length has.

**What a stroke is.** One straight cut through up to K parts of one outline, each turned as one
likes, each half kept or dropped. Outlines are worked off by falling area: all parts of an
outline are in hand by then, and a part not cut then stays as it is. What is kept must have room
for all pieces (``grid.holds``); what is more than room must be dropped.

**When a state fails.** ``packing.in_hand`` says so, or every stroke from it fails.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from kitbuilder.layout.packing.cut_ways import Halves, Parts, halves, margins, turned
from kitbuilder.layout.packing.grid import PIECES, Counts, Grid, holds, needs
from kitbuilder.layout.packing.in_hand import Class, State, joined, most_cuts, never, too_late
from kitbuilder.layout.packing.lower_bound import LARGEST_OPENING, strokes_from

EFFORT = 90_000  # cuts tried, and hands looked at, each of them counting as five cuts
NOTHING = (-1_000_000,) * 3  # the room of a part in which nothing lies: it is not kept
MOST_PIECES = 80  # with more, a stroke less is lost among them


def raised(bound: int, strokes: int, demand: Counts, grid: Grid, sheets: int, layers: int) -> int:
    """Return a number that no plan's strokes go below: ``bound``, or more.

    ``strokes`` are those of a plan. The search may take a second, or three where there are
    four strokes to gain, so it is made only where they are more than 1.34 times the bound, on
    fewer sheets than a stack holds.
    """
    edges = (grid.x, grid.right, grid.y, grid.bottom)
    crooked = (not any(edges[:2]) and grid.trims[0]) or (not any(edges[2:]) and grid.trims[1])
    searched = sheets < layers <= LARGEST_OPENING and sum(demand) <= MOST_PIECES
    if not searched or crooked:
        return bound
    search = _Search(demand, grid, sheets, layers)
    while 100 * strokes > 134 * bound:
        search.effort = EFFORT if strokes - bound < 4 else 5 * EFFORT
        if not search.fails(bound):
            break
        bound += 1
    return bound


class _TooLongError(Exception):
    """The search has tried as many cuts as it may."""


@dataclass(slots=True)
class _Search:
    """A search whether a number of strokes can be enough."""

    demand: Counts
    grid: Grid
    sheets: int
    layers: int
    effort: int = EFFORT
    spent: int = 0
    failed: set[tuple[State, int]] = field(default_factory=set)
    needs: Counts = (0, 0, 0)
    edge: int = 0
    full: dict[int, int] = field(default_factory=dict)  # label of a sheet's side: units to use
    rooms: "dict[tuple[Parts, int], _Rooms]" = field(default_factory=dict)

    def fails(self, strokes: int) -> bool:
        """Say whether so many strokes are surely too few."""
        grid, self.needs = self.grid, needs(self.demand)
        margin = min((m for m in (grid.x, grid.right, grid.y, grid.bottom) if m), default=0)
        self.edge = -(-margin // grid.unit)
        sides = []
        for size, edges in zip((grid.width, grid.height), grid.trims, strict=True):
            units = (size - edges * margin) // grid.unit
            label = (size - margin) // grid.unit + self.edge if edges else units
            self.full[label] = max(units, self.full.get(label, 0))
            sides.append((label, edges))
        (x, across), (y, down) = sorted(sides)
        start = joined((), [(x, y, (((across, 0, down, 0), self.sheets),))])
        try:
            return not self._enough(start, strokes)
        except _TooLongError:
            return False

    def _enough(self, state: State, left: int) -> bool:
        if all(not any(part) for *_, parts in state for part, _ in parts):
            have = {(x, y): count for x, y, ((_, count),) in state}
            if have == {o: self.demand[k] for o, k in PIECES.items() if self.demand[k]}:
                return True
        if not left or (state, left) in self.failed:
            return False
        for i, (x, y, parts) in enumerate(state):
            others = state[:i] + state[i + 1 :]
            for after in self._after((x, y, parts), others, left - 1):
                if self._enough(after, left - 1):
                    return True
            if (x, y) not in PIECES or any(any(part) for part, _ in parts):
                break  # these cannot stay as they are
        self.failed.add((state, left))
        return False

    def _after(self, cut: Class, others: State, left: int) -> Iterator[State]:
        """Yield what one stroke through parts of one outline can leave in hand."""
        x, y, parts = cut
        hand = [pair for *_, kinds in (*others, cut) for pair in kinds]
        count = sum(many for _, many in hand)
        work = sum(self.demand) + sum((sum(part) - 1) * many for part, many in hand)
        new = min(self.layers, sum(many for _, many in parts))
        gain = work - most_cuts(count + new, self.layers, left)
        loose = tuple(margins(pair for *_, kinds in others for pair in kinds))
        h, t, o = map(
            sum, zip((0, 0, 0), *(self._rooms(p, b)[a] for a, b, p in others), strict=True)
        )
        for axis in (0, 1):
            if axis and x == y and all(part == turned(part) for part, _ in parts):
                return
            label, other = (y, x) if axis else (x, y)
            alike = {label, *_lengths(other, others)}
            lying = tuple((turned(part), many) for part, many in parts) if axis else parts
            for made in halves(lying, gain, self.layers):
                self._spend()
                edges = tuple(sorted(loose + made.margins))
                if strokes_from(edges, sum(self.demand), self.layers) > left:
                    continue
                work = sum(self.demand) + sum(map(sum, edges)) - len(edges)
                lost = never(others, made, (x, y), work, self.demand, self.layers, left)
                rooms = [self._rooms(kinds, other) for kinds in made.made]
                for one, two in self._places(label, made, alike if lost else None):
                    self._spend()
                    held = self._held((h, t, o), rooms[0][one], rooms[1][two], rooms[2][label])
                    if held:
                        self._spend(5)
                        laid = zip((one, two, label), (other,) * 3, made.made, strict=True)
                        state = joined(others, laid)
                        if not too_late(state, held, self.demand, self.layers, left):
                            yield state

    def _spend(self, cuts: int = 1) -> None:
        self.spent += cuts
        if self.spent > self.effort:
            raise _TooLongError

    def _places(
        self, label: int, made: Halves, alike: set[int] | None
    ) -> Iterator[tuple[int, int]]:
        """Yield the labels of both halves, wherever these parts may be cut.

        If ``alike`` is given, only where one is among them, or both are the same.
        """
        sums = {label} if made.papers & {0, 1} else set()
        if 2 in made.papers:
            whole = self.full[label] + 2 * self.edge
            sums |= {whole, whole - 1}
        if made.within:
            sums |= {label + more for more in range(-2, 3)}
        for total in sorted(sums):
            half = total // 2
            ones: Iterable[int] = range(1, half + 1)
            if alike is not None:
                near = {min(one, total - one) for one in alike if 0 < one < total}
                ones = sorted(near if total % 2 else {*near, half})
            for one in ones:
                yield one, total - one

    def _rooms(self, parts: Parts, other: int) -> "_Rooms":
        """Return what ``parts`` with one side ``other`` have room for, by their other side."""
        key = parts, other
        if key not in self.rooms:
            self.rooms[key] = _Rooms(parts, other, self.edge, self.full)
        return self.rooms[key]

    def _held(self, *rooms: Counts) -> Counts | None:
        """Return the sum of ``rooms`` if it is enough for all pieces."""
        h = t = o = 0
        for room in rooms:
            h, t, o = h + room[0], t + room[1], o + room[2]
        hundreds, strips, units = self.needs
        return (h, t, o) if h >= hundreds and t >= strips and o >= units else None


class _Rooms(dict[int, Counts]):
    """What parts have room for by the label of one side, once it is asked for."""

    def __init__(self, parts: Parts, other: int, edge: int, full: dict[int, int]) -> None:
        super().__init__()
        self.parts, self.other, self.edge, self.full = parts, other, edge, full

    def __missing__(self, label: int) -> Counts:
        h = t = o = 0
        for part, count in self.parts:
            usable = [
                (length, length - self.edge, self.full.get(length, 0))[edges]
                for length, edges in ((label, part[0]), (self.other, part[2]))
            ]
            one = holds(*usable) if min(usable) > 0 else NOTHING
            h, t, o = h + count * one[0], t + count * one[1], o + count * one[2]
        self[label] = h, t, o
        return h, t, o


def _lengths(other: int, classes: State) -> Iterator[int]:
    """Yield the lengths of parts in hand, and of pieces, that are ``other`` wide."""
    for x, y in (*PIECES, *((x, y) for x, y, _ in classes)):
        if x == other:
            yield y
        if y == other:
            yield x
