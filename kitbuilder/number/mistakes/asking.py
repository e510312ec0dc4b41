"""Which sum would tell most about a child, after the answers there are."""

from collections.abc import Iterable
from math import log2

from kitbuilder.number.mistakes.posterior import Posterior
from kitbuilder.number.mistakes.profiles import PROFILES, answers
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
    left = [s for s in dict.fromkeys(candidates) if s not in {*asked}]
    groups: list[Shares] = [shares(after)]
    found: list[Sum] = []
    while left and len(found) < count:
        best = max(left, key=lambda s: sum(_worth(s, group) for group in groups))
        if not found or sum(_worth(best, group) for group in groups) > 0:
            found.append(best)
        left.remove(best)
        groups = [part for group in groups for part in _split(best, group)]
    return tuple(found)


def _worth(sum_: Sum, group: Shares) -> float:
    return information(sum_, group) * sum(share for _, share in group)


def _split(sum_: Sum, group: Shares) -> list[Shares]:
    given = answers(sum_.whole, sum_.part)
    parts: dict[int | None, list[tuple[int, float]]] = {}
    for at, share in group:
        parts.setdefault(given[at], []).append((at, share))
    return [tuple(part) for part in parts.values()]
