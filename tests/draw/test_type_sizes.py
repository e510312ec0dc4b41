"""Sizes of type: nothing in a kit is smaller than its look promises, read from the PDF."""

import ctypes
from pathlib import Path

import pypdfium2 as pdfium
import pypdfium2.raw as raw
import pytest
from click.testing import CliRunner

from kitbuilder.cli import main
from kitbuilder.design import load as designs

KITS = (
    "--kinds exchange,tasks,facts,arrows,digits,record --backs long-edge --mat beside"
    " --sturdy backs",
    "--stage written --only cards",
)


def smallest(path: Path) -> float:
    """Return the smallest em in points of all words of a PDF, as they stand on the page."""
    found: list[float] = []
    document = pdfium.PdfDocument(path)
    for page in document:
        for text in page.get_objects([raw.FPDF_PAGEOBJ_TEXT]):
            size = ctypes.c_float()
            raw.FPDFTextObj_GetFontSize(text, size)
            found.append(size.value * abs(text.get_matrix().d))
    document.close()
    return min(found)


@pytest.mark.parametrize("wishes", KITS)
@pytest.mark.parametrize(("look", "points"), [("plain", 10), ("bold", 17)])
def test_no_words_of_a_kit_are_smaller_than_promised(
    look: str, points: float, wishes: str, tmp_path: Path
) -> None:
    # The readme promises 17 points in the bold look; elsewhere an adult reads 10 (practice).
    words = ("kit", "305 - 148", "71 - 48", *wishes.split(), "--look", look, "--out", str(tmp_path))
    done = CliRunner().invoke(main, words)
    assert done.exit_code == 0, done.output
    assert designs.look(look).type_mm.least * 72 / 25.4 == pytest.approx(points, abs=0.01)
    assert smallest(tmp_path / "kit.pdf") == pytest.approx(points, abs=0.02)


@pytest.mark.parametrize(("look", "points"), [("plain", 10), ("spare", 10), ("bold", 17.01)])
def test_words_of_a_mini_kit_are_as_small_as_promised(
    look: str, points: float, tmp_path: Path
) -> None:
    # The look's own least type: 6 mm in bold are 17.01 points.
    words = ("kit", "--mini", "71 - 48", "--look", look, "--out", str(tmp_path))
    done = CliRunner().invoke(main, words)
    assert done.exit_code == 0, done.output
    assert smallest(tmp_path / "kit.pdf") == pytest.approx(points, abs=0.02)
