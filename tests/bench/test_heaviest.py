"""The heaviest requests that are allowed, whole and from the command line, in time and memory.

Run by hand: ``pytest -n 0 -s tests/bench/test_heaviest.py``. A minute on two cores and 300 MB is
what ``output/most_at_once.py`` promises.
"""

import random
import subprocess
import sys
import time
from pathlib import Path

import pytest

PEAK = """
import atexit
from pathlib import Path
from kitbuilder.__main__ import main
def told():
    status = Path('/proc/self/status').read_text()
    Path('peak').write_text(status.partition('VmHWM:')[2].split()[0])
atexit.register(told)
main()
"""
"""Runs the program and leaves the most memory it took, in kB, in a file called peak."""

HEAVY = {
    # A pack of one sum for each of as many pupils as a table may name.
    "pupils": ("cards", "--pupils", "many.csv"),
    # A file of its own for each pupil; the most is about 999 pages.
    "each": ("cards", "--pupils", "each.csv", "--each"),
    # As many sums as a kit may hold, on cards of two kinds with backs.
    "sums": ("cards", "--sums", "sums.txt", "--backs", "long-edge", "--kinds", "tasks,stories"),
    # A school's kits, every copy of every page in a pile set by set; the most is 100,000 pages.
    "pile": ("kit", "--sums", "sums.txt", "--children", "150", "--layers", "5", "--piles", "sets"),
}


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("desk")
    rows = [f"Child {n},{300 + n % 600}-11" for n in range(4000)]
    (folder / "many.csv").write_text("\n".join(["name,sum", *rows]))
    (folder / "each.csv").write_text("\n".join(["name,sum", *rows[:450]]))
    chance = random.Random(1)
    wholes = [chance.randint(200, 999) for _ in range(2000)]
    sums = [f"{whole}-{chance.randint(101, whole - 1)}" for whole in wholes]
    (folder / "sums.txt").write_text("\n".join(sums))
    return folder


@pytest.mark.parametrize("name", HEAVY)
def test_the_heaviest_that_is_allowed_ends_in_a_minute(name: str, desk: Path) -> None:
    start = time.monotonic()
    command = [sys.executable, "-c", PEAK, *HEAVY[name], "--out", f"out-{name}"]
    done = subprocess.run(command, capture_output=True, text=True, cwd=desk, check=False)
    seconds = time.monotonic() - start
    assert done.returncode == 0, done.stderr[-300:]
    megabytes = int((desk / "peak").read_text()) / 1024
    print(f"\n{name}: {seconds:.1f} s, {megabytes:.0f} MB")
    assert seconds < 60
    assert megabytes < 300
