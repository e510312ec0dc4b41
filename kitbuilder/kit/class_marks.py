"""What the answers of a class say, child by child: the content of the marks pages and record."""

from collections.abc import Sequence
from dataclasses import replace
from zlib import crc32

from kitbuilder.frozen import frozen
from kitbuilder.kit.lesson.mistaken import ACROSS_ZERO
from kitbuilder.number.choice.patterns import pattern
from kitbuilder.number.course.next_sums import TELLING, NextSums, next_sums, with_unequal_decimals
from kitbuilder.number.mistakes.decimal import OF_DECIMALS
from kitbuilder.number.mistakes.foreseen import Mistake
from kitbuilder.number.mistakes.groups import Groups, HabitGroup, groups
from kitbuilder.number.mistakes.posterior import Answered
from kitbuilder.number.mistakes.reading import Fit, Read, Reading, Verdict, beside_slip, read
from kitbuilder.number.mistakes.reading_decimals import counted_in_tenths, with_decimals
from kitbuilder.number.mistakes.why import ORDER, SLIP, why
from kitbuilder.number.scale import HUNDREDTHS, WHOLE, Scale
from kitbuilder.number.sums import PLACES, Sum, digits, in_tenths

SEED = 1
"""With a child's name, what the next sums are drawn by."""


@frozen
class Cell:
    """One sum as it was given to a child: the answer is None where it is blank.

    ``line`` is that of the table it stood in.
    """

    sum: Sum
    answer: int | None
    line: int = 0


@frozen
class ChildMarks:
    """One child: ``name`` and ``code``, what was ``given``, how it reads and what comes next.

    Not ``named``, it is no pupil of a class: its name is the word for any child.
    """

    name: str
    code: str
    given: tuple[Cell, ...]
    reading: Reading
    next: NextSums
    named: bool = True

    def read_of(self, at: int) -> Read | None:
        """Return how the answer at ``at`` in ``given`` reads; None where it is blank."""
        return next((read for read in self.reading.reads if read.answered.row == at), None)

    def mistake_of(self, read: Read) -> Mistake:
        """Return the one mistake that an answer is told to be wherever it is shown, and its column.

        The child's own habit comes before the likeliest single mistake that gives the answer, a
        slip before that where the child makes slips alone; where there are too many to be slips,
        none is one. The key is empty where the answer is right or nothing is known.
        """
        cell = self.given[read.answered.row]
        if read.fit is Fit.RIGHT or cell.answer is None:
            return "", None
        if read.fit is Fit.HABIT:
            own = (h.place for h in self.reading.habits if h.key == read.key)
            return read.key, next(own, None)
        alone = [(c.key, c.place) for c in why(cell.sum, cell.answer) if len(c.keys) == 1]
        small = [mistake for mistake in alone if mistake[0] in (SLIP, ORDER)]
        if read.fit is Fit.OTHER:
            alone = [mistake for mistake in alone if mistake not in small]
        elif self.reading.verdict is Verdict.SLIPS:
            alone = small + alone
        return alone[0] if alone else ("", None)

    def shown_key(self, read: Read) -> str:
        """Return the mistake that an answer is shown to fit; empty where it fits none."""
        return self.mistake_of(read)[0]

    def shows(self, key: str, sum_: Sum) -> bool:
        """Say whether an answer to ``sum_`` fits the mistake ``key``."""
        return any(
            (read := self.read_of(at)) and read.fit is Fit.HABIT and read.key == key
            for at, cell in enumerate(self.given)
            if cell.sum == sum_
        )

    def shown_sum(self) -> Cell | None:
        """Return the child's own wrong sum that shows the mistake best; None if none is wrong.

        What fits the habit comes before slips, and where no mistake is known what fits none before
        both; among slips what a habit gives too. Where a zero was skipped, a sum in which no digit
        was written below a zero on top shows that alone. Then one that needs no exchange across a
        zero, unless that is the mistake; then the one that no other mistake gives as well, and the
        one with fewest places and fewest pieces, whose pictures are largest.
        """
        order = {Fit.HABIT: 0, Fit.SLIP: 1, Fit.SWAPPED: 1, Fit.NEAR: 2, Fit.OTHER: 2}
        unknown = self.reading.verdict is Verdict.UNKNOWN
        wrong = [read for read in self.reading.reads if read.fit is not Fit.RIGHT]
        if not wrong:
            return None
        named, slips = self.reading.named[:1], self.reading.verdict is Verdict.SLIPS

        def worth(read: Read) -> tuple[float, ...]:
            a = read.answered
            asked = self.given[a.row].sum
            doubted = slips and beside_slip(a.sum, a.answer) != ()
            clear = sum(c.likelihood for c in why(asked, a.answer) if c.keys == named)
            pieces = sum(digits(int(asked.whole), len(PLACES)))
            across = named != () and named[0] not in ACROSS_ZERO and pattern(a.sum).crossed != ()
            mixed = named == ("zero-skipped",) and _zeros_turned(a.sum, a.answer)
            return (
                unknown and self.shown_key(read) != "",
                order[read.fit],
                not doubted,
                mixed,
                across,
                -round(clear, 1),
                a.sum.places,
                pieces,
                a.row,
            )

        return self.given[min(wrong, key=worth).answered.row]


def _zeros_turned(sum_: Sum, answer: int) -> int:
    """Return in how many columns a zero on top was answered by the digit below it."""
    columns = (
        [int(n) // 10**k % 10 for n in (sum_.whole, sum_.part, answer)] for k in range(sum_.places)
    )
    return sum(top == 0 and below == given > 0 for top, below, given in columns)


def untried_kinds(cells: Sequence[Cell]) -> tuple[Sum, ...]:
    """Return the blank sums of ``cells`` whose exchanges no answer shows, in as many places."""

    def kind(cell: Cell) -> tuple[int, set[int], bool]:
        counted = cell.sum.counted(WHOLE)
        found = pattern(counted)
        return counted.places, {*found.receives}, found.crossed != ()

    tried = [kind(cell) for cell in cells if cell.answer is not None]
    blank = ((cell.sum, kind(cell)) for cell in cells if cell.answer is None)
    return tuple(
        sum_
        for sum_, (places, receives, crossed) in blank
        if not any(p >= places and r >= receives and c == crossed for p, r, c in tried)
    )


@frozen
class ClassMarks:
    """A class read: children in the order of their table, the ``sums`` of its columns, groups.

    ``coded`` says that codes stand for names in the record and on the pages.
    """

    children: tuple[ChildMarks, ...]
    sums: tuple[Sum, ...]
    groups: Groups
    coded: bool = False

    def built(self, group: HabitGroup) -> Sum | None:
        """Return the sum to build with ``group``: whose own answers show its mistake most often.

        Of those the first that a child's pictures show. None where no answer is wrong.
        """
        some = [self.children[at] for at in group.children]
        own = [cell.sum for child in some if (cell := child.shown_sum())]
        given = [cell.sum for child in some for cell in child.given]

        def shows(sum_: Sum) -> tuple[bool, int]:
            return sum_.with_pieces, sum(child.shows(group.key, sum_) for child in some)

        return max(dict.fromkeys((*own, *given)), key=shows) if own else None


def class_marks(papers: Sequence[tuple[str, Sequence[Cell]]], coded: bool = False) -> ClassMarks:
    """Return the class of the children in ``papers``: their names, each with the cells given.

    A child's next sums are the same whoever else is in the table. Decimals are read as the whole
    numbers of their smallest place, and for what only they show.
    """
    width = len(str(len(papers)))
    children = []
    for number, (name, cells) in enumerate(papers, 1):
        answered = [
            Answered(cell.sum.counted(WHOLE), int(cell.answer), row)
            for row, cell in enumerate(cells)
            if cell.answer is not None
        ]
        reading = read(answered, len(cells) - len(answered))
        reading = with_decimals(reading, [cell.sum for cell in cells])
        untried = untried_kinds(cells) if reading.verdict is Verdict.RIGHT else ()
        if untried:
            reading = replace(reading, verdict=Verdict.MORE)
        code = f"P{number:0{max(2, width)}d}"
        after = _next(reading, [cell.sum for cell in cells], SEED + crc32(name.encode()))
        if untried:  # these tell it
            after = replace(after, telling=untried[:TELLING])
        children.append(ChildMarks(name, code, tuple(cells), reading, after))
    sums = tuple(dict.fromkeys(cell.sum for child in children for cell in child.given))
    return ClassMarks(tuple(children), sums, groups([child.reading for child in children]), coded)


def _next(reading: Reading, given: Sequence[Sum], seed: int) -> NextSums:
    """Return the sums that come next, written as those ``given``.

    After a mistake of decimals they show it: their numbers have decimals of different lengths.
    Tenths alone come after tenths; what three places alone show is practised in hundredths. None
    has thousandths, so that pieces show it.
    """
    asked = [sum_.counted(WHOLE) for sum_ in given]
    scale = given[0].scale if given else WHOLE
    if not scale.decimals:
        return next_sums(reading, asked, seed)
    less = 10 ** (scale.decimals - 1)
    scale = replace(scale, decimals=HUNDREDTHS.decimals)
    key = reading.habits[0].key if reading.habits else ""
    if in_tenths(given) and key not in OF_DECIMALS:
        tenths = counted_in_tenths(reading, less)
        found = next_sums(tenths, [sum_.per(less) for sum_ in asked], seed, fewest=2)
        as_tenths = _written(found, scale, 10)
        if all(sum_.with_pieces for sum_ in as_tenths.practice):
            return as_tenths
        return replace(as_tenths, practice=_written(found, scale).practice)
    found = next_sums(reading, asked, seed)
    if key in OF_DECIMALS:
        return with_unequal_decimals(found, key, scale, asked, seed)
    return _written(found, scale)


def _written(found: NextSums, scale: Scale, times: int = 1) -> NextSums:
    """Return the sums ``found`` on ``scale``, each so many ``times`` what it counts."""
    telling, practice = (
        tuple(sum_.times(times).counted(scale) for sum_ in sums)
        for sums in (found.telling, found.practice)
    )
    return NextSums(telling, practice)
