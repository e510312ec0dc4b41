"""The sums a child should meet next: those that tell most, then those that practise."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from functools import lru_cache
from itertools import chain, islice
from random import Random
from zlib import crc32

from kitbuilder.frozen import frozen
from kitbuilder.number.choice.difficulty import easy_to_hard
from kitbuilder.number.choice.fives import short_by_five
from kitbuilder.number.choice.in_column import column_of, shows
from kitbuilder.number.choice.patterns import Pattern, pattern
from kitbuilder.number.choice.pick import stream_of
from kitbuilder.number.choice.pool import Wish
from kitbuilder.number.choice.telling_pack import candidates
from kitbuilder.number.course.rungs import LADDER
from kitbuilder.number.course.schedule import READY_PIECES
from kitbuilder.number.course.stages import STAGES
from kitbuilder.number.course.suitable_sums import covers, suiting
from kitbuilder.number.mistakes.asking import most_telling, telling_apart
from kitbuilder.number.mistakes.decimal import decimal_answers
from kitbuilder.number.mistakes.foreseen import shown
from kitbuilder.number.mistakes.one_out import IN_ANY_SUM, ORDER, tells_order
from kitbuilder.number.mistakes.profiles import answer_of
from kitbuilder.number.mistakes.reading import (
    PERHAPS,
    Fit,
    Reading,
    Verdict,
    beside_slip,
    place_beside,
)
from kitbuilder.number.mistakes.slips import slip_place
from kitbuilder.number.scale import Scale
from kitbuilder.number.sums import Sum

TELLING = 2
"""Sums given to tell more, before the practice."""

PRACTISED = 5
"""Sums given to practise what went wrong."""

LOOKED_AT = 3000

FIRST = 3
"""The first sums of a table, by which the next ones are drawn: those of another table are others,
and one that only grew keeps those told before."""


@frozen
class NextSums:
    """What a child does next: sums that would tell more, and sums to practise with pieces."""

    telling: tuple[Sum, ...]
    practice: tuple[Sum, ...]


def next_sums(
    reading: Reading, asked: Sequence[Sum], seed: int = 1, fewest: int | None = None
) -> NextSums:
    """Return the next sums of a child who was asked ``asked``.

    Those that tell more are left out where the answers are sure, or all right and enough; they
    have as many places as the sums asked. Practice with pieces begins with the ``fewest`` places,
    if these are not given with the fewest that went wrong; there is none where nothing went wrong.
    Who answered nothing has neither: the sums asked come first. After other sums asked both are
    others, none of those asked.
    """
    places = min(4, max((sum_.places for sum_ in asked), default=3))
    telling: tuple[Sum, ...] = ()
    if reading.told_first:
        telling = _telling(reading, _dealt(max(2, places), _drawn_by(asked)), asked)
    practice: tuple[Sum, ...] = ()
    if any(read.fit is not Fit.RIGHT for read in reading.reads):
        barred = {*asked, *telling}
        random = Random(seed + _drawn_by(asked))
        practice = _practice(reading, fewest or _fewest(reading, places), barred, random)
    return NextSums(telling, practice)


def _drawn_by(asked: Sequence[Sum]) -> int:
    """Return the number by which sums are drawn that come after those ``asked``."""
    return crc32(" ".join(f"{s.whole}-{s.part}" for s in asked[:FIRST]).encode())


def _telling(reading: Reading, those: tuple[Sum, ...], asked: Sequence[Sum]) -> tuple[Sum, ...]:
    """Return the sums of ``those`` that tell most; after slips one that shows what else it may be.

    There the habit's answer is not one out, where any such sum is among them.
    """
    if reading.verdict is not Verdict.SLIPS or not reading.rivals:
        return most_telling(reading.after, those, TELLING, asked)
    _, place = _doubted(reading)
    given = [(s, answer_of(reading.rivals[0], place, s)) for s in those if s not in asked]
    showing = [(s, answer) for s, answer in given if answer not in (None, s.rest)]
    plain = [s for s, answer in showing if slip_place(s.whole, s.part, s.rest, answer) is None]
    chosen = plain or [s for s, _ in showing] or [s for s in those if s not in asked]
    return tuple(_like(reading, telling_apart(reading.rivals, chosen))[:1])


def _doubted(reading: Reading) -> tuple[Sum, int | None]:
    """Return the child's sum that the likeliest habit beside slips explains, and its column."""
    rival = reading.rivals[0]
    wrong = [r.answered for r in reading.reads if r.fit is not Fit.RIGHT]
    own = next(a for a in wrong if rival in beside_slip(a.sum, a.answer))
    return own.sum, place_beside(own.sum, own.answer, rival)


def _like(reading: Reading, sums: Sequence[Sum]) -> list[Sum]:
    """Return ``sums``, first those that no other habit answers as the child's likeliest one does.

    Then come those most like the child's own sum that went wrong so.
    """
    rival = reading.rivals[0]
    own, place = _doubted(reading)

    def worth(sum_: Sum) -> tuple[int, ...]:
        answer = answer_of(rival, place, sum_)
        others = [given for key, given in shown(sum_.whole, sum_.part) if key != rival]
        alike = (
            pattern(sum_) == pattern(own),
            str(sum_.whole).count("0") == str(own.whole).count("0"),
            len(str(sum_.part)) == len(str(own.part)),
        )
        return (answer in others, not _built(sum_), -sum(alike))

    return sorted(sums, key=worth)


def _fewest(reading: Reading, places: int) -> int:
    """Return the places to practise with: the fewest in which the mistake came, two or three."""
    fitting = [read.answered.sum.places for read in reading.reads if read.fit is Fit.HABIT]
    wrong = [read.answered.sum.places for read in reading.reads if read.fit is not Fit.RIGHT]
    return min(3, max(2, min(fitting or wrong or [places])))


@lru_cache(maxsize=8)
def hand(places: int) -> tuple[Sum, ...]:
    """Return the sums of so many places among which the next one is chosen.

    None takes 0 from a zero that an exchange crosses: who makes it a ten has two digits to write
    there.
    """
    return tuple(sum_ for sum_ in candidates(Wish(places), 1) if not _ten_stands(sum_))


@lru_cache(maxsize=4)
def _dealt(places: int, seed: int) -> tuple[Sum, ...]:
    """Return those sums in an order that is alike for every child with the same table."""
    those = list(hand(places))
    Random(seed).shuffle(those)
    return tuple(those)


def _ten_stands(sum_: Sum) -> bool:
    """Say whether nothing is taken from a zero that an exchange crosses."""
    return any(int(sum_.part) // 10**k % 10 == 0 for k in pattern(sum_).crossed)


def _practice(reading: Reading, places: int, barred: set[Sum], random: Random) -> tuple[Sum, ...]:
    """Return sums that show the child's mistakes, so that the pieces can answer them.

    They are sums of the first stage, which the ready-made kit's pieces can build, first of a kind
    that never went right, then those that exchange for the columns with slips; no two leave the
    same. Where none of those shows the mistake, as with some that come at a zero only, those with
    zeros are taken, if need be of three places.
    """
    swaps = _out_of_order(reading)
    known = reading.named or [h.key for h in reading.habits[:1] if h.probability >= PERHAPS]
    keys = set() if swaps else {*known} - {*IN_ANY_SUM}
    place = column_of(reading)
    places = places if place is None else max(places, min(3, place + 2))
    ready = list(_ready(places))
    random.shuffle(ready)  # before some are barred: further answers leave the order as it was
    left = (s for s in ready if s not in barred and (not swaps or tells_order(s)))
    hard, slipped = _only_wrong(reading), _slipped(reading)
    looked = list(islice(left, LOOKED_AT)) if keys or slipped else []
    if hard or slipped:
        looked.sort(key=lambda s: _worth(pattern(s), hard, slipped))
    fit = list(islice(_varied(s for s in looked if shows(s, keys, place)), PRACTISED))
    if keys and not fit:
        stream = islice(stream_of(Wish(places), random), LOOKED_AT)
        built = (s for s in stream if s not in barred and _built(s) and covers(READY_PIECES, s))
        fit = list(islice(_varied(s for s in built if shows(s, keys, place)), PRACTISED))
    if keys and not fit and places < 3:
        return _practice(reading, 3, barred, random)
    return easy_to_hard([*islice(_varied(chain(fit, looked, left)), PRACTISED)])


def _worth(kind: Pattern, hard: set[str], slipped: set[int]) -> tuple[bool, int]:
    """Return how far off the sums of a kind are that never went right, or slipped."""
    return kind.name not in hard, len(slipped.difference(kind.receives))


def _varied(sums: Iterable[Sum]) -> Iterator[Sum]:
    """Yield those of ``sums`` that leave what none before them leaves."""
    seen = set[int]()
    for sum_ in sums:
        if sum_.rest not in seen:
            seen.add(sum_.rest)
            yield sum_


def _slipped(reading: Reading) -> set[int]:
    """Return the columns in which a small fact went wrong."""
    slips = (read.answered for read in reading.reads if read.fit is Fit.SLIP)
    places = (slip_place(a.sum.whole, a.sum.part, a.sum.rest, a.answer) for a in slips)
    return {place for place in places if place is not None}


def _only_wrong(reading: Reading) -> set[str]:
    """Return the kinds of exchange that never went right; none where nothing was right."""
    right = {pattern(r.answered.sum).name for r in reading.reads if r.fit is Fit.RIGHT}
    wrong = {pattern(r.answered.sum).name for r in reading.reads if r.fit is not Fit.RIGHT}
    return wrong - right if right else set()


def _out_of_order(reading: Reading) -> bool:
    """Say whether the child's mistake is the order of the digits: so named, or nothing else is."""
    wrong = {read.fit for read in reading.reads if read.fit is not Fit.RIGHT}
    return ORDER in reading.named or (not reading.named and wrong == {Fit.SWAPPED})


def with_unequal_decimals(
    found: NextSums, key: str, scale: Scale, asked: Sequence[Sum], seed: int
) -> NextSums:
    """Return as many sums as were ``found`` that show the mistake ``key`` of unequal decimals.

    They are written on ``scale``, none of them ``asked``, and exchange; the ready-made kit builds
    them.
    """
    random, scale = Random(seed + _drawn_by(asked)), replace(scale, full=False)
    sums: dict[int, Sum] = {}  # each whole once
    wanted = len(found.telling) + PRACTISED
    drawn = (sorted(random.sample(range(100, 700), 2)) for _ in range(LOOKED_AT))
    for part, whole in drawn:
        sum_ = Sum(whole, part)
        fits = _built(sum_) and covers(READY_PIECES, sum_) and sum_ not in asked
        teaches = pattern(sum_).receives and not short_by_five(whole, part)
        if fits and teaches and key in dict(decimal_answers(sum_.counted(scale))):
            sums.setdefault(whole, sum_)
        if len(sums) == wanted:
            break
    chosen = list(sums.values())
    telling = len(found.telling)
    first, then = chosen[:telling], easy_to_hard(chosen[telling:])
    one, other = (tuple(s.counted(scale) for s in some) for some in (first, then))
    return NextSums(one, other)


@lru_cache(maxsize=2)
def _ready(places: int) -> tuple[Sum, ...]:
    """Return the sums of so many places that suit the pieces alone and the ready-made kit."""
    rungs = (rung for rung in LADDER if rung.places == places)
    found = (sum_ for rung in rungs for sum_ in suiting(rung, STAGES[0], READY_PIECES))
    return tuple(sum_ for sum_ in found if _built(sum_))


def _built(sum_: Sum) -> bool:
    """Say whether the sum is worth building: neither part is so small that it is counted off."""
    return min(sum_.part, sum_.rest) >= 10
