"""What people call the columns of their tables."""

import re
from collections.abc import Iterable, Iterator

SURNAMES = (
    *("surname", "last name", "family name", "apellido", "apellidos"),
    *("primer apellido", "segundo apellido", "1er apellido", "1.er apellido", "2º apellido"),
    *("2.º apellido", "apellido 1", "apellido 2"),
)
"""Heads of columns that stand beside a first name, in small letters."""

HEADS = {
    "names": "name",
    "sums": "sum",
    "answers": "answer",
    "nombre": "name",
    "first name": "name",
    "forename": "name",
    "given name": "name",
    "pupil": "name",
    "child": "name",
    "student": "name",
    "alumno": "name",
    "alumna": "name",
    "estudiante": "name",
    "alumnado": "name",
    "learner": "name",
    "pupils": "name",
    "children": "name",
    "students": "name",
    "alumnos": "name",
    "niños": "name",
    "player": "name",
    "resta": "sum",
    "problem": "sum",
    "question": "sum",
    "cuenta": "sum",
    "calculation": "sum",
    "exercise": "sum",
    "ejercicio": "sum",
    "cálculo": "sum",
    "operación": "sum",
    "operacion": "sum",
    "response": "answer",
    "reply": "answer",
    "respuesta": "answer",
    "result": "answer",
    "resultado": "answer",
    "full name": "name",
    "your name": "name",
    "your full name": "name",
    "pupil name": "name",
    "student name": "name",
    "child name": "name",
    "nombre del alumno": "name",
    "what is your name": "name",
    "name and surname": "name",
    "nombre completo": "name",
    "nombre y apellido": "name",
    "nombre y apellidos": "name",
    "apellidos y nombre": "name",
    "apellidos, nombre": "name",
    "last, first": "name",
    "last name, first name": "name",
    "surname, first name": "name",
    "cómo te llamas": "name",
    "code": "name",
    "código": "name",
    "etapa": "stage",
}
"""Heads that people write for a column, in small letters, and the column."""


_OF_ANSWERS = re.compile(
    r"(?:(?:the )?(?:child|pupil|student|learner)(?:['’]?s['’]?)?|their|her|his|my|your|given"
    r"|written) (?:answer|response)s?|(?:answer|response)s? (?:given|written)"
    r"|(?:su )?respuesta(?:s)?(?: (?:dada|escrita|del? (?:l[ao]s? )?(?:alumn|niñ)[ao]s?))?"
)
# A head of what children wrote, in small letters.

_OTHERS = {
    *("class", "school", "group", "team", "teacher", "form", "quiz", "file", "user", "parent"),
    *("colegio", "centro", "grupo", "clase", "profesor", "profesora", "usuario", "archivo"),
}
# Whose name a head may ask for besides the child's, in small letters.


def head(cell: str) -> str:
    """Return the column that a head names, in small letters."""
    said = cell.strip().lower()
    bare = said.partition(" (")[0].strip("¿?: ")  # Pupil name (first and last)
    if bare == "name" or HEADS.get(bare) == "name":
        return "name"
    return "answer" if _OF_ANSWERS.fullmatch(bare) else HEADS.get(said.strip("¿?: "), said)


def of_name(cell: str) -> bool:
    """Say whether a head is that of names, in whichever words, or of surnames."""
    words = {*re.findall(r"[^\W\d_]+", cell.lower())}
    asked = not words.isdisjoint({"name", "nombre"}) and words.isdisjoint(_OTHERS)
    return head(cell) == "name" or of_surname(cell) or asked


def of_surname(cell: str) -> bool:
    """Say whether a head is that of surnames."""
    return cell.strip().lower() in SURNAMES


def of_code(cell: str) -> bool:
    """Say whether a head is that of codes, by which children are called where no name stands."""
    return cell.strip().lower() in ("code", "código")


def full_names(rows: Iterable[tuple[int, list[str]]]) -> Iterator[tuple[int, list[str]]]:
    """Yield numbered ``rows``, first name and surnames in one cell where the first row has both."""
    first, last = -1, list[int]()
    for at, (number, cells) in enumerate(rows):
        if not at:
            heads = [one.lower() for one in cells]
            if {"first", "last"} <= {*heads}:
                first, last = heads.index("first"), [heads.index("last")]
            else:
                last = [k for k, one in enumerate(heads) if one in SURNAMES]
                first = next((k for k, one in enumerate(heads) if head(one) == "name"), -1)
        if first < 0 or not last:
            yield number, cells
            continue
        whole = [*cells, *[""] * (max(first, *last) + 1 - len(cells))]
        parts = filter(None, [whole[first], *(whole[k] for k in last)])
        whole[first] = " ".join(parts) if at else "name"
        yield number, [cell for k, cell in enumerate(whole) if k not in last]
