"""The records of layout: rectangles, cuts, placed items and sheets."""

from collections.abc import Iterable
from dataclasses import replace
from enum import StrEnum
from math import isfinite
from typing import Literal, NamedTuple, Self

from kitbuilder.frozen import frozen

Stock = Literal["card", "paper"]

Flip = Literal["long-edge", "short-edge"]
"""How the paper is turned over between its front and its back."""


class SheetKind(StrEnum):
    """What a sheet is; its value is the key of its name in the words file."""

    CHECK_PRINT = "check_print"
    CHECK_BACK = "check_back"
    COVER = "cover"
    PIECES = "pieces"
    THOUSANDS = "thousands"
    FOLDING = "folding"
    MAT = "mat"
    ADDITION_MAT = "addition_mat"
    EXCHANGE_BOARD = "exchange_board"
    EXCHANGE_CARDS = "exchange_cards"
    TASK_CARDS = "task_cards"
    ANSWERS = "answers"
    FACT_CARDS = "fact_cards"
    STORY_CARDS = "story_cards"
    ARROW_CARDS = "arrow_cards"
    DIGIT_CARDS = "digit_cards"
    RECORD = "record"
    CUTTING = "cutting"
    GUIDE = "guide"
    LESSON = "lesson"
    PROGRESS = "progress"
    WEEK = "week"
    SLIP = "slip"
    WORKSHEET = "worksheet"
    WORKSHEET_KEY = "worksheet_key"
    DIFFERENTLY = "differently"
    EVENING = "evening"
    OUTLINE = "outline"
    DEMO_PLAN = "demo_plan"
    DEMO_PIECES = "demo_pieces"
    DEMO_NAMES = "demo_names"
    METRE = "metre"
    PRINT_RUN = "print_run"
    MINI = "mini"
    LABELS = "labels"
    MARKS = "marks"
    SUM_SHEET = "sum_sheet"
    SUM_KEY = "sum_key"


class NoRoomError(ValueError):
    """Something was to be laid out where there is no room for it."""


class _Sides(NamedTuple):
    """What a rectangle is kept as: a tuple is made in a third of a frozen dataclass's time."""

    x: float
    y: float
    width: float
    height: float


class Rect(_Sides):
    """A rectangle in millimetres, ``x`` and ``y`` from the page's top left, y down."""

    __slots__ = ()

    def __new__(cls, x: float, y: float, width: float, height: float) -> Self:
        """Check a rectangle and make it; raises ``ValueError``."""
        if not isfinite(x + y + width + height):
            raise ValueError(f"Rect({x}, {y}, {width}, {height}) has a measure that is not finite")
        if width <= 0 or height <= 0:
            raise NoRoomError(f"Rect is {width} by {height} mm; both must be above 0")
        return tuple.__new__(cls, (x, y, width, height))

    @property
    def right(self) -> float:
        """The x of the right edge, mm."""
        return self.x + self.width

    @property
    def bottom(self) -> float:
        """The y of the bottom edge, mm."""
        return self.y + self.height

    def inset(self, by: float) -> "Rect":
        """Return the rectangle ``by`` mm smaller on every side."""
        return Rect(self.x + by, self.y + by, self.width - 2 * by, self.height - 2 * by)

    def moved(self, dx: float, dy: float) -> "Rect":
        """Return the rectangle shifted by ``dx`` and ``dy`` mm."""
        x, y, width, height = self  # was checked when it was made
        return tuple.__new__(Rect, (x + dx, y + dy, width, height))

    def scaled(self, times: float) -> "Rect":
        """Return the rectangle in a picture so many times as large."""
        return Rect(self.x * times, self.y * times, self.width * times, self.height * times)

    def as_high(self, height: float) -> "Rect":
        """Return the rectangle from the same top left, ``height`` mm high."""
        return Rect(self.x, self.y, self.width, height)

    def common(self, other: "Rect") -> "Rect | None":
        """Return what the two share, or None where they share no area."""
        x, y = max(self.x, other.x), max(self.y, other.y)
        right, bottom = min(self.right, other.right), min(self.bottom, other.bottom)
        return Rect(x, y, right - x, bottom - y) if right > x and bottom > y else None

    def holds(self, other: "Rect", slack: float = 1e-6) -> bool:
        """Say whether ``other`` lies inside this one, to within ``slack`` mm."""
        x, y, width, height = self
        left, top, wide, high = other
        return (
            left >= x - slack
            and top >= y - slack
            and left + wide <= x + width + slack
            and top + high <= y + height + slack
        )

    def overlaps(self, other: "Rect", slack: float = 1e-6) -> bool:
        """Say whether the two share an area more than ``slack`` mm deep."""
        x, y, width, height = self
        left, top, wide, high = other
        return (
            x + width - left > slack
            and left + wide - x > slack
            and y + height - top > slack
            and top + high - y > slack
        )


@frozen
class Cut:
    """One straight cut, from (x1, y1) to (x2, y2) in millimetres; across or down."""

    x1: float
    y1: float
    x2: float
    y2: float

    def __post_init__(self) -> None:
        if (self.x1 == self.x2) == (self.y1 == self.y2):
            raise ValueError(f"Cut {self} must run straight across or straight down")


class Item(NamedTuple):
    """Something placed on a sheet: ``what`` is its kind, ``content`` what draw puts inside it.

    The sheet room never looks into ``content``.
    """

    what: str
    rect: Rect
    content: object = None


@frozen
class Sheet:
    """One printed side of paper: its size in mm, its items, and its cuts in order.

    ``number`` counts pages of the same kind, from 1.
    ``copies`` is how often to print it for the whole set. ``flip`` is set on a back: the edge
    that the paper was turned over on. Pieces stand ``kerf`` mm apart, the cut midway.
    ``folds`` are where it is folded. ``section`` is the pupil it belongs to, if any.
    ``stops`` are the cuts' numbers on the cutting map, where it is on the map. ``spare`` tells on
    how many of the copies each item is a spare, where the sheets' plan says so. ``later`` is set
    where it is not needed in the first week. ``week`` is what the week of a course is called that
    it is for, if it is for one. ``snips`` counts the straight cuts with scissors that do not run
    from edge to edge: slits, and bands cut out. ``name`` is the letter that the cutting map calls
    it by, if its foot tells it.
    """

    kind: SheetKind
    number: int
    stock: Stock
    width: float
    height: float
    items: tuple[Item, ...]
    cuts: tuple[Cut, ...] = ()
    copies: int = 1
    flip: Flip | None = None
    kerf: float = 0.0
    folds: tuple[Cut, ...] = ()
    section: str = ""
    stops: tuple[int, ...] = ()
    spare: tuple[int, ...] = ()
    later: bool = False
    week: str = ""
    snips: int = 0
    name: str = ""

    def __post_init__(self) -> None:
        if self.copies < 1:
            raise ValueError(f"Sheet.copies is {self.copies}; it must be 1 or more")
        if self.stops and len(self.stops) != len(self.cuts):
            raise ValueError(f"Sheet has {len(self.cuts)} cuts, {len(self.stops)} stops")
        if self.spare and len(self.spare) != len(self.items):
            raise ValueError(f"Sheet has {len(self.items)} items, {len(self.spare)} told as spare")
        right, bottom = self.width + 1e-6, self.height + 1e-6
        for what, (x, y, width, height), _ in self.items:
            if x < -1e-6 or y < -1e-6 or x + width > right or y + height > bottom:
                where = Rect(x, y, width, height)
                raise NoRoomError(f"Sheet.items: {what} at {where} leaves the page")

    def with_items(self, items: Iterable[Item]) -> "Sheet":
        """Return the sheet with ``items`` on top of its own; none of them is a spare."""
        every = (*self.items, *items)
        spare = self.spare + (0,) * (len(every) - len(self.items)) if self.spare else ()
        return replace(self, items=every, spare=spare)
