"""The unit a refusal names fits; a tenth of a millimetre more does not."""

import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from kitbuilder.cli import main

PIECES = "--only pieces"
CARDS = "--only pieces,cards"


@pytest.mark.parametrize(
    ("args", "largest"),
    [
        # A4 less 5 mm margins is 200 mm across: ten units of 20.
        (f"325-148 {PIECES}", 20),
        # Tens alone may stand: 287 mm long, 28.7 a unit.
        (f"20-10 {PIECES}", 28.7),
        # Letter less 6.35 mm margins is 203.2 mm across.
        (f"325-148 {PIECES} --paper letter", 20.32),
        # A card is 20 units and 20 mm wide: (287 - 20) / 20 is 13.35, so 13.3.
        (f"325-148 {CARDS}", 13.3),
    ],
)
def test_the_named_unit_fits(args: str, largest: float, tmp_path: Path) -> None:
    def kit(unit: float) -> tuple[int, str]:
        folder = tmp_path / f"{unit:g}"
        typed = ["kit", *args.split(), "--unit", f"{unit:g}", "--out", str(folder)]
        result = CliRunner().invoke(main, typed)
        assert folder.exists() == (result.exit_code == 0)
        return result.exit_code, result.output

    more = round(largest + 0.1, 2)
    status, said = kit(more)
    assert status == 2
    named = re.search(r"--unit ([0-9.]*[0-9])", said)
    assert named
    assert float(named[1]) == largest
    assert kit(largest)[0] == 0


@pytest.mark.parametrize(
    ("side", "way"),
    [
        # so small a paper holds no card in the look's type, whatever the unit
        (132, "choose larger paper, or"),
        (129, "choose larger paper, or"),
    ],
)
def test_no_unit_below_the_least_is_named(side: int, way: str, tmp_path: Path) -> None:
    paper = ["--paper", f"{side}x{side}mm", "--unit", "6", "--out", str(tmp_path / "kit")]
    result = CliRunner().invoke(main, ["kit", "325-148", "--only", "cards", *paper])
    assert result.exit_code == 2
    assert way in result.output
