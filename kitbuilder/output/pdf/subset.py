"""A TrueType font without outlines that are not used (OpenType 1.9, glyf and loca, from memory).

Numbers of glyphs stay as they are, so nothing but outlines and where they begin is written anew.
"""

import struct
from collections.abc import Iterable, Iterator
from itertools import pairwise

TABLES = ("cvt ", "fpgm", "glyf", "head", "hhea", "hmtx", "loca", "maxp", "prep")
"""What an embedded TrueType font needs (ISO 32000-1, 9.9, from memory)."""

_WORDS, _SCALE, _MORE, _TWO_SCALES, _MATRIX = 0x1, 0x8, 0x20, 0x40, 0x80
"""Flags of a part of a glyph: how much follows on its place and size, and whether more parts do."""

_SUM = 0xB1B0AFBA
"""What the checksum of a whole font is taken from."""


def only(font: bytes, glyphs: Iterable[int]) -> bytes:
    """Return ``font`` with the tables of ``TABLES`` and, but for ``glyphs``, no outlines.

    A glyph that is made of others keeps them.
    """
    tables = _tables(font)
    form, scale = (">H", 2) if tables["head"][50:52] == b"\0\0" else (">L", 1)
    places = [scale * place for (place,) in struct.iter_unpack(form, tables["loca"])]
    outlines = [tables["glyf"][a:b] for a, b in pairwise(places)]
    kept = set[int]()
    waiting = list(glyphs)
    while waiting:
        glyph = waiting.pop()
        if glyph not in kept:
            kept.add(glyph)
            waiting += _parts(outlines[glyph])
    found, starts = b"", [0]
    for glyph, outline in enumerate(outlines):
        if glyph in kept:
            found += outline + bytes(-len(outline) % 4)
        starts.append(len(found))
    tables["glyf"] = found
    tables["loca"] = b"".join(struct.pack(form, start // scale) for start in starts)
    return _file(tables)


def _tables(font: bytes) -> dict[str, bytes]:
    """Return the tables of ``TABLES`` that a font has, by their tags."""
    (count,) = struct.unpack_from(">H", font, 4)
    found = {}
    for tag, _, start, long in struct.iter_unpack(">4sLLL", font[12 : 12 + 16 * count]):
        name = tag.decode("latin-1")
        if name in TABLES:
            found[name] = font[start : start + long]
    return found


def _parts(outline: bytes) -> Iterator[int]:
    """Yield the glyphs that a glyph is made of."""
    if outline[:1] < b"\x80":  # it has contours of its own, or none
        return
    at, flags = 10, _MORE
    while flags & _MORE:
        flags, glyph = struct.unpack_from(">HH", outline, at)
        yield glyph
        at += 8 if flags & _WORDS else 6
        at += 2 if flags & _SCALE else 4 if flags & _TWO_SCALES else 8 if flags & _MATRIX else 0


def _file(tables: dict[str, bytes]) -> bytes:
    """Return a font file of ``tables``."""
    tables["head"] = tables["head"][:8] + bytes(4) + tables["head"][12:]
    step = 1 << (len(tables).bit_length() - 1)
    entries = (16 * step, step.bit_length() - 1, 16 * (len(tables) - step))
    head = struct.pack(">LHHHH", 0x10000, len(tables), *entries)
    start, body = len(head) + 16 * len(tables), b""
    for tag in sorted(tables):
        data = tables[tag]
        place = (_checksum(data), start + len(body), len(data))
        head += struct.pack(">4sLLL", tag.encode("latin-1"), *place)
        if tag == "head":
            told = start + len(body) + 8
        body += data + bytes(-len(data) % 4)
    file = head + body
    mark = (_SUM - _checksum(file)) % 2**32
    return file[:told] + struct.pack(">L", mark) + file[told + 4 :]


def _checksum(data: bytes) -> int:
    """Return the sum of ``data`` in words of four bytes."""
    padded = data + bytes(-len(data) % 4)
    words: tuple[int, ...] = struct.unpack(f">{len(padded) // 4}L", padded)
    return sum(words) % 2**32
