"""The screen's typefaces, as rules of a style sheet that hold the fonts themselves."""

from base64 import b64encode
from functools import cache
from io import BytesIO

from kitbuilder.design.typefaces import FAMILY, HEADING_FAMILY, SIGNS_FAMILY, font_file

LETTERS = ((0x20, 0x7F), (0xA0, 0x180), (0x2010, 0x2040), (0x20AC, 0x20AD), (0x2212, 0x2213))
"""Ranges of the characters that the screen's sentences and pages may hold."""


@cache
def face_rules() -> str:
    """Return ``@font-face`` rules for text, headings and the minus, each a WOFF file in place."""
    rule = "@font-face{{font-family:'{}';src:url(data:font/woff;base64,{}) format('woff'){}}}\n"
    rules = []
    for family in (FAMILY, HEADING_FAMILY, SIGNS_FAMILY):
        only = ";unicode-range:U+2212" if family == SIGNS_FAMILY else ""
        rules.append(rule.format(family, b64encode(_woff(family)).decode(), only))
    return "".join(rules)


def _woff(family: str) -> bytes:
    """Return the letters of ``family`` that the screen needs, as a WOFF 1.0 file."""
    from fontTools import subset
    from fontTools.ttLib import TTFont

    file = BytesIO()
    with TTFont(font_file(family), recalcTimestamp=False) as font:
        options = subset.Options(layout_features=[], hinting=False, name_IDs=[1, 2])
        subsetter = subset.Subsetter(options)
        subsetter.populate(unicodes=[c for first, end in LETTERS for c in range(first, end)])
        subsetter.subset(font)
        font.flavor = "woff"
        font.save(file)
    return file.getvalue()
