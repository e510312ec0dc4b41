"""Turns a bound on strokes into a higher one, where a search shows that it cannot be met.

:mod:`kitbuilder.sheet.bound` counts parts and edges. Few sheets in a stack ask for more: a stroke
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
for all pieces (:func:`kitbuilder.sheet.grid.holds`); what is more than room must be dropped.

**When a state fails.** Every outline that is no piece asks for a stroke of its own; ones come out
of strips one wide, two at most from each part; and the cuts still to do (see ``bound``) are done
no faster than the outlines in hand, halved or joined by others, allow for two strokes, and K parts
a stroke after that.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from kitbuilder.sheet.bound import LARGEST_OPENING, Margins, by_doubling, strokes_from
from kitbuilder.sheet.cut_ways import Choice, Part, Parts, choices, each, turned
from kitbuilder.sheet.grid import Counts, Grid, holds

Outline = tuple[int, int]
Class = tuple[int, int, tuple[tuple[Part, int], ...]]
State = tuple[Class, ...]
"""The parts of each outline, the largest outline first."""

EFFORT = 25_000  # cuts tried
MOST_PIECES = 80  # with more, a stroke less is lost among them
_PIECES = {(10, 10): 0, (1, 10): 1, (1, 1): 2}


def raised(bound: int, strokes: int, demand: Counts, grid: Grid, sheets: int, layers: int) -> int:
    """Return a number that no plan's strokes go below: ``bound``, or one more.

    ``strokes`` are those of a plan. The search may take a second, so it is made only where they
    are more than 1.3 times the bound, on fewer sheets than a stack holds.
    """
    edges = (grid.x, grid.right, grid.y, grid.bottom)
    crooked = (not any(edges[:2]) and grid.trims[0]) or (not any(edges[2:]) and grid.trims[1])
    searched = sheets < layers <= LARGEST_OPENING and sum(demand) <= MOST_PIECES
    if 10 * strokes <= 13 * bound or not searched or crooked:
        return bound
    return bound + _Search(demand, grid, sheets, layers).fails(bound)


class _TooLongError(Exception):
    """The search has tried as many cuts as it may."""


def _state(classes: dict[Outline, Parts]) -> State:
    found: list[Class] = []
    for (x, y), parts in classes.items():
        if x == y:
            alike: Parts = Counter()
            for part, count in parts.items():
                alike[min(part, turned(part))] += count
            parts = alike
        found.append((x, y, tuple(sorted(parts.items()))))
    return tuple(sorted(found, key=lambda one: (-one[0] * one[1], one)))


@dataclass(slots=True)
class _Search:
    """A search whether a number of strokes can be enough."""

    demand: Counts
    grid: Grid
    sheets: int
    layers: int
    spent: int = 0
    failed: set[tuple[State, int]] = field(default_factory=set)
    edge: int = 0
    full: dict[int, int] = field(default_factory=dict)  # label of a sheet's side: units to use
    rooms: dict[tuple[int, int, Part], Counts | None] = field(default_factory=dict)

    def fails(self, strokes: int) -> bool:
        """Say whether so many strokes are surely too few."""
        grid = self.grid
        margin = min((m for m in (grid.x, grid.right, grid.y, grid.bottom) if m), default=0)
        self.edge = -(-margin // grid.unit)
        sides = []
        for size, edges in zip((grid.width, grid.height), grid.trims, strict=True):
            units = (size - edges * margin) // grid.unit
            label = (size - margin) // grid.unit + self.edge if edges else units
            self.full[label] = max(units, self.full.get(label, 0))
            sides.append((label, edges))
        (x, across), (y, down) = sorted(sides)
        start = _state({(x, y): Counter({(across, 0, down, 0): self.sheets})})
        try:
            return not self._enough(start, strokes)
        except _TooLongError:
            return False

    def _enough(self, state: State, left: int) -> bool:
        if all(not any(part) for *_, parts in state for part, _ in parts):
            have = {(x, y): count for x, y, ((_, count),) in state}
            if have == {o: self.demand[k] for o, k in _PIECES.items() if self.demand[k]}:
                return True
        if not left or (state, left) in self.failed:
            return False
        for i, (x, y, parts) in enumerate(state):
            others = state[:i] + state[i + 1 :]
            for after in self._after((x, y, parts), others, left - 1):
                if self._enough(after, left - 1):
                    return True
            if (x, y) not in _PIECES or any(any(part) for part, _ in parts):
                break  # these cannot stay as they are
        self.failed.add((state, left))
        return False

    def _after(self, cut: Class, others: State, left: int) -> Iterator[State]:
        """Yield what one stroke through parts of one outline can leave in hand."""
        x, y, all_parts = cut
        hand = [(part, count) for *_, parts in (*others, cut) for part, count in parts]
        work = sum(self.demand) + sum((sum(part) - 1) * count for part, count in hand)
        room = self._room(others)
        loose = [part for *_, parts in others for part in each(parts)]
        for axis in (0, 1):
            if axis and x == y and all(part == turned(part) for part, _ in all_parts):
                return
            label, other = (y, x) if axis else (x, y)
            parts = [(turned(part) if axis else part, count) for part, count in all_parts]
            for chosen in choices(parts, work - self.layers * left, self.layers):
                self.spent += 1
                if self.spent > EFFORT:
                    raise _TooLongError
                halves: tuple[Parts, Parts, Parts] = (Counter(), Counter(), Counter())
                for part, way, count in chosen:
                    for kept, edges in zip(halves, (way or (None, None))[:2], strict=False):
                        if edges:
                            kept[edges + part[2:]] += count
                    if not way:
                        halves[2][part] += count
                now = [*loose, *(part for kept in halves for part in each(kept.items()))]
                margins = sorted(_margins(part) for part in now)
                if strokes_from(tuple(margins), sum(self.demand), self.layers) > left:
                    continue
                for one, two in self._places(label, chosen):
                    self.spent += 1
                    made = tuple(zip((one, two, label), halves, strict=True))
                    if self._has_room(room, made, other):
                        state = _joined(others, made, other)
                        if not self._too_late(state, left):
                            yield state

    def _places(self, label: int, choices: Sequence[Choice]) -> Iterator[tuple[int, int]]:
        """Yield the labels of both halves, wherever these parts may be cut."""
        cut = [(part, way) for part, way, _ in choices if way]
        sums = {label} if any(part[0] < 2 for part, _ in cut) else set()
        if any(part[0] == 2 for part, _ in cut):
            whole = self.full[label] + 2 * self.edge
            sums |= {whole, whole - 1}
        if any(part[1] or any(e and e[1] for e in way[:2]) for part, way in cut):
            sums |= {label + more for more in range(-2, 3)}
        for total in sorted(sums):
            for one in range(1, total // 2 + 1):
                yield one, total - one

    def _room(self, state: State) -> list[int]:
        room = [0, 0, 0]
        for x, y, parts in state:
            for part, count in parts:
                for k, many in enumerate(self._holds(x, y, part) or (0, 0, 0)):
                    room[k] += count * many
        return room

    def _has_room(self, room: Sequence[int], made: Sequence[tuple[int, Parts]], other: int) -> bool:
        h, t, o = room
        for label, parts in made:
            for part, count in parts.items():
                held = self._holds(label, other, part)
                if held is None:
                    return False
                h, t, o = h + count * held[0], t + count * held[1], o + count * held[2]
        hundreds, tens, ones = self.demand
        return (
            h >= hundreds and t >= 10 * hundreds + tens and o >= 100 * hundreds + 10 * tens + ones
        )

    def _holds(self, x: int, y: int, part: Part) -> Counts | None:
        """Return what a part has room for, or None for one in which nothing lies."""
        key = (x, y, part)
        if key not in self.rooms:
            usable = [
                (label, label - self.edge, self.full.get(label, 0))[edges]
                for label, edges in ((x, part[0]), (y, part[2]))
            ]
            self.rooms[key] = holds(*usable) if min(usable) > 0 else None
        return self.rooms[key]

    def _too_late(self, state: State, left: int) -> bool:
        """Say whether ``left`` strokes surely cannot make pieces of a state."""
        kinds = wide = edges = count = 0
        lacking = list(self.demand)
        for x, y, parts in state:
            whole = sum(many for part, many in parts if not any(part))
            open_ = sum(many for _, many in parts) - whole
            count += whole + open_
            edges += sum(sum(part) * many for part, many in parts)
            if (piece := _PIECES.get((x, y))) is None:
                open_ += whole
            else:
                open_ += max(0, whole - lacking[piece])
                lacking[piece] -= whole
            strokes = -(-open_ // self.layers)
            kinds += strokes
            wide += strokes if x > 1 else 0
        if lacking[2] < 0 or max(kinds, wide - (-lacking[2] // (2 * self.layers))) > left:
            return True
        work = sum(self.demand) + edges - count
        if not edges and self._room(state)[2] > sum(
            100 // 10**k * n for k, n in enumerate(self.demand)
        ):
            work += 1  # something must be dropped
        return self._soonest(state, count, work) > left

    def _soonest(self, state: State, count: int, work: int) -> int:
        """Return strokes that ``work`` cuts take at least."""
        if work <= 0:
            return 0
        sizes = [(x, y, sum(many for _, many in parts)) for x, y, parts in state]
        least = work
        for i, (x, y, first) in enumerate(sizes):
            second = 2 * first
            for one, two, many in (*sizes[:i], *sizes[i + 1 :]):
                second = max(second, many + _joining(x, y, first, one, two))
            left, parts, strokes = work, count, 0
            for limit in (first, second):
                if left > 0:
                    step = min(parts, self.layers, limit)
                    left, parts, strokes = left - step, parts + step, strokes + 1
            strokes += by_doubling(left, parts, self.layers)
            least = min(least, strokes)
            if (x, y) not in _PIECES or any(any(part) for part, _ in state[i][2]):
                break
        return least


def _margins(part: Part) -> Margins:
    across, down = part[0] + part[1], part[2] + part[3]
    return min(across, down), max(across, down)


def _joining(x: int, y: int, cut: int, one: int, two: int) -> int:
    """Return how many halves of ``cut`` parts may get the outline ``one`` by ``two``."""
    joining = 0
    for kept, shortened in ((x, y), (y, x)):
        for same, short in ((one, two), (two, one)):
            if kept == same and short < shortened:
                joining = max(joining, cut * (1 + (abs(shortened - 2 * short) <= 2)))
    return joining


def _joined(others: State, made: Sequence[tuple[int, Parts]], other: int) -> State:
    classes: dict[Outline, Parts] = {(x, y): Counter(dict(parts)) for x, y, parts in others}
    for label, parts in made:
        for part, count in parts.items():
            outline = (label, other) if label <= other else (other, label)
            kept = part if label <= other else turned(part)
            classes.setdefault(outline, Counter())[kept] += count
    return _state(classes)
