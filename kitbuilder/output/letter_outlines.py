"""The outlines of letters, so that no typeface is needed to show words."""

from functools import cache, lru_cache
from typing import Any

from kitbuilder.design import metrics
from kitbuilder.design.typefaces import font_file


@cache
def _font(family: str) -> tuple[Any, dict[int, str], float]:
    from fontTools.ttLib import TTFont

    font = TTFont(font_file(family))
    return font.getGlyphSet(), font.getBestCmap(), font["head"].unitsPerEm


def outlined(text: str, x: float, y: float, size: float, family: str = metrics.FAMILY) -> str:
    """Return ``text`` as an SVG path: baseline from (x, y), ``size`` mm to the em, y down.

    Letters stand one advance apart, as in the PDF. Lengths have three decimals.
    """
    from fontTools.pens.svgPathPen import SVGPathPen

    pen = SVGPathPen(_font(family)[0], _n)
    _draw(pen, text, x, y, size, family)
    return str(pen.getCommands())


def _n(value: float) -> str:
    return f"{round(value, 7):.3f}".rstrip("0").rstrip(".")  # rounded twice, as in a PDF


@lru_cache(512)
def _glyph(family: str, letter: str) -> tuple[Any, float]:
    """Return how a letter is drawn, read from its font once, and its width."""
    from fontTools.pens.recordingPen import DecomposingRecordingPen

    glyphs, names, _ = _font(family)
    glyph, drawn = glyphs[names[ord(letter)]], DecomposingRecordingPen(glyphs)
    glyph.draw(drawn)
    return drawn, glyph.width


def _draw(pen: Any, text: str, x: float, y: float, size: float, family: str) -> None:
    from fontTools.pens.transformPen import TransformPen

    scale = size / _font(family)[2]
    for letter in text:
        drawn, width = _glyph(family, letter)
        drawn.replay(TransformPen(pen, (scale, 0, 0, -scale, x, y)))
        x += width * scale
