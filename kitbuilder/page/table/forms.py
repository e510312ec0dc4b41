"""Sums across as forms and spreadsheets of marks give them: words about them, columns beside."""

import re
from collections.abc import Sequence

from kitbuilder.errors import Said, named
from kitbuilder.formats.heads import head, of_code, of_name, of_surname
from kitbuilder.page.table.cells import (
    DIGIT,
    LETTER,
    NUMBER,
    WRITTEN,
    AstrayError,
    Row,
    filled,
    heads_of_sums,
    holds_sum,
    whole,
)
from kitbuilder.page.table.known_words import DATE, DAY_MONTH, LABEL, NUMBERS
from kitbuilder.page.table.titles import quoted
from kitbuilder.request.answer_cells import is_mark
from kitbuilder.request.answers import beside, no_child

_NUMBERS = re.compile(r"\d+")
_NO_NAME = re.compile(rf"{DATE.pattern}|\d\d?:\d\d|\S+@\S+\.")
# How a time or an address begins.

_POINTS = re.compile(r"\d+(?:[.,]\d+)?\s*/\s*\d+")
_ADDRESS = re.compile(r"\S+@\S+\.\S+")
_MARKS = re.compile(r"[(\[/]\s*\d+")
# How many marks a sum brings, as in 52-37 (2).


def as_in_a_form(rows: list[Row], notes: list[Said]) -> list[Row]:
    """Return ``rows``, where sums stand across, as names and sums alone; what goes is noted."""
    left = list[str]()
    rows = _with_totals_named(rows)
    for change in (_without_marks, _with_names_first, _with_bare_heads, _without_edges):
        rows = change(rows, left)
    if left:
        notes.append(Said("answers.beside", names=named(quoted(left))))
    return rows


def _with_totals_named(rows: list[Row]) -> list[Row]:
    """Return ``rows``, what begins a row of totals in the column of names, where none stands."""
    top = heads_of_sums(rows)
    heads = [] if top is None else rows[top][1]
    at = next((at for at, cell in enumerate(heads) if of_name(cell)), 0)
    return [
        (n, ["", *cells[1:at], cells[0], *cells[at + 1 :]])
        if top is not None
        and n > rows[top][0]
        and 0 < at < len(cells)
        and no_child(cells[0])
        and not cells[at]
        else (n, cells)
        for n, cells in rows
    ]


def _without_marks(rows: list[Row], left: list[str]) -> list[Row]:
    """Return ``rows`` without columns of ticks and crosses, each beside one of numbers."""
    top = heads_of_sums(rows)
    if top is not None and holds_sum(rows[top][1][0]):  # no cell above names
        return rows
    wide = max((len(cells) for _, cells in rows), default=0)
    columns = [["".join(cells[at : at + 1]) for _, cells in rows] for at in range(wide)]
    out = [
        at
        for at in range(2, wide)
        if all(map(is_mark, filled(columns[at][1:]))) and any(columns[at][1:])
        if not columns[at][0] or is_mark(columns[at][0]) or beside(columns[at][0])
        if any(map(NUMBER.fullmatch, columns[at - 1]))
    ]
    out += [
        at
        for at in range(1, wide)
        if top is not None and top < len(rows) - 1 and not any(columns[at][: top + 1])
        if all(map(_POINTS.fullmatch, columns[at][top + 1 :]))
    ]
    if not out:
        return rows
    left += [next(filter(None, columns[at])) for at in out]
    return [(n, [cell for at, cell in enumerate(cells) if at not in out]) for n, cells in rows]


def _with_bare_heads(rows: list[Row], left: list[str]) -> list[Row]:
    """Return ``rows``, the sums across without the words that all have, as What is 52-37?

    Beside a head of names each may have words of its own. A column of points for one of them, as
    52-37 [Score], is left out. A head that may hold a day stays as it is, but among others alike.
    """
    top = heads_of_sums(rows)
    if top is None or holds_sum(rows[top][1][0]):  # no cell above names
        return rows
    number, heads = rows[top]
    out = [at for at, cell in enumerate(heads) if at and _is_of_points(cell, heads[:at])]
    if out:
        left += [heads[at] for at in out]
        rows = [(n, [cell for at, cell in enumerate(row) if at not in out]) for n, row in rows]
    corner, *sums = rows[top][1]
    words = {_NUMBERS.sub("", cell) for cell in sums if holds_sum(cell)}
    has_names = any(map(of_name, heads))
    days = [_may_be_days(cell) for cell in sums if holds_sum(cell)]
    alike = len(words) == 1 and not all(days)
    bare = [_without_words(cell, days=not alike) for cell in sums] if alike or has_names else sums
    return [*rows[:top], (number, [corner, *bare]), *rows[top + 1 :]]


def _is_of_points(cell: str, before: Sequence[str]) -> bool:
    """Say whether a head is one ``before`` it and a word that is no child's: 52-37 [Score]."""
    rests = [cell.replace(one, "").strip("-–[]() ") for one in before if holds_sum(one)]
    return any(rest != cell and beside(rest) for rest in rests)


def _without_words(cell: str, *, days: bool) -> str:
    """Return the one sum of a head with words, else the head; it may hold one of ``days``."""
    found = [*WRITTEN.finditer(cell)]
    more = LETTER.search(cell) or _MARKS.search(cell)
    one = found[0] if len(found) == 1 and more else None
    return one[0] if one and not (days and _may_be_days(cell)) else cell


def _may_be_days(cell: str) -> bool:
    """Say whether the first sum in a head may be a day or pages."""
    one = WRITTEN.search(cell)
    days = one and (DAY_MONTH.fullmatch(one[0]) or whole(one["whole"]) < whole(one["part"]))
    return bool(days)


def _with_names_first(rows: list[Row], left: list[str]) -> list[Row]:
    """Return ``rows`` of sums across, their names before these; of several columns the last.

    A form has an account's name, the same in all rows perhaps, and the name that was asked for;
    others go, codes before names.
    """
    top = heads_of_sums(rows)
    heads = [] if top is None else [*rows[top][1]]
    if top is not None and not any(map(of_name, heads)):
        rows = _with_addresses_as_names(rows, top)
        heads = [*rows[top][1]]
    named_ = [at for at, cell in enumerate(heads) if of_name(cell) and not of_surname(cell)]
    if not named_ or (named_ == [0] and head(heads[0]) == "name"):
        return rows
    below = [cells for _, cells in rows[(top or 0) + 1 :]]
    held = {at: {"".join(cells[at : at + 1]) for cells in below} for at in named_}
    *_, kept = sorted(
        named_,
        key=lambda at: (len(held[at]) > 1, not of_code(heads[at]), head(heads[at]) == "name", at),
    )
    out = [at for at in named_ if at != kept]
    left += [heads[at] for at in out]
    heads[kept] = "Name"
    order = [at for at in range(len(heads)) if at not in out]
    if any(map(holds_sum, heads[:kept])):
        order = [kept, *(at for at in order if at != kept)]
    rows = [(n, heads) if k == top else (n, cells) for k, (n, cells) in enumerate(rows)]
    return [
        (n, [*("".join(cells[at : at + 1]) for at in order), *cells[len(heads) :]])
        if len(filled(cells)) > 1
        else (n, cells)
        for n, cells in rows
    ]


def _with_addresses_as_names(rows: list[Row], top: int) -> list[Row]:
    """Return ``rows``, mail addresses as names, each to its @ if that tells them apart."""
    wide = min(len(cells) for _, cells in rows[top:])
    columns = ([cells[at] for _, cells in rows[top + 1 :]] for at in range(wide))
    at = next((at for at, column in enumerate(columns) if all(map(_ADDRESS.match, column))), None)
    if at is None:
        return rows
    bare = {cells[at].partition("@")[0].lower() for _, cells in rows[top + 1 :]}
    apart = len(bare) == len(rows) - top - 1
    found = rows[:top]
    for k, (number, cells) in enumerate(rows[top:]):
        name = (cells[at].partition("@")[0] if apart else cells[at]) if k else "Name"
        found.append((number, [*cells[:at], name, *cells[at + 1 :]]))
    return found


def _without_edges(rows: list[Row], left: list[str]) -> list[Row]:
    """Return ``rows`` without the columns that have heads of their own beside sums across."""
    top = heads_of_sums(rows)
    heads = [] if top is None else rows[top][1]
    sums = [at for at, cell in enumerate(heads) if holds_sum(cell)]
    has_names = any(map(of_name, heads))
    out = [
        at
        for at, cell in enumerate(heads)
        if sums[0] and (at > sums[-1] or (has_names and at < sums[0])) and not of_name(cell)
        if (LETTER.search(cell) or no_child(cell))
        and cell.lower() not in NUMBERS
        and not _is_count(cell)
    ]
    below = [cells[0] for _, cells in rows[(top or 0) + 1 :]]
    if sums and sums[0] and not has_names and all(map(_NO_NAME.match, below)):
        raise AstrayError
    if not out:
        return rows
    left += [heads[at] for at in out]
    return [
        (n, [cell for at, cell in enumerate(cells) if at not in out or len(filled(cells)) < 2])
        for n, cells in rows
    ]


def _is_count(cell: str) -> bool:
    """Say whether a head counts sums, as Q2 or c: its own may be missing."""
    label = LABEL.fullmatch(cell)
    return bool(label and (label["count"] or DIGIT.search(cell)))
