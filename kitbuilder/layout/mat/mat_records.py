"""Turns a mat's measurements into checked records: its words, its zones, its tiles."""

import math
from dataclasses import dataclass
from typing import Literal

from kitbuilder.kit.mat_needs import Arrangement, Moment, Role
from kitbuilder.layout.model import Rect

Way = Literal["rows of five", "upright", "flat", "side by side", "fan"]
"""How the pieces of a zone lie; a fan shows at least one unit row of every hundred."""

Edge = Literal["left", "right", "top", "bottom"]

LabelKind = Literal["heading", "role", "number", "fan", "again"]

FINGER = 5.0
"""Millimetres that stay clear round each group of pieces, for fingers."""


@dataclass(frozen=True, slots=True)
class MatText:
    """A mat's words and the room they need in mm, as measured in the type they are drawn in.

    ``headings`` are one for each place, ones first; ``roles`` and ``hints`` (a label and what
    the adult reads under it) follow ``kit.mats.roles``. Heights: of a line of headings, of a
    label with its hint, and of the clear space for a written number, ``number`` mm wide.
    ``join`` stands at the edges that butt; ``{number}`` in it names the join, and so do marks
    at the edge, each digit ``mark_width`` mm wide. ``pages`` stands beside the sketch of the
    sheets. ``fan`` says how hundreds lie that do not lie side by side. ``small_roles`` are the
    widths of roles in the adult's type.
    """

    headings: tuple[str, ...]
    heading_widths: tuple[float, ...]
    roles: tuple[str, ...]
    hints: tuple[str, ...]
    role_widths: tuple[float, ...]
    heading_height: float
    role_height: float
    number: float
    number_height: float
    number_hint: str
    join: str
    join_width: float
    join_height: float
    small_roles: tuple[float, ...]
    pages: str
    pages_width: float
    mark_width: float
    fan: str = ""
    fan_width: float = 0.0

    def __post_init__(self) -> None:
        sizes = (*self.heading_widths, *self.role_widths, self.heading_height, self.role_height)
        sizes += (self.number, self.number_height, self.join_width, self.join_height)
        if not all(math.isfinite(x) and x > 0 for x in sizes):
            raise ValueError(f"MatText is {self}; every size must be above 0")
        if len(self.headings) != len(self.heading_widths):
            raise ValueError("MatText.headings and heading_widths differ in number")
        if not len(self.roles) == len(self.hints) == len(self.role_widths):
            raise ValueError("MatText.roles, hints and role_widths differ in number")


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

    Or small words under pieces: how the hundreds of a fan lie, what a further sheet shows.
    ``place`` is given for headings only; ``role`` is the first role under a heading. ``text``
    is large, for the child; ``hint`` is small, for the adult.
    """

    kind: LabelKind
    role: Role
    place: int | None
    rect: Rect
    text: str = ""
    hint: str = ""


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
class Join:
    """One edge of a tile that butts against another tile.

    ``number`` is the same on both. ``diamonds`` are where along the edge half a diamond is
    drawn, with the number beside it in ``marks``, and ``text`` stands in ``box``: where there
    is room. In the mat's mm.
    """

    number: int
    edge: Edge
    diamonds: tuple[float, ...]
    marks: tuple[Rect, ...]
    text: str
    box: Rect | None


@dataclass(frozen=True, slots=True)
class MatTile:
    """The part of a mat on one sheet: ``area`` of the mat lies at the item's rectangle.

    ``sketch`` is where a sketch of all the mat's sheets stands, if here, after ``pages``.
    """

    mat: Mat
    number: int
    area: Rect
    joins: tuple[Join, ...]
    sketch: Rect | None = None
    pages: str = ""
