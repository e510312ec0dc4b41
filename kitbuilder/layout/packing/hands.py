"""Turns a demand on a few sheets into strokes, by following the parts in hand.

On fewer sheets than a stack holds, panels that are all alike leave much over. But the parts in
hand are few. A hand is how many parts there are of each outline; every stroke through as many
parts of one outline as the demand allows is tried on it, and after each stroke the most
promising hands are kept (a beam search). The sheets are trimmed first, halved or not.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache
from itertools import product
from typing import NamedTuple

from kitbuilder.layout.packing.bar_search import short
from kitbuilder.layout.packing.grid import PIECES, Counts, Grid, holds, needs
from kitbuilder.layout.packing.lower_bound import by_doubling
from kitbuilder.layout.packing.panels import Division

Outline = tuple[int, int]
"""The short and the long side of a part, in units."""

EFFORT = 5000  # pieces times hands kept after each stroke, about
LOOSE = 1.12  # a first panel has room for so many times the pieces at most, or is all there is


class Cut(NamedTuple):
    """A cut of a part: ``side`` of its ``outline`` is cut at ``at``, which leaves two halves.

    So much less room for hundreds, and for tens, is in them: ``lost``.
    """

    outline: Outline
    side: int
    at: int
    halves: tuple[Outline, Outline]
    lost: tuple[int, int]


class Move(NamedTuple):
    """One stroke: a cut through so many parts."""

    cut: Cut
    parts: int


@dataclass(frozen=True, slots=True)
class Followed:
    """Sheets that fall into panels of ``across`` by ``down`` units, and how these are cut."""

    division: Division
    across: int
    down: int
    moves: tuple[Move, ...] = ()


def followed(demand: Counts, grid: Grid, sheets: int, layers: int, most: int) -> Followed | None:
    """Return a way to cut ``demand`` out of ``sheets`` in ``most`` strokes at most, or None.

    Few strokes, not proven to be fewest.
    """
    search = _Search(demand, layers)
    begun: dict[int, list[_Hand]] = {}
    for way in _starts(demand, grid, sheets):
        strokes = way.division.strokes(sheets, layers)
        begun.setdefault(strokes, []).append(search.begin(way, sheets * way.division.panels))
    hands: list[_Hand] = []
    for strokes in range(min(begun, default=most + 1), most + 1):
        hands += begun.get(strokes, [])
        for hand in hands:
            if search.is_done(hand):
                return hand.way
        hands = search.after(hands, most - strokes - 1)
    return None


def _starts(demand: Counts, grid: Grid, sheets: int) -> Iterator[Followed]:
    hundreds, strips, area = needs(demand)
    for halved_x, halved_y in product((False, True), repeat=2):
        division = Division(halved_x, halved_y, 1, 1)
        most = division.room(grid)
        for size in product(range(1, most[0] + 1), range(1, most[1] + 1)):
            h, t, o = (sheets * division.panels * room for room in holds(*size))
            room = h >= hundreds and t >= strips and o >= area
            if room and (size == most or o <= LOOSE * area):
                yield Followed(division, *size)


Sums = tuple[float, int, int]
"""Of parts: about how many strokes they leave to do, how many may hold a piece, their units."""


@dataclass(frozen=True, slots=True)
class _Hand:
    """The parts in hand, the way to them, and their sums."""

    parts: dict[Outline, int]
    way: Followed
    sums: Sums


@dataclass(slots=True)
class _Search:
    """A search for few strokes that cut a demand."""

    demand: Counts
    layers: int
    area: int = 0
    least: list[int] = field(default_factory=list)  # strokes, by how many parts may hold a piece
    known: dict[tuple[Outline, int], Sums] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.area = needs(self.demand)[2]
        pieces = sum(self.demand)
        self.least = [by_doubling(pieces - n, max(n, 1), self.layers) for n in range(pieces)]

    def begin(self, way: Followed, panels: int) -> _Hand:
        """Return the hand with so many panels."""
        outline = min(way.across, way.down), max(way.across, way.down)
        return _Hand({outline: panels}, way, self._sums(outline, panels))

    def is_done(self, hand: _Hand) -> bool:
        """Say whether a hand has every piece."""
        return all(hand.parts.get(outline, 0) >= self.demand[k] for outline, k in PIECES.items())

    def after(self, hands: Sequence[_Hand], left: int) -> list[_Hand]:
        """Return the most promising hands one stroke later, where ``left`` may be enough."""
        tried = sorted(
            (self._about(sums), i, move, sums)
            for i, hand in enumerate(hands)
            for move, sums in self._tried(hand)
            if sums[1] >= len(self.least) or self.least[sums[1]] <= left
        )
        kept: dict[frozenset[tuple[Outline, int]], _Hand] = {}
        for _, i, move, sums in tried:
            parts = self._moved(hands[i].parts, move)
            way = hands[i].way
            hand = _Hand(parts, replace(way, moves=(*way.moves, move)), sums)
            kept.setdefault(frozenset(parts.items()), hand)
            if len(kept) >= max(4, EFFORT // sum(self.demand)):
                break
        return list(kept.values())

    def _tried(self, hand: _Hand) -> Iterator[tuple[Move, Sums]]:
        """Yield the moves that leave room for all pieces, and the sums after each."""
        have = hand.parts
        for move in self._moves(have):
            cut, parts = move
            one, two = cut.halves
            more = [(cut.outline, -parts), (one, parts), (two, parts)]
            if one == two:
                more[1:] = [(one, 2 * parts)]
            left, useful, area = hand.sums
            for outline, change in more:
                count = have.get(outline, 0)
                before, after = self._sums(outline, count), self._sums(outline, count + change)
                left += after[0] - before[0]
                useful += after[1] - before[1]
                area += after[2] - before[2]
            if area >= self.area:
                yield move, (left, useful, area)

    def _moves(self, have: dict[Outline, int]) -> Iterator[Move]:
        """Yield strokes through as many parts as leave room for the hundreds and tens."""
        hundreds, strips, _ = needs(self.demand)
        rooms = [(holds(*outline), many) for outline, many in have.items()]
        spare = (
            sum(room[0] * many for room, many in rooms) - hundreds,
            sum(room[1] * many for room, many in rooms) - strips,
        )
        for outline, many in have.items():
            stacks = {min(many, self.layers)}
            if (piece := PIECES.get(outline)) is not None and many > self.demand[piece]:
                stacks.add(min(many - self.demand[piece], self.layers))
            for cut in _cuts(outline):
                for parts in stacks:
                    for lost, over in zip(cut.lost, spare, strict=True):
                        if lost * parts > over:
                            parts = over // lost
                    if parts:
                        yield Move(cut, parts)

    def _moved(self, have: dict[Outline, int], move: Move) -> dict[Outline, int]:
        parts = dict(have)
        parts[move.cut.outline] -= move.parts
        for half in move.cut.halves:
            parts[half] = parts.get(half, 0) + move.parts
        parts[1, 1] = min(parts.get((1, 1), 0), self.demand[2])  # no more are of use
        return {outline: many for outline, many in parts.items() if many}

    def _about(self, sums: Sums) -> float:
        waste = sums[2] - self.area
        return sums[0] + (waste > 0) + waste / 100

    def _sums(self, outline: Outline, count: int) -> Sums:
        key = outline, count
        if key not in self.known:
            self.known[key] = self._reckoned(outline, count)
        return self.known[key]

    def _reckoned(self, outline: Outline, count: int) -> Sums:
        """Return the sums of so many parts; the weights are those that did best in trials."""
        if not count:
            return 0.0, 0, 0
        units = outline[0] * outline[1] * count
        if (piece := PIECES.get(outline)) is None:
            strokes = -(-count // self.layers)
            return 2 * short(count, self.layers) + (1 + strokes) / 2 - count / 4, count, units
        done = min(count, self.demand[piece])
        if outline == (1, 1):
            return -done / 2, done, done
        left = short(count - done, self.layers) / 2 - count / 4 - (0.75, 0.5)[piece] * done
        return left, count, units


@lru_cache(maxsize=4096)
def _cuts(outline: Outline) -> tuple[Cut, ...]:
    """Return every cut of a part at a whole unit, one of each pair of alike ones."""
    found = []
    hundreds, strips, _ = holds(*outline)
    for side, other in dict.fromkeys((outline, outline[::-1])):
        for at in range(1, side // 2 + 1):
            one, two = ((min(n, other), max(n, other)) for n in (at, side - at))
            (h, t, _), (h2, t2, _) = holds(*one), holds(*two)
            lost = hundreds - h - h2, strips - t - t2
            found.append(Cut(outline, side, at, (one, two), lost))
    return tuple(found)
