"""A table pasted from a spreadsheet, or a CSV file, as pupils; a heading row is not needed."""

import csv
import re
from collections.abc import Iterator
from io import StringIO

from kitbuilder.errors import RefusedError, Said
from kitbuilder.kit.card_records import CardWishes, Pupil
from kitbuilder.page.refusal import RefusedRowsError
from kitbuilder.request.pupils import LARGEST_TABLE, MOST_ROWS, pupils

PASTED = Said("screen.pasted")
"""How a pasted table is called."""

MOST_TOLD = 3
"""Rows that are told to be wrong at once."""

_DIGIT = re.compile(r"\d")


def read_pupils(text: str) -> tuple[Pupil, ...]:
    """Return the pupils in a table of names and sums: a row a sum, or a name and several sums.

    Raises ``RefusedRowsError`` with the first rows that cannot be read, each by its number.
    """
    if len(text) > LARGEST_TABLE:
        raise RefusedError("table.too-many-rows", where=PASTED, most=MOST_ROWS, field="pupils")
    refusals: list[RefusedError] = []
    lines: list[str] = []
    for number, cells in cell_rows(text):
        for typed in cells[1:] or [""]:
            line = csv_line(cells[0], typed)
            lines.append(line)
            try:
                pupils(f"name,sum\n{line}", PASTED, CardWishes().stage)
            except RefusedError as error:
                error.row, error.field = number, "pupils"
                refusals.append(error)
    if refusals:
        raise RefusedRowsError(refusals[:MOST_TOLD])
    return pupils("\n".join(["name,sum", *lines]), PASTED, CardWishes().stage)


def cell_rows(text: str) -> Iterator[tuple[int, list[str]]]:
    """Yield the rows of a pasted table that hold something, with their numbers from 1.

    Cells stand apart by tabs, semicolons or commas; a heading row, where no cell after the first
    has a digit and other rows follow, is left out.
    """
    first = text.strip("\n").split("\n", 1)[0]
    mark = "\t" if "\t" in text else ";" if ";" in first else ","
    rows = []
    for number, row in enumerate(csv.reader(StringIO(text), delimiter=mark), 1):
        cells = [cell.strip() for cell in row]
        while cells and not cells[-1]:
            cells.pop()
        if cells:
            rows.append((number, cells))
    if len(rows) > 1 and len(rows[0][1]) > 1 and not _DIGIT.search("".join(rows[0][1][1:])):
        rows = rows[1:]
    yield from rows


def csv_line(*cells: str) -> str:
    """Return cells as a line of a CSV table."""
    written = StringIO()
    csv.writer(written, lineterminator="").writerow(cells)
    return written.getvalue()
