"""Turns a string in a typeface and size into millimetres."""

import re
import unicodedata
from functools import cache, lru_cache
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING, Any

from kitbuilder.errors import RefusedError

if TYPE_CHECKING:
    from fontTools.ttLib import TTFont

FAMILY = "ABeeZee"
"""The typeface of everything printed: plain zero, open 4, single-storey a."""

WIDE_FAMILY = "Noto Sans"
"""The typeface of words that ABeeZee lacks letters for: Latin with every mark, and more."""

WIDE_LETTERS = (
    (0x20, 0x300),  # Latin
    (0x370, 0x530),  # Greek and Cyrillic
    (0x1E00, 0x1F00),  # Latin with marks
    (0x2010, 0x2040),  # signs between words
    (0xA720, 0xA800),  # rarer Latin
)
"""Ranges of characters that are set in the wide typeface."""

_BREAK = re.compile(r"(?<![−+=]) (?![−+=])")


@cache
def typeface() -> Path:
    """Return the file of the regular cut."""
    import fontpkg_abeezee

    return Path(fontpkg_abeezee.ROOT) / "files" / "ABeeZee-Regular.ttf"


@cache
def wide_typeface() -> Path:
    """Return the file of the wide typeface, whose weight and width can be varied."""
    import fontpkg_noto_sans

    return Path(fontpkg_noto_sans.ROOT) / "files" / "NotoSans[wdth,wght].ttf"


@cache
def _metrics() -> tuple[dict[str, float], float, float]:
    from fontTools.ttLib import TTFont

    with TTFont(typeface(), lazy=True) as font:
        return _widths(font), *(h / font["head"].unitsPerEm for h in _heights(font))


def _heights(font: "TTFont") -> tuple[int, int]:
    return font["OS/2"].sxHeight, font["OS/2"].sCapHeight


def _widths(font: "TTFont") -> dict[str, float]:
    """Return the width of each letter that is to be seen; hidden ones count as missing."""
    em, advances = font["head"].unitsPerEm, font["hmtx"].metrics
    seen = {chr(c): name for c, name in font.getBestCmap().items()}
    return {c: advances[n][0] / em for c, n in seen.items() if c.isprintable() or c == "\xa0"}


@cache
def _wide_widths() -> dict[str, float]:
    """Return the widths of letters of the wide typeface that can stand alone.

    Marks that combine with the letter before are left out: nothing here would place them.
    """
    from fontTools.ttLib import TTFont

    with TTFont(wide_typeface(), lazy=True) as font:
        return {
            c: w
            for c, w in _widths(font).items()
            if any(first <= ord(c) < end for first, end in WIDE_LETTERS)
            and not unicodedata.combining(c)
        }


def x_height(size: float) -> float:
    """Return the height in mm of a small x set at ``size`` mm."""
    return _metrics()[1] * size


def digit_height(size: float) -> float:
    """Return the height in mm of a digit or capital set at ``size`` mm."""
    return _metrics()[2] * size


def missing(text: str) -> str:
    """Return the characters of ``text`` that the typeface lacks, each once, in order."""
    widths = _metrics()[0]
    return "".join(dict.fromkeys(c for c in text if c not in widths))


def unprintable(text: str) -> str:
    """Return the characters of ``text`` that no typeface has, or none for its word."""
    lacking = ""
    for word in text.split(" "):
        if missing(word):
            lacking += "".join(c for c in word if c not in _wide_widths())
    return "".join(dict.fromkeys(lacking))


def runs(text: str) -> tuple[tuple[str, str], ...]:
    """Return ``text`` in runs of one typeface: (family, run), spaces with the run before.

    A word that holds a letter the typeface lacks is set whole in the wide one.
    """
    if not missing(text):
        return ((FAMILY, text),)
    found: list[tuple[str, str]] = []
    for word in re.findall(r"[^ ]+ *| +", text):
        family = WIDE_FAMILY if missing(word) else FAMILY
        if found and found[-1][0] == family:
            found[-1] = (family, found[-1][1] + word)
        else:
            found.append((family, word))
    return tuple(found)


def width(text: str, size: float) -> float:
    """Return the advance width of ``text`` in mm, set at ``size`` mm (no kerning).

    Raises ``RefusedError`` naming a character that no typeface has.
    """
    return _advance(text) * size


@lru_cache(10_000)
def _advance(text: str) -> float:
    """Return the advance width of ``text`` in ems: the same words are measured again and again."""
    widths = _metrics()[0]
    try:
        return sum([widths[c] for c in text])
    except KeyError:
        lacking = unprintable(text)
    if lacking:
        raise RefusedError(f"The typeface cannot print {lacking!r} in {text[:60]!r}; leave it out.")
    known = {FAMILY: widths, WIDE_FAMILY: _wide_widths()}
    return sum(known[family][c] for family, run in runs(text) for c in run)


def wrap(text: str, size: float, room: float) -> tuple[str, ...]:
    """Break ``text`` at spaces into lines no wider than ``room`` mm at ``size`` mm.

    A single word that is wider stands on a line of its own. A no-break space never breaks,
    nor does a space beside a sign (− + =), so that a sum stays whole.
    """
    lines: list[str] = []
    for word in _BREAK.split(text):
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and width(longer, size) <= room:
            lines[-1] = longer
        else:
            lines.append(word)
    return tuple(lines)


def broken(text: str, size: float, room: float) -> tuple[str, ...]:
    """Break ``text`` as ``wrap`` does, and a word wider than ``room`` wherever it is full."""
    lines: list[str] = []
    for line in wrap(text, size, room):
        held = ""
        for letter in line:
            if held and width(held + letter, size) > room:
                lines.append(held)
                held = ""
            held += letter
        lines.append(held)
    return tuple(lines)


def area(text: str, size: float) -> float:
    """Return the area in mm² that the letters of ``text`` cover, set at ``size`` mm."""
    return sum(_glyph_area(f, letter) for f, run in runs(text) for letter in run) * size * size


@cache
def _glyph_area(family: str, letter: str) -> float:
    """Return the area of a letter in squares of the em, its holes left out."""
    from fontTools.pens.areaPen import AreaPen

    glyphs, names, em = _outlines(family)
    pen = AreaPen(glyphs)
    glyphs[names[ord(letter)]].draw(pen)
    return abs(float(pen.value)) / em**2


@cache
def _outlines(family: str) -> tuple[Any, dict[int, str], float]:
    """Return a typeface's glyphs, the name of each character's glyph, and the em."""
    from fontTools.ttLib import TTFont

    file = typeface() if family == FAMILY else wide_typeface()
    font = TTFont(BytesIO(file.read_bytes()))
    return font.getGlyphSet(), font.getBestCmap(), float(font["head"].unitsPerEm)
