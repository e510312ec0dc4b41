"""The command line: what it writes, and one sentence with status 2 for what it refuses."""

import json
import os
import tempfile
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from kitbuilder.cli import main
from kitbuilder.cli.told.outcome import wrote


def run(*args: str, given: str | bytes | None = None) -> Result:
    return CliRunner().invoke(main, args, input=given)


@pytest.mark.parametrize(
    ("args", "says"),
    [
        ("kit abc", "type a sum as 634 - 258"),
        ("kit 1.5.1-1", "is not a subtraction"),
        ("kit -5-3", "is not a subtraction"),
        ("kit 5-8", "put the larger number first: 8 - 5"),
        ("kit 12345-3", "more than four places"),
        ("kit 1234-3 --mini", "holds numbers up to 999; leave out --mini, or give smaller numbers"),
        ("kit --paper b99", "choose one of a3, a4"),
        (
            "kit --unit 3",
            "the smallest is --unit 5; leave it out, and a size that fits is chosen",
        ),
        ("cards --ba\x07cks=", r"--ba\x07cks was given nothing"),
        ("kit --unit 9999", "it must be 5 to 1000 mm"),
        ("kit --unit x", "give millimetres as a number"),
        ("kit --unit nan", "give millimetres as a number"),
        ("kit --margin 200", "it must be 0 to 100 mm"),
        ("kit --mini --weeks 2", "leave out --weeks"),
        ("kit --money GBP --weeks 1", "--weeks plans whole numbers"),
        ("kit 6-2 --kinds stories", "No story fits 6 − 2: it needs a whole of 20 or more"),
        ("kit --papr a4", "No such option '--papr'; perhaps --paper is meant; see"),
        ("kit -p a4", "No such option '-p'"),
        ("kit --paper=", "--paper was given nothing; give it a value"),
        ("kit --only piece", "is no part of a kit for --only"),
        ("kit --children 99999999999999999999", "that is too large"),
        ("check", "No such command 'check'; perhaps check-print is meant; see"),
        ("kit --sums missing.txt", "missing.txt cannot be read"),
        ("kit missing.toml", "missing.toml cannot be read"),
        ("kit a.toml b.toml", "one at a time"),
        ("kit a.toml 7-3", "not both"),
        ("kit --within 50000", "from 50 to 10000"),
        ("kit --within 40", "from 50 to 10000"),
        ("kit --within 20", "small facts such as 15 − 8, which need no columns: give 50 or more"),
        ("kit 71-48 43 - 17", "'43' stands alone: put a sum in quotes, as \"43 - 17\", or type it"),
        ("kit --within many", "give a whole number"),
        ("kit --plan plan.csv --start 2027-01-11", "--start and --plan were both given"),
        ("kit --only box", "choose from pieces, mats, cards, week, guide"),
        ("kit --unit", "requires an argument; see what is allowed with: main kit --help."),
        ("kit --pieces 0,0,0", "say how many"),
        ("kit 4003-1758 --paper a5", "choose A4, Letter or larger paper"),
        ("kit --pieces 0,x", "not three or four whole numbers"),
        ("kit --pieces 0,1,000,10", "not three or four whole numbers"),
        ("kit --pieces 0,10001,0", "from 0 to 10000"),
        ("show", "see what is allowed with: "),
        ("show 7", "is not a subtraction"),
        ("frob", "No such command 'frob'"),
    ],
)
def test_bad_input_gets_one_sentence(
    args: str, says: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    result = run(*args.split())
    assert result.exit_code == 2
    assert says in result.stderr
    assert result.stderr.count("\n") == 1
    assert result.stdout == ""
    assert list(tmp_path.iterdir()) == []


def test_a_unit_too_large_for_the_page_names_what_fits(tmp_path: Path) -> None:
    result = run("kit", "634-258", "--unit", "30", "--out", str(tmp_path / "kit"))
    assert result.exit_code == 2
    # 287 mm print along a4; a card of a hundred, ten tens and clear space takes 20 units and 20 mm
    assert "--unit 13.3 or less" in result.stderr
    assert not (tmp_path / "kit").exists()
    out = ["--only", "pieces", "--out", str(tmp_path / "kit")]
    # 200 mm print across a4, so a hundred of 20 mm units fits
    assert "largest that fits is --unit 20." in run("kit", "634-258", "--unit", "30", *out).stderr


def test_noise_on_standard_input_is_refused() -> None:
    result = run("kit", "--sums", "-", given=bytes(range(256)) * 4096)
    assert (result.exit_code, result.stderr.count("\n")) == (2, 1)


def test_a_folder_that_cannot_be_written_is_refused(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("mine")
    result = run("kit", "71-48", "--only", "cards", "--out", str(tmp_path / "file"))
    assert result.exit_code == 2
    assert "choose another with --out" in result.stderr
    assert (tmp_path / "file").read_text() == "mine"


def test_other_files_are_left_alone(tmp_path: Path) -> None:
    (tmp_path / "notes.txt").write_text("mine")
    result = run("kit", "71-48", "--only", "cards", "--out", str(tmp_path))
    assert result.exit_code == 0
    assert sorted(p.name for p in tmp_path.iterdir()) == ["kit.json", "kit.pdf", "notes.txt"]
    assert (tmp_path / "kit.pdf").read_bytes().startswith(b"%PDF-1.7")
    assert (tmp_path / "notes.txt").read_text() == "mine"


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("71-0", "nothing to take out"),
        ("71-71", "nothing is left"),
        ("78-41", "without an exchange"),
    ],
)
def test_sums_that_teach_little_are_built_with_a_note(
    typed: str, says: str, tmp_path: Path
) -> None:
    result = run("kit", typed, "--only", "cards", "--out", str(tmp_path))
    assert result.exit_code == 0
    assert says in result.stderr
    assert (tmp_path / "kit.json").exists()


@pytest.mark.parametrize("command", [("kit",), ("kit", "--mini"), ("cards",)])
def test_a_whole_of_nothing_is_refused(command: tuple[str, ...], tmp_path: Path) -> None:
    result = run(*command, "00-0", "--out", str(tmp_path / "kit"))
    assert result.exit_code == 2
    assert result.stderr == "0 − 0 has nothing to build; give a whole of 1 or more.\n"
    assert not (tmp_path / "kit").exists()


def test_no_command_is_told_in_one_sentence() -> None:
    result = run()
    assert result.exit_code == 2
    assert result.stderr.startswith("No command was given; see what is allowed with: ")
    assert result.stderr.endswith(" --help.\n")


def test_sums_from_a_file_and_from_standard_input(tmp_path: Path) -> None:
    (tmp_path / "sums.txt").write_text("71 – 48\n# more tomorrow\n604−167\n")
    a = run("kit", "--sums", str(tmp_path / "sums.txt"), "--out", str(tmp_path / "a"))
    b = run("kit", "--sums", "-", "--out", str(tmp_path / "b"), given="71-48\n604-167\n")
    assert (a.exit_code, b.exit_code) == (0, 0)
    assert (tmp_path / "a/kit.json").read_bytes() == (tmp_path / "b/kit.json").read_bytes()


def test_a_request_file_holds_options_and_the_command_line_wins(tmp_path: Path) -> None:
    wish = tmp_path / "wish.toml"
    wish.write_text(
        'sums = ["71-48"]\nchildren = 6\nlayers = 3\nmat = "three"\nonly = ["pieces"]\n'
    )
    run("kit", str(wish), "--out", str(tmp_path / "a"))
    run("kit", str(wish), "--layers", "2", "--out", str(tmp_path / "b"))
    cutting = [json.loads((tmp_path / n / "kit.json").read_text())["cutting"] for n in "ab"]
    assert [(c["kits"], c["layers"]) for c in cutting] == [(6, 3), (6, 2)]
    wish.write_text('sums = ["71-48"]\nmat = "four"\n')
    refused = run("kit", str(wish), "--out", str(tmp_path / "c"))
    assert (refused.exit_code, refused.stderr.count("\n")) == (2, 1)


def test_papers_lists_what_fits() -> None:
    result = run("sizes")
    rows = {line.split()[0]: line.split()[-1] for line in result.stdout.splitlines()[1:]}
    # two by two hundreds of 100 mm on a4 and letter, two by three on legal, two by four on a3
    assert {k: rows[k] for k in ("a3", "a4", "legal", "letter")} == {
        "a3": "8",
        "a4": "4",
        "legal": "6",
        "letter": "4",
    }


@pytest.mark.parametrize(
    ("names", "said"),
    [
        (["kit.pdf", "kit.json"], "Wrote box/kit.pdf and box/kit.json."),
        (
            ["kit.pdf", "pile-card.pdf", "pile-paper.pdf", "kit.json"],
            "Wrote kit.pdf, pile-card.pdf, pile-paper.pdf and kit.json, all in box.",
        ),
        (
            ["kit.pdf", "p1.svg", "p2.svg", "p3.svg", "kit.json"],
            "Wrote kit.pdf, 3 SVG files and kit.json, all in box.",
        ),
    ],
)
def test_a_few_files_are_named_and_many_are_counted(names: list[str], said: str) -> None:
    assert str(wrote([Path("box", name) for name in names])) == said.replace("box/", f"box{os.sep}")


@pytest.mark.parametrize("args", [["kit", "--out", ""], ["cards", "7-3", "--words", " "]])
def test_an_option_that_was_given_nothing_is_refused(args: list[str]) -> None:
    result = run(*args)
    assert (result.exit_code, result.stdout) == (2, "")
    assert f"{args[-2]} was given nothing" in result.stderr


def test_too_little_memory_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    def none(*_: object) -> None:
        raise MemoryError

    monkeypatch.setattr("kitbuilder.pipeline.held", none)
    result = run("kit")
    assert (result.exit_code, result.stderr.count("\n")) == (2, 1)
    assert "not enough memory" in result.stderr


@pytest.mark.parametrize("writable", [True, False])
def test_what_nobody_foresaw_is_one_sentence_and_a_trace(
    writable: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fall(request: object) -> None:
        raise ZeroDivisionError("71 − 48")

    monkeypatch.setattr("kitbuilder.pipeline.held", fall)
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path if writable else tmp_path / "nowhere"))
    result = run("kit", "71-48", "--out", str(tmp_path / "kit"))
    assert (result.exit_code, result.output.count("\n")) == (1, 1)
    assert "ZeroDivisionError" in result.stderr
    assert not (tmp_path / "kit").exists()
    traces = list(tmp_path.glob("kitbuilder-fault-*.txt"))
    assert len(traces) == writable
    for trace in traces:
        assert str(trace) in result.stderr
        assert "in fall" in trace.read_text("utf-8")
        assert trace.stat().st_mode & 0o777 == 0o600


@pytest.mark.parametrize("option", ["sums", "plan"])
def test_a_line_that_cannot_be_read_is_named_with_its_file(option: str, tmp_path: Path) -> None:
    file = tmp_path / "six.csv"
    file.write_text("date,week,day,phase,kind,whole,part\nten,1,1,practice,pieces,634,258\n")
    line = 1 if option == "sums" else 2
    result = run("kit", f"--{option}", str(file), "--out", str(tmp_path / "out"))
    assert result.exit_code == 2 and f"{file}, line {line}: " in result.stderr
