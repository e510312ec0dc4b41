"""The words and marks of tables that are no child: titles, totals, days, numbers, list marks."""

import re
from collections.abc import Sequence

from kitbuilder.formats.heads import head
from kitbuilder.page.table.cells import DASHES, NUMBER, WRITTEN, filled, holds_sum
from kitbuilder.request.answer_cells import BLANK
from kitbuilder.request.answers import COLUMNS, JOINING, NO_CHILD

OF_TITLES = {
    *("age", "answers", "año", "clase", "class", "curso", "deberes", "edad", "examen", "ficha"),
    *("grade", "grado", "group", "grupo", "hoja", "homework", "lesson", "matemáticas", "math"),
    *("maths", "page", "practice", "prueba", "página", "quiz", "respuestas", "restas", "semana"),
    *("set", "sheet", "subtraction", "sums", "tarea", "test", "week", "worksheet", "year"),
}
"""Words that a title has and no child's name, in small letters."""

_TOPICS = {"results", "resultados", "term", "topic", "tema", "trimestre", "unidad", "unit"}
# More of these, after which no name follows.

_WHOSE = {
    *("class", "school", "teacher", "tutor", "centro", "clase", "colegio", "maestra", "maestro"),
    *("profe", "profesor", "profesora", "tutora"),
}
# Words before a name that is no child's, in small letters.

NUMBERS = ("no", "no.", "nº", "n.º", "n°", "#")
"""Heads of a column that counts the rows, in small letters."""

_DAYS = (
    *("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"),
    *("mon", "tues?", "wed", "thu(?:rs?)?", "fri", "sat", "sun"),
    *("lunes", "martes", "mi[eé]rcoles", "jueves", "viernes", "s[aá]bado", "domingo"),
    *("lun", "mar", "mi[eé]", "jue", "vie", "s[aá]b", "dom"),
)
NAMES = {"mar", "domingo", "dom", "sun", "thu"}
"""Days that are children's names as well, but beside others, all in full or all in short."""

DAY_HEADS = ("day", "date", "week", "día", "fecha", "semana")
_DATED = ("due", "deadline", "birthday", "born", "hand in", "date set", "entrega", "cumpleaños")
BESIDE = {*DAY_HEADS, *_DATED, *NUMBERS, *OF_TITLES, "pages", "time", "hora"} - {
    "answers",
    "respuestas",
}
"""Heads of columns beside answers whose numbers are none, in small letters."""

_SUMS = (
    *("sum", "question", "exercise", "problem", "card", "task", "resta", "pregunta", "ejercicio"),
    *("problema", "ejer", "ej", "cuenta", "operaci[oó]n", "tarjeta"),
)
_SHORT = "n\\.?[º°]|no|number|n[uú]mero|ex|act|actividad"
HEADS_OF_SUMS = {
    *("subtraction", "subtractions", "problems", "questions", "calculations", "exercises", "tasks"),
    *("restas", "problemas", "preguntas", "ejercicios", "operaciones", "cuentas", "sums"),
    *("math", "maths", "mathematics", "numeracy", "matemáticas", "mates", "work"),
    *("extra", "bonus", "challenge", "stretch", "starter", "homework", "practice", "warm-up"),
    *(
        "easy",
        "medium",
        "hard",
        "easier",
        "harder",
        "reto",
        "deberes",
        "repaso",
        "fácil",
        "difícil",
    ),
}
"""Words above sums or before them that are no child, in small letters."""

OF_SUMS = {*_SUMS, *JOINING, "q", "operación", "operaciones"}
"""Words before the numbers of sums, in small letters."""

_WORD = (
    rf"(?P<word>(?:\d{{1,2}}\s*[.ªº)]?\s*)?(?:{'|'.join(_SUMS)})\.?"
    rf"\s*(?:(?:{_SHORT})\.?\s*)?\d{{0,2}}"
    rf"|(?:{_SHORT})\.?\s*\d{{1,2}}|ok|x|[✓✔✅✗✘❌☑☒]\ufe0f?)"
)
DATE = re.compile(r"\d{1,4}[/.-]\d{1,2}[/.-]\d{1,4}")
_MONTHS = "(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec|ene|abr|ago|dic)[a-z]*"
_FULL_MONTH = (  # without those by which children are called
    "(?:january|february|march|july|september|october|november|december"
    "|enero|febrero|marzo|mayo|junio|agosto|septiembre|octubre|noviembre|diciembre)"
)
_MONTH, _OF_MONTH = "(?:0?[1-9]|1[0-2])", "(?:0?[1-9]|[12]\\d|3[01])"
DAY_MONTH = re.compile(rf"{_OF_MONTH}-{_MONTH}|{_MONTH}-{_OF_MONTH}")
"""A day and a month; a sum where the first is the larger."""

DAY = (
    rf"(?P<day>(?P<called>{'|'.join(_DAYS)})\.?(?:\s\d{{1,2}}(?:/\d{{1,2}}|\s(?:de\s)?[^\W\d]+)?)?"
    r"|(?:day|week|d[ií]a|semana)\s*\d{1,2}"
    rf"|\d{{1,2}}(?:st|nd|rd|th)?\s(?:de\s)?{_FULL_MONTH}"
    rf"|\d{{1,2}}/\d{{1,2}}|{DATE.pattern})"
)
_TITLED = "|".join(sorted(filter(str.isalpha, (OF_TITLES | NO_CHILD) - {*BLANK, "ausentes"})))
_TITLED = rf"(?:{_TITLED})(?:e?s)?"
_TITLE = (  # all its words are known, and one is of titles
    rf"(?=.*\b(?:{_TITLED})\b)(?:\W*\b(?:{_TITLED}|{'|'.join(JOINING - {'#'})}"
    rf"|{'|'.join(_DAYS)}|{_MONTHS}|\d*[a-z]?)\b)+\W*?"
)
TITLE = re.compile(_TITLE, re.IGNORECASE)
LABEL = re.compile(
    rf"(?P<all>{_WORD}|{DAY}|[a-z]\)|\d{{1,2}}[.)]|q\d{{1,2}}"
    rf"|{_TITLE}|(?P<count>[a-z]|\d{{1,2}})\.?)"
    r"(?:(?:\s*:|(?<=\.)\s|(?<=\)))\s*(?P<name>[^\W\d].*))?",
    re.IGNORECASE,
)
"""A label, which may have to count, and a name after it."""

END = f":{DASHES}"
"""What may end a name or a label in a cell of its own."""

_ALL = (
    r"(?:for |para )?(?:all|everyone|everybody|(?:the )?whole class|todos|todas|toda la clase)"
    r"|(?:the |these )?(?:sums|problems)|(?:las )?restas"
)
OF_ALL = re.compile(_ALL, re.IGNORECASE)
"""Whoever gets what is written behind it."""

OF_GROUPS = re.compile(
    rf"\b(?:group|set|table|team|grupo|mesa|equipo)\b|^(?:{_ALL})$", re.IGNORECASE
)
"""What may stand above names in the row of sums, and is neither a sum nor a child."""

CLASS = re.compile(r"\d{1,2}\s?[^\W\d]", re.ASCII)
"""A class, as 4B."""

NO = {"no", "n", "0", "false", "falso", "f"}
YES_NO = {"yes", "y", "sí", "si", "s", "1", "true", "verdadero", "v", *NO}
TICKS = {"x", "✓", "✔", "✅", "☑", *YES_NO} - NO
"""What may stand below a sum for a child that is to get it, in small letters."""

_BULLET = re.compile(
    r"[-−–—•·*▪●○◦‣+>□→]+$|(?:[-−–—•·*▪●○◦‣+>#(□→]|\[\s*x?\s*\])+\s*(?=\w)", re.IGNORECASE
)
_BOLD = re.compile(r"(?<!\w)([*_]+)(\w[^*]*)\1(?!\w)")
_ORDINAL = re.compile(
    r"(?:(?P<count>\d{1,2})(?:\s*\.?[-–—]|\.?[ºª°]\)?|/)|(?P<letter>[a-z])\.?[-–—](?![^\W\d]))"
    r"(?:$|\s*(?=[^\W\d]|\d+\s*[-−–—]\s*\d))",
    re.IGNORECASE,
)
_LISTED_DATE = re.compile(r"\d{1,2}[-./](?:0?\d|1[0-2])[-./](?:\d{4}|\d{2})\b(?!\s*=)")
# How a line of a list begins: of numbers, 1.- is written as 1. is, a- as a). A date is no number.
_BEFORE_NAME = re.compile(r"(\d{1,2})[.)]\s*(?=[^\W\d])")
_COUNTED_NAME = re.compile(r"(\d{1,2})\s+(?=[^\W\d]{2})")
_COUNT = re.compile(r"\(?(?:[a-z]|q?\d{1,2})\)\s*|(?:(?:[a-z]|q?\d{1,2})\.|q\d{1,2}:?)\s+", re.I)


def of_title(cell: str) -> bool:
    """Say whether a cell has a word of titles."""
    return not (OF_TITLES | _TOPICS).isdisjoint(re.findall(r"[^\W\d_]+", cell.lower()))


def are_titles(cells: Sequence[str]) -> bool:
    """Say whether a row has a word of titles, or is a day; it has no sum and heads no columns."""
    held = filled(cells)
    known = any(of_title(one) or tells_whose(one) or DATE.fullmatch(one) for one in held)
    day = len(held) == 1 and is_day(held[0])
    plain = not holds_sum(*held) and not any(map(NUMBER.fullmatch, held))
    return (known or day) and plain and {*map(head, held)}.isdisjoint(COLUMNS)


def only_titles(cell: str) -> bool:
    """Say whether all words of a cell are of titles, or letters, as Clase 3.º A."""
    words = re.findall(r"[^\W\d_]+", cell.lower())
    return of_title(cell) and all(len(word) == 1 or of_title(word) for word in words)


def is_day(cell: str) -> bool:
    """Say whether a cell is a day, and no name."""
    label = LABEL.fullmatch(cell)
    return bool(label and label["day"] and not label["name"]) and cell.lower() not in NAMES


def tells_whose(cell: str) -> bool:
    """Say whether a cell tells whose the table is, as Teacher: Mrs Hill."""
    begin, colon, _ = cell.lower().partition(":")
    return bool(colon) and begin.strip() in _WHOSE


def counts_sums(cell: str) -> bool:
    """Say whether a cell counts sums or is a day, and no more."""
    label = LABEL.fullmatch(cell)
    return bool(label and (label["word"] or label["day"] or label["count"]))


def bare_names(cells: Sequence[str]) -> list[str]:
    """Return ``cells`` without the numbers before names, where they count these: 1. Ana."""
    found = [_BEFORE_NAME.match(cell) for cell in cells]
    if not any(found) and all(bare := [_COUNTED_NAME.match(cell) for cell in cells]):
        found = bare
    counts = [int(one[1]) for one in found if one]
    if counts != [*range(1, len(counts) + 1)]:
        return [*cells]
    return [cell[one.end() :] if one else cell for one, cell in zip(found, cells, strict=True)]


def listed(cell: str) -> str:
    """Return the first cell of a line without the mark before it, its number as 1. is written."""
    cell = _BOLD.sub(r"\2", cell)
    bare = cell[found.end() :] if (found := _BULLET.match(cell)) else cell
    number = None if _LISTED_DATE.match(bare) else _ORDINAL.match(bare)
    if number is None:
        return bare
    count = f"{number['count']}." if number["count"] else f"{number['letter']})"
    return f"{count} {bare[number.end() :]}".strip()


def bare_sum(cell: str) -> str:
    """Return a cell without what counts the sum it begins with: a) 63-29 is 63-29."""
    count = _COUNT.match(cell)
    return cell[count.end() :] if count and WRITTEN.match(cell, count.end()) else cell
