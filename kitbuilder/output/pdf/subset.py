"""A TrueType font of a few glyphs, numbered anew and without hints (OpenType 1.9, from memory).

Hints fit outlines to the dots of a coarse screen; paper does not need them.
"""

import struct
from collections.abc import Mapping, Sequence

TABLES = ("cmap", "glyf", "head", "hhea", "hmtx", "loca", "maxp")
"""What an embedded TrueType font without hints needs (ISO 32000-1, 9.9, from memory)."""

_WORDS, _SCALE, _MORE, _TWO_SCALES, _MATRIX, _HINTS = 0x1, 0x8, 0x20, 0x40, 0x80, 0x100
"""Flags of a part of a glyph: how much follows on its place and size, and whether more parts do."""

_SUM = 0xB1B0AFBA
"""What the checksum of a whole font is taken from."""


def only(font: bytes, glyphs: Mapping[int, int]) -> bytes:
    """Return ``font`` with the tables of ``TABLES`` and the ``glyphs``, by their codes below 256.

    The glyph for what is missing comes first, then those of ``glyphs`` in order, then those that
    they are made of.
    """
    tables = _tables(font)
    form, scale = (">H", 2) if tables["head"][50:52] == b"\0\0" else (">L", 1)
    places = [scale * place for (place,) in struct.iter_unpack(form, tables["loca"])]
    numbers = {0: 0}
    for glyph in glyphs.values():
        numbers.setdefault(glyph, len(numbers))
    outlines: list[bytes] = []
    for glyph in (waiting := list(numbers)):  # it grows by the parts of its glyphs
        outline = tables["glyf"][places[glyph] : places[glyph + 1]]
        for part in _parts(outline):
            if part not in numbers:
                numbers[part] = len(numbers)
                waiting.append(part)
        plain = _without_hints(outline, numbers)
        outlines.append(plain + bytes(-len(plain) % 4))
    starts = [0]
    for outline in outlines:
        starts.append(starts[-1] + len(outline))
    advances = _advances(tables, list(numbers))
    count = struct.pack(">H", len(numbers))
    return _file(
        {
            "cmap": _codes({code: numbers[glyph] for code, glyph in glyphs.items()}),
            "glyf": b"".join(outlines),
            "head": tables["head"][:50] + b"\0\1" + tables["head"][52:],
            "hhea": tables["hhea"][:34] + count,
            "hmtx": advances,
            "loca": struct.pack(f">{len(starts)}L", *starts),
            "maxp": tables["maxp"][:4] + count + tables["maxp"][6:],
        }
    )


def _tables(font: bytes) -> dict[str, bytes]:
    """Return the tables of ``TABLES`` that a font has, by their tags."""
    (count,) = struct.unpack_from(">H", font, 4)
    found = {}
    for tag, _, start, long in struct.iter_unpack(">4sLLL", font[12 : 12 + 16 * count]):
        name = tag.decode("latin-1")
        if name in TABLES:
            found[name] = font[start : start + long]
    return found


def _parts(outline: bytes) -> dict[int, int]:
    """Return the glyphs that a glyph is made of, and where its outline names each last."""
    found: dict[int, int] = {}
    for at, _ in _places(outline):
        (glyph,) = struct.unpack_from(">H", outline, at + 2)
        found[glyph] = at
    return found


def _places(outline: bytes) -> list[tuple[int, int]]:
    """Return where each part of a glyph that is made of others begins and ends; else nothing."""
    if outline[:1] < b"\x80":  # it has contours of its own, or none
        return []
    found, at, flags = [], 10, _MORE
    while flags & _MORE:
        start = at
        (flags,) = struct.unpack_from(">H", outline, at)
        at += 8 if flags & _WORDS else 6
        at += 2 if flags & _SCALE else 4 if flags & _TWO_SCALES else 8 if flags & _MATRIX else 0
        found.append((start, at))
    return found


def _without_hints(outline: bytes, numbers: Mapping[int, int]) -> bytes:
    """Return an outline without its hints; parts are called by their new ``numbers``."""
    if not outline:
        return b""
    if places := _places(outline):
        plain = bytearray(outline[: places[-1][1]])
        for start, _ in places:
            flags, glyph = struct.unpack_from(">HH", plain, start)
            struct.pack_into(">HH", plain, start, flags & ~_HINTS, numbers[glyph])
        return bytes(plain)
    (contours,) = struct.unpack_from(">H", outline)
    at = 10 + 2 * contours
    (hints,) = struct.unpack_from(">H", outline, at)
    return outline[:at] + bytes(2) + outline[at + 2 + hints :]


def _advances(tables: Mapping[str, bytes], glyphs: Sequence[int]) -> bytes:
    """Return the advances and left bearings of ``glyphs``; the last advance serves all after it."""
    (whole,) = struct.unpack_from(">H", tables["hhea"], 34)
    told, found = tables["hmtx"], b""
    for glyph in glyphs:
        bearing = 4 * glyph + 2 if glyph < whole else 4 * whole + 2 * (glyph - whole)
        advance = 4 * min(glyph, whole - 1)
        found += told[advance : advance + 2] + told[bearing : bearing + 2]
    return found


def _codes(glyphs: Mapping[int, int]) -> bytes:
    """Return the table that finds the glyph of a code (platform 1, format 6)."""
    first, last = min(glyphs, default=0), max(glyphs, default=0)
    found = [glyphs.get(code, 0) for code in range(first, last + 1)]
    head = struct.pack(">HHHHL", 0, 1, 1, 0, 12)
    return head + struct.pack(
        f">5H{len(found)}H", 6, 10 + 2 * len(found), 0, first, len(found), *found
    )


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
