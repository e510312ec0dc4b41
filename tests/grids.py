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


def typed(papers: Sequence[str]) -> list[tuple[str, str, str]]:
    """Return papers, words and looks: each paper in small type and in large, longest in Spanish.

    Two looks have the type of the plain one: they come once each.
    """
    if WHOLE:
        return [*product(papers, ("en-GB", "en-US", "es"), ("plain", "bold", "spare", "outline"))]
    small = zip(papers, ("en-GB", "en-US", "es", "es"), ("plain",) * 4, strict=True)
    large = zip(papers, ("es", "es", "es", "en-GB"), ("bold",) * 4, strict=True)
    return [*small, *large, (papers[1], "es", "spare"), (papers[2], "en-GB", "outline")]


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
