"""Heads of a pasted table, and titles above it, which are passed over."""

import re
from collections.abc import Iterable, Sequence
from itertools import chain, pairwise, takewhile

from kitbuilder.errors import RefusedError, Said
from kitbuilder.formats.heads import head
from kitbuilder.page.table.cells import (
    DIGIT,
    LETTER,
    WRITTEN,
    AstrayError,
    Row,
    apart,
    filled,
    first_sum,
    holds_sum,
    is_sum,
    whole,
    with_name,
)
from kitbuilder.page.table.known_words import (
    BESIDE,
    CLASS,
    DATE,
    DAY_HEADS,
    DAY_MONTH,
    END,
    LABEL,
    NUMBERS,
    OF_SUMS,
    TITLE,
    are_titles,
    is_day,
    of_title,
    only_titles,
    tells_whose,
)
from kitbuilder.request.answer_cells import BLANK
from kitbuilder.request.answers import COLUMNS, beside, no_child

MOST_TITLES = 5
"""Lines above a table that may be titles."""

OF_SPANS = re.compile(r"\b(?:years?|pages?|ages?|aged|años?|curso|páginas?|edad(?:es)?)\b", re.I)
"""A word of titles before two numbers that are no sum, as Year 2026-27."""

_AMOUNT = re.compile(r"(?<!\w)\d")
_NUMBERED = re.compile(r"\d+\s*[^\W\d]")
_ANSWERED = re.compile(r"=|\s\d+$")


def without_titles(rows: list[Row], field: str, notes: list[Said]) -> list[Row]:
    """Return ``rows`` without days, totals, titles and heads again, each told in ``notes``."""
    for found in (_heads_below_names, _second_heads, _days, _totals, _titles, _heads_again):
        none = found(rows, field)
        notes += [passed_over(*(cells for _, cells in none))] if none else []
        rows = [row for row in rows if row not in none]
    return rows


def _titles(rows: list[Row], field: str) -> list[Row]:
    """Return the lines above a head; above rows without one, those that can be no child's."""
    first = range(min(len(rows) - 1, MOST_TITLES))
    may = [*takewhile(lambda at: _may_be_title(rows[at][1]), first)]
    above = next((at for at in range(len(may) + 1) if is_headed(rows[at:], field)), None)
    if above is None:
        return [*takewhile(lambda row: _is_title(row, rows, field), rows[: len(may)])]
    if field == "pupils" and any(_may_be_children(cells) for _, cells in rows[:above]):
        raise AstrayError
    return rows[:above]


def _may_be_children(cells: Sequence[str]) -> bool:
    """Say whether several words without a number stand in a row, none of them of titles."""
    held = filled(cells)
    plain = all(map(_may_be_name, held)) and not any(map(DIGIT.search, held))
    return (
        len(held) > 1
        and plain
        and not (are_titles(held) or any(head(one) in COLUMNS for one in held))
    )


def _days(rows: list[Row], field: str) -> list[Row]:
    """Return the rows of days, as 9-11, years and pages; refuse one that may be a sum, as 11-9."""
    days = list[Row]()
    answered = field == "pupils" or any(len(apart(filled(row))) > 1 for _, row in rows)
    for at, (number, cells) in enumerate(rows):
        if _heads_sums(cells):
            continue
        day, above = "".join(cells), rows[at - 1][1] if at else []
        titled = TITLE.fullmatch(day) and "=" not in day
        bare = DAY_MONTH.fullmatch(day) and len(cells) == 1 and not holds_sum(*above)
        first = len(filled(cells)) == 1 and not _ANSWERED.search(day)
        first = first and (field == "answers" or not LETTER.match(day))
        first = first and not any(holds_sum(*row) for _, row in rows[:at]) and len(rows) > at + 1
        pair = WRITTEN.search(day) if titled or bare or first else None
        week = LETTER.search(day.partition(":")[0]) and ":" in day
        if pair and field == "pupils" and week and not DAY_MONTH.fullmatch(pair[0]):
            continue
        if pair and (OF_SPANS.search(day) or whole(pair["whole"]) < whole(pair["part"])):
            days.append(rows[at])
        elif pair and answered and (titled or (bare and field == "answers")):
            given = " ".join(filled(cells))
            raise RefusedError("screen.day-or-sum", given=given, row=number, field=field)
    return days


def _heads_sums(cells: Sequence[str]) -> bool:
    """Say whether sums stand across, or one behind a title with a number, as Week 3."""
    sums = [cell for cell in cells[1:] if is_sum(cell)]
    days = [pair for pair in map(WRITTEN.search, sums) if pair]
    real = all(whole(pair["whole"]) >= whole(pair["part"]) for pair in days)
    return real and (len(sums) > 1 or (sums != [] and DIGIT.search(cells[0]) is not None))


def without_corner(rows: list[Row]) -> list[Row]:
    """Return ``rows``, what stands above sums left out of a head where no child is called so."""
    at = next((at for at, (_, cells) in enumerate(rows) if len(filled(cells)) > 2), len(rows))
    if at + 1 >= len(rows):
        return rows
    number, cells = rows[at]
    k = 1 if cells[0].lower() in NUMBERS else 0
    below = [row[k] for _, row in rows[at + 1 :] if len(filled(row)) > 1 and not no_child(row[0])]
    titled = TITLE.fullmatch(cells[k]) or cells[k].lower() in DAY_HEADS or is_day(cells[k])
    if not (titled and below and all(map(is_sum, below))):
        return rows
    return [*rows[:at], (number, [*cells[:k], "", *cells[k + 1 :]]), *rows[at + 1 :]]


def passed_over(*rows: Sequence[str]) -> Said:
    """Return the note that ``rows`` were passed over."""
    return Said("screen.title", lines=quoted([", ".join(filled(cells)) for cells in rows]))


def quoted(typed: Iterable[str]) -> tuple[Said, ...]:
    """Return what was ``typed``, each once, as it is told."""
    return tuple(Said("answers.typed", typed=one) for one in dict.fromkeys(typed))


def _may_be_title(cells: Sequence[str]) -> bool:
    """Say whether a row has words or dates alone, and no sum."""
    words = all(LETTER.search(cell) or DATE.fullmatch(cell) for cell in filled(cells))
    return words and not holds_sum(*cells)


def _is_title(row: Row, rows: list[Row], field: str) -> bool:
    """Say whether a row is one cell of known words, or as 3B, or of one above a name.

    Above a list it may have several cells, and above packs.
    """
    cell, below = "".join(row[1]), rows[rows.index(row) + 1 :]
    if len(filled(row[1])) > 1:
        packs = field == "pupils" and all(map(_is_of_a_pupil, below))
        packs = packs and all(map(_is_no_name, filled(row[1])))
        return are_titles(row[1]) and (packs or _begins_a_list([cells for _, cells in below]))
    numbered = of_title(cell) and DIGIT.search(cell) and not LABEL.fullmatch(cell)
    if tells_whose(cell) or only_titles(cell) or numbered:
        return True
    begin = [cells[0] for _, cells in below if holds_sum(*cells)]
    if _NUMBERED.match(cell) and not any(map(_NUMBERED.match, begin)):
        return True
    names = (with_name(cells)[0].rstrip(END) for _, cells in below if not are_titles(cells))
    label = LABEL.fullmatch(next(names, "") or "1")
    above_name = not label or label["name"]
    mixed = (of_title(cell) or is_day(cell)) and above_name
    return bool(mixed) or TITLE.fullmatch(cell) is not None


def _is_no_name(cell: str) -> bool:
    """Say whether a cell can be no child's: a title, a date, a class, a grown-up's name."""
    grown_up = re.match(r"(?:mrs?|miss|ms|sra?|señora?|don|doña)\b", cell, re.IGNORECASE)
    known = of_title(cell) or tells_whose(cell) or is_day(cell) or CLASS.fullmatch(cell)
    return bool(grown_up or known or DATE.fullmatch(cell) or DIGIT.match(cell))


def _is_of_a_pupil(row: Row) -> bool:
    """Say whether a row is a title, or a name and sums."""
    name, *sums = with_name(row[1])
    own = LETTER.search(name) and sums and all(map(is_sum, filled(sums)))
    return bool(own) or are_titles(row[1])


def _begins_a_list(rows: Sequence[Sequence[str]]) -> bool:
    """Say whether a name alone follows, with titles at most above it, or lines of one cell."""
    below = [cells for cells in rows if not are_titles(cells)]
    alone = [len(filled(cells)) == 1 for cells in below]
    named = all(alone) and all(with_name(cells)[0] for cells in below)
    return named or (alone[:1] == [True] and not holds_sum(*below[0]))


def _totals(rows: list[Row], _: str) -> list[Row]:
    """Return the rows of totals or of who was absent, and those that number sums across."""
    totals, first, last = list[Row](), first_sum(rows), len(rows) - 1
    for at, row in enumerate(rows):
        cells = row[1]
        across = at >= first or (at < last and any(map(is_sum, rows[at + 1][1][1:])))
        total = (at or (across and cells[0])) and _no_row(filled(cells), foot=at > first)
        heads = head(cells[0]) == "name" and any(head(bare_head(one)) == "sum" for one in cells[1:])
        if holds_sum(*cells) or heads:
            continue
        if total or (across and _counts_sums(cells)):
            totals.append(row)
    return totals


def _counts_sums(cells: Sequence[str]) -> bool:
    """Say whether a row counts 1, 2, 3 below a name of questions or of numbers, or below none."""
    counts = [cell.strip("#.()") for cell in cells[1:]]
    words = {*re.findall(r"[^\W\d]+|#", cells[0].lower().replace(".", ""))}
    return words <= OF_SUMS and counts == [*map(str, range(1, max(len(cells), 3)))]


def _no_row(cells: Sequence[str], *, foot: bool) -> bool:
    """Say whether a row is of totals, or of remarks at the ``foot``, or lists who was away."""
    begin, colon, _ = "".join(cells[:1]).partition(":")
    if _AMOUNT.search(" ".join(cells)) or (foot and len(cells) > 1):
        return no_child(begin)
    return bool(colon) and not {begin.lower(), begin.lower().removesuffix("s")}.isdisjoint(BLANK)


def is_away(cells: Sequence[str]) -> bool:
    """Say whether a row is a child's name and what stands for not tried, as absent, if anything."""
    return head(cells[0]) not in ("", *COLUMNS) and {*map(str.lower, cells[1:])} <= {*BLANK}


def names_columns(cells: Sequence[str], below: Sequence[Row]) -> bool:
    """Say whether a row may be a heading: no sum, no digit but in names above sums, no one away."""
    codes = head(cells[0]) in ("", "sum") and all(map(LETTER.search, filled(cells[1:])))
    if codes and all(is_sum(row[0]) for _, row in below):
        return any(cells[1:])
    if heads_a_plan(cells, below):
        return True
    named = head(cells[0]) == "name"
    if (
        any(cells[1:])
        and all(map(_may_be_name, cells))
        and all(map(is_sum, filled([*chain(*dict(below).values())])))
    ):
        return True
    counts = [cell for cell in cells[1:] if cell.isdigit()]
    counted = counts == [*map(str, range(1, len(counts) + 1))]
    labels = [one for one in cells[1:] if named and (_labels(one) or (counted and one in counts))]
    heads = [bare_head(cell) for cell in cells[1:] if cell not in labels]
    digits = any(map(DIGIT.search, heads))
    return any(cells[1:]) and not (holds_sum(cells[0]) or is_away(cells) or digits)


def heads_a_plan(cells: Sequence[str], below: Sequence[Row]) -> bool:
    """Say whether a row numbers sums or days, as Q1 or Day 1, above names with sums."""
    given = [(at, cell) for at, cell in enumerate(cells) if at and cell]
    labels = [at for at, cell in given if not (beside(cell) or cell.lower() in BESIDE)]
    counted = all(LABEL.fullmatch(cells[at]) for at in labels)
    days = all((label := LABEL.fullmatch(cells[at])) and not label["count"] for at in labels)
    house = days and len(labels) > 1 and _may_be_name(cells[0]) and not DIGIT.search(cells[0])
    corner = head(cells[0]) in ("", "name") or house
    if not (labels and counted and corner):
        return False
    planned = ["".join(row[at : at + 1]) for _, row in below if not is_away(row) for at in labels]
    names = all(LETTER.search(row[0]) or (days and row[0].isdigit()) for _, row in below)
    return names and any(planned) and all(map(is_sum, filled(planned)))


def _labels(cell: str) -> bool:
    """Say whether a head has a word and counts sums or days, as Day 1."""
    return bool(LETTER.search(cell) and LABEL.fullmatch(cell))


def _may_be_name(cell: str) -> bool:
    """Say whether a cell has letters, and is no label and no sum."""
    return bool(LETTER.search(cell)) and not LABEL.fullmatch(cell) and not holds_sum(cell)


def is_headed(rows: Sequence[Row], field: str) -> bool:
    """Say whether the first of ``rows`` plainly names columns, or has names or sums across."""
    (_, (corner, *cells)), *below = rows or [(0, [""])]
    given = [cell for cell in cells if cell and not beside(cell)]
    named = any(head(bare_head(cell)) in COLUMNS for cell in [corner, *cells])
    if field == "answers" and any(map(is_sum, given)):
        across = not corner or is_sum(corner) or len(given) > 1
        return named or (across and all(map(is_sum, given)) and first_sum(below) == len(below))
    if not below or not names_columns([corner, *cells], below):
        return False
    named = named or heads_a_plan([corner, *cells], below)
    return named or not LETTER.search("".join(row[0] for _, row in below))


def _heads_again(rows: list[Row], field: str) -> list[Row]:
    """Return the rows that are the heads again, as a second page has them."""
    again = [row for row in rows[1:] if row[1] == rows[0][1]]
    return again if again and is_headed(rows, field) else []


def _heads_below_names(rows: list[Row], _: str) -> list[Row]:
    """Return the heads of sums and answers of several lists, each below what may be a name."""
    below = pairwise(rows)
    alone = [row for above, row in below if len(filled(above[1])) == 1]
    heads = [row for row in alone if [*map(head, filled(row[1]))] == [*COLUMNS[1:3]]]
    return heads if len(heads) > 1 else []


def _second_heads(rows: list[Row], field: str) -> list[Row]:
    """Return the row below a head of packs that has nothing above names, and days or counts."""
    if field != "pupils" or len(rows) < 3:
        return []
    (_, (corner, *heads)), second = rows[0], rows[1]
    first, *others = second[1]
    counted = all(map(LABEL.fullmatch, filled(others))) and all(map(LABEL.fullmatch, filled(heads)))
    named = head(corner) in ("", "name") and bool(filled(heads))
    return [second] if named and not first and counted and any(others) else []


def bare_head(cell: str) -> str:
    """Return the name of a column without its number: Sum 1 is one of sums, Pupil 1 a child."""
    bare = re.sub(r"\s*\d{1,2}$", "", cell)
    return bare if head(bare) in COLUMNS[1:] else cell
