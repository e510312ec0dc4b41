"""The words files: every key that is said is there, and none is there unsaid."""

import ast
import re
from pathlib import Path

import pytest

from kitbuilder import designs, measure

PACKAGE = Path(designs.__file__).parent


def patterns() -> tuple[set[str], list[re.Pattern[str]]]:
    """Return the plain strings in the code, and patterns for the strings with slots."""
    plain: set[str] = set()
    slotted: list[re.Pattern[str]] = []
    for path in PACKAGE.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text())):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                plain.add(node.value)
            elif isinstance(node, ast.JoinedStr):
                parts = [
                    re.escape(str(v.value)) if isinstance(v, ast.Constant) else r"[a-z_0-9.-]+"
                    for v in node.values
                ]
                if re.match(r"[a-z_]+\\\.", parts[0]):
                    slotted.append(re.compile("".join(parts)))
    return plain, slotted


def said_keys() -> set[str]:
    """Return the keys that the code says by name."""
    said: set[str] = set()
    for path in PACKAGE.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text())):
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
    plain, slotted = patterns()
    unsaid = [
        key
        for key in entries
        if key not in plain
        and not any(pattern.fullmatch(key) for pattern in slotted)
        and key.rpartition(".")[0] not in plain  # the one and many forms of a count
    ]
    assert unsaid == []


@pytest.mark.parametrize("name", designs.names("words"))
def test_the_typeface_has_every_character(name: str) -> None:
    for key, entry in designs.words(name).entries.items():
        text = entry if isinstance(entry, str) else "".join(entry)
        assert measure.missing(text) == "", key
