"""Never half a kit, by hand: the whole program killed, crowded, out of room and locked out."""

import json
import os
import subprocess
import sys
import time
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from hashlib import sha256
from pathlib import Path

import pytest
from fuzz import sentence_faults

ROOT = Path(__file__).parents[2]
MENDED = "not one whole kit"
NOBODY = 65534

pytestmark = pytest.mark.timeout(1800)
# Seconds: a hundred starts of the program take minutes where other work runs beside them.

REQUESTS = (
    ("kit", "634-258", "--only", "pieces,mats,cards", "--png", "40"),
    (
        "kit",
        "71-48",
        "--children",
        "3",
        "--only",
        "pieces,cards",
        "--piles",
        "sheets",
        "--cutter",
        "svg",
    ),
)
"""Two kits that share some names of files and differ in others."""

Wait = Callable[[Path, subprocess.Popen[str]], None]
"""Waits until a run has come to a certain point in its folder."""

OTHERS = {"notes.txt": b"mine", ".notes.txt.1.part": b"too", "page-99x.png": b"mine, not a page"}

START = "import sys; sys.path.insert(0, {!r})\nfrom kitbuilder.__main__ import main\nmain()"


def start(request: int, folder: Path, code: str = "") -> subprocess.Popen[str]:
    """Start the program on a request into ``folder``, with ``code`` run before."""
    words = [*REQUESTS[request], "--out", str(folder)]
    return subprocess.Popen(
        [sys.executable, "-c", f"{code}\n{START.format(str(ROOT))}", *words],
        stdout=subprocess.DEVNULL,
        stderr=subprocess.PIPE,
        text=True,
    )


def ended(process: subprocess.Popen[str]) -> tuple[int, str]:
    _, said = process.communicate(timeout=120)
    return process.returncode, said


def there(folder: Path) -> dict[str, bytes]:
    return {str(p.relative_to(folder)): p.read_bytes() for p in folder.rglob("*") if p.is_file()}


@pytest.fixture(scope="module")
def kits(tmp_path_factory: pytest.TempPathFactory) -> tuple[dict[str, bytes], ...]:
    """Return the files of both requests, each made in a folder of its own."""
    made = []
    for request in (0, 1):
        folder = tmp_path_factory.mktemp("whole")
        assert ended(start(request, folder)) == (0, "")
        made.append(there(folder))
    assert made[0]["kit.pdf"] != made[1]["kit.pdf"]
    return tuple(made)


def old_kit(folder: Path, kit: Mapping[str, bytes]) -> None:
    folder.mkdir(exist_ok=True)
    for name, data in {**kit, **OTHERS}.items():
        (folder / name).write_bytes(data)


def check_whole(folder: Path, kits: tuple[dict[str, bytes], ...], others: bool = True) -> bool:
    """Check that each file is whole, and return whether ``kit.json`` agrees with all it names."""
    found = there(folder)
    if others:
        assert {name: found.pop(name) for name in OTHERS} == OTHERS
    for name, data in found.items():
        assert name.endswith(".kitbuilder") or data in [kit.get(name) for kit in kits], name
    if "kit.json" not in found:
        return not any(name for name in found if not name.endswith(".kitbuilder"))
    named = json.loads(found["kit.json"])["files"]
    marks = {name: sha256(data).hexdigest() for name, data in found.items()}
    return all(marks.get(name) == entry["sha256"] for name, entry in named.items())


def check_mended(
    request: int, folder: Path, kits: tuple[dict[str, bytes], ...], *, whole: bool
) -> None:
    """Run to the end, and check that nothing is left of before, and that only a ruin is told of."""
    status, said = ended(start(request, folder))
    assert status == 0, said
    assert sum(MENDED in line for line in said.splitlines()) == (not whole), said
    found = there(folder)
    assert {name: found.pop(name) for name in OTHERS if name in found} in ({}, OTHERS)
    assert found == kits[request]


def lasts(folder: Path, request: int) -> tuple[float, float, float]:
    """Return the seconds after which a run begins to write, begins to move, and has ended."""
    before, begun, moved = sha256((folder / "kit.pdf").read_bytes()).digest(), 0.0, 0.0
    process, at = start(request, folder), time.monotonic()
    while process.poll() is None:
        time.sleep(0.0005)
        gone = time.monotonic() - at
        begun = begun or (gone if any(folder.glob(".*.kitbuilder")) else 0.0)
        if begun and not moved and sha256((folder / "kit.pdf").read_bytes()).digest() != before:
            moved = gone
    assert ended(process)[0] == 0
    return begun, moved, time.monotonic() - at


def wait_for_writing(folder: Path, process: subprocess.Popen[str]) -> None:
    """Wait until the first file is being written in ``folder``."""
    kept = {path.name for path in folder.glob(".*.kitbuilder")}
    while process.poll() is None:
        time.sleep(0.0002)
        if {path.name for path in folder.glob(".*.kitbuilder")} - kept:
            return


def wait_for_moving(folder: Path, process: subprocess.Popen[str]) -> None:
    """Wait, without a pause, until the first file is moved to its place; it takes little longer."""
    place = folder / "kit.pdf"
    before = place.stat().st_ino if place.exists() else 0
    while process.poll() is None:
        if place.exists() and place.stat().st_ino != before:
            return


def test_killed_at_many_moments(tmp_path: Path, kits: tuple[dict[str, bytes], ...]) -> None:
    folder = tmp_path / "kit"
    old_kit(folder, kits[0])
    begun, moved, done = lasts(folder, 1)
    print(f"\nwrites after {begun:.2f} s, moves after {moved:.2f} s, ends after {done:.2f} s")
    moments: list[tuple[Wait, float]] = [(lambda *_: None, done * n / 20) for n in range(20)]
    moments += [(wait_for_writing, (moved - begun) * n / 16) for n in range(20)]
    moments += [(wait_for_moving, n * 0.00002) for n in range(24)]
    last, ruins, killed, remains = 1, 0, 0, 0
    for moment, (wait, delay) in enumerate(moments):
        process = start(1 - last, folder)
        wait(folder, process)
        if delay:
            time.sleep(delay)
        process.kill()
        killed += ended(process)[0] == -9
        last = 1 - last
        whole = check_whole(folder, kits)
        ruins += not whole
        remains += any(folder.glob(".*.kitbuilder"))
        if moment % 3:  # else the next kill falls on what this one left
            check_mended(last, folder, kits, whole=whole)
    check_mended(last, folder, kits, whole=check_whole(folder, kits))
    print(f"killed {killed} of {len(moments)} runs; {remains} left files beside their places,")
    print(f"{ruins} left a folder part old, part new: each was told and mended by the next run")
    assert killed > 48
    assert ruins


def test_killed_in_an_empty_folder(tmp_path: Path, kits: tuple[dict[str, bytes], ...]) -> None:
    ruins = 0
    for moment in range(24):
        folder = tmp_path / str(moment)
        folder.mkdir()
        process = start(0, folder)
        (wait_for_moving if moment % 2 else wait_for_writing)(folder, process)
        process.kill()
        ended(process)
        whole = check_whole(folder, kits, others=False)
        ruins += not whole
        check_mended(1, folder, kits, whole=whole)
    print(f"\n{ruins} of 24 left a kit without its record")


def test_several_runs_at_once(tmp_path: Path, kits: tuple[dict[str, bytes], ...]) -> None:
    folder = tmp_path / "kit"
    old_kit(folder, kits[0])
    refused = 0
    for turn in range(20):
        runs = [start((turn + n) % 2, folder) for n in range(3)]
        ends = [ended(process) for process in runs]
        assert check_whole(folder, kits)
        found = there(folder)
        assert {n: d for n, d in found.items() if n not in OTHERS} in kits
        assert 0 in [status for status, _ in ends]
        for status, said in ends:
            refused += status == 2
            assert status == 0 or (status == 2 and sentence_faults(said) == []), said
            assert status == 0 or "Another run is writing into" in said
            assert MENDED not in said
    print(f"\n{refused} of 60 runs found another writing, and said so")


@contextmanager
def disk(place: Path, options: str) -> Iterator[None]:
    """Mount a file system in memory on ``place``; for root alone."""
    place.mkdir(exist_ok=True)
    subprocess.run(["mount", "-t", "tmpfs", "-o", options, "none", place], check=True)
    try:
        yield
    finally:
        subprocess.run(["umount", place], check=True)


root = pytest.mark.skipif(os.geteuid() != 0, reason="only root may mount a disk of its own")


@root
def test_a_full_disk(tmp_path: Path, kits: tuple[dict[str, bytes], ...]) -> None:
    place, page = tmp_path / "disk", 4096
    sizes = [sum(-(-len(data) // page) for data in kit.values()) for kit in kits]
    tight = [f"size={(sizes[0] + len(OTHERS) + n * sizes[1] // 12) * page}" for n in range(1, 15)]
    few = [f"size=9m,nr_inodes={len(kits[0]) + len(OTHERS) + 4 + n}" for n in range(6)]
    ends = []
    for options in tight + few:
        with disk(place, options):
            old_kit(place, kits[0])
            status, said = ended(start(1, place))
            ends.append(status)
            kit = kits[1 if status == 0 else 0]  # nothing is moved until all is there
            assert there(place) == {**kit, **OTHERS}, options
            assert status == 0 or "no space left" in said
            assert status == 0 or sentence_faults(said) == []
    print(f"\n{ends.count(2)} of {len(ends)} disks were too small: the old kit stayed as it was")
    assert {*ends} == {0, 2}


def locked_out(
    folder: Path, kits: tuple[dict[str, bytes], ...], lock: Callable[[bool], bool], code: str = ""
) -> list[tuple[int, bool]]:
    """Lock ``folder`` at many moments of a run; return how each ended, and if it left a ruin."""
    found = []
    for moment in range(24):
        request = 1 - moment % 2
        process = start(request, folder, code)
        wait_for_writing(folder, process)
        time.sleep(moment * 0.002)
        while not lock(True) and process.poll() is None:
            pass  # a file is open for writing at this moment
        status, said = ended(process)
        lock(False)
        whole = check_whole(folder, kits)
        assert status == 0 or (status == 2 and sentence_faults(said) == []), said
        assert whole or "stopped half way" in said
        found.append((status, not whole))
        check_mended(request, folder, kits, whole=whole)
        subprocess.run(["chown", "-R", str(NOBODY), folder], check=True)
    return found


def told(found: list[tuple[int, bool]]) -> None:
    refused = sum(status == 2 for status, _ in found)
    ruins = sum(ruin for _, ruin in found)
    print(f"\n{refused} of {len(found)} runs were locked out, {ruins} of them half way")
    assert refused


@root
def test_a_disk_that_turns_read_only(tmp_path: Path, kits: tuple[dict[str, bytes], ...]) -> None:
    place = tmp_path / "disk"

    def lock(shut: bool) -> bool:
        words = ["mount", "-o", f"remount,{'ro' if shut else 'rw'}", str(place)]
        return subprocess.run(words, capture_output=True, check=False).returncode == 0

    with disk(place, "size=20m"):
        old_kit(place, kits[0])
        told(locked_out(place, kits, lock))


@root
def test_a_folder_that_turns_read_only(tmp_path: Path, kits: tuple[dict[str, bytes], ...]) -> None:
    """As another user, who may be kept out; a first run reads all of Python that is needed."""
    folder = tmp_path / "kit"
    old_kit(folder, kits[0])
    for path in (tmp_path, *tmp_path.parents[:3]):
        path.chmod(0o755)
    subprocess.run(["chown", "-R", str(NOBODY), folder], check=True)
    code = f"""
import os, sys, tempfile
sys.path.insert(0, {str(ROOT)!r})
import kitbuilder.__main__
from kitbuilder.cli import main
with tempfile.TemporaryDirectory() as place:
    try:
        main([*sys.argv[1:-1], place])
    except SystemExit as end:
        assert end.code == 0
os.setuid({NOBODY})
"""

    def lock(shut: bool) -> bool:
        folder.chmod(0o555 if shut else 0o755)
        return True

    told(locked_out(folder, kits, lock, code))


def test_the_check_finds_what_is_half(tmp_path: Path, kits: tuple[dict[str, bytes], ...]) -> None:
    old_kit(tmp_path, kits[0])
    assert check_whole(tmp_path, kits)
    (tmp_path / "kit.pdf").write_bytes(kits[1]["kit.pdf"])
    assert not check_whole(tmp_path, kits)
    for name, data in (("kit.pdf", kits[0]["kit.pdf"][:-1]), ("notes.txt", b""), ("x.pdf", b"")):
        old_kit(tmp_path, kits[0])
        (tmp_path / name).write_bytes(data)
        with pytest.raises(AssertionError):
            check_whole(tmp_path, kits)
