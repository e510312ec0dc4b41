"""The empty table of answers beside sheets of sums, to be filled in and read by ``marks``."""

import csv
import io
from collections.abc import Sequence

from kitbuilder.formats.next_csv import FORMULA
from kitbuilder.kit.card_records import Pack

ANSWERS_NAME = "answers.csv"
"""The name of the table's file."""


def answer_table(packs: Sequence[Pack]) -> str:
    """Return the empty table for the sheets of ``packs``; empty where there are none.

    One sheet for all has its sums in the first line and a line a child to fill in; pupils with
    sums of their own have a line a sum. A name that a spreadsheet would take for a formula is
    set apart with an apostrophe.
    """
    held = [pack for pack in packs if pack.sheet]
    if not held:
        return ""
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\n")
    if not any(pack.name for pack in held):
        writer.writerow(("name", *(s.typed for s in held[0].sheet)))
        return text.getvalue()
    writer.writerow(("name", "sum", "answer"))
    for pack in held:
        name = f"'{pack.name}" if pack.name.startswith(FORMULA) else pack.name
        for sum_ in pack.sheet:
            writer.writerow((name, sum_.typed, ""))
    return text.getvalue()
