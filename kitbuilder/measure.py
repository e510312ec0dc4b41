"""Turns a string in a typeface and size into millimetres."""

import re
from functools import cache
from io import BytesIO
from pathlib import Path
from typing import Any

from kitbuilder.errors import RefusedError

FAMILY = "ABeeZee"
"""The typeface of everything printed: plain zero, open 4, single-storey a."""


_BREAK = re.compile(r"(?<!−) (?!−)")


@cache
def typeface() -> Path:
    """Return the file of the regular cut."""
    import fontpkg_abeezee

    return Path(fontpkg_abeezee.ROOT) / "files" / "ABeeZee-Regular.ttf"


@cache
def _metrics() -> tuple[dict[str, float], float, float]:
    from fontTools.ttLib import TTFont

    with TTFont(typeface(), lazy=True) as font:
        em = font["head"].unitsPerEm
        advances = font["hmtx"].metrics
        widths = {chr(c): advances[name][0] / em for c, name in font.getBestCmap().items()}
        return widths, font["OS/2"].sxHeight / em, font["OS/2"].sCapHeight / em


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


def width(text: str, size: float) -> float:
    """Return the advance width of ``text`` in mm, set at ``size`` mm (no kerning).

    Raises ``RefusedError`` naming a character that the typeface lacks.
    """
    widths = _metrics()[0]
    try:
        return sum(widths[c] for c in text) * size
    except KeyError:
        raise RefusedError(
            f"The typeface cannot print {missing(text)!r} in {text[:60]!r}; leave it out."
        ) from None


def wrap(text: str, size: float, room: float) -> tuple[str, ...]:
    """Break ``text`` at spaces into lines no wider than ``room`` mm at ``size`` mm.

    A single word that is wider stands on a line of its own. A no-break space never breaks,
    nor does a space beside a minus sign, so that a sum stays whole.
    """
    lines: list[str] = []
    for word in _BREAK.split(text):
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and width(longer, size) <= room:
            lines[-1] = longer
        else:
            lines.append(word)
    return tuple(lines)


def area(text: str, size: float) -> float:
    """Return the area in mm² that the letters of ``text`` cover, set at ``size`` mm."""
    return sum(_glyph_area(letter) for letter in text) * size * size


@cache
def _glyph_area(letter: str) -> float:
    """Return the area of a letter in squares of the em, its holes left out."""
    from fontTools.pens.areaPen import AreaPen

    glyphs, names, em = _outlines()
    pen = AreaPen(glyphs)
    glyphs[names[ord(letter)]].draw(pen)
    return abs(float(pen.value)) / em**2


@cache
def _outlines() -> tuple[Any, dict[int, str], float]:
    """Return the typeface's glyphs, the name of each character's glyph, and the em."""
    from fontTools.ttLib import TTFont

    font = TTFont(BytesIO(typeface().read_bytes()))
    return font.getGlyphSet(), font.getBestCmap(), float(font["head"].unitsPerEm)
