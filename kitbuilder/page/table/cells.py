"""What stands in the cells of a row: a sum, more than a sum, or half a decimal."""

import re
from collections.abc import Sequence
from itertools import pairwise

from kitbuilder.formats.heads import of_name
from kitbuilder.request.answer_cells import BLANK, is_mark

Row = tuple[int, list[str]]
"""A row's number, counted from 1, and its cells; 0 where all that stands is a name in the head."""

LETTER, DIGIT = re.compile(r"[^\W\d_]"), re.compile(r"\d")
NUMBER = re.compile(r"\d+(?:[ \xa0\u2009\u202f]\d{3})?([.,]\d+)?")

_THOUSANDS = r"(?:[ \xa0\u2009\u202f]\d{3})?"
_SUM = re.compile(rf"\W*[\d.,]*\d{_THOUSANDS}\s*[-−–—]\s*[\d.,]+{_THOUSANDS}[\W_]*")
WRITTEN = re.compile(  # no part of a date, of a number with more marks, or of an answer
    r"(?<!\d)(?<!\d[-−–])"
    r"(?P<whole>(?<![\w.,=])(?<!=\s)(?<!=\s\s)(?<!\d:\s)\d[ \xa0\u2009\u202f]\d{3}"
    r"|\d+(?:[.,]\d+)?)\s*[-−–—]\s*"
    r"(?P<part>\d+(?:[.,]\d+)*)(?P<group>[ \xa0\u2009\u202f]\d{3}\b)?(?![-−–\d])"
)
_TWO_WAYS = re.compile(
    r"(?:^|\w\s+)(\d) ([1-9]\d\d)\s*[-−–—]\s*(\d{1,3}(?=\s*=)|\d{2,3}(?=\s))[\s=]+(\d{1,4})"
    r"(?!\d|[.,]\d|[ \xa0]\d{3}(?!\d|\s*[-−–—]))"
)
_NUMBERED = re.compile(r"(.*[^\W\d]\s*(\d{1,3}))\s+[-−–—]\s+(\d+)\s*[-−–—]\s*\d")
# A name with a number, a dash, and a sum.

DASHES = " -−–—"
_BETWEEN = " \xa0\u202f\t=:;,'?_>→"
"""What may stand between a name, a sum and an answer in one cell."""

_JOINED = re.compile(r"\.$|\s+(?:and|y|e|&)$")
# What may end an answer before another sum.

_WORDS_AWAY = "|".join(re.escape(word) for word in BLANK if len(word) > 2)
_AWAY = re.compile(rf"([^\W\d].*?)(?:\s*[-–—:]\s*|\s+)\(?({_WORDS_AWAY})\)?", re.IGNORECASE)
# A name, and a word for not tried.


NAME_ANSWER = re.compile(r"(.*[^\W\d].*?)(?:\s*:\s*|\s+[-–—]\s+|\s+)(\d+(?:[.,]\d+)?)")
# A name and an answer in one cell.


class AstrayError(Exception):
    """The rows of a table do not fit its first."""


def is_sum(cell: str) -> bool:
    """Say whether a cell holds a sum and nothing else."""
    return bool(_SUM.fullmatch(cell))


def holds_sum(*cells: str) -> bool:
    """Say whether a sum stands in one of ``cells``, whatever stands beside it."""
    return any(map(WRITTEN.search, cells))


def filled(cells: Sequence[str]) -> list[str]:
    """Return those of ``cells`` that hold something."""
    return [cell for cell in cells if cell]


def first_sum(rows: Sequence[Row]) -> int:
    """Return which of ``rows`` is the first with a sum; their number where none has one."""
    return next((at for at, (_, cells) in enumerate(rows) if holds_sum(*cells)), len(rows))


def heads_of_sums(rows: list[Row]) -> int | None:
    """Return which row has several sums, or one beside a head of names, and rows below with none.

    Above it stand titles at most, which may hold what looks like a sum, but no answer.
    """
    held = ((at, cells, sum(map(holds_sum, cells))) for at, (_, cells) in enumerate(rows))
    several = (at for at, cells, sums in held if sums > 1 or (sums and any(map(of_name, cells))))
    at = next(several, len(rows))
    above = [cell for _, cells in rows[:at] if holds_sum(*cells) for cell in cells]
    answers = any("=" in cell or NUMBER.fullmatch(cell) for cell in above)
    alone = first_sum(rows[at + 1 :]) == len(rows) - at - 1
    return at if at < len(rows) - 1 and alone and not answers else None


def counts_rows(rows: Sequence[Row], at: int = 0) -> bool:
    """Say whether a column counts rows from 1 on, with few gaps, and more stands after it."""
    counts = [cells[at].rstrip(".)") for _, cells in rows if len(cells) > at + 1]
    found = [cell in ("", str(k)) for k, cell in enumerate(counts, 1)]
    return len(found) == len(rows) and all(found) and 2 * counts.count("") < len(rows)


def apart(cells: Sequence[str]) -> list[str]:
    """Return ``cells``, those that hold more than a sum taken apart: "Ada 53-27 = 34" is three."""
    return [part for at, cell in enumerate(cells) for part in parts_of(cell, first=not at)]


def with_name(cells: Sequence[str]) -> list[str]:
    """Return a row's cells taken apart, the first its name, which may be empty."""
    parts = apart(cells)
    return ["", *parts] if is_sum(parts[0]) else parts


def one_by_one(rows: Sequence[Row], mark: str, field: str) -> list[Row]:
    """Return ``rows``, those of several sums with answers as so many: Ada 52-27=35, 63-29=34.

    In packs they come without the answers.
    """
    listed = all(holds_sum(*cells) for _, cells in rows)  # else sums may stand below names across
    most, found = 2 if field == "answers" else 1, list[Row]()
    for number, cells in rows:
        name, pairs = _pairs(cells, mark)
        headed = name and field == "answers"  # a row of packs may have a column beside
        several = len(pairs) > 1 and (listed or headed or len(cells) == 1)
        found += [(number, [name, *one[:most]]) for one in pairs] if several else [(number, cells)]
    return found


def _pairs(cells: list[str], mark: str) -> tuple[str, list[list[str]]]:
    """Return a row's name, and each sum with its answer; none where more stands beside them."""
    equals = "".join(cells).count("=") > 1 and not (mark == "," and any("," in c for c in cells))
    if not (equals or _alternate(cells)):
        return "", []
    name, *parts = with_name(cells)
    sums = [at for at, part in enumerate(parts) if is_sum(part)]
    pairs = [parts[at:to] for at, to in pairwise([*sums, len(parts)])]
    beside = [part for one in pairs for part in one[1:]]
    bare = [part.lstrip("0123456789., ") for part in beside if part.lower() not in BLANK]
    words = [word for word in bare if LETTER.search(word) and not is_mark(word)]
    plain = beside and not words and not any(sums[:1]) and all(len(one) < 3 for one in pairs)
    return name, pairs if plain else []


def _alternate(cells: list[str]) -> bool:
    """Say whether a row is a name, then several sums each with an answer, in cells of their own."""
    name, *others = cells
    sums, answers = filled(others[::2]), filled(others[1::2])
    pairs = len(sums) > 1 and all(map(is_sum, sums)) and any(map(NUMBER.fullmatch, answers))
    known = all(NUMBER.fullmatch(one) or one.lower() in BLANK for one in answers)
    return bool(LETTER.search(name)) and pairs and known


def away_apart(cells: list[str]) -> list[str]:
    """Return the cells of a row, a name and a word for not tried in one cell as two: Ada absent."""
    both = _AWAY.fullmatch(cells[0]) if len(filled(cells)) == 1 else None
    return [*both.groups(), *cells[1:]] if both else cells


def unanswered(cell: str) -> str:
    """Return a cell that holds one sum without its equals sign and what follows that."""
    found = WRITTEN.search(cell)
    after = cell[found.end() :] if found else ""
    answer = after.lstrip().startswith("=") and not WRITTEN.search(after)
    return cell.removesuffix(after) if answer else cell


def parts_of(cell: str, *, first: bool) -> list[str]:
    """Return the name, the sums and the answers that stand in one cell, in their order."""
    if halves := in_two_ways(cell, first=first):
        return [halves[0].strip(_BETWEEN), *parts_of(halves[1], first=False)]
    named = _NUMBERED.match(cell) if first else None
    close = named and not named[1][: named.start(2)].endswith((" ", "\xa0"))  # P13 - 12-9
    if named and (close or int(named[2]) <= int(named[3])):  # Child 1 - 53-27=26
        return [named[1], *parts_of(cell[named.start(3) :], first=False)]
    parts, at = list[str](), 0
    while found := WRITTEN.search(cell, at):
        before = cell[at : found.start()].strip(_BETWEEN).rstrip(DASHES)
        parts += [_JOINED.sub("", before) if parts else before, found[0]]
        at = found.end()
        if found["group"] and whole(found["part"] + found["group"]) > whole(found["whole"]):
            at = found.start("group")  # an answer of three digits, no thousands
            parts[-1] = cell[found.start() : at]
    end = cell[at:].strip(_BETWEEN)
    end = end.rstrip(".") if parts else end
    parts.append(end if end.strip(DASHES) or not parts else "")  # 52-27 = - was not tried
    if len(parts) == 1 or parts[-1].startswith(("-", "−", "–")):
        return [cell]
    return [part for part in parts if part]


def in_two_ways(cell: str, *, first: bool) -> tuple[str, str] | None:
    """Return the halves of a cell as Ada 1 152-27=125: Ada's of 1152, or Ada 1's of 152."""
    found = _TWO_WAYS.search(cell)
    if not found or not (first or found.start(1)) or int(found[3]) > int(found[2]):
        return None
    if int(found[4]) > 999 and int(found[4]) != int(found[2]) + int(found[3]):  # of thousands
        return None
    return cell[: found.end(1)], cell[found.start(2) :]


def whole(typed: str) -> int:
    """Return the number before any decimals, its thousands grouped by spaces."""
    return int("".join(re.split("[.,]", typed)[0].split()))
