"""What the letters of a typeface measure, read from a table made beforehand.

Opening a font takes longer than laying out a page, so its measures stand beside it in
``faces/`` (``tests/faces.py`` makes them). Where a font is not the one that was measured, it is
measured here.
"""

import json
from dataclasses import fields
from functools import cache
from hashlib import sha256
from io import BytesIO
from typing import Any, NamedTuple

from kitbuilder.design.typefaces import font_bytes, measures_table
from kitbuilder.frozen import frozen


class Letter(NamedTuple):
    """The number of a letter's glyph, its advance in units of the em, and its area in their square.

    The area leaves holes out.
    """

    glyph: int
    advance: int
    area: float


@frozen
class Measures:
    """A typeface in units of its ``em``: the box of all glyphs, heights, and its letters.

    ``letters`` are those that are to be seen, and the no-break space; hidden characters are
    left out. ``empty`` is the advance of the glyph for what is missing.
    """

    em: int
    box: tuple[int, int, int, int]
    ascent: int
    descent: int
    x_height: int
    capital: int
    empty: int
    letters: dict[str, Letter]

    def table(self, font: bytes) -> str:
        """Return the measures of ``font`` as JSON; see ``measures``."""
        told = {one.name: getattr(self, one.name) for one in fields(self)}
        return json.dumps({"sha256": sha256(font).hexdigest(), **told}) + "\n"


@cache
def measures(family: str) -> Measures:
    """Return the measures of ``family``: from its table, where that is of the very same font."""
    font = font_bytes(family)
    told: dict[str, Any] = json.loads(measures_table(family))
    if told.pop("sha256") != sha256(font).hexdigest():
        return measured(font)
    told["box"] = tuple(told["box"])
    told["letters"] = {letter: Letter(*found) for letter, found in told["letters"].items()}
    return Measures(**told)


def measured(font: bytes) -> Measures:
    """Return the measures of a font file."""
    from fontTools.pens.areaPen import AreaPen
    from fontTools.ttLib import TTFont

    with TTFont(BytesIO(font)) as opened:
        head, lines, os2 = opened["head"], opened["hhea"], opened["OS/2"]
        glyphs, advances = opened.getGlyphSet(), opened["hmtx"].metrics
        letters = {}
        for code, name in sorted(opened.getBestCmap().items()):
            if chr(code).isprintable() or chr(code) == "\xa0":
                pen = AreaPen(glyphs)
                glyphs[name].draw(pen)
                area = abs(float(pen.value))
                letters[chr(code)] = Letter(opened.getGlyphID(name), advances[name][0], area)
        return Measures(
            head.unitsPerEm,
            (head.xMin, head.yMin, head.xMax, head.yMax),
            lines.ascent,
            lines.descent,
            os2.sxHeight,
            os2.sCapHeight,
            advances[opened.getGlyphOrder()[0]][0],
            letters,
        )
