"""The same bytes elsewhere: on other Pythons, and where there is nothing but Python.

Run by hand: PYTHONS="python3.12 python3.13" pytest -n 0 -s tests/bench/test_elsewhere_whole.py
"""

import os
import shutil
import subprocess
import sys
import sysconfig
import zipfile
from importlib.metadata import distribution
from pathlib import Path

import pytest
from hatchling.builders.wheel import WheelBuilder

ROOT = Path(__file__).parents[2]
PACKAGES = ("click", "platformdirs", "pydyf", "svgwrite", "fontpkg_abeezee", "fontTools")
NOT_OURS = ("cairo", "pango", "fontconfig", "freetype", "libpng", "pixman", "glib")
SAMPLES = ROOT / "output_samples"
KINDS = (
    ("kit",),
    ("kit", "604-167", "431-256", "--words", "es", "--paper", "letter", "--look", "bold"),
    ("kit", "--children", "30", "--share", "2", "--layers", "3", "634-258", "71-48"),
    ("kit", "--mini", "604-167", "--words", "en-US"),
    ("cards", "634-258", "71-48", "--kinds", "exchange,tasks,facts,arrows,digits,record",
     "--stage", "both", "--backs", "short-edge"),
    ("kit", "634-258", "--cutter", "svg,0.2", "--look", "outline", "--only", "pieces,mats"),
    ("kit", "--plan", str(SAMPLES / "weeks" / "plan.csv"), "--paper", "a5"),
    ("cards", "--pupils", str(SAMPLES / "pupils" / "class.csv")),
)  # fmt: skip

LOADED = """
import atexit, sys
from pathlib import Path
sys.path.insert(0, "/site")
def told():
    maps = Path("/proc/self/maps").read_text() if Path("/proc/self/maps").exists() else ""
    Path("/loaded").write_text(maps)
atexit.register(told)
from kitbuilder.__main__ import main
main()
"""
"""Runs the program and leaves what was mapped into its memory."""


def built(python: str, folder: Path, *words: str) -> dict[str, bytes]:
    """Return the files that ``python`` builds with our packages, which are all pure Python."""
    path = f"{ROOT}{os.pathsep}{sysconfig.get_paths()['purelib']}"
    command = (python, "-m", "kitbuilder", *words, "--out", str(folder))
    subprocess.run(command, check=True, capture_output=True, env={"PYTHONPATH": path})
    return {file.name: file.read_bytes() for file in folder.iterdir()}


@pytest.mark.parametrize("words", KINDS, ids=" ".join)
def test_every_python_makes_the_same_bytes(words: tuple[str, ...], tmp_path: Path) -> None:
    others = os.environ.get("PYTHONS", "python3.12 python3.13").split()
    usual = built(sys.executable, tmp_path / "usual", *words)
    assert others
    for other in others:
        version = subprocess.run([other, "-V"], capture_output=True, text=True, check=True).stdout
        assert built(other, tmp_path / Path(other).name, *words) == usual, version
        print(f"\n{version.strip()}: {len(usual)} files alike", end="")


def _libraries(*files: Path) -> set[Path]:
    """Return the system's libraries that ``files`` are linked to, by ldd."""
    told = subprocess.run(["ldd", *files], capture_output=True, text=True, check=True).stdout
    words = {word for line in told.splitlines() for word in line.split() if word.startswith("/")}
    return {Path(word) for word in words if ".so" in word and not word.endswith(":")}


def bare_root(folder: Path) -> Path:
    """Make a root that holds Python, what it is linked to, and the wheel unpacked; return Python.

    Left out is what Python draws windows or keeps databases with.
    """
    python = Path(os.path.realpath(sys.executable))
    library = Path(sysconfig.get_paths(vars={"base": sys.base_prefix})["stdlib"])
    left_out = shutil.ignore_patterns("test", "site-packages", "tkinter", "idlelib", "_tkinter*",
                                      "_curses*", "readline*", "_sqlite*", "_test*", "nis*",
                                      "_dbm*", "_gdbm*")  # fmt: skip
    shutil.copytree(library, folder / library.relative_to("/"), ignore=left_out)
    inside = folder / library.relative_to("/") / "lib-dynload"
    for file in (python, *_libraries(python, *inside.glob("*.so"))):
        place = folder / file.relative_to("/")
        place.parent.mkdir(parents=True, exist_ok=True)
        shutil.copy(os.path.realpath(file), place)
    wheel = next(WheelBuilder(str(ROOT)).build(directory=str(folder), versions=["standard"]))
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(folder / "site")
    for name in PACKAGES:
        found = Path(str(distribution(name).locate_file(name)))
        shutil.copytree(found, folder / "site" / name)
    (folder / "run.py").write_text(LOADED)
    (folder / "proc").mkdir()
    return python


@pytest.mark.skipif(os.getuid() != 0, reason="another root needs root")
def test_with_nothing_but_python_the_wheel_makes_the_same_kit(tmp_path: Path) -> None:
    root = tmp_path / "root"
    python = bare_root(root)
    there = {p.name for p in root.rglob("*.so*")}
    assert not [name for name in there if any(part in name for part in NOT_OURS)]
    subprocess.run(["mount", "-t", "proc", "proc", root / "proc"], check=True)
    try:
        command = ("chroot", root, python, "/run.py", "kit", "--out", "/made")
        subprocess.run(command, check=True, capture_output=True, env={"PATH": "/usr/sbin:/usr/bin"})
    finally:
        subprocess.run(["umount", root / "proc"], check=True)
    mapped = {line.split()[-1] for line in (root / "loaded").read_text().splitlines()}
    loaded = sorted(name for name in mapped if ".so" in name)
    assert loaded
    print("\n" + "\n".join(loaded))
    usual = built(sys.executable, tmp_path / "usual", "kit")
    assert {file.name: file.read_bytes() for file in (root / "made").iterdir()} == usual
