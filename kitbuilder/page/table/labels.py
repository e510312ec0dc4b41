"""What stands before sums and is no child: numbers and letters of a list, and days."""

import re
from collections.abc import Sequence
from contextlib import suppress
from string import ascii_lowercase

from kitbuilder.errors import RefusedError, Said, named
from kitbuilder.page.table.cells import in_two_ways, is_sum, joined, with_name
from kitbuilder.page.table.titles import Row

_DAYS = (
    *("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"),
    *("mon", "tues?", "wed", "thu(?:rs?)?", "fri", "sat", "sun"),
    *("lunes", "martes", "mi[eé]rcoles", "jueves", "viernes", "s[aá]bado", "domingo"),
    *("lun", "mar", "mi[eé]", "jue", "vie", "s[aá]b", "dom"),
)
_NAMES = {"mar", "domingo", "dom", "sun", "thu"}
"""Days that are children's names as well, but beside others."""

_DAY_HEADS = ("day", "date", "week", "día", "fecha", "semana")
_LABEL = re.compile(
    rf"((?P<day>(?P<called>{'|'.join(_DAYS)})\.?(?:\s\d{{1,2}})?"
    r"|(?:day|week|d[ií]a|semana)\s*\d{1,2}"
    r"|\d{1,2}/\d{1,2}|\d{1,4}[/.-]\d{1,2}[/.-]\d{1,4})"
    r"|[a-z]\)|\d{1,2}[.)]|q\d{1,2}|(?P<count>[a-z]|\d{1,2})\.?)"
    r"(?:(?:\s*:|(?<=\.)\s|(?<=\)))\s*(?P<name>[^\W\d].*))?",
    re.IGNORECASE,
)
"""A label, which may have to count, and a name after it."""


def unlabelled(rows: list[Row], mark: str, notes: list[Said]) -> list[Row]:
    """Return ``rows`` of sums and answers without labels, which ``notes`` tell.

    Each row has one, or nothing before its sum; a head may stand above days. Where a label is no
    day and no name follows, no sum comes again: in a class one does, whose children may be called
    so.
    """
    found, kept, sums = list[re.Match[str]](), list[Row](), list[tuple[str, ...]]()
    for number, whole in rows:
        cells = _whole_numbers(whole, mark)
        name, *given = with_name(cells)
        label = _LABEL.fullmatch(name)
        heads = number == rows[0][0] and name.lower() in _DAY_HEADS
        if label and _before_sum(label, cells, given):
            found.append(label)
        elif heads == any(map(is_sum, given[:1])) or (name and not heads):
            return rows
        rest = [label["name"], *given] if label and label["name"] else given
        kept += [(number, rest)] if rest else []
        if not (label and (label["day"] or label["name"])):
            sums += [tuple(re.findall(r"\d+", cell)) for cell in given if is_sum(cell)]
    named_so = {str(label["called"]).lower() for label in found} <= _NAMES
    if named_so or len({*sums}) < len(sums) or not _counting(found, len(rows)):
        return rows
    lines = named([Said("answers.typed", typed=label[1]) for label in found])
    notes.append(Said("screen.labels", lines=lines))
    return kept


def _whole_numbers(cells: list[str], mark: str) -> list[str]:
    """Return a row's cells, its numbers whole that commas part, where that is in no doubt."""
    with suppress(RefusedError):
        return joined(cells, "answers") if mark == "," else cells
    return cells


def _before_sum(label: re.Match[str], cells: Sequence[str], given: Sequence[str]) -> bool:
    """Say whether a label stands before a sum, or alone where nothing was answered."""
    if (label["name"] or label["called"]) and in_two_ways(cells[0], first=True):
        return False
    return is_sum(given[0]) if given else not (label["count"] or label["name"])


def _counting(labels: Sequence[re.Match[str]], rows: int) -> bool:
    """Say whether labels that have to count do: 1, 2, 3 or a, b, c, one in each of several rows.

    A, B, C may be what children are called.
    """
    counts = [label["count"] for label in labels if label["count"]]
    ways = ([str(at) for at in range(1, rows + 1)], [*ascii_lowercase[:rows]])
    return not counts or (rows > 1 and counts in ways)
