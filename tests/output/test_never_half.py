"""Never half a kit: killed, failing, locked out or stopped, each file is whole, old or new."""

import errno
import json
import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator, Mapping
from hashlib import sha256
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from faults import DONE, REFUSED, at_touch, fail, full_after, in_child, kill, touches

from kitbuilder.cli import main
from kitbuilder.errors import STOPPED, RefusedError
from kitbuilder.output.store.folder import Written, write
from kitbuilder.output.store.lock import locked

BULK = b"x" * 5000
"""Longer than what a failing disk takes below, so that a file is cut off within."""

OLD = {"kit.pdf": b"old" + BULK, "page-01.png": b"old 1", "page-02.png": b"old 2"}
OLD |= {"page-03.png": b"old 3", "each/pupil-0001.pdf": b"old pupil", "pages.png": b"old all"}
NEW = {"kit.pdf": b"new" + BULK, "page-01.png": b"new 1", "page-02.png": b"new 2"}
LAST = {"kit.pdf": b"last" + BULK, "page-01.png": b"last 1"}
OTHERS = {"notes.txt": b"mine", ".notes.txt.1.part": b"mine too", "each/list.txt": b"also mine"}


def record(files: Mapping[str, str]) -> str:
    return json.dumps({"files": {name: {"sha256": mark} for name, mark in files.items()}})


@pytest.fixture(autouse=True)
def unsynced(monkeypatch: pytest.MonkeyPatch) -> None:
    """Do not wait for the disk: processes are ended here, never the power."""
    monkeypatch.setattr(os, "fsync", lambda handle: None)


def put(folder: Path, files: dict[str, bytes]) -> Written:
    return write(folder, files.items(), ("kit.json", record))


def written(files: dict[str, bytes]) -> dict[str, bytes]:
    """Return ``files`` with the record that goes with them."""
    text = record({name: sha256(data).hexdigest() for name, data in files.items()})
    return {**files, "kit.json": text.encode()}


def there(folder: Path) -> dict[str, bytes]:
    paths = (path for path in folder.rglob("*") if path.is_file())
    return {str(path.relative_to(folder)): path.read_bytes() for path in paths}


def old_kit(place: Path) -> Path:
    """Return a folder with an old kit, a page of it that someone changed, and other files."""
    folder = place / "kit"
    put(folder, OLD)
    for name, data in OTHERS.items():
        (folder / name).write_bytes(data)
    (folder / "pages.png").write_bytes(b"changed")
    return folder


def check_whole(folder: Path) -> None:
    """Check that each file is whole, old or new, and that what is not ours is as it was."""
    found = there(folder)
    for name, data in {**OTHERS, "pages.png": b"changed"}.items():
        assert found.pop(name) == data, name
    for name, data in found.items():
        if not name.endswith(".kitbuilder"):
            assert data in (written(OLD).get(name), written(NEW).get(name)), name
    for name in NEW:
        assert name in found  # it was there before, so it is there at any moment


FINAL = {**written(LAST), **OTHERS, "pages.png": b"changed"}
"""What the folder holds once a whole run of ``LAST`` came after it, whatever befell before."""


def test_a_kit_after_another_leaves_nothing_of_it(tmp_path: Path) -> None:
    folder = old_kit(tmp_path)
    done = put(folder, NEW)
    assert there(folder) == {**written(NEW), **OTHERS, "pages.png": b"changed"}
    assert [path.name for path in done.removed] == ["page-03.png", "pupil-0001.pdf"]
    assert [path.name for path in done.kept] == ["pages.png"]
    assert not done.mended


def test_a_folder_below_that_holds_nothing_else_goes_with_its_files(tmp_path: Path) -> None:
    put(tmp_path, OLD)
    put(tmp_path, NEW)
    assert not (tmp_path / "each").exists()


def struck(folder: Path, strike: Callable[[], None], moment: int, lasting: bool = False) -> int:
    """Put the new kit into ``folder``, strike at a file operation, and say how it ended."""

    def call() -> None:
        at_touch(moment, strike, lasting)
        put(folder, NEW)

    return in_child(call)


def moments(tmp_path: Path) -> range:
    """Return the file operations of putting the new kit over the old one."""
    folder = old_kit(tmp_path / "counted")
    number = touches(lambda: put(folder, NEW))
    assert number > 4 * 2 + 2 + 1  # 3 files and a record made and moved, 2 removed, one lock
    return range(number)


def test_killed_at_every_moment(tmp_path: Path) -> None:
    mended = []
    for moment in moments(tmp_path):
        folder = old_kit(tmp_path / str(moment))
        assert struck(folder, kill, moment) == -signal.SIGKILL
        check_whole(folder)
        mended.append(put(folder, LAST).mended)
        assert there(folder) == FINAL, moment
    # In part new once kit.pdf is moved and until the record is: after each of 3 moves and of
    # the 2 removals (and of the folder that the second empties no more), before each next step.
    assert sum(mended) >= 5
    first = mended.index(True)
    assert not any(mended[:first]), "nothing is said while the old kit is still whole"


@pytest.mark.parametrize(("number", "lasting"), [(errno.ENOSPC, False), (errno.EROFS, True)])
def test_a_disk_that_fails_at_every_moment(tmp_path: Path, number: int, lasting: bool) -> None:
    for moment in moments(tmp_path)[:: 2 if lasting else 1]:  # what lasts strikes the next too
        folder = old_kit(tmp_path / str(moment))
        assert struck(folder, fail(number), moment, lasting) in (DONE, REFUSED), moment
        check_whole(folder)
        put(folder, LAST)
        assert there(folder) == FINAL, moment


@pytest.mark.parametrize("killed", [False, True])
@pytest.mark.parametrize("size", [0, 1, 4096, 5002])
def test_a_disk_that_fills_within_a_file(tmp_path: Path, size: int, killed: bool) -> None:
    folder = old_kit(tmp_path)

    def call() -> None:
        full_after(size, killed)
        put(folder, NEW)

    assert in_child(call) == (-signal.SIGXFSZ if killed else REFUSED)
    assert {n: d for n, d in there(folder).items() if not n.endswith(".kitbuilder")} == {
        **written(OLD),
        **OTHERS,
        "pages.png": b"changed",
    }
    assert killed == any(name.endswith(".kitbuilder") for name in there(folder))
    put(folder, LAST)
    assert there(folder) == FINAL


def test_a_writer_that_writes_in_place_is_caught(tmp_path: Path) -> None:
    folder = old_kit(tmp_path)

    def call() -> None:
        full_after(1000, killed=True)
        (folder / "kit.pdf").write_bytes(NEW["kit.pdf"])

    in_child(call)
    with pytest.raises(AssertionError):
        check_whole(folder)


def test_a_refusal_on_the_way_leaves_no_new_folder(tmp_path: Path) -> None:
    def files() -> Iterator[tuple[str, bytes]]:
        yield "kit.pdf", b"new"
        yield "each/pupil-0001.pdf", b"new"
        raise RefusedError("no")

    with pytest.raises(RefusedError):
        write(tmp_path / "a" / "b", files())
    assert list(tmp_path.iterdir()) == []


def test_a_run_stopped_between_moves_says_so_and_the_next_mends_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder, real, moved = old_kit(tmp_path), Path.replace, list[Path]()

    def replace(self: Path, target: Path) -> Path:
        if len(moved) == 2:
            raise PermissionError(errno.EACCES, "Permission denied")
        moved.append(target)
        return real(self, target)

    monkeypatch.setattr(Path, "replace", replace)
    with pytest.raises(RefusedError, match=r"stopped half way \(permission denied\).*run it again"):
        put(folder, NEW)
    monkeypatch.undo()
    check_whole(folder)
    done = put(folder, LAST)
    assert done.mended
    assert there(folder) == FINAL
    # page-02.png is of the run that stopped; nobody changed it, so it goes.
    assert "page-02.png" in [path.name for path in done.removed]


def test_one_run_at_a_time(tmp_path: Path) -> None:
    put(tmp_path, OLD)
    with locked(tmp_path):
        with pytest.raises(RefusedError, match="Another run is writing into"):
            put(tmp_path, NEW)
        assert there(tmp_path) == written(OLD)
    put(tmp_path, NEW)
    assert there(tmp_path) == written(NEW)


def test_a_lock_ends_with_the_process_that_held_it(tmp_path: Path) -> None:
    def hold() -> None:
        with locked(tmp_path):
            kill()

    assert in_child(hold) == -signal.SIGKILL
    put(tmp_path, NEW)
    assert there(tmp_path) == written(NEW)


def test_a_file_system_without_locks_is_used_without(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def none(*args: object) -> None:
        raise OSError(errno.ENOLCK, "No locks available")

    monkeypatch.setattr("fcntl.flock", none)
    put(tmp_path, NEW)
    assert there(tmp_path) == written(NEW)


HASH = "0" * 64


@pytest.mark.parametrize(
    "text",
    [
        "",
        "[]",
        "{}",
        '{"files": []}',
        '{"files": {"kit.pdf": 1}}',
        "[" * 100_000,
        f'{{"files": {{"../mine.pdf": {{"sha256": "{HASH}"}}}}}}',
    ],
)
def test_a_record_of_another_make_is_not_replaced(tmp_path: Path, text: str) -> None:
    (tmp_path / "kit.json").write_text(text)
    with pytest.raises(RefusedError, match=r"kit\.json is there already, .* another folder"):
        put(tmp_path, NEW)
    assert there(tmp_path) == {"kit.json": text.encode()}


@pytest.mark.parametrize("name", ["kit.pdf", "page-02.png"])
def test_a_file_that_no_run_made_is_not_replaced(tmp_path: Path, name: str) -> None:
    (tmp_path / name).write_bytes(b"mine")
    with pytest.raises(RefusedError, match=f"{name} is there already, .* move it away"):
        put(tmp_path, NEW)
    assert there(tmp_path) == {name: b"mine"}
    (tmp_path / name).unlink()
    put(tmp_path, LAST)
    (tmp_path / "page-02.png").write_bytes(b"mine")  # not among the last run's
    with pytest.raises(RefusedError, match="page-02"):
        put(tmp_path, NEW)
    assert there(tmp_path) == {**written(LAST), "page-02.png": b"mine"}


@pytest.mark.parametrize("name", ["../mine.pdf", "/mine.pdf", "notes.txt", "each/../mine.pdf"])
def test_a_record_cannot_have_other_files_removed(tmp_path: Path, name: str) -> None:
    folder = tmp_path / "kit"
    put(folder, {name: b"mine"} if name == "notes.txt" else NEW)
    for path in (tmp_path / "mine.pdf", folder / "notes.txt", folder / "mine.pdf"):
        path.write_bytes(b"mine")
    (folder / "kit.json").write_bytes(written({**NEW, name: b"mine"})["kit.json"])
    (folder / "each").mkdir()
    done = put(folder, NEW)
    assert not (done.removed or done.kept)
    assert (tmp_path / "mine.pdf").exists()
    assert {"notes.txt", "mine.pdf"} < there(folder).keys()


@pytest.mark.parametrize("what", ["folder", "pipe"])
def test_what_is_not_a_file_is_not_replaced(tmp_path: Path, what: str) -> None:
    place = tmp_path / "kit.json"
    if what == "folder":
        place.mkdir()
    else:
        os.mkfifo(place)
    with pytest.raises(RefusedError, match=r"kit\.json is not a file"):
        put(tmp_path, NEW)
    assert list(tmp_path.iterdir()) == [place]


def test_links_are_followed_to_a_folder_and_replaced_as_files(tmp_path: Path) -> None:
    real, link, target = tmp_path / "real", tmp_path / "link", tmp_path / "target.pdf"
    real.mkdir()
    link.symlink_to(real)
    target.write_bytes(NEW["kit.pdf"])
    put(link, NEW)
    (real / "kit.pdf").unlink()
    (real / "kit.pdf").symlink_to(target)
    put(link, LAST | {"page-02.png": b"last 2"})
    assert there(real)["kit.pdf"] == LAST["kit.pdf"]
    assert not (real / "kit.pdf").is_symlink()
    assert target.read_bytes() == NEW["kit.pdf"]


def run(*args: str) -> Result:
    return CliRunner().invoke(main, args)


CARDS = ("kit", "71-48", "--only", "cards")


def test_what_was_found_is_said_in_a_sentence_each(tmp_path: Path) -> None:
    out = ("--out", str(tmp_path))
    assert run(*CARDS, "--png", "20", *out).stderr == ""
    assert run(*CARDS, "--png", "20", *out).stderr == ""
    (tmp_path / "kit.pdf").unlink()
    (tmp_path / "page-02.png").write_bytes(b"changed")
    mended, removed, kept = run(*CARDS, *out).stderr.splitlines()
    assert "not one whole kit" in mended
    assert all(f"page-0{n}.png" in removed for n in (1, 3, 4))
    assert "page-02.png" in kept
    assert sorted(path.name for path in tmp_path.iterdir()) == [
        "kit.json",
        "kit.pdf",
        "page-02.png",
    ]
    assert run(*CARDS, *out).stderr == ""


@pytest.mark.parametrize("name", ["kit.pdf", "page-02.png"])
def test_work_on_a_file_is_never_lost(name: str, tmp_path: Path) -> None:
    args = (*CARDS, "--png", "20", "--out", str(tmp_path))
    assert run(*args).exit_code == 0
    before = there(tmp_path)
    (tmp_path / name).write_bytes(before[name] + b"% notes in the margin")
    refused = run(*args)
    assert (refused.exit_code, refused.stderr.count("\n")) == (2, 1)
    assert name in refused.stderr
    assert there(tmp_path) == {**before, name: before[name] + b"% notes in the margin"}
    (tmp_path / name).unlink()
    assert run(*args).exit_code == 0
    assert there(tmp_path) == before


def test_a_link_to_nothing_is_no_free_place(tmp_path: Path) -> None:
    (tmp_path / "kit.pdf").symlink_to("nowhere")
    assert run(*CARDS, "--out", str(tmp_path)).exit_code == 2
    assert (tmp_path / "kit.pdf").readlink() == Path("nowhere")


def test_names_are_their_owners_and_rights_are_kept(tmp_path: Path) -> None:
    table, out = tmp_path / "class.csv", tmp_path / "out"
    table.write_text("name,sum\nAda,71-48\n")
    before = os.umask(0o022)
    try:
        packs = ("cards", "--pupils", str(table), "--each", "--out", str(out))
        assert run(*packs).exit_code == 0
        assert {rights(p) for p in out.rglob("*.*")} == {0o600}
        (out / "cards.pdf").chmod(0o640)
        assert run(*packs).exit_code == 0
        assert rights(out / "cards.pdf") == 0o640
        assert run(*CARDS, "--out", str(tmp_path / "kit")).exit_code == 0
        assert rights(tmp_path / "kit" / "kit.pdf") == 0o644
    finally:
        os.umask(before)


def rights(path: Path) -> int:
    return path.stat().st_mode & 0o777


def test_packs_of_another_list_are_not_left_lying(tmp_path: Path) -> None:
    table, out = tmp_path / "class.csv", tmp_path / "out"
    for names in (["Ada", "Bo", "Cy"], ["Dee"]):
        table.write_text("name,sum\n" + "".join(f"{name},71-48\n" for name in names))
        assert run("cards", "--pupils", str(table), "--each", "--out", str(out)).exit_code == 0
    assert [path.name for path in (out / "each").iterdir()] == ["pupil-0001.pdf"]


@pytest.mark.parametrize("out", ["file", "file/below", "/dev/null", "x" * 256])
def test_what_cannot_be_a_folder_is_refused(
    out: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "file").write_text("mine")
    result = run(*CARDS, "--out", out)
    assert (result.exit_code, result.stderr.count("\n")) == (2, 1)
    assert "cannot be written" in result.stderr
    assert [path.name for path in tmp_path.iterdir()] == ["file"]


def test_single_files_are_written_so_too(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    for args in (["check-print", "--out"], ["plan", "--start", "2027-01-11", "--csv"]):
        assert run(*args, "/dev/null").exit_code == 2  # not replaced by a file
        assert run(*args, "new/below/x").exit_code == 0
        assert run(*args, "new").exit_code == 2
        assert [path.name for path in tmp_path.rglob("*")] == ["new", "below", "x"]
        Path("new/below/x").unlink()
    for args in (["check-print", "--out"], ["plan", "--start", "2027-01-11", "--csv"]):
        assert [run(*args, "own").exit_code for _ in range(2)] == [0, 0]  # the same again
        made = Path("own").read_bytes()
        for changed in (b"mine", made + b"\n", b"a text on kitbuilder, week,day,sum\n"):
            Path("own").write_bytes(changed)
            refused = run(*args, "own")
            assert (refused.exit_code, refused.stderr.count("\n")) == (2, 1)
            assert Path("own").read_bytes() == changed
        Path("own").unlink()
        Path("own").symlink_to("nowhere")
        assert run(*args, "own").exit_code == 2
        assert Path("own").is_symlink()
        assert not Path("nowhere").exists()
        Path("own").unlink()
    assert not Path("/dev/null").is_file()


def listening() -> None:
    """Take in a child the signals that whoever started the tests may have set to be ignored."""
    for number in (signal.SIGINT, signal.SIGTERM, signal.SIGHUP):
        signal.signal(number, signal.SIG_DFL)


HOOKS = {
    "while it starts": "sys.meta_path.insert(0, type('', (), {'find_spec': lambda *_: ready()}))",
    "while it works": "import kitbuilder.pipeline as road; road.held = lambda request: ready()",
    "in a call from a library": "import kitbuilder.pipeline as road\n"
    "class Late:\n    def __del__(self): ready()\n"
    "road.held = lambda request: Late() and None",
}
"""Makes the program wait for Ctrl-C at a certain moment."""


@pytest.mark.parametrize(
    ("moment", "sent"),
    [
        *((moment, signal.SIGINT) for moment in HOOKS),
        ("while it starts", signal.SIGHUP),  # one handler for these two
        ("in a call from a library", signal.SIGTERM),
    ],
)
def test_stopping_is_said_in_one_line(tmp_path: Path, moment: str, sent: signal.Signals) -> None:
    begun = tmp_path / "begun"
    code = (
        "import os, sys, time\n"  # a text file's opening passes by what stops it meanwhile
        f"def ready():\n    os.close(os.open({str(begun)!r}, os.O_CREAT))\n"
        "    while True: time.sleep(0.05)\n"  # a long sleep passes by what comes just before it
        f"from kitbuilder.__main__ import main\n{HOOKS[moment]}\nmain()\n"
    )
    args = [sys.executable, "-c", code, *CARDS, "--out", str(tmp_path / "kit")]
    passing = tmp_path / "passing"
    passing.mkdir()
    process = subprocess.Popen(
        args,
        stderr=subprocess.PIPE,
        text=True,
        env={**os.environ, "TMPDIR": str(passing)},
        preexec_fn=listening,
    )
    try:
        while not begun.exists():
            assert process.poll() is None
            time.sleep(0.01)
        process.send_signal(sent)
        _, said = process.communicate(timeout=30)
    finally:
        process.kill()
        process.wait()
    assert process.returncode == 128 + sent
    assert said.strip() == STOPPED
    assert not (tmp_path / "kit").exists()
    assert not list(passing.iterdir()), "nothing is left among the files that pass"
