"""What a picture of the mat needs: the most pieces, numbers and names of all scenes of a page."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import zip_longest
from typing import NamedTuple

from kitbuilder.design.style import Style
from kitbuilder.kit.lesson.mat_scenes import MatScene, Pile, ZoneScene
from kitbuilder.kit.mat_needs import Arrangement, Role, bands
from kitbuilder.layout.parts.settings import settings
from kitbuilder.layout.parts.words import wide
from kitbuilder.layout.picture.frame_records import (
    PAD,
    Air,
    Column,
    Heights,
    Manner,
    MatFrame,
    ZoneFrame,
)
from kitbuilder.layout.picture.piles import extent, steps

UNDER_NAME = 1.9
"""Clear space in mm above a column's pieces where no name of it stands."""

LANE = 6.4
"""Room in mm for arrows at the right of the ones."""

BETWEEN = 2.5
"""Space in mm between zones that stand side by side."""

_LOW_GAP, _NAMELESS = 1.4, 0.4

_BY, _RING = 2.2, 1.5
# Between tens and the number beside them, and below pieces that have none under them, in mm; how
# much further from hundreds it is, where a ring goes round one.

_EDGE = 1.4
# Round arrows between rows of zones, in mm.

_MOST, _STEP = 20.0, 20.0 / 2**30
# The most that a one may be wide, and in which steps its width is reckoned, in mm.


class _Need(NamedTuple):
    """What a column needs: its pieces in units, what is beside them and the least of all in mm."""

    pieces: float
    beside: float
    least: float

    def at(self, unit: float) -> float:
        """Return the width in mm where a one is ``unit`` mm wide."""
        return max(self.pieces * unit + self.beside, self.least)


def _fullest(zones: Iterable[ZoneScene]) -> tuple[int, ...]:
    """Return for how many pieces each column of a zone has room at all its moments."""
    columns = zip(*(zone.piles for zone in zones), strict=True)
    return tuple(max(steps(pile, place) for pile in of) for place, of in enumerate(columns))


def _number_widths(scenes: Iterable[MatScene], every: bool, style: Style) -> tuple[float, ...]:
    """Return the width in mm of the widest count of each column: of what is said, or ``every``."""
    digits = settings(style.look).digits
    columns = zip_longest(*(zone.piles for scene in scenes for zone in scene.zones))
    said = ({_number_said(pile, every) for pile in piles if pile} for piles in columns)
    return tuple(max(wide(text, digits) for text in some) for some in said)


def _number_said(pile: Pile, every: bool) -> str:
    """Return what is said of the count of ``pile``: what it was, where that is told, and is.

    What it was between may be left out, but where ``every`` number is to stand.
    """
    if pile.count is None:
        return ""
    said = (pile.before, pile.between if every else None, pile.count)
    return " ".join(str(number) for number in said if number is not None)


class _Band(NamedTuple):
    """Zones side by side, so many mm ``below`` those before, ``named`` with heads, or low.

    They are as high as the highest of ``sizes``: each so many units, and so many mm.
    """

    row: tuple[Role, ...]
    below: float
    named: bool
    low: bool
    sizes: tuple[tuple[float, float], ...]

    def high(self, unit: float) -> float:
        """Return how high the zones are in mm where a one is ``unit`` mm wide."""
        return max([units * unit + more for units, more in self.sizes])


def _height(bands: Iterable[_Band], unit: float) -> float:
    return sum([band.below + band.high(unit) for band in bands])


@dataclass(frozen=True, eq=False)
class Most:
    """The most pieces that each column of each zone shows in any scene.

    ``numbers`` are the widths in mm of the widest count that is said under each column, ones
    first; ``named`` is the name of a zone without pieces: it stands ``over`` that, or beside its
    number. With ``aside`` the number of tens, and of hundreds, stands at their right, as wide as
    ``beside``. Pieces are ``exchanged`` with the next larger into these columns, or out of them;
    ``asked`` if one is still a question.
    As many as ``crossing`` arrows go from zone to zone at once; one of them asks if some are
    ``wanted``. A zone with columns and pieces is ``tall`` units high or more.
    """

    arrangement: Arrangement
    columns: tuple[str, ...]
    counts: dict[Role, tuple[int, ...]]
    style: Style
    digits: frozenset[Role]
    numbers: tuple[float, ...]
    beside: tuple[float, ...]
    named: str
    names: dict[Role, tuple[str, ...]]
    manner: Manner
    aside: bool = False
    over: bool = False
    exchanged: frozenset[int] = frozenset()
    asked: bool = False
    crossing: int = 0
    wanted: bool = False
    tall: float = 10.0

    @classmethod
    def of(cls, scenes: Iterable[MatScene], manner: Manner, style: Style) -> "Most":
        """Return the most that ``scenes`` show, drawn in ``manner``."""
        every = tuple(scenes)
        zones: dict[Role, list[ZoneScene]] = {}
        for zone in (zone for scene in every for zone in scene.zones):
            zones.setdefault(zone.role, []).append(zone)
        counts = {role: _fullest(of) for role, of in zones.items()}
        low = (zone.name for zone in every[0].zones if not any(counts[zone.role]))
        counted = (
            role
            for role, of in zones.items()
            if any(pile.count is not None for one in of for pile in one.piles)
        )
        inside = [m for s in every for m in s.moves if m.source[0] == m.target[0]]
        return cls(
            every[0].arrangement,
            every[0].columns,
            counts,
            style,
            frozenset(counted if manner == "full" else ()),
            _number_widths(every, False, style),
            _number_widths(every, True, style),
            max(low, key=len, default=""),
            {role: tuple(one.name for one in of) for role, of in zones.items()},
            manner,
            exchanged=frozenset(min(m.source[1], m.target[1]) for m in inside),
            asked=any(m.asks for m in inside),
            wanted=any(m.asks for s in every for m in s.moves if m not in inside),
            crossing=max(sum(m.source[0] != m.target[0] for m in s.moves) for s in every),
        )

    @property
    def under(self) -> bool:
        """Say whether a second frame of ones stands under the first: no number stands there."""
        return len(self.columns) > 2 and not self.aside

    @cached_property
    def rows(self) -> tuple[tuple[Role, ...], ...]:
        """The zones that are shown, row by row."""
        every = (tuple(r for r in row if r in self.counts) for row in bands(self.arrangement))
        return tuple(row for row in every if row)

    @cached_property
    def _row_counts(self) -> list[list[tuple[int, ...]]]:
        """The counts that set the columns of each row: alone in a row, zones share theirs."""
        alone = [self.counts[some[0]] for some in self.rows if len(some) == 1]
        shared = [tuple(map(max, zip(*alone, (0,) * len(self.columns), strict=True)))]
        return [shared if len(r) == 1 else [self.counts[role] for role in r] for r in self.rows]

    @cached_property
    def _least_widths(self) -> list[list[list[float]]]:
        """The least width in mm of each column of each zone of each row."""
        places = range(len(self.columns))
        return [[[self._least(k, role) for k in places] for role in row] for row in self.rows]

    def _least(self, place: int, role: Role) -> float:
        """Return the least width in mm of a column: its name, or its numbers beside its arrow.

        In a bare zone its own name stands under the ones.
        """
        sets = settings(self.style.look)
        if self.manner != "full":
            label = max(wide(name, sets.least) for name in self.names[role]) + 2.4
            return label if place == 0 else 0.0
        numbers = self.numbers[place] + 3.0
        lane = max(LANE - 2, 0.8 * sets.digits.size) if place == 0 else 0.0
        low = 0.0
        if self.named and not self.over and place == len(self.columns) - 1:
            low = wide(self.named, sets.text) + 4.4 + wide("8", sets.digits)
        name = wide(self.columns[place], sets.least) + 0.425 * sets.least.size
        return max(name, numbers + lane, low)

    def _by(self, place: int) -> float:
        """Return the room in mm at the right of a pile for its number."""
        if place and self.aside:
            return self._off(place) + self.beside[place] + 2.8
        return 0.0

    def _off(self, place: int) -> float:
        """Return how far in mm the number beside a pile stands off that."""
        return _BY + (_RING if place > 1 and place - 1 in self.exchanged else 0.0)

    def _open(self, place: int, air: Air) -> float:
        """Return the room in mm at the left of a pile for the arrow of an exchange."""
        return air.opened if place in self.exchanged else 0.0

    def unit(self, width: float, air: Air) -> float:
        """Return the largest unit up to ``_MOST`` at which every row is no wider than ``width``.

        There is one: the frame holds. Widths grow faster and faster with the unit, so that each
        step from above ends above the one that is sought, or there.
        """
        unit = _MOST
        for row in self._needs(air):
            while (over := self._row_width(row, unit) - width) > _STEP:
                growing = (n.pieces for zone in row for n in zone if n.at(unit) > n.least)
                unit -= over / sum(growing)
        return unit // _STEP * _STEP

    def height(self, unit: float, air: Air) -> float:
        """Return how high the frame is at ``unit``."""
        return _height(self._bands(air), unit)

    def holds(self, unit: float, room: tuple[float, float], air: Air) -> bool:
        """Say whether ``room`` of a width and a height holds the frame at ``unit``."""
        across = all(self._row_width(row, unit) <= room[0] for row in self._needs(air))
        return across and self.height(unit, air) <= room[1]

    def lower(self, unit: float, high: float, air: Air) -> float:
        """Return the largest unit below ``unit`` at which the frame is no higher than ``high``."""
        low, every = 0.0, self._bands(air)
        for _ in range(16):
            middle = (low + unit) / 2
            fits = _height(every, middle) <= high
            low, unit = (middle, unit) if fits else (low, middle)
        return low

    def _row_width(self, row: Sequence[Sequence[_Need]], unit: float) -> float:
        return sum([n.at(unit) for zone in row for n in zone]) + BETWEEN * (len(row) - 1)

    def _needs(self, air: Air) -> Iterator[list[list[_Need]]]:
        """Yield for each row what the columns of each of its zones need."""
        beside = [
            2 * air.pad + (0.0 if place else LANE) + self._by(place) + self._open(place, air)
            for place in range(len(self.columns))
        ]
        for row, leasts in zip(self._row_counts, self._least_widths, strict=True):
            yield [
                [
                    _Need(
                        extent(place, count, under=self.under, gap=air.gap)[0],
                        beside[place],
                        least[place],
                    )
                    for place, count in enumerate(counts)
                ]
                for counts, least in zip(row, leasts, strict=True)
            ]

    def frame(self, unit: float, air: Air, width: float) -> MatFrame:
        """Return the frame at ``unit``, ``width`` mm wide."""
        zones: list[ZoneFrame] = []
        y = 0.0
        rows = zip(self._bands(air), self._needs(air), self._row_counts, strict=True)
        for band, needed, every in rows:
            row, below, named, low, _ = band
            y, high = y + below, band.high(unit)
            needs = [[n.at(unit) for n in zone] for zone in needed]
            spare = width - sum(map(sum, needs)) - BETWEEN * (len(row) - 1)
            x = 0.0
            for role, need, counts in zip(row, needs, every, strict=True):
                wider = [n + max(0.0, spare) / sum(map(len, needs)) for n in need]
                by = tuple((self._by(k), self._open(k, air)) for k in range(len(counts)))
                columns = self._columns(x, wider, counts, by, (unit, air))
                zones.append(ZoneFrame(role, x, y, sum(wider), high, columns, named, low))
                x += sum(wider) + BETWEEN
            y += high
        return MatFrame(
            unit,
            air.gap,
            self.under,
            width,
            y,
            tuple(zones),
            self._heights,
            self.manner,
            air.opened,
        )

    @cached_property
    def _heights(self) -> Heights:
        return Heights.of(self.style, self.manner)

    def _bands(self, air: Air) -> list[_Band]:
        """Return the rows of zones below each other."""
        found: list[_Band] = []
        rows, heights = self.rows, self._heights
        for number, row in enumerate(rows):
            full = self.manner == "full"
            bare = full and all(not any(self.counts[role]) for role in row)
            low = bare and not self.over
            has_name = any(any(self.names[role]) for role in row)
            below = _LOW_GAP if low else heights.name if has_name else _NAMELESS
            if number and max(len(row), len(rows[number - 1])) > 1:
                below += self._crossed(heights) + (1.5 if low else 0.0)
            named = full and (number == 0 or len(row) > 1) and not bare
            found.append(_Band(row, below, named, low, self._sizes(row, air, named)))
        return found

    def _crossed(self, heights: Heights) -> float:
        """Return the room in mm for arrows between rows of zones, and for a question on one."""
        asked = heights.question + 1.8 if self.wanted else 0.0
        return max(asked, self.crossing and _EDGE + self.crossing * heights.arrow)

    def _columns(
        self,
        x: float,
        widths: Sequence[float],
        counts: Sequence[int],
        by: Sequence[tuple[float, float]],
        drawn: tuple[float, Air],
    ) -> tuple[Column, ...]:
        """Return a zone's columns, ones first but at the right; piles in their middles.

        ``by`` is the room for a number beside each pile and an arrow before it, ``drawn`` the unit
        and its air.
        """
        found: list[Column] = []
        unit, air = drawn
        for place in range(len(widths) - 1, -1, -1):
            lane = LANE if place == 0 else 0.0
            pile = extent(place, counts[place], under=self.under, gap=air.gap)[0] * unit
            beside, opened = by[place]
            clear = (widths[place] - lane - pile - beside - opened) / 2
            start, end = x + opened + clear, x + widths[place]
            reach = start + pile + max(0.0, clear - PAD)
            number = (start + pile + self._off(place) + end - 0.6) / 2 if beside else (x + end) / 2
            found.append(Column(x, widths[place], start, number, reach))
            x += widths[place]
        return tuple(reversed(found))

    def _sizes(self, row: Sequence[Role], air: Air, named: bool) -> tuple[tuple[float, float], ...]:
        """Return how high the zones of ``row`` are at least: units, and mm more."""
        tall = max(
            extent(place, count, under=self.under, gap=air.gap)[1]
            for role in row
            for place, count in enumerate(self.counts[role])
        )
        heights = self._heights
        digits = heights.digits + 0.6
        if self.manner != "full":
            return ((max(tall, 10.0), heights.heads + digits),)
        if len(self.columns) > 1 and tall:
            tall = max(tall, self.tall)
        if not tall:
            return ((0.0, digits),)
        above = heights.heads if named else UNDER_NAME
        if not any(role in self.digits for role in row):
            return ((tall, above + 2.0),)
        if self.aside:  # ones are half as high: theirs stands below them
            ones = max(extent(0, self.counts[role][0], under=False)[1] for role in row)
            return ((tall, above + _BY), (ones, above + digits))
        return ((tall, above + digits),)
