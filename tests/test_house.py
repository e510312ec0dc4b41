"""The house: imports run one way along the road, and every printed word is in the words file."""

import ast
import re
from functools import lru_cache
from pathlib import Path

import pytest

from kitbuilder.design import load as designs

PACKAGE = Path(designs.__file__).parents[1]
ROAD = ("number", "kit", "layout", "draw", "output", "pipeline", "page", "cli")
BESIDE = {"counting", "design", "errors", "formats", "frozen", "press", "request"}
FOR_ALL = {"number", "kit"}
"""What rooms beside the road may import of it."""


@lru_cache(1024)  # each file is looked at by several tests, none of which changes it
def parsed(source: str) -> ast.Module:
    return ast.parse(source)


def room(path: Path) -> str:
    return path.relative_to(PACKAGE).parts[0].removesuffix(".py")


def steps_back(path: Path, source: str) -> list[str]:
    """Return the imports in ``source`` that run against the road."""
    here = room(path)
    found = []
    for node in ast.walk(parsed(source)):
        names = []
        if isinstance(node, ast.ImportFrom) and node.module:
            names = [node.module]
        elif isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        for name in names:
            parts = name.split(".")
            there = parts[1] if parts[0] == "kitbuilder" and len(parts) > 1 else ""
            if there not in ROAD or here not in (*ROAD, *BESIDE):
                continue
            onward = FOR_ALL if here in BESIDE else ROAD[: ROAD.index(here) + 1]
            if there not in onward:
                found.append(f"{here} imports {name}")
    return found


def test_imports_run_one_way() -> None:
    found = [
        step
        for path in sorted(PACKAGE.rglob("*.py"))
        for step in steps_back(path, path.read_text())
    ]
    assert found == []


@pytest.mark.parametrize("here", ["number", "request"])
def test_a_step_back_is_found(here: str) -> None:
    path = PACKAGE / here / "sums.py"
    assert steps_back(path, "from kitbuilder.layout.model import Rect") == [
        f"{here} imports kitbuilder.layout.model"
    ]


def test_every_module_stands_in_a_known_room() -> None:
    rooms = {room(path) for path in PACKAGE.rglob("*.py")}
    assert rooms - set(ROAD) - BESIDE == {"__init__", "__main__"}


def test_number_knows_no_paper_and_no_words() -> None:
    for path in sorted((PACKAGE / "number").rglob("*.py")):
        for node in ast.walk(parsed(path.read_text())):
            if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("kitbuilder"):
                assert (node.module or "").split(".")[1] in ("number", "frozen"), path.name


def test_no_folder_holds_too_much() -> None:
    for folder in {path.parent for path in PACKAGE.rglob("*.py")}:
        assert len(list(folder.glob("*.py"))) <= 16, folder.name


MOST_LINES, MOST_PARAMETERS = 40, 6

# What may pass the limits, with the reason.
LARGER = {
    "box": "how a rectangle is drawn, all by keyword",
    "text": "how a line of words is drawn, mostly by keyword",
}


def too_large(source: str) -> list[str]:
    """Return the functions in ``source`` that are too long, docstring apart, or take too much.

    A command of the command line takes a parameter for each of its options.
    """
    found = []
    for node in ast.walk(parsed(source)):
        if not isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            continue
        body = node.body[1:] if ast.get_docstring(node) and len(node.body) > 1 else node.body
        if (body[-1].end_lineno or 0) - body[0].lineno + 1 > MOST_LINES:
            found.append(f"{node.name} is long")
        given = [a.arg for a in (*node.args.posonlyargs, *node.args.args, *node.args.kwonlyargs)]
        is_command = any("click.command" in ast.unparse(one) for one in node.decorator_list)
        if len([name for name in given if name not in ("self", "cls")]) > MOST_PARAMETERS:
            found += [] if is_command or node.name in LARGER else [f"{node.name} takes much"]
    return found


@pytest.mark.parametrize("folder", [PACKAGE, Path(__file__).parent], ids=["product", "tests"])
def test_no_function_is_large(folder: Path) -> None:
    found = {
        str(path.relative_to(folder)): large
        for path in sorted(folder.rglob("*.py"))
        if (large := too_large(path.read_text()))
    }
    assert found == {}


def test_a_large_function_is_found() -> None:
    lines = "\n    x = 1" * MOST_LINES
    assert too_large(f'def f():\n    """{lines}"""{lines}') == []
    assert too_large(f"def f():{lines}\n    y = 1") == ["f is long"]
    assert too_large("def f(a, b, c, d, e, *, g): pass") == []
    assert too_large("def f(a, b, c, d, e, *, g, h): pass") == ["f takes much"]
    assert too_large("@click.command()\ndef f(a, b, c, d, e, f, g): pass") == []


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


FROM_OUTSIDE = {"compiled", "rehearse", "__all__"}
"""What the script that rehearses the packed page calls, and what Python reads."""


def unused(sources: dict[str, str]) -> list[str]:
    """Return the functions, classes and names in ``sources`` that are used nowhere in them."""
    defined, used = [], set()
    for source in sources.values():
        tree = parsed(source)
        for node in tree.body:
            if isinstance(node, ast.FunctionDef | ast.ClassDef) and not node.decorator_list:
                defined.append(node.name)
            elif isinstance(node, ast.Assign) and isinstance(node.targets[0], ast.Name):
                defined.append(node.targets[0].id)
        for part in ast.walk(tree):
            if isinstance(part, ast.Name) and isinstance(part.ctx, ast.Load):
                used.add(part.id)
            elif isinstance(part, ast.Attribute):
                used.add(part.attr)
            elif isinstance(part, ast.ImportFrom):
                used |= {alias.name for alias in part.names}
            elif isinstance(part, ast.Constant) and isinstance(part.value, str):
                used |= {*part.value.replace("[", " ").replace("|", " ").split()}
    return sorted({*defined} - used)


def test_nothing_is_there_for_the_tests_alone() -> None:
    sources = {str(path): path.read_text() for path in PACKAGE.rglob("*.py")}
    assert set(unused(sources)) - FROM_OUTSIDE == set()


def test_what_nothing_uses_is_found() -> None:
    assert unused({"a": "def f(): pass\nX = 1", "b": "from a import X"}) == ["f"]


FEW = {
    *("folder", "_shipped_look", "measures", "font_bytes", "_font", "_widths", "_wide_widths"),
    *("sentences", "screen_words", "face_rules"),
    *("kinds", "_sample", "_pairs", "groups_of_pairs", "_leftmost", "_written"),
}
"""What is kept without a bound: what is shipped, and what has few cases."""


def unbounded(source: str) -> list[str]:
    """Return the functions in ``source`` whose answers are all kept."""
    defined = (n for n in ast.walk(parsed(source)) if isinstance(n, ast.FunctionDef))
    return [n.name for n in defined if {"cache", "lru_cache(None)"} & {*_decorators(n)}]


def _decorators(function: ast.FunctionDef) -> list[str]:
    said = (ast.unparse(one) for one in function.decorator_list)
    return [one.removeprefix("functools.").replace("maxsize=", "") for one in said]


def test_what_is_kept_of_files_and_measures_is_bounded() -> None:
    found = [name for path in PACKAGE.rglob("*.py") for name in unbounded(path.read_text())]
    assert sorted(found) == sorted(FEW)


def test_what_is_kept_without_a_bound_is_found() -> None:
    for kept in ("cache", "functools.cache", "lru_cache(maxsize=None)"):
        assert unbounded(f"@{kept}\ndef f(look): pass") == ["f"]
    assert unbounded("@lru_cache(9)\ndef f(look): pass") == []


def test_the_contributors_guide_names_every_folder() -> None:
    told = (PACKAGE.parent / "DEVELOPERS.md").read_text("utf-8")
    tree = told.partition("    kitbuilder/\n")[2].partition("\n\n")[0]
    folders = {path.parent.name for path in PACKAGE.rglob("*.py")} - {"kitbuilder"}
    assert {name for name in folders if f"{name}/" not in tree} == set()


def imported(sources: dict[str, str]) -> dict[str, set[str]]:
    """Return which parts of the house import which: folders two deep, other modules singly."""

    def part(name: str) -> str:
        return ".".join(name.split(".")[:3])

    found: dict[str, set[str]] = {}
    for module, source in sources.items():
        for node in ast.walk(parsed(source)):
            if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("kitbuilder."):
                for name in (f"{node.module}.{alias.name}" for alias in node.names):
                    there = name if name in sources else name.rpartition(".")[0]
                    found.setdefault(part(module), set()).add(part(there))
    return {here: theirs - {here} for here, theirs in found.items()}


def circles(parts: dict[str, set[str]]) -> set[str]:
    """Return the parts that import themselves by way of others."""
    left = dict(parts)
    while done := {one for one, theirs in left.items() if not theirs & left.keys()}:
        left = {one: theirs for one, theirs in left.items() if one not in done}
    while idle := {one for one in left if not any(one in theirs for theirs in left.values())}:
        left = {one: theirs for one, theirs in left.items() if one not in idle}
    return set(left)


def test_no_parts_import_each_other() -> None:
    sources = {
        ".".join(path.relative_to(PACKAGE.parent).with_suffix("").parts): path.read_text()
        for path in PACKAGE.rglob("*.py")
    }
    parts = imported({name.removesuffix(".__init__"): source for name, source in sources.items()})
    # A refusal tells its own sentence, from the designs, which refuse what they cannot read.
    parts["kitbuilder.errors"].discard("kitbuilder.design.saying")
    assert circles(parts) == set()


def test_a_circle_of_parts_is_found() -> None:
    sources = {
        "kitbuilder.a.x.one": "from kitbuilder.a.y.two import f",
        "kitbuilder.a.y.three": "from kitbuilder.a.x import one",
        "kitbuilder.b": "from kitbuilder.a.x.one import f",
    }
    assert circles(imported(sources)) == {"kitbuilder.a.x", "kitbuilder.a.y"}


def test_every_path_in_the_contributors_guide_exists() -> None:
    guide = (PACKAGE.parent / "DEVELOPERS.md").read_text("utf-8")
    table = guide.partition("| to change |")[2].partition("\n\n")[0]
    named = re.findall(
        r"`((?:designs|kitbuilder|cli|page|layout|draw|kit|number|request|formats|output)"
        r"/[\w./]*)`",
        table,
    )
    assert len(named) > 15
    roots = (PACKAGE, PACKAGE.parent)
    assert [one for one in named if not any((root / one).exists() for root in roots)] == []
    bare = re.findall(r"`(\w+\.(?:py|js))`", table)
    assert bare
    assert [name for name in bare if not any(PACKAGE.rglob(name))] == []


TWICE = {
    **dict.fromkeys(("Asked", "Task"), "of the course, and of one page or card"),
    **dict.fromkeys(("Column", "Mat", "Step"), "what is meant, and how it lies on paper"),
    **dict.fromkeys(("Grid", "Line", "Panel"), "of packing and cutting, and of what is drawn"),
    "Words": "a language, and one run of it drawn",
}
"""Names that two classes bear, with the reason."""


def named_twice(names: list[str]) -> set[str]:
    return {name for name in names if names.count(name) > 1}


def test_no_name_of_a_module_or_class_means_two_things() -> None:
    paths = [path for path in PACKAGE.rglob("*.py") if path.stem != "__init__"]
    trees = [parsed(path.read_text()) for path in paths]
    classes = [n.name for t in trees for n in t.body if isinstance(n, ast.ClassDef)]
    assert named_twice([path.stem for path in paths]) == set()
    assert {name for name in named_twice(classes) if name[0] != "_"} == {*TWICE}
    assert named_twice(["Pile", "Line", "Pile"]) == {"Pile"}
