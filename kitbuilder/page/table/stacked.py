"""Tables one below another, each with a head of its own: sums across, or names."""

import re
from operator import itemgetter

from kitbuilder.errors import RefusedError
from kitbuilder.formats.heads import head
from kitbuilder.page.table.cells import LETTER, Row, filled, holds_sum, is_sum
from kitbuilder.page.table.known_words import LABEL, TITLE, are_titles, bare_sum
from kitbuilder.request.answers import no_child

_CLASS = re.compile(r"\d{1,2}\s?[^\W\d]", re.ASCII)
# A class, as 4B.


def stacked(rows: list[Row]) -> tuple[list[Row], list[Row]]:
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
        above = at + 1 in heads and _CLASS.fullmatch("".join(cells))
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
