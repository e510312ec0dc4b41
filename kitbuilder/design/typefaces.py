"""The typefaces that words are set in, each as one static font file held in memory."""

from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from io import BytesIO
from pathlib import Path

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

_HEADING_CUT = {"wght": 480, "wdth": 100}
_WIDE_CUT = {"wght": 400, "wdth": 100}
_HEADING_LETTERS = ((0x20, 0x180), (0x2010, 0x2040), (0x2212, 0x2213))

_NO_DAY = 3_400_000_000
"""When the minus was made, in seconds since 1904: any one, but always the same."""

_MINUS_LONG, _MINUS_THICK, _MINUS_TOP = 0.46, 0.082, 0.384
"""The minus in ems: as long and as thick as the plus's bar, its top above the baseline."""


def font_file(family: str) -> BytesIO:
    """Return the font file of ``family``, ready to be opened; always the same bytes.

    Raises ``KeyError`` for a family that is not one of the four.
    """
    return BytesIO(font_bytes(family))


@cache
def font_bytes(family: str) -> bytes:
    """Return the font file of ``family`` as bytes: static outlines, no varying axes.

    A packed program holds the files as they were made here.
    """
    held = files("kitbuilder") / "_faces" / f"{family}.ttf"
    return held.read_bytes() if held.is_file() else _MADE[family]()


def _plain() -> bytes:
    import fontpkg_abeezee

    return (Path(fontpkg_abeezee.ROOT) / "files" / "ABeeZee-Regular.ttf").read_bytes()


def _heading() -> bytes:
    import fontpkg_fredoka

    path = Path(fontpkg_fredoka.ROOT) / "files" / "Fredoka[wdth,wght].ttf"
    return _cut(path, _HEADING_CUT, _HEADING_LETTERS)


def _wide() -> bytes:
    import fontpkg_noto_sans

    path = Path(fontpkg_noto_sans.ROOT) / "files" / "NotoSans[wdth,wght].ttf"
    return _cut(path, _WIDE_CUT, WIDE_LETTERS)


def _cut(path: Path, place: Mapping[str, float], letters: tuple[tuple[int, int], ...]) -> bytes:
    """Return one cut of the variable typeface at ``path``, with ``letters`` alone."""
    from fontTools import subset
    from fontTools.ttLib import TTFont
    from fontTools.varLib import instancer

    options = subset.Options(layout_features=[], hinting=False, notdef_outline=True)
    file = BytesIO()
    with TTFont(path, lazy=True, recalcTimestamp=False) as font:
        subsetter = subset.Subsetter(options)
        subsetter.populate(unicodes=[c for first, end in letters for c in range(first, end)])
        subsetter.subset(font)
        instancer.instantiateVariableFont(font, place, inplace=True)
        font.save(file)
    return file.getvalue()


def _signs() -> bytes:
    """Return a typeface of the minus and the spaces beside it, as wide as those of ABeeZee."""
    from fontTools.fontBuilder import FontBuilder
    from fontTools.pens.ttGlyphPen import TTGlyphPen
    from fontTools.ttLib import TTFont

    with TTFont(font_file(FAMILY), lazy=True) as plain:
        em, names, advances = plain["head"].unitsPerEm, plain.getBestCmap(), plain["hmtx"].metrics
        wide = {c: advances[names[ord(c)]][0] for c in (MINUS, " ", "\xa0")}
        ascent, descent = plain["hhea"].ascent, plain["hhea"].descent
        capital = plain["OS/2"].sCapHeight
    left = (wide[MINUS] - _MINUS_LONG * em) / 2
    right, top = wide[MINUS] - left, _MINUS_TOP * em
    bottom = top - _MINUS_THICK * em
    pen = TTGlyphPen(None)
    for move, point in zip(
        (pen.moveTo, pen.lineTo, pen.lineTo, pen.lineTo),
        ((left, bottom), (left, top), (right, top), (right, bottom)),
        strict=True,
    ):
        move((round(point[0]), round(point[1])))
    pen.closePath()
    none = TTGlyphPen(None).glyph
    builder = FontBuilder(em, isTTF=True)
    builder.setupGlyphOrder([".notdef", "minus", "space", "nbsp"])
    builder.setupCharacterMap({ord(MINUS): "minus", 0x20: "space", 0xA0: "nbsp"})
    builder.setupGlyf({".notdef": none(), "minus": pen.glyph(), "space": none(), "nbsp": none()})
    builder.setupHorizontalMetrics(
        {
            ".notdef": (wide[" "], 0),
            "minus": (wide[MINUS], round(left)),
            "space": (wide[" "], 0),
            "nbsp": (wide["\xa0"], 0),
        }
    )
    builder.setupHorizontalHeader(ascent=ascent, descent=descent)
    builder.setupOS2(sCapHeight=capital, sxHeight=round(top))
    builder.setupPost()
    builder.setupNameTable({"familyName": SIGNS_FAMILY, "styleName": "Regular"})
    builder.font["head"].created = builder.font["head"].modified = _NO_DAY
    builder.font.recalcTimestamp = False
    file = BytesIO()
    builder.save(file)
    return file.getvalue()


_MADE = {
    FAMILY: _plain,
    HEADING_FAMILY: _heading,
    SIGNS_FAMILY: _signs,
    WIDE_FAMILY: _wide,
}

FAMILIES = tuple(_MADE)
"""Every typeface that may be embedded."""
