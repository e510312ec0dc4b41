"""The README and that of the designs: every example works as it is printed."""

import re
import shlex
from pathlib import Path

import pytest
from click.testing import CliRunner

from kitbuilder.cli import main
from kitbuilder.press import printer as printers

ROOT = Path(__file__).parents[2]
README = "\n".join((ROOT / p).read_text("utf-8") for p in ("README.md", "designs/README.md"))


def blocks() -> list[str]:
    """Return the README's indented blocks, their indent taken off."""
    found = re.findall(r"(?:^ {4,}.*\n|^\n(?= {4}))+", README, re.MULTILINE)
    return ["\n".join(line.strip() for line in block.strip().splitlines()) for block in found]


def commands() -> list[str]:
    """Return the kitbuilder commands among them: continued lines joined, comments left out."""
    lines = "\n".join(blocks()).replace("\\\n", " ").splitlines()
    typed = [line.split(" #")[0] for line in lines if line.startswith("kitbuilder ")]
    return sorted(typed, key=lambda line: "--save-as" not in line)  # a printer before its kit


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a folder with the files that the examples name, printed in the README or not."""
    folder = tmp_path_factory.mktemp("desk")
    (envelope,) = (block for block in blocks() if block.startswith('name = "Large envelope"'))
    (request,) = (block for block in blocks() if block.startswith("sums = ["))
    (folder / "envelope.toml").write_text(envelope, "utf-8")
    (folder / "ours.toml").write_text(request, "utf-8")
    (folder / "answers.csv").write_text("name,sum,answer\nAda,71 - 48,37\n", "utf-8")
    (folder / "class.csv").write_text("name,sum\nAda,71 - 48\nBo,305 - 148\n", "utf-8")
    return folder


@pytest.mark.parametrize("command", commands())
def test_a_command_works(command: str, desk: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(desk)
    monkeypatch.setattr(printers, "folder", lambda: desk / "printers")
    said = None
    for piped in command.split(" | "):
        done = CliRunner().invoke(main, shlex.split(piped)[1:], said)
        assert done.exit_code == 0, done.output
        said = done.stdout
