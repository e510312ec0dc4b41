"""Which sum would tell most about a child, after the answers there are, and when to stop."""

from collections.abc import Iterable
from functools import lru_cache
from math import log2

from kitbuilder.number.mistakes.fitting import fitting
from kitbuilder.number.mistakes.one_out import IN_ANY_SUM
from kitbuilder.number.mistakes.posterior import Posterior
from kitbuilder.number.mistakes.profiles import PROFILES, answers
from kitbuilder.number.mistakes.reading import (
    LEADS,
    LEAST_FITTING,
    SURE,
    Reading,
    Verdict,
)
from kitbuilder.number.sums import Sum

LEAST_SHARE = 1e-4
"""A way of working less likely than this is left out of the reckoning."""

Shares = tuple[tuple[int, float], ...]


def shares(after: Posterior) -> Shares:
    """Return the profiles that are still likely, each with its share."""
    found = []
    for ways, share in zip(after.ways, after.shares, strict=True):
        for at in ways.profiles:
            each = share * PROFILES[at].weight / ways.weight
            if each >= LEAST_SHARE:
                found.append((at, each))
    return tuple(found)


def information(sum_: Sum, likely: Shares) -> float:
    """Return the bits that the answer to ``sum_`` is expected to tell about the way of working.

    That is the entropy of what the likely ways give to it. A slip wipes out an answer whichever
    way is worked, so it lowers every sum's information in the same proportion.
    """
    given = answers(sum_.whole, sum_.part)
    held: dict[int | None, float] = {}
    for at, share in likely:
        held[given[at]] = held.get(given[at], 0.0) + share
    total = sum(held.values())
    return -sum(p / total * log2(p / total) for p in held.values() if p > 0)


def most_telling(
    after: Posterior, candidates: Iterable[Sum], count: int = 1, asked: Iterable[Sum] = ()
) -> tuple[Sum, ...]:
    """Return up to ``count`` of ``candidates`` that tell most together, none of them ``asked``.

    Each is chosen for what it tells beyond those before it.
    """
    barred = {*asked}
    left = tuple(s for s in dict.fromkeys(candidates) if s not in barred)
    return _most_telling(shares(after), left, count)


@lru_cache(maxsize=256)
def _most_telling(likely: Shares, candidates: tuple[Sum, ...], count: int) -> tuple[Sum, ...]:
    """Return the most telling sums; children of one class who answered alike share them."""
    left, groups, found = [*candidates], [likely], list[Sum]()
    while left and len(found) < count:
        best = max(left, key=lambda s: sum(_worth(s, group) for group in groups))
        if not found or sum(_worth(best, group) for group in groups) > 0:
            found.append(best)
        left.remove(best)
        groups = [part for group in groups for part in _split(best, group)]
    return tuple(found)


def telling_apart(keys: Iterable[str], candidates: Iterable[Sum]) -> list[Sum]:
    """Return those of ``candidates`` that best tell right work and the habits ``keys`` apart.

    Each of these ways is taken to be as likely as the others, however the child answered before.
    """
    ways = {(), *((key,) for key in keys)}
    likely = tuple((at, 1.0) for at, p in enumerate(PROFILES) if p.simple and p.keys in ways)
    told = {sum_: information(sum_, likely) for sum_ in candidates}
    best = max(told.values(), default=0.0)
    return [sum_ for sum_, bits in told.items() if bits > best - 1e-9]


def settled(reading: Reading) -> bool:
    """Say whether asking one child on would hardly change what is said.

    Surer than a table must be, which cannot ask: every habit named is as good as certain.
    """
    if reading.verdict is not Verdict.HABIT:
        return reading.sure
    if reading.named[0] in IN_ANY_SUM:
        return True
    return all(h.probability >= SURE for h in reading.habits if h.key in reading.named)


def next_asked(reading: Reading, candidates: Iterable[Sum], asked: Iterable[Sum]) -> Sum:
    """Return which of ``candidates`` to ask next, none of them ``asked``: the most telling one.

    Where a habit is likely and too few wrong answers fit it, only sums are asked that show it.
    """
    barred = {*asked}
    left = [s for s in candidates if s not in barred]
    lead = next((h.key for h in reading.habits[:1] if h.probability >= LEADS), "")
    if lead and fitting(lead, [r.answered for r in reading.reads]) < LEAST_FITTING:
        at = next(k for k, p in enumerate(PROFILES) if p.keys == (lead,) and p.simple)
        left = [s for s in left if answers(s.whole, s.part)[at] not in (None, s.rest)] or left
    return most_telling(reading.after, left)[0]


def _worth(sum_: Sum, group: Shares) -> float:
    return information(sum_, group) * sum(share for _, share in group)


def _split(sum_: Sum, group: Shares) -> list[Shares]:
    given = answers(sum_.whole, sum_.part)
    parts: dict[int | None, list[tuple[int, float]]] = {}
    for at, share in group:
        parts.setdefault(given[at], []).append((at, share))
    return [tuple(part) for part in parts.values()]
