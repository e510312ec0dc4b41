"""Sums of packs below names across, one table below another, or in groups side by side."""

from collections.abc import Sequence
from itertools import pairwise, takewhile

from kitbuilder.errors import Said
from kitbuilder.formats.heads import head
from kitbuilder.page.table.cells import LETTER, Row, filled, holds_sum, is_sum, parts_of
from kitbuilder.page.table.known_words import (
    CLASS,
    DATE,
    DAY_HEADS,
    LABEL,
    NAMES,
    OF_GROUPS,
    are_titles,
)
from kitbuilder.page.table.plans import without_blanks
from kitbuilder.page.table.titles import OF_SPANS, bare_head, passed_over
from kitbuilder.page.table.together import are_names
from kitbuilder.request.answers import COLUMNS, no_child

_CORNERS = ("name", "sum", *DAY_HEADS)
# Heads of what stands before sums below names across.


def in_groups(rows: list[Row], notes: list[Said]) -> list[Row]:
    """Return each sum of a pupil as a row of name and sum, from groups that stand side by side.

    Or from names across, one table below another. Of other ``rows`` none are returned.
    """
    if found := _groups_side_by_side(without_blanks(rows)):
        return found
    above = len([*takewhile(lambda row: _are_titles(row[1]), rows)])
    below = without_blanks(rows[above:])
    found = _groups_side_by_side(below) or _below_names_across(below) or _side_by_side(below)
    if found and above:
        notes.append(passed_over(*(cells for _, cells in rows[:above])))
    return found


def _are_titles(cells: Sequence[str]) -> bool:
    """Say whether a row is a title, a class or a date."""
    dated = any(map(DATE.fullmatch, cells)) and not holds_sum(*cells)
    spans = len(filled(cells)) == 1 and OF_SPANS.search("".join(cells))
    return bool(are_titles(cells) or dated or spans or CLASS.fullmatch("".join(cells)))


def _groups_side_by_side(rows: list[Row]) -> list[Row]:
    """Return names and sums below titles of groups across as a name and a sum a row; else none."""
    (_, titles), *below = rows or [(0, [""])]
    if not (len(titles) > 1 and all(map(OF_GROUPS.search, titles)) and below):
        return []
    found = list[Row]()
    for at in range(len(titles)):
        column = [(line, cells[at]) for line, cells in below if len(cells) > at and cells[at]]
        sums = [(line, one) for line, cell in column for one in _sums_of(cell)]
        names = [cell for _, cell in column if not holds_sum(cell)]
        held = len(names) + len([cell for _, cell in column if _sums_of(cell)])
        if not (sums and names and held == len(column) and all(map(LETTER.search, names))):
            return []
        found += [(line, [name, one]) for name in names for line, one in sums]
    return found


def _side_by_side(rows: list[Row]) -> list[Row]:
    """Return rows of a name and a sum, several times a row, as one a row; else none."""
    found = list[Row]()
    for line, cells in rows:
        names, sums = filled(cells[::2]), filled(cells[1::2])
        if len(names) != len(sums) or not (are_names(names) and all(map(is_sum, sums))):
            return []
        found += [(line, [*pair]) for pair in zip(names, sums, strict=False)]
    several = sum(len(filled(cells)) > 3 for _, cells in rows)
    return found if several > 1 and several >= len(rows) - 1 else []


def _below_names_across(rows: list[Row]) -> list[Row]:
    """Return sums below names across as rows of a name and a sum.

    Such tables may stand one below another, or have several sums in a cell; of one with a sum a
    cell none are returned.
    """
    found, names, heads, several = list[tuple[str, Row]](), list[str](), 0, False
    across = [_are_names_across(cells) for _, cells in rows]
    if any(map(all, pairwise(across))) or across[-1:] == [True]:  # titles, or names without sums
        return []
    for here, (line, cells) in zip(across, rows, strict=True):
        if here:
            names, heads = cells, heads + 1
            continue
        first = cells[0]
        at = 1 if names and (not names[0] or head(names[0]) in _CORNERS) else 0
        label = not at or not first or LABEL.fullmatch(first)
        given = [_sums_of(cell) for cell in cells[at:]]
        fits = all(sums or not cell for sums, cell in zip(given, cells[at:], strict=True))
        if not (label and fits and any(given) and at < len(cells) <= len(names)):
            return []
        several = several or any(len(sums) > 1 for sums in given)
        pairs = [
            (name, sum_) for name, sums in zip(names[at:], given, strict=False) for sum_ in sums
        ]
        found += [(name, (line, [name, sum_])) for name, sum_ in pairs]
    order = [*dict.fromkeys(name for name, _ in found)]
    placed = sorted(found, key=lambda one: order.index(one[0]))
    return [row for _, row in placed] if found and (heads > 1 or several) else []


def _are_names_across(cells: Sequence[str]) -> bool:
    """Say whether a row is names, with nothing or a head of sums or days before them."""
    corner, *others = cells
    plain = all(LETTER.search(one) and not holds_sum(one) for one in filled(others))
    known = any(no_child(one) or head(bare_head(one)) in COLUMNS for one in others)
    first = not corner or head(corner) in _CORNERS
    first = first or not (LABEL.fullmatch(corner) or no_child(corner) or holds_sum(corner))
    labels = all(LABEL.fullmatch(one) and one.lower() not in NAMES for one in filled(others))
    return any(others) and plain and first and not known and not labels


def _sums_of(cell: str) -> list[str]:
    """Return the sums of a cell that holds nothing else, else none."""
    parts = parts_of(cell, first=False)
    return parts if all(map(is_sum, parts)) else []
