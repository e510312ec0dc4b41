"""Where what is said goes: a full disk, closed streams and pipes that nobody reads."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from fuzz import sentence_faults

ROOT = Path(__file__).parents[2]


def test_a_full_disk_behind_the_terminal_is_said() -> None:
    with Path("/dev/full").open("w") as full:
        done = subprocess.run(
            [sys.executable, "-m", "kitbuilder", "show", "71-48"],
            cwd=ROOT,
            stdout=full,
            stderr=subprocess.PIPE,
            check=False,
        )
    assert done.returncode == 2
    assert sentence_faults(done.stderr.decode()) == []


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
    many.write_text("71-48\n42-17\n" * 120)  # pages enough for a bar
    typed = f"{sys.executable} -m kitbuilder {line.replace('{many}', str(many))}"
    done = subprocess.run(
        ["bash", "-c", typed.replace("{out}", str(out))], cwd=ROOT, capture_output=True, check=False
    )
    said = done.stderr.decode()
    assert (done.returncode, said.count("\n")) == (status, sentences), said
    assert not said or sentence_faults(said) == []
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
