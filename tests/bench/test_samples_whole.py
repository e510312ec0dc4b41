"""The samples in two renderers and three readers of words: they agree on every page.

Run by hand: pytest -n 0 -s tests/bench/test_samples_whole.py
"""

from collections import Counter
from pathlib import Path
from subprocess import run

import pypdfium2 as pdfium
import pytest
import samples
from PIL import Image, ImageChops, ImageFilter
from pypdf import PdfReader

DPI = 120
EDGE = 96
"""Greys of 255 by which edges differ, as each renderer smooths them in its own way."""

MOST = 0.35
"""Per cent of a page that may differ: letters and thin lines that one renderer snaps to a dot.

Labels with some 180 small pieces differ most, by 0.26.
"""


def apart(one: Image.Image, other: Image.Image) -> float:
    """Return the part of two pages, in per cent, that differs by more than edges do.

    What is dark in one has to be dark in the other within one dot of it, both ways.
    """
    other = other.resize(one.size)
    wide = [page.filter(ImageFilter.MinFilter(3)) for page in (one, other)]
    far = [
        ImageChops.subtract(page, least)  # how much lighter than all that is near in the other
        for page, least in ((wide[0], other), (wide[1], one))
    ]
    counted = sum(sum(page.histogram()[EDGE:]) for page in far)
    return 100 * counted / (one.width * one.height)


def test_a_line_of_words_less_is_found() -> None:
    page = Image.new("L", (200, 280), 255)
    other = page.copy()
    other.paste(0, (20, 100, 110, 104))
    assert apart(page, page) == 0
    assert apart(page, other) > MOST


@pytest.mark.parametrize("name", samples.SAMPLES)
def test_two_renderers_and_three_readers_agree(name: str, tmp_path: Path) -> None:
    (tmp_path / name).mkdir()
    samples.make(name, tmp_path / name)
    path = next((tmp_path / name).glob("*.pdf"))
    words = [page.extract_text() for page in PdfReader(path).pages]
    run(["pdftocairo", "-png", "-gray", "-r", str(DPI), path, tmp_path / "page"], check=True)
    pictures = sorted(tmp_path.glob("page-*.png"))
    worst = 0.0
    with pdfium.PdfDocument(path) as document:
        for number, page in enumerate(document):
            with Image.open(pictures[number]) as other:
                shown = page.render(scale=DPI / 72).to_pil().convert("L")
                worst = max(worst, apart(shown, other.convert("L")))
            seen = page.get_textpage().get_text_bounded()
            page_number = str(number + 1)
            told = run(
                ["pdftotext", "-f", page_number, "-l", page_number, path, "-"],
                check=True,
                capture_output=True,
                text=True,
            ).stdout
            letters = [Counter("".join(text.split())) for text in (words[number], seen, told)]
            assert letters[0] == letters[1] == letters[2], number + 1
    checked = run(["qpdf", "--check", path], capture_output=True, text=True, check=False)
    print(f"\n{name}: {len(words)} pages, at most {worst:.3f} per cent differ")
    assert (checked.returncode, checked.stderr) == (0, "")
    assert worst < MOST
