"""Sums that stand across for all, as a tutor plans them: each child below gets them."""

import re
from collections.abc import Sequence

from kitbuilder.errors import RefusedError, Said
from kitbuilder.formats.heads import head
from kitbuilder.page.table.cells import (
    DASHES,
    LETTER,
    NUMBER,
    AstrayError,
    Row,
    filled,
    holds_sum,
    is_sum,
    parts_of,
    with_name,
)
from kitbuilder.page.table.known_words import (
    DATE,
    DAY_HEADS,
    DAY_MONTH,
    END,
    HEADS_OF_SUMS,
    LABEL,
    NAMES,
    NO,
    OF_GROUPS,
    TICKS,
    TITLE,
    are_titles,
    bare_sum,
    is_day,
    listed,
    of_title,
    tells_whose,
)
from kitbuilder.page.table.titles import OF_SPANS, bare_head, passed_over
from kitbuilder.page.table.together import are_names, with_groups_joined, with_names_joined
from kitbuilder.request.answer_cells import BLANK
from kitbuilder.request.answers import COLUMNS, no_child

_DATE = re.compile(rf"\d{{1,2}}/\d{{1,2}}|{DATE.pattern}|\d{{1,2}} [^\W\d]+ \d{{2,4}}")
_OF_DATE = re.compile(r"^\d{1,2}(?:st|nd|rd|th)? (?:de )?[^\W\d]+$")
_LETTERED = re.compile(r"(?<=\w)\s[A-Za-z]$")


def as_planned(rows: list[Row], mark: str, notes: list[Said]) -> list[Row]:
    """Return ``rows``, those of names below sums across with the sums; answers go with a note.

    Who is away has none. Raises ``RefusedError`` where a sum above the names may be a day, and
    ``AstrayError`` where one stands behind a title there.
    """
    rows = _without_answers_down(
        without_blanks(with_names_joined(with_groups_joined(rows), mark)), notes
    )
    rows = _without_words_down(_without_days_down(_by_name(_without_titles_down(rows, notes))))
    return _with_sums_above(_with_sums_marked(_turned(rows), notes), notes)


def _with_sums_above(rows: list[Row], notes: list[Said]) -> list[Row]:
    """Return ``rows``, those of names below sums across with all of these."""
    away = {line for line, cells in rows if any(map(_is_away, cells[1:])) and not holds_sum(*cells)}
    rows = [
        (line, [cells[0], *_without_none(cells[1:])] if line in away and cells[0] else cells)
        for line, cells in rows
    ]
    found, sums, children, answered, day = list[Row](), list[str](), 0, False, (0, "")
    titles, unsure = list[str](), False  # of sums that no child stands below yet
    for line, cells in _with_sums_in_a_row(rows):
        corner, *others = _with_title_apart(cells)
        if any(map(holds_sum, others)):
            if not (all(map(is_sum, filled(others))) and _may_be_above_names(corner)):
                return rows
            if not is_sum(corner) and holds_sum(corner) and not OF_SPANS.search(corner):
                raise AstrayError
            day = (line, corner) if DAY_MONTH.fullmatch("".join(corner.split())) else day
            unsure = unsure or (titles != [] and not all(map(is_day, [*titles, corner])))
            given = filled(cells) if is_sum(corner) else filled(others)
            sums = [*sums, *given] if titles else given
            titles.append(corner)
        elif holds_sum(corner) and sums and LETTER.search(corner):  # a child with sums of its own
            return rows
        elif no_child(corner) or are_titles(cells) or not (corner and not _is_title(corner)):
            found.append((line, cells))
        elif sums and _is_child(corner) and all(map(NUMBER.fullmatch, filled(others))):
            found.append((line, [corner] if line in away else [corner, *sums]))
            children, answered, titles = children + 1, answered or any(others), []
        else:
            return rows
    if unsure and children:
        raise AstrayError
    if day[0] and children:
        raise RefusedError("screen.corner-sum", given=day[1], row=day[0], field="pupils")
    notes += [Said("screen.answers-out")] if answered else []
    return found if children else rows


def _is_child(cell: str) -> bool:
    """Say whether a cell may be a child's name and no head."""
    heads_ = cell.lower() in DAY_HEADS or head(cell) in COLUMNS
    return bool(LETTER.search(cell)) and not heads_


def _with_sums_marked(rows: list[Row], notes: list[Said]) -> list[Row]:
    """Return ``rows``, those of names and marks below sums across with the sums marked."""
    top = next((at for at, (_, cells) in enumerate(rows) if any(map(is_sum, cells[1:]))), 0)
    (_, (corner, *sums)), *below = rows[top:] or [(0, [""])]
    below = [(n, [row[0], *map(_mark, row[1:])]) for n, row in below]
    marks = {cell.lower() for _, cells in below for cell in filled(cells[1:])}
    grid = len(marks) == 1 and marks <= TICKS and all(map(is_sum, filled(sums)))
    if not (
        grid and head(corner) in ("", "name") and all(LETTER.search(one[0]) for _, one in below)
    ):
        return rows
    notes.append(Said("screen.marked"))
    given = [
        (n, [row[0], *(s for s, mark in zip(sums, row[1:], strict=False) if mark)])
        for n, row in below
    ]
    return [*rows[:top], *given]


def _mark(cell: str) -> str:
    """Return a mark below a sum, nothing of what says that a child is not to get it."""
    return "" if cell.lower() in NO or _is_away(cell) or not cell.strip(DASHES) else cell


def _turned(rows: list[Row]) -> list[Row]:
    """Return ``rows`` of sums below names across, with marks, turned round; else as they are."""
    (line, (corner, *names)), *below = rows or [(0, [""])]
    marks = {cell.lower() for _, cells in below for cell in filled([*map(_mark, cells[1:])])}
    sums = [cells[0] for _, cells in below]
    plain = head(corner) in ("", "sum") and are_names(filled(names)) and filled(names)
    if not (plain and len(marks) == 1 and marks <= TICKS and all(map(is_sum, sums))):
        return rows
    wide = [[*cells, *[""] * len(names)] for _, cells in below]
    columns = [(name, [row[at] for row in wide]) for at, name in enumerate(names, 1) if name]
    return [(line, ["", *sums]), *((line, [name, *given]) for name, given in columns)]


def _with_sums_in_a_row(rows: list[Row]) -> list[Row]:
    """Return ``rows``, sums one below another between a group's title and names in one row."""
    found = list[Row]()
    for line, cells in rows:
        above = found[-1][1] if found else [""]
        alone = len(filled(cells)) == 1 and is_sum(bare := bare_sum(listed(cells[0])))
        if alone and OF_GROUPS.search(above[0]) and not holds_sum(above[0]):
            found[-1] = (found[-1][0], [*filled(above), bare])
        else:
            found.append((line, cells))
    return found


def _with_title_apart(cells: list[str]) -> list[str]:
    """Return a row's cells, a title and sums in the first taken apart: Group A: 53-27."""
    title, *sums = parts_of(cells[0], first=True)
    apart = sums and ":" in cells[0] and _is_title(title) and all(map(is_sum, sums))
    return [title, *sums, *cells[1:]] if apart else cells


def _without_days_down(rows: list[Row]) -> list[Row]:
    """Return ``rows`` without a first column of days or counts, where names stand across.

    Raises ``RefusedError`` or ``AstrayError`` where children may be called by these counts.
    """
    across = (at for at, (_, cells) in enumerate(rows) if any(map(is_sum, cells[1:])))
    first = top = next(across, 0) - 1
    while top > 0 and no_child(rows[top][1][0]):  # a row of classes, perhaps
        top -= 1
    if top < 0:
        return rows
    (number, (corner, *names)), below = rows[top], rows[first + 1 :]
    begin = [listed(cells[0]) for _, cells in below]
    if corner.lower() in ("date", "fecha"):
        begin = [_OF_DATE.sub("Monday", cell) for cell in begin]
    labels = [LABEL.fullmatch(_LETTERED.sub(" 1", cell)) for cell in begin]
    blank = not any(cells[0] for _, cells in below)
    sums = filled([cell for _, cells in below for cell in cells[1:]])
    plain = all(LETTER.search(name) and not LABEL.fullmatch(name) for name in filled(names))
    columns = any(head(bare_head(name)) in COLUMNS or no_child(name) for name in names)
    known = corner.lower() in DAY_HEADS or head(corner) in ("", "sum", "name")
    if columns or not (known and (all(labels) or blank) and all(map(is_sum, sums))):
        return rows
    of_sums = blank or all(label and (label["day"] or label["word"]) for label in labels)
    if not plain and not of_sums:
        return rows
    if first > top or (not plain and head(corner) != "name"):
        raise AstrayError
    if head(corner) == "name" and not (plain and of_sums):
        raise RefusedError("screen.corner", given=corner, row=number, field="pupils")
    return [*rows[:top], *((line, cells[1:] or [""]) for line, cells in rows[top:])]


def _without_answers_down(rows: list[Row], notes: list[Said]) -> list[Row]:
    """Return ``rows`` of sums below names across without rows of answers, which a note tells."""
    (_, names), *below = rows or [(0, [""])]
    sums = [row for row in below if all(map(is_sum, filled(row[1])))]
    others = [cell for row in below if row not in sums for cell in filled(row[1])]
    across = len(names) > 1 and all(map(LETTER.search, names)) and not any(map(holds_sum, names))
    if not (across and sums and others and all(map(NUMBER.fullmatch, others))):
        return rows
    notes.append(Said("screen.answers-out"))
    return [rows[0], *sums]


def _by_name(rows: list[Row]) -> list[Row]:
    """Return ``rows`` of a day, a name and sums as one a name, with the sums of all its days."""
    found = dict[str, Row]()
    for line, cells in rows:
        day, name, *sums = [*cells, ""]
        if not (is_day(day) and LETTER.search(name) and not LABEL.fullmatch(name)):
            return rows
        if not (any(sums) and all(map(is_sum, filled(sums)))):
            return rows
        found.setdefault(name, (line, [name]))[1].extend(filled(sums))
    return [*found.values()]


def _without_words_down(rows: list[Row]) -> list[Row]:
    """Return ``rows`` without the words before sums that recur below each name alone, as Easy."""
    found, below, names = list[Row](), dict[str, set[str]](), list[str]()
    for line, cells in rows:
        first, *others = cells
        if LETTER.search(first) and not any(others) and not holds_sum(first):
            names.append(first)
        elif names and LETTER.search(first) and any(others) and all(map(is_sum, filled(others))):
            below.setdefault(first, set()).add(names[-1])
            cells = ["", *others]
        else:
            return rows
        found.append((line, cells))
    recur = below and all(len(held) == len(names) for held in below.values())
    known = all(word.lower() in HEADS_OF_SUMS or LABEL.fullmatch(word) for word in below)
    return found if recur and known and are_names(names) and len(names) > 1 else rows


def _is_title_down(cells: Sequence[str]) -> bool:
    """Say whether a row is a day or the title of a group, alone and without a sum."""
    first, *others = filled(cells)
    of_group = OF_GROUPS.search(first) and not LABEL.fullmatch(first)
    return bool(is_day(first.rstrip(END)) or of_group) and not others and not holds_sum(first)


def _without_titles_down(rows: list[Row], notes: list[Said]) -> list[Row]:
    """Return ``rows`` without days and titles of groups between children with sums of their own."""
    first = next((at for at, (_, cells) in enumerate(rows) if _is_title_down(cells)), 0)
    titles = [row for row in rows if _is_title_down(row[1])]
    titles += [row for row in rows[:first] if are_titles(row[1])]
    others = [with_name(row[1]) for row in rows if row not in titles]
    sums = [filled(given) for _, *given in others]
    own = are_names([name for name, *_ in others])
    own = own and all(one and all(map(is_sum, one)) for one in sums)
    if not (titles and others and own):
        return rows
    notes.append(passed_over(*(cells for _, cells in titles)))
    return [row for row in rows if row not in titles]


def without_blanks(rows: list[Row]) -> list[Row]:
    """Return ``rows`` without what stands for no sum beside a sum or a name, as a dash or absent.

    Of a child who is away throughout, one word stays.
    """
    found = list[Row]()
    for line, cells in rows:
        first, *others = cells
        if holds_sum(*others):
            first = "".join(_without_none([first]))
        away = [cell for cell in others if _is_away(cell)]
        kept = _without_none(others) if first or holds_sum(*cells) else others
        alone = not holds_sum(*cells) and not any(kept)
        found.append((line, [first, *((away[:1] or kept) if alone else kept)]))
    return found


def _without_none(cells: list[str]) -> list[str]:
    """Return cells, those of dashes and of words for not tried empty."""
    return ["" if _is_away(cell) or not cell.strip(DASHES) else cell for cell in cells]


def _is_away(cell: str) -> bool:
    """Say whether a cell says in a word that a child was not there."""
    return len(cell) > 2 and cell.lower() in BLANK


def _is_title(cell: str) -> bool:
    """Say whether a cell may stand above names and is no sum."""
    label = LABEL.fullmatch(cell)
    day = label and label["called"] and label["called"].lower() not in NAMES
    dated = _DATE.fullmatch(cell) or DAY_MONTH.fullmatch(cell) or day
    titled = TITLE.fullmatch(cell) or of_title(cell) or tells_whose(cell)
    return bool(titled or no_child(cell) or dated or OF_GROUPS.search(cell))


def _may_be_above_names(corner: str) -> bool:
    """Say whether a cell above names is empty, a sum, or no child's name."""
    return head(corner) in ("", "name") or _is_title(corner) or is_sum(corner)
