"""The next sums of children as a table that ``cards --pupils`` reads."""

import csv
import io
from collections.abc import Iterable

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
        first = before.split("\n", 1)[0]
        mark = next((m for m in ",;\t" if m in first), ",")
        heads, *had = csv.reader(io.StringIO(before.removeprefix(MARK), newline=""), delimiter=mark)
        heads = [head.strip().lower() for head in heads]
        held = {tuple(cell.strip() for cell in row) for row in had}
    text = io.StringIO(newline="")
    writer = csv.writer(text, delimiter=mark, lineterminator="\r\n" if "\r\n" in before else "\n")
    if not before:
        writer.writerow(heads)
    for name, sum_, stage in rows:
        safe = f"'{name}" if name.startswith(FORMULA) else name
        cells = {"name": safe, "sum": sum_.typed, "stage": stage}
        row = [cells[head] for head in heads]
        if tuple(row) not in held:
            writer.writerow(row)
    ended = before if not before or before.endswith("\n") else f"{before}\n"
    return ended + text.getvalue() if text.getvalue() else before
