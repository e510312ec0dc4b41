"""Records of the pages that carry a course: a week, a worksheet with its key, a page of advice."""

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from kitbuilder.number import Sum
from kitbuilder.number.course.stages import Stage

if TYPE_CHECKING:
    from kitbuilder.kit.records import Block

Reader = Literal["child", "kit", "adult"]
"""Who gets a copy: each child, each kit, or the one adult."""

When = Literal["now", "later"]
"""When a page is needed: for the first week, or after it."""


@dataclass(frozen=True, slots=True)
class Asked:
    """A sum at its stage; ``about`` is the estimate for the adult, in words, ``day`` its day."""

    sum: Sum
    stage: Stage
    about: str
    day: str


@dataclass(frozen=True, slots=True)
class WeekDay:
    """A day of a week: its title, the stages it holds in words, its sums and small facts."""

    title: str
    stages: str
    sums: tuple[Asked, ...]
    facts: str


@dataclass(frozen=True, slots=True)
class WeekPage:
    """A week at a glance, with boxes to tick.

    ``ticks`` stand under each sum, ``helped`` beside each day, ``foot`` below the days; ``slip``
    are the lines of the slip for the teacher, if there is one.
    """

    title: str
    days: tuple[WeekDay, ...]
    ticks: tuple[str, ...]
    helped: tuple[str, ...]
    foot: tuple[str, ...]
    slip: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class SheetWords:
    """What is printed on every worksheet round its sums."""

    name: str
    date: str
    about: str
    check: str
    stages: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Worksheet:
    """Sums to write in columns: for the child, or with ``key`` worked for the adult.

    ``spoken`` are sums for pieces alone, which are not written; with a key each has its rest.
    ``lead`` says on a key how it is read.
    """

    title: str
    day: str
    asked: tuple[Asked, ...]
    spoken: str
    foot: str
    words: SheetWords
    key: bool = False
    lead: str = ""


@dataclass(frozen=True, slots=True)
class Advice:
    """A page of words: its kind names it, and ``reader`` says who gets a copy."""

    kind: Literal["onward", "differently", "evening", "outline"]
    blocks: tuple["Block", ...]
    reader: Reader = "adult"
    when: When = "later"


@dataclass(frozen=True, slots=True)
class CoursePages:
    """All pages that a course brings into a kit; ``slip`` has the lines of one for the teacher."""

    weeks: tuple[WeekPage, ...] = ()
    worksheets: tuple[Worksheet, ...] = ()
    keys: tuple[Worksheet, ...] = ()
    advice: tuple[Advice, ...] = ()
    slip: tuple[str, ...] = ()
