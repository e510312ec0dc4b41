"""Turns the code of one room into copies altered at one spot, and tells which the tests notice.

    pip install cosmic-ray coverage
    python tests/bench/mutants.py cover        # once: which test reaches which line
    python tests/bench/mutants.py sheet 7 2    # a room, a seed, the spots drawn in each module

Nothing is written but build/mutants/. Each altered copy is read in a process of its own, where the
tests that reach its line run, the samples first, then the quickest, until one fails or a minute's
worth has passed. ``sample`` is said where a sample noticed it.
"""

import json
import os
import random
import signal
import sys
from collections import defaultdict
from importlib.machinery import SourceFileLoader
from itertools import accumulate, chain
from pathlib import Path
from typing import ClassVar

import pytest
from cosmic_ray.ast import ast_nodes, get_ast
from cosmic_ray.mutating import mutate_code
from cosmic_ray.plugins import get_operator, operator_names
from coverage import Coverage

ROOT = Path(__file__).resolve().parents[2]
KEPT = ROOT / "build" / "mutants"
MOST, LIMIT = 60, 150  # seconds of tests that run for one copy, about, and when they are stopped
# Tests that start programs, or that read code as text. The samples count: somebody has looked at
# their pages, and what differs from them is to be looked at before it is kept.
LEFT_OUT = ("machines", "never_half", "wheel", "fuzz", "house")
SAMPLES = "tests/test_samples.py::"
KINDS = """Add_Sub Sub_Add Mul_Add Mul_FloorDiv _Div_Mul FloorDiv_Mul Mod_FloorDiv USub_UAdd Lt_LtE
    LtE_Lt Gt_GtE GtE_Gt Eq_NotEq NotEq_Eq Lt_Gt Gt_Lt LtE_GtE GtE_LtE Is_IsNot IsNot_Is AddNot
    NumberReplacer Delete_Not TrueWithFalse FalseWithTrue AndWithOr OrWithAnd BreakWithContinue
    ContinueWithBreak ZeroIterationForLoop"""


class Watch:
    """Notes the lines each test reaches, and its seconds."""

    coverage = Coverage(str(KEPT / "cover"), source=["kitbuilder"], config_file=False)
    seconds: ClassVar = defaultdict[str, float](float)

    def pytest_runtest_logstart(self, nodeid: str) -> None:
        self.coverage.switch_context(nodeid)

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        self.seconds[report.nodeid] += report.duration


def run(tests: list[str], *plugins: object) -> int:
    left_out = [f"--ignore=tests/test_{name}.py" for name in LEFT_OUT]
    return pytest.main(["-xqoaddopts=", "-pno:cacheprovider", *left_out, *tests], plugins)


def cover() -> None:
    KEPT.mkdir(parents=True, exist_ok=True)
    with Watch.coverage.collect():
        if run(["tests"], Watch()):
            sys.exit("The tests must pass before the code is altered.")
    Watch.coverage.save()
    (KEPT / "seconds.json").write_text(json.dumps(Watch.seconds))


def drawn(path: Path, rng: random.Random, each: int) -> list[tuple[str, int, int]]:
    """Spots of one module to alter: the kind, which of that kind, its line."""
    spots, text = [], path.read_text()
    nodes, lines = list(ast_nodes(get_ast(text))), text.splitlines()
    for kind in (name for name in operator_names() if name.endswith(tuple(KINDS.split()))):
        places = chain(*(get_operator(kind)().mutation_positions(node) for node in nodes))
        spots += [(kind, i, start[0]) for i, (start, _) in enumerate(places)]
    passed_by = ("@", "import", "from", "raise")
    spots = [spot for spot in spots if not lines[spot[2] - 1].strip().startswith(passed_by)]
    return rng.sample(spots, min(each, len(spots)))


def _is_python(code: str) -> bool:
    try:
        compile(code, "", "exec")
    except SyntaxError:
        return False
    return True


def noticed(path: Path, code: str, tests: list[str]) -> int | None:
    """What pytest said in a process of its own; None when it took too long."""
    if not (child := os.fork()):
        os.setsid()
        signal.alarm(LIMIT)
        for stream in (1, 2):
            os.dup2(os.open(os.devnull, os.O_WRONLY), stream)
        read, own = SourceFileLoader.get_code, compile(code, path, "exec")
        SourceFileLoader.get_code = lambda loader, name: (  # type: ignore
            own if loader.path == str(path) else read(loader, name)  # type: ignore
        )
        os._exit(run(tests))
    status = os.waitpid(child, 0)[1]
    return None if os.WIFSIGNALED(status) else os.WEXITSTATUS(status)


def verdict(path: Path, code: str, reach: set[str], seconds: dict[str, float]) -> str:
    tests = sorted(reach, key=lambda test: (seconds[test], test))
    samples = [test for test in tests if test.startswith(SAMPLES)]
    tests = [test for test in tests if test not in samples]
    most = max(3, sum(so_far <= MOST for so_far in accumulate(seconds[t] for t in tests)))
    for name, some in (("sample", samples), ("noticed", tests[:most])):
        said = noticed(path, code, some) if some else 0
        if said not in (None, 0, 1):  # the names of tests have changed: run the files they stand in
            said = noticed(path, code, sorted({test.split("::")[0] for test in some}))
        if said != 0:
            return "too long" if said is None else name
    return "NOT NOTICED"


def main(room: str, seed: int, each: int) -> None:
    seconds, rng = json.loads((KEPT / "seconds.json").read_text()), random.Random(seed)
    Watch.coverage.load()
    for path in sorted((ROOT / "kitbuilder" / room).glob("*.py")):
        text, lines = path.read_text(), Watch.coverage.get_data().contexts_by_lineno(str(path))
        for kind, which, line in drawn(path, rng, each):
            code = mutate_code(text, get_operator(kind)(), which) or text
            if not _is_python(code):  # such as "+" for the star of a signature
                continue
            reach = {*lines.get(line, [])} - {""} or {*chain(*lines.values())} - {""}
            pairs = zip(text.splitlines(), code.splitlines(), strict=False)
            now = next((new.strip() for old, new in pairs if old != new), "")
            print(f"{verdict(path, code, reach, seconds)}\t{path.name}:{line}\t{now}", flush=True)


if __name__ == "__main__":
    os.chdir(ROOT)
    sys.path[:0] = [str(ROOT), str(ROOT / "tests")]
    cover() if sys.argv[1] == "cover" else main(sys.argv[1], int(sys.argv[2]), int(sys.argv[3]))
