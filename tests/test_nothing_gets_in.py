"""Text from files is text, and no file, socket or letter gets in by another way."""

import os
import subprocess
import sys
from pathlib import Path

import pypdfium2
import pytest
from click.testing import CliRunner, Result
from fuzz import sentence_faults

from kitbuilder.cli import main
from kitbuilder.design.metrics import missing
from kitbuilder.design.saying import seen
from kitbuilder.formats.textfile import LARGEST_FILE

ROOT = Path(__file__).parent.parent


def run(*args: str) -> Result:
    return CliRunner().invoke(main, args)


def refused(*args: str) -> str:
    """Return the one sentence with which ``args`` are refused."""
    done = run(*args)
    assert (done.exit_code, done.stdout, sentence_faults(done.stderr)) == (2, "", []), done.stderr
    return done.stderr


HARMFUL = (
    *("<b>&amp;</b>", "]]> <!-- x", "&lt;x", "../../x", "/etc/passwd", "..\\..\\x", "CON"),
    *("url(file:///etc/passwd)", "{count}", "{0.__class__}", "=1+1", "@SUM(1)", "%s"),
)


def test_names_are_printed_as_they_are_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    rows = "".join(f"{name},71-48\n" for name in HARMFUL)
    Path("p.csv").write_text(f"name,sum\n{rows}")
    done = run("cards", "--pupils", "p.csv", "--each", "--out", "out")
    assert done.exit_code == 0, done.stderr
    document = pypdfium2.PdfDocument("out/cards.pdf")
    said = "\n".join(page.get_textpage().get_text_bounded() for page in document)
    assert [name for name in HARMFUL if name not in said] == []
    kept = {str(path) for path in Path().rglob("*") if path.is_file()}
    each = {f"out/each/pupil-{n:04}.pdf" for n in range(1, len(HARMFUL) + 1)}
    record = Path("out/cards.json").read_text("utf-8")
    assert kept == {"p.csv", "out/cards.pdf", "out/cards.json", *each}
    assert not any(name in record for name in HARMFUL)


@pytest.mark.parametrize("letter", ["\x00", "\x1b", "\u202e", "\u2066", "\u200b", "\xad", "\ufeff"])
def test_hidden_letters_are_refused_wherever_they_stand(letter: str, tmp_path: Path) -> None:
    assert missing(letter) == letter  # so that no sentence of a words file can print it
    places = {
        "pupils.csv": ("cards", "--pupils", f"name,sum\nA{letter}b,71-48\n"),
        "sums.txt": ("kit", "--sums", f"71{letter}-48\n"),
        "paper.toml": ("sizes", "--paper", f'name = "A{letter}4"\n'),
        "r.toml": ("kit", "", f'sums = ["71-{letter}48"]\n'),
    }
    for name, (command, option, text) in places.items():
        file = tmp_path / name
        file.write_text(text, "utf-8")
        refused(command, *filter(None, (option,)), str(file))
    paper = (ROOT / "designs/paper/a4.toml").read_text().replace('"A4"', f'"A\\u{ord(letter):04x}"')
    (tmp_path / "paper.toml").write_text(paper)
    assert "none of them hidden" in refused("sizes", "--paper", str(tmp_path / "paper.toml"))


def test_what_is_said_of_names_gives_the_terminal_no_orders() -> None:
    assert seen("a\x1b[31m\n\u202eb") == r"a\x1b[31m\n\u202eb"
    assert "\\n" in refused("sizes", "--paper", "no\nfile.toml")


@pytest.mark.parametrize("option", ["--sums", "--plan", "--pupils", "--paper", "--words", "--look"])
def test_what_is_no_text_file_is_refused_in_a_sentence(option: str, tmp_path: Path) -> None:
    command = "cards" if option == "--pupils" else "kit"
    ending = ".toml" if option in ("--paper", "--words", "--look") else ".csv"
    pipe, zero, big = (tmp_path / f"{name}{ending}" for name in ("pipe", "zero", "big"))
    os.mkfifo(pipe)
    zero.symlink_to("/dev/zero")
    big.write_text("# " + "a" * 9_000_000)
    folder, binary, wide = (tmp_path / f"{name}{ending}" for name in ("folder", "binary", "wide"))
    folder.mkdir()
    binary.write_bytes(bytes(range(256)))
    wide.write_text("name,sum\n", "utf-16")
    for path, says in (
        (pipe, "is a pipe"),
        (zero, "is larger than"),
        (big, "is larger than"),
        (folder, "it is a folder"),
        (binary, "is not a text file"),
        (wide, "is not a text file"),
        (tmp_path / f"none{ending}", "cannot be read"),
    ):
        assert says in refused(command, option, str(path), "--out", str(tmp_path / "kit"))


@pytest.mark.parametrize(
    "text",
    [
        f"a{'.a' * (LARGEST_FILE // 4)} = 1",  # the TOML reader needs minutes and all memory
        f"x = {'[' * 9000}",
        f"x = {'{a=' * 9000}",
        f"unit = {'9' * 5000}",
        f"unit = {'9' * 300}",
        f"sums = {'[' * 20}{']' * 20}",
    ],
    ids=["dots", "lists", "tables", "digits", "large", "deep"],
)
def test_a_table_made_to_hang_is_refused_at_once(text: str, tmp_path: Path) -> None:
    (tmp_path / "r.toml").write_text(text)
    refused("kit", str(tmp_path / "r.toml"))


def test_pictures_too_large_for_memory_are_refused(tmp_path: Path) -> None:
    out = ("--out", str(tmp_path / "kit"))
    # 36 million dots are 600 to the inch on a4, and 75 on 1.9 by 1.9 m
    assert "choose 20 to" in refused(
        "kit", "--pieces", "0,0,9", "--paper", "a3", "--png", "600", *out
    )


@pytest.mark.parametrize("file", ["/dev/null", ".", "/", ".."])
def test_no_device_or_folder_is_written_over(file: str) -> None:
    assert "give the name of a file" in refused("check-print", "--out", file)
    assert "give the name of a file" in refused("plan", "--start", "2027-01-11", "--csv", file)


def test_no_cell_of_a_plan_is_a_formula() -> None:
    table = run("plan", "--start", "2027-01-11", "--csv", "-").stdout
    cells = [cell for line in table.splitlines() for cell in line.split(",")]
    assert len(cells) > 100
    assert all(cell == "" or cell[0].isalnum() for cell in cells)


OFFLINE = """
import sys
def hook(event, args):
    if event.startswith(("socket.", "urllib.", "http.", "ftplib.", "smtplib.")):
        print("NETWORK", event, file=sys.stderr)
        raise SystemExit(9)
sys.addaudithook(hook)
if sys.argv[1] == "probe":
    import socket
    socket.socket()
from kitbuilder.cli import main
main(prog_name="kitbuilder")
"""


def test_no_socket_is_opened(tmp_path: Path) -> None:
    def ended(*args: str) -> int:
        command = [sys.executable, "-c", OFFLINE, *args]
        env = {**os.environ, "PYTHONPATH": str(ROOT)}
        return subprocess.run(command, cwd=tmp_path, env=env, capture_output=True).returncode

    assert ended("kit", "71-48", "--only", "cards", "--cutter", "svg", "--png", "20") == 0
    assert ended("probe") == 9  # the watch sees a socket
