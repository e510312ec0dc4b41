"""Designs of one's own: a shipped one is written, changed, and used."""

from pathlib import Path

import pytest
from click.testing import CliRunner

from kitbuilder.cli import main, words_trial
from kitbuilder.cli.commands.design import KINDS
from kitbuilder.design import load as designs


def test_every_kind_of_design_can_be_a_start() -> None:
    there = {path.name for path in Path(str(designs.folder())).iterdir() if path.is_dir()}
    assert {*KINDS} == there - {"said", "page"}  # what the program says is no design


@pytest.mark.parametrize(
    ("kind", "name", "option", "change"),
    [
        ("paper", "a4", "--paper", ("Margins", "Margins")),
        ("looks", "bold", "--look", ('name = "bold"', 'name = "mine"')),
        ("words", "es", "--words", ("Cortar las piezas", "Cortar mis piezas")),
        ("words", "en-US", "--words", ("Regrouping cards", "Cards to regroup")),
    ],
)
def test_a_shipped_design_is_written_changed_and_used(
    kind: str,
    name: str,
    option: str,
    change: tuple[str, str],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    # Spanish words, which are longer, are tried on every page of one paper
    monkeypatch.setattr(words_trial, "PAPERS", words_trial.PAPERS[: name == "es"])
    path, out = tmp_path / "mine.toml", tmp_path / "kit"
    done = CliRunner().invoke(main, ["design", kind, name, "--out", str(path)])
    assert (done.exit_code, done.stderr) == (0, "")
    text = path.read_text("utf-8")
    path.write_text(text.replace(*change), "utf-8")
    made = CliRunner().invoke(main, ["kit", "71-48", option, str(path), "--out", str(out)])
    assert (made.exit_code, (out / "kit.pdf").exists()) == (0, True), made.stderr
    if kind == "words":
        assert change[1] in (out / "kit.json").read_text("utf-8")


def test_a_request_is_written_and_used(tmp_path: Path) -> None:
    path = tmp_path / "mine.toml"
    CliRunner().invoke(main, ["design", "kits", "first", "--out", str(path)])
    made = CliRunner().invoke(main, ["kit", str(path), "--out", str(tmp_path / "kit")])
    assert made.exit_code == 0, made.stderr


@pytest.mark.parametrize(
    ("args", "says"),
    [
        ("fonts bold --out x.toml", "choose from paper, looks, words, kits"),
        ("looks ../es --out x.toml", "choose from bold, outline, plain, spare"),
        ("looks bold --out x.txt", "a new file that ends in .toml"),
        ("looks bold", "--out"),
    ],
)
def test_what_cannot_be_a_start_is_refused(args: str, says: str) -> None:
    done = CliRunner().invoke(main, ["design", *args.split()])
    assert done.exit_code == 2
    assert says in done.stderr
    assert done.stderr.count("\n") == 1


def test_a_file_of_ones_own_is_not_written_over(tmp_path: Path) -> None:
    path = tmp_path / "mine.toml"
    path.write_text("mine")
    done = CliRunner().invoke(main, ["design", "looks", "bold", "--out", str(path)])
    assert (done.exit_code, path.read_text()) == (2, "mine")
