"""A mat as checked records: its zones, words, pictograms, sheets and joins."""

from enum import StrEnum
from typing import Literal

from kitbuilder.frozen import frozen
from kitbuilder.kit.mat_needs import Arrangement, Moment, Role
from kitbuilder.layout.mat.lying import Manner
from kitbuilder.layout.model import Rect

Edge = Literal["left", "right", "top", "bottom"]

FINGER = 2.0
"""Millimetres that stay clear between pieces and the border of their zone, at the least."""


class LabelKind(StrEnum):
    """What a word on a mat is."""

    NAME = "name"
    HINT = "hint"
    AGAIN = "again"
    HEADING = "heading"
    PILE = "pile"
    COUNT = "count"
    BANK = "bank"
    POINT = "point"


@frozen
class Zone:
    """One column of one role: its rectangle on the mat, and a slot for every piece it holds.

    ``slots[:n]`` is where n pieces lie, ``frames`` are printed for them (see ``lying``), and
    ``box`` is where their count is written or laid with a card. ``moment`` says when the zone
    is fullest; the slots may be more than it asks for.
    """

    place: int
    role: Role
    rect: Rect
    slots: tuple[Rect, ...]
    frames: tuple[Rect, ...]
    box: Rect
    moment: Moment | None

    @property
    def capacity(self) -> int:
        """How many pieces find room."""
        return len(self.slots)


@frozen
class Label:
    """One line of words: its ink lies inside ``rect``, its em is ``size`` mm."""

    kind: LabelKind
    role: Role
    rect: Rect
    text: str
    size: float
    quiet: bool = False


@frozen
class Icon:
    """A pictogram by name in a square box."""

    name: str
    rect: Rect


@frozen
class Mat:
    """A mat in its own millimetres, origin at its top left.

    ``outlines`` are the rectangles round each role, ``strips`` its parts in which the name
    stands, over the headings; both follow ``kit.mat_needs.roles``. ``tiles`` are the sheets it
    is made of, row by row, ``across`` in a row, ``turned`` if they lie on their long side.
    """

    arrangement: Arrangement
    unit: float
    manner: Manner
    zones: tuple[Zone, ...]
    labels: tuple[Label, ...]
    icons: tuple[Icon, ...]
    outlines: tuple[Rect, ...]
    strips: tuple[Rect, ...]
    tiles: tuple[Rect, ...]
    across: int
    turned: bool

    def __post_init__(self) -> None:
        if not self.tiles or len(self.tiles) % self.across:
            raise ValueError(f"Mat.tiles: {len(self.tiles)} tiles, {self.across} in a row")
        ground = Rect(0, 0, self.width, self.height)
        boxes = [rect for zone in self.zones for rect in (zone.rect, zone.box)]
        boxes += self.marked
        for box in (*boxes, *self.outlines):
            if not ground.holds(box):
                raise ValueError(f"Mat: {box} leaves the mat of {self.width} by {self.height} mm")

    @property
    def marked(self) -> tuple[Rect, ...]:
        """Where words and pictograms stand."""
        return (*(label.rect for label in self.labels), *(icon.rect for icon in self.icons))

    @property
    def width(self) -> float:
        """Width of the mat, mm."""
        return max(tile.right for tile in self.tiles)

    @property
    def height(self) -> float:
        """Height of the mat, mm."""
        return max(tile.bottom for tile in self.tiles)

    def zone(self, role: Role, place: int) -> Zone:
        """Return one zone. Raises ``ValueError`` if the mat has none such."""
        for zone in self.zones:
            if (zone.role, zone.place) == (role, place):
                return zone
        raise ValueError(f"Mat.zone: no zone for place {place} of {role}")


@frozen
class Join:
    """An edge of a sheet that meets another sheet, ``other`` (numbers from 1).

    The sheet above or on the left is ``cut`` along it, and the other glued under it. Half of
    each face is printed on either sheet; ``faces`` are where along the edge, in the mat's mm.
    """

    other: int
    edge: Edge
    cut: bool
    faces: tuple[float, ...]


@frozen
class MatTile:
    """The part of a mat on one sheet: ``area`` of the mat lies at the item's rectangle.

    ``lines`` are the printed parts of the cuts (x1, y1, x2, y2), in the page's mm.
    """

    mat: Mat
    number: int
    area: Rect
    joins: tuple[Join, ...]
    lines: tuple[tuple[float, float, float, float], ...] = ()
