"""Grids of papers, words and looks in which every two meet, though not every three.

``WHOLE_GRIDS=1 pytest ...`` runs every three.
"""

import os
from collections.abc import Sequence
from itertools import product
from typing import Any

WHOLE = "WHOLE_GRIDS" in os.environ


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
