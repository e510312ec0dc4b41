"""Typefaces embedded in a PDF: composite fonts that hold the letters used and no others.

A letter's code is its place in the order of first use (ISO 32000-1, 9.7, from memory).
"""

from hashlib import sha256
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

_TO_UNICODE = """/CIDInit /ProcSet findresource begin
12 dict begin
begincmap
/CMapName /Letters def
/CMapType 2 def
1 begincodespacerange
<0000> <ffff>
endcodespacerange
{pairs}
endcmap
CMapName currentdict /CMap defineresource pop
end
end"""

_MOST_PAIRS = 100
"""Pairs that one block of a table of codes may hold."""


class Typeface:
    """One typeface and the letters used of it; pages call it ``name``."""

    def __init__(self, family: str, name: str) -> None:
        self.family = family
        self.name = name
        self._codes: dict[str, str] = {}

    def code(self, text: str) -> str:
        """Return ``text`` as hexadecimal codes, four digits a letter."""
        codes = self._codes
        return "".join([codes.get(c) or codes.setdefault(c, f"{len(codes) + 1:04x}") for c in text])

    def add_to(self, document: pydyf.PDF) -> bytes:
        """Add the font with its letters so far to ``document``; return its reference."""
        found = measures(self.family)
        letters = [found.letters[letter] for letter in self._codes]
        glyphs = [0, *(letter.glyph for letter in letters)]
        advances = (found.empty, *(letter.advance for letter in letters))
        widths = [round(advance * 1000 / found.em, 3) for advance in advances]
        content = only(font_bytes(self.family), glyphs)
        parts = (
            Packed(packed(content), {"Length1": len(content)}),
            pydyf.Dictionary(_described(found)),
            Packed(packed(b"".join(glyph.to_bytes(2, "big") for glyph in glyphs))),
            Packed(packed(_to_unicode(self._codes))),
            pydyf.Dictionary(),
            pydyf.Dictionary(),
        )
        for part in parts:
            document.add_object(part)
        file, descriptor, map_, table, below, whole = parts
        tag = _tag("".join(self._codes))
        name = f"/{tag}+{self.family.replace(' ', '')}-Regular"
        descriptor |= {"FontName": name, "FontFile2": file.reference}
        below |= _letters_of(name) | {
            "FontDescriptor": descriptor.reference,
            "W": pydyf.Array([0, pydyf.Array(widths)]),
            "CIDToGIDMap": map_.reference,
        }
        whole |= {
            "Type": "/Font",
            "Subtype": "/Type0",
            "BaseFont": name,
            "Encoding": "/Identity-H",
            "DescendantFonts": pydyf.Array([below.reference]),
            "ToUnicode": table.reference,
        }
        return bytes(whole.reference)


def _letters_of(name: str) -> dict[str, Any]:
    """Return what every font says that a composite one called ``name`` takes its letters from."""
    system = {
        "Registry": pydyf.String("Adobe"),
        "Ordering": pydyf.String("Identity"),
        "Supplement": 0,
    }
    return {
        "Type": "/Font",
        "Subtype": "/CIDFontType2",
        "BaseFont": name,
        "CIDSystemInfo": pydyf.Dictionary(system),
    }


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


def _to_unicode(codes: dict[str, str]) -> bytes:
    """Return the table that tells readers the letter of each code; no-break spaces are spaces."""
    pairs = [
        f"<{code}> <{letter.replace(chr(0xA0), ' ').encode('utf-16-be').hex()}>"
        for letter, code in codes.items()
    ]
    blocks = [pairs[at : at + _MOST_PAIRS] for at in range(0, len(pairs), _MOST_PAIRS)]
    said = "\n".join(
        "\n".join((f"{len(block)} beginbfchar", *block, "endbfchar")) for block in blocks
    )
    return _TO_UNICODE.format(pairs=said).encode("ascii")
