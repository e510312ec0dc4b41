"""The next sums of children as a table that ``cards --pupils`` reads."""

import csv
import io
from collections.abc import Iterable

from kitbuilder.number.mistakes.foreseen import GIVING, Mistake
from kitbuilder.number.sums import PLACES, Sum

FORMULA = ("=", "+", "-", "@")
"""How a cell begins that a spreadsheet would work out."""

MISTAKE = "mistake"
"""The column of the child's own mistakes, whose answers stand first in the pack's answers."""

COLUMNS = ("name", "sum", "stage", MISTAKE)
"""Heads of the table."""

NextRow = tuple[str, Sum, str, tuple[Mistake, ...]]
"""A name, a sum, its stage and the mistakes it practises."""


def coded(mistakes: Iterable[Mistake]) -> str:
    """Return how ``mistakes`` stand in a cell: turned, or not-lowered@ones in one column alone."""
    return "+".join(key if place is None else f"{key}@{PLACES[place]}" for key, place in mistakes)


def decoded(cell: str) -> tuple[Mistake, ...] | None:
    """Return the mistakes that stand in a cell; None where one of them is not known."""
    found = []
    for code in cell.lower().split("+") if cell else ():
        key, alone, column = code.strip().partition("@")
        if key not in GIVING or (alone and column not in PLACES):
            return None
        found.append((key, PLACES.index(column) if alone else None))
    return tuple(found)


def next_table(rows: Iterable[NextRow]) -> str:
    """Return the table with the columns name, sum, stage and mistake, a row a sum.

    A name that a spreadsheet would take for a formula is set apart with an apostrophe.
    """
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(COLUMNS)
    for name, sum_, stage, mistakes in rows:
        writer.writerow((_safe(name), sum_.typed, stage, coded(mistakes)))
    return text.getvalue()


def _safe(name: str) -> str:
    """Return ``name`` so that no spreadsheet takes it for a formula."""
    return f"'{name}" if name.startswith(FORMULA) else name
