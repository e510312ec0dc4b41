"""Turns words into the outlines of their letters, so that no typeface is needed to show them."""

from functools import cache
from pathlib import Path
from typing import Any

from kitbuilder import measure


@cache
def _font(path: Path) -> tuple[Any, dict[int, str], float]:
    from fontTools.ttLib import TTFont

    font = TTFont(path)
    return font.getGlyphSet(), font.getBestCmap(), font["head"].unitsPerEm


def outlined(text: str, x: float, y: float, size: float) -> str:
    """Return ``text`` as an SVG path: baseline from (x, y), ``size`` mm to the em, y down.

    Letters stand one advance apart, as cairo sets them. Lengths have three decimals.
    """
    from fontTools.pens.svgPathPen import SVGPathPen
    from fontTools.pens.transformPen import TransformPen

    glyphs, names, em = _font(measure.typeface())
    scale = size / em
    pen = SVGPathPen(glyphs, lambda value: f"{value:.3f}".rstrip("0").rstrip("."))
    for letter in text:
        glyph = glyphs[names[ord(letter)]]
        glyph.draw(TransformPen(pen, (scale, 0, 0, -scale, x, y)))
        x += glyph.width * scale
    return str(pen.getCommands())
