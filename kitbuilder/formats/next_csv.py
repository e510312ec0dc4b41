"""The next sums of children as a table that ``cards --pupils`` reads."""

import csv
import io
import re
from collections.abc import Iterable

from kitbuilder.formats.heads import head
from kitbuilder.number.mistakes.foreseen import GIVING, Mistake
from kitbuilder.number.sums import PLACES, Sum

FORMULA = ("=", "+", "-", "@")
"""How a cell begins that a spreadsheet would work out."""


MARK = "\ufeff"
"""How a spreadsheet begins a file in UTF-8."""

MISTAKE = "mistake"
"""The column of the child's own mistakes, whose answers stand first in the pack's answers."""

COLUMNS = ("name", "sum", "stage", MISTAKE)
"""Heads of the table."""

NextRow = tuple[str, Sum, str, tuple[Mistake, ...]]
"""A name, a sum, its stage and the mistakes it practises."""

_DECIMAL = re.compile(r"\d[.,]\d{1,2}(?!\d)")
# In a cell with a sum: a number with decimals, for next sums have no thousandths.


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


def next_table(rows: Iterable[NextRow], before: str = "") -> str:
    """Return the table with the columns name, sum, stage and mistake, a row a sum.

    The rows of a table ``before`` stay as they stand, in its own columns and with its own mark
    between them; what it has is not told again. A name that a spreadsheet would take for a formula
    is set apart with an apostrophe.
    """
    mark, heads, held = ",", list(COLUMNS), set[tuple[str, ...]]()
    if before:
        mark = _mark(before)
        heads, *had = csv.reader(io.StringIO(before.removeprefix(MARK), newline=""), delimiter=mark)
        heads = [*map(head, heads)]
        held = {_asked(row, heads) for row in had}
    text = io.StringIO(newline="")
    writer = csv.writer(text, delimiter=mark, lineterminator="\r\n" if "\r\n" in before else "\n")
    if not before:
        writer.writerow(heads)
    for name, sum_, stage, mistakes in rows:
        cells = {"name": _safe(name), "sum": sum_.typed, "stage": stage}
        cells[MISTAKE] = coded(mistakes)
        row = [cells[column] for column in heads]
        if _asked(row, heads) not in held:
            writer.writerow(row)
    ended = before if not before or before.endswith("\n") else f"{before}\n"
    return ended + text.getvalue() if text.getvalue() else before


def _asked(row: Iterable[str], heads: Iterable[str]) -> tuple[str, ...]:
    """Return what a row asks of whom, whatever it practises and however its point is written."""
    cells = zip(heads, row, strict=False)
    return tuple(c.strip().replace(",", ".") for column, c in cells if column != MISTAKE)


def without(names: Iterable[str], before: str, *, decimals: bool) -> tuple[str, tuple[str, ...]]:
    """Return the table ``before`` without the rows of ``names``, and which of these had some.

    Only sums with ``decimals``, or those without, are taken out; what else it tells stays as it
    stands.
    """
    lines = io.StringIO(before, newline="").readlines()
    said = {_safe(name): name for name in names}
    rows = csv.reader(lines, delimiter=_mark(before))
    kept, left, heads, start = list[str](), dict[str, None](), list[str](), 0
    for row in rows:
        cells = [cell.removeprefix(MARK).strip() for cell in row]
        told = dict(zip(heads, cells, strict=False)) if any(cells) else {}
        name = said.get(told.get("name", ""))
        if name is None or bool(_DECIMAL.search(told.get("sum", ""))) != decimals:
            kept += lines[start : rows.line_num]
        else:
            left[name] = None
        if not heads and any(cells):
            heads = [*map(head, cells)]
        start = rows.line_num
    return "".join(kept), tuple(left)


def _mark(table: str) -> str:
    """Return what stands between the cells of a ``table``."""
    first = table.split("\n", 1)[0]
    return next((m for m in ",;\t" if m in first), ",")


def _safe(name: str) -> str:
    """Return ``name`` so that no spreadsheet takes it for a formula."""
    return f"'{name}" if name.startswith(FORMULA) else name
