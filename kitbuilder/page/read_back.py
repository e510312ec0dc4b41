"""A table as it is shown beside itself: what was read, or its cells; both lose parts by a click."""

from collections.abc import Iterable, Sequence
from contextlib import suppress
from typing import Any, Protocol, TypeVar

from kitbuilder.errors import RefusedError
from kitbuilder.page.readings import Wished
from kitbuilder.page.table.parted import parted

MOST_ROWS = 400
"""Rows of a table whose cells are shown."""


class Named(Protocol):
    """A child of a table: with answers, or with sums to come."""

    @property
    def name(self) -> str:
        """The name as it was read."""


Child = TypeVar("Child", bound=Named)


def out_of(wishes: Wished) -> tuple[str, ...]:
    """Return the names that were taken out."""
    return tuple(map(str, wishes.get("out") or ()))


def kept(children: Sequence[Child], out: Sequence[str]) -> tuple[Child, ...]:
    """Return ``children`` without those taken ``out``; all of them where none would stay."""
    return tuple(child for child in children if child.name not in out) or tuple(children)


def taken_out(children: Sequence[Named], out: Sequence[str]) -> list[str]:
    """Return the names of those ``children`` that were taken ``out``."""
    left = {child.name for child in kept(children, out)}
    return [child.name for child in children if child.name not in left]


def read_back(children: Iterable[tuple[str, Iterable[Sequence[object]]]]) -> list[dict[str, Any]]:
    """Return each child's name and sums as JSON: whole, part and, if it was asked for, answer.

    An answer is empty where none was given.
    """
    return [
        {
            "name": name,
            "sums": [["" if one is None else str(one) for one in sum_] for sum_ in sums],
        }
        for name, sums in children
    ]


def cells_back(text: str, field: str) -> list[tuple[int, list[str]]]:
    """Return the rows of a table that cannot be read: the number and cells of each.

    None where it has one row or one column, or its cells cannot be told.
    """
    with suppress(RefusedError):
        found, _ = parted(text, field)
        if 1 < len(found) <= MOST_ROWS and any(len(cells) > 1 for _, cells in found):
            return found
    return []
