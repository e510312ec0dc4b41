"""Something said as a code with slots, worded in a language: the sentences of designs/said."""

import re
from collections.abc import Callable, Mapping, Sequence
from functools import cache
from pathlib import PurePath

from kitbuilder.errors import Said, Slot

LANGUAGES = ("en-GB", "en-US", "es", "es-MX")
"""The languages that the program speaks; others are answered in the first."""

POINTED = ("419", "BZ", "CU", "DO", "GT", "HN", "MX", "NI", "PA", "PE", "PR", "SV", "US")
"""Regions whose Spanish has a decimal point, as Unicode's CLDR 48 writes numbers there."""

LONGEST_PATH = 120
"""Letters of a path that are said; its middle is left out beyond."""

LONGEST_TYPED = 40
"""Letters of what somebody typed that are said back."""

DECIMALS = {"tenths": 1, "cents": 2}
"""Forms of a slot that give a number so many decimals."""

_SLOT = re.compile(r"\{([a-z_]+)(?::([a-z-]+))?\}")
_KEPT = "\xa0"

Name = Callable[[str], str]
"""How an option is called where it is said: "--unit" in a terminal, a label on a screen."""


IN_FILES = ("cuts-per-minute", "grammage", "per-sheet", "ink", "same-sheets")
"""Wishes that stand in a request file alone."""


def as_option(name: str) -> str:
    """Return an option as it is typed: "--unit" for "unit", "grammage" in a request file."""
    if name in IN_FILES:
        return name.replace("-", "_")
    return "--cutter" if name == "kerf" else f"--{name}"


def language_of(tag: str) -> str:
    """Return the language of ``LANGUAGES`` nearest to a language tag such as "es-AR"."""
    if tag[:2].lower() == "es" and tag[-3:].strip("-").upper() in POINTED:
        return "es-MX"
    for known in LANGUAGES:
        if tag.lower() == known.lower():
            return known
    return next((known for known in LANGUAGES if tag[:2].lower() == known), LANGUAGES[0])


@cache
def sentences(language: str) -> Mapping[str, str]:
    """Return every sentence of a language of ``LANGUAGES`` by its code."""
    from kitbuilder.design.load import entries

    return {code: str(sentence) for code, sentence in entries("said", language).items()}


def say(said: Said, language: str = "en-GB", name: Name = as_option) -> str:
    """Return ``said`` as words in ``language``; ``name`` gives an option the name it is known by.

    In a sentence ``{slot}`` stands for the slot as it is, ``{slot:typed}`` for it in quotes and
    shortened, ``{slot:option}`` for an option, ``{slot:and}`` and ``{slot:or}`` for a list,
    ``{slot:also}`` for one with semicolons, ``{slot:tenths}`` and ``{slot:cents}`` for a number
    with decimals, and ``{slot:sheet}`` for a number of sheets, by the table of counts. What
    cannot be seen (control, direction, unknown letters) is escaped.
    """
    voice = _Voice(sentences(language_of(language)), name)
    return voice.say(said)


class _Voice:
    """The sentences of one language, and how it names options."""

    def __init__(self, known: Mapping[str, str], name: Name) -> None:
        self.known, self.name = known, name

    def say(self, said: Said) -> str:
        slots = said.slots
        fill = lambda slot: self.filled(slots[slot[1]], slot[2] or "")  # noqa: E731
        return _SLOT.sub(fill, self.known[said.code])

    def filled(self, value: Slot, form: str) -> str:
        """Return a slot's ``value`` in the ``form`` that the sentence asks for."""
        if form == "typed":
            return _quoted(str(value))
        if form in DECIMALS and isinstance(value, int | float):
            return self.pointed(f"{value:.{DECIMALS[form]}f}")
        if form == "option":
            return seen(self.name(str(value)))
        if form in ("and", "or") and isinstance(value, tuple):
            return self.listed(value, form)
        if form and isinstance(value, int):
            return self.counted(value, form)
        if isinstance(value, tuple):
            if form == "also":
                return "; ".join(self.plain(one) for one in value)
            return _in_row([self.filled(one, form) for one in value])
        return self.plain(value)

    def plain(self, value: Slot) -> str:
        if isinstance(value, Said):
            return self.say(value)
        if isinstance(value, float):
            return self.pointed(_number(value))
        text = str(value)
        if isinstance(value, PurePath) and len(text) > LONGEST_PATH:
            text = f"{text[:40]}...{text[-70:]}"
        return seen(text)

    def pointed(self, number: str) -> str:
        """Return a number with the language's decimal point."""
        return number.replace(".", self.known["number.point"])

    def listed(self, values: tuple[Slot, ...], form: str) -> str:
        """Return "a, b and c"."""
        *rest, last = (self.filled(one, "") for one in values)
        if not rest:
            return last
        return _SLOT.sub(
            lambda slot: _in_row(rest) if slot[1] == "first" else last,
            self.known[f"list.{form}"],
        )

    def counted(self, count: int, noun: str) -> str:
        """Return "1 sheet" or "2 sheets"."""
        form = "one" if count == 1 else "many"
        return self.known[f"count.{noun}-{form}"].replace("{count}", str(count))


def seen(text: str) -> str:
    """Return ``text`` with what is not to be seen (control, direction, unknown) escaped.

    Names of files and what stands in them come back to the terminal as they are seen, and
    never as orders to it.
    """
    return "".join(c if c.isprintable() or c == _KEPT else _escaped(c) for c in text)


def _in_row(parts: Sequence[str]) -> str:
    """Return "a, b", or "a; b" where commas stand within the parts, as in decimals."""
    return ("; " if any("," in part for part in parts) else ", ").join(parts)


def _escaped(letter: str) -> str:
    return letter.encode("unicode_escape").decode()


def shortened(text: str) -> str:
    """Return what somebody typed as it is said back."""
    return text if len(text) <= LONGEST_TYPED else text[: LONGEST_TYPED - 3] + "..."


def _quoted(text: str) -> str:
    """Return ``text`` in quotes, shortened, with what is not to be seen escaped."""
    return repr(shortened(text))


def _number(value: float) -> str:
    return f"{value:g}" if abs(value) < 1e6 else f"{value:.0f}"
