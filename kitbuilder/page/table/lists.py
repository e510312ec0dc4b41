"""Answers below what they belong to: below names across, or names and answers below a sum."""

import re
from collections.abc import Sequence

from kitbuilder.errors import RefusedError
from kitbuilder.formats.heads import head
from kitbuilder.page.table.cells import (
    DASHES,
    DIGIT,
    LETTER,
    NAME_ANSWER,
    NUMBER,
    WRITTEN,
    Row,
    away_apart,
    counts_rows,
    filled,
    holds_sum,
    is_sum,
    with_name,
)
from kitbuilder.page.table.known_words import DAY_MONTH, LABEL, listed
from kitbuilder.request.answer_cells import BLANK
from kitbuilder.request.answers import COLUMNS, beside, no_child

_NAME_ANSWERS = re.compile(r"([^\W\d][^\d]*?)\s+(\d+(?:\s+\d+)*)")
# A name and answers with spaces between.


def in_a_list(rows: list[Row]) -> list[Row]:
    """Return each answer as a row of name, sum and answer; none where rows are no such list."""
    return _below_names(rows) or _below_sums(rows) or _in_spaces(rows)


def one_child_a_cell(rows: list[Row]) -> list[Row]:
    """Return ``rows``, those of a child with a sum in each cell as so many: Ada 9-3, Ben 8-5."""
    found = list[Row]()
    for number, cells in rows:
        held = filled(cells)
        several = len(held) > 1 and all(map(_is_of_a_child, held))
        found += [(number, [one]) for one in held] if several else [(number, cells)]
    return found


def _is_of_a_child(cell: str) -> bool:
    """Say whether a cell is a name, and one sum."""
    sums = [*WRITTEN.finditer(cell)]
    name = cell[: sums[0].start()].strip(f" :{DASHES}") if len(sums) == 1 else ""
    plain = LETTER.match(name) and not DIGIT.search(name) and not LABEL.fullmatch(name)
    return bool(plain) and not no_child(name) and head(name) not in COLUMNS


def _below_names(rows: list[Row]) -> list[Row]:
    """Return each sum with its answer below names across as a row: name, sum, answer; else none."""
    (top, names), *below = rows or [(0, [])]
    first = 1 if names and not names[0] and counts_rows(below) else 0
    cells = filled([cell for _, row in below for cell in row[first:]])
    answered = all(holds_sum(one) and one.count("=") == 1 for one in cells)
    across = any(len(filled(row[first:])) > 1 for _, row in below)
    fit = all(len(row) <= len(names) for _, row in below)
    children = all(LETTER.search(one) and not DIGIT.search(one) for one in names[first:])
    known = any(head(one) in COLUMNS or no_child(one) or LABEL.fullmatch(one) for one in names)
    if known or not (children and answered and across and fit):
        return []
    check_once(top, names, "answers")
    places = [(at, name) for at, name in enumerate(names) if at >= first]
    turned = [(n, name, row[at]) for at, name in places for n, row in below if len(row) > at]
    return [(n, [name, *with_name([cell])[1:3]]) for n, name, cell in turned if cell]


def _below_sums(rows: list[Row]) -> list[Row]:
    """Return rows of names with answers below a sum alone, which is all of theirs."""
    found, sum_, names = list[Row](), "", set[str]()
    for number, cells in rows:
        held = filled(away_apart([listed(cells[0]), *cells[1:]]))
        alone = len(held) == 1 and is_sum(held[0]) and not DAY_MONTH.fullmatch(held[0])
        if alone and (names or not sum_):
            sum_, names = held[0], set()
        elif sum_ and (given := _named_answer(held)) and given[0] not in names:
            found.append((number, [given[0], sum_, given[1]]))
            names.add(given[0])
        else:
            return []
    return found if len(found) > 1 and len(names) > 0 else []


def _named_answer(held: list[str]) -> tuple[str, str] | None:
    """Return a child and an answer in one cell or two; none where the name may be a label."""
    both = NAME_ANSWER.fullmatch(held[0]) if len(held) == 1 else None
    name, answer = both.groups() if both else (held[0], "".join(held[1:2]))
    plain = NUMBER.fullmatch(answer) or (answer and answer.lower() in BLANK)
    bare = name.rstrip(f" :={DASHES}")
    known = LABEL.fullmatch(bare) or no_child(bare) or DIGIT.search(bare) or head(bare) in COLUMNS
    return (bare, answer) if plain and len(held) < 3 and LETTER.search(bare) and not known else None


def _in_spaces(rows: list[Row]) -> list[Row]:
    """Return lines of a name and as many answers as the first has sums, spaces between."""
    (_, first), *below = rows or [(0, [""])]
    sums = [one[0] for one in WRITTEN.finditer(first[0])]
    bare = len(sums) > 1 and not WRITTEN.sub("", first[0]).strip()
    if not (bare and below and all(len(filled(cells)) == 1 for _, cells in rows)):
        return []
    found = list[Row]()
    for number, cells in below:
        line = _NAME_ANSWERS.fullmatch(cells[0])
        answers = line[2].split() if line else []
        if not line or len(answers) != len(sums):
            return []
        pairs = zip(sums, answers, strict=True)
        found += [(number, [line[1].rstrip(": "), *pair]) for pair in pairs]
    return found


def check_once(number: int, names: Sequence[str], field: str) -> None:
    """Refuse a name that stands twice across a row."""
    if twice := [one for one in names if one and not beside(one) and names.count(one) > 1]:
        raise RefusedError("screen.same-name", name=twice[0], row=number, field=field)
