"""Turns a scene into small rectangles: the two zones, the pieces in them, and what lacks."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from kitbuilder import measure
from kitbuilder.kit.records import Scene
from kitbuilder.number import Pieces
from kitbuilder.sheet.records import Rect

PAD = 1.5
"""Clear space in mm round the pieces in a zone."""

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
    """The most pieces a zone holds in any of the scenes drawn alike, ghosts counted.

    ``label`` is the width in mm of the widest word over it.
    """

    most: Pieces
    label: float

    def width(self, unit: float) -> float:
        """Return its width in mm; 0 for a zone that never holds anything."""
        return max(_width(self.most) * unit + 2 * PAD, self.label) if self.most.value else 0.0


@dataclass(frozen=True, slots=True)
class Room:
    """The zones of scenes that are drawn alike; labels have ``size`` mm."""

    whole: Zone
    part: Zone
    size_mm: float

    @classmethod
    def of(cls, scenes: Iterable[Scene], size_mm: float) -> "Room":
        """Return the room that every one of ``scenes`` needs, with labels of ``size_mm`` mm."""
        whole = part = Pieces()
        left = right = 0.0
        for scene in scenes:
            whole = whole.most(scene.whole + scene.ghosts)
            part = part.most(scene.part)
            left = max(left, measure.width(f"{scene.whole_label} ", size_mm))
            right = max(right, measure.width(f"{scene.part_label} ", size_mm))
        return cls(Zone(whole, left), Zone(part, right), size_mm)

    @property
    def head(self) -> float:
        """The height in mm that labels take."""
        return 1.5 * self.size_mm

    def size(self, unit: float) -> tuple[float, float]:
        """Return the width and height in mm of a scene without labels."""
        return self.whole.width(unit) + self.part.width(unit), _height(self) * unit + 2 * PAD


def placed(scene: Scene, room: Room, unit: float) -> SceneDrawing:
    """Return ``scene`` laid out in ``room``, its labels, if any, at the top."""
    high = room.size(unit)[1]
    top = room.head if scene.whole_label or scene.part_label else 0.0
    zones, pieces, covered, laid, ghosts, labels = [], [], [], [], [], []
    x = 0.0
    for zone, held, new, lack, said in (
        (room.whole, scene.whole, scene.laid_whole, scene.ghosts, scene.whole_label),
        (room.part, scene.part, scene.laid_part, Pieces(), scene.part_label),
    ):
        if not zone.most.value:
            continue
        zones.append(Rect(x, top, zone.width(unit), high))
        if said:
            labels.append(Marked(said, room.size_mm, x, top - 0.27 * room.head))
        at = x + PAD
        for place in _places(zone.most):
            spots = _spots(place, held.counts[place], lack.counts[place], unit)
            spots = [spot.moved(at, top + PAD) for spot in spots]
            solid = spots[: held.counts[place]]
            under = max(0, len(solid) - 1) if place >= 2 else 0
            covered += solid[:under]
            pieces += solid[under:]
            laid += solid[len(solid) - new.counts[place] :]
            ghosts += spots[held.counts[place] :]
            at += (_across(place, zone.most.counts[place]) + _BETWEEN) * unit
        x += zone.width(unit)
    return SceneDrawing(
        unit,
        tuple(zones),
        tuple(pieces),
        tuple(covered),
        tuple(laid),
        tuple(ghosts),
        tuple(labels),
    )


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
    most = room.whole.most.most(room.part.most)
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
