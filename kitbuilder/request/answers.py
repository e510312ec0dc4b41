"""Children's answers read from a table: pasted, CSV, or from a spreadsheet."""

import csv
import io
import re
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace

from kitbuilder.errors import RefusedError, Said, Where, named
from kitbuilder.formats.heads import full_names, head
from kitbuilder.kit.class_marks import Cell
from kitbuilder.number.scale import Scale
from kitbuilder.number.sums import LARGEST, Sum
from kitbuilder.request.answer_cells import BLANK, ChildAnswers, Told
from kitbuilder.request.pupils import checked_name
from kitbuilder.request.request import read_sum

LARGEST_ANSWERS = 2_000_000
"""Bytes a table of answers may have."""

MOST_ANSWERS = 40_000
"""Answers a table may have: forty classes of fifty, twenty sums each."""

MOST_OF_ONE = 200
"""Answers one child may have."""

COLUMNS = ("name", "sum", "answer")
"""Heads of the columns, in any order."""

NO_CHILD = {
    *("total", "subtotal", "score", "marks", "point", "%", "percent", "percentage"),
    *("average", "mean"),
    *("median", "mode", "maximum", "minimum", "out", "class", "group", "grade", "date", "note"),
    *("comment", "feedback", "remark", "correct", "right", "wrong", "incorrect", "mistake"),
    "error",
    *("answer", "ans", "key", "solution", "absent", "absence", "expected", "should", "pupils"),
    *("children", "students", "nota", "punto", "puntuación", "puntaje", "porcentaje"),
    *("promedio", "media", "mediana", "moda", "avg", "range", "count", "recuento", "sd"),
    *("facility", "level", "digits", "target", "teacher", "tried", "debe", "debería", "curso"),
    *("profe", "maestra", "máx", "mín", "calificación", "calif", "av", "ave"),
    *("grupo", "fecha", "comentario", "observaciones", "acierto", "fallo", "bien", "mal"),
    *("correcta", "correcto", "incorrecta", "respuesta", "solución", "soluciones", "clave"),
    *("nivel", "ausentes", "alumnos", "estudiantes", "niños"),
}
"""What teachers write beside names, sums and answers, in small letters: no child is called so.

They may stand in the plural."""

JOINING = {
    *("sum", "be", "not", "real", "ser", "of", "the", "number", "no", "how", "many"),
    *("available", "#", "suma", "de", "possible", "la", "las", "los", "número", "nº"),
    *("cuántas", "cuántos", "got", "it", "resultado"),
}
"""Words beside those, as in Number of marks."""

_OUT_OF = re.compile(r"(?:/|\b(?:out of|of|de|sobre))\s*\d+$")
_MARKS = ("\t", ";", ",")
_SPACES = str.maketrans(dict.fromkeys("\xa0\u2009\u202f", " "))


def read_answers(
    text: str, where: Where, notes: list[Said] | None = None, point: str = "."
) -> tuple[ChildAnswers, ...]:
    """Return the children in a table of answers, in the order they first appear.

    Either each line is one answer, under the heads name, sum and answer in any order; or the
    first line holds the sums and each further line a name and the answers, or the answers alone.
    Cells are parted by tabs, semicolons or commas. An answer may be left blank. A sum that a child
    tried twice counts once, with the last answer; a name that may be two children's is refused.
    ``notes`` gets what was read otherwise than it stands; ``point`` stands after the ones. Raises
    ``RefusedError`` naming the lines; ``where`` names the file in it.
    """
    rows = full_names(_rows(text, where))
    line, first = next(rows, (0, []))
    if not first:
        raise RefusedError("answers.empty", where=where, field="answers")
    heads = [head(cell) for cell in first]
    told = Told(point)
    if by_line := set(heads) >= set(COLUMNS):
        cells = _long(rows, heads, told, where)
    else:
        first, wide = with_names((line, first), rows, told, where)
        cells = _wide(wide, first, line, told, where)
    found = _by_child(cells, where)
    if told.refused:
        raise told.refusal(where)
    if not any(found.values()):
        raise RefusedError("answers.none", where=where, field="answers")
    told.untried += [name for name, given in found.items() if not given]
    read = [ChildAnswers(name, _last(name, given, told)) for name, given in found.items()]
    _check_names(found, told)
    sums_line = None if by_line else line
    _check_kinds(read, sums_line, where)
    _check_scales(read, told, sums_line)
    if told.refused:
        raise told.refusal(where)
    papers = on_one_scale(read)
    if notes is not None:
        notes += told.notes(papers)
    return papers


def no_child(cell: str) -> bool:
    """Say whether a cell names what stands beside answers, as Total, Sum of marks or Out of 6."""
    words = {
        word.replace(".", "").strip(":()")
        for word in _OUT_OF.sub(" out", cell.lower()).replace("/", " ").split()
    }
    known = {word for word in words if {word, *map(word.removesuffix, ("s", "es"))} & NO_CHILD}
    return bool(known) and words - known <= JOINING


def beside(head: str) -> bool:
    """Say whether a column is left out where names stand in the first: no child is called there."""
    return no_child(head) or head.lower() == "mark"


def _by_child(cells: Iterable[tuple[str, Cell | None]], where: Where) -> dict[str, list[Cell]]:
    """Return the cells of each child, as far as a table may have so many; none is of one away."""
    found: dict[str, list[Cell]] = {}
    for count, (name, given) in enumerate(cells, 1):
        if count > MOST_ANSWERS:
            raise RefusedError("answers.too-many", where=where, most=MOST_ANSWERS, field="answers")
        held = found.setdefault(name, [])
        held += [given] if given else []
        if len(held) > MOST_OF_ONE:
            many = RefusedError("answers.too-many-of-one", name=name, most=MOST_OF_ONE)
            raise many.at(where, held[-1].line, field="answers")
    return found


def _last(name: str, given: Sequence[Cell], told: Told) -> tuple[Cell, ...]:
    """Return one cell a sum, in the order first met: the last that was answered."""
    found: dict[Sum, Cell] = {}
    for cell in given:
        before = found.get(cell.sum)
        if before is not None and before.answer is not None and cell.answer is not None:
            told.twice.append(f"{name} {cell.sum}")
        if before is None or cell.answer is not None:
            found[cell.sum] = cell
    return tuple(found.values())


def _check_names(found: Mapping[str, Sequence[Cell]], told: Told) -> None:
    """Refuse a name that may be two children's: its sums stand again, or one child was away.

    Where sums of most children stand again, they tried twice.
    """
    for name, line in told.away.items():
        if found[name]:
            told.refused.append((line, RefusedError("answers.also-away", name=name)))
    again = {name: given for name, given in found.items() if _stands_again(given)}
    for name, given in again.items() if 2 * len(again) <= len(found) else ():
        first = dict[Sum, Cell]()
        for cell in given:
            if (before := first.setdefault(cell.sum, cell)) is not cell:
                line, sum_ = before.line, cell.sum
                refused = RefusedError("answers.same-sums", name=name, sum=sum_, line=line)
                told.refused.append((cell.line, refused))


def _stands_again(given: Iterable[Cell]) -> bool:
    """Say whether several sums, or all that there are, stand more than once."""
    counts = Counter(cell.sum for cell in given).values()
    again = sum(count > 1 for count in counts)
    return again > 1 or 0 < len(counts) == again


def _check_kinds(papers: Sequence[ChildAnswers], head: int | None, where: Where) -> None:
    """Refuse whole numbers among decimals: answers are read, and sums come next, of one kind.

    It names the sums of the fewer rows, and the child in each; or those in the row ``head``.
    """
    kinds: dict[bool, list[str]] = {True: [], False: []}
    for paper in papers:
        for cell in paper.cells:
            row = str(cell.sum) if head else f"{paper.name} {cell.sum}"
            kinds[cell.sum.scale.decimals > 0].append(row)
    few = min(kinds, key=lambda decimals: len(kinds[decimals]))
    if given := [*dict.fromkeys(kinds[few])]:
        rows = named(given)
        if few:
            raise RefusedError("answers.few-decimals", rows=rows, field="answers").at(where, head)
        raise RefusedError("answers.few-wholes", rows=rows, field="answers").at(where, head)


def _check_scales(papers: Sequence[ChildAnswers], told: Told, head: int | None) -> None:
    """Refuse decimals too large beside thousandths: in their rows, or all in the row ``head``."""
    cells = [cell for paper in papers for cell in paper.cells]
    most = decimals_of(papers)
    if most:
        told.refused += [
            (head or cell.line, RefusedError("answers.beside-thousandths", sum=cell.sum))
            for cell in cells
            if cell.sum.whole * 10 ** (most - cell.sum.scale.decimals) > LARGEST
        ]


def decimals_of(papers: Iterable[ChildAnswers]) -> int:
    """Return the most decimals that a sum of ``papers`` has, two at least if any has some."""
    return max((cell.sum.scale.decimals for paper in papers for cell in paper.cells), default=0)


def on_one_scale(
    papers: Iterable[ChildAnswers], written: Scale | None = None
) -> tuple[ChildAnswers, ...]:
    """Return ``papers`` with all numbers on one scale, if any has decimals: as ``written``."""
    papers = tuple(papers)
    most = decimals_of(papers)
    if not most:
        return papers
    written = written or Scale(most)
    bare = replace(written, full=False)  # 355 for 3.55 stays 355, as the child wrote it

    def cell_on(cell: Cell) -> Cell:
        times = 10 ** (written.decimals - cell.sum.scale.decimals)
        answer = None if cell.answer is None else bare.number(int(cell.answer) * times)
        return replace(cell, sum=cell.sum.on(written), answer=answer)

    return tuple(replace(one, cells=tuple(map(cell_on, one.cells))) for one in papers)


Row = tuple[int, list[str]]


def _rows(text: str, where: Where) -> Iterator[Row]:
    """Yield the rows that are not empty, each with the number of its first line."""
    lines = text.splitlines()
    start = next((k for k, line in enumerate(lines) if line.strip()), 0)
    mark = ","
    if start < len(lines) and (told := re.fullmatch(r"sep=(.)", lines[start].strip())):
        mark, start = told[1], start + 1  # as a spreadsheet writes it
    elif start < len(lines):
        mark = next((m for m in _MARKS if m in lines[start]), ",")
    body = "\n".join(lines[start:])
    reader = csv.reader(io.StringIO(body, newline=""), delimiter=mark, strict=True)
    line = start + 1
    while True:
        try:
            row = next(reader, None)
        except csv.Error:
            raise RefusedError("table.no-row").at(where, line, field="answers") from None
        if row is None:
            return
        cells = [cell.translate(_SPACES).strip() for cell in row]
        if any(cells):
            yield line, cells
        line = start + reader.line_num + 1


def _long(
    rows: Iterator[Row], heads: Sequence[str], told: Told, where: Where
) -> Iterator[tuple[str, Cell | None]]:
    called = [head for head in heads if head]
    if len(set(called)) < len(called):
        raise RefusedError("answers.twice", where=where, field="answers")
    told.beside += [head for head in called if head not in COLUMNS]
    at = {name: heads.index(name) for name in COLUMNS}
    for line, row in rows:
        try:
            cells = [*row, *[""] * (len(heads) - len(row))]
            if len(cells) > len(heads):
                raise RefusedError("answers.cells", count=len(row), columns=len(heads))
            name, typed, answer = (cells[at[column]] for column in COLUMNS)
            name = checked_name(name)
            if no_child(name):
                told.beside.append(name)
                continue
            if {typed.lower(), answer.lower()} <= {*BLANK} and any(map(str.isalpha, name)):
                told.away[name] = line
                yield name, None
                continue
            if not typed:
                raise RefusedError("pupil.no-sum")
            sum_ = _sum(typed, told.point)
            if len(row) <= at["answer"]:
                told.untried.append(f"{name} {sum_}")
            yield name, Cell(sum_, told.answer(answer, sum_), line)
        except RefusedError as error:
            told.refused.append((line, error))


def with_names(
    first: Row, rows: Iterable[Row], told: Told, where: Where
) -> tuple[list[str], Iterable[Row]]:
    """Return the sums of a ``first`` line and the ``rows`` below, each with a cell for the name.

    Where sums alone stand in the line, rows either have a name before their answers, or none has:
    then children are called by the number of their row. Raises ``RefusedError`` where it is in
    doubt which.
    """
    (line, heads), sums = first, _trimmed(first[1])
    others = [cell for cell in sums[1:] if not beside(cell)]
    if not (sums and all(_is_sum(cell, told.point) for cell in (sums[0], *others))):
        return heads, rows
    read = [(number, _trimmed(row)) for number, row in rows]
    if not read:
        return heads, read
    counts = {len(cells) for _, cells in read}
    most, digits = max(counts), [bool(re.search(r"\d", cells[0])) for _, cells in read]
    answers = (has or row[0].lower() in BLANK for has, (_, row) in zip(digits, read, strict=True))
    if most <= len(sums) and all(answers):
        told.numbered = True
        return ["", *sums], [(number, [str(number - line), *cells]) for number, cells in read]
    if most > len(sums) + 1 or (any(digits) and counts != {len(sums) + 1}):
        raise RefusedError("answers.unnamed", where=where, field="answers")
    return ["", *sums], read


def _wide(
    rows: Iterable[Row], heads: Sequence[str], line: int, told: Told, where: Where
) -> Iterator[tuple[str, Cell]]:
    given = _trimmed(heads)
    if not any(re.search(r"\d", cell) for cell in given[1:]):
        raise RefusedError("answers.heads", where=where, given=", ".join(heads), field="answers")
    columns = [k for k in range(1, len(given)) if not beside(given[k])]
    told.beside += [given[k] for k in range(1, len(given)) if k not in columns]
    try:
        sums = [(k, _sum(given[k], told.point)) for k in columns]
    except RefusedError as error:
        if not _headed(given, told.point):
            raise RefusedError("answers.no-heads", where=where, field="answers") from None
        raise error.at(where, line, field="answers") from None
    seen: dict[str, int] = {}
    for number, row in rows:
        cells = _trimmed(row)
        try:
            if len(cells) > len(given):
                raise RefusedError("answers.cells", count=len(cells), columns=len(given))
            name = checked_name(cells[0] if cells else "")
            if no_child(name):
                told.beside.append(name)
                continue
            if name in seen:
                raise RefusedError("answers.same-name", name=name, line=seen[name])
        except RefusedError as error:
            told.refused.append((number, error))
            continue
        seen[name] = number
        told.untried += [name] if len(cells) == 1 else []
        for k, sum_ in sums:
            try:
                answer = told.answer(cells[k] if k < len(cells) else "", sum_)
                yield name, Cell(sum_, answer, number)
            except RefusedError as error:
                told.refused.append((number, error))


def _headed(cells: Sequence[str], point: str) -> bool:
    """Say whether a first line has sums, and no answer among them: an answer is a bare number."""
    if not cells[0] or head(cells[0]) in COLUMNS:
        return True
    sums, answers = 0, 0
    for cell in cells[1:]:
        answers += cell.strip().isdigit()
        sums += _is_sum(cell, point)
    return sums > 0 and not answers


def _is_sum(cell: str, point: str) -> bool:
    try:
        return bool(_sum(cell, point))
    except RefusedError:
        return False


def _trimmed(cells: Sequence[str]) -> list[str]:
    kept = list(cells)
    while kept and not kept[-1]:
        kept.pop()
    return kept


def _sum(typed: str, point: str) -> Sum:
    """Return a sum as it stands in a table: a spreadsheet may keep a sign before it, or = after."""
    sum_ = read_sum(typed.removeprefix("'").removeprefix("=").rstrip("= "), point)
    if not sum_.whole:
        raise RefusedError("sum.nothing-to-build", sum=sum_)
    return sum_
