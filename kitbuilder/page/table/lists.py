"""Answers below what they belong to: below names across, or names and answers below a sum."""

import re
from collections.abc import Sequence
from itertools import pairwise, takewhile
from operator import itemgetter

from kitbuilder.errors import RefusedError, Said
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
from kitbuilder.page.table.known_words import (
    CLASS,
    DAY_MONTH,
    LABEL,
    TITLE,
    are_titles,
    bare_sum,
    listed,
)
from kitbuilder.page.table.titles import passed_over
from kitbuilder.request.answer_cells import BLANK
from kitbuilder.request.answers import COLUMNS, beside, no_child

_NAME_ANSWERS = re.compile(r"([^\W\d].*?)((?:\s+\d+)+)")
# A name and answers with spaces between.


def in_a_list(rows: list[Row], notes: list[Said]) -> list[Row]:
    """Return each answer as a row of name, sum and answer; none where rows are no such list."""
    above = len([*takewhile(lambda row: are_titles(row[1]), rows)])
    titles, below = rows[:above], rows[above:]
    found = _below_names(below) or _answered_across(below)
    found = found or _below_sums(below) or _in_spaces(below)
    if not found:
        titles, found = _stacked(rows)
    if found and titles:
        notes.append(passed_over(*(cells for _, cells in titles)))
    return found


def one_child_a_cell(rows: list[Row]) -> list[Row]:
    """Return ``rows``, those of a child with a sum in each cell as so many: Ada 9-3, Ben 8-5."""
    found = list[Row]()
    for number, cells in rows:
        held = filled(cells)
        several = len(held) > 1 and cells[0] and all(map(_is_of_a_child, held))
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
    lone = [cells[0] for _, cells in rows if len(filled(cells)) == 1 and is_sum(cells[0])]
    if all(map(DAY_MONTH.fullmatch, lone)):
        return []
    for number, cells in rows:
        held = filled(away_apart([listed(cells[0]), *cells[1:]]))
        alone = len(held) == 1 and is_sum(held[0])
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
    unsure = both and DIGIT.search(bare) and held[0][len(name) :].strip()[0].isdigit()
    known = LABEL.fullmatch(bare) or no_child(bare) or unsure or head(bare) in COLUMNS
    return (bare, answer) if plain and len(held) < 3 and LETTER.search(bare) and not known else None


def _in_spaces(rows: list[Row]) -> list[Row]:
    """Return lines of a name and as many answers as the first has sums, spaces between."""
    (_, first), *below = rows or [(0, [""])]
    sums = [one[0] for one in WRITTEN.finditer(first[0])]
    bare = len(sums) > 1 and not WRITTEN.sub("", first[0]).strip()
    if not (bare and below and all(len(filled(cells)) == 1 for _, cells in rows)):
        return []
    lines = [(number, _NAME_ANSWERS.fullmatch(cells[0])) for number, cells in below]
    given = [(number, line[1], line[2].split()) for number, line in lines if line]
    bare_names = [one for one in given if ":" not in one[1]]
    counts = [int(answers[0]) for _, _, answers in bare_names if len(answers) == len(sums) + 1]
    in_order = all(after == before + 1 for before, after in pairwise(counts))
    numbered = in_order and len(counts) == len(bare_names)
    found = list[Row]()
    for number, name, answers in given:
        if numbered and ":" not in name:  # Child 1 26 34
            name, answers = f"{name} {answers[0]}", answers[1:]
        if len(answers) != len(sums):
            return []
        pairs = zip(sums, answers, strict=True)
        found += [(number, [name.rstrip(": "), *pair]) for pair in pairs]
    return found if len(given) == len(below) else []


def with_sums_above(rows: list[Row], columns: Sequence[str]) -> list[Row]:
    """Return ``rows``, those of a name without a sum before it with the sum above."""
    name, at = columns.index("name"), columns.index("sum")
    found, sum_, names = list[Row](), "", set[str]()
    for number, cells in rows:
        child = "".join(cells[name : name + 1])
        if is_sum("".join(cells[at : at + 1])):
            sum_, names = cells[at], set()
        elif at < name and sum_ and child and child not in names and not cells[at]:
            cells = [*cells[:at], sum_, *cells[at + 1 :]]
        names.add(child)
        found.append((number, cells))
    return found


def _answered_across(rows: list[Row]) -> list[Row]:
    """Return sums with answers, which stand across behind a name below a head, as so many rows."""
    (_, heads), *below = rows or [(0, [""])]
    behind = filled([cell for _, cells in below for cell in cells[1:]])
    answered = all(holds_sum(one) and one.count("=") == 1 for one in behind)
    names = [cells[0] for _, cells in below]
    children = all(LETTER.search(name) and not holds_sum(name) for name in names)
    headed = len(heads) > 1 and head(heads[0]) in ("", "name") and not holds_sum(*heads)
    if not (behind and answered and children and headed and len({*names}) == len(names)):
        return []
    return [(n, [row[0], *with_name([cell])[1:3]]) for n, row in below for cell in row[1:] if cell]


def check_once(number: int, names: Sequence[str], field: str) -> None:
    """Refuse a name that stands twice across a row."""
    if twice := [one for one in names if one and not beside(one) and names.count(one) > 1]:
        raise RefusedError("screen.same-name", name=twice[0], row=number, field=field)


def _stacked(rows: list[Row]) -> tuple[list[Row], list[Row]]:
    """Return titles, and the answers of tables one below another, each with a head of its own.

    Sums stand across, or names.
    """
    rows = [(number, [*map(bare_sum, cells)]) for number, cells in rows]
    heads = {at for at in range(len(rows)) if _heads_a_table(rows, at)}
    titles, found = list[Row](), list[tuple[tuple[int, int], Row]]()
    across, seen = list[str](), dict[object, int]()
    top = 0
    for at, (number, cells) in enumerate(rows if len(heads) > 1 else []):
        first, *others = cells
        if at in heads:
            across, top = others, at
            continue
        above = at + 1 in heads and CLASS.fullmatch("".join(cells))
        if are_titles(cells) or above or (across and no_child(first)):
            titles.append(rows[at])
            continue
        sums = any(map(is_sum, across))
        fits = sums != is_sum(first) and len(others) <= len(across) and not holds_sum(*others)
        if not (fits and (is_sum(first) or LETTER.search(first))):
            return [], []
        for head_, answer in zip(across, [*others, *[""] * len(across)], strict=False):
            pair = (first, head_) if sums else (head_, first)
            if (other := seen.setdefault(pair, number)) != number and head_:
                again = RefusedError("screen.name-again", name=pair[0], other=other)
                raise again.at(row=number, field="answers")
            place = (top, at) if sums else (top, across.index(head_))
            found += [(place, (number, [*pair, answer]))] if head_ else []
    rows = [row for _, row in sorted(found, key=itemgetter(0))]
    return (titles, rows) if any(row[2] for _, row in rows) else ([], [])


def _heads_a_table(rows: list[Row], at: int) -> bool:
    """Say whether a row is sums, or names above a row of a sum; nothing before them, or no name."""
    corner, *others = rows[at][1]
    given, below = filled(others), rows[at + 1][1] if at + 1 < len(rows) else [""]
    if all(map(is_sum, given)):
        above = head(corner) in ("", "name") or TITLE.fullmatch(corner)
        return bool(above) and len(given) > (head(corner) != "name")
    above = head(corner) in ("", "sum") or TITLE.fullmatch(corner)
    known = any(no_child(one) or LABEL.fullmatch(one) or holds_sum(one) for one in given)
    return bool(above) and not known and all(map(LETTER.search, given)) and is_sum(below[0])
