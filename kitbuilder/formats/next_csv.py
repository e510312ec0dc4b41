"""The next sums of children as a table that ``cards --pupils`` reads."""

import csv
import io
from collections.abc import Iterable

from kitbuilder.number.sums import Sum

FORMULA = ("=", "+", "-", "@")
"""How a cell begins that a spreadsheet would work out."""


def next_table(rows: Iterable[tuple[str, Sum, str]]) -> str:
    """Return the table with the columns name, sum and stage, a row a sum.

    A name that a spreadsheet would take for a formula is set apart with an apostrophe.
    """
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(("name", "sum", "stage"))
    for name, sum_, stage in rows:
        safe = f"'{name}" if name.startswith(FORMULA) else name
        writer.writerow((safe, sum_.typed, stage))
    return text.getvalue()
