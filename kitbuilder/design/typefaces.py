"""The typefaces that words are set in, each as one static font file held in memory."""

from functools import cache
from io import BytesIO
from pathlib import Path

from kitbuilder.design.shipped_files import held

FAMILY = "ABeeZee"
"""The typeface of everything printed: plain zero, open 4, single-storey a."""

HEADING_FAMILY = "Fredoka"
"""The typeface of headings and of numbers that name a step or a page; never of sums."""

SIGNS_FAMILY = "Kit Signs"
"""The minus, drawn here: that of ABeeZee has the shape of its hyphen."""

WIDE_FAMILY = "Noto Sans"
"""The typeface of words that the others lack letters for: Latin with every mark, and more."""

WIDE_LETTERS = (
    (0x20, 0x300),  # Latin
    (0x370, 0x530),  # Greek and Cyrillic
    (0x1E00, 0x1F00),  # Latin with marks
    (0x2010, 0x2040),  # signs between words
    (0xA720, 0xA800),  # rarer Latin
)
"""Ranges of characters that are set in the wide typeface."""

MINUS = "−"


def font_file(family: str) -> BytesIO:
    """Return the font file of ``family``, ready to be opened; always the same bytes.

    Raises ``KeyError`` for a family that is not one of the four.
    """
    return BytesIO(font_bytes(family))


@cache
def font_bytes(family: str) -> bytes:
    """Return the font file of ``family`` as bytes: static outlines, no varying axes.

    All but the first are cuts that ``tests/faces.py`` makes: to make them takes half a second.
    A packed program holds all of them as they were made here.
    """
    packed = held("_faces", f"{family}.ttf")
    if packed.is_file():
        return packed.read_bytes()
    if family == FAMILY:
        import fontpkg_abeezee

        return (Path(fontpkg_abeezee.ROOT) / "files" / "ABeeZee-Regular.ttf").read_bytes()
    return held("design", "faces", _CUTS[family]).read_bytes()


_CUTS = {
    HEADING_FAMILY: "Fredoka-480.ttf",
    SIGNS_FAMILY: "KitSigns.ttf",
    WIDE_FAMILY: "NotoSans-Regular.ttf",
}

FAMILIES = (FAMILY, *_CUTS)
"""Every typeface that may be embedded."""


def measures_name(family: str) -> str:
    """Return the name of the table of what the letters of ``family`` measure, in ``faces/``."""
    return f"{family.replace(' ', '')}.json"


def measures_table(family: str) -> bytes:
    """Return the table of what the letters of ``family`` measure; see ``design/measures.py``."""
    return held("design", "faces", measures_name(family)).read_bytes()
