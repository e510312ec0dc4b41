"""Turns a mat's measurements into checked records: its page, its text, its zones, its tiles."""

import math
from dataclasses import dataclass
from typing import Literal

from kitbuilder.kit.mats import Arrangement, Moment, Role
from kitbuilder.sheet.records import Rect

Way = Literal["rows of five", "upright", "flat", "side by side", "fan"]
"""How the pieces of a zone lie; a fan shows at least one unit row of every hundred."""

LabelKind = Literal["heading", "role", "number"]

FINGER = 5.0
"""Millimetres that stay clear round each group of pieces, for fingers."""


@dataclass(frozen=True, slots=True)
class MatPage:
    """The paper a mat is printed on: millimetres, the margins that do not print, the unit."""

    width: float
    height: float
    left: float
    right: float
    top: float
    bottom: float
    unit: float

    def __post_init__(self) -> None:
        for name in ("width", "height", "unit"):
            value = getattr(self, name)
            if not (math.isfinite(value) and value > 0):
                raise ValueError(f"MatPage.{name} is {value}; it must be above 0")
        for name in ("left", "right", "top", "bottom"):
            value = getattr(self, name)
            if not (math.isfinite(value) and value >= 0):
                raise ValueError(f"MatPage.{name} is {value}; it must be 0 or more")

    def size(self, turned: bool) -> tuple[float, float]:
        """Return width and height of the page, turned to lie on its long side or not, mm."""
        return (self.height, self.width) if turned else (self.width, self.height)

    def printable(self, turned: bool) -> Rect:
        """Return what prints. Nobody knows which way a printer turns a page: a turned page

        keeps the larger of the two margins that may come to lie at each edge.
        """
        width, height = self.size(turned)
        if turned:
            side, end = max(self.top, self.bottom), max(self.left, self.right)
            return Rect(side, end, width - 2 * side, height - 2 * end)
        return Rect(
            self.left, self.top, width - self.left - self.right, height - self.top - self.bottom
        )


@dataclass(frozen=True, slots=True)
class MatText:
    """The room a mat's words need, in mm, as measured in the type they are drawn in.

    ``headings``: width of each place's heading, ones first. ``roles``: width of each role's
    label, in the order of ``kit.mats.roles``. ``line``: height of one line of such text.
    ``digit`` and ``number_height``: width for each digit and height of the clear space for a
    written number or its cards.
    """

    headings: tuple[float, ...]
    roles: tuple[float, ...]
    line: float = 11.0
    digit: float = 18.0
    number_height: float = 16.0

    def __post_init__(self) -> None:
        sizes = (*self.headings, *self.roles, self.line, self.digit, self.number_height)
        if not all(math.isfinite(x) and x > 0 for x in sizes):
            raise ValueError(f"MatText is {self}; every size must be above 0")


@dataclass(frozen=True, slots=True)
class Zone:
    """One column of one role: its rectangle on the mat, and a slot for every piece it holds.

    Slots are in the order they are filled: ``slots[:n]`` is where n pieces lie; of two that
    overlap the later lies on top. ``moment`` says when it is fullest.
    """

    place: int
    role: Role
    rect: Rect
    way: Way
    slots: tuple[Rect, ...]
    moment: Moment | None

    @property
    def capacity(self) -> int:
        """How many pieces find room."""
        return len(self.slots)


@dataclass(frozen=True, slots=True)
class Label:
    """A box for words or for a written number: a place's heading, a role's label or number.

    ``place`` is given for headings only. ``role`` is the first role under a heading.
    """

    kind: LabelKind
    role: Role
    place: int | None
    rect: Rect


@dataclass(frozen=True, slots=True)
class Mat:
    """A mat in its own millimetres, origin at its top left.

    ``outlines`` are the rectangles drawn round each role with its label; ``tiles`` are the
    sheets it is made of, in reading order; ``turned`` says which of them lie on their long
    side.
    """

    arrangement: Arrangement
    unit: float
    width: float
    height: float
    zones: tuple[Zone, ...]
    labels: tuple[Label, ...]
    outlines: tuple[Rect, ...]
    tiles: tuple[Rect, ...]
    turned: tuple[bool, ...]

    def __post_init__(self) -> None:
        ground = Rect(0, 0, self.width, self.height)
        boxes = [z.rect for z in self.zones] + [x.rect for x in self.labels] + [*self.tiles]
        for box in (*boxes, *self.outlines):
            if not ground.holds(box):
                raise ValueError(f"Mat: {box} leaves the mat of {self.width} by {self.height} mm")
        if not self.tiles or len(self.tiles) != len(self.turned):
            raise ValueError(f"Mat.tiles: {len(self.tiles)} tiles, {len(self.turned)} turnings")

    def zone(self, role: Role, place: int) -> Zone:
        """Return one zone. Raises ``ValueError`` if the mat has none such."""
        for zone in self.zones:
            if (zone.role, zone.place) == (role, place):
                return zone
        raise ValueError(f"Mat.zone: no zone for place {place} of {role}")


@dataclass(frozen=True, slots=True)
class MatTile:
    """The part of a mat on one sheet: what lies at (offset_x, offset_y) of the mat is at the

    item's top left. ``joins`` names the edges that butt against another tile.
    """

    mat: Mat
    number: int
    offset_x: float
    offset_y: float
    joins: tuple[Literal["left", "right", "top", "bottom"], ...]
