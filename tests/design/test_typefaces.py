"""The typefaces: static, the same bytes every time, and as wide as they are measured."""

import subprocess
import sys
from hashlib import sha256
from io import BytesIO

import faces
import pytest
from fontTools.pens.boundsPen import BoundsPen
from fontTools.ttLib import TTFont

from kitbuilder.design import metrics
from kitbuilder.design.typefaces import FAMILIES, FAMILY, MINUS, SIGNS_FAMILY, font_bytes, font_file


@pytest.mark.parametrize("family", FAMILIES)
def test_a_typeface_is_static_and_measured_as_it_is_embedded(family: str) -> None:
    font = TTFont(font_file(family))
    assert "fvar" not in font
    name = font.getBestCmap()[0x20]
    assert metrics.width(" ", 1000, family) == pytest.approx(
        font["hmtx"].metrics[name][0] * 1000 / font["head"].unitsPerEm
    )


@pytest.mark.parametrize("family", FAMILIES)
def test_another_process_makes_the_same_bytes(family: str) -> None:
    said = (
        "import hashlib; from kitbuilder.design.typefaces import font_bytes;"
        f"print(hashlib.sha256(font_bytes({family!r})).hexdigest())"
    )
    found = subprocess.run([sys.executable, "-c", said], capture_output=True, text=True, check=True)
    assert found.stdout.strip() == sha256(font_bytes(family)).hexdigest()


@pytest.mark.parametrize("family", faces.CUTS)
def test_the_cuts_kept_are_those_that_would_be_made(family: str) -> None:
    name, make = faces.CUTS[family]
    kept, made = TTFont(font_file(family)), TTFont(BytesIO(make()))
    assert (faces.FOLDER / name).read_bytes() == font_bytes(family)
    assert kept.getBestCmap() == made.getBestCmap()
    assert kept["hmtx"].metrics == made["hmtx"].metrics
    for glyph in kept.getGlyphOrder():  # another fontTools may write the same outlines otherwise
        outlines = (font["glyf"][glyph].getCoordinates(font["glyf"]) for font in (kept, made))
        (ours, *_), (theirs, *_) = outlines
        assert list(ours) == list(theirs)


def test_the_minus_is_a_bar_as_long_as_that_of_the_plus_and_as_wide_as_a_digit() -> None:
    font = TTFont(font_file(SIGNS_FAMILY))
    pen = BoundsPen(font.getGlyphSet())
    font.getGlyphSet()[font.getBestCmap()[ord(MINUS)]].draw(pen)
    left, bottom, right, top = pen.bounds
    assert (right - left, top - bottom) == (460, 82)
    wide = metrics.width(MINUS, 1000, SIGNS_FAMILY)
    assert wide == metrics.width(MINUS, 1000, FAMILY)
    assert left == pytest.approx(wide - right, abs=1)


def test_headings_hold_every_letter_of_the_words_files() -> None:
    assert metrics.missing("áéíóúñü¿¡«»“”’–—×%…", metrics.HEADING_FAMILY) == ""
    assert metrics.runs("Žofie 3", metrics.HEADING_FAMILY) == ((metrics.HEADING_FAMILY, "Žofie 3"),)
    assert metrics.runs("Ωmega 3", metrics.HEADING_FAMILY)[0][0] == metrics.WIDE_FAMILY


def test_the_minus_of_a_sum_is_the_drawn_one() -> None:
    """The face's own is its hyphen's shape, 0.34 em; a heading's is drawn with its digits."""
    assert metrics.runs("43 − 17") == ((FAMILY, "43 "), (SIGNS_FAMILY, MINUS), (FAMILY, " 17"))
    assert metrics.runs("Žofie: 4 − 2")[-2:] == ((SIGNS_FAMILY, MINUS), (FAMILY, " 2"))
    heading = metrics.HEADING_FAMILY
    assert metrics.runs("43 − 17", heading) == ((heading, "43 − 17"),)
    assert metrics.width("43 − 17", 10) == metrics.width("43 17", 10) + metrics.width("− ", 10)
    assert metrics.area(MINUS, 10) == pytest.approx(100 * 0.46 * 0.082)
