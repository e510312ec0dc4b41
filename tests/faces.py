"""Makes the cuts of typefaces in kitbuilder/design/faces/ anew: run it, then look at the pages."""

from collections.abc import Mapping
from io import BytesIO
from pathlib import Path

from kitbuilder.design.measures import measured
from kitbuilder.design.typefaces import (
    FAMILIES,
    FAMILY,
    HEADING_FAMILY,
    MINUS,
    SIGNS_FAMILY,
    WIDE_FAMILY,
    WIDE_LETTERS,
    font_bytes,
    font_file,
    measures_name,
)

FOLDER = Path(__file__).parents[1] / "kitbuilder" / "design" / "faces"

_HEADING_CUT = {"wght": 480, "wdth": 100}
_WIDE_CUT = {"wght": 400, "wdth": 100}
_HEADING_LETTERS = ((0x20, 0x180), (0x2010, 0x2040), (0x2212, 0x2213))

_NO_DAY = 3_400_000_000
"""When the minus was made, in seconds since 1904: any one, but always the same."""

_MINUS_LONG, _MINUS_THICK, _MINUS_TOP = 0.46, 0.082, 0.384
"""The minus in ems: as long and as thick as the plus's bar, its top above the baseline."""


def heading() -> bytes:
    import fontpkg_fredoka

    path = Path(fontpkg_fredoka.ROOT) / "files" / "Fredoka[wdth,wght].ttf"
    return _cut(path, _HEADING_CUT, _HEADING_LETTERS)


def wide() -> bytes:
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


def signs() -> bytes:
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
    pen.moveTo((round(left), round(bottom)))
    for x, y in ((left, top), (right, top), (right, bottom)):
        pen.lineTo((round(x), round(y)))
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


CUTS = {
    HEADING_FAMILY: ("Fredoka-480.ttf", heading),
    SIGNS_FAMILY: ("KitSigns.ttf", signs),
    WIDE_FAMILY: ("NotoSans-Regular.ttf", wide),
}


def main() -> None:
    """Write the cuts, the licences of what they are made of, and what all typefaces measure."""
    import fontpkg_fredoka
    import fontpkg_noto_sans

    FOLDER.mkdir(exist_ok=True)
    for name, made in CUTS.values():
        (FOLDER / name).write_bytes(made())
    for family in FAMILIES:
        font = font_bytes(family)
        (FOLDER / measures_name(family)).write_text(measured(font).table(font), "utf-8")
    for name, package in (("Fredoka", fontpkg_fredoka), ("NotoSans", fontpkg_noto_sans)):
        text = (Path(package.ROOT) / "LICENSE").read_bytes()
        (FOLDER / f"{name}-LICENSE.txt").write_bytes(text)


if __name__ == "__main__":
    main()
