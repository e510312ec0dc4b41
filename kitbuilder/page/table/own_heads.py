"""Columns beside names and sums with heads of their own, as Class or Due: no sums are in these."""

import re
from collections.abc import Sequence

from kitbuilder.errors import Said
from kitbuilder.formats.heads import head
from kitbuilder.page.table.cells import Row, counts_rows, holds_sum
from kitbuilder.page.table.known_words import BESIDE, DAY_HEADS, DAY_MONTH, LABEL, NUMBERS
from kitbuilder.page.table.titles import bare_head, passed_over
from kitbuilder.request.answers import COLUMNS, beside, no_child

_MAY_BE_NO_SUM = re.compile(
    rf"{DAY_MONTH.pattern}|(?:19|20)\d\d\s*[-–]\s*(?:\d\d)?\d\d?|\d+\s*[-–]\s*0\d+"
)
# A day, years, or what has a nought before its second number.


def without_beside(
    heading: list[str], rows: list[Row], notes: list[Said]
) -> tuple[list[str], list[Row]]:
    """Return a head and rows without columns that are no child's, the names first."""
    heads = [head(bare_head(cell)) for cell in heading]
    has_heads = {*heads} >= {*COLUMNS[:2]}
    if any(len(cells) > len(heading) for _, cells in rows):
        return heading, rows
    if has_heads:
        free = [at for at, cell in enumerate(heading) if cell and heads[at] not in COLUMNS[:2]]
        out = [at for at in free if not _holds_sums(heading[at], at, rows)]
    else:
        out = [
            at
            for at, name in enumerate(heading)
            if at and (_is_beside(name, at, rows) or (beside(name) and heading.count(name) > 1))
        ]
    if not (out or has_heads):
        return heading, rows
    notes += [passed_over([heading[at] for at in out])] if out else []
    kept = [at for at in range(len(heading)) if at not in out]
    order = sorted(kept, key=lambda at: heads[at] != "name")
    rows = [(number, ["".join(cells[at : at + 1]) for at in order]) for number, cells in rows]
    return [heading[at] for at in order], rows


def _holds_sums(name: str, at: int, rows: Sequence[Row]) -> bool:
    """Say whether sums stand in a column, which may be of days, as 9-11, of marks or of pages."""
    if beside(name) or name.lower() in BESIDE - {*DAY_HEADS}:
        return False
    column = ["".join(cells[at : at + 1]) for _, cells in rows]
    named = head(bare_head(name)) in COLUMNS or LABEL.fullmatch(name)
    if not named and all(map(_MAY_BE_NO_SUM.fullmatch, filter(holds_sum, column))):
        return False
    days = name.lower() in DAY_HEADS
    return holds_sum(*(cell for cell in column if not (days and DAY_MONTH.fullmatch(cell))))


def _is_beside(name: str, at: int, rows: Sequence[Row]) -> bool:
    """Say whether a column beside names across is none: of totals, right answers or numbers."""
    counts = name.lower() in NUMBERS and counts_rows(rows, at)
    return no_child(name) or head(name) == "answer" or counts
