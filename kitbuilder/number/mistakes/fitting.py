"""How well a habit fits a child's answers: where it shows, and where it could and does not."""

from collections.abc import Sequence

from kitbuilder.number.mistakes.posterior import Answered, Posterior
from kitbuilder.number.mistakes.profiles import PROFILES, answers
from kitbuilder.number.mistakes.slips import slip_place
from kitbuilder.number.sums import Sum

POSSIBLE = 0.05
"""A habit may be in a column alone where that is at least so likely."""


def fitting(key: str, answered: Sequence[Answered]) -> int:
    """Return how many wrong answers the habit gives, alone, in one column, or with another.

    What the other gives alone does not count. One slip off does, where that is not one slip off
    the right answer as well.
    """
    return sum(_fits(key, a) for a in answered if a.answer != a.sum.rest)


def _fits(key: str, a: Answered, beside: Sequence[str] | None = None) -> bool:
    """Say whether the habit gives an answer, if need be with another, of ``beside`` if given."""
    whole, part, rest = a.sum.whole, a.sum.part, a.sum.rest
    pairs = [*zip(PROFILES, answers(whole, part), strict=True)]
    others = {p.keys[0] for p, base in pairs if len(p.keys) == 1 and base == a.answer} - {key}
    given = {
        base
        for profile, base in pairs
        if key in profile.keys
        and base not in (None, rest)
        and (beside is None or {*profile.keys} <= {*beside, key})
        and others.isdisjoint(profile.keys)
    }
    if a.answer in given:
        return True
    if slip_place(whole, part, rest, a.answer) is not None:
        return False
    alone = [base for profile, base in pairs if profile.keys == (key,)]
    return any(
        base not in (None, rest) and slip_place(whole, part, base, a.answer) is not None
        for base in alone
        if base is not None
    )


def comes_back(
    key: str, after: Posterior, named: Sequence[str], answered: Sequence[Answered]
) -> bool:
    """Say whether a habit shows in at least half of the answers to the sums that can show it.

    Where it may be in one column alone, sums with a zero on top of it count only where it shows:
    a zero on the way is a matter of its own. An answer that another habit
    ``named`` beside it gives says nothing against it.
    """
    places = by_place(key, after)
    likely = {place for place, share in places.items() if share >= POSSIBLE * sum(places.values())}
    ways = [k for k, p in enumerate(PROFILES) if p.keys == (key,) and p.place in likely]
    shown = missed = 0
    for a in answered:
        given = answers(a.sum.whole, a.sum.part)
        wrong = a.answer != a.sum.rest
        if wrong and _fits(key, a, named):
            shown += 1
        elif all(given[k] not in (None, a.sum.rest) and not _on_zero(a.sum, k) for k in ways):
            missed += not (wrong and any(_fits(other, a, named) for other in named))
    return shown >= missed


def _on_zero(sum_: Sum, way: int) -> bool:
    """Say whether a way of working in one column alone meets a zero on top of it."""
    place = PROFILES[way].place
    return place is not None and int(sum_.whole) // 10**place % 10 == 0


def by_place(key: str, after: Posterior) -> dict[int | None, float]:
    """Return how likely ``key`` is in each column alone, and in all under None."""
    found: dict[int | None, float] = {}
    for ways, share in zip(after.ways, after.shares, strict=True):
        for at in ways.profiles:
            if key in PROFILES[at].keys:
                each = share * PROFILES[at].weight / ways.weight
                place = PROFILES[at].place
                found[place] = found.get(place, 0.0) + each
    return found
