"""The codes that the program says, read from its source, and what is wrong with their sentences."""

import ast
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from kitbuilder.design import saying

PACKAGE = Path(saying.__file__).parents[1]
CALLS = ("Said", "RefusedError")
BESIDE = {"field", "row", "repair"}
"""What a refusal carries for a screen, beside the slots of its sentence."""


@dataclass(frozen=True, slots=True)
class Use:
    """A place in the source where a code is said, and the slots it is given."""

    place: str
    code: str
    slots: frozenset[str]


def uses(source: str, name: str) -> Iterator[Use]:
    """Yield every use of a code in ``source``; raise ``ValueError`` for one that cannot be read."""
    for node in ast.walk(ast.parse(source)):
        if not isinstance(node, ast.Call) or getattr(node.func, "id", "") not in CALLS:
            continue
        place = f"{name}:{node.lineno}"
        first = node.args[0] if node.args else None
        if not isinstance(first, ast.Constant) or not isinstance(first.value, str):
            raise ValueError(f"{place}: a code must stand there in quotes")
        slots = {keyword.arg for keyword in node.keywords}
        if None in slots:
            raise ValueError(f"{place}: slots must stand there by name")
        yield Use(place, first.value, frozenset(s for s in slots if s) - BESIDE)


@cache
def all_uses() -> tuple[Use, ...]:
    """Return every use of a code in the program."""
    return tuple(
        use
        for path in sorted(PACKAGE.rglob("*.py"))
        if path.name != "errors.py" or path.parent != PACKAGE
        for use in uses(path.read_text(), str(path.relative_to(PACKAGE)))
    ) + tuple(_of_errors())


def _of_errors() -> Iterator[Use]:
    """Yield the uses in errors.py, whose own records pass codes on."""
    tree = ast.parse((PACKAGE / "errors.py").read_text())
    for node in ast.walk(tree):
        called = isinstance(node, ast.Call) and ast.unparse(node.func)
        if called in ("Said", "super().__init__") and isinstance(node, ast.Call) and node.args:
            first = node.args[0]
            if isinstance(first, ast.Constant):
                slots = {k.arg for k in node.keywords if k.arg} - BESIDE
                yield Use(f"errors.py:{node.lineno}", str(first.value), frozenset(slots))


def slots_of(sentence: str) -> set[str]:
    """Return the names of the slots in ``sentence``."""
    return {name for name, _ in saying._SLOT.findall(sentence)}


def faults(known: Mapping[str, str], used: tuple[Use, ...], helpers: set[str]) -> list[str]:
    """Return what is wrong: a code without a sentence, a slot too few or too many, one unsaid.

    ``helpers`` are the codes that other sentences are made with: lists, counts and the point.
    """
    found = []
    for use in used:
        if use.code not in known:
            found.append(f"{use.place}: {use.code} has no sentence")
        elif slots_of(known[use.code]) != use.slots:
            due, has = sorted(use.slots), sorted(slots_of(known[use.code]))
            found.append(f"{use.place}: {use.code} is given {due} and its sentence has {has}")
    said = {use.code for use in used} | helpers
    return found + [f"{code} is never said" for code in known if code not in said]
