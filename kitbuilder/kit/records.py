"""What a lesson needs, as checked records."""

from dataclasses import dataclass
from typing import Literal

from kitbuilder.errors import RefusedError, out_of_range
from kitbuilder.kit.advice import WrongAnswers
from kitbuilder.kit.card_records import CardWishes, Pack
from kitbuilder.kit.course.course_records import CoursePages
from kitbuilder.kit.demonstration import Demonstration
from kitbuilder.kit.lesson.script import Taught
from kitbuilder.kit.lesson.strips import Strips
from kitbuilder.kit.lesson.writing import Writing
from kitbuilder.kit.mat_needs import Arrangement, MatWish
from kitbuilder.number import Pieces, Sum
from kitbuilder.number.written import Column

Style = Literal["title", "heading", "under", "body", "step"]
"""What a paragraph is; ``under`` is a small heading under a heading."""


@dataclass(frozen=True, slots=True)
class Say:
    """One paragraph for the adult; a step has a ``marker`` such as ``1.`` before it."""

    style: Style
    text: str
    marker: str = ""


@dataclass(frozen=True, slots=True)
class Scene:
    """The pieces at one moment, to be drawn small.

    ``whole``, ``part`` and ``rest`` lie in the zones of a mat of that ``arrangement``; of them
    ``laid_whole``, ``laid_part`` and ``laid_rest`` were just laid down. ``ghosts`` lack from
    the zone of the whole: just taken away, or not enough of them there yet. A mat of two zones
    has none for the rest. Labels stand over the zones.
    """

    whole: Pieces
    part: Pieces = Pieces()
    laid_whole: Pieces = Pieces()
    laid_part: Pieces = Pieces()
    ghosts: Pieces = Pieces()
    whole_label: str = ""
    part_label: str = ""
    rest: Pieces = Pieces()
    laid_rest: Pieces = Pieces()
    rest_label: str = ""
    arrangement: Arrangement = "two"

    def __post_init__(self) -> None:
        for held, laid in (
            (self.whole, self.laid_whole),
            (self.part, self.laid_part),
            (self.rest, self.laid_rest),
        ):
            if held.most(laid) != held:
                raise ValueError(f"Scene: {laid} were laid, but only {held} are there")
        if self.arrangement == "two" and self.rest.value:
            raise ValueError(f"Scene: {self.rest} lie in the zone of the rest, which is not there")


@dataclass(frozen=True, slots=True)
class Shown:
    """One step of a guide's page: its picture, the sum as written so far, what to do and say."""

    scene: Scene
    said: tuple[str, ...]
    marker: str = ""
    columns: tuple[Column, ...] = ()


@dataclass(frozen=True, slots=True)
class Blanks:
    """A table to fill in by hand: its headings and how many rows."""

    headings: tuple[str, ...]
    rows: int


@dataclass(frozen=True, slots=True)
class Ticked:
    """Something to do, with a box to tick before its title and what it is below."""

    title: str
    lines: tuple[str, ...]


Block = Say | Shown | Blanks | Ticked | Taught | Strips | Writing | WrongAnswers
"""What a guide's page is made of; a lesson is alone on its pages."""


@dataclass(frozen=True, slots=True)
class ExchangeCard:
    """A card that shows one piece of place ``source`` (1 or 2) beside ten of the next smaller."""

    source: int
    text: str

    def __post_init__(self) -> None:
        if self.source not in (1, 2):
            raise ValueError(f"ExchangeCard.source is {self.source}; it must be 1 or 2")


MOST_KITS = 200
"""Kits that may be printed and cut in one go: a school of 400 children, two to a kit."""

MOST_LAYERS = 20
"""Layers of card that may lie under one stroke."""


@dataclass(frozen=True, slots=True)
class CutWish:
    """How many kits to cut, through how many layers at a time, and whether same sheets come first.

    With ``same_sheets`` few different sheets matter more than few strokes. ``spares`` is how
    many per cent of the ones and of the tens are added. ``children`` use them, one to a kit
    unless it is said. With ``home`` each bag takes the lesson, the answers, a slip and a label
    with a place for the name.
    """

    kits: int = 1
    layers: int = 1
    same_sheets: bool = False
    spares: float = 0.0
    children: int | None = None
    home: bool = False

    def __post_init__(self) -> None:
        for option, given, most in (
            ("kits", self.kits, MOST_KITS),
            ("layers", self.layers, MOST_LAYERS),
        ):
            if not 1 <= given <= most:
                raise out_of_range(option, given, 1, most)
        if not 0 <= self.spares <= 100:
            raise RefusedError("class.spares", option="spares", given=self.spares)

    @property
    def readers(self) -> int:
        """How many children there are to print for."""
        return self.children or self.kits

    def extra(self, bag: Pieces) -> Pieces:
        """Return the pieces to add to all bags of ``bag``: ``spares`` per cent, rounded up.

        They are ones and tens, so many per cent of each: those are small enough to be lost.
        """
        have = (count * self.kits for count in (bag.ones, bag.tens))
        return Pieces.by_place(tuple(-int(-count * self.spares // 100) for count in have))


@dataclass(frozen=True, slots=True)
class EstimateWish:
    """What an estimate is reckoned with: cuts a minute, the card's g/m², the price of a sheet."""

    cuts_per_minute: float = 4.0
    grammage: float | None = None
    per_sheet: float | None = None

    def __post_init__(self) -> None:
        for option, given, least, most in (
            ("cuts-per-minute", self.cuts_per_minute, 0.1, 1000),
            ("grammage", self.grammage, 20, 1000),
            ("per-sheet", self.per_sheet, 0, 100_000),
        ):
            if given is not None and not least <= given <= most:
                raise out_of_range(option, given, least, most)


NO_COURSE = CoursePages()


@dataclass(frozen=True, slots=True)
class Kit:
    """The contents of one kit.

    ``pieces`` is what to cut (all zero when pieces are left out). ``limit`` is set when the
    kit serves every sum with numbers below it. ``mats`` says which mats, None when they are
    left out. ``packs`` are the sets of cards, made as ``cards`` wished. ``guide`` holds the
    blocks of each stage, which begins a page. ``course`` are the pages of its week or plan, and
    ``first`` the sums of that, which the pieces and a mat serve as well. ``demonstration`` is
    set where large pieces are wished for.
    """

    sums: tuple[Sum, ...]
    limit: int | None
    pieces: Pieces
    mats: MatWish | None
    exchange_cards: tuple[ExchangeCard, ...]
    packs: tuple[Pack, ...]
    cards: CardWishes
    guide: tuple[tuple[Block, ...], ...]
    course: CoursePages = NO_COURSE
    first: tuple[Sum, ...] = ()
    demonstration: Demonstration | None = None
