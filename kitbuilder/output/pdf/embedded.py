"""Typefaces embedded in a PDF: simple fonts that hold the letters used and no others.

A code is one byte (ISO 32000-1, 9.6.3 and 9.6.6.4, from memory): that of ASCII for its letters,
which then stand in a page as they are, and from 128 on for others in the order of first use. A
font holds 128 others; where more are used, further fonts hold them.
"""

from hashlib import sha256
from itertools import groupby
from operator import itemgetter
from typing import Any

import pydyf

from kitbuilder.design.measures import Measures, measures
from kitbuilder.design.typefaces import font_bytes
from kitbuilder.output.pdf.objects import Packed, packed
from kitbuilder.output.pdf.subset import only

_SYMBOLIC = 4
"""The flag of a font whose codes follow no standard alphabet."""

_STEM = 80
"""How thick a stem is, in thousandths of an em; for readers that have lost the font (practice)."""

_OTHERS = 128
"""The first code that is not of ASCII, and how many of them there are."""

_ESCAPED = str.maketrans({**{sign: f"\\{sign}" for sign in "()\\"}, "\r": r"\r", "\xa0": " "})
"""Signs that a literal string may not hold as they are; a no-break space is a space."""

_TO_UNICODE = """/CIDInit /ProcSet findresource begin
12 dict begin
begincmap
/CMapName /Letters def
/CMapType 2 def
1 begincodespacerange
<00> <ff>
endcodespacerange
1 beginbfrange
<20> <7e> <0020>
endbfrange
{pairs}
endcmap
CMapName currentdict /CMap defineresource pop
end
end"""

_MOST_PAIRS = 100
"""Pairs that one block of a table of codes may hold."""


class Typeface:
    """One typeface and the letters used of it; pages call its first font ``name``."""

    def __init__(self, family: str, name: str) -> None:
        self.family = family
        self.name = name
        self._ascii = set[str]()
        self._others: dict[str, tuple[str, str]] = {}

    def runs(self, text: str) -> list[tuple[str, str]]:
        """Return ``text`` as names of fonts, each with the codes it shows, as of a literal string.

        A character of what is returned is a byte.
        """
        if text.isascii():
            self._ascii.update(text)
            return [(self.name, text.translate(_ESCAPED))]
        found = [self._found(letter) for letter in text.replace("\xa0", " ")]
        runs = groupby(found, itemgetter(0))
        return [(name, "".join([code for _, code in run])) for name, run in runs]

    def _found(self, letter: str) -> tuple[str, str]:
        """Return the font and the code of one letter."""
        if letter.isascii():
            self._ascii.add(letter)
            return self.name, letter.translate(_ESCAPED)
        if letter not in self._others:
            font, code = divmod(len(self._others), _OTHERS)
            self._others[letter] = (self._font_name(font), chr(_OTHERS + code))
        return self._others[letter]

    def _font_name(self, number: int) -> str:
        return f"{self.name}.{number}" if number else self.name

    def add_to(self, document: pydyf.PDF) -> dict[str, bytes]:
        """Add the fonts with their letters so far to ``document``; return their references."""
        fonts: dict[str, dict[int, str]] = {
            self.name: {ord(one): one for one in sorted(self._ascii)}
        }
        for letter, (name, code) in self._others.items():
            fonts.setdefault(name, {})[ord(code)] = letter
        return {name: _add_font(document, self.family, codes) for name, codes in fonts.items()}


def _add_font(document: pydyf.PDF, family: str, codes: dict[int, str]) -> bytes:
    """Add the font of ``codes``, in rising order, to ``document``; return its reference."""
    found = measures(family)
    letters = {code: found.letters[letter] for code, letter in codes.items()}
    content = only(font_bytes(family), {code: letter.glyph for code, letter in letters.items()})
    first, last = min(codes), max(codes)
    advances = [letters[c].advance if c in letters else 0 for c in range(first, last + 1)]
    name = f"/{_tag(''.join(codes.values()))}+{family.replace(' ', '')}-Regular"
    file = Packed(packed(content), {"Length1": len(content)})
    table = Packed(packed(_to_unicode(codes)))
    descriptor, font = pydyf.Dictionary(_described(found)), pydyf.Dictionary()
    for part in (file, table, descriptor, font):
        document.add_object(part)
    descriptor |= {"FontName": name, "FontFile2": file.reference}
    font |= {
        "Type": "/Font",
        "Subtype": "/TrueType",
        "BaseFont": name,
        "FirstChar": first,
        "LastChar": last,
        "Widths": pydyf.Array(round(advance * 1000 / found.em, 3) for advance in advances),
        "FontDescriptor": descriptor.reference,
        "ToUnicode": table.reference,
    }
    return bytes(font.reference)


def _described(found: Measures) -> dict[str, Any]:
    """Return what a font's descriptor says, in thousandths of an em."""
    scale = 1000 / found.em
    return {
        "Type": "/FontDescriptor",
        "Flags": _SYMBOLIC,
        "FontBBox": pydyf.Array(round(side * scale) for side in found.box),
        "ItalicAngle": 0,
        "Ascent": round(found.ascent * scale),
        "Descent": round(found.descent * scale),
        "CapHeight": round(found.capital * scale),
        "StemV": _STEM,
    }


def _tag(letters: str) -> str:
    """Return six capitals that tell a subset of ``letters`` from others."""
    return "".join(chr(65 + byte % 26) for byte in sha256(letters.encode()).digest()[:6])


def _to_unicode(codes: dict[int, str]) -> bytes:
    """Return the table that tells readers the letter of each code."""
    pairs = [
        f"<{code:02x}> <{letter.encode('utf-16-be').hex()}>"
        for code, letter in codes.items()
        if code >= _OTHERS
    ]
    blocks = [pairs[at : at + _MOST_PAIRS] for at in range(0, len(pairs), _MOST_PAIRS)]
    said = "\n".join(
        "\n".join((f"{len(block)} beginbfchar", *block, "endbfchar")) for block in blocks
    )
    return _TO_UNICODE.format(pairs=said).encode("ascii")
