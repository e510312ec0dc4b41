"""A pasted or dropped table as pupils or answers, by the shape it has; wrong rows by number."""

import csv
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import suppress
from dataclasses import replace
from functools import partial
from io import StringIO
from itertools import groupby
from operator import itemgetter
from typing import TypeVar

from kitbuilder.errors import RefusedError, Said, named
from kitbuilder.formats.heads import head
from kitbuilder.kit.card_records import Pupil, Stage
from kitbuilder.page.refusal import RefusedRowsError
from kitbuilder.page.table.astray import are_astray, fitting
from kitbuilder.page.table.cells import (
    NUMBER,
    AstrayError,
    Row,
    filled,
    holds_sum,
    is_sum,
    with_name,
)
from kitbuilder.page.table.parted import without_thousands
from kitbuilder.page.table.shape import TableShape, table
from kitbuilder.page.table.titles import quoted
from kitbuilder.page.table.together import check_groups, each_child, with_those_of_all
from kitbuilder.request.answer_cells import ChildAnswers, Told, alike
from kitbuilder.request.answers import COLUMNS, LARGEST_ANSWERS, read_answers, with_names
from kitbuilder.request.pupils import LARGEST_TABLE, MOST_ROWS, pupils

Read = TypeVar("Read")

PASTED = Said("screen.pasted")
"""How a pasted table is called."""

_AND = {"and", "y", "e", "&", "+"}
# Words between the sums of a pupil, in small letters.

MOST_TOLD = 3
"""Cells that are told to be wrong at once; of more, how many."""

FEWEST_MARKS = 4
"""Answers that may all be 0 and 1 for right and wrong."""


def read_pupils(
    text: str, stage: Stage, point: str = ".", notes: list[Said] | None = None
) -> tuple[Pupil, ...]:
    """Return the pupils in a table, a task's line its row; wrong rows are told by number."""
    return fitting(text, "pupils", partial(_pupils, stage=stage, point=point), notes)


def _pupils(text: str, notes: list[Said], stage: Stage, point: str) -> tuple[Pupil, ...]:
    if len(text) > LARGEST_TABLE:
        raise RefusedError("table.too-many-rows", where=PASTED, most=MOST_ROWS, field="pupils")
    lines = list[Row]()
    found = table(without_thousands(text, "pupils", point, notes), "pupils", notes, point)
    in_columns = not any(holds_sum(*cells) for _, cells in found.rows)
    rows = [(number, with_name(cells)) for number, cells in found.rows]
    children = each_child([cells[0] for _, cells in rows], notes, text)
    for names, (number, (_, *sums)) in zip(children, rows, strict=True):
        sums = [one for one in filled(sums) if one.lower() not in _AND]
        if in_columns and len(sums) == 2 and all(map(NUMBER.fullmatch, sums)):
            sums = [" - ".join(sums)]
        if head(names[0]) in COLUMNS[1:]:
            raise AstrayError
        lines += [(number, [name, typed]) for name in names for typed in sums or [""]]
    lines = with_those_of_all(lines, notes)
    if "\t" not in text:
        check_groups(lines)

    def read(table: str) -> tuple[Pupil, ...]:
        return pupils(table, PASTED, stage, point)

    def by_row(lines: Sequence[Row]) -> Iterator[Pupil]:
        for one in _read_rows(COLUMNS[:2], lines, read, "pupils"):
            tasks = (replace(task, line=lines[task.line - 2][0]) for task in one.tasks)
            yield replace(one, tasks=tuple(tasks))

    try:
        given = tuple(by_row(lines))
        notes += _listed_apart(cells[0] for _, cells in lines)
        notes += alike(one.name for one in given)
        return given
    except RefusedRowsError as refused:
        with suppress(RefusedError, RefusedRowsError):
            refused.others = tuple(by_row([row for row in lines if row[0] not in refused.rows]))
        raise


def _listed_apart(names: Iterable[str]) -> Iterator[Said]:
    """Yield which names stand apart though others do not: each may be two children's."""
    places = Counter(name for name, _ in groupby(filter(None, names)))
    several = [name for name, count in places.items() if count > 1]
    if several and len(several) < len(places):
        yield Said("screen.apart", names=named(quoted(several)))


def pasted_answers(
    text: str, point: str = ".", unnamed: str = "1", notes: list[Said] | None = None
) -> tuple[ChildAnswers, ...]:
    """Return each child's answers in a table, those of ``unnamed`` if no row has a name."""
    return fitting(text, "answers", partial(_answers, point=point, unnamed=unnamed), notes)


def _answers(text: str, notes: list[Said], point: str, unnamed: str) -> tuple[ChildAnswers, ...]:
    if len(text) > LARGEST_ANSWERS:
        raise RefusedError("table.too-many-rows", where=PASTED, most=MOST_ROWS, field="answers")
    text, said = without_thousands(text, "answers", point, notes), list[Said]()
    found = table(text, "answers", notes, point)

    def read(table: str) -> tuple[ChildAnswers, ...]:
        said.clear()  # of rows that were read alone
        return read_answers(table, PASTED, said, point)

    if found.shape is not TableShape.SUMS_ACROSS:
        rows, at, bare = found.rows, [*map(head, found.head)].index("name"), False
        if found.shape is TableShape.ROWS:
            rows = [(number, with_name(cells)) for number, cells in rows]
            bare = not any(cells[0] for _, cells in rows)
        if bare:
            rows = [(number, [unnamed, *cells[1:]]) for number, cells in rows]
        given = _read_rows(found.head, rows, read, "answers")
        given = tuple(replace(one, named=not bare) for one in given)
        notes += _listed_apart("".join(cells[at : at + 1]) for _, cells in rows)
    else:
        first, *rest = found.rows
        sums, below = with_names(first, rest, told := Told(point), PASTED)
        notes += told.notes(())
        lines = [*below] or [(first[0], [""])]
        given = _read_rows(["", *sums[1:]], lines, read, "answers", first[0])
    notes += said
    _check_marks(given)
    return given


def _check_marks(children: Sequence[ChildAnswers]) -> None:
    """Refuse a table of 1 for right and 0 for wrong: no answer stands in it."""
    cells = [cell for child in children for cell in child.cells if cell.answer is not None]
    marks = {int(cell.answer or 0) for cell in cells} <= {0, 1}
    if marks and len(cells) >= FEWEST_MARKS and all(cell.sum.rest > 1 for cell in cells):
        raise RefusedError("screen.marks-only", field="answers")


def _read_rows(
    head: Sequence[str],
    rows: Sequence[Row],
    read: Callable[[str], Read],
    field: str,
    first: int = 0,
) -> Read:
    """Return what ``read`` makes of the table; where it refuses, tell of each row by its number."""
    top = _as_csv(head)
    try:
        return read("\n".join([top, *(_as_csv(cells) for _, cells in rows)]))
    except RefusedError as error:
        whole = error
    if first and whole.row == 1:
        whole.row, whole.field = first, field
        raise whole
    listed = sorted((row for row in rows if row[0]), key=itemgetter(0))
    refusals = [one for row in listed if (one := _refused(top, row, read, field))]
    below = tuple(cells[0] for number, cells in rows if not number)
    if below and field == "pupils":
        refusals.insert(0, RefusedError("screen.no-sum-below", names=below, field=field))
    if not refusals:  # each row does, but not all together
        whole.field = field
        whole.row = rows[whole.row - 2][0] if whole.row else None
        if isinstance(line := whole.slots.get("line"), int):
            whole.slots["line"] = rows[line - 2][0]
        raise whole.in_table(PASTED)
    numbers = {error.row or 0 for error in refusals}
    astray = are_astray(listed, refusals)
    if further := refusals[MOST_TOLD:]:
        lines = [*dict.fromkeys(str(error.row) for error in further)]
        count, where = len(further), named(lines)
        told = RefusedError("screen.further", count=count, lines=len(lines), rows=where)
        further = [told.at(field=field)]
    raise RefusedRowsError([*refusals[:MOST_TOLD], *further], numbers, astray=astray)


def _refused(head: str, row: Row, read: Callable[[str], object], field: str) -> RefusedError | None:
    """Return what is wrong with a row, read alone; nothing of a child who was away."""
    number, cells = row
    try:
        read(f"{head}\n{_as_csv(cells)}")
        return None
    except RefusedError as refused:
        error = refused
    given = error.slots.get("given")
    if error.code == "answers.cells":
        most = int(str(error.slots["columns"]))
        given = cells[1 if any(map(is_sum, cells[2:])) and not is_sum(cells[1]) else most]
    unread = error.code.startswith("answers.unreadable") and is_sum(str(given))
    if unread or error.code == "answers.cells":
        error = RefusedError("screen.beyond", given=given)
    error.row, error.field = number, field
    return None if error.code == "answers.none" else error.in_table(PASTED)


def _as_csv(cells: Sequence[str]) -> str:
    """Return cells as a line of a CSV table."""
    written = StringIO()
    csv.writer(written, lineterminator="").writerow(cells)
    return written.getvalue()
