"""A table of pupils and their sums (CSV), read into pupils with their tasks."""

import csv
import io
import unicodedata
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise, zip_longest

from kitbuilder.design import metrics
from kitbuilder.errors import RefusedError, Where
from kitbuilder.formats.heads import head
from kitbuilder.formats.next_csv import COLUMNS, MISTAKE, decoded
from kitbuilder.kit.card_records import STAGES, Pupil, Stage, Task
from kitbuilder.number.mistakes.foreseen import GIVING
from kitbuilder.request.request import read_sum

LARGEST_TABLE = 4_000_000
"""Bytes a table of pupils may have."""

MOST_ROWS = 12_000
"""Rows a table of pupils may have."""

MOST_PUPILS = 4000
"""Pupils a table may name: each has pages of their own."""

LONGEST_NAME = 60
"""Letters a name may have."""

_HIDDEN = ("Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp")
"""Unicode's kinds of characters that are not letters to be seen: control, direction, unknown."""


def pupils(text: str, where: Where, stage: Stage, point: str = ".") -> tuple[Pupil, ...]:
    """Return the pupils in a CSV table, in the order their names first appear.

    Each row is one sum: name, sum and, if the table has those columns, stage and the mistake it
    practises; rows without a stage are of ``stage``. Rows of the same name make one pupil's pack.
    Raises ``RefusedError`` that says which line is wrong; ``where`` names the file in it. ``point``
    stands after the ones.
    """
    tasks: dict[str, list[Task]] = {}
    rows = _rows(text, where)
    _, header = next(rows, (1, []))
    columns = _columns(header, where)
    for count, (line, row) in enumerate(rows, 1):
        if count > MOST_ROWS:
            raise RefusedError("table.too-many-rows", where=where, most=MOST_ROWS, field="pupils")
        try:
            name, task = _row(row, columns, (stage, line), point)
        except RefusedError as error:
            raise error.at(where, line, field="pupils") from None
        tasks.setdefault(name, []).append(task)
    if not tasks:
        raise RefusedError("pupil.none", where=where, field="pupils")
    if len(tasks) > MOST_PUPILS:
        count = len(tasks)
        raise RefusedError(
            "work.pupils", where=where, count=count, most=MOST_PUPILS, field="pupils"
        )
    return tuple(Pupil(name, tuple(asked)) for name, asked in tasks.items())


def _rows(text: str, where: Where) -> Iterator[tuple[int, list[str]]]:
    """Yield the rows that are not empty, each with the number of its first line."""
    first = text.split("\n", 1)[0]
    mark = next((m for m in ",;\t" if m in first), ",")
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=mark, strict=True)
    line = 1
    while True:
        try:
            row = next(reader, None)
        except csv.Error:
            raise RefusedError("table.no-row").at(where, line, field="pupils") from None
        if row is None:
            return
        cells = [cell.strip() for cell in row]
        if any(cells):
            yield line, cells
        line = reader.line_num + 1


def _columns(header: list[str], where: Where) -> tuple[str, ...]:
    columns = tuple(map(head, header))
    if not columns:
        raise RefusedError("pupil.empty", where=where, field="pupils")
    if not set(COLUMNS[:2]) <= set(columns) <= set(COLUMNS) or len(set(columns)) < len(columns):
        given = ", ".join(header)
        raise RefusedError("pupil.columns", where=where, given=given, field="pupils")
    return columns


def _row(
    row: list[str], columns: tuple[str, ...], usual: tuple[Stage, int], point: str
) -> tuple[str, Task]:
    if len(row) > len(columns):
        raise RefusedError("pupil.cells", count=len(row), columns=len(columns))
    cells, (stage, line) = dict(zip_longest(columns, row, fillvalue="")), usual
    name = checked_name(cells["name"])
    if not cells["sum"]:
        raise RefusedError("pupil.no-sum")
    sum_ = read_sum(cells["sum"], point)
    asked = cells.get("stage", "").lower()
    chosen = next((known for known in STAGES if known == asked), None)
    if asked and chosen is None:
        raise RefusedError("pupil.no-stage", given=asked, known=STAGES)
    practises = decoded(cells.get(MISTAKE, ""))
    if practises is None:
        raise RefusedError("pupil.no-mistake", given=cells[MISTAKE], known=GIVING)
    task = Task(sum_, chosen or stage, line, chosen is not None, practises)
    if not sum_.whole:
        raise RefusedError("sum.nothing-to-build", sum=sum_)
    return name, task


def checked_name(typed: str) -> str:
    """Return a name as it will be printed: composed letters, nothing hidden, in some typeface.

    Spaces of any kind and number are one. Raises ``RefusedError`` for an empty or too long name,
    a control or direction character, and a letter that no typeface has.
    """
    composed = unicodedata.normalize("NFC", typed)
    spaced = "".join(" " if unicodedata.category(c) == "Zs" else c for c in composed)
    name = " ".join(part for part in spaced.split(" ") if part)
    if not name:
        raise RefusedError("pupil.no-name")
    if len(name) > LONGEST_NAME:
        raise RefusedError("pupil.long-name", count=len(name), most=LONGEST_NAME)
    for letter in name:
        if unicodedata.category(letter) in _HIDDEN:
            raise RefusedError("pupil.hidden-letter", letter=f"U+{ord(letter):04X}")
    marked = (a + b for a, b in pairwise(name) if unicodedata.combining(b))
    lacking = next(iter((*marked, *metrics.unprintable(name))), "")
    if lacking:
        codes = " ".join(f"U+{ord(letter):04X}" for letter in lacking)
        raise RefusedError("pupil.no-letter", given=lacking, codes=codes)
    return name


def of_kind(table: Sequence[Pupil], *, decimals: bool) -> tuple[Pupil, ...]:
    """Return the pupils who have sums of whole numbers, or of decimals, with these alone."""
    kept = (
        (one, [t for t in one.tasks if (t.sum.scale.decimals > 0) is decimals]) for one in table
    )
    return tuple(replace(one, tasks=tuple(tasks)) for one, tasks in kept if tasks)
