"""What a kit holds and how it is cut and reckoned, as checked records."""

from kitbuilder.errors import RefusedError, out_of_range
from kitbuilder.frozen import frozen
from kitbuilder.kit.advice import WrongAnswers
from kitbuilder.kit.card_records import CardWishes, Pack
from kitbuilder.kit.course.course_records import CoursePages
from kitbuilder.kit.demonstration import Demonstration
from kitbuilder.kit.lesson.script import Taught
from kitbuilder.kit.lesson.strips import Strips
from kitbuilder.kit.lesson.writing import Writing
from kitbuilder.kit.mat_needs import MatWish
from kitbuilder.number import Pieces, Sum

Lesson = Taught | Strips | Writing | WrongAnswers
"""What a page of the guide, or a few of them, shows."""


@frozen
class ExchangeCard:
    """A card that shows one piece of place ``source`` (1 to 3) beside ten of the next smaller."""

    source: int
    text: str

    def __post_init__(self) -> None:
        if self.source not in (1, 2, 3):
            raise ValueError(f"ExchangeCard.source is {self.source}; it must be 1 to 3")


MOST_KITS = 200
"""Kits that may be printed and cut in one go: a school of 400 children, two to a kit."""

MOST_LAYERS = 20
"""Layers of card that may lie under one stroke."""


@frozen
class CutWish:
    """How many kits to cut, through how many layers at a time, and whether same sheets come first.

    With ``same_sheets`` few different sheets matter more than few strokes. ``spares`` is how
    many per cent of the ones and of the tens are added. ``children`` use them, one to a kit
    unless it is said. With ``home`` each bag takes the lesson, the answers, a slip and a label
    with a place for the name. ``piled`` where a file holds every copy of every sheet.
    """

    kits: int = 1
    layers: int = 1
    same_sheets: bool = False
    spares: float = 0.0
    children: int | None = None
    home: bool = False
    piled: bool = False

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

    @property
    def sharing(self) -> int:
        """How many children share a kit, at most."""
        return -(-self.readers // self.kits)

    def extra(self, bag: Pieces) -> Pieces:
        """Return the pieces to add to all bags of ``bag``: ``spares`` per cent, rounded up.

        They are ones and tens, so many per cent of each: those are small enough to be lost.
        """
        have = (count * self.kits for count in (bag.ones, bag.tens))
        return Pieces.by_place(tuple(-int(-count * self.spares // 100) for count in have))

    def total(self, bag: Pieces) -> Pieces:
        """Return the pieces of all bags of ``bag``, with what is added."""
        return Pieces(*(count * self.kits for count in bag.counts)) + self.extra(bag)


@frozen
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


@frozen
class Kit:
    """The contents of one kit.

    ``pieces`` is what to cut (all zero when pieces are left out). ``limit`` is set when the
    kit serves every sum with numbers below it. ``mats`` says which mats, None when they are
    left out. ``packs`` are the sets of cards, made as ``cards`` wished. Each of the
    ``guide`` begins a page. ``course`` are the pages of its week or plan, and ``first`` the sums
    of that, which the pieces and a mat serve as well. ``demonstration`` is set where large pieces
    are wished for. ``help`` is what a kit for one sum says of wrong answers. With ``metre`` there
    is a metre that tens and ones lie on.
    """

    sums: tuple[Sum, ...]
    limit: int | None
    pieces: Pieces
    mats: MatWish | None
    exchange_cards: tuple[ExchangeCard, ...]
    packs: tuple[Pack, ...]
    cards: CardWishes
    guide: tuple[Lesson, ...]
    course: CoursePages = NO_COURSE
    first: tuple[Sum, ...] = ()
    demonstration: Demonstration | None = None
    help: tuple[str, ...] = ()
    metre: bool = False
