"""The mat in a picture: its zones and columns, as wide and high as the scenes of a page need."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import product
from typing import Literal, NamedTuple

from kitbuilder.design.style import Style
from kitbuilder.frozen import frozen
from kitbuilder.kit.lesson.mat_scenes import MatScene
from kitbuilder.kit.mat_needs import Arrangement, Role, bands
from kitbuilder.layout.parts.contents import ARROW, HEAD_LONG
from kitbuilder.layout.parts.settings import growth, settings
from kitbuilder.layout.parts.words import wide
from kitbuilder.layout.picture.piles import TEN_GAPS, extent, steps

PAD = 2.4
"""Clear space in mm at each side of a column's pieces."""

UNDER_NAME = 1.9
"""Clear space in mm above a column's pieces where no name of it stands."""

LANE = 6.4
"""Room in mm for arrows at the right of the ones."""

BETWEEN = 2.5
"""Space in mm between zones that stand side by side."""

_LOW_GAP, _NAMELESS = 1.4, 0.4

_BY = 2.2
# Between tens and the number beside them, and below pieces that have none under them, in mm.

_BARE, _ASIDE, _BARE_LANE, _BARE_PAD = 1.6, 4.6, 1.0, 1.8
# Between bare zones, one below the other or side by side, at the right of ones in a row of them,
# and above and below their pieces, in mm.

_EDGE, _SHAFT, _ASKED = 1.4, 3.0, 1.3
# Round arrows between rows of zones, and how much of an exchange's shaft is to be seen, in mm;
# how wide a question is, in an adult's ems.

MOST_UNIT = 3.8
"""The widest a one is drawn in a picture, in mm."""

Manner = Literal["full", "bare", "row"]
"""How much a picture tells: names and numbers too, or zones alone, their names inside.

In a ``row`` bare zones stand side by side.
"""


@frozen
class Air:
    """Space in a column: ``gap`` units between its tens, ``pad`` mm at each side of its pieces."""

    gap: float
    pad: float


AIRS = (*(Air(gap, PAD) for gap in TEN_GAPS), Air(TEN_GAPS[-1], 1.2), Air(0.16, 0.8))
"""Ways to stand in a column, the widest that there is room for."""


@frozen
class Column:
    """One column of a zone, in mm from the picture's left: all of it, and where its pile begins.

    ``number`` is the middle of what is said of its count.
    """

    x: float
    width: float
    pile: float
    number: float


@frozen
class ZoneFrame:
    """One zone in mm from the picture's top left; columns ones first; ``named`` has headings.

    A zone in which no pieces are shown is ``low``: its name stands beside its numbers.
    """

    role: Role
    x: float
    y: float
    width: float
    height: float
    columns: tuple[Column, ...]
    named: bool
    low: bool = False


@frozen
class MatFrame:
    """The frame that scenes of one lesson share: ``unit`` mm the width of a one."""

    unit: float
    gap: float
    under: bool
    width: float
    height: float
    zones: tuple[ZoneFrame, ...]
    heights: "Heights"
    manner: Manner = "full"

    def zone(self, role: Role) -> ZoneFrame:
        """Return the zone of ``role``."""
        return next(zone for zone in self.zones if zone.role == role)


@frozen
class Heights:
    """Heights in mm of a zone's name, its columns' names, the digits, an arrow, a question."""

    name: float
    heads: float
    digits: float
    arrow: float
    question: float

    @classmethod
    def of(cls, style: Style, manner: Manner) -> "Heights":
        """Return the heights in the look of ``style``; a bare zone has space alone."""
        sets = settings(style.look)
        digits, arrow = 1.12 * sets.digits.size, style.look.lines_mm.arrow + 1.0
        asks = _ASKED * style.look.type_mm.adult
        if manner != "full":
            return cls(_BARE if manner == "bare" else 0.01, _BARE_PAD, _BARE_PAD - 0.6, arrow, asks)
        return cls(1.22 * sets.text.size, 1.3 * sets.least.size, digits, arrow, asks)


def mat_frame(
    scenes: Sequence[MatScene],
    width: float,
    style: Style,
    *,
    high: float = 1e9,
    least: float = 0.9,
    manner: Manner = "full",
) -> MatFrame | None:
    """Return the frame in which all ``scenes`` can be drawn ``width`` mm wide.

    It is no higher than ``high`` mm and its unit as large as that allows, at most
    ``MOST_UNIT``. Tens stand closer where a unit of ``least`` mm needs it. None where even that
    does not fit. Where tens are the largest, their number stands beside them as on the mat if
    pieces become no smaller.
    """
    most = _Most.of(scenes, manner, style)
    aside = (True, False) if manner == "full" and len(most.columns) == 2 else (False,)
    ways = (replace(most, aside=some) for some in aside)
    found = [frame for way in ways if (frame := _roomy(way, width, style, high, least))]
    return max(found, key=lambda frame: frame.unit, default=None)


def _roomy(most: "_Most", width: float, style: Style, high: float, least: float) -> MatFrame | None:
    """Return the frame with the most air between its pieces of ``least`` mm or more."""
    in_row = most.manner == "row"
    arrow = HEAD_LONG * style.look.lines_mm.arrow / ARROW + _SHAFT
    arrow += _ASKED * style.look.type_mm.adult if most.asked else 0.0
    opens = (True, False) if most.exchanged else (False,)
    for opened, labelled, air in product(opens, (True, False) if in_row else (True,), AIRS):
        room = max(0.0, arrow + 0.95 - 2 * air.pad) if opened else 0.0
        most = replace(most, labelled=labelled, opened=room)
        if not most.holds(least, (width, high), air, style):
            continue
        unit = min(MOST_UNIT * growth(style.look), most.unit(width, air, style))
        if most.height(unit, air, style) > high:
            unit = most.lower(unit, high, air, style)
        if unit >= least:
            return most.frame(unit, air, width, style)
    return None


class _Need(NamedTuple):
    """What a column needs: its pieces in units, what is beside them and the least of all in mm."""

    pieces: float
    beside: float
    least: float

    def at(self, unit: float) -> float:
        """Return the width in mm where a one is ``unit`` mm wide."""
        return max(self.pieces * unit + self.beside, self.least)


class _Level(NamedTuple):
    """Zones side by side: their top and height in mm, ``named`` with heads of columns, or low."""

    row: tuple[Role, ...]
    reach: tuple[float, float]
    named: bool
    low: bool


@frozen
class _Most:
    """The most pieces that each column of each zone shows in any scene.

    ``numbers`` are what is said under each column, ``named`` the name of a zone without pieces;
    with ``labelled`` a bare zone is wide enough for its name. ``between`` is the space in mm
    between zones side by side. With ``aside`` the number of tens stands at their right.
    Pieces are ``exchanged`` with the next larger into these columns, or out of them; ``asked`` if
    one is still a question; that arrow has ``opened`` mm more between both columns. As many as
    ``crossing`` arrows go from zone to zone at once; one of them asks if some are ``wanted``.
    """

    arrangement: Arrangement
    columns: tuple[str, ...]
    counts: dict[Role, tuple[int, ...]]
    digits: frozenset[Role]
    numbers: dict[Role, tuple[tuple[str, ...], ...]]
    named: str
    names: dict[Role, tuple[str, ...]]
    manner: Manner
    between: float
    labelled: bool = True
    aside: bool = False
    exchanged: frozenset[int] = frozenset()
    asked: bool = False
    crossing: int = 0
    wanted: bool = False
    opened: float = 0.0

    @classmethod
    def of(cls, scenes: Iterable[MatScene], manner: Manner, style: Style) -> "_Most":
        counts: dict[Role, tuple[int, ...]] = {}
        digits = set[Role]()
        every = tuple(scenes)
        numbers = {zone.role: [{""} for _ in zone.piles] for zone in every[0].zones}
        for scene in every:
            for zone in scene.zones:
                shown = tuple(steps(pile, place) for place, pile in enumerate(zone.piles))
                before = counts.get(zone.role, (0,) * len(shown))
                counts[zone.role] = tuple(map(max, shown, before))
                if any(pile.count is not None for pile in zone.piles):
                    digits.add(zone.role)
                for place, pile in enumerate(zone.piles):
                    old = "" if pile.before is None else f"{pile.before} "
                    numbers[zone.role][place].add(
                        "" if pile.count is None else f"{old}{pile.count}"
                    )
        said = {role: tuple(tuple(sorted(s)) for s in some) for role, some in numbers.items()}
        low = (zone.name for zone in every[0].zones if not any(counts[zone.role]))
        named = max(low, key=len, default="")
        names = {
            zone.role: tuple(z.name for scene in every for z in scene.zones if z.role == zone.role)
            for zone in every[0].zones
        }
        inside = [m for s in every for m in s.moves if m.source[0] == m.target[0]]
        between = max(_ASIDE, style.look.type_mm.adult) if manner == "row" else BETWEEN
        return cls(
            every[0].arrangement,
            every[0].columns,
            counts,
            frozenset(digits if manner == "full" else ()),
            said,
            named,
            names,
            manner,
            between,
            exchanged=frozenset(min(m.source[1], m.target[1]) for m in inside),
            asked=any(m.asks for m in inside),
            wanted=any(m.asks for s in every for m in s.moves if m not in inside),
            crossing=max(sum(m.source[0] != m.target[0] for m in s.moves) for s in every),
        )

    @property
    def under(self) -> bool:
        return len(self.columns) > 2

    def rows(self) -> tuple[tuple[Role, ...], ...]:
        """Return the zones that are shown, row by row."""
        every = (tuple(r for r in row if r in self.counts) for row in bands(self.arrangement))
        found = tuple(row for row in every if row)
        return (tuple(role for row in found for role in row),) if self.manner == "row" else found

    @property
    def lane(self) -> float:
        """Room in mm for arrows at the right of the ones."""
        return _BARE_LANE if self.manner == "row" else LANE

    def _row_counts(self, row: Sequence[Role]) -> list[tuple[int, ...]]:
        """Return the counts that set a row's columns: alone in a row, zones share theirs."""
        if len(row) > 1:
            return [self.counts[role] for role in row]
        alone = [self.counts[some[0]] for some in self.rows() if len(some) == 1]
        return [tuple(map(max, *alone, (0,) * len(self.columns)))]

    def least_width(self, place: int, role: Role, style: Style) -> float:
        """Return the least width in mm of a column: its name, or its numbers beside its arrow.

        In a bare zone its own name stands under the ones.
        """
        sets = settings(style.look)
        if self.manner != "full":
            label = max(wide(name, sets.least) for name in self.names[role]) + 2.4
            return label if place == 0 and self.labelled else 0.0
        numbers = self.number(place, style) + 3.0
        lane = max(LANE - 2, 0.8 * sets.digits.size) if place == 0 else 0.0
        low = 0.0
        if self.named and place == len(self.columns) - 1:  # the name stands beside the number
            low = wide(self.named, sets.text) + 4.4 + wide("8", sets.digits)
        return max(wide(self.columns[place], sets.least) + 1.5, numbers + lane, low)

    def number(self, place: int, style: Style) -> float:
        """Return the width in mm of the widest that is said of the count of ``place``."""
        digits = settings(style.look).digits
        return max(wide(text, digits) for some in self.numbers.values() for text in some[place])

    def _by(self, place: int, style: Style) -> float:
        """Return the room in mm at the right of a pile for its number."""
        if place and self.aside:
            return _BY + self.number(place, style) + 2.8
        return 0.0

    def _open(self, place: int) -> float:
        """Return the room in mm at the left of a pile for the arrow of an exchange."""
        return self.opened if place in self.exchanged else 0.0

    def unit(self, width: float, air: Air, style: Style) -> float:
        """Return the largest unit at which every row is no wider than ``width``."""
        rows = [self._needs(row, air, style) for row in self.rows()]
        low, top = 0.0, 20.0
        for _ in range(30):
            middle = (low + top) / 2
            fits = all(self._row_width(row, middle) <= width for row in rows)
            low, top = (middle, top) if fits else (low, middle)
        return low

    def height(self, unit: float, air: Air, style: Style) -> float:
        """Return how high the frame is at ``unit``."""
        return sum(self._levels(unit, air, Heights.of(style, self.manner))[-1].reach)

    def holds(self, unit: float, room: tuple[float, float], air: Air, style: Style) -> bool:
        """Say whether ``room`` of a width and a height holds the frame at ``unit``."""
        rows = (self._needs(row, air, style) for row in self.rows())
        across = all(self._row_width(row, unit) <= room[0] for row in rows)
        return across and self.height(unit, air, style) <= room[1]

    def lower(self, unit: float, high: float, air: Air, style: Style) -> float:
        """Return the largest unit below ``unit`` at which the frame is no higher than ``high``."""
        low, heights = 0.0, Heights.of(style, self.manner)
        for _ in range(16):
            middle = (low + unit) / 2
            fits = sum(self._levels(middle, air, heights)[-1].reach) <= high
            low, unit = (middle, unit) if fits else (low, middle)
        return low

    def _row_width(self, row: Sequence[Sequence[_Need]], unit: float) -> float:
        return sum(sum(n.at(unit) for n in zone) for zone in row) + self.between * (len(row) - 1)

    def _needs(self, row: Sequence[Role], air: Air, style: Style) -> list[list["_Need"]]:
        """Return what the columns of each zone of ``row`` need."""
        return [
            [
                _Need(
                    extent(place, count, under=self.under, gap=air.gap)[0],
                    2 * air.pad
                    + (self.lane if place == 0 else 0.0)
                    + self._by(place, style)
                    + self._open(place),
                    self.least_width(place, role, style),
                )
                for place, count in enumerate(counts)
            ]
            for role, counts in zip(row, self._row_counts(row), strict=True)
        ]

    def frame(self, unit: float, air: Air, width: float, style: Style) -> MatFrame:
        """Return the frame at ``unit``, ``width`` mm wide."""
        heights = Heights.of(style, self.manner)
        zones: list[ZoneFrame] = []
        levels = self._levels(unit, air, heights)
        for row, (y, high), named, low in levels:
            needs = [[n.at(unit) for n in zone] for zone in self._needs(row, air, style)]
            spare = width - sum(map(sum, needs)) - self.between * (len(row) - 1)
            x = 0.0
            for role, need, counts in zip(row, needs, self._row_counts(row), strict=True):
                wider = [n + max(0.0, spare) / sum(map(len, needs)) for n in need]
                by = tuple(
                    (self._by(place, style), self._open(place)) for place in range(len(counts))
                )
                columns = self._columns(x, wider, counts, by, (unit, air))
                zones.append(ZoneFrame(role, x, y, sum(wider), high, columns, named, low))
                x += sum(wider) + self.between
        y = sum(levels[-1].reach)
        return MatFrame(
            unit,
            air.gap,
            self.under,
            width,
            y,
            tuple(zones),
            heights,
            self.manner,
        )

    def _levels(self, unit: float, air: Air, heights: Heights) -> list[_Level]:
        """Return the rows of zones below each other at ``unit``."""
        found: list[_Level] = []
        y = 0.0
        rows = self.rows()
        for number, row in enumerate(rows):
            full = self.manner == "full"
            low = full and all(not any(self.counts[role]) for role in row)
            has_name = any(any(self.names[role]) for role in row)
            y += _LOW_GAP if low else heights.name if has_name else _NAMELESS
            if number and max(len(row), len(rows[number - 1])) > 1:
                y += self._crossed(heights) + (1.5 if low else 0.0)
            named = full and (number == 0 or len(row) > 1) and not low
            high = self._zone_height(row, unit, air, named, heights)
            found.append(_Level(row, (y, high), named, low))
            y += high
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
            lane = self.lane if place == 0 else 0.0
            pile = extent(place, counts[place], under=self.under, gap=air.gap)[0] * unit
            beside, opened = by[place]
            start = x + opened + (widths[place] - lane - pile - beside - opened) / 2
            end = x + widths[place]
            number = (start + pile + _BY + end - 0.6) / 2 if beside else (x + end) / 2
            found.append(Column(x, widths[place], start, number))
            x += widths[place]
        return tuple(reversed(found))

    def _zone_height(
        self, row: Sequence[Role], unit: float, air: Air, named: bool, heights: Heights
    ) -> float:
        tall = max(
            extent(place, count, under=self.under, gap=air.gap)[1]
            for role in row
            for place, count in enumerate(self.counts[role])
        )
        if self.manner != "full":
            return heights.heads + max(tall, 10.0) * unit + heights.digits + 0.6
        if len(self.columns) > 1 and tall:
            tall = max(tall, 10.0)
        if not tall:
            return heights.digits + 0.6
        above = heights.heads if named else UNDER_NAME
        if not any(role in self.digits for role in row):
            return above + tall * unit + 2.0
        if self.aside:  # ones are half as high: theirs stands below them
            ones = max(extent(0, self.counts[role][0], under=False)[1] for role in row)
            return above + max(tall * unit + _BY, ones * unit + heights.digits + 0.6)
        return above + tall * unit + heights.digits + 0.6
