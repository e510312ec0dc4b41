"""When the answer is wrong: likely mistakes, each with what was written, a picture, a question.

No question names a place, a digit or an answer: the pieces show it.
"""

from collections.abc import Callable, Sequence
from dataclasses import replace

from kitbuilder.design.load import Words
from kitbuilder.frozen import frozen
from kitbuilder.kit import phrases
from kitbuilder.kit.lesson.mat_scenes import MatScene, Move, Pile
from kitbuilder.kit.lesson.mishandled import fetched
from kitbuilder.kit.lesson.moments import Mat, lying, short
from kitbuilder.kit.mat_needs import Arrangement
from kitbuilder.number import PLACES, Sum, digits
from kitbuilder.number.choice.patterns import pattern
from kitbuilder.number.exchange import exchanges
from kitbuilder.number.facts import Fact, facts
from kitbuilder.number.mistakes.decimal import decimal_answers
from kitbuilder.number.mistakes.foreseen import foreseen, shown
from kitbuilder.number.mistakes.why import slip_in
from kitbuilder.number.sums import in_tenths

PLAIN = Sum(53, 26)
"""The example where none of the kit's own sums shows a mistake: all of them show in it."""

PLAIN_DECIMALS = (353, 126)
"""The same of decimals, in hundredths."""


@frozen
class Mistake:
    """One mistake: its ``key``, its name, what was written, what happened, and the question.

    ``scene`` is the zone of the whole at the moment that the question is about.
    """

    key: str
    name: str
    sum: Sum
    answer: int
    scene: MatScene
    told: str
    asks: str


@frozen
class WrongAnswers:
    """The page on wrong answers: what to do first, the mistakes, and any other answer."""

    title: str
    lead: str
    mistakes: tuple[Mistake, ...]
    other: str
    other_told: str


def wrong_page(
    sums: Sequence[Sum],
    words: Words,
    arrangement: Arrangement = "two",
    later: Sequence[Sum] = (),
) -> WrongAnswers:
    """Return the page on wrong answers; each mistake has the first sum that shows it.

    Where none of ``sums`` does, one of those that come ``later`` is shown, which the same pieces
    build.
    """
    scale = sums[0].scale
    plain = Sum(*PLAIN_DECIMALS, scale) if scale.decimals else PLAIN
    own = [s for s in sums if pattern(s).receives]
    tried = (*own, *(s for s in later if pattern(s).receives), plain)
    turned = _first(tried, _turned_alone)
    lowered = _first(tried, _stays)
    order = _first(tried, lambda s: _reordered(s) is not None)
    slipped = _first(tried, lambda s: bool(_slips(s)))
    telling = _Telling(words, arrangement)
    zero = next((s for s in own if _habit(s, "zero-becomes-nine") is not None), None)
    third = telling.zero(zero) if zero else telling.short(_first(tried, _turns))
    decimal = next((s for s in own if _decimals(s)), None)
    found = (
        *([telling.decimal(decimal)] if decimal else []),
        telling.turned(turned),
        telling.lowered(lowered),
        third,
        *([] if decimal else [telling.order(order)]),  # five rows fill a page
        telling.slip(slipped),
    )
    title, lead = words("wrong.title"), words("wrong.lead")
    return WrongAnswers(title, lead, found, words("wrong.other"), words("wrong.other_told"))


def _first(tried: Sequence[Sum], shows: Callable[[Sum], bool]) -> Sum:
    return next(s for s in tried if shows(s))


def _habit(sum_: Sum, key: str) -> int | None:
    """Return the answer a habit gives, where it shows and is none of the sum's own numbers."""
    answer = dict(shown(sum_.whole, sum_.part)).get(key)
    return None if answer in (sum_.whole, sum_.part) else answer


def _turns(sum_: Sum) -> bool:
    """Say whether digits turned round show in ``sum_``, and not a mistake of decimals."""
    return _habit(sum_, "turned") not in (None, *_decimals(sum_).values())


def _turned_alone(sum_: Sum) -> bool:
    """Say whether digits turned round show in ``sum_``, in an answer no other mistake gives."""
    answer = _habit(sum_, "turned")
    alone = any(w.answer == answer and w.keys == ("turned",) for w in foreseen(sum_))
    return alone and _turned_at(sum_) is not None


def _turned_at(sum_: Sum) -> int | None:
    """Return the first short column in which turned digits give another than the right one."""
    both = zip(*(digits(n, sum_.places) for n in (sum_.whole, sum_.part, sum_.rest)), strict=True)
    columns = [abs(top - bottom) != left for top, bottom, left in both]
    return next((k for k in pattern(sum_).short if columns[k]), None)


def _stays(sum_: Sum) -> bool:
    """Say whether one piece that stays shows in ``sum_``: its picture has room for no more."""
    answer = _habit(sum_, "not-lowered")
    return len(exchanges(sum_)) == 1 and answer not in (None, _habit(sum_, "turned"))


def _decimals(sum_: Sum) -> dict[str, int]:
    """Return the answers of the mistakes that only decimals show, by their keys."""
    return dict(decimal_answers(sum_))


def _reordered(sum_: Sum) -> int | None:
    """Return the rest with its last two digits changed round, where that is a new number.

    Those are the last that it is written with: of tenths alone, ones and tenths.
    """
    less = 10 if in_tenths([sum_]) else 1
    short = sum_.per(less)
    rest = short.rest
    tens, ones = rest // 10 % 10, rest % 10
    turned = rest // 100 * 100 + 10 * ones + tens
    old = (rest, short.whole, short.part)
    return turned * less if rest >= 10 and ones and turned not in old else None


def _slips(sum_: Sum) -> tuple[tuple[int, Fact, int], ...]:
    """Return the place, the fact and the answer of each slip in a fact that crosses ten."""
    found = []
    for place, fact in enumerate(facts(sum_)):
        answer = slip_in(sum_, place) if fact.crosses_ten else None
        if answer is not None:
            found.append((place, fact, answer))
    return tuple(found)


@frozen
class _Telling:
    """The mistakes in words and pictures."""

    words: Words
    arrangement: Arrangement

    def _told(
        self, key: str, sum_: Sum, answer: int | None, scene: MatScene, **slots: object
    ) -> Mistake:
        words = self.words
        name = phrases.mistake(words, key, sum_)
        told = words(f"wrong.{key}", **slots)
        asks = phrases.asks(words, key, sum_)
        large = phrases.capital(name)
        return Mistake(key, large, sum_, sum_.number(answer or 0), scene, told, asks)

    def _scene(self, sum_: Sum, piles: Sequence[Pile], *moves: Move) -> MatScene:
        """Return the whole's zone alone, with ``piles``, without its name."""
        mat = Mat.of(sum_, self.arrangement, self.words)
        scene = mat.scene({"whole": tuple(piles)}, *moves)
        zones = tuple(replace(zone, name="") for zone in scene.zones if zone.role == "whole")
        return replace(scene, zones=zones)

    def turned(self, sum_: Sum) -> Mistake:
        """Return the smaller digit taken from the larger: what is wanted there lacks."""
        place = _turned_at(sum_) or 0
        top, bottom = (digits(n, sum_.places)[place] for n in (sum_.whole, sum_.part))
        scene = self._wanting(sum_, place, bottom)
        answer = _habit(sum_, "turned")
        return self._told("turned", sum_, answer, scene, top=top, bottom=bottom)

    def decimal(self, sum_: Sum) -> Mistake:
        """Return the first mistake that only decimals show: what is wanted in the last place."""
        key, answer = next(iter(_decimals(sum_).items()))
        need = digits(sum_.part, sum_.places)[0]
        held = digits(sum_.whole, sum_.places)
        scene = self._wanting(sum_, 0, need) if need > held[0] else self._scene(sum_, lying(held))
        return self._told(key, sum_, answer, scene)

    def short(self, sum_: Sum) -> Mistake:
        """Return zero written where there was too little."""
        place = pattern(sum_).short[0]
        bottom = digits(sum_.part, sum_.places)[place]
        scene = self._wanting(sum_, place, bottom)
        answer = dict(shown(sum_.whole, sum_.part)).get("zero-when-short")
        held = digits(sum_.whole, sum_.places)[place]
        slots = {"held": phrases.count(self.words, place, held)}
        found = self._told("zero-when-short", sum_, answer, scene, **slots)
        if held:
            return found
        none = self.words("wrong.zero-when-none", place=self.words(f"place.{PLACES[place]}"))
        return replace(found, told=none)

    def _wanting(self, sum_: Sum, place: int, need: int) -> MatScene:
        """Return the whole, and beside it ``need`` pieces of ``place`` that lack in the part."""
        mat = Mat.of(sum_, "level", self.words)
        scene = short(digits(sum_.whole, sum_.places), (0,) * sum_.places, place, need, mat)
        whole, part = scene.zones
        return replace(scene, zones=(whole, replace(part, piles=part.piles[: place + 1])))

    def lowered(self, sum_: Sum) -> Mistake:
        """Return ten fetched for a piece that is still there."""
        first = exchanges(sum_)[0]
        scene, slots = self._fetched(sum_, (first.target,))
        return self._told("not-lowered", sum_, _habit(sum_, "not-lowered"), scene, **slots)

    def zero(self, sum_: Sum) -> Mistake:
        """Return ten come to an empty place, one of them opened, and nothing gone for them."""
        held = digits(sum_.whole, sum_.places)
        came = [e.target for e in exchanges(sum_)]
        opened = {e.source for e in exchanges(sum_)} & set(came)
        run = [next(k for k in came if k in opened and not held[k] and held[k + 1])]
        while run[-1] in opened:
            run.append(run[-1] - 1)
        scene, slots = self._fetched(sum_, run)
        answer = _habit(sum_, "zero-becomes-nine")
        return self._told("zero-becomes-nine", sum_, answer, scene, **slots)

    def _fetched(self, sum_: Sum, run: Sequence[int]) -> tuple[MatScene, dict[str, object]]:
        """Return ten come to each place of ``run``, and what is said of them."""
        held, place = digits(sum_.whole, sum_.places), run[0]
        piles, move = fetched(held, run)
        name = phrases.count(self.words, place, 10)
        still = phrases.count(self.words, place + 1, held[place + 1])
        piece = phrases.count(self.words, place + 1, 1)
        return self._scene(sum_, piles, move), {"come": name, "still": still, "piece": piece}

    def order(self, sum_: Sum) -> Mistake:
        """Return the right digits written in another order."""
        scene = self._scene(sum_, lying(digits(sum_.rest, sum_.places)))
        answer = _reordered(sum_)
        return self._told(
            "order", sum_, answer, scene, rest=sum_.rest, swapped=sum_.number(answer or 0)
        )

    def slip(self, sum_: Sum) -> Mistake:
        """Return a small fact that came out one too many or too few, and two steps through ten."""
        place, fact, answer = _slips(sum_)[0]
        held = list(digits(sum_.whole, sum_.places))
        for k, found in enumerate(facts(sum_)[:place]):
            held[k] = found.rest
        source = next(k for k in range(place + 1, len(held)) if held[k])
        held[source] -= 1
        held[place + 1 : source] = [9] * (source - place - 1)
        piles = list(lying(held))
        piles[place] = Pile(here=fact.rest, gone=fact.part, count=fact.rest)
        first, then = fact.through_ten
        slots: dict[str, object] = {"fact": fact}
        slots |= {"first": Sum(fact.whole, first), "then": Sum(10, then)}
        return self._told("slip", sum_, answer, self._scene(sum_, piles), **slots)
