"""Where what is said goes: a full disk, closed streams and pipes that nobody reads."""

import os
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path

import pytest
from fuzz import sentence_faults

ROOT = Path(__file__).parents[2]


BUFFERED = {name: value for name, value in os.environ.items() if name != "PYTHONUNBUFFERED"}
"""What people have set: words wait in Python until its end, when it tries once more."""


def run(line: str, env: Mapping[str, str] = os.environ) -> tuple[int, int]:
    """Return the status and the lines on standard error of ``line``, typed in a shell."""
    typed = ["bash", "-c", f"{sys.executable} -m kitbuilder {line}"]
    done = subprocess.run(typed, cwd=ROOT, env=env, capture_output=True, check=False)
    said = done.stderr.decode()
    assert not said or sentence_faults(said) == []
    return done.returncode, said.count("\n")


@pytest.mark.parametrize(
    ("line", "status", "sentences", "buffered"),
    [
        ("show 71-48 >/dev/full", 2, 1, True),
        ("show 71-48 >/dev/full", 2, 1, False),
        ("--version >/dev/full", 2, 1, True),
        ("show 71 2>/dev/full", 2, 0, True),
        ("show 71-48 >/dev/full 2>&1", 2, 0, True),
    ],
)
def test_a_full_disk_behind_the_terminal_is_said(
    line: str, status: int, sentences: int, buffered: bool
) -> None:
    env = BUFFERED if buffered else {**BUFFERED, "PYTHONUNBUFFERED": "1"}
    assert run(line, env) == (status, sentences)


@pytest.mark.parametrize(
    ("line", "status", "sentences"),
    [
        ("show 71-48 >&-", 2, 1),
        ("kit 71-48 --only cards --out {out} >&-", 2, 1),
        ("kit --sums - <&-", 2, 1),
        ("show 71-48 2>&-", 0, 0),
        ("show 71 2>&-", 2, 0),
        ("cards --sums {many} --out {out} 2>&-", 0, 0),
        ("show 71-48 >&- 2>&-", 2, 0),
    ],
)
def test_closed_streams_end_in_silence_or_one_sentence(
    line: str, status: int, sentences: int, tmp_path: Path
) -> None:
    many, out = tmp_path / "many.txt", tmp_path / "out"
    many.write_text("71-48\n42-17\n" * 90)  # pages enough for a bar
    typed = line.replace("{many}", str(many)).replace("{out}", str(out))
    assert run(typed) == (status, sentences)
    assert out.exists() == (status == 0 and "{out}" in line)


def test_a_pipe_that_nobody_reads_ends_in_silence() -> None:
    """As ``| head -n 1`` may: with 1, which is what click makes of it."""
    theirs, ours = os.pipe()
    os.close(theirs)
    done = subprocess.run(
        [sys.executable, "-m", "kitbuilder", "show", "71-48"],
        cwd=ROOT,
        stdout=ours,
        stderr=subprocess.PIPE,
        check=False,
    )
    os.close(ours)
    assert (done.returncode, done.stderr) == (1, b"")
