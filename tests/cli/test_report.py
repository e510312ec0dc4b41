"""What the terminal says after a run: what a person needs next, and no more."""

from pathlib import Path

import pytest
from click.testing import CliRunner

from kitbuilder.cli import main

WHAT = 'sums = ["43 - 17"]\nonly = "mats"\n[estimate]\nink = true\n'


def told(folder: Path, *args: str) -> str:
    done = CliRunner().invoke(main, ["kit", *args, "--out", str(folder / "kit")])
    assert done.exit_code == 0, done.output
    return done.stdout


@pytest.mark.parametrize(
    ("args", "says"),
    [
        (("43-17",), " on card, "),
        (("--pieces", "0,2,10", "--only", "pieces"), "3 pages: 1 on card, 2 on paper."),
        (("43-17", "--only", "mats"), "2 pages, on paper."),
    ],
)
def test_pages_are_told_by_what_they_are_printed_on(
    args: tuple[str, ...], says: str, tmp_path: Path
) -> None:
    said = told(tmp_path, *args)
    assert says in said
    assert "page 1 says how" in said
    assert "Ink covers" not in said and "Copies" not in said


def test_copies_and_ink_are_told_where_they_matter(tmp_path: Path) -> None:
    file = tmp_path / "ours.toml"
    file.write_text(WHAT)
    assert "Ink covers" in told(tmp_path, str(file))
    assert "Copies counted: " in told(tmp_path, "43-17", "--children", "4")


def test_large_pieces_leave_the_exchange_card_out_and_say_so(tmp_path: Path) -> None:
    args = ["kit", "254-38", "--only", "pieces,cards", "--out", str(tmp_path / "kit")]
    large = CliRunner().invoke(main, [*args, "--unit", "20"])
    assert large.exit_code == 0, large.output
    assert "the exchange card is left out" in large.stderr
    assert "exchange card" not in CliRunner().invoke(main, args).stderr


def test_answers_in_large_spanish_type_are_printed_on_wide_paper(tmp_path: Path) -> None:
    bold = ("--paper", "a4", "--look", "bold", "--words", "es", "--only", "cards")
    done = CliRunner().invoke(main, ["kit", "43-17", *bold, "--out", str(tmp_path / "kit")])
    assert done.exit_code == 0, done.output


@pytest.mark.parametrize(
    ("language", "says"),
    [
        ("en-GB", "no story fits 12 − 11 and 9 − 8"),
        ("en-US", "no story fits 12 − 11 and 9 − 8"),
        ("es", "ninguna historia se presta a 12 − 11 y 9 − 8"),
    ],
)
def test_sums_that_no_story_fits_are_named(language: str, says: str, tmp_path: Path) -> None:
    args = ["cards", "700 - 3", "12 - 11", "9 - 8", "--kinds", "stories", "--words", language]
    done = CliRunner().invoke(main, [*args, "--out", str(tmp_path / "cards")])
    assert done.exit_code == 0, done.output
    assert says in done.stderr
