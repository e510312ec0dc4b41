"""The ready-made kit in the largest type on the smallest usual paper: it is made, not refused."""

from pathlib import Path

import pytest
from click.testing import CliRunner
from pypdf import PdfReader

from kitbuilder.cli import main


@pytest.mark.parametrize("language", ["en-GB", "en-US", "es"])
def test_the_ready_made_kit_stands_on_a5_in_bold(language: str, tmp_path: Path) -> None:
    typed = ["kit", "--paper", "a5", "--look", "bold", "--words", language, "--out", str(tmp_path)]
    done = CliRunner().invoke(main, typed)
    assert done.exit_code == 0, done.output
    texts = " ".join(page.extract_text() for page in PdfReader(tmp_path / "kit.pdf").pages)
    assert all(f"{whole} − {part}" in texts for whole, part in ((431, 257), (305, 148)))
