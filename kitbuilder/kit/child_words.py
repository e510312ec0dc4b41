"""What a child's page says, in words: whose it is, what happened, what to ask, what comes next."""

from collections.abc import Iterator, Sequence

from kitbuilder.design.load import Words
from kitbuilder.frozen import frozen
from kitbuilder.kit import phrases
from kitbuilder.kit.class_marks import Cell, ChildMarks
from kitbuilder.number import PLACES, Sum
from kitbuilder.number.choice.patterns import pattern
from kitbuilder.number.facts import facts
from kitbuilder.number.mistakes.decimal import decimal_answers
from kitbuilder.number.mistakes.foreseen import GIVING, Mistake
from kitbuilder.number.mistakes.one_out import OUT_BY
from kitbuilder.number.mistakes.profiles import answer_of
from kitbuilder.number.mistakes.reading import Fit, Verdict, beside_slip, place_beside
from kitbuilder.number.mistakes.why import why
from kitbuilder.number.scale import WHOLE
from kitbuilder.number.stock import stock

ALSO, BESIDE = 0.15, 2
"""How likely a second mistake is that is named where there is too little to say; and how many are
named beside the likeliest."""

OF_BANK = ("zero-skipped", "from-leftmost")
"""Mistakes whose question is about the bank."""

NAMED = 5
"""Other wrong answers, and sums not tried, that a page names."""


@frozen
class ChildWords:
    """The sentences of one child's page, and the wrong sum it shows.

    ``key`` is the mistake's, empty where none is known, and ``place`` its column; ``first`` tells
    of the sums on paper that come before the pieces, if any, and ``first_later`` the same where
    they stand on a later page; ``further`` tells what to ask later, and when; ``watch`` is said
    quietly below; ``built`` are all sums that take pieces; ``notes`` tell when a next sum is
    ticked, and what comes first across a zero.
    """

    name: str
    title: str
    note: str
    lead: tuple[str, ...]
    wrote: str
    shown: Sum
    answer: int
    key: str
    place: int | None
    mistake: str
    happened: str
    first: str
    first_later: str
    ask: str
    asks: tuple[str, ...]
    further: tuple[str, ...]
    watch: tuple[str, ...]
    pieces: str
    built: tuple[Sum, ...]
    stock: str
    telling: str
    next: str
    notes: tuple[str, ...]
    end: str


def child_words(child: ChildMarks, words: Words, coded: bool = False) -> ChildWords | None:
    """Return the words of a child's page, None where no answer of the child is wrong."""
    shown = child.shown_sum()
    if shown is None or shown.answer is None:
        return None
    name, (key, place) = child.code if coded else child.name, _mistake(child, shown)
    at = "" if child.named else "_home"
    others = _others(child, shown, key)
    mistake, happened = _named(shown, key, place, words)
    if key and (others or child.reading.verdict is Verdict.MORE):
        mistake = words("child_page.perhaps", mistake=mistake)
    again = (cell.sum for cell in _again(child, shown))
    known = (sum_ for _, sum_, _ in _known(child, shown, others))
    sums = (shown.sum, *known, *again, *child.next.practice)
    built = tuple(dict.fromkeys(sum_.on(words.scale) for sum_ in sums if sum_.with_pieces))
    return ChildWords(
        name=name,
        title=words(f"child_page.title{at}", name=name),
        note="" if at else words("child_page.note"),
        lead=_lead(child, shown, key, words),
        wrote=words(f"child_page.wrote{at}", name=name),
        shown=shown.sum,
        answer=shown.answer,
        key=key,
        place=place,
        mistake=mistake,
        happened=happened,
        first=_first(child, words, f"child_page.first{at}"),
        first_later=_first(child, words, f"child_page.first_later{at}"),
        ask=words("child_page.ask"),
        asks=tuple(_asked(shown, key, words)),
        further=tuple(_further(child, shown, others, words)),
        watch=tuple(_watched(shown, key, words)),
        pieces=words("child_page.pieces"),
        built=built,
        stock=words("child_page.stock", pieces=phrases.pieces(words, stock(built))),
        telling=words("child_page.telling"),
        next=words("child_page.next"),
        notes=(words("child_page.tick"), *_no_pieces(child.next.practice, words)),
        end=words(f"child_page.end{at}"),
    )


def _named(shown: Cell, key: str, place: int | None, words: Words) -> tuple[str, str]:
    """Return the name of the mistake in the shown sum, and what happened, or that none is known."""
    if not key:
        known = "unknown_happened" if shown.sum.with_pieces else "unknown_written"
        return words("child_page.unknown"), words(f"child_page.{known}")
    mistake = phrases.mistaken(words, key, place)
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
    return words("speech.quoted", said=phrases.mistaken(words, key, place))


def _lead(child: ChildMarks, shown: Cell, key: str, words: Words) -> tuple[str, ...]:
    """Return how much was right, how often the mistake ``key`` came, and the answers not shown."""
    right, count = child.reading.right, len(child.reading.reads)
    said = [words("child_page.lead", right=right, count=count)] if right else []
    again = sum(read.fit is Fit.HABIT and read.key == key for read in child.reading.reads)
    if child.reading.verdict is Verdict.HABIT and again > 1 and shown.sum.with_pieces:
        said.append(words("child_page.again", times=again))
    said += _besides(child, shown, words)
    once = "once" if shown.sum.with_pieces else "once_written"
    return tuple(said) or (words(f"child_page.{once}"),)


def _others(child: ChildMarks, shown: Cell, key: str) -> tuple[str, ...]:
    """Return what the shown answer may be as well as the mistake ``key``, likeliest first."""
    reading = child.reading
    if reading.verdict is Verdict.SLIPS and shown.answer is not None:
        return beside_slip(shown.sum.counted(WHOLE), int(shown.answer))
    if reading.verdict is Verdict.MORE:
        return tuple(h.key for h in reading.habits if h.probability >= ALSO and h.key != key)
    return reading.rivals


def _watched(cell: Cell, key: str, words: Words) -> Iterator[str]:
    """Yield what else to know of the mistake ``key`` in ``cell``."""
    if not cell.sum.with_pieces:
        yield phrases.written_alone(cell.sum, words)
    if key in OF_BANK:
        yield words("child_page.bank")
    if key in OUT_BY:
        yield from _two_steps(cell.sum, words)


def _first(child: ChildMarks, words: Words, key: str) -> str:
    """Return which sums come first, on paper, and what to do whatever comes out; empty if none."""
    sums = phrases.in_row([*map(str, child.next.telling)])
    return words(key, sums=sums) if sums else ""


def _further(child: ChildMarks, shown: Cell, others: Sequence[str], words: Words) -> Iterator[str]:
    """Yield what to ask further, and when: of what the mistake may be too, of a second mistake.

    What else it may be is known by what comes out on paper, ``others`` being the likeliest first;
    where no sum there shows it, it is asked another day.
    """
    known = _known(child, shown, others)
    told: set[Sum] = set()
    for key, sum_, wrong in known:
        when = "came_out" if sum_.with_pieces else "came_out_written"
        when = "came_out_else" if sum_ in told else when
        told.add(sum_)
        asks = phrases.asks(words, key, sum_)
        yield words(f"child_page.{when}", wrong=sum_.number(wrong), sum=sum_, asks=asks)
    later = (*child.reading.named[1:2], *(() if known else others[:1]))
    for asks in asked_of(later, shown.sum, words):
        yield words("child_page.another_day", asks=asks)


def _known(child: ChildMarks, shown: Cell, others: Sequence[str]) -> list[tuple[str, Sum, int]]:
    """Return the two likeliest of ``others``, each with the first sum on paper that shows it and
    the wrong answer there.

    Never with the right one: a child may read it. The teacher hears of all.
    """
    found: dict[tuple[Sum, int], str] = {}
    for key in others[:BESIDE]:
        place = _column(child, shown, key)
        for sum_ in child.next.telling:
            wrong = dict(decimal_answers(sum_)).get(key, answer_of(key, place, sum_))
            if wrong is not None and wrong != sum_.rest:
                found.setdefault((sum_, int(wrong)), key)
                break
    return [(key, sum_, wrong) for (sum_, wrong), key in found.items()]


def _column(child: ChildMarks, shown: Cell, key: str) -> int | None:
    """Return the only column in which the mistake ``key`` may show, None where it is all."""
    if child.reading.verdict is Verdict.HABIT:
        return next((h.place for h in child.reading.habits if h.key == key), None)
    return None if shown.answer is None else place_beside(shown.sum, shown.answer, key)


def _no_pieces(sums: Sequence[Sum], words: Words) -> Iterator[str]:
    """Yield for each place that an exchange in one of ``sums`` finds empty what comes first."""
    shown = [sum_.on(words.scale).counted(WHOLE) for sum_ in sums if sum_.with_pieces]
    for place in sorted({place for sum_ in shown for place in pattern(sum_).crossed}):
        empty, source = words(f"place.{PLACES[place]}"), words(f"opened.{PLACES[place + 1]}")
        yield words("child_page.no_pieces", place=empty, source=source)


def _two_steps(sum_: Sum, words: Words) -> Iterator[str]:
    """Yield how the first fact of ``sum_`` that crosses ten is found in two steps, through ten."""
    for fact in facts(sum_.counted(WHOLE)):
        if fact.crosses_ten:
            first, then = fact.through_ten
            slots = {"first": Sum(fact.whole, first), "then": Sum(10, then)}
            yield words("child_page.two_steps", fact=fact, **slots)
            return


def _besides(child: ChildMarks, shown: Cell, words: Words) -> Iterator[str]:
    """Yield which other sums to do again, and which were not tried; the first of many.

    Where the same mistake was made again is only counted: the class page has those answers, and
    a child takes for right what stands in print.
    """
    again = [
        words("child_page.written", sum=cell.sum, answer=cell.answer)
        for cell in _again(child, shown)
    ]
    untried = [str(cell.sum) for cell in child.given if cell.answer is None]
    for key, sums in (("others", again), ("untried", untried)):
        if sums:
            said = phrases.in_row(sums[:NAMED])
            if len(sums) > NAMED:
                said = words("child_page.more", sums=said, count=len(sums) - NAMED)
            yield words(f"child_page.{key}", sums=said)


def _again(child: ChildMarks, shown: Cell) -> Iterator[Cell]:
    """Yield each wrong answer beside the ``shown`` one that is not the same mistake again."""
    named = child.reading.named if child.reading.verdict is Verdict.HABIT else ()
    for at, cell in enumerate(child.given):
        read = child.read_of(at)
        same = read is not None and read.fit is Fit.HABIT and read.key in named
        if cell is not shown and cell.answer not in (None, cell.sum.rest) and not same:
            yield cell


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
    causes = () if shown.answer is None else [*why(shown.sum, shown.answer)]
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
    read = child.read_of(child.given.index(shown))
    if read is None or shown.answer is None or reading.verdict is Verdict.UNKNOWN:
        return "", None
    one = child.mistake_of(read)
    both = () if one[0] else why(shown.sum, shown.answer)
    return (both[0].key, both[0].place) if both else one
