"""Every language builds whole kits, nothing overflowing, and a words file is checked by name."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner
from pdf_lines import page_texts

from kitbuilder import designs
from kitbuilder.cli import main
from kitbuilder.errors import RefusedError


@pytest.mark.parametrize(
    ("words", "paper", "says"),
    [
        ("en-US", "letter", "What can we regroup?"),
        ("es", "a4", "¿Qué podemos canjear?"),
        ("es", "letter", "Todavía no"),
    ],
)
def test_a_kit_in_each_language(words: str, paper: str, says: str, tmp_path: Path) -> None:
    args = ["kit", "--words", words, "--paper", paper, "--out", str(tmp_path)]
    assert CliRunner().invoke(main, args).exit_code == 0
    text = " ".join(page_texts(tmp_path / "kit.pdf"))
    assert says.lower() in text.lower()
    assert "exchange" not in text.lower()  # the word in England; regroup in the United States
    assert json.loads((tmp_path / "kit.json").read_text())["language"] == words


def test_american_words_bring_letter_paper(tmp_path: Path) -> None:
    args = ["pieces", "--ones", "3", "--words", "en-US", "--out", str(tmp_path)]
    assert CliRunner().invoke(main, args).exit_code == 0
    record = json.loads((tmp_path / "kit.json").read_text())
    assert record["paper"]["name"] == "Letter"


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ('nothing = "nada"', 'nothing = "nada"\nextra = "x"', "holds 'list.extra'"),
        ('nothing = "nada"', "", "lacks 'list.nothing'"),
        ('build = "Forma {whole}."', 'build = "Forma."', r"lacks \{whole\} in 'task.build'"),
        ('build = "Forma {whole}."', 'build = "{whole}{x}"', r"has \{x\} in 'task.build'"),
    ],
)
def test_a_words_file_is_checked_by_name(old: str, new: str, says: str, tmp_path: Path) -> None:
    text = (Path(designs.__file__).parent.parent / "designs/words/es.toml").read_text("utf-8")
    assert old in text
    file = tmp_path / "mine.toml"
    file.write_text(text.replace(old, new, 1), "utf-8")
    with pytest.raises(RefusedError, match=says):
        designs.words(str(file))
