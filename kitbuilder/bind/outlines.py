"""Turns words into the outlines of their letters, so that no typeface is needed to show them."""

from functools import cache
from typing import Any

from kitbuilder import measure
from kitbuilder.bind.wide import REGULAR


@cache
def _font(family: str) -> tuple[Any, dict[int, str], float]:
    from fontTools.ttLib import TTFont

    wide = family == measure.WIDE_FAMILY
    font = TTFont(measure.wide_typeface() if wide else measure.typeface())
    glyphs = font.getGlyphSet(location=REGULAR if wide else None)
    return glyphs, font.getBestCmap(), font["head"].unitsPerEm


def outlined(text: str, x: float, y: float, size: float, family: str = measure.FAMILY) -> str:
    """Return ``text`` as an SVG path: baseline from (x, y), ``size`` mm to the em, y down.

    ``family`` is the typeface's, or that of the wide one. Letters stand one advance apart, as
    cairo sets them. Lengths have three decimals.
    """
    from fontTools.pens.svgPathPen import SVGPathPen
    from fontTools.pens.transformPen import TransformPen

    glyphs, names, em = _font(family)
    scale = size / em
    pen = SVGPathPen(glyphs, lambda value: f"{value:.3f}".rstrip("0").rstrip("."))
    for letter in text:
        glyph = glyphs[names[ord(letter)]]
        glyph.draw(TransformPen(pen, (scale, 0, 0, -scale, x, y)))
        x += glyph.width * scale
    return str(pen.getCommands())
