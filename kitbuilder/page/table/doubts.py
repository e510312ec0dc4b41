"""What of a table may be meant in two ways is asked: each refusal says how to write either."""

import re
from collections.abc import Sequence

from kitbuilder.errors import RefusedError
from kitbuilder.formats.heads import head
from kitbuilder.page.table.cells import (
    DIGIT,
    LETTER,
    NAME_ANSWER,
    NUMBER,
    WRITTEN,
    Row,
    apart,
    counts_rows,
    filled,
    heads_of_sums,
    holds_sum,
    in_two_ways,
    is_sum,
    parts_of,
    whole,
)
from kitbuilder.page.table.known_words import BESIDE, NUMBERS
from kitbuilder.page.table.titles import MOST_TITLES, bare_head, quoted
from kitbuilder.request.answers import COLUMNS, no_child

_THREE = re.compile(r"(?:^|.*\s)((\d{1,3})\s*[-−–—]\s*(\d{1,4})\s*[-−–—]\s*(\d{1,4}))\W*")
# A sum and an answer with a minus between, or what counts a sum: 3-71-38.

_DAY = re.compile(r"(?:0?[1-9]|[12]\d|3[01])\s*[-–—]\s*(?:0?[1-9]|1[0-2])\s*[-–—]\s*(?:\d\d|\d{4})")

_SLIP = re.compile(r"(\d[^\s=]*(?:\s*[^\w\s=]\s*\d+)?)\s*=\s*\d+\W*$")
# What stands for a sum before an answer.

_MAY_BE_NUMBERED = re.compile(r"(.*[^\W\d]\s+)(\d) ([1-9]\d\d)\s*[-−–—]\s*(\d{1,3})(?!\d| \d{3}\b)")
# A name before a sum that may have thousands, or a name with a number.

_YEARS = re.compile(r"\b20\d\d\s*[-–—/]\s*(?:20)?\d\d\b")

_CLASSES = ("class", "group", "grade", "clase", "grupo", "curso")
# Heads of what may tell two children of one name apart, in small letters.

_AMOUNT = re.compile(r"\W*\d+(?:[.,]\d+)?(?:\W.*)?")
# An answer, whatever mark stands beside it.


def check_signs(rows: Sequence[Row], field: str) -> None:
    """Refuse 72-45-33, which may have been meant as 72-45 = 33, but days and 1, 2, 3 in order."""
    last = 0
    for number, cells in rows:
        found = _THREE.fullmatch(cells[0])
        if not found or _DAY.fullmatch(found[1]):
            continue
        counts, last = int(found[2]) in (1, last + 1) and found.start(1) == 0, int(found[2])
        if not counts and last >= int(found[3]):
            raise RefusedError("screen.two-signs", given=found[1], row=number, field=field)


def check_side_by_side(rows: Sequence[Row], field: str) -> None:
    """Refuse tables side by side: names are headed again after sums, or lists stand in a row."""
    for _, cells in rows[: MOST_TITLES + 1]:
        kinds = "".join(map(_kind_of_head, cells))
        if re.search("n.*s.*n.*s", kinds):
            raise RefusedError("screen.two-tables", field=field)
    if len(rows) > 1 and all(_are_two_children(filled(cells)) for _, cells in rows):
        raise RefusedError("screen.two-tables", field=field)
    (_, names), *below = rows or [(0, [""])]
    names = filled(names)
    titled = len(names) > 1 and not any(map(DIGIT.search, names))
    titled = titled and not {*map(head, names)} & {*COLUMNS}
    if below and titled and all(_are_pairs(filled(cells)) for _, cells in below):
        raise RefusedError("screen.two-tables", field=field)


def _kind_of_head(cell: str) -> str:
    """Return "n" for a head of names, "s" for one of sums or answers or a sum, else "-"."""
    column = head(bare_head(cell))
    return "n" if column == "name" else "s" if holds_sum(cell) or column in COLUMNS else "-"


def _are_two_children(cells: Sequence[str]) -> bool:
    """Say whether cells are a name with a sum and an answer, twice."""
    sums = [at for at, cell in enumerate(cells) if is_sum(cell)]
    return sums == [1, 4] and len(cells) < 7 and all(map(LETTER.search, cells[::3]))


def _are_pairs(cells: Sequence[str]) -> bool:
    """Say whether cells are several sums, each with a number after it."""
    sums, answers = cells[::2], cells[1::2]
    return len(cells) > 3 and all(map(is_sum, sums)) and all(map(NUMBER.fullmatch, answers))


def check_order(rows: Sequence[Row], heading: Sequence[str]) -> None:
    """Refuse rows in which a number stands before the sum where no head names the two."""
    known = "answer" in map(head, heading) or counts_rows([(n, cells[-2:]) for n, cells in rows])
    if rows and not known and all(_is_turned(cells) for _, cells in rows):
        raise RefusedError("screen.answer-first", field="answers")


def _is_turned(cells: Sequence[str]) -> bool:
    """Say whether a row is a name, if any, a number and a sum."""
    *name, number, sum_ = ["", *cells][-3:]
    plain = len(cells) < 4 and not any(map(DIGIT.search, name))
    return plain and bool(NUMBER.fullmatch(number)) and is_sum(sum_)


def check_slips(rows: Sequence[Row]) -> None:
    """Refuse a line with an equals sign but no sum among lines of sums, as Ada 53/27=26."""
    if not any(holds_sum(*cells) for _, cells in rows):
        return
    for number, cells in rows:
        line = "".join(cells)
        slip = None if holds_sum(line) or len(filled(cells)) > 1 else _SLIP.search(line)
        if slip and not no_child(line[: slip.start()]):
            raise RefusedError("sum.unreadable", given=slip[1], row=number, field="answers")


def check_corner(rows: list[Row], *, tabs: bool) -> None:
    """Refuse what may be a sum, a day or a title above names, where no row has a cell more.

    Years, and what takes out more than there is, are no sum however many cells stand below.
    """
    at = heads_of_sums(rows)
    if at is None or not holds_sum(rows[at][1][0]):
        return
    (top, (corner, *sums)), below = rows[at], [cells for _, cells in rows[at + 1 :]]
    may_hold_answers = is_sum(corner) or head(parts_of(corner, first=True)[0]) == "name"
    listed = not tabs and may_hold_answers and all(NAME_ANSWER.fullmatch(one[0]) for one in below)
    named = all(LETTER.search(cells[0]) and ":" not in cells[0] for cells in below)
    ends = max(at for cells in below for at, cell in enumerate(cells) if cell)
    pair = WRITTEN.search(corner)
    no_sum = pair and (_YEARS.search(corner) or whole(pair["whole"]) < whole(pair["part"]))
    if named and not listed and (no_sum or 0 < ends <= len(sums)):
        raise RefusedError("screen.corner-sum", given=corner, row=top, field="answers")


def check_codes(rows: Sequence[Row]) -> None:
    """Refuse what may be a sum or a child's code, as 20-1: sums stand across, or one beside it."""
    (_, (corner, *top)), *_ = rows or [(0, [""])]
    across = not is_sum(corner) and len(filled(top)) > 1 and all(map(is_sum, filled(top)))
    for number, cells in rows:
        first, *given = filled(apart(cells))
        beside = len(given) == 2 and is_sum(given[0]) and NUMBER.fullmatch(given[1])
        above = across and given and not any(map(is_sum, given))
        if is_sum(first) and (beside or above or re.search(r"[-−–]\s*0\d", first)):
            refused = RefusedError("screen.code", given=first, other=re.sub(r"\W", "", first))
            raise refused.at(row=number, field="answers")


def check_two_ways(rows: Sequence[Row], field: str) -> None:
    """Refuse a row where a sum may have thousands, or a name end in a number."""
    for number, cells in rows:
        for at, cell in enumerate(cells):
            halves = in_two_ways(cell, first=not at)
            bare = _MAY_BE_NUMBERED.match(cell) if field == "pupils" and not at else None
            if bare and int(bare[4]) <= int(bare[3]):  # no equals sign tells which
                halves = cell[: bare.end(2)], cell[bare.start(3) :]
            if halves:
                sum_, other = "".join(halves), ": ".join(halves)
                refused = RefusedError("screen.two-ways", given=cell, sum=sum_, other=other)
                raise refused.at(field=field, row=number)


def check_lines(rows: Sequence[Row]) -> None:
    """Refuse a line below sums across that may be a name with answers in one cell: Fay 25/34."""
    coded = any(DIGIT.search(cells[0]) for _, cells in rows if len(filled(cells)) > 1)
    for number, cells in rows:
        line = "".join(cells)
        if not coded and len(filled(cells)) == 1 and LETTER.search(line) and DIGIT.search(line):
            raise RefusedError("screen.name-answer", given=line, row=number, field="answers")


def check_answers(first: Row, rows: Sequence[Row]) -> None:
    """Refuse two columns of numbers beside names and sums: one may hold the right answers."""
    top, heading = first
    heads = [*map(head, heading)]
    if not {*heads} >= {*COLUMNS[:2]} or any(map(is_sum, heading)):
        return
    given = [
        name
        for at, name in enumerate(heading)
        if heads[at] not in COLUMNS[:2] and name.lower() not in BESIDE
        if heads[at] == "answer" or not ("answer" in heads and no_child(name))
        if any(_AMOUNT.fullmatch("".join(cells[at : at + 1])) for _, cells in rows)
        if not counts_rows(rows, at)
    ]
    if len({*given}) > 1:
        twice = RefusedError("screen.two-answers", given=quoted(given))
        raise twice.at(row=top, field="answers")


def check_beside(heading: list[str], rows: Sequence[Row], field: str) -> None:
    """Refuse one name beside two classes or codes: it may be two children's."""
    at = [*map(head, heading)].index("name")
    dated = (*COLUMNS, "date", "fecha")
    marks = [
        k
        for k, cell in enumerate(heading)
        if (head(cell) not in dated if k < at else cell.lower() in _CLASSES)
        if cell.lower() not in NUMBERS
    ]
    found = dict[str, list[str]]()
    for number, cells in rows:
        if not marks or len(cells) <= at or not cells[at]:
            continue
        now = ["".join(cells[k : k + 1]) for k in marks]
        if not any(now):
            continue
        before = found.setdefault(cells[at], now)
        if now != before:
            given, other = ", ".join(before), ", ".join(now)
            twice = RefusedError("screen.two-beside", name=cells[at], given=given, other=other)
            raise twice.at(row=number, field=field)
