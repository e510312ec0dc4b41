"""Other machines: without fonts' settings, a home or rights, and with other terminals."""

import os
import shutil
import subprocess
import sys
from collections.abc import Mapping
from hashlib import sha256
from pathlib import Path
from tempfile import TemporaryDirectory
from zipfile import ZipFile

import pytest
from fuzz import sentence_faults
from hatchling.builders.wheel import WheelBuilder

ROOT = Path(__file__).parents[2]
KIT = ("kit", "71-48", "--only", "cards")
NOBODY = 65534


def run(folder: Path, *args: str, code: str = "", **env: str) -> subprocess.CompletedProcess[bytes]:
    """Run the command line in ``folder`` with nothing but ``env`` set; ``code`` runs before it."""
    start = f"{code}\nfrom kitbuilder.cli import main\nmain(prog_name='kitbuilder')"
    path = os.pathsep.join((str(ROOT), *(p for p in sys.path if "site-packages" in p)))
    return subprocess.run(
        [sys.executable, "-S", "-c", start, *args],
        cwd=folder,
        env={"PYTHONPATH": path, "PATH": "", **env},
        capture_output=True,
        check=False,
        timeout=60,
    )


@pytest.fixture(scope="session")
def usual(tmp_path_factory: pytest.TempPathFactory) -> Mapping[str, str]:
    """Return the hashes of the files of ``KIT`` as they are made here."""
    folder = tmp_path_factory.mktemp("usual")
    assert run(folder, *KIT).returncode == 0
    return hashes(folder / "kit")


@pytest.fixture(scope="session")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> str:
    """Return the path of the wheel."""
    folder = str(tmp_path_factory.mktemp("wheel"))
    return next(WheelBuilder(str(ROOT)).build(directory=folder, versions=["standard"]))


def hashes(folder: Path) -> dict[str, str]:
    return {p.name: sha256(p.read_bytes()).hexdigest() for p in sorted(folder.iterdir())}


@pytest.mark.parametrize(
    "env",
    [
        {
            "FONTCONFIG_FILE": "/nowhere/fonts.conf",
            "FONTCONFIG_PATH": "/nowhere",
            "FONTCONFIG_SYSROOT": "/nowhere",
            "LC_ALL": "C",
            "HOME": "/nowhere",
            "XDG_CONFIG_HOME": "/nowhere",
            "XDG_CACHE_HOME": "/nowhere",
        },
        {"PYTHONIOENCODING": "ascii", "LC_ALL": "POSIX"},
    ],
    ids=lambda env: "-".join(env),
)
def test_the_kit_is_the_same_there_with_spaces_and_accents_in_its_path(
    env: dict[str, str], tmp_path: Path, usual: Mapping[str, str]
) -> None:
    place = tmp_path / "für Zoë – 数"
    place.mkdir()
    done = run(place, *KIT, "--out", "mi kit ñ", **env)
    assert (done.returncode, done.stderr) == (0, b"")
    assert hashes(place / "mi kit ñ") == usual


@pytest.mark.parametrize("encoding", ["cp1252", "utf-8"])
def test_a_terminal_without_our_signs_gets_near_ones(encoding: str, tmp_path: Path) -> None:
    # cp1252 has no true minus; the hyphen stands for it. (click takes a terminal that calls
    # itself ASCII for a mistake, and writes UTF-8.)
    done = run(tmp_path, "show", "71-48", PYTHONIOENCODING=encoding)
    assert done.returncode == 0
    minus = "−" if encoding == "utf-8" else "-"
    assert done.stdout.decode(encoding).startswith(f"71 {minus} 48")


def test_without_a_home_no_folder_is_made_here(tmp_path: Path) -> None:
    code = "import os; os.path.expanduser = lambda path: path  # as where the user is unknown"
    bars = ("--measured-across", "150", "--measured-down", "150")
    done = run(tmp_path, "check-print", *bars, "--save-as", "kitchen", code=code)
    assert (done.returncode, b"no home folder" in done.stderr) == (2, True)
    assert sentence_faults(done.stderr.decode()) == []
    assert list(tmp_path.iterdir()) == []


def test_as_another_user_without_a_home() -> None:
    """A container's user without a name: here after the start, so that it can read Python."""
    with TemporaryDirectory() as name:
        place = Path(name)
        place.chmod(0o777)
        before = f"""
import os
from kitbuilder.cli import main
try:
    main({[*KIT, "--out", "before"]!r})
except SystemExit:
    os.geteuid() or os.setuid({NOBODY})
"""
        done = run(place, *KIT, code=before, HOME="/nowhere")
        assert (done.returncode, done.stderr) == (0, b"")
        owner = (place / "kit" / "kit.pdf").stat().st_uid
        assert owner == (os.geteuid() or NOBODY)


@pytest.mark.parametrize(
    ("args", "status"),
    [
        ((*KIT, "--printer", "kitchen"), 0),
        (("check-print", "--measured-across", "149", "--measured-down", "151"), 2),
    ],
)
def test_a_home_that_is_read_only_is_read(args: tuple[str, ...], status: int) -> None:
    """Printers saved there before are found; a new one is refused in a sentence."""
    with TemporaryDirectory() as name:
        place = Path(name)
        home, out = place / "home", place / "out"
        out.mkdir()
        out.chmod(0o777)
        place.chmod(0o755)
        save = (*("check-print", "--measured-across", "150", "--measured-down", "149"), "--save-as")
        before = f"""
import os, pathlib
from kitbuilder.cli import main
for words in ({[*save, "kitchen"]!r}, {[*KIT, "--printer", "kitchen"]!r}):
    try:
        main([*words])
    except SystemExit as end:
        assert end.code == 0
home = pathlib.Path({str(home)!r})
for path in (home, *home.rglob("*")):
    path.chmod(0o555 if path.is_dir() else 0o444)
os.geteuid() or os.setuid({NOBODY})
"""
        more = ("--out", str(out / "kit")) if status == 0 else ("--save-as", "office")
        done = run(place, *args, *more, code=before, HOME=str(home))
        kept = sorted(path.name for path in home.rglob("*.*"))
        for path in (home, *home.rglob("*")):
            path.chmod(0o755)  # so that all can be removed
        assert done.returncode == status, done.stderr
        assert kept == [".config", "kitchen.toml"]
        if status == 0:
            assert hashes(out / "kit") == hashes(place / "kit")
        else:
            assert sentence_faults(done.stderr.decode()) == []


@pytest.fixture(scope="module")
def turkish(tmp_path_factory: pytest.TempPathFactory) -> Mapping[str, str]:
    """Return the settings of a Turkish locale, made anew where the system can."""
    places = tmp_path_factory.mktemp("locales")
    env = {"LC_ALL": "tr_TR.UTF-8", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"}
    if maker := shutil.which("localedef"):
        # its letters and numbers alone: how it sorts words takes most of the time
        kinds = {"LC_CTYPE": "tr_TR", "LC_NUMERIC": "tr_TR", "LC_COLLATE": "POSIX"}
        asked = places / "asked"
        asked.write_text("".join(f'{k}\ncopy "{kinds[k]}"\nEND {k}\n' for k in kinds))
        command = [maker, "-c", "-i", str(asked), "-f", "UTF-8", str(places / "tr_TR.UTF-8")]
        subprocess.run(command, capture_output=True, check=False)
    return {**env, "LOCPATH": str(places)} if (places / "tr_TR.UTF-8").exists() else env


def test_a_turkish_locale_down_to_the_c_library(
    turkish: Mapping[str, str], tmp_path: Path, usual: Mapping[str, str]
) -> None:
    """There I is no capital of i, and 0.5 is written 0,5."""
    made = "LOCPATH" in turkish
    code = f"""
import locale
try:
    locale.setlocale(locale.LC_ALL, "")
except locale.Error:
    assert not {made}  # then the name alone is tested
else:
    assert locale.localeconv()["decimal_point"] == ","
"""
    typed = ("--paper", "A4", "--look", "PLAIN", "--words", "EN-GB", "--unit", "10.0")
    done = run(tmp_path, *KIT, *typed, code=code, **turkish)
    assert (done.returncode, done.stderr) == (0, b"")
    assert hashes(tmp_path / "kit") == usual


def test_paths_that_are_no_utf_8(tmp_path: Path, usual: Mapping[str, str], wheel: str) -> None:
    place = Path(os.fsdecode(os.fsencode(tmp_path) + b"/caf\xe9"))
    try:
        place.mkdir()
    except OSError:
        pytest.skip("this file system has no such names")
    with ZipFile(wheel) as archive:
        archive.extractall(place)
    code = "import os, sys; sys.path.insert(0, os.environ['PLACE'])"
    env = {"PLACE": str(place), "TMPDIR": str(place)}
    done = run(tmp_path, *KIT, "--out", str(place / "kit"), code=code, **env)
    assert (done.returncode, done.stderr) == (0, b"")
    assert hashes(place / "kit") == usual


def test_the_wheel_works_unopened(tmp_path: Path, usual: Mapping[str, str], wheel: str) -> None:
    code = f"import sys; sys.path.insert(0, {str(wheel)!r})"
    code += "; import kitbuilder; assert '.whl' in kitbuilder.__file__"
    done = run(tmp_path, *KIT, code=code)
    assert (done.returncode, done.stderr) == (0, b"")
    assert hashes(tmp_path / "kit") == usual
