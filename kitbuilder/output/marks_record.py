"""The readings of children's answers as a record for machines: ``marks.json``."""

import json
from collections.abc import Mapping, Sequence
from typing import Any

from kitbuilder import __version__
from kitbuilder.kit.class_marks import ChildMarks, ClassMarks
from kitbuilder.number.sums import PLACES, Sum

SCHEMA_VERSION = 1


def marks_record(marks: ClassMarks, files: Mapping[str, str]) -> str:
    """Return the record of a class; ``files`` has the SHA-256 of each other file by name.

    Children stand in the order of their table, by name, or by code where that was wished.
    ``evidence`` are the answers that speak for the verdict, each with the line of the table.
    ``right`` is null for a child who tried nothing.
    """
    told: dict[str, Any] = {
        "schema_version": SCHEMA_VERSION,
        "kitbuilder_version": __version__,
        "pupils": [_child(child, marks.coded) for child in marks.children],
        "together": [
            {"key": group.key, "pupils": [_who(marks.children[at], marks) for at in group.children]}
            for group in marks.groups.together
        ],
        "files": {name: {"sha256": mark} for name, mark in files.items()},
    }
    return json.dumps(told, ensure_ascii=False, indent=2) + "\n"


def _who(child: ChildMarks, marks: ClassMarks) -> str:
    return child.code if marks.coded else child.name


def _child(child: ChildMarks, coded: bool) -> dict[str, Any]:
    reading = child.reading
    return {
        **({"code": child.code} if coded else {"name": child.name}),
        "verdict": reading.verdict.value,
        "habits": [
            {
                "key": likely.key,
                "probability": round(likely.probability, 4),
                "column": None if likely.place is None else PLACES[likely.place],
            }
            for likely in reading.habits
        ],
        "right": reading.right if reading.reads else None,
        "answered": len(reading.reads),
        "untried": _sums([cell.sum for cell in child.given if cell.answer is None]),
        "evidence": [
            {
                "row": child.given[row].line,
                "sum": _sum(child.given[row].sum),
                "answer": child.given[row].answer,
            }
            for row in reading.evidence
        ],
        "next": _sums(child.next.telling),
        "practice": _sums(child.next.practice),
    }


def _sum(sum_: Sum) -> str:
    return sum_.typed


def _sums(sums: Sequence[Sum]) -> list[str]:
    return [_sum(sum_) for sum_ in sums]
