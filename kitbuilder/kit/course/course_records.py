"""Records of the pages that carry a course: weeks, worksheets, the road, for adults."""

from kitbuilder.frozen import frozen
from kitbuilder.kit.lesson.mat_scenes import MatScene
from kitbuilder.number import Pieces, Sum
from kitbuilder.number.course.stages import Stage
from kitbuilder.number.facts import Fact
from kitbuilder.number.written import Column


@frozen
class Asked:
    """A sum at its stage; ``about`` is the estimate for the adult, in words, ``day`` its day."""

    sum: Sum
    stage: Stage
    about: str
    day: str


@frozen
class WeekDay:
    """A day of a week: its title, its sums and small facts; a ``note`` where it is special."""

    title: str
    sums: tuple[Asked, ...]
    facts: str
    note: str = ""


@frozen
class WeekPage:
    """A week at a glance, with boxes to tick; ``name`` is what the week is called.

    ``on`` says when each stage is done that is met in it; ``stop`` when a day ends,
    ``back`` when to go a stage back, ``passed`` when the check is. What comes back ``later`` in
    the year is only written, without a clock. ``lessons`` are titles of those on its kinds.
    """

    name: str
    title: str
    days: tuple[WeekDay, ...]
    on: tuple[tuple[Stage, str], ...]
    stop: str
    back: str = ""
    passed: str = ""
    later: bool = False
    lessons: tuple[str, ...] = ()


@frozen
class SheetWords:
    """What is printed on every worksheet round its sums.

    ``framed`` is said of a drawing that has a frame, ``own`` where a child may set a sum.
    """

    name: str
    date: str
    about: str
    check: str
    stages: tuple[str, ...]
    framed: str
    own: str


@frozen
class Worksheet:
    """Sums to write in columns: for the child, or with ``key`` worked for the adult.

    ``spoken`` are sums for pieces alone, which are not written; with a key each has its rest.
    ``lead`` says on a key how it is read; ``week`` is the name of its week, so many of whose sums
    stand ``before`` these. The fullest of its sheets has ``most`` sums: all have as many places.
    """

    week: str
    title: str
    day: str
    asked: tuple[Asked, ...]
    spoken: str
    foot: str
    words: SheetWords
    key: bool = False
    lead: str = ""
    before: int = 0
    most: int = 0


@frozen
class RoadRow:
    """A kind of sum by its key: the sum that opens it, further ones, and boxes for each stage.

    It is not ``reached`` where it takes more pieces than there are: then its sum is one that a
    kit is made for. What is ``told`` stands for the further ones.
    """

    kind: str
    opening: Sum | None
    more: tuple[Sum, ...]
    boxes: tuple[int, ...]
    reached: bool = True
    told: str = ""


@frozen
class Road:
    """How far a child is, and what comes next.

    ``reach`` tells in sentences which sums the pieces can do; nothing where there are none.
    ``begins`` is the kind of the row where it begins, empty for the first. ``taught`` where a word
    for adults who learned another way stands on it.
    """

    rows: tuple[RoadRow, ...]
    reach: tuple[str, ...] = ()
    begins: str = ""
    taught: bool = False
    checked: bool = False


@frozen
class EveningMoment:
    """One picture of a parents' evening: its heading, the mat, what is told."""

    title: str
    scene: MatScene
    told: str


@frozen
class Evening:
    """The page for a parents' evening: a sum in four moments, and as it is written."""

    sum: Sum
    moments: tuple[EveningMoment, ...]
    columns: tuple[Column, ...]


@frozen
class LessonOutline:
    """A lesson with a class: small facts, its sum, each pair's pieces and sums, the last sum."""

    facts: tuple[Fact, ...]
    sum: Sum
    pieces: Pieces
    pairs: tuple[Sum, ...]
    exit: Sum


@frozen
class CoursePages:
    """All pages that a course brings into a kit.

    ``slips`` are how many each child takes for the teacher, ``differently`` where the page for
    adults who learned another way is wanted.
    """

    weeks: tuple[WeekPage, ...] = ()
    worksheets: tuple[Worksheet, ...] = ()
    keys: tuple[Worksheet, ...] = ()
    road: Road | None = None
    slips: int = 0
    differently: bool = False
    evening: Evening | None = None
    outline: LessonOutline | None = None
