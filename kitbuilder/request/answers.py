"""Children's answers read from a table: pasted, CSV, or from a spreadsheet."""

import csv
import io
import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from kitbuilder.errors import RefusedError, Where
from kitbuilder.frozen import frozen
from kitbuilder.kit.class_marks import Cell
from kitbuilder.number.scale import HUNDREDTHS, Scale
from kitbuilder.number.sums import Sum
from kitbuilder.request.pupils import checked_name
from kitbuilder.request.request import read_sum

LARGEST_ANSWERS = 2_000_000
"""Bytes a table of answers may have."""

MOST_ANSWERS = 40_000
"""Answers a table may have: forty classes of fifty, twenty sums each."""

MOST_OF_ONE = 200
"""Answers one child may have."""

COLUMNS = ("name", "sum", "answer")
"""Heads of the columns, in any order; ``HEADS`` has what they are called elsewhere."""

HEADS = {
    "nombre": "name",
    "pupil": "name",
    "child": "name",
    "alumno": "name",
    "resta": "sum",
    "problem": "sum",
    "cuenta": "sum",
    "respuesta": "answer",
    "code": "name",
    "código": "name",
}

BLANK = ("", "-", "–", "—", "−", "?", "/", "n/a", "absent", "not tried", "ausente", "sin hacer")
"""What stands for a sum that was not answered, in small letters."""

_MARKS = ("\t", ";", ",")
_SPACES = str.maketrans(dict.fromkeys("\xa0\u2009\u202f", " "))
_WHOLE = re.compile(r"\d{1,6}(?:[.,]0{1,2})?", re.ASCII)
_DECIMAL = re.compile(r"(\d{1,4})(?:[.,](\d{1,2}))?", re.ASCII)
_THOUSANDS = re.compile(r"\d{1,3}[.,' ]\d{3}", re.ASCII)


@frozen
class Paper:
    """One child's answers, in the order of the table."""

    name: str
    cells: tuple[Cell, ...]


def read_answers(text: str, where: Where) -> tuple[Paper, ...]:
    """Return the children in a table of answers, in the order they first appear.

    Either each line is one answer, under the heads name, sum and answer in any order; or the
    first line holds the sums and each further line a name and the answers. Cells are parted by
    tabs, semicolons or commas. An answer may be left blank. Raises ``RefusedError`` naming the
    line; ``where`` names the file in it.
    """
    rows = _rows(text, where)
    first = next(rows, None)
    if first is None:
        raise RefusedError("answers.empty", where=where, field="answers")
    heads = [HEADS.get(cell.lower(), cell.lower()) for cell in first[1]]
    long = set(heads) >= set(COLUMNS)
    found: dict[str, list[Cell]] = {}
    if long:
        if len(set(heads)) < len(heads):
            raise RefusedError("answers.twice", where=where, field="answers")
        cells = _long(rows, heads, where)
    else:
        cells = _wide(rows, first[1], first[0], where)
    for count, (name, given) in enumerate(cells, 1):
        if count > MOST_ANSWERS:
            raise RefusedError("answers.too-many", where=where, most=MOST_ANSWERS, field="answers")
        held = found.setdefault(name, [])
        held.append(given)
        if len(held) > MOST_OF_ONE:
            raise RefusedError("answers.too-many-of-one", name=name, most=MOST_OF_ONE).at(
                where, given.line, field="answers"
            )
    if not found:
        raise RefusedError("answers.none", where=where, field="answers")
    return on_one_scale(Paper(name, tuple(given)) for name, given in found.items())


def on_one_scale(papers: Iterable[Paper], written: Scale = HUNDREDTHS) -> tuple[Paper, ...]:
    """Return ``papers`` with all numbers in hundredths, as ``written``, if any has decimals."""
    papers = tuple(papers)
    if not any(cell.sum.scale.decimals for paper in papers for cell in paper.cells):
        return papers

    def cell_on(cell: Cell) -> Cell:
        if not cell.sum.scale.decimals and cell.sum.whole > 99:
            raise RefusedError("decimals.too-large", sum=cell.sum, field="answers")
        times = 1 if cell.sum.scale.decimals else 10**HUNDREDTHS.decimals
        answer = None if cell.answer is None else written.number(int(cell.answer) * times)
        return replace(cell, sum=cell.sum.on(written), answer=answer)

    return tuple(replace(one, cells=tuple(map(cell_on, one.cells))) for one in papers)


Row = tuple[int, list[str]]


def _rows(text: str, where: Where) -> Iterator[Row]:
    """Yield the rows that are not empty, each with the number of its first line."""
    lines = text.splitlines()
    start = next((k for k, line in enumerate(lines) if line.strip()), 0)
    mark = ","
    if start < len(lines) and (told := re.fullmatch(r"sep=(.)", lines[start].strip())):
        mark, start = told[1], start + 1  # as a spreadsheet writes it
    elif start < len(lines):
        mark = next((m for m in _MARKS if m in lines[start]), ",")
    body = "\n".join(lines[start:])
    reader = csv.reader(io.StringIO(body, newline=""), delimiter=mark, strict=True)
    line = start + 1
    while True:
        try:
            row = next(reader, None)
        except csv.Error:
            raise RefusedError("table.no-row").at(where, line, field="answers") from None
        if row is None:
            return
        cells = [cell.translate(_SPACES).strip() for cell in row]
        if any(cells):
            yield line, cells
        line = start + reader.line_num + 1


def _long(rows: Iterator[Row], heads: Sequence[str], where: Where) -> Iterator[tuple[str, Cell]]:
    at = {name: heads.index(name) for name in COLUMNS}
    for line, row in rows:
        try:
            cells = [*row, *[""] * (len(heads) - len(row))]
            if len(cells) > len(heads):
                raise RefusedError("answers.cells", count=len(row), columns=len(heads))
            name = checked_name(cells[at["name"]])
            sum_ = _sum(cells[at["sum"]])
            yield name, Cell(sum_, read_answer(cells[at["answer"]], sum_), line)
        except RefusedError as error:
            raise error.at(where, line, field="answers") from None


def _wide(
    rows: Iterator[Row], heads: Sequence[str], line: int, where: Where
) -> Iterator[tuple[str, Cell]]:
    given = _trimmed(heads[1:])
    if not any(re.search(r"\d", cell) for cell in given):
        raise RefusedError("answers.heads", where=where, given=", ".join(heads), field="answers")
    try:
        sums = [_sum(cell) for cell in given]
    except RefusedError as error:
        raise error.at(where, line, field="answers") from None
    seen: dict[str, int] = {}
    for number, row in rows:
        try:
            cells = _trimmed(row)
            if len(cells) > len(sums) + 1:
                raise RefusedError("answers.cells", count=len(cells), columns=len(sums) + 1)
            name = checked_name(cells[0] if cells else "")
            if name in seen:
                raise RefusedError("answers.same-name", name=name, line=seen[name])
            seen[name] = number
            for k, sum_ in enumerate(sums, 1):
                typed = cells[k] if k < len(cells) else ""
                yield name, Cell(sum_, read_answer(typed, sum_), number)
        except RefusedError as error:
            raise error.at(where, number, field="answers") from None


def _trimmed(cells: Sequence[str]) -> list[str]:
    kept = list(cells)
    while kept and not kept[-1]:
        kept.pop()
    return kept


def _sum(typed: str) -> Sum:
    """Return a sum as it stands in a table: a spreadsheet may keep a sign before it, or = after."""
    sum_ = read_sum(typed.removeprefix("'").removeprefix("=").rstrip("= "))
    if not sum_.whole:
        raise RefusedError("sum.nothing-to-build", sum=sum_)
    return sum_


def read_answer(typed: str, sum_: Sum) -> int | None:
    """Return the answer typed for ``sum_``, None where it is blank; refuse what is no number.

    25,0 and 25.00 are 25, as spreadsheets may write it; 1 234, 1.234 and 1,234 are 1234. A sum
    with decimals has answers with at most two.
    """
    text = typed.strip()
    if text.lower() in BLANK:
        return None
    if sum_.scale.decimals:
        found = _DECIMAL.fullmatch(text)
        if not found:
            raise RefusedError("answers.unreadable-decimal", given=typed, sum=sum_)
        return sum_.number(int(f"{found[1]}{(found[2] or '').ljust(2, '0')}"))
    if _THOUSANDS.fullmatch(text):
        return int(re.sub(r"\D", "", text))
    if not _WHOLE.fullmatch(text):
        raise RefusedError("answers.unreadable", given=typed, sum=sum_)
    return int(re.split("[.,]", text)[0])
