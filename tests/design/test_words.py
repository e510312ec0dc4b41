"""The words files: every key that is said is there, and none is there unsaid."""

import ast
import re
from collections.abc import Iterable
from functools import cache
from pathlib import Path

import pytest

from kitbuilder.design import load as designs
from kitbuilder.design import metrics
from kitbuilder.number import PLACES

PACKAGE = Path(designs.__file__).parents[1]


@cache
def code() -> list[ast.AST]:
    """Return every node of the code that may say something."""
    kinds = (ast.Constant, ast.JoinedStr, ast.Call)
    trees = (ast.parse(path.read_text("utf-8")) for path in PACKAGE.rglob("*.py"))
    return [node for tree in trees for node in ast.walk(tree) if isinstance(node, kinds)]


@cache
def patterns() -> tuple[set[str], list[re.Pattern[str]]]:
    """Return the plain strings in the code, and patterns for the strings with slots.

    What ``PLACES`` fills is one of its names; other slots are groups, which hold no dot.
    """
    plain: set[str] = set()
    slotted: list[re.Pattern[str]] = []
    for node in code():
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            plain.add(node.value)
        elif isinstance(node, ast.JoinedStr):
            parts = [_pattern(v) for v in node.values]
            if re.match(r"[a-z_]+\\\.", parts[0]):
                slotted.append(re.compile("".join(parts)))
    return plain, slotted


def _pattern(part: ast.expr) -> str:
    if isinstance(part, ast.Constant):
        return re.escape(str(part.value))
    if isinstance(part, ast.FormattedValue) and ast.unparse(part.value).startswith("PLACES["):
        return f"(?:{'|'.join(PLACES)})"
    return r"([A-Za-z_0-9-]+)"


@cache
def is_said(key: str) -> bool:
    """Say whether code may say ``key``: by name, or by a string whose slots hold its words."""
    plain, slotted = patterns()
    if key in plain:
        return True
    found = (pattern.fullmatch(key) for pattern in slotted)
    return any(match and plain.issuperset(match.groups()) for match in found)


def unsaid(keys: Iterable[str]) -> list[str]:
    """Return those of ``keys`` that no code says, whole or as the one and many of a count."""
    counted = re.compile(r"\.(one|many)$")
    before = re.compile(r"^(decimal|tenth|thousandth)\.")  # said in place of the key behind it
    keys = [before.sub("", key) for key in keys]
    return [key for key in keys if not (is_said(key) or is_said(counted.sub("", key)))]


@cache
def said_keys() -> set[str]:
    """Return the keys that the code says by name."""
    said: set[str] = set()
    for node in code():
        if not isinstance(node, ast.Call) or not node.args:
            continue
        name = ast.unparse(node.func)
        first = node.args[0]
        if name in ("words", "words.lines") and isinstance(first, ast.Constant):
            said.add(str(first.value))
    return said


@pytest.mark.parametrize("name", designs.names("words"))
def test_every_key_said_is_there_and_every_key_there_is_said(name: str) -> None:
    entries = designs.words(name).entries
    assert said_keys() - set(entries) == set()
    assert unsaid(entries) == []


@pytest.mark.parametrize(
    "key",
    ["count.pieces.one", "count.sheets.many", "place.tene", "script.nowhere", "mat.two.rest_x"],
)
def test_a_key_that_is_never_said_is_found(key: str) -> None:
    """They look like keys that are: only what the slots can hold tells them apart."""
    assert unsaid([key, "count.ones.many", "place.tens", "script.build"]) == [key]


@pytest.mark.parametrize("name", designs.names("words"))
def test_the_typeface_has_every_character(name: str) -> None:
    for key, entry in designs.words(name).entries.items():
        text = entry if isinstance(entry, str) else "".join(entry)
        assert metrics.missing(text) == "", key
