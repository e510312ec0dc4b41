"""Different sums chosen for a wish and a seed, from easy to hard."""

from collections.abc import Iterator
from itertools import islice
from random import Random

from kitbuilder.number.choice.difficulty import easy_to_hard
from kitbuilder.number.choice.fives import short_by_five
from kitbuilder.number.choice.pool import Pool, Wants, Wish
from kitbuilder.number.mistakes.foreseen import shown
from kitbuilder.number.mistakes.telling import tells
from kitbuilder.number.sums import Sum

HAND = 300
"""How many telling sums are looked through for those that show the most different habits."""


class TooFewError(Exception):
    """There are fewer sums of the wish than were asked for; ``available`` says how many."""

    def __init__(self, available: int) -> None:
        super().__init__(available)
        self.available = available


def choose(wish: Wish, count: int, seed: int) -> tuple[Sum, ...]:
    """Return ``count`` different sums of ``wish``, from easy to hard.

    Every sum of the wish is as likely as any other, except that a telling pack starts with
    sums picked so that together they show as many habits as they can. The same seed gives the
    same sums. Raises ``TooFewError`` when the wish has fewer than ``count``.
    """
    stream = stream_of(wish, Random(seed))
    found = _show_most(stream, count) if wish.telling else []
    found += islice(stream, count - len(found))
    if len(found) < count:
        raise TooFewError(len(found))
    return easy_to_hard(found)


def widen(sums: tuple[Sum, ...], wish: Wish, count: int, seed: int) -> tuple[Sum, ...]:
    """Return ``sums`` with further sums of ``wish`` up to ``count``, from easy to hard.

    Raises ``TooFewError`` as ``choose`` does.
    """
    held = set(sums)
    others = (sum_ for sum_ in stream_of(wish, Random(seed)) if sum_ not in held)
    found = [*sums, *islice(others, count - len(sums))]
    if len(found) < count:
        raise TooFewError(len(found))
    return easy_to_hard(found)


def stream_of(wish: Wish, random: Random) -> Iterator[Sum]:
    """Yield every sum of ``wish`` once, in random order."""
    for whole, part in shuffled(Pool(wish), wish, random):
        yield Sum(whole, part)


def shuffled(
    pool: Pool, wish: Wish, random: Random, wants: Wants = ()
) -> Iterator[tuple[int, int]]:
    """Yield (whole, part) of the sums of ``wish`` that hold ``wants``, in random order.

    Without ``wants`` no column of theirs is short by exactly 5 once it is worked; a fact that
    leaves 5 needs one.

    Fisher and Yates's shuffle, drawn one at a time with only the moved numbers kept.
    """
    moved: dict[int, int] = {}
    count = pool.count(wants)
    for at in range(count):
        drawn = random.randrange(at, count)
        number = moved.get(drawn, drawn)
        moved[drawn] = moved.pop(at, at)
        whole, part = pool.at(number, wants)
        if not wants and short_by_five(whole, part):
            continue
        if not wish.telling or tells(whole, part):
            yield whole, part


def _show_most(stream: Iterator[Sum], count: int) -> list[Sum]:
    """Return up to ``count`` sums of the stream's next ``HAND``, the widest-showing first."""
    hand = {s: {key for key, _ in shown(s.whole, s.part)} for s in islice(stream, max(HAND, count))}
    found: list[Sum] = []
    seen: set[str] = set()
    while hand and len(found) < count:
        best = max(hand, key=lambda s: len(hand[s] - seen))
        if hand[best] <= seen:
            break
        seen |= hand.pop(best)
        found.append(best)
    return found + list(islice(hand, count - len(found)))
