"""What a pack of cards holds, as checked records."""

from typing import Literal, get_args

from kitbuilder.frozen import frozen
from kitbuilder.number import Sum
from kitbuilder.number.course.stages import STAGES as STAGES
from kitbuilder.number.course.stages import Stage as Stage
from kitbuilder.number.facts import Fact
from kitbuilder.number.mistakes.foreseen import Mistake
from kitbuilder.number.written import Column

Backs = Literal["separate", "long-edge", "short-edge", "fold"]
BACKS: tuple[Backs, ...] = get_args(Backs)

Kind = Literal[
    "exchange",
    "tasks",
    "stories",
    "additions",
    "facts",
    "arrows",
    "digits",
    "record",
    "sheet",
]
KINDS: tuple[Kind, ...] = get_args(Kind)

FactPack = Literal["crossing-ten", "ten-and-crossing"]
FACT_PACKS: tuple[FactPack, ...] = get_args(FactPack)


@frozen
class Task:
    """One sum to be asked, at a stage.

    ``line`` is that of the table it was read from, 0 if it was not; ``staged`` says whether that
    line names the stage. ``practises`` are the child's own mistakes that it is for.
    """

    sum: Sum
    stage: Stage = "pieces"
    line: int = 0
    staged: bool = False
    practises: tuple[Mistake, ...] = ()

    def __post_init__(self) -> None:
        if self.stage not in STAGES:
            raise ValueError(f"Task.stage is {self.stage!r}; it must be one of {STAGES}")


@frozen
class Pupil:
    """One child's tasks, in the order they are asked; ``name`` stands on the label card.

    ``why`` tells the adult what they practise, where that is known.
    """

    name: str
    tasks: tuple[Task, ...]
    why: str = ""

    def __post_init__(self) -> None:
        if not self.name or not self.tasks:
            raise ValueError("Pupil needs a name and at least one task")


@frozen
class CardWishes:
    """How cards are wished for.

    ``kinds`` are the kinds of cards to make, ``backs`` is where the answers go, and
    ``headings`` says whether column layouts are headed. With ``each`` the answers of each pupil
    stand apart, to go into a file of their own.
    """

    stage: Stage = "pieces"
    backs: Backs = "separate"
    kinds: tuple[Kind, ...] = ("exchange", "tasks")
    facts: FactPack = "crossing-ten"
    headings: bool = True
    each: bool = False

    def __post_init__(self) -> None:
        for name, allowed in (("stage", STAGES), ("backs", BACKS), ("facts", FACT_PACKS)):
            if getattr(self, name) not in allowed:
                raise ValueError(f"CardWishes.{name} is {getattr(self, name)!r}; see {allowed}")
        if not self.kinds or any(kind not in KINDS for kind in self.kinds):
            raise ValueError(f"CardWishes.kinds is {self.kinds}; choose from {KINDS}")


@frozen
class Back:
    """What is behind a task: the written columns, the two parts, the exchanges and the check.

    ``part`` and ``rest`` are what the parts are called, ``adult`` says whom the back is for,
    and ``end`` what to do when the answer is right.
    """

    sum: Sum
    columns: tuple[Column, ...]
    part: str
    rest: str
    exchanges: tuple[str, ...]
    check: str
    adult: str
    end: str


@frozen
class TaskCard:
    """A card that asks one sum of a child.

    ``lines`` say what to do (none where the sum is only written); ``headings`` are the
    columns' names, ones first, or empty; ``own`` whose card it is and its number, if a
    pupil's.
    """

    sum: Sum
    stage: Stage
    lines: tuple[str, ...]
    headings: tuple[str, ...]
    back: Back | None = None
    own: str = ""

    @property
    def places(self) -> int:
        """How many columns its sum has."""
        return self.sum.places


@frozen
class BlankCard:
    """A card for a sum of one's own, of ``places`` columns; ``lines`` say what to do with it.

    ``own`` says whose card it is, if a pupil's.
    """

    places: int
    stage: Stage
    lines: tuple[str, ...]
    headings: tuple[str, ...]
    own: str = ""


@frozen
class FactCard:
    """A card with one small fact, a double ten-frame, and ``lines`` that say how to go on.

    ``steps`` stand on its back, if it has one; ``own`` says whose card it is and its number.
    """

    fact: Fact
    lines: tuple[str, ...]
    steps: tuple[str, ...] = ()
    own: str = ""


@frozen
class SaidCard:
    """A card that tells what to do: a heading and lines, each with the name of its pictogram."""

    heading: str
    lines: tuple[str, ...]
    pictograms: tuple[str, ...]


@frozen
class StoryCard:
    """A card with a sum in words: its kind's name, the story, and ``foot``, how to go about it."""

    kind: Literal["take", "missing", "difference"]
    heading: str
    text: str
    sum: Sum
    foot: str


@frozen
class LabelCard:
    """The card that says whose pack it is and what it holds."""

    name: str
    lines: tuple[str, ...]


Card = TaskCard | BlankCard | SaidCard | StoryCard | FactCard | LabelCard


@frozen
class Wrong:
    """A foreseen wrong answer, what the mistake is called, and what the adult asks then.

    ``names`` is what it is called where another that gives the same answer is named too.
    """

    answer: int
    name: str
    asks: str
    names: str = ""


@frozen
class Answer:
    """One sum worked for the adult: columns, exchanges, and at most three wrong answers.

    ``left`` and ``out`` are what the two parts are called, ``says`` and ``asks`` what stands
    over the wrong answers and the questions; ``note`` says why a sum teaches little.
    ``told`` is the kind of a story and ``written`` how its card is written, "52 − □ = 28"; where
    what is left is not ``asked`` it is not ticked. With ``added`` the parts are added in columns.
    """

    sum: Sum
    columns: tuple[Column, ...]
    exchanges: tuple[str, ...] = ()
    note: str = ""
    wrong: tuple[Wrong, ...] = ()
    left: str = ""
    out: str = ""
    says: str = ""
    asks: str = ""
    told: str = ""
    written: str = ""
    asked: bool = True
    added: bool = False

    def __post_init__(self) -> None:
        if len(self.wrong) > 3:
            raise ValueError(f"Answer.wrong holds {len(self.wrong)} answers; three at most")

    @property
    def parts(self) -> tuple[tuple[str, int], tuple[str, int]]:
        """The two parts as they are shown: what each is called, and its number."""
        left, out = (self.left, self.sum.rest), (self.out, self.sum.part)
        return (out, left) if self.added else (left, out)


@frozen
class FactAnswer:
    """One small fact for the adult: the fact with its answer, and its steps through ten."""

    text: str
    steps: str


@frozen
class RecordSheet:
    """A page of empty column layouts to write sums beside the mat."""

    title: str
    headings: tuple[str, ...]


@frozen
class Pack:
    """One set of cards: a kit's own (``name`` is empty) or one pupil's.

    ``arrows`` are the numbers on arrow cards, ``digits`` the digits and signs on small cards,
    each as often as it is needed. ``key`` is what is left in each task, by the card's number.
    ``sheet`` are the sums of a page to write them on. ``blank`` is the card that fills a sheet.
    ``why`` tells the adult what a pupil's pack practises.
    """

    name: str = ""
    why: str = ""
    label: LabelCard | None = None
    tasks: tuple[TaskCard, ...] = ()
    said: tuple[SaidCard | StoryCard, ...] = ()
    facts: tuple[FactCard, ...] = ()
    arrows: tuple[int, ...] = ()
    digits: tuple[str, ...] = ()
    record: RecordSheet | None = None
    answers: tuple[Answer, ...] = ()
    fact_answers: tuple[FactAnswer, ...] = ()
    key: str = ""
    sheet: tuple[Sum, ...] = ()
    blank: BlankCard | None = None
