"""The next sums of children as a table that ``cards --pupils`` reads."""

import csv
import io
from collections.abc import Iterable

from kitbuilder.formats.heads import head
from kitbuilder.number.sums import Sum

FORMULA = ("=", "+", "-", "@")
"""How a cell begins that a spreadsheet would work out."""


MARK = "\ufeff"
"""How a spreadsheet begins a file in UTF-8."""

COLUMNS = ("name", "sum", "stage")
"""Heads of the table."""


def next_table(rows: Iterable[tuple[str, Sum, str]], before: str = "") -> str:
    """Return the table with the columns name, sum and stage, a row a sum.

    The rows of a table ``before`` stay as they stand, in its own columns and with its own mark
    between them; what it has is not told again. A name that a spreadsheet would take for a formula
    is set apart with an apostrophe.
    """
    mark, heads, held = ",", list(COLUMNS), set[tuple[str, ...]]()
    if before:
        mark = _mark(before)
        heads, *had = csv.reader(io.StringIO(before.removeprefix(MARK), newline=""), delimiter=mark)
        heads = [*map(head, heads)]
        held = {tuple(cell.strip() for cell in row) for row in had}
    text = io.StringIO(newline="")
    writer = csv.writer(text, delimiter=mark, lineterminator="\r\n" if "\r\n" in before else "\n")
    if not before:
        writer.writerow(heads)
    for name, sum_, stage in rows:
        cells = {"name": _safe(name), "sum": sum_.typed, "stage": stage}
        row = [cells[column] for column in heads]
        if tuple(row) not in held:
            writer.writerow(row)
    ended = before if not before or before.endswith("\n") else f"{before}\n"
    return ended + text.getvalue() if text.getvalue() else before


def without(names: Iterable[str], before: str) -> tuple[str, tuple[str, ...]]:
    """Return the table ``before`` without the rows of ``names``, and which of these had some.

    What else it tells stays as it stands.
    """
    lines = io.StringIO(before, newline="").readlines()
    said = {_safe(name): name for name in names}
    rows = csv.reader(lines, delimiter=_mark(before))
    kept, left, column, start = list[str](), dict[str, None](), -1, 0
    for row in rows:
        cells = [cell.removeprefix(MARK).strip() for cell in row]
        name = said.get(cells[column]) if column >= 0 and any(cells) else None
        if name is None:
            kept += lines[start : rows.line_num]
        else:
            left[name] = None
        if column < 0 and any(cells):
            column = [*map(head, cells)].index("name")
        start = rows.line_num
    return "".join(kept), tuple(left)


def _mark(table: str) -> str:
    """Return what stands between the cells of a ``table``."""
    first = table.split("\n", 1)[0]
    return next((m for m in ",;\t" if m in first), ",")


def _safe(name: str) -> str:
    """Return ``name`` so that no spreadsheet takes it for a formula."""
    return f"'{name}" if name.startswith(FORMULA) else name
