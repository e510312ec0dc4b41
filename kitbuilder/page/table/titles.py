"""Heads of a pasted table, and titles above it, which are passed over."""

import re
from collections.abc import Iterable, Sequence
from itertools import takewhile

from kitbuilder.errors import RefusedError, Said
from kitbuilder.formats.heads import head
from kitbuilder.page.table.cells import WRITTEN, apart, holds_sum, is_sum, whole, with_name
from kitbuilder.page.table.known_words import (
    ARTICLES,
    DATE,
    DAY_MONTH,
    END,
    ENDS,
    LABEL,
    OF_SPANS,
    OF_SUMS,
    OF_TITLES,
    TITLE,
    of_title,
)
from kitbuilder.request.answer_cells import BLANK
from kitbuilder.request.answers import COLUMNS, beside, no_child

Row = tuple[int, list[str]]
"""A row's number, counted from 1, and its cells; 0 where all that stands is a name in the head."""

MOST_TITLES = 5
"""Lines above a table that may be titles."""

LETTER = re.compile(r"[^\W\d]")
_AMOUNT = re.compile(r"(?<!\w)\d")
_NUMBERED = re.compile(r"\d+\s*[^\W\d]")
DIGIT = re.compile(r"\d")


def untitled(rows: list[Row], field: str, notes: list[Said]) -> list[Row]:
    """Return ``rows`` without titles above them, each told in ``notes``.

    Lines without a sum are titles above a head. Above rows without a head, one cell is a title
    where it cannot be a child's name: else it is a child who tried nothing.
    """
    first = range(min(len(rows) - 1, MOST_TITLES))
    may = [*takewhile(lambda at: _may_be_title(rows, at), first)]
    above = next((at for at in range(len(may) + 1) if is_headed(rows[at:], field)), None)
    if above is None:
        above = len([*takewhile(lambda at: _is_title(rows, at), may)])
    notes += [passed_over(*(cells for _, cells in rows[:above]))] if above else []
    return rows[above:]


def without_days(rows: list[Row], field: str, notes: list[Said]) -> list[Row]:
    """Return ``rows`` without days as 9-11, first or below a name alone, told in ``notes``.

    Words of titles may stand before them, or before years and pages. Raises ``RefusedError`` at
    one that may be a sum, 11-9, where others have answers.
    """
    kept, days = list[Row](), list[list[str]]()
    for number, cells in rows:
        day, above = "".join(cells), kept[-1][1] if kept else []
        titled = TITLE.fullmatch(day) and "=" not in day
        bare = DAY_MONTH.fullmatch(day) and not any(map(holds_sum, above))
        pair = WRITTEN.search(day) if titled or bare else None
        if not pair:
            kept.append((number, cells))
        elif OF_SPANS.search(day) or whole(pair["whole"]) < whole(pair["part"]):
            days.append(cells)
        elif field == "answers" and any(len(apart(filled(cells))) > 1 for _, cells in rows):
            raise RefusedError("screen.day-or-sum", given=day, row=number, field=field)
        else:
            kept.append((number, cells))
    notes += [passed_over(*days)] if days else []
    return kept


def passed_over(*rows: Sequence[str]) -> Said:
    """Return the note that ``rows`` were passed over."""
    return Said("screen.title", lines=quoted([", ".join(filled(cells)) for cells in rows]))


def quoted(typed: Iterable[str]) -> tuple[Said, ...]:
    """Return what was ``typed``, each once, as it is told."""
    return tuple(Said("answers.typed", typed=one) for one in dict.fromkeys(typed))


def filled(cells: Sequence[str]) -> list[str]:
    """Return those of ``cells`` that hold something."""
    return [cell for cell in cells if cell]


def _may_be_title(rows: Sequence[Row], at: int) -> bool:
    """Say whether a row has words or dates alone, and no sum."""
    cells = filled(rows[at][1])
    words = all(LETTER.search(cell) or DATE.fullmatch(cell) for cell in cells)
    return words and not any(map(holds_sum, cells))


def _is_title(rows: Sequence[Row], at: int) -> bool:
    """Say whether a row is one cell of known words, or has one above other words that are a name.

    Or it begins as 3B and no row of a sum below it does.
    """
    cell = "".join(rows[at][1])
    below = [cells[0] for _, cells in rows[at + 1 :] if any(map(holds_sum, cells))]
    if len(filled(rows[at][1])) > 1:
        return False
    if _NUMBERED.match(cell) and not any(map(_NUMBERED.match, below)):
        return True
    name = with_name(rows[at + 1][1])[0].rstrip(END)
    mixed = of_title(cell) and not LABEL.fullmatch(name or "1")
    return mixed or no_child(cell) or TITLE.fullmatch(cell) is not None


def without_totals(rows: list[Row], field: str, notes: list[Said]) -> list[Row]:
    """Return ``rows`` without those that are no child's, which ``notes`` tell.

    They hold totals, or a list, as Absent: Cy, Dan, or the numbers of the sums across. Raises
    ``RefusedError`` at one that may be a child's.
    """
    begin, first = {cells[0].lower().strip(".") for _, cells in rows}, first_sum(rows)
    kept, totals = list[Row](), list[list[str]]()
    for at, row in enumerate(rows):
        bare = not any(map(holds_sum, row[1]))
        below = (cell for _, cells in rows[at + 1 : at + 2] for cell in cells[1:])
        across = at >= first or any(map(is_sum, below))
        numbers = across and numbers_sums(row[1])
        ends = any(row[1][0].lower().strip(".") in pair and pair <= begin for pair in ENDS)
        total = (at or across) and (ends or _no_row(filled(row[1]), foot=at > first))
        if bare and (numbers or total):
            totals.append(row[1])
            continue
        if bare and at > first and field == "answers" and _may_be_total(filled(row[1])):
            raise RefusedError("screen.total", given=row[1][0], row=row[0], field=field)
        kept.append(row)
    notes += [passed_over(*totals)] if totals else []
    return kept


def _may_be_total(cells: Sequence[str]) -> bool:
    """Say whether a row of numbers begins with a word of totals, titles or numbers, as Class 3B."""
    first = re.findall(r"[^\W\d]+|$", cells[0])[0]
    words = no_child(first) or first.lower() in {*OF_TITLES, *OF_SUMS} - ARTICLES
    return words and len(cells) > 1 and all(map(_AMOUNT.match, cells[1:]))


def first_sum(rows: Sequence[Row]) -> int:
    """Return which of ``rows`` is the first with a sum."""
    return next((at for at, (_, cells) in enumerate(rows) if any(map(holds_sum, cells))), len(rows))


def numbers_sums(cells: Sequence[str]) -> bool:
    """Say whether a row counts 1, 2, 3 below a name of questions or of numbers, or below none."""
    counts = [cell.strip("#.()") for cell in cells[1:]]
    words = {*re.findall(r"[^\W\d]+|#", cells[0].lower().replace(".", ""))}
    return words <= OF_SUMS and counts == [*map(str, range(1, max(len(cells), 3)))]


def _no_row(cells: Sequence[str], *, foot: bool) -> bool:
    """Say whether a row is of totals, or of remarks at the ``foot``, or lists who was away."""
    begin, colon, _ = cells[0].partition(":")
    if _AMOUNT.search(" ".join(cells)) or (foot and len(cells) > 1):
        return no_child(begin)
    return bool(colon) and {begin.lower(), begin.lower().removesuffix("s")} & {*BLANK} != set()


def is_away(cells: Sequence[str]) -> bool:
    """Say whether a row is a child's name and what stands for not tried, as absent, if anything."""
    return head(cells[0]) not in ("", *COLUMNS) and {*map(str.lower, cells[1:])} <= {*BLANK}


def names_columns(cells: Sequence[str], below: Sequence[Row]) -> bool:
    """Say whether a row may be a heading: it begins with no sum, no cell after that has a digit.

    A child's name and a word for not tried, as absent, are none. Names across, with sums ``below``
    on the left, may have digits, as P1.
    """
    codes = head(cells[0]) in ("", "sum") and all(map(LETTER.search, filled(cells[1:])))
    if codes and below and all(is_sum(row[0]) for _, row in below):
        return len(cells) > 1
    digits = any(map(DIGIT.search, map(unnumbered, cells[1:])))
    return len(cells) > 1 and not (holds_sum(cells[0]) or is_away(cells) or digits)


def is_headed(rows: Sequence[Row], field: str) -> bool:
    """Say whether the first of ``rows`` plainly names columns, or has names or sums across."""
    (_, (corner, *cells)), *below = rows or [(0, [""])]
    given = [cell for cell in cells if cell and not beside(cell)]
    named = any(head(unnumbered(cell)) in COLUMNS for cell in [corner, *cells])
    if field == "answers" and any(map(is_sum, given)):
        more = any(holds_sum(cell) for _, cells in below for cell in cells)
        across = not more and (not corner or is_sum(corner) or len(given) > 1)
        return named or (across and all(map(is_sum, given)))
    if not names_columns([corner, *cells], below) or not below:
        return False
    begin = "".join(cells[0] for _, cells in below if not is_sum(cells[0]))
    return named or not LETTER.search(begin)


def once_headed(rows: list[Row], field: str, notes: list[Said]) -> list[Row]:
    """Return ``rows`` without their heads again, as a second page has them, told in ``notes``."""
    if not is_headed(rows, field) or all(cells != rows[0][1] for _, cells in rows[1:]):
        return rows
    notes.append(passed_over(rows[0][1]))
    return [rows[0], *(row for row in rows[1:] if row[1] != rows[0][1])]


def unnumbered(cell: str) -> str:
    """Return the name of a column without its number: Sum 1 is one of sums."""
    bare = re.sub(r"\s*\d{1,2}$", "", cell)
    return bare if head(bare) in COLUMNS else cell
