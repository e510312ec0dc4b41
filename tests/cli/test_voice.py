"""The terminal answers in the language of --words."""

from pathlib import Path

import click
import pytest
from click.testing import CliRunner

from kitbuilder.cli import main
from kitbuilder.cli.voice import spoken
from kitbuilder.design import load as designs
from kitbuilder.design.saying import sentences


@pytest.mark.parametrize(
    ("args", "says"),
    [
        ("kit 5-8 --words es", "ponga primero el número mayor: 8 - 5."),
        ("kit --words=es --children 0", "--children era 0; elija un número de 1 a 200."),
        ("kit --papr a4 --words es", "No existe la opción '--papr'; quizá sea --paper; vea"),
        ("kit --words es --unit 4", "Una unidad de 4 mm es muy pequeña para recortarla"),
        ("choose --words es --places 9", "--places era 9; elija"),
        ("show 71-48 --answer x --words es", "dé un número entero de hasta 6 cifras."),
        ("kit 5-8 --words en-US", "put the larger number first"),
        ("kit 5-8 --words klingon", "put the larger number first"),
        ("kit 7-3 --words klingon", "There is no language called 'klingon'"),
    ],
)
def test_a_refusal_is_said_in_the_language_asked_for(args: str, says: str) -> None:
    done = CliRunner().invoke(main, args.split())
    assert (done.exit_code, says in done.stderr) == (2, True), done.stderr


def test_what_was_done_is_said_in_the_language_asked_for(tmp_path: Path) -> None:
    done = CliRunner().invoke(
        main, ["kit", "71-48", "--only", "mats", "--words", "es", "--out", str(tmp_path)]
    )
    assert done.exit_code == 0
    assert "Se escribió" in done.stdout and "El tablero mide" in done.stdout
    assert "The " not in done.output


def test_show_explains_an_answer_in_the_language_asked_for() -> None:
    done = CliRunner().invoke(main, ["show", "702-368", "--answer", "344", "--words", "es"])
    assert done.exit_code == 0
    assert designs.words("es")("why.wrong", sum="702 − 368", rest=334, answer=344) in done.stdout
    plan = CliRunner().invoke(main, ["plan", "--start", "2027-01-11", "--words", "es"])
    assert designs.words("es")("plan.before") in plan.stdout


def test_a_request_file_and_words_of_ones_own_set_the_language(tmp_path: Path) -> None:
    request = tmp_path / "ours.toml"
    request.write_text('sums = ["5 - 8"]\nwords = "es"\n')
    assert "ponga primero" in CliRunner().invoke(main, ["kit", str(request)]).stderr
    mine = tmp_path / "mias.toml"
    mine.write_text((designs.folder() / "words" / "es.toml").read_text("utf-8"), "utf-8")
    assert spoken(["kit", "--words", str(mine)]) == "es"
    assert spoken(["kit", "--words", str(tmp_path / "none.toml")]) == "en-GB"
    assert spoken(["kit", "--words"]) == "en-GB"


def test_a_stop_is_said_in_the_language_asked_for(monkeypatch: pytest.MonkeyPatch) -> None:
    def stop(*_: object, **__: object) -> None:
        raise click.Abort

    monkeypatch.setattr(main.commands["sizes"], "invoke", stop)
    done = CliRunner().invoke(main, ["sizes", "--words", "es"])
    assert (done.exit_code, done.stderr) == (
        130,
        "Detenido; ningún archivo queda a medio escribir.\n",
    )


def test_a_sentence_missing_in_a_language_is_a_fault_that_tells_of_whole_files(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Files may be there by then: what is said at the end is said of what was written."""
    spanish = {code: said for code, said in sentences("es").items() if code != "told.wrote"}
    monkeypatch.setattr("kitbuilder.design.saying.sentences", lambda _: spanish)
    args = ("kit", "71-48", "--only", "mats", "--words", "es", "--out", str(tmp_path))
    done = CliRunner().invoke(main, args)
    assert done.exit_code == 1 and (tmp_path / "kit.json").exists()
    assert "(KeyError); todo archivo que ya se escribió está entero." in done.stderr
