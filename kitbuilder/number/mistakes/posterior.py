"""How likely each way of working is, after a child's answers: Bayes' rule, exactly.

Nothing is sampled: a child's rate of slips and how steadily a habit is followed are summed over
a few values each, the ways of working over ``profiles.PROFILES``.
"""

from collections.abc import Mapping, Sequence
from functools import lru_cache
from math import exp, fsum, log, prod

from kitbuilder.frozen import frozen
from kitbuilder.number.mistakes.profiles import PROFILES, RIGHT, answers
from kitbuilder.number.mistakes.slips import chance
from kitbuilder.number.sums import Sum

SLIPS = ((0.02, 0.4), (0.05, 0.35), (0.12, 0.25))
"""Chances of a slip in a small fact, each with the share of children. Ours; simulated classes
with a slip in 5 or 10 of 100 facts are read alike (tests/bench)."""

FOLLOWED = ((0.98, 0.5), (0.85, 0.32), (0.65, 0.1), (0.4, 0.08))
"""How often a habit is followed, each with the share of children. Children are seldom
steady: errors were systematic in 55 % of cases (López & Sánchez 2008; abstract read). The shares
are ours."""

UNKNOWN = 0.05
"""Share of children who do something that is not among the profiles. Ours."""

UNKNOWN_RIGHT = ((0.15, 1 / 3), (0.5, 1 / 3), (0.8, 1 / 3))
"""How often such a child is right all the same. Ours."""


@frozen
class Answered:
    """One answer of a child: the ``sum``, the ``answer`` and its ``row`` in the table, from 0."""

    sum: Sum
    answer: int
    row: int = 0


@frozen
class Ways:
    """Profiles that give the same answers to the same sums, simplest kinds only.

    ``profiles`` are indices in ``PROFILES``, ``weight`` is how common they are together.
    """

    profiles: tuple[int, ...]
    given: tuple[int | None, ...]
    weight: float


@frozen
class Posterior:
    """What is likely after some answers.

    ``ways`` and ``shares`` go together; ``unknown`` is the share of none of them. The shares
    and ``unknown`` sum to 1.
    """

    ways: tuple[Ways, ...]
    shares: tuple[float, ...]
    unknown: float

    @property
    def right_here(self) -> float:
        """How likely it is that the child works these sums rightly, slips aside."""
        return fsum(s for w, s in zip(self.ways, self.shares, strict=True) if RIGHT in w.profiles)

    @property
    def right(self) -> float:
        """How likely it is that the child works every sum rightly, slips aside."""
        return fsum(
            s * PROFILES[RIGHT].weight / w.weight
            for w, s in zip(self.ways, self.shares, strict=True)
            if RIGHT in w.profiles
        )

    def keys(self) -> Mapping[str, float]:
        """Return how likely each habit is, alone or with another, likeliest first.

        Habits that no answer tells apart share what the answers say by how common they are.
        """
        found: dict[str, float] = {}
        for ways, share in zip(self.ways, self.shares, strict=True):
            for at in ways.profiles:
                each = share * PROFILES[at].weight / ways.weight
                for key in PROFILES[at].keys:
                    found[key] = found.get(key, 0.0) + each
        return dict(sorted(found.items(), key=lambda item: -item[1]))


@lru_cache(maxsize=1 << 8)
def ways_for(sums: tuple[Sum, ...]) -> tuple[Ways, ...]:
    """Return the profiles gathered by what they give to ``sums``; a simpler one hides the others.

    Two habits that give what one of them gives alone are not told from it, nor is a habit in
    one column from the same habit in all. Beside all right stand the habits that these sums
    cannot show.
    """
    rows = [answers(s.whole, s.part) for s in sums]
    gathered: dict[tuple[int | None, ...], list[int]] = {}
    for at in range(len(PROFILES)):
        gathered.setdefault(tuple(row[at] for row in rows), []).append(at)
    return tuple(_ways(given, those) for given, those in gathered.items())


def _ways(given: tuple[int | None, ...], those: list[int]) -> Ways:
    kept: dict[tuple[str, ...], int] = {}
    if RIGHT in those:
        kept = {PROFILES[at].keys: at for at in reversed(those) if PROFILES[at].simple}
    else:
        least = min(len(PROFILES[at].keys) for at in those)
        for at in those:
            keys = PROFILES[at].keys
            if len(keys) == least:
                kept.setdefault(tuple(sorted(keys)), at)
    weight = fsum(PROFILES[at].weight for at in kept.values())
    return Ways(tuple(kept.values()), given, weight)


def posterior(answered: Sequence[Answered]) -> Posterior:
    """Return what is likely after the answers ``answered``, in any number and order."""
    ways = ways_for(tuple(a.sum for a in answered))
    tables = _tables(answered, ways)
    known = log(1 - UNKNOWN) - log(fsum(w.weight for w in ways))
    logs = [known + log(w.weight) + _of_way(w, answered, tables) for w in ways]
    logs.append(log(UNKNOWN) + _of_unknown(answered))
    top = max(logs)
    shares = [exp(value - top) for value in logs]
    total = fsum(shares)
    return Posterior(ways, tuple(s / total for s in shares[:-1]), shares[-1] / total)


Table = Mapping[int | None, tuple[float, ...]]
"""For each answer that some way gives to a sum, the chance of the child's, a rate of slips each."""


def _tables(answered: Sequence[Answered], ways: Sequence[Ways]) -> list[Table]:
    return [
        {
            base: tuple(chance(a.sum.whole, a.sum.part, base, a.answer, rate) for rate, _ in SLIPS)
            for base in {w.given[k] for w in ways} | {a.sum.rest}
        }
        for k, a in enumerate(answered)
    ]


def _of_way(way: Ways, answered: Sequence[Answered], tables: Sequence[Table]) -> float:
    """Return the logarithm of the chance of all answers of a child who works so."""
    pairs = [
        (table[base], table[a.sum.rest])
        for a, base, table in zip(answered, way.given, tables, strict=True)
    ]
    if RIGHT in way.profiles:
        return log(
            fsum(
                share * prod(rights[k] for _, rights in pairs) for k, (_, share) in enumerate(SLIPS)
            )
        )
    return log(
        fsum(
            share * held * prod(f * own[k] + (1 - f) * rights[k] for own, rights in pairs)
            for k, (_, share) in enumerate(SLIPS)
            for f, held in FOLLOWED
        )
    )


def _of_unknown(answered: Sequence[Answered]) -> float:
    return log(
        fsum(
            share
            * prod(r if a.answer == a.sum.rest else (1 - r) / 10**a.sum.places for a in answered)
            for r, share in UNKNOWN_RIGHT
        )
    )
