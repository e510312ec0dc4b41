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
from kitbuilder.design.measures import measured, measures
from kitbuilder.design.typefaces import (
    FAMILIES,
    FAMILY,
    HEADING_FAMILY,
    MINUS,
    SIGNS_FAMILY,
    WIDE_FAMILY,
    font_bytes,
    font_file,
    measures_table,
)
from kitbuilder.output.pdf.subset import only


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


@pytest.mark.parametrize("family", FAMILIES)
def test_the_table_of_a_typeface_says_what_its_font_measures(family: str) -> None:
    """Read with fontTools; the hash in the table is that of this very font."""
    font = font_bytes(family)
    assert measures_table(family).decode() == measured(font).table(font)
    assert measures(family) == measured(font)


def test_another_font_than_the_one_in_the_table_is_measured(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """As where a newer package of the typeface is installed."""
    other, usual = font_bytes(HEADING_FAMILY), measures(FAMILY)  # held from here on, for all tests
    monkeypatch.setattr("kitbuilder.design.measures.font_bytes", lambda _: other)
    assert measures.__wrapped__(FAMILY) == measured(other) != usual


@pytest.mark.parametrize(
    ("family", "letters"),
    [(FAMILY, "añ3"), (HEADING_FAMILY, "Éé"), (SIGNS_FAMILY, MINUS), (WIDE_FAMILY, "Жőa")],
)
def test_a_subset_has_the_outlines_of_its_letters_and_no_others(family: str, letters: str) -> None:
    """fontTools reads it and finds every checksum right; letters made of parts keep them."""
    found = measures(family).letters
    codes = dict(enumerate(letters, 97))
    made = only(font_bytes(family), {code: found[one].glyph for code, one in codes.items()})
    small, whole = TTFont(BytesIO(made), checkChecksums=2), TTFont(font_file(family))
    names, ours = whole.getBestCmap(), small["cmap"].getcmap(1, 0).cmap
    assert set(ours) == set(codes)
    for code, letter in codes.items():
        name, our = names[ord(letter)], ours[code]
        there, here = (
            f["glyf"][n].getCoordinates(f["glyf"]) for f, n in ((whole, name), (small, our))
        )
        assert (here[0], list(here[1]), here[2]) == (there[0], list(there[1]), there[2])
        assert small["hmtx"][our] == whole["hmtx"][name]
    kept = {whole.getGlyphOrder()[0], *(names[ord(letter)] for letter in letters)}
    for name in set(kept):
        kept |= set(whole["glyf"][name].getComponentNames(whole["glyf"]))
    assert len(small.getGlyphOrder()) == len(kept)


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
