"""A table pasted from a spreadsheet, or a CSV file, as pupils or answers; heads are not needed."""

import csv
import re
from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from dataclasses import replace
from io import StringIO
from itertools import chain, zip_longest
from typing import TypeVar

from kitbuilder.errors import RefusedError, Said
from kitbuilder.formats.heads import head
from kitbuilder.kit.card_records import Pupil, Stage
from kitbuilder.page.commas import joined
from kitbuilder.page.refusal import RefusedRowsError
from kitbuilder.request.answer_cells import ChildAnswers, Told
from kitbuilder.request.answers import BESIDE, COLUMNS, LARGEST_ANSWERS, read_answers, with_names
from kitbuilder.request.pupils import LARGEST_TABLE, MOST_ROWS, pupils

Read = TypeVar("Read")

Row = tuple[int, list[str]]
"""A row's number, counted from 1, and its cells."""

PASTED = Said("screen.pasted")
"""How a pasted table is called."""

MOST_TOLD = 3
"""Rows that are told to be wrong at once; of more, how many."""

_THOUSANDS = r"(?:[ \xa0\u2009\u202f]\d{3})?"
_NUMBER = re.compile(rf"\d+{_THOUSANDS}([.,]\d+)?")
_DIGIT = re.compile(r"\d")
_SUM = re.compile(rf"\W*[\d.,]+{_THOUSANDS}\s*[-−–—]\s*[\d.,]+{_THOUSANDS}[\W_]*")
_WRITTEN = re.compile(
    r"(?P<whole>\d+(?:[.,]\d+)*(?:[ \xa0\u2009\u202f]\d{3})?)\s*[-−–—]\s*"
    r"(?P<part>\d+(?:[.,]\d+)*)(?P<group>[ \xa0\u2009\u202f]\d{3}\b)?(?![-−–\d])"
)
_BETWEEN = " \t=:;,'?_"
"""What may stand between a name, a sum and an answer in one cell."""


def read_pupils(text: str, stage: Stage, point: str = ".") -> tuple[Pupil, ...]:
    """Return the pupils in a table of names and sums: a row a sum, or a name and several sums.

    A sum may stand in two columns, and names across the head of theirs. It is asked at ``stage``; a
    task's line is its row. Raises
    ``RefusedRowsError`` with the first rows that cannot be read, each by its number.
    """
    if len(text) > LARGEST_TABLE:
        raise RefusedError("table.too-many-rows", where=PASTED, most=MOST_ROWS, field="pupils")
    lines = []
    heading, rows = cell_rows(text, "pupils")
    for number, cells in _turned(heading, rows) if _names_across(heading, rows) else rows:
        cells = _apart(cells)
        name, sums = ("", cells) if _is_sum(cells[0]) else (cells[0], cells[1:])
        sums = [typed for typed in sums if typed]  # a cell may be left empty
        if len(sums) == 2 and all(map(_NUMBER.fullmatch, sums)):  # in two columns
            sums = [" - ".join(sums)]
        lines += [(number, csv_line(name, typed)) for typed in sums or [""]]

    def read(table: str) -> tuple[Pupil, ...]:
        return pupils(table, PASTED, stage, point)

    try:
        return _by_row(_read("name,sum", lines, read, "pupils"), lines)
    except RefusedRowsError as refused:
        lines = [(number, line) for number, line in lines if number not in refused.rows]
        with suppress(RefusedError, RefusedRowsError):
            refused.others = _by_row(_read("name,sum", lines, read, "pupils"), lines)
        raise


def _by_row(found: Sequence[Pupil], lines: Sequence[tuple[int, str]]) -> tuple[Pupil, ...]:
    """Return pupils whose tasks' lines are rows of the pasted table."""
    return tuple(
        replace(one, tasks=tuple(replace(task, line=lines[task.line - 2][0]) for task in one.tasks))
        for one in found
    )


def pasted_answers(
    text: str, point: str = ".", unnamed: str = "1", notes: list[Said] | None = None
) -> tuple[ChildAnswers, ...]:
    """Return each child's answers in a pasted table. Raises ``RefusedRowsError`` by row.

    Columns are name, sum and answer, or sum and answer alone; a heading row may give another
    order. Or the sums stand in the first row or column, and names in the other. Where no row of a
    sum and an answer has a name, all are of one child, called ``unnamed``. ``notes`` gets what was
    read otherwise than it stands.
    """
    if len(text) > LARGEST_ANSWERS:
        raise RefusedError("table.too-many-rows", where=PASTED, most=MOST_ROWS, field="answers")
    heading, rows = cell_rows(text, "answers")

    def read(table: str) -> tuple[ChildAnswers, ...]:
        return read_answers(table, PASTED, notes, point)

    if {head(cell) for cell in heading} >= {*COLUMNS}:
        lines = [(number, csv_line(*cells)) for number, cells in rows]
        return _read(csv_line(*heading), lines, read, "answers")
    if _names_across(heading, rows):
        turned = _turned(heading, rows)
        return _read(
            ",".join(COLUMNS),
            [(number, csv_line(*cells)) for number, cells in turned],
            read,
            "answers",
        )
    if _sums_first(rows):
        (number, _), *rest = rows
        sums, named = with_names(rows[0], rest, told := Told(point), PASTED)
        if notes is not None:
            notes += told.notes(())
        lines = [(number, csv_line(*cells)) for number, cells in named]
        if 2 * sum(len(cells) > len(sums) for _, cells in named) > len(lines):
            raise RefusedError("screen.rows-longer", field="answers")
        return _read(csv_line("", *sums[1:]), lines or [(number, "")], read, "answers", number)
    _check_first(heading, rows)
    return _read(",".join(COLUMNS), list(_named(rows, unnamed)), read, "answers")


def _read(
    head: str,
    lines: Sequence[tuple[int, str]],
    read: Callable[[str], Read],
    field: str,
    first: int = 0,
) -> Read:
    """Return what ``read`` makes of the table; where it refuses, tell of each row by its number.

    What is wrong with the head is told of the row ``first``, and of no other.
    """
    try:
        return read("\n".join([head, *(line for _, line in lines)]))
    except RefusedError as error:
        whole = error
    if first and whole.row == 1:
        whole.row, whole.field = first, field
        raise whole
    found: dict[int, RefusedError] = {}
    for number, line in lines:
        try:
            read(f"{head}\n{line}")
        except RefusedError as error:
            error.row, error.field = number, field
            found.setdefault(number, error)
    refusals = list(found.values())
    if not refusals:  # each row does, but not all together
        whole.field = field
        whole.row = lines[whole.row - 2][0] if whole.row else None
        raise whole
    further = len(refusals) - MOST_TOLD
    more = [RefusedError("screen.further", count=further, field=field)] if further > 0 else []
    raise RefusedRowsError([*refusals[:MOST_TOLD], *more], found.keys())


def _named(rows: Sequence[Row], unnamed: str) -> Iterator[tuple[int, str]]:
    """Yield rows as name, sum and answer: all are ``unnamed`` where no row has a name.

    Where few have one, the others are called by their number.
    """
    bare = [(number, _apart(cells if cells[0] else cells[1:])) for number, cells in rows]
    without = sum(_is_sum(cells[0]) for _, cells in bare)
    for number, cells in bare:
        if 2 * without > len(bare) and len(cells) < len(COLUMNS):
            name = unnamed if without == len(bare) else str(number)
            yield number, csv_line(name, *cells)
        else:
            yield number, csv_line(*([""] if _is_sum(cells[0]) else []), *cells)


def _names_across(heading: Sequence[str], rows: Sequence[Row]) -> bool:
    """Say whether the heading holds names: several, of no columns, and no row begins with one."""
    begin = [cells[0] for _, cells in rows if not _is_sum(cells[0])]
    if len(heading) < 2:
        return False
    columns = any(head(cell) in COLUMNS for cell in heading[1:]) or head(heading[0]) == "name"
    return not columns and not re.search(r"[^\W\d]", "".join(begin))


def _cornered(heading: list[str], widest: int, field: str) -> list[str]:
    """Return ``heading`` with the empty cell before its names, in a table ``widest`` cells wide.

    Raises ``RefusedError`` where its first cell may be a name or not.
    """
    if widest == len(heading) + 1:
        return ["", *heading]
    if head(heading[0]) not in ("", *COLUMNS):
        raise RefusedError("screen.corner", given=heading[0], row=1, field=field)
    return heading


def _sums_alone(heading: Sequence[str], rows: Sequence[Row]) -> bool:
    """Say whether a name stands over each cell, and below it sums and nothing else."""
    told = head(heading[0])
    cells = (cell for _, row in rows for cell in row if cell)
    return told not in ("", *COLUMNS) and all(map(_is_sum, cells))


def _turned(heading: Sequence[str], rows: Sequence[Row]) -> Iterator[Row]:
    """Yield each cell below a name of ``heading`` as a row, with that name and its row's sum.

    A name with nothing below it is a row without a sum.
    """
    first = 0 if _sums_alone(heading, rows) else 1
    without = {*heading[first:]}
    for number, cells in rows:
        told = [cell for cell in cells[:first] if _is_sum(cell)]
        for name, cell in zip_longest(heading[first:], cells[first:], fillvalue=""):
            if cell or told:  # an answer may be none
                yield number, [name, *told, cell]
                without.discard(name)
    yield from ((1, [name, ""]) for name in heading[first:] if name and name in without)


def _sums_first(rows: Sequence[Row]) -> bool:
    """Say whether the first row holds the sums, and each other row a name and answers."""
    given = [cell for cell in rows[0][1][1:] if cell.lower() not in BESIDE] if rows else []
    if not given or not all(map(_is_sum, given)):
        return False
    return len(given) > 1 or not any(map(_is_sum, rows[-1][1]))


def _check_first(heading: list[str], rows: Sequence[Row]) -> None:
    """Refuse a table of names and answers whose first row holds something else than the sums.

    No sum stands below its first row. Three columns with a number in the first row are names,
    sums and answers: it is a sum that is not written as one.
    """
    below = [cells for _, cells in rows]
    first = heading or (below.pop(0) if below else [])
    if len(first) < len(COLUMNS) or not below or "sum" in map(head, first):
        return
    if any(map(_is_sum, chain.from_iterable(map(_apart, below)))):
        return
    if len(first) == len(COLUMNS) and any(map(_NUMBER.fullmatch, first[1:])):
        return
    given = [
        cell for cell in first[1:] if cell and not _is_sum(cell) and cell.lower() not in BESIDE
    ]
    given = given or first[1:]
    raise RefusedError("screen.no-sums", given=tuple(given), field="answers")


def _is_sum(cell: str) -> bool:
    return bool(_SUM.fullmatch(cell))


def _apart(cells: Sequence[str]) -> list[str]:
    """Return ``cells``, those that hold more than a sum taken apart: "Ada 53-27 = 34" is three."""
    return [part for cell in cells for part in _parts(cell)]


def _parts(cell: str) -> list[str]:
    """Return the name, the sums and the answers that stand in one cell, in their order."""
    parts, at = list[str](), 0
    while found := _WRITTEN.search(cell, at):
        parts += [cell[at : found.start()].strip(_BETWEEN), found[0]]
        at = found.end()
        if found["group"] and _whole(found["part"] + found["group"]) > _whole(found["whole"]):
            at = found.start("group")  # an answer of three digits, no thousands
            parts[-1] = cell[found.start() : at]
    parts.append(cell[at:].strip(_BETWEEN))
    if len(parts) == 1 or _DIGIT.search(parts[0]) or parts[-1].startswith(("-", "−", "–")):
        return [cell]
    return [part for part in parts if part]


def _whole(typed: str) -> int:
    """Return the number before any decimals, its thousands grouped by spaces."""
    return int("".join(re.split("[.,]", typed)[0].split()))


def cell_rows(text: str, field: str) -> tuple[list[str], list[Row]]:
    """Return the heading row of a pasted table, if it has one, and the rows that hold something.

    Cells stand apart by tabs, semicolons or commas. In a heading row no cell after the first
    has a digit, and other rows follow.
    """
    top = text.strip("\n").split("\n", 1)[0]
    mark = "\t" if "\t" in text else ";" if ";" in top else ","
    rows = _parted(text, mark, field)
    heading = rows[0][1] if len(rows) > 1 and _names_columns(rows[0][1]) else []
    if heading and _names_across(heading, rows[1:]) and not _sums_alone(heading, rows[1:]):
        heading = _cornered(
            heading, max(map(len, csv.reader(StringIO(text), delimiter=mark))), field
        )
    across = bool(heading) and _names_across(heading, rows[1:])
    if mark == "," and not (across and max(len(cells) for _, cells in rows) <= len(heading)):
        rows = [_whole_numbers(row, field) for row in rows]
    if len(rows) == 1 and _is_heading(rows[0][1]):
        raise RefusedError("screen.only-headings", field=field)
    rows = rows[1:] if heading else rows
    if _numbered(rows):
        return heading[1:], [(number, cells[1:]) for number, cells in rows]
    return heading, rows


def _numbered(rows: Sequence[Row]) -> bool:
    """Say whether rows are numbered from 1 on, before their names."""
    named = all(len(cells) > 2 and re.search(r"[^\W\d]", cells[1]) for _, cells in rows)
    return named and [cells[0].rstrip(".)") for _, cells in rows] == [
        str(k) for k in range(1, len(rows) + 1)
    ]


def _parted(text: str, mark: str, field: str) -> list[Row]:
    """Return the rows of a table that hold something, their cells parted by ``mark``."""
    reader = csv.reader(StringIO(text, newline=None), delimiter=mark)
    rows, number = list[Row](), 0
    try:
        for number, row in enumerate(reader, 1):
            cells = [cell.strip() for cell in row]
            while cells and not cells[-1]:
                cells.pop()
            if cells:
                rows.append((number, cells))
    except csv.Error:  # above all a cell that no reader of such tables takes
        raise RefusedError("table.no-row", row=number + 1, field=field) from None
    return rows


def _whole_numbers(row: Row, field: str) -> Row:
    """Return ``row`` with the numbers whole that its commas part. Raises ``RefusedError``."""
    number, cells = row
    try:
        return number, joined(cells, field)
    except RefusedError as error:
        error.row = number
        raise


def _names_columns(cells: Sequence[str]) -> bool:
    return len(cells) > 1 and not _DIGIT.search("".join(map(_unnumbered, cells[1:])))


def _unnumbered(cell: str) -> str:
    """Return the name of a column without its number: Sum 1 is one of sums."""
    bare = re.sub(r"\s*\d{1,2}$", "", cell)
    return bare if head(bare) in COLUMNS else cell


def _is_heading(cells: Sequence[str]) -> bool:
    """Say whether all ``cells`` are names of columns."""
    return all(head(cell) in COLUMNS for cell in cells)


def csv_line(*cells: str) -> str:
    """Return cells as a line of a CSV table."""
    written = StringIO()
    csv.writer(written, lineterminator="").writerow(cells)
    return written.getvalue()
