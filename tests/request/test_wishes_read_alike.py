"""The same wish typed in several ways is read as what was meant, or refused."""

from pathlib import Path

import pytest
from click.testing import CliRunner

from kitbuilder.cli import main
from kitbuilder.cli.options import read_number
from kitbuilder.errors import RefusedError
from kitbuilder.request.file import read_wishes


def wished(tmp_path: Path, line: str) -> object:
    file = tmp_path / "ours.toml"
    file.write_text(f'sums = ["71 - 48"]\n{line}\n', "utf-8")
    return read_wishes(file)


@pytest.mark.parametrize(
    ("listed", "typed"),
    [
        ('only = ["pieces", "mats"]', 'only = "pieces, mats"'),
        ('mat = ["subtract", "add"]', 'mat = "subtract,add"'),
        ('kinds = ["tasks", "record"]', 'kinds = "tasks,record"'),
    ],
)
def test_a_request_file_takes_lists_and_commas_alike(
    listed: str, typed: str, tmp_path: Path
) -> None:
    assert wished(tmp_path, listed) == wished(tmp_path, typed.replace(", ", ","))


def test_a_list_of_something_else_is_refused(tmp_path: Path) -> None:
    with pytest.raises(RefusedError, match=r"kinds = \[3\]; it must be a list of words in quotes"):
        wished(tmp_path, "kinds = [3]")


@pytest.mark.parametrize(
    ("typed", "number"),
    [
        ("0.5", 0.5),
        ("0,5", 0.5),
        (" 7 ", 7.0),
        (".25", 0.25),
        ("−3", -3.0),
        ("1,000", None),  # a thousand for some, one for others
        ("1,250", None),
        ("0,125", 0.125),  # no thousands begin with 0
        ("1_0", None),
        ("1e3", None),
        ("nan", None),
        ("inf", None),
        ("٣", None),
        ("५.२", None),
        ("", None),
    ],
)
def test_a_number_is_read_as_meant_or_not_at_all(typed: str, number: float | None) -> None:
    assert read_number(typed) == number


@pytest.mark.parametrize(
    "args", ["--spares 1,000", "--spares 1_0", "--children 1_0", "--children ٣", "--unit ٠.١"]
)
def test_a_number_that_may_mean_two_is_refused(args: str) -> None:
    done = CliRunner().invoke(main, ["kit", "71-48", *args.split()])
    assert (done.exit_code, done.stderr.count("\n")) == (2, 1)
    assert "give a" in done.stderr or "give millimetres" in done.stderr


def test_cards_of_four_places_are_of_any_stage(tmp_path: Path) -> None:
    args = ["kit", "4053-1278", "--only", "cards", "--out", str(tmp_path / "o")]
    for stage in ("pieces", "both", "drawn", "written"):
        assert CliRunner().invoke(main, [*args, "--stage", stage]).exit_code == 0, stage


def test_standard_input_has_a_second_name(tmp_path: Path) -> None:
    args = ["kit", "--only", "mats", "--sums", "/dev/stdin", "--out", str(tmp_path / "o")]
    assert CliRunner().invoke(main, args, input="71 - 48\n").exit_code == 0
    wrong = CliRunner().invoke(main, args, input=b"\xff\xfe")
    assert "Standard input is not a text file" in wrong.stderr


def test_a_long_path_is_cut_in_what_is_said(tmp_path: Path) -> None:
    deep = tmp_path.joinpath(*["a" * 60] * 5, "none.txt")
    done = CliRunner().invoke(main, ["kit", "--sums", str(deep)])
    assert done.exit_code == 2 and len(done.stderr) < 200 and "none.txt cannot be" in done.stderr


def test_a_stage_beside_a_column_of_stages_is_told(tmp_path: Path) -> None:
    table = tmp_path / "class.csv"
    rows = "name,sum,stage\nAda,71-48,{}\nBo,82-37,pieces\n"
    args = ["cards", "--pupils", str(table), "--stage", "both", "--out", str(tmp_path / "o")]
    table.write_text(rows.format("written"))
    told = CliRunner().invoke(main, args).stderr
    assert "--stage changes nothing here, because the table says how each sum is asked." in told
    table.write_text(rows.format(""))
    assert "--stage" not in CliRunner().invoke(main, args).stderr


def test_a_stage_is_told_even_where_the_column_happens_to_say_the_same(tmp_path: Path) -> None:
    table = tmp_path / "class.csv"
    table.write_text("name,sum,stage\nAda,71-48,both\n")
    args = ["cards", "--pupils", str(table), "--stage", "both", "--out", str(tmp_path / "o")]
    assert "--stage changes nothing here" in CliRunner().invoke(main, args).stderr
