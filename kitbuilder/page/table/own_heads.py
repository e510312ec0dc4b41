"""Columns beside names and sums with heads of their own, as Class or Due: no sums are in these."""

import re
from collections.abc import Sequence

from kitbuilder.errors import RefusedError, Said, named
from kitbuilder.formats.heads import head, of_code
from kitbuilder.page.table.cells import (
    DIGIT,
    LETTER,
    WRITTEN,
    Row,
    counts_rows,
    filled,
    holds_sum,
    is_sum,
    whole,
)
from kitbuilder.page.table.doubts import check_beside
from kitbuilder.page.table.known_words import (
    BESIDE,
    DAY_HEADS,
    DAY_MONTH,
    HEADS_OF_SUMS,
    LABEL,
    NUMBERS,
    counts_sums,
)
from kitbuilder.page.table.titles import MOST_TITLES, bare_head, heads_a_plan, passed_over, quoted
from kitbuilder.page.table.together import are_names
from kitbuilder.request.answers import COLUMNS, beside, no_child

_OF_CODES = re.compile(
    r"\b(?:id|code|login|user|upn|phone|tel|telephone|mobile|room|seat|locker|ref|reference"
    r"|e-?mail|mail|born|birthday|dob|ages?|pages?|score|time|period|código|usuario"
    r"|teléfono|móvil|aula|taquilla|correo|nacimiento|edad|edades|páginas?|hora|expediente)\b",
    re.IGNORECASE,
)
# A word in a head of what looks like a sum, as 1023-4, and is none.

_COUNT = re.compile(r"\s*\d$")
# What counts the children of a pair.

_OF_SUBJECTS = re.compile(
    r"\b(?:reading|spelling|writing|english|science|history|music|phonics|literacy"
    r"|lectura|lengua|inglés|ciencias|ortografía|música)\b",
    re.IGNORECASE,
)
# Subjects beside these sums.

_NO_SUM = re.compile(r"(?:19|20)\d\d\s*[-–]\s*(?:\d\d)?\d\d?|\d+\s*[-–]\s*0\d+")
# Years, or what has a nought before its second number.


def with_names_first(rows: list[Row]) -> list[Row]:
    """Return ``rows``, a column that a head names of names before those with heads of their own.

    A sum may stand before each name, or once above several.
    """
    if rows and all(len(row) == 2 and is_sum(row[0]) and are_names(row[1:]) for _, row in rows):
        return [(number, [name, sum_]) for number, (sum_, name) in rows]
    if _have_two_names(rows):
        return [(number, [f"{one} {two}", *given]) for number, (one, two, *given) in rows]
    rows = _with_pairs_joined(rows)
    for top, (_, heads) in enumerate(rows[: MOST_TITLES + 1]):
        if len(filled(heads)) < 2 or holds_sum(*heads):
            continue
        columns = [head(bare_head(cell)) for cell in heads]
        if columns.count("name") > 1:  # codes beside names
            heads = [f"{cell} id" if of_code(cell) else cell for cell in heads]
            columns = [head(bare_head(cell)) for cell in heads]
            rows = [*rows[:top], (rows[top][0], heads), *rows[top + 1 :]]
        if "name" not in columns:
            continue
        at = columns.index("name")
        if "sum" in columns[:at] and "answer" not in columns:
            rows = _with_sums_down(rows, top, columns.index("sum"), at)
        below = [cells[at] for _, cells in rows[top + 1 :] if len(cells) > at]
        if not at or not any(below) or not all(map(_may_be_name, below)):
            return rows
        turned = [(n, [*cells[at : at + 1], *cells[:at], *cells[at + 1 :]]) for n, cells in rows]
        return [*rows[:top], *(row for row in turned[top:] if any(row[1]))]
    return rows


def _have_two_names(rows: list[Row]) -> bool:
    """Say whether each row is two words, of which none comes again as a class would, and sums."""
    if len(rows) < 2 or any(len(cells) < 3 for _, cells in rows):
        return False
    names = [cells[:2] for _, cells in rows]
    words = all(are_names(one) and " " not in "".join(one) for one in names)
    sums = all(all(map(is_sum, filled(cells[2:]))) and any(cells[2:]) for _, cells in rows)
    again = any(len({*column}) < len(names) for column in zip(*names, strict=True))
    alike = len({*map(tuple, names)}) < len(names)
    return words and sums and not alike and (not again or len(rows) == 2)


def _with_pairs_joined(rows: list[Row]) -> list[Row]:
    """Return ``rows``, children in columns of their own, as Pupil 1 and Pupil 2, in one cell."""
    for top, (line, heads) in enumerate(rows[: MOST_TITLES + 1]):
        bare = [_COUNT.sub("", cell) for cell in heads]
        names = [k for k, one in enumerate(bare) if head(one) == "name" and one != heads[k]]
        below = [(n, [*cells, *[""] * (len(heads) - len(cells))]) for n, cells in rows[top + 1 :]]
        held = [filled([cells[at] for at in names]) for _, cells in below]
        if len(names) < 2 or names != [*range(names[0], names[-1] + 1)] or not any(held):
            continue
        if not (all(map(are_names, held)) and any(holds_sum(*cells) for _, cells in below)):
            continue
        first, end = names[0], names[-1] + 1
        joined = [(line, [*heads[:first], "Name", *heads[end:]])]
        for (number, cells), given in zip(below, held, strict=True):
            joined.append((number, [*cells[:first], " & ".join(given), *cells[end:]]))
        return [*rows[:top], *joined]
    return rows


def _with_sums_down(rows: list[Row], top: int, sum_: int, name: int) -> list[Row]:
    """Return ``rows``, those of a name without a sum below a sum before it with that sum."""
    found, last = [*rows[: top + 1]], ""
    for number, cells in rows[top + 1 :]:
        own = "".join(cells[sum_ : sum_ + 1])
        last = own or last
        alone = "".join(cells[name : name + 1]) and not own
        found.append((number, [*cells[:sum_], last, *cells[sum_ + 1 :]] if alone else cells))
    return found


def _may_be_name(cell: str) -> bool:
    """Say whether a cell is empty, or has letters and no sum."""
    return not cell or bool(LETTER.search(cell) and not holds_sum(cell))


def without_totals(
    heading: list[str], rows: list[Row], notes: list[Said]
) -> tuple[list[str], list[Row]]:
    """Return names across and rows of sums without columns of totals, right answers or numbers."""
    if any(len(cells) > len(heading) for _, cells in rows):
        return heading, rows
    out = [
        at
        for at, name in enumerate(heading)
        if at and (_is_beside(name, at, rows) or (beside(name) and heading.count(name) > 1))
    ]
    return _without(out, heading, rows, notes)


def without_own_columns(
    heading: list[str], rows: list[Row], notes: list[Said]
) -> tuple[list[str], list[Row]]:
    """Return a head and rows of packs without columns that hold no sums, the names first.

    Raises ``RefusedError`` where what stands below a head of its own, beside sums, may be sums.
    """
    heads = [head(bare_head(cell)) for cell in heading]
    if any(len(cells) > len(heading) for _, cells in rows) or not {"", "name"} & {*heads}:
        other = heading and heads[0] not in ("", "name")
        plan = other and heads_a_plan(heading, rows)
        notes += [passed_over(heading[:1])] if plan else []
        return heading, rows
    columns = [[row[at] for _, row in rows if len(row) > at] for at in range(len(heading))]
    if "name" in heads:
        check_beside(heading, rows, "pupils")
    known = [
        at
        for at, cell in enumerate(heading)
        if _heads_sums(cell) and any(columns[at])
        if cell.lower() not in HEADS_OF_SUMS or holds_sum(*columns[at])  # no marks below Maths
    ]
    own = [at for at, one in enumerate(heads) if one not in ("", "name") and at not in known]
    may = [at for at in own if _may_hold_sums(heading[at], columns[at])]
    if not (known or may):  # a head that says little, as Test, above nothing but sums
        sums = [at for at in own if any(columns[at]) and all(map(_is_a_sum, filled(columns[at])))]
        known = [at for at in sums if not (_OF_CODES.search(heading[at]) or heads[at] in DAY_HEADS)]
        own = [at for at in own if at not in known]
    subjects = [at for at in may if _OF_SUBJECTS.search(heading[at])]
    if not known and 0 < len(subjects) < len(may):
        known, may = [at for at in may if at not in subjects], subjects
    out = [at for at in own if at not in may and (known or may or _is_own(heading[at]))]
    for at in may if known else ():
        if not (heads[at] == "answer" or heading[at].lower() in DAY_HEADS):
            given = named(quoted(filter(holds_sum, columns[at])))
            raise RefusedError("screen.own-head", head=heading[at], given=given, field="pupils")
    return _without(out, heading, rows, notes)


def _is_a_sum(cell: str) -> bool:
    """Say whether a cell holds a sum alone that takes out less than there is."""
    pair = WRITTEN.fullmatch(cell)
    return pair is not None and whole(pair["whole"]) > whole(pair["part"])


def _without(
    out: Sequence[int], heading: list[str], rows: list[Row], notes: list[Said]
) -> tuple[list[str], list[Row]]:
    """Return a head and rows without the columns ``out``, which a note tells; the names first."""
    notes += [passed_over([heading[at] for at in out])] if out else []
    kept = [at for at in range(len(heading)) if at not in out]
    order = sorted(kept, key=lambda at: head(bare_head(heading[at])) != "name")
    rows = [(number, ["".join(cells[at : at + 1]) for at in order]) for number, cells in rows]
    return [heading[at] for at in order], rows


def _heads_sums(cell: str) -> bool:
    """Say whether a head is one of sums, or numbers these, or is a day or a week of them."""
    return head(bare_head(cell)) == "sum" or cell.lower() in HEADS_OF_SUMS or _is_label(cell)


def _is_own(cell: str) -> bool:
    """Say whether a head is of a column whose numbers are no sums, as Age or Answer."""
    return beside(cell) or cell.lower() in BESIDE or bool(_OF_CODES.search(cell))


def _is_label(cell: str) -> bool:
    """Say whether a head counts sums or names a day, and no more."""
    known = beside(cell) or cell.lower() in BESIDE or head(bare_head(cell)) in COLUMNS
    of_set = LABEL.fullmatch(cell) and DIGIT.search(cell)
    return bool((counts_sums(cell) or of_set) and not (known or _OF_CODES.search(cell)))


def _may_hold_sums(name: str, column: Sequence[str]) -> bool:
    """Say whether sums may stand in a column: no days below Date, no years, codes or ranges."""
    if beside(name) or name.lower() in BESIDE - {*DAY_HEADS} or _OF_CODES.search(name):
        return False
    held = [*filter(holds_sum, filled(column))]
    if name.lower() in DAY_HEADS:
        held = [cell for cell in held if not DAY_MONTH.fullmatch(cell)]
    pairs = [pair for cell in held for pair in WRITTEN.finditer(cell)]
    rising = all(whole(pair["whole"]) < whole(pair["part"]) for pair in pairs)
    return bool(held) and not rising and not all(map(_NO_SUM.fullmatch, held))


def _is_beside(name: str, at: int, rows: Sequence[Row]) -> bool:
    """Say whether a column beside names across is none: of totals, right answers or numbers."""
    counts = name.lower() in NUMBERS and counts_rows(rows, at)
    return no_child(name) or head(name) == "answer" or counts
