"""What people call the columns of their tables."""

HEADS = {
    "names": "name",
    "sums": "sum",
    "answers": "answer",
    "nombre": "name",
    "pupil": "name",
    "child": "name",
    "student": "name",
    "alumno": "name",
    "estudiante": "name",
    "resta": "sum",
    "problem": "sum",
    "question": "sum",
    "cuenta": "sum",
    "respuesta": "answer",
    "code": "name",
    "código": "name",
    "etapa": "stage",
}
"""Heads that people write for a column, in small letters, and the column."""


def head(cell: str) -> str:
    """Return the column that a head names, in small letters."""
    said = cell.strip().lower()
    return HEADS.get(said, said)
