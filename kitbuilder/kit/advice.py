"""What an adult does about a wrong answer, without telling the right one."""

from collections.abc import Callable, Iterator, Sequence

from kitbuilder.design.load import Words
from kitbuilder.kit import phrases
from kitbuilder.kit.lesson.scenes import parts_scene, scenes, short_scene, through_ten_scenes
from kitbuilder.kit.mat_needs import Arrangement
from kitbuilder.kit.records import Block, Say, Scene, Shown
from kitbuilder.number import PLACES, Pieces, Sum, digits
from kitbuilder.number.choice.patterns import pattern
from kitbuilder.number.facts import Fact, facts
from kitbuilder.number.mistakes.foreseen import shown
from kitbuilder.number.mistakes.why import slip_in
from kitbuilder.number.steps import Act, steps

PLAIN = Sum(53, 26)
"""The example where none of the kit's own sums shows a mistake: all of them show in it."""


def wrong_page(
    sums: Sequence[Sum], words: Words, arrangement: Arrangement = "two"
) -> tuple[Block, ...]:
    """Return the page on wrong answers; each mistake has the first sum that shows it."""
    tried = (*(s for s in sums if pattern(s).receives), PLAIN)
    turned = _first(tried, lambda s: _habit(s, "turned") is not None)
    lowered = _first(tried, lambda s: _habit(s, "not-lowered") not in (None, _habit(s, "turned")))
    order = _first(tried, lambda s: _reordered(s) is not None)
    slipped = _first(tried, lambda s: bool(_slips(s)))
    place, fact, slip = _slips(slipped)[0]
    exchanged, swapped = _exchanged(lowered, arrangement, words)
    return (
        Say("title", words("advice.title")),
        Say("body", words("advice.lead")),
        _heading("turned", turned, _habit(turned, "turned"), words),
        *_told("turned", _short(turned), words, **_turned_slots(turned, words)),
        _heading("half", lowered, _habit(lowered, "not-lowered"), words),
        *_told("half", exchanged, words, **swapped),
        _heading("slip", slipped, slip, words),
        *_told("slip", None, words, fact=fact, place=words(f"place.{PLACES[place]}")),
        _heading("order", order, _reordered(order), words),
        *_told("order", parts_scene(order, arrangement), words),
        Say("heading", words("ten.title", fact=fact)),
        *_through_ten(fact, words),
    )


def _first(tried: Sequence[Sum], shows: Callable[[Sum], bool]) -> Sum:
    return next(s for s in tried if shows(s))


def _habit(sum_: Sum, key: str) -> int | None:
    """Return the answer a habit gives, where it shows and is none of the sum's own numbers."""
    answer = dict(shown(sum_.whole, sum_.part)).get(key)
    return None if answer in (sum_.whole, sum_.part) else answer


def _reordered(sum_: Sum) -> int | None:
    """Return the rest with its last two digits changed round, where that is a new number."""
    rest = sum_.rest
    tens, ones = rest // 10 % 10, rest % 10
    turned = rest // 100 * 100 + 10 * ones + tens
    old = (rest, sum_.whole, sum_.part)
    return turned if rest >= 10 and ones and turned not in old else None


def _slips(sum_: Sum) -> tuple[tuple[int, Fact, int], ...]:
    """Return the place, the fact and the answer of each slip in a fact that crosses ten."""
    found = []
    for place, fact in enumerate(facts(sum_)):
        answer = slip_in(sum_, place) if fact.crosses_ten else None
        if answer is not None:
            found.append((place, fact, answer))
    return tuple(found)


def _heading(key: str, sum_: Sum, answer: int | None, words: Words) -> Say:
    return Say("heading", words(f"advice.{key}", answer=answer, sum=sum_))


def _told(key: str, scene: Scene | None, words: Words, **slots: object) -> Iterator[Block]:
    """Yield what is seen and what to do, beside the picture where there is one."""
    said = words.lines(f"advice.{key}_lines", **slots)
    if scene:
        yield Shown(scene, said)
    else:
        yield from (Say("body", line) for line in said)


def _short(sum_: Sum) -> Scene:
    """Return the moment at which the first column of ``sum_`` is found short."""
    place = pattern(sum_).short[0]
    return short_scene(Scene(Pieces.of(sum_.whole)), place, digits(sum_.part, sum_.places)[place])


def _exchanged(sum_: Sum, arrangement: Arrangement, words: Words) -> tuple[Scene, dict[str, str]]:
    """Return the picture of the first exchange, and the words for what is exchanged in it."""
    done = steps(sum_)
    position = next(k for k, step in enumerate(done) if step.act is Act.EXCHANGE)
    place = done[position].place or 0
    return scenes(done, arrangement)[position], phrases.swap(words, place + 1)


def _turned_slots(sum_: Sum, words: Words) -> dict[str, object]:
    place = pattern(sum_).short[0]
    top, bottom = (digits(n, sum_.places)[place] for n in (sum_.whole, sum_.part))
    return {
        "whole": sum_.whole,
        "top": top,
        "bottom": bottom,
        "place": words(f"place.{PLACES[place]}"),
        "count": phrases.count(words, place, bottom),
    }


def _through_ten(fact: Fact, words: Words) -> Iterator[Block]:
    first, then = fact.through_ten
    slots: dict[str, object] = {"fact": fact, "first": first, "then": then, "whole": fact.whole}
    slots |= {"part": fact.part, "rest": fact.rest}
    for key, scene in zip(("start", "to_ten", "then"), through_ten_scenes(fact), strict=True):
        yield Shown(scene, words.lines(f"ten.{key}", **slots))
