"""Turns a scene into small rectangles: the mat's zones, the pieces in them, and what lacks."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import reduce

from kitbuilder.design import metrics
from kitbuilder.kit.mat_needs import Arrangement, Role
from kitbuilder.kit.records import Scene
from kitbuilder.layout.model import Rect
from kitbuilder.number import Pieces

PAD = 1.5
"""Clear space in mm round the pieces in a zone."""

SLIM = 4.0
"""Height in mm of a row of zones in which nothing lies, where zones stand in several rows."""

_ROWS: dict[Arrangement, tuple[tuple[Role, ...], ...]] = {
    "two": (("whole", "part"),),
    "three": (("whole",), ("part",), ("rest",)),
    "beside": (("whole",), ("part", "rest")),
}
# Two zones stand beside each other, which is low; three stand as they do on the mat.

_PITCH = 1.3
_FIVE = 0.7
_FAN = 2.0
_FIVE_FANNED = 1.0
_BETWEEN = 2.0
# In units: from one small piece to the next, the gap after five, what a covered hundred shows,
# what a fifth one shows more, and the gap between columns.


@dataclass(frozen=True, slots=True)
class Marked:
    """A label of ``size`` mm at (x, y), its baseline's left end, in mm."""

    text: str
    size: float
    x: float
    y: float


@dataclass(frozen=True, slots=True)
class SceneDrawing:
    """A scene to draw, in mm from its top left: ``pieces`` have whole units of ``unit`` mm.

    ``covered`` are the strips that hundreds under others show: no grid, so that they are
    counted at a glance. ``laid`` of both were just laid down; ``ghosts`` lack. ``zones`` are
    the zones' outlines.
    """

    unit: float
    zones: tuple[Rect, ...]
    pieces: tuple[Rect, ...]
    covered: tuple[Rect, ...]
    laid: tuple[Rect, ...]
    ghosts: tuple[Rect, ...]
    labels: tuple[Marked, ...]


@dataclass(frozen=True, slots=True)
class Zone:
    """The most pieces the zone of ``role`` holds in any of the scenes drawn alike.

    Ghosts are counted. ``label`` is the width in mm of the widest word over it.
    """

    role: Role
    most: Pieces
    label: float

    def width(self, unit: float) -> float:
        """Return its least width in mm."""
        return max(_width(self.most) * unit + 2 * PAD, self.label)


@dataclass(frozen=True, slots=True)
class Room:
    """The zones of scenes that are drawn alike, row by row; labels have ``size_mm`` mm.

    A zone that never holds anything is left out.
    """

    rows: tuple[tuple[Zone, ...], ...]
    size_mm: float

    @classmethod
    def of(cls, scenes: Iterable[Scene], size_mm: float) -> "Room":
        """Return the room that every one of ``scenes`` needs, with labels of ``size_mm`` mm.

        Places stand below each other where every row has one zone.
        """
        every = tuple(scenes)
        rows = _ROWS[every[0].arrangement]
        most = {role: Pieces() for row in rows for role in row}
        label = dict.fromkeys(most, 0.0)
        for scene in every:
            for role in most:
                held = _held(scene, role)
                most[role] = most[role].most(held.pieces + held.ghosts)
                label[role] = max(label[role], metrics.width(f"{held.label} ", size_mm) + PAD)
        shown = [tuple(role for role in row if most[role].value) for row in rows]
        if len(rows) > 1 and all(len(row) < 2 for row in shown):
            fullest = reduce(Pieces.most, most.values())
            most = dict.fromkeys(most, fullest)
        zones = (tuple(Zone(r, most[r], label[r]) for r in row) for row in shown if row)
        return cls(tuple(zones), size_mm)

    @property
    def head(self) -> float:
        """The height in mm that labels take."""
        return 1.5 * self.size_mm

    def width(self, unit: float) -> float:
        """Return the width in mm of a scene."""
        return max(sum(zone.width(unit) for zone in row) for row in self.rows)

    def high(self, unit: float) -> float:
        """Return the height in mm of a row of zones in which something lies."""
        return _height(self) * unit + 2 * PAD


@dataclass(frozen=True, slots=True)
class _Held:
    """What lies in one zone of a scene, what of it was just laid, what lacks, and the label."""

    pieces: Pieces
    laid: Pieces
    ghosts: Pieces
    label: str

    @property
    def empty(self) -> bool:
        return not (self.pieces.value or self.ghosts.value)


def _held(scene: Scene, role: Role) -> _Held:
    if role == "whole":
        return _Held(scene.whole, scene.laid_whole, scene.ghosts, scene.whole_label)
    if role == "part":
        return _Held(scene.part, scene.laid_part, Pieces(), scene.part_label)
    return _Held(scene.rest, scene.laid_rest, Pieces(), scene.rest_label)


def placed(scene: Scene, room: Room, unit: float) -> SceneDrawing:
    """Return ``scene`` laid out in ``room``: labels stand over their zones, or in empty ones."""
    zones: list[Rect] = []
    labels: list[Marked] = []
    filled: list[_Filled] = []
    wide, y = room.width(unit), 0.0
    for row in room.rows:
        held = [_held(scene, zone.role) for zone in row]
        slim = len(room.rows) > 1 and all(one.empty for one in held)
        said = any(one.label for one in held)
        top = y if slim or not said else y + room.head
        high = (room.head if said else SLIM) if slim else room.high(unit)
        x = 0.0
        for zone, one in zip(row, held, strict=True):
            across = wide - x if zone is row[-1] else zone.width(unit)
            zones.append(Rect(x, top, across, high))
            if one.label:
                base = y + 0.73 * room.head
                labels.append(Marked(one.label, room.size_mm, x + PAD * slim, base))
            filled.append(_fill(zone, one, x + PAD, top + PAD, unit))
            x += across
        y = top + high
    return SceneDrawing(
        unit,
        tuple(zones),
        tuple(rect for one in filled for rect in one.pieces),
        tuple(rect for one in filled for rect in one.covered),
        tuple(rect for one in filled for rect in one.laid),
        tuple(rect for one in filled for rect in one.ghosts),
        tuple(labels),
    )


@dataclass(frozen=True, slots=True)
class _Filled:
    pieces: tuple[Rect, ...]
    covered: tuple[Rect, ...]
    laid: tuple[Rect, ...]
    ghosts: tuple[Rect, ...]


def _fill(zone: Zone, held: _Held, x: float, y: float, unit: float) -> _Filled:
    """Return where the pieces of a zone lie whose first column begins at (x, y)."""
    pieces, covered, laid, ghosts = [], [], [], []
    for place in _places(zone.most):
        spots = _spots(place, held.pieces.counts[place], held.ghosts.counts[place], unit)
        spots = [spot.moved(x, y) for spot in spots]
        solid = spots[: held.pieces.counts[place]]
        under = max(0, len(solid) - 1) if place >= 2 else 0
        covered += solid[:under]
        pieces += solid[under:]
        laid += solid[len(solid) - held.laid.counts[place] :]
        ghosts += spots[held.pieces.counts[place] :]
        x += (_across(place, zone.most.counts[place]) + _BETWEEN) * unit
    return _Filled(tuple(pieces), tuple(covered), tuple(laid), tuple(ghosts))


def _places(held: Pieces) -> Sequence[int]:
    """Return the places a zone shows, largest first: none between is left out."""
    top = max(k for k, count in enumerate(held.counts) if count)
    return range(top, -1, -1)


def _width(held: Pieces) -> float:
    shown = _places(held)
    return sum(_across(k, held.counts[k]) for k in shown) + _BETWEEN * (len(shown) - 1)


def _across(place: int, count: int) -> float:
    """Return how wide the column of ``place`` is, in units."""
    if place >= 2:
        return 10 + _fanned(max(0, count - 1))
    if place == 1:
        return max(1, count) * _PITCH + (max(1, count) - 1) // 5 * _FIVE
    return 5 * _PITCH


def _height(room: Room) -> float:
    """Return how high the zones are, in units."""
    most = reduce(Pieces.most, (zone.most for row in room.rows for zone in row))
    if any(most.counts[1:]):
        return 10.0
    rows = -(-most.ones // 5)
    return rows * _PITCH + (rows - 1) // 2 * _FIVE


def _spots(place: int, solid: int, ghosts: int, unit: float) -> list[Rect]:
    """Return where the pieces of a place lie in its column: the solid ones, then the ghosts."""
    if place >= 2:
        return list(_fan(solid, ghosts, unit))
    found = []
    for k in range(solid + ghosts):
        if place == 1:
            x, y = k * _PITCH + k // 5 * _FIVE, 0.0
        else:
            x, y = k % 5 * _PITCH, k // 5 * _PITCH + k // 10 * _FIVE
        found.append(Rect(x * unit, y * unit, unit, 10 * unit if place else unit))
    return found


def _fanned(before: int) -> float:
    """Return where a hundred with ``before`` others under it begins, in units."""
    return before * _FAN + before // 5 * _FIVE_FANNED


def _fan(solid: int, ghosts: int, unit: float) -> Iterator[Rect]:
    """Yield a fan of hundreds: of a covered one its left strip, of a ghost its right one."""
    for k in range(solid + ghosts):
        left, after = _fanned(k), _fanned(k + 1)
        right = left + 10 if k in (solid - 1, solid + ghosts - 1) else after
        if solid and k >= solid:
            left, right = _fanned(k - 1) + 10, left + 10
        yield Rect(left * unit, 0, (right - left) * unit, 10 * unit)
