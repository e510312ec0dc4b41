"""The text of a table into rows of cells: tabs, semicolons or commas part them."""

import csv
import re
from collections.abc import Sequence
from io import StringIO

from kitbuilder.errors import RefusedError, Said, named
from kitbuilder.formats.heads import head
from kitbuilder.page.table.cells import NUMBER, Row, filled, is_sum
from kitbuilder.page.table.known_words import bare_sum, counts_sums, of_title
from kitbuilder.page.table.titles import bare_head, quoted
from kitbuilder.request.answer_cells import BLANK, is_mark
from kitbuilder.request.answers import COLUMNS

_ARROW = re.compile(r"(?<=\d)[ \xa0]*(?:[-=]>|[→⇒])[ \xa0]*(?=\d|$)", re.MULTILINE)
# An equals sign, as some write it.

_MINUS = re.compile(
    r"(?<=\d)[ \xa0]+(?:minus|subtract|take away|menos)[ \xa0]+(?=\d)", re.IGNORECASE
)
# A minus sign in words.

_SUM = re.compile(r"\d\s*[-−–]\s*\d")
_SLASH = re.compile(r"(?<=\d)[ \xa0]+/[ \xa0]+(?=\d+[ \xa0]*[-−–])")
_CLOSE_SLASH = re.compile(
    r"(?<![\d/.-])(\d+[ \xa0]*[-−–][ \xa0]*\d+)/(?=\d+[ \xa0]*[-−–][ \xa0]*\d+(?![\d/.-]))"
)
# What some put between sums.

_BRACKETED = re.compile(r"(?<=[^\W\d])[ \xa0]*\((\d+[ \xa0]*[-−–][ \xa0]*\d[^()\n]*)\)")
# Sums in brackets behind a name.

_LETTER = re.compile(r"(?<=[\w=:])[ \xa0]+\(?([a-h])\)[ \xa0]*(?=\d+[ \xa0]*[-−–])")
# What counts the sums of a line, as a).

_RULE = re.compile(r"[ \t]*\|?(?:[ \t]*:?-{3,}:?[ \t]*\|?)+[ \t]*")
# The line below the heads of a table whose cells bars part.

_NAMES = re.compile(r"\s*[^\W\d][^\d\n]*(?:\n\s*[^\W\d][^\d\n]*)+\s*")
_BELOW = re.compile(r"\s*\n\s*(?=\S)")
# Names in one cell, one below another.

_HOLDS = re.compile(r"[^\W_]|[^\0-\u2bff]")
# What a row holds that is more than marks: a letter, a digit or a picture.

_CLOSE = re.compile(r"[^\W\d][^=;]*,\d[^=;]*")
# A name, and a comma close before a number.

_ANSWERED = re.compile(r"=\s*\d+\W*$")
_NAMED_SUM = re.compile(r"\s*(name|nombre)\s*[;,:]\s*(\d.*)", re.IGNORECASE)
_MAY_BE_DECIMAL = re.compile(r"\d,\d")
_DECIMALS = re.compile(r"(?:[^\d,]*[,:;\s])?\s*(\d+,\d{1,2})\s*[-−–—]\s*(\d+,\d{1,2})[\s=?_]*")
_GROUPED = re.compile(r"(?<!\d)\d,\d{3}\s*[-−–—]\s*\d,\d{3}(?!\d)")
_RESTS = re.compile(r"[^=]*?(?<!\d)(\d+,\d{1,2})\s*[-−–—]\s*(\d+)\s*=\s*\d+,\d{1,2}\s*")
# A line that ends as 6,5-2 = 4,5.

_DIGITS = re.compile(r"\d{1,4}", re.ASCII)
_SIGNED = re.compile(r"\d{1,4}\s*[-−–]\s*\d{1,4}(?:\s*=.*)?", re.ASCII)
_EQUALS = re.compile(r"\d{1,4}\s*=", re.ASCII)  # the decimals of a part, and what is left
_LAST_NUMBER = re.compile(r"(?:[-•*·]\s*|(?:\d{1,2}|[a-z])[.)]\s*)?(\d{1,2})", re.IGNORECASE)

_BEFORE_THREE = re.compile(r"(.*[^\W\d][^\d]*?[\s:]+)\d{1,3},\d{3}\s*[-−–—]")
# A name, and what may be a sum with thousands behind a comma; else the name has a number.

_NUMBERED = re.compile(r".*[^\W\d].*?[\s:](\d{1,4})")
# A name that ends with a number, or one beside which a number begins.

_MINUS_SIGN = r"[ \xa0]*[-−–—][ \xa0]*"
_SPACED = re.compile(
    rf"(?:(?<=[\t;\"])|^)[ ]*(\d{{2,3}})[ \xa0\u2009\u202f](\d{{3}}{_MINUS_SIGN}\d{{1,3}})"
    r"(?:[ \xa0\u2009\u202f](\d{3}))?(?=[ \xa0]*=?[ \xa0_?]*(?:[\t;\"]|$))",
    re.MULTILINE,
)
# A cell of tens of thousands, as 12 000 - 3 456.

_WHOLE = {"pupils": re.compile(r"\.+|d{0,2}"), "answers": re.compile(r"\.d?|\.+|d*")}
# Rows whose cells are whole: "d" is a cell of digits, "." one with a sign between numbers.


def parted(text: str, field: str, point: str = ",") -> tuple[list[Row], str]:
    """Return the rows and columns of a table that hold something, and what parts its cells.

    Commas that none of them can be of decimals, as they have spaces, count as semicolons; where
    the language has a decimal ``point``, two numbers with commas may be thousands.
    """
    text = _MINUS.sub(" - ", _ARROW.sub(" = ", text.removeprefix("\ufeff")))
    text = _SLASH.sub(", ", _CLOSE_SLASH.sub(r"\1, ", text))
    text = _without_rules(_BRACKETED.sub(r": \1", text))
    text = "\n".join(map(_without_letters, text.split("\n")))
    lines = [line for line in text.split("\n") if line.strip()]
    of_sums = [";" in line for line in lines if _SUM.search(line)]
    semicolons = 2 * sum(";" in line for line in lines) >= len(lines)
    semicolons = semicolons or (of_sums != [] and all(of_sums))
    mark = "\t" if "\t" in text else ";" if semicolons else ","
    if mark == ";" and '"' not in text:  # as a spreadsheet fills rows up
        text = re.sub(r",+[ \t]*$", "", text, flags=re.MULTILINE)
    reader = csv.reader(StringIO(text, newline=None), delimiter=mark)
    rows, number = list[Row](), 0
    try:
        for number, typed in enumerate(reader, 1):
            heads = "".join(typed).split(",")  # as told to be put above cells parted otherwise
            row = heads if not rows and {*map(head, heads)} >= {*COLUMNS} else typed
            if mark == ",":
                if point == ".":
                    _check_grouped(typed, number, field)
                row = _of_decimals_whole(row, field)
            cells = [*_headed(row[0]), *row[1:]] if row else row
            cells = _one_below_another(cells) if field == "pupils" else cells
            cells = [_in_one_line(cell.strip()) for cell in cells]
            if mark == "\t":
                cells = _typed(cells, number, field)
            if len(cells) > 1 and _ANSWERED.search(cells[-2]) and is_mark(cells[-1]):
                cells[-2:] = [f"{cells[-2]} {cells[-1]}"]
            if _HOLDS.search("".join(cells)):
                rows.append((number, cells))
    except csv.Error:  # above all a cell that no reader of such tables takes
        raise RefusedError("table.no-row", row=number + 1, field=field) from None
    held = sorted({at for _, cells in rows for at, cell in enumerate(cells) if cell})
    if len(held) > 1:
        rows = [(line, [cells[at] for at in held if at < len(cells)]) for line, cells in rows]
    return rows, mark if mark != "," or _MAY_BE_DECIMAL.search(text) else ";"


def _without_rules(text: str) -> str:
    """Return a table whose cells bars part with tabs in their place, without the line of dashes."""
    lines = text.split("\n")
    held = [line.strip() for line in lines if line.strip()]
    if len(held) < 2 or not all(len(line) > 1 and line[0] == line[-1] == "|" for line in held):
        return text
    barred = ["" if _RULE.fullmatch(line) else line.strip().strip("|") for line in lines]
    return "\n".join(line.replace("|", "\t") for line in barred)


def _without_letters(line: str) -> str:
    """Return a line without the letters that count its sums, as Ada a) 53-27 b) 61-34."""
    if [one[1] for one in _LETTER.finditer(line)][:2] != ["a", "b"]:
        return line
    return _LETTER.sub(", ", _LETTER.sub(": ", line, count=1))


def without_thousands(text: str, field: str, point: str, notes: list[Said]) -> str:
    """Return ``text``, its sums of thousands without marks; a note names them.

    A comma or a point is one of thousands where it is not the language's decimal ``point``, has
    three digits behind it everywhere, and no comma that parts cells may be meant.
    """
    if "\t" in text or ";" in text:
        text = _SPACED.sub(lambda one: "".join(filter(None, one.groups())), text)
    mark = "," if point == "." else "."
    number = rf"[1-9]\d{{0,2}}{re.escape(mark)}\d{{3}}"
    one = rf"(?:{number}{_MINUS_SIGN}(?:{number}|\d{{1,3}})|\d{{4,5}}{_MINUS_SIGN}{number})"
    both = rf"{number}{_MINUS_SIGN}{number}"
    lines = mark == "," and not ("\t" in text or ";" in text)
    if lines and field == "answers":  # but 5,003-2,748=2,255 has marks throughout
        both = rf"{both}[ \xa0]*=[ \xa0]*{number}"
    before = r"(?<![\w.-])(?<!\d,)" if lines else r"(?<![\w.,-])"
    sums = re.compile(rf"{before}{both if lines else one}(?![\d.,]*\d)")
    if re.search(
        rf"\d{re.escape(mark)}(?:\d\d?|\d{{4,}})(?!\d){_MINUS_SIGN}\d", text
    ):  # of decimals
        return text
    if not (found := sums.findall(text)):
        return text
    notes.append(Said("screen.thousands", sums=named(quoted(found))))
    return sums.sub(lambda sum_: sum_[0].replace(mark, ""), text)


def _headed(cell: str) -> list[str]:
    """Return a first cell as told to be written where a sum stands above names: Name; 24-3."""
    found = _NAMED_SUM.fullmatch(cell)
    return [*found.groups()] if found else [cell]


def _one_below_another(cells: list[str]) -> list[str]:
    """Return a row's cells, names one below another in a cell, beside sums or alone, joined."""
    alone = len(filled(cells)) == 1 and not of_title(cells[0])
    if not (alone or any(map(_SUM.search, cells))):
        return cells
    return [_BELOW.sub(" & ", cell) if _NAMES.fullmatch(cell) else cell for cell in cells]


def _in_one_line(cell: str) -> str:
    """Return a cell in one line, commas between the sums of its lines, which go without numbers."""
    if "\n" not in cell or not _SUM.search(cell):
        return re.sub(r"\s*\n\s*", " ", cell)
    return ", ".join(filter(None, (bare_sum(line.strip()) for line in cell.split("\n"))))


def _check_grouped(cells: list[str], number: int, field: str) -> None:
    """Refuse a sum of numbers with commas, for thousands or before thousandths."""
    if found := _GROUPED.search(",".join(cells)):
        given = found[0]
        whole, other = given.replace(",", ""), given.replace(",", ".")
        refused = RefusedError("sum.thousandths", given=given, sum=whole, other=other, field=field)
        raise refused.at(row=number)


def _of_decimals_whole(cells: list[str], field: str) -> list[str]:
    """Return the cells of a line as one where commas part decimals: before an equals sign."""
    line = ",".join(cells)
    found = _RESTS.fullmatch(line) or (_DECIMALS.fullmatch(line) if field == "pupils" else None)
    whole, part = (float(one.replace(",", ".")) for one in found.groups()) if found else (0, 1)
    of_part = any(_EQUALS.match(cell.strip()) for cell in cells)
    return [line] if of_part or whole >= part else cells


def _typed(cells: list[str], number: int, field: str) -> list[str]:
    """Return the cells of a row, those of a line typed below a spreadsheet's table taken apart.

    Raises ``RefusedError`` where its commas may be of decimals.
    """
    if len(line := filled(cells)) != 1:
        return cells
    if _CLOSE.fullmatch(line[0]):
        raise RefusedError("screen.commas", row=number, field=field)
    first, *given = re.split(r"\s*;\s*" if ";" in line[0] else r",\s+", line[0])
    plain = all(NUMBER.fullmatch(one) or one.lower() in BLANK for one in given)
    return [first, *given] if given and plain else cells


def check_halves(rows: Sequence[Row], field: str) -> None:
    """Refuse a row of cells that begins as 6,5-2,8 or Ada 1,345-2 does: decimals or thousands."""
    found = [(number, _BEFORE_THREE.match(",".join(cells[:2]))) for number, cells in rows]
    grouped = [(number, one[1]) for number, one in found if one]
    several = len({name for _, name in grouped}) > 1 or len(rows) == len(grouped) == 1
    if several or any(":" in name for _, name in grouped):
        raise RefusedError("screen.commas", row=grouped[0][0], field=field)
    for number, cells in rows:
        first = _LAST_NUMBER.fullmatch(cells[0])
        if first and _of_decimals([first[1], *cells[1:]]):
            raise RefusedError("screen.commas", row=number, field=field)


def in_columns(rows: Sequence[Row]) -> bool:
    """Say whether a row heads names and sums, and each row below has cells of these and no more."""
    top = next((at for at, (_, cells) in enumerate(rows) if "name" in map(head, cells)), len(rows))
    (_, heading), *below = rows[top : len(rows)] or [(0, [])]
    columns = [head(bare_head(cell)) for cell in heading]
    sums = [at for at, cell in enumerate(heading) if columns[at] == "sum" or counts_sums(cell)]
    answered = {*columns} >= {*COLUMNS}
    for _, cells in below:
        given = [cells[at] for at in sums if at < len(cells)]
        whole = len(cells) == len(heading) if answered else len(cells) <= len(heading)
        if not (whole and any(map(is_sum, given))):
            return False
        if not all(is_sum(cell) or cell.lower() in BLANK for cell in given):
            return False
    return bool(sums and below)


def joined(row: Row, field: str) -> list[str]:
    """Return a row's cells, its numbers whole; refuse commas that may part decimals."""
    number, cells = row
    start = 0 if _kind(cells[0]) == "." else 1
    kinds, ends = "".join(map(_kind, cells[start:])), _NUMBERED.fullmatch(cells[0])
    if not (ends and _of_decimals([ends[1], *cells[1:]])):  # Ana 6,5-2,8
        small = kinds in (".d", "d.") and re.match(r"\d(?!\d)", cells[start])
        two_ways = field == "answers" and kinds == ".d" and small  # 7-2,8 may be 7 - 2.8
        if "?" in kinds or (_WHOLE[field].fullmatch(kinds) and not two_ways):
            return [*cells]
        if field == "pupils" and (small or kinds == "d.d") and _kind(cells[0]) != "d":
            return [*cells[:start], ",".join(cells[start:])]
    raise RefusedError("screen.commas", row=number, field=field)


def _of_decimals(cells: Sequence[str]) -> bool:
    """Say whether ``cells`` begin as 6,5-2,8: with a sum of decimals that can be taken out."""
    if [*map(_kind, cells[:2])] != ["d", "."]:
        return False
    return int(cells[0]) >= int(re.findall(r"\d+", cells[1])[1])


def _kind(cell: str) -> str:
    return "d" if _DIGITS.fullmatch(cell) else "." if _SIGNED.fullmatch(cell) else "?"
