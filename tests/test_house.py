"""The house: imports run one way along the road, and every printed word is in the words file."""

import ast
from pathlib import Path

import pytest

from kitbuilder import designs

PACKAGE = Path(designs.__file__).parent
ROOMS = ("number", "kit", "sheet", "draw", "bind", "road", "cli")
BESIDE = {
    "bounds",
    "calibration",
    "counting",
    "designs",
    "errors",
    "looks",
    "measure",
    "plan_file",
    "printers",
    "printing",
    "pupils",
    "request",
    "request_file",
    "textfile",
    "words_check",
}


def room(path: Path) -> str:
    return path.relative_to(PACKAGE).parts[0].removesuffix(".py")


def steps_back(path: Path, source: str) -> list[str]:
    """Return the imports in ``source`` that run against the road."""
    here = room(path)
    found = []
    for node in ast.walk(ast.parse(source)):
        names = []
        if isinstance(node, ast.ImportFrom) and node.module:
            names = [node.module]
        elif isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        for name in names:
            parts = name.split(".")
            if parts[0] != "kitbuilder" or len(parts) < 2 or here not in ROOMS:
                continue
            there = parts[1]
            if there in ROOMS and ROOMS.index(there) > ROOMS.index(here):
                found.append(f"{here} imports {name}")
    return found


def test_imports_run_one_way() -> None:
    found = [
        step
        for path in sorted(PACKAGE.rglob("*.py"))
        for step in steps_back(path, path.read_text())
    ]
    assert found == []


def test_a_step_back_is_found() -> None:
    path = PACKAGE / "number" / "sums.py"
    assert steps_back(path, "from kitbuilder.sheet.records import Rect") == [
        "number imports kitbuilder.sheet.records"
    ]


def test_every_module_stands_in_a_known_room() -> None:
    rooms = {room(path) for path in PACKAGE.rglob("*.py")}
    assert rooms - set(ROOMS) - BESIDE == {"__init__", "__main__"}


def test_number_knows_no_paper_and_no_words() -> None:
    for path in sorted((PACKAGE / "number").glob("*.py")):
        for node in ast.walk(ast.parse(path.read_text())):
            if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("kitbuilder"):
                assert (node.module or "").split(".")[1] == "number", path.name


def test_every_module_says_what_it_turns_into_what() -> None:
    for path in sorted(PACKAGE.rglob("*.py")):
        said = ast.get_docstring(ast.parse(path.read_text())) or ""
        assert said.startswith("Turns "), path


# Common practice: such sayings make children turn digits round. English, then Spanish.
CONFUSING = (
    "can't take",
    "can’t take",
    "cannot take",
    "from the larger",
    "borrow",
    "no se puede quitar",
    "no se puede restar",
    "no puedes quitar",
    "del mayor",
    "prestad",  # pedir prestado, prestada
    "me llevo",
)


def confusing(text: str) -> list[str]:
    return [saying for saying in CONFUSING if saying in text.lower()]


@pytest.mark.parametrize("name", designs.names("words"))
def test_words_never_say_what_confuses(name: str) -> None:
    entries = designs.words(name).entries.values()
    assert confusing(" ".join(e if isinstance(e, str) else " ".join(e) for e in entries)) == []


@pytest.mark.parametrize("said", ["You cannot take 8.", "Pide una decena prestada.", "Me llevo 1."])
def test_what_confuses_is_found(said: str) -> None:
    assert confusing(said)
