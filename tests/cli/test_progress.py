"""Long work shows how far it is on a terminal, and nothing of it in a pipe."""

import os
import pty
import re
import subprocess
import sys
from io import StringIO
from pathlib import Path

import pytest

from kitbuilder.cli.progress import SHOWN_FROM, progress
from kitbuilder.output.watch import Work

ROOT = Path(__file__).parents[2]
BAR = "Drawing pages"


def said(folder: Path, sums: int, *more: str, command: str) -> tuple[str, str]:
    """Print cards for many ``sums`` and return what standard output, a pipe, and error got."""
    file = folder / "sums.txt"
    file.write_text("\n".join(f"{whole}-{whole - 9}" for whole in range(10, 10 + sums)))
    args = ["--sums", str(file), "--out", str(folder / "out"), "--backs", "long-edge"]
    args += ["--only", "cards"] * (command == "kit") + [*more]
    ours, theirs = pty.openpty()
    with subprocess.Popen(
        [sys.executable, "-m", "kitbuilder", command, *args],
        cwd=ROOT,
        env={**os.environ, "TERM": "xterm", "COLUMNS": "80"},
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=theirs,
        text=True,
    ) as process:
        os.close(theirs)
        err = b""
        while part := _read(ours):
            err += part
        out, _ = process.communicate(timeout=60)
    os.close(ours)
    assert process.returncode == 0, err
    return out, err.decode()


def _read(handle: int) -> bytes:
    try:
        return os.read(handle, 4096)
    except OSError:  # so a terminal ends on Linux once nobody writes to it any more
        return b""


@pytest.mark.parametrize(
    ("command", "sums", "more", "bar"),
    [
        ("cards", 60, [], BAR),
        ("kit", 14, ["--png", "20"], "Making pictures"),
    ],
)
def test_a_bar_goes_from_nothing_to_all_on_a_terminal(
    command: str, sums: int, more: list[str], bar: str, tmp_path: Path
) -> None:
    out, err = said(tmp_path, sums, *more, command=command)
    assert err.count(bar) > 1
    shares = [int(share) for share in re.findall(r"(\d+)%", err)]
    assert (shares[0], shares[-1]) == (0, 100)
    assert shares == sorted(shares)
    assert len(set(shares)) > 5  # it moves
    assert bar not in out
    assert err.rstrip(" ").endswith("\n")  # what is said next begins on a line of its own


class Terminal(StringIO):
    """Takes what is said and calls itself a terminal, or does not."""

    def __init__(self, terminal: bool) -> None:
        super().__init__()
        self.isatty = lambda: terminal  # type: ignore[method-assign]


@pytest.mark.parametrize(("terminal", "fewer"), [(False, 0), (True, 1)])
@pytest.mark.parametrize("work", SHOWN_FROM)
def test_there_is_no_bar_in_a_pipe_or_for_short_work(
    work: Work, terminal: bool, fewer: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("sys.stderr", told := Terminal(terminal))
    things = range(SHOWN_FROM[work] - fewer)
    assert list(progress(things, len(things), work)) == list(things)
    assert told.getvalue() == ""
