"""A table whose rows do not fit its first: which row or column to take out, or what is read."""

import csv
import re
from collections import defaultdict
from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from io import StringIO
from itertools import islice
from typing import TypeVar

from kitbuilder.errors import RefusedError, Said, named
from kitbuilder.formats.heads import head
from kitbuilder.kit.card_records import Pupil
from kitbuilder.page.refusal import RefusedRowsError
from kitbuilder.page.table.cells import (
    DIGIT,
    LETTER,
    NUMBER,
    AstrayError,
    Row,
    filled,
    first_sum,
    heads_of_sums,
    holds_sum,
    is_sum,
)
from kitbuilder.page.table.known_words import BESIDE, DATE, LABEL, OF_GROUPS, TITLE
from kitbuilder.page.table.parted import parted
from kitbuilder.page.table.titles import MOST_TITLES, is_headed, quoted
from kitbuilder.request.answer_cells import ChildAnswers
from kitbuilder.request.answers import COLUMNS, beside

Child = TypeVar("Child", bound=ChildAnswers | Pupil)
Reader = Callable[[str, list[Said]], tuple[Child, ...]]

MOST_TRIED = 12
"""Rows and columns that are left out for a try."""

MOST_ROWS = 300
"""Rows of a table that are read again for each try."""

MOST_CELLS = 6
"""Cells of a row that are quoted."""


def fitting(
    text: str, field: str, read: Reader[Child], notes: list[Said] | None
) -> tuple[Child, ...]:
    """Return what ``read`` makes of a table; where its rows do not fit, say what to take out."""
    try:
        return read(text, [] if notes is None else notes)
    except AstrayError:
        raise _refusal(*parted(text, field), field, read) from None
    except RefusedRowsError as error:
        rows, mark = parted(text, field)
        if error.astray and len(rows) > 1:
            raise _refusal(rows, mark, field, read) from None
        if refused := _below_titles(rows, mark, field, read):
            raise refused from None
        raise


def _refusal(rows: Sequence[Row], mark: str, field: str, read: Reader[Child]) -> RefusedError:
    """Return what is said of the table: a row or column to take out, or which ones are read."""
    if refused := _below_titles(rows, mark, field, read):
        return refused
    found = list[tuple[tuple[Child, ...], RefusedError]]()
    for kept, refused in islice(_ways(rows, field), MOST_TRIED if len(rows) <= MOST_ROWS else 0):
        if given := _tried(kept, mark, read):
            by_row = refused.code == "screen.row-out"
            if not (by_row and any(isinstance(o, ChildAnswers) and not o.named for o in given)):
                found.append((given, refused))
    if found and all(given == found[0][0] for given, _ in found):
        return found[0][1].at(field=field)
    if field == "answers" and not any(holds_sum(*cells) for _, cells in rows):
        heads = next((filled(cells[1:]) for _, cells in rows if len(filled(cells)) > 1), [])
        if heads and all(LETTER.search(one) and LABEL.fullmatch(one) for one in heads):
            return RefusedError("screen.no-sums", given=quoted(heads[:MOST_CELLS]), field=field)
    first = _quoted_row(rows[0][1])
    if field == "answers":
        return RefusedError("screen.shape-answers", given=first, field=field)
    return RefusedError("screen.shape-pupils", given=first, field=field)


def _below_titles(
    rows: Sequence[Row], mark: str, field: str, read: Reader[Child]
) -> RefusedError | None:
    """Return what is said of a table that can be read without its first rows, if they are titles.

    Below them are heads, or names with sums.
    """
    for at in range(1, min(MOST_TITLES, len(rows) - 1) + 1):
        titles, below = rows[:at], rows[at:]
        last = titles[-1][1]
        if not (_is_titled(last) or (len(filled(last)) == 1 and DIGIT.search("".join(last)))):
            return None
        plain = not _may_be_childs(last) and all(_is_childs(cells) for _, cells in below)
        titled = any(_is_titled(cells) for _, cells in titles)
        if {*COLUMNS[:2]} <= {*map(head, last)} or head(last[0]) in COLUMNS:
            return None
        across = head(below[0][1][0]) in ("", "name") and heads_of_sums([*below]) == 0
        headed = across or is_headed(below, field)
        if titled and (plain or headed) and _tried(below, mark, read):
            lines, given = [line for line, _ in titles], [_quoted_row(cells) for _, cells in titles]
            return _without_rows(lines, "; ".join(given)).at(field=field)
    return None


def _is_childs(cells: Sequence[str]) -> bool:
    """Say whether a row is plainly of a child: a name, then a sum."""
    name, *others = cells
    plain = LETTER.search(name) and not DIGIT.search(name) and not _is_known(name)
    return bool(plain) and holds_sum(*others)


def _may_be_childs(cells: Sequence[str]) -> bool:
    """Say whether a row may be a child's: it begins with no day and no word of titles."""
    begin = filled(cells)[0]
    day = not LETTER.search(begin) and (holds_sum(begin) or DATE.search(begin))
    return not (day or TITLE.fullmatch(begin) or len(filled(cells)) == 1)


def are_astray(rows: Sequence[Row], refusals: Sequence[RefusedError]) -> bool:
    """Say whether half of the rows or more are refused for what stands in which of their cells."""
    held, wrong = defaultdict[int, list[str]](list), defaultdict[int, list[bool | None]](list)
    for number, cells in rows:
        held[number] += cells
    for error in refusals:
        wrong[error.row or 0].append(_misplaced(held[error.row or 0], error))
    astray = [row for row, kinds in wrong.items() if False not in kinds]
    alone = len(astray) == 1 < len(held) and not _is_remark(held[astray[0]])  # told by itself
    return 2 * len(astray) >= len(held) and not alone and any(True in wrong[row] for row in astray)


def _misplaced(cells: Sequence[str], error: RefusedError) -> bool | None:
    """Say whether a row is refused for where a cell stands; None where it lacks one."""
    given = str(error.slots.get("given"))
    if error.code == "pupil.no-name" and error.field == "pupils":
        return True if not all(map(is_sum, filled(cells))) else None
    if error.code in ("pupil.no-name", "pupil.no-sum"):
        return None
    if error.code == "sum.unreadable" and len(re.findall(r"\d+", given)) < 2:
        return bool(LETTER.search(given) or holds_sum(*cells) or len(filled(cells)) > 2)
    return error.code in ("screen.beyond", "answers.twice")


def _ways(rows: Sequence[Row], field: str) -> Iterator[tuple[list[Row], RefusedError]]:
    """Yield a table without one row or column that is no child's, and what is said of that."""
    top = next((number for number, cells in rows if len(filled(cells)) > 1), rows[0][0])
    said = [number for number, cells in rows if _is_said(cells)]
    if 0 < len(said) < len(rows):
        kept = [row for row in rows if row[0] not in said]
        quoted_ = "; ".join(_quoted_row(cells) for number, cells in rows if number in said)
        yield kept, _without_rows(said, quoted_)
    if field == "pupils" and (at := _marked_again(rows)) is not None:
        given = named(quoted([cells[at] for _, cells in rows]))
        out = RefusedError("screen.column-out", column=at + 1, given=given)
        yield [(number, [*cells[:at], *cells[at + 1 :]]) for number, cells in rows], out
    for number, cells in rows:
        lines = [line for line, row in rows if row == cells]
        kept = [row for row in rows if row[1] != cells]
        below = [row for line, row in kept if line > number]
        remark = _is_remark(cells) and not _heads_names(cells, below)
        first = _is_heading(cells, below) if number <= top else remark
        if kept and first and number == lines[0] and not _is_groups(cells):
            yield kept, _without_rows(lines, _quoted_row(cells))
    for at in range(max(len(cells) for _, cells in rows)):
        column = filled(["".join(cells[at : at + 1]) for _, cells in rows])
        kept = [(number, [*cells[:at], *cells[at + 1 :]]) for number, cells in rows]
        answers = field == "answers" and any(map(NUMBER.fullmatch, column))
        if column and _may_go(at, column, dict(rows)[top]) and (not answers or _are_answered(kept)):
            held = named(quoted(column))
            yield kept, RefusedError("screen.column-out", column=at + 1, given=held)


def _is_groups(cells: Sequence[str]) -> bool:
    """Say whether a row has the title of a group and its sums."""
    return bool(OF_GROUPS.search(cells[0])) and holds_sum(*cells)


def _is_said(cells: Sequence[str]) -> bool:
    """Say whether a row is a sentence of some words, without a number."""
    words = " ".join(filled(cells))
    ends = words.endswith((".", "!", "?", ",")) or (words.endswith(":") and len(words.split()) > 2)
    return not DIGIT.search(words) and (ends or len(words.split()) > 4)


def _marked_again(rows: Sequence[Row]) -> int | None:
    """Return which of two first columns has what comes again, as a class, beside names that do not.

    Both are of words, in all rows, before sums.
    """
    if len(rows) < 3 or not all(len(cells) > 2 and holds_sum(cells[2]) for _, cells in rows):
        return None
    columns = [[cells[at] for _, cells in rows] for at in (0, 1)]
    again = [len({*column}) < len(column) for column in columns]
    words = all(
        LETTER.search(cell) and not holds_sum(cell) for column in columns for cell in column
    )
    return again.index(True) if words and sum(again) == 1 else None


def _may_go(at: int, column: Sequence[str], first: Sequence[str]) -> bool:
    """Say whether a column may be taken out: it has no names, and no sums or answers of theirs."""
    top, others = head("".join(first[at : at + 1])), {*map(head, [*first[:at], *first[at + 1 :]])}
    if top in {*COLUMNS} - others | {"name", "answer"}:
        return False
    if holds_sum(*column) and "sum" not in others:
        return False
    beyond = at >= len(first) and holds_sum(*first)  # answers may have slipped to the right
    return not beyond and ("name" in others or all(map(_is_known, column)))


def _are_answered(rows: Sequence[Row]) -> bool:
    """Say whether numbers stand in rows beside the sums, or none but in a head of sums."""
    cells = [cell for _, row in rows[first_sum(rows) :] for cell in row]
    return any(DIGIT.search(cell) and not is_sum(cell) for cell in cells)


def _is_heading(cells: Sequence[str], below: Sequence[Sequence[str]]) -> bool:
    """Say whether a first row is a title or names columns, or holds sums above others."""
    alone = len(filled(cells)) == 1 and re.fullmatch("[^=]*\\d[^=]*", "".join(cells))
    heads = {*COLUMNS} & {*map(head, cells)}
    if not (alone or heads) or (heads == {"sum"} and head(cells[0]) == "sum"):  # names may follow
        return all(map(_is_known, cells))
    return not holds_sum(*cells) or any(holds_sum(*row) for row in below)


def _is_titled(cells: Sequence[str]) -> bool:
    """Say whether a row may be a title: a day, a word of titles or one with a number."""
    words = [*filter(LETTER.search, cells)]
    if len(filled(cells)) == 1:
        return all(map(_is_known, words))
    return any(DIGIT.search(word) or _is_known(word) for word in words)


def _is_remark(cells: Sequence[str]) -> bool:
    """Say whether a row begins with a word that is no child's, and holds no sum."""
    return bool(LETTER.search(cells[0])) and _is_known(cells[0]) and not holds_sum(*cells)


def _heads_names(cells: Sequence[str], below: Sequence[Sequence[str]]) -> bool:
    """Say whether a row may be names, above a row that begins with its sum."""
    return bool(below) and is_sum(below[0][0]) and not all(map(_is_known, cells))


def _is_known(cell: str) -> bool:
    """Say whether a cell is no child's name."""
    word = LABEL.fullmatch(cell) or beside(cell) or cell.lower() in BESIDE
    return bool(word or not LETTER.search(cell)) and not holds_sum(cell) and "=" not in cell


def _tried(rows: Sequence[Row], mark: str, read: Reader[Child]) -> tuple[Child, ...]:
    """Return whom ``read`` finds in rows, each in its line; none where it refuses these."""
    written, held = StringIO(), dict(rows)
    lines = (held.get(line, []) for line in range(1, max(held, default=0) + 1))
    csv.writer(written, delimiter=mark, lineterminator="\n").writerows(lines)
    with suppress(AstrayError, RefusedError, RefusedRowsError):
        return read(written.getvalue(), [])
    return ()


def _without_rows(lines: list[int], given: str) -> RefusedError:
    """Return what is said of a table that can be read without rows."""
    some = len(lines) > 1
    out = Said("repair.rows", rows=lines) if some else Said("repair.row", line=lines[0])
    rows = named(lines)
    return RefusedError("screen.row-out", repair=out, lines=len(lines), rows=rows, given=given)


def _quoted_row(cells: Sequence[str]) -> str:
    """Return a row as it is quoted."""
    held = filled(cells)
    return ", ".join([*held[:MOST_CELLS], *["…"][: len(held) > MOST_CELLS]])
