"""How wide text is, in millimetres, and where it breaks into lines."""

import re
import unicodedata
from functools import cache, lru_cache

from kitbuilder.design.measures import measures
from kitbuilder.design.typefaces import FAMILY as FAMILY
from kitbuilder.design.typefaces import HEADING_FAMILY as HEADING_FAMILY
from kitbuilder.design.typefaces import MINUS as MINUS
from kitbuilder.design.typefaces import SIGNS_FAMILY as SIGNS_FAMILY
from kitbuilder.design.typefaces import WIDE_FAMILY as WIDE_FAMILY
from kitbuilder.design.typefaces import WIDE_LETTERS
from kitbuilder.errors import RefusedError

_BREAK = re.compile(r"(?<![−+=]) (?![−+=])")


@cache
def _widths(family: str) -> dict[str, int]:
    """Return the widths of a typeface's letters, in units of its em."""
    return {letter: told.advance for letter, told in measures(family).letters.items()}


@cache
def _wide_widths() -> dict[str, int]:
    """Return the widths of letters of the wide typeface that can stand alone.

    Marks that combine with the letter before are left out: nothing here would place them.
    """
    return {
        c: w
        for c, w in _widths(WIDE_FAMILY).items()
        if any(first <= ord(c) < end for first, end in WIDE_LETTERS)
        and not unicodedata.combining(c)
    }


@lru_cache(1024)
def x_height(size: float, family: str = FAMILY) -> float:
    """Return the height in mm of a small x set at ``size`` mm."""
    return measures(family).x_height / measures(family).em * size


@lru_cache(1024)
def digit_height(size: float, family: str = FAMILY) -> float:
    """Return the height in mm of a digit or capital set at ``size`` mm."""
    return measures(family).capital / measures(family).em * size


def missing(text: str, family: str = FAMILY) -> str:
    """Return the characters of ``text`` that the typeface lacks, each once, in order."""
    widths = _widths(family)
    return "".join(dict.fromkeys(c for c in text if c not in widths))


def unprintable(text: str) -> str:
    """Return the characters of ``text`` that no typeface has, or none for its word."""
    lacking = ""
    for word in text.split(" "):
        if missing(word):
            lacking += "".join(c for c in word if c not in _wide_widths())
    return "".join(dict.fromkeys(lacking))


@lru_cache(1024)
def runs(text: str, family: str = FAMILY) -> tuple[tuple[str, str], ...]:
    """Return ``text`` in runs of one typeface: (family, run), spaces with the run before.

    A word that holds a letter the typeface lacks is set whole in the wide one, or, where that
    lacks it too (the euro sign), in the usual one; elsewhere the minus is the drawn one.
    """
    if not missing(text, family):
        return _signed(family, text)
    found: list[tuple[str, str]] = []
    for word in re.findall(r"[^ ]+ *| +", text):
        ways = (family, WIDE_FAMILY, FAMILY)
        own = next((way for way in ways if not missing(word, way)), WIDE_FAMILY)
        if found and found[-1][0] == own:
            found[-1] = (own, found[-1][1] + word)
        else:
            found.append((own, word))
    return tuple(signed for run in found for signed in _signed(*run))


def _signed(family: str, text: str) -> tuple[tuple[str, str], ...]:
    """Return a run with each minus of the text face in the face of signs, as wide as before."""
    if family != FAMILY or MINUS not in text:
        return ((family, text),)
    parts = re.split(f"({MINUS})", text)
    return tuple((SIGNS_FAMILY if part == MINUS else family, part) for part in parts if part)


def width(text: str, size: float, family: str = FAMILY) -> float:
    """Return the advance width of ``text`` in mm, set at ``size`` mm (no kerning).

    Raises ``RefusedError`` naming a character that no typeface has.
    """
    return _advance(text, family) * size


@lru_cache(1024)
def _advance(text: str, family: str) -> float:
    """Return the advance width of ``text`` in ems: the same words are measured again and again.

    Whole numbers are added: a sum of fractions would differ between Pythons in its last place.
    """
    widths = _widths(family)
    try:
        return sum([widths[c] for c in text]) / measures(family).em
    except KeyError:
        lacking = unprintable(text)
    if lacking:
        raise RefusedError("words.unprintable", lacking=lacking, given=text)
    known = {
        FAMILY: _widths(FAMILY),
        family: widths,
        SIGNS_FAMILY: widths,
        WIDE_FAMILY: _wide_widths(),
    }
    across = 0.0
    for own, run in runs(text, family):
        across += sum([known[own].get(c, 0) for c in run]) / measures(own).em
    return across


def wrap(text: str, size: float, room: float, family: str = FAMILY) -> tuple[str, ...]:
    """Break ``text`` at spaces into lines no wider than ``room`` mm at ``size`` mm.

    A single word that is wider stands on a line of its own. A no-break space never breaks,
    nor does a space beside a sign (− + =), so that a sum stays whole.
    """
    lines: list[str] = []
    for word in _BREAK.split(text):
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and width(longer, size, family) <= room:
            lines[-1] = longer
        else:
            lines.append(word)
    return tuple(lines)


def broken(text: str, size: float, room: float) -> tuple[str, ...]:
    """Break ``text`` as ``wrap`` does, and a word wider than ``room`` wherever it is full."""
    lines: list[str] = []
    for line in wrap(text, size, room):
        held = ""
        for letter in line:
            if held and width(held + letter, size) > room:
                lines.append(held)
                held = ""
            held += letter
        lines.append(held)
    return tuple(lines)


@lru_cache(1024)
def _area(text: str, family: str) -> float:
    """Return the area that the letters of ``text`` cover, in squares of the em."""
    found = 0.0
    for own, run in runs(text, family):
        known = measures(own)
        found += sum([known.letters[letter].area for letter in run]) / known.em**2
    return found


def area(text: str, size: float, family: str = FAMILY) -> float:
    """Return the area in mm² that the letters of ``text`` cover, set at ``size`` mm."""
    return _area(text, family) * size * size
