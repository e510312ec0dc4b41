"""Grids of papers, words and looks in which every two meet, though not every three.

``WHOLE_GRIDS=1 pytest ...`` runs every three.
"""

import os
from collections.abc import Iterable, Sequence
from itertools import product
from typing import Any, TypeVar

T = TypeVar("T")

WHOLE = "WHOLE_GRIDS" in os.environ


def some(cases: Iterable[T], step: int) -> list[T]:
    """Return every ``step``th of ``cases``, the first among them."""
    return [*cases][:: 1 if WHOLE else step]


def each(*axes: Sequence[Any]) -> list[tuple[Any, ...]]:
    """Return as many cases as the longest of ``axes`` is long: they hold each value of every axis.

    For what shares no way in the program, so that no two values need to meet.
    """
    if WHOLE:
        return list(product(*axes))
    longest = max(map(len, axes))
    return [tuple(axis[k % len(axis)] for axis in axes) for k in range(longest)]


def typed(papers: Sequence[str]) -> list[tuple[str, str, str]]:
    """Return up to four papers with words and looks: each in small type and in large.

    Spanish is the longest. Two looks have the type of the plain one: they stand for it once each.
    """
    if WHOLE:
        return [*product(papers, ("en-GB", "en-US", "es"), ("plain", "bold", "spare", "outline"))]
    small = (("en-GB", "plain"), ("en-US", "spare"), ("es", "outline"), ("es", "plain"))
    large = (("es", "bold"), ("es", "bold"), ("es", "bold"), ("en-GB", "bold"))
    return [
        (paper, *more)
        for way in (small, large)
        for paper, more in zip(papers, way[: len(papers)], strict=True)
    ]


def pairs(*axes: Sequence[Any]) -> list[tuple[Any, ...]]:
    """Return triples from three ``axes`` that hold each pair of values of two axes.

    The two longer axes meet in full; the third goes round with the sum of their places.
    """
    if WHOLE:
        return list(product(*axes))
    third = min(range(3), key=lambda k: len(axes[k]))
    one, other = (k for k in range(3) if k != third)
    found = []
    for i, j in product(range(len(axes[one])), range(len(axes[other]))):
        places = {one: i, other: j, third: (i + j) % len(axes[third])}
        found.append(tuple(axes[k][places[k]] for k in range(3)))
    return found
