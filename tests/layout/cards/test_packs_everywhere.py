"""Packs of one, two and six pupils are made on every paper, in every look and language."""

from itertools import product
from pathlib import Path

import pytest
from click.testing import CliRunner
from grids import WHOLE

from kitbuilder.cli import main

ROWS = (
    "Ada,71-48,pieces",
    "Ben,305-148,both",
    "Cleo,634-258,written",
    "Dora,42-17,drawn",
    "Emil,431-257,both",
    "Fay,52-17,pieces",
)
"""Every stage, sums of two places and of three."""


@pytest.mark.parametrize(("count", "paper"), [*product((1, 6), ("a5", "letter")), (2, "a4")])
def test_packs_end_well(count: int, paper: str, tmp_path: Path) -> None:
    table = tmp_path / "pupils.csv"
    table.write_text("\n".join(("name,sum,stage", *ROWS[:count])), "utf-8")
    looks = ("bold", "plain") if paper == "a4" else ("bold", "plain", "spare", "outline")
    languages = ("es", "en-GB", "en-US")
    each = zip(looks, (*languages, "es"), strict=False)  # each look and each language once
    for look, language in product(looks, languages) if WHOLE else each:
        typed = ["cards", "--pupils", str(table), "--paper", paper, "--look", look]
        typed += ["--words", language, "--out", str(tmp_path / f"{look}-{language}")]
        done = CliRunner().invoke(main, typed)
        assert done.exit_code == 0, f"{look} {language}: {done.output}"
        assert list((tmp_path / f"{look}-{language}").glob("*.pdf"))
