"""What a child's page says, in words: whose it is, what happened, what to ask, what comes next."""

from collections.abc import Iterator, Sequence

from kitbuilder.design.load import Words
from kitbuilder.frozen import frozen
from kitbuilder.kit import phrases
from kitbuilder.kit.class_marks import Cell, ChildMarks
from kitbuilder.number import PLACES, Sum
from kitbuilder.number.facts import facts
from kitbuilder.number.mistakes.decimal import decimal_answers
from kitbuilder.number.mistakes.foreseen import GIVING, Mistake
from kitbuilder.number.mistakes.one_out import OUT_BY
from kitbuilder.number.mistakes.profiles import answer_of
from kitbuilder.number.mistakes.reading import Fit, Verdict, beside_slip, place_beside
from kitbuilder.number.mistakes.why import why
from kitbuilder.number.scale import WHOLE
from kitbuilder.number.stock import stock

ALSO = 0.15
"""How likely a second mistake is that a page names where there is too little to say."""

OF_BANK = ("zero-skipped", "from-leftmost")
"""Mistakes whose question is about the bank."""

NAMED = 5
"""Other wrong answers, and sums not tried, that a page names."""


@frozen
class ChildWords:
    """The sentences of one child's page, and the wrong sum it shows.

    ``key`` is the mistake's, empty where none is known, and ``place`` its column; ``first`` tells
    of the sums on paper that come before the pieces, if any; ``watch`` is said quietly below.
    """

    name: str
    title: str
    note: str
    lead: str
    wrote: str
    shown: Sum
    answer: int
    key: str
    place: int | None
    mistake: str
    happened: str
    first: str
    ask: str
    asks: tuple[str, ...]
    watch: tuple[str, ...]
    pieces: str
    stock: str
    telling: str
    next: str
    tick: str
    end: str


def child_words(child: ChildMarks, words: Words, coded: bool = False) -> ChildWords | None:
    """Return the words of a child's page, None where no answer of the child is wrong."""
    shown = child.shown_sum()
    if shown is None or shown.answer is None:
        return None
    name, (key, place) = child.code if coded else child.name, _mistake(child, shown)
    others = _others(child, shown, key)
    mistake, happened = _named(shown, key, place, words)
    doubt = _doubt(child, shown, (key, place), others, words)
    watch = (*_watched(child, shown, key, words), *([] if child.next.telling else [doubt]))
    return ChildWords(
        name=name,
        title=words("child_page.title", name=name),
        note=words("child_page.note"),
        lead=_lead(child, shown, key, words),
        wrote=words("child_page.wrote", name=name),
        shown=shown.sum,
        answer=shown.answer,
        key=key,
        place=place,
        mistake=_surely(mistake, others if key else (), words),
        happened=happened,
        first=doubt if child.next.telling else "",
        ask=words("child_page.ask"),
        asks=tuple(_asked(shown, key, words)),
        watch=tuple(filter(None, watch)),
        pieces=words("child_page.pieces"),
        stock=_stock([shown.sum, *_again(child, shown), *child.next.practice], words),
        telling=words("child_page.telling"),
        next=words("child_page.next"),
        tick=words("child_page.tick"),
        end=words("child_page.end"),
    )


def _named(shown: Cell, key: str, place: int | None, words: Words) -> tuple[str, str]:
    """Return the name of the mistake in the shown sum, and what happened, or that none is known."""
    if not key:
        known = "unknown_happened" if shown.sum.with_pieces else "unknown_written"
        return words("child_page.unknown"), words(f"child_page.{known}")
    mistake = _name(key, place, words)
    happened = happened_said(key, shown.sum, place, words)
    for too in _together(key, shown):
        mistake = words("why.both", first=mistake, last=words(f"mistake.{too}.name"))
        happened = f"{happened} {happened_said(too, shown.sum, None, words)}"
    return mistake, happened


def _asked(shown: Cell, key: str, words: Words) -> Iterator[str]:
    """Yield what to ask beside the pieces, or, where none show the sum, beside what is written.

    Two mistakes that are named together have a question each.
    """
    if not shown.sum.with_pieces:
        yield words("child_page.show_written")
        return
    yield words("mistakes.first")
    if key:
        yield from asked_of((key, *_together(key, shown)), shown.sum, words)


def asked_of(keys: Sequence[str], sum_: Sum, words: Words) -> tuple[str, ...]:
    """Return the questions of the mistakes ``keys`` about ``sum_``, each once."""
    return tuple(dict.fromkeys(phrases.asks(words, key, sum_) for key in keys))


def name_quoted(key: str, words: Words, place: int | None = None) -> str:
    """Return the name of a mistake in quotation marks, as within a sentence: it may have commas."""
    return words("speech.quoted", said=_name(key, place, words))


def _name(key: str, place: int | None, words: Words) -> str:
    """Return the name of a mistake, and its column where it shows in that alone."""
    return phrases.mistaken(words, key, place)


def _lead(child: ChildMarks, shown: Cell, key: str, words: Words) -> str:
    """Return how much was right, how often the mistake ``key`` came, and the answers not shown."""
    right, count = child.reading.right, len(child.reading.reads)
    said = [words("child_page.lead", right=right, count=count)] if right else []
    again = sum(read.fit is Fit.HABIT and read.key == key for read in child.reading.reads)
    if child.reading.verdict is Verdict.HABIT and again > 1 and shown.sum.with_pieces:
        said.append(words("child_page.again", times=again))
    said += _besides(child, shown, words)
    once = "once" if shown.sum.with_pieces else "once_written"
    return " ".join(said) or words(f"child_page.{once}")


def _surely(mistake: str, others: Sequence[str], words: Words) -> str:
    """Return the name of a mistake as a title, with perhaps where ``others`` may be it as well."""
    if others:
        mistake = words("child_page.perhaps", mistake=mistake)
    return phrases.capital(mistake)


def _others(child: ChildMarks, shown: Cell, key: str) -> tuple[str, ...]:
    """Return what the shown answer may be as well as the mistake ``key``, likeliest first."""
    reading = child.reading
    if reading.verdict is Verdict.SLIPS and shown.answer is not None:
        return beside_slip(shown.sum.counted(WHOLE), int(shown.answer))
    if reading.verdict is Verdict.MORE:
        return tuple(h.key for h in reading.habits if h.probability >= ALSO and h.key != key)
    return reading.rivals


def _watched(child: ChildMarks, cell: Cell, key: str, words: Words) -> Iterator[str]:
    """Yield a second mistake, and what else to know of the mistake ``key`` in ``cell``."""
    reading, shown = child.reading, cell.sum
    if not shown.with_pieces:
        yield phrases.written_alone(shown, words)
    if reading.verdict is Verdict.HABIT:
        for too in reading.named[1:2]:
            (asks,) = asked_of([too], shown, words)
            yield words("child_page.too", name=name_quoted(too, words), asks=asks)
    if key in OF_BANK:
        yield words("child_page.bank")
    if key in OUT_BY:
        yield from _two_steps(shown, words)


def _doubt(
    child: ChildMarks,
    cell: Cell,
    mistake: tuple[str, int | None],
    others: Sequence[str],
    words: Words,
) -> str:
    """Return what is not certain: which mistake it may be, and the sums on paper that tell.

    ``mistake`` is that of the shown ``cell``, with its column; ``others`` may be it as well.
    """
    telling, said = child.next.telling, list[str]()
    if telling:
        said.append(words("child_page.first", sums=phrases.in_row([*map(str, telling)])))
    name = words("child_page.this")
    if others:
        mistake = others[0], _column(child, cell, others[0])
        name = name_quoted(mistake[0], words, mistake[1])
    elif child.reading.verdict is not Verdict.MORE or not mistake[0]:
        return " ".join(said)
    if known := [*_outcomes(telling, mistake)]:
        said.append(words("child_page.would", wrong=phrases.in_row(known), name=name))
    elif others:
        said += [words("child_page.rival", name=name), words("child_page.will_tell")]
    else:
        said.append(words("child_page.watch"))
    asked = asked_of(others[:1], cell.sum, words)
    return " ".join((*said, *(words("child_page.rival_asks", asks=asks) for asks in asked)))


def _column(child: ChildMarks, shown: Cell, key: str) -> int | None:
    """Return the only column in which the mistake ``key`` may show, None where it is all."""
    if child.reading.verdict is Verdict.HABIT:
        return next((h.place for h in child.reading.habits if h.key == key), None)
    return None if shown.answer is None else place_beside(shown.sum, shown.answer, key)


def _outcomes(sums: Sequence[Sum], mistake: tuple[str, int | None]) -> Iterator[str]:
    """Yield of each of ``sums`` the answer by which the ``mistake`` is known, never the right one.

    A child may read it. The mistake is told by its key and the column in which alone it shows, if
    any.
    """
    key, place = mistake
    for sum_ in sums:
        wrong = dict(decimal_answers(sum_)).get(key, answer_of(key, place, sum_))
        if wrong is not None and wrong != sum_.rest:
            yield str(sum_.number(wrong))


def _stock(sums: Sequence[Sum], words: Words) -> str:
    """Return the pieces that all of ``sums`` need that pieces show."""
    shown = [sum_.on(words.scale) for sum_ in sums if sum_.with_pieces]
    return words("child_page.stock", pieces=phrases.pieces(words, stock(shown)))


def _two_steps(sum_: Sum, words: Words) -> Iterator[str]:
    """Yield how the first fact of ``sum_`` that crosses ten is found in two steps, through ten."""
    for fact in facts(sum_.counted(WHOLE)):
        if fact.crosses_ten:
            first, then = fact.through_ten
            slots = {"first": Sum(fact.whole, first), "then": Sum(10, then)}
            yield words("child_page.two_steps", fact=fact, **slots)
            return


def _besides(child: ChildMarks, shown: Cell, words: Words) -> Iterator[str]:
    """Yield which other answers are wrong, and which sums were not tried; the first of many.

    Where the same mistake was made again is only counted: the class page has those answers, and
    a child takes for right what stands in print. Slips are set apart from what is neither.
    """
    told: dict[str, list[str]] = {"slips": [], "others": [], "untried": []}
    for key, cell in _left(child, shown):
        slots = {"sum": cell.sum, "answer": cell.answer}
        told[key].append(
            str(cell.sum) if key == "untried" else words("child_page.written", **slots)
        )
    for key, sums in told.items():
        if sums:
            said = phrases.in_row(sums[:NAMED])
            if len(sums) > NAMED:
                said = words("child_page.more", sums=said, count=len(sums) - NAMED)
            yield words(f"child_page.{key}", sums=said)


def _left(child: ChildMarks, shown: Cell) -> Iterator[tuple[str, Cell]]:
    """Yield each sum to do beside the ``shown`` one, after what it is: a slip, another, untried."""
    habit = child.reading.verdict is Verdict.HABIT
    for at, cell in enumerate(child.given):
        read = child.read_of(at)
        if cell.answer is None or read is None:
            yield "untried", cell
        elif cell is not shown and cell.answer != cell.sum.rest:
            same = habit and read.fit is Fit.HABIT and read.key in child.reading.named
            slip = habit and read.fit in (Fit.SLIP, Fit.SWAPPED)
            if not same:
                yield "slips" if slip else "others", cell


def _again(child: ChildMarks, shown: Cell) -> Iterator[Sum]:
    """Yield the sums that are to be done again beside the ``shown`` one."""
    return (cell.sum for key, cell in _left(child, shown) if key != "untried")


def happened_said(key: str, sum_: Sum, place: int | None, words: Words) -> str:
    """Return what happened with the mistake ``key`` in ``sum_``, in digits of that sum.

    ``place`` is its column, in which one may have been handed in; None where it shows in all:
    there the first column tells it in which the digits stand short.
    """
    column = words(f"place.{PLACES[place or 0]}")
    if key == "not-lowered" and place is not None:
        further = words(f"place.{PLACES[place + 1]}")
        return words("mistakes.not-lowered.here", place=column, next=further)
    pairs = _pairs(sum_, lowered=place is not None)
    short = [n for n, (top, below) in enumerate(pairs) if top < below]
    top, below = pairs[place if place in short else min(short, default=0)]
    return words(f"mistakes.{key}.happened", place=column, top=top, below=below)


def _pairs(sum_: Sum, *, lowered: bool) -> list[tuple[int, int]]:
    """Return the digits of ``sum_`` by columns, ones first; ``lowered`` by what was handed in."""
    found, lent = [], 0
    for n in range(sum_.places):
        top, below = int(sum_.whole) // 10**n % 10 - lent, int(sum_.part) // 10**n % 10
        found.append((max(0, top), below))
        lent = int(lowered and top < below)
    return found


def _together(key: str, shown: Cell) -> tuple[str, ...]:
    """Return what else was at work in the shown sum, where only two mistakes at once explain it."""
    causes = () if shown.answer is None else why(shown.sum, shown.answer)
    if not causes or key not in causes[0].keys:
        return ()
    return tuple(other for other in causes[0].keys if other != key)


def practised(child: ChildMarks) -> tuple[Mistake, ...]:
    """Return the mistakes that a child's page names, of those that give an answer to other sums."""
    shown = child.shown_sum()
    if shown is None:
        return ()
    first = _mistake(child, shown)
    named = (first, *((key, None) for key in _together(first[0], shown)))
    return tuple(mistake for mistake in named if mistake[0] in GIVING)


def _mistake(child: ChildMarks, shown: Cell) -> tuple[str, int | None]:
    """Return the mistake that the shown sum speaks for, and its column; empty if none is known."""
    reading = child.reading
    if reading.verdict is Verdict.HABIT:
        named = next(likely for likely in reading.habits if likely.key == reading.named[0])
        return named.key, named.place
    if shown.answer is None or reading.verdict is Verdict.UNKNOWN:
        return "", None
    causes = why(shown.sum, shown.answer)
    if reading.verdict is Verdict.SLIPS:
        small = [c for c in causes if c.key in ("slip", "order")]
        causes = tuple(small) or causes
    return (causes[0].key, causes[0].place) if causes else ("", None)
