"""Which shape a pasted table has: decided once, here; the readers go by it."""

from collections.abc import Iterator, Sequence
from contextlib import suppress
from enum import Enum, auto
from itertools import chain

from kitbuilder.errors import RefusedError, Said
from kitbuilder.formats.heads import full_names, head
from kitbuilder.frozen import frozen
from kitbuilder.page.table.blocks import in_groups
from kitbuilder.page.table.cells import (
    LETTER,
    NAME_ANSWER,
    NUMBER,
    AstrayError,
    Row,
    apart,
    away_apart,
    counts_rows,
    filled,
    first_sum,
    heads_of_sums,
    holds_sum,
    is_sum,
    one_by_one,
    parts_of,
    unanswered,
    with_name,
)
from kitbuilder.page.table.doubts import (
    check_answers,
    check_beside,
    check_codes,
    check_corner,
    check_lines,
    check_order,
    check_side_by_side,
    check_signs,
    check_slips,
    check_two_ways,
)
from kitbuilder.page.table.forms import as_in_a_form
from kitbuilder.page.table.known_words import (
    END,
    TITLE,
    bare_names,
    bare_sum,
    listed,
)
from kitbuilder.page.table.labels import carried, owned
from kitbuilder.page.table.lists import (
    check_once,
    in_a_list,
    one_child_a_cell,
    with_sums_above,
)
from kitbuilder.page.table.own_heads import with_names_first, without_own_columns, without_totals
from kitbuilder.page.table.parted import check_halves, in_columns, joined, parted
from kitbuilder.page.table.plans import as_planned
from kitbuilder.page.table.titles import (
    bare_head,
    heads_a_plan,
    names_columns,
    quoted,
    without_corner,
    without_titles,
)
from kitbuilder.request.answer_cells import BLANK, read_answer
from kitbuilder.request.answers import COLUMNS, beside, no_child
from kitbuilder.request.request import read_sum

_IN_LISTS = {"answers": in_a_list, "pupils": in_groups}
# What reads lists and groups, which no head holds together.


class TableShape(Enum):
    """How rows are to be read; names across the head have been turned into rows of columns."""

    COLUMNS = auto()  # as the head names them
    SUMS_ACROSS = auto()  # sums in the first row, names down
    ROWS = auto()  # a name and sums, or name, sum and answer, or no name


@frozen
class PastedTable:
    """A table's shape, its columns and its rows."""

    shape: TableShape
    head: Sequence[str]
    rows: list[Row]


def table(text: str, field: str, notes: list[Said], point: str = ".") -> PastedTable:
    """Return a pasted table; ask where it may have one shape or another."""
    if given := _IN_LISTS[field](parted(text, field, point)[0], notes):
        return PastedTable(TableShape.COLUMNS, COLUMNS, given)
    named, mark = _rows_of_children(text, field, notes, point)
    rows = _trimmed(named)
    headed = len(rows) > 1 and names_columns(rows[0][1], rows[1:])
    top, heading = rows[0] if headed else (0, [])
    rows = rows[1:] if heading else rows
    if across := _across((top, heading), rows, field):
        heading, rows = across
        if mark == "," and any(len(cells) > len(heading) for _, cells in rows):
            rows = [(row[0], joined(row, field)) for row in rows]
        heading, rows = without_totals(heading, rows, notes)
        return PastedTable(TableShape.COLUMNS, COLUMNS, [*_turned(heading, rows)])
    if mark == "," and not in_columns([(top, heading), *rows]):
        rows = [(row[0], joined(row, field)) for row in rows]
    if field == "answers":
        check_answers((top, heading), rows)
    else:
        heading, rows = without_own_columns(heading, rows, notes)
    columns = [*map(head, heading)]
    if {*columns} >= {*COLUMNS}:
        check_beside(heading, rows, field)
        if columns == [*COLUMNS]:  # a shorter row may be a line: Ada 53-27=34
            rows = [(n, cells if len(cells) > 2 else with_name(cells)) for n, cells in rows]
        rows = carried(with_sums_above(rows, columns), columns.index("name"), notes, field)
        return PastedTable(TableShape.COLUMNS, heading, rows)
    if len(rows) == 1 and all(head(cell) in COLUMNS for cell in rows[0][1]):
        raise RefusedError("screen.only-headings", field=field)
    if field == "answers" and _sums_across(rows):
        if any(_are_sums(cells) for _, cells in rows[1:]):
            raise AstrayError
        check_lines(rows[1:])
        return PastedTable(TableShape.SUMS_ACROSS, rows[0][1], rows)
    name = rows[0][1][0].rstrip(END) if field == "pupils" and len(rows) > 1 else ""
    if head(name) in COLUMNS or TITLE.fullmatch(name):
        raise AstrayError
    _check_head(heading, rows, field)
    if field == "pupils" and {*columns} >= {*COLUMNS[:2]}:
        rows = carried(rows, 0, notes, field)
    return PastedTable(TableShape.ROWS, COLUMNS, rows)


def _rows_of_children(
    text: str, field: str, notes: list[Said], point: str
) -> tuple[list[Row], str]:
    """Return a table's rows of children, and what parts their cells.

    First go the marks of a list and what numbers sums, then titles, days and totals, then what
    numbers children; last each row of a sum gets the name of its child.
    """
    given, mark = parted(text, field, point)
    given = given if mark == "\t" else one_child_a_cell(given)
    check_side_by_side(given, field)
    check_signs(given, field)
    if field == "answers":
        check_slips(given)
        check_corner(given, tabs=mark == "\t")
        given = without_corner(given)
        given = _answers_apart(as_in_a_form(given, notes))
    else:
        given = as_planned(with_names_first(given), mark, notes)
        given = [(number, [*map(unanswered, cells)]) for number, cells in given]
    given = [row for row in given if any(row[1])]
    rows = [(number, away_apart([listed(cells[0]), *cells[1:]])) for number, cells in given]
    rows = _with_bare_sums(one_by_one(rows, mark, field))
    if mark == "," and not in_columns(rows):
        check_halves(rows, field)
    untitled = without_titles(rows, field, notes)
    bare = _without_numbers(untitled)
    rows, numbered = [*full_names(bare)], bare is not untitled
    typed = {number: cells[0] for number, cells in given}
    if field == "answers":
        check_codes(rows)
        rows = owned(rows, typed, notes, field, numbered=numbered, listed=mark != "\t")
        check_two_ways(rows, field)
    else:
        check_two_ways(rows, field)
        rows = owned(rows, typed, notes, field, numbered=numbered)
    return rows, mark


def _answers_apart(rows: list[Row]) -> list[Row]:
    """Return ``rows``, a name and an answer in a first cell below sums across taken apart."""
    if (at := heads_of_sums(rows)) is None:
        return rows
    top, first = rows[at]
    sums = sum(map(holds_sum, first))
    corner = [] if is_sum(first[0]) or not holds_sum(first[0]) else parts_of(first[0], first=True)
    found = [*rows[:at], (top, [*corner, *first[1:]] if corner else first)]
    below = rows[at + 1 :]
    coded = any(len(cells) > sums and NAME_ANSWER.fullmatch(cells[0]) for _, cells in below)
    for number, cells in below:
        away = any(LETTER.search(cell) and cell.lower() in BLANK for cell in cells[1:])
        ends = None if away else NAME_ANSWER.fullmatch(cells[0])
        short = len(cells) <= sums and (corner or (ends and not coded))
        both = ends if (short and corner) or ":" in cells[0] else None
        unsure = short and not both and (ends or NUMBER.fullmatch(cells[0]))
        if unsure or (both and len(cells) != sums):
            several = sum(bool(NAME_ANSWER.fullmatch(row[0])) for _, row in below) > 1
            refused = RefusedError("screen.name-answer", given=cells[0], field="answers")
            raise refused.at(row=None if several else number)  # no one child is to be left out
        found.append((number, [*both.groups(), *cells[1:]] if both else cells))
    return found


def _with_bare_sums(rows: list[Row]) -> list[Row]:
    """Return ``rows`` without what counts sums within their cells, but in a column of names."""
    at = first_sum(rows) % max(len(rows), 1)
    top = rows[at - 1][1] if at else []
    heads = top and (not top[0] or len(filled(top)) > 1)
    sums_first, found = heads and head(top[0]) != "name", list[Row]()
    for number, cells in rows:
        bare = [*map(bare_sum, cells)]
        first = 0 if sums_first or bare[1:] != cells[1:] else 1
        found.append((number, [*cells[:first], *bare[first:]]))
    return found


def _trimmed(rows: Sequence[Row]) -> list[Row]:
    """Return ``rows`` without empty cells at their ends."""
    ends = [max((at for at, cell in enumerate(cells, 1) if cell), default=0) for _, cells in rows]
    return [(number, cells[:end]) for (number, cells), end in zip(rows, ends, strict=True) if end]


def _without_numbers(rows: list[Row]) -> list[Row]:
    """Return ``rows`` without running numbers before names, or sums below names across."""
    if (bare := bare_names(begin := [cells[0] for _, cells in rows])) != begin:
        return [(row[0], [name, *row[1][1:]]) for row, name in zip(rows, bare, strict=True)]
    first = 0 if counts_rows(rows) else 1
    if not counts_rows(rows[first:]):
        return rows
    below = [(number, cells[1:]) for number, cells in rows[first:]]
    top = rows[0][1] if first else []
    if any(top[1:]) and len(top) > max(len(cells) for _, cells in below):
        top = top[1:]
    begin, heads = [cells[0] for _, cells in below], [*map(head, top)]
    names = all(map(LETTER.search, filled(begin))) and begin[0] and not is_sum("".join(top[:1]))
    names = names and not (first and head(rows[0][1][0]) == "name" and "name" not in heads)
    sums = len({*filter(is_sum, begin)}) == len(begin)  # each once: a class has them again
    others = {*heads[1:]} - {"", "answer"}  # a column of right answers may stand there
    across = others and not (others & {*COLUMNS} or any(map(no_child, others)))
    if not (names or (sums and across and heads[0] in ("", "name", "sum"))):
        return rows
    return [*[(rows[0][0], top)][:first], *below]


def _across(first: Row, rows: list[Row], field: str) -> tuple[list[str], list[Row]] | None:
    """Return names across a head and the rows of sums below; ask if the corner may be one."""
    top, heading = first
    begin = [cells[0] for _, cells in rows if not is_sum(cells[0])]
    if (
        len(heading) < 2
        or heads_a_plan(heading, rows)
        or LETTER.search("".join(begin))
        or holds_sum(*begin)
    ):
        return None
    if begin and head(heading[0]) == "name":  # children may be called by numbers
        return None
    cells_below = [cell for _, cells in rows for cell in cells if cell]
    if head(heading[0]) not in ("", *COLUMNS) and all(map(is_sum, cells_below)):
        heading, rows = ["", *heading], [(number, ["", *cells]) for number, cells in rows]
    heads = [*map(head, map(bare_head, heading))]
    if {*heads[1:]} & {*COLUMNS} and not _has_key(heads, rows):
        return None
    if head(heading[0]) not in ("", *COLUMNS):
        raise RefusedError("screen.corner", given=heading[0], row=top, field=field)
    check_once(top, heading[1:], field)
    wide = max(len(cells) for _, cells in rows)
    unnamed = {at for at in range(1, wide) if not "".join(heading[at : at + 1])}
    if any(any(cells[at : at + 1]) for _, cells in rows for at in unnamed):
        raise AstrayError
    return heading, rows


def _has_key(heads: Sequence[str], rows: Sequence[Row]) -> bool:
    """Say whether answers, all of them right, stand in a column beside names across."""
    key = heads.index("answer") if "answer" in heads else 0
    names = [one for at, one in enumerate(heads) if at not in (0, key)]
    right = all(len(cells) > key and _is_right(cells[0], cells[key]) for _, cells in rows)
    return right and names != [] and not any(one in COLUMNS or beside(one) for one in names)


def _is_right(sum_: str, answer: str) -> bool:
    """Say whether an answer is that of the sum."""
    with suppress(RefusedError):
        given = read_sum(sum_.rstrip("= "))
        return read_answer(answer, given) == given.rest
    return False


def _turned(heading: Sequence[str], rows: Sequence[Row]) -> Iterator[Row]:
    """Yield each cell below a name as a row: name, sum, cell; in row 0 a name with none below."""
    widest = max(len(heading), *(len(cells) for _, cells in rows))
    for at in range(1, widest):
        name, without = "".join(heading[at : at + 1]), True
        for number, cells in rows:
            told, cell = [*filter(is_sum, cells[:1])], "".join(cells[at : at + 1])
            if cell or told:  # an answer may be none
                yield number, [name, *told, cell]
                without = False
        if name and without:
            yield 0, [name, ""]


def _check_head(heading: list[str], rows: list[Row], field: str) -> None:
    """Refuse a first row of words that names no column, as one may be a name; ask of numbers."""
    if field == "answers":
        check_order(rows, heading)
    sums = [cell for cell in heading if head(bare_head(cell)) == "sum"]
    if field == "pupils" and len(sums) > 1 and not any(holds_sum(*cells) for _, cells in rows):
        raise RefusedError("screen.no-sums", given=quoted(sums), field=field)  # answers, perhaps
    heads = [*map(head, map(bare_head, heading))]
    given = any(one not in ("", "sum") for one in heads) and not heads_a_plan(heading, rows)
    known = field == "pupils" and "sum" in heads and heads[0]
    if given and not known and not {*heads} & {"name", "answer"}:
        raise AstrayError


def _are_sums(cells: Sequence[str]) -> bool:
    """Say whether a row below sums across is of sums as well."""
    alone = [*map(is_sum, filled(cells))] == [True]
    return alone or (len(cells) > 2 and all(map(is_sum, cells[1:])))


def _sums_across(rows: Sequence[Row]) -> bool:
    """Say whether the first row holds the sums, and not the first child's one alone."""
    if len(rows) < 2:
        return False
    (_, (corner, *heads)), *others = rows
    below = [apart(cells) for _, cells in others]
    given = [cell for cell in heads if not beside(cell)]
    answers = any(map(NUMBER.fullmatch, chain.from_iterable(row[1:] for row in below)))
    if len(given) == 1 and head(corner) not in ("", *COLUMNS) and not answers:
        return False
    wide = [apart(cells) for _, cells in others if len(filled(cells)) > 1 or not cells[0]]
    alone = len(given) == 1 and any(map(is_sum, chain.from_iterable(wide)))
    return given != [] and not alone and all(map(is_sum, given))
