"""Turns the TOML files in designs/ into checked, frozen records."""

import math
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, fields, is_dataclass, replace
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path
from typing import Any, TypeVar, cast, get_type_hints

from kitbuilder.counting import counted
from kitbuilder.design.bounds import bounds, hundredths, readable
from kitbuilder.design.look import Look as Look
from kitbuilder.design.words_check import check_words
from kitbuilder.errors import RefusedError
from kitbuilder.formats.textfile import parse_toml, read_toml

R = TypeVar("R")

_SIZE = re.compile(r"(\d+(?:\.\d+)?)\s*[x×]\s*(\d+(?:\.\d+)?)\s*(mm|cm|in)", re.ASCII)
_MM = {"mm": 1.0, "cm": 10.0, "in": 25.4}
_LANGUAGE = re.compile(r"[A-Za-z]{2,8}(-[A-Za-z0-9]{1,8}){0,4}")
"""A language tag, as RFC 5646 has them (from memory)."""

_SLOT = re.compile(r"\{([a-z_]+)\}")


LEAST_UNIT = 5.0
"""The least width of a one in mm: smaller pieces are hard to cut and to hold."""


@dataclass(frozen=True, slots=True)
class Margins:
    """What stays unprinted at each side of an upright page, in millimetres."""

    left: float
    right: float
    top: float
    bottom: float

    def __post_init__(self) -> None:
        bounds(self, 0, 100, "mm")


@dataclass(frozen=True, slots=True)
class Paper:
    """A paper profile: upright size, margins and unit in millimetres, and where it is set."""

    name: str
    width_mm: float
    height_mm: float
    unit_mm: float
    source: str
    margins_mm: Margins

    def __post_init__(self) -> None:
        readable("name", self.name)
        bounds(self, 50, 1500, "mm", ("width_mm", "height_mm"))
        bounds(self, LEAST_UNIT, 1000, "mm", ("unit_mm",))
        for name in ("width_mm", "height_mm", "unit_mm"):
            hundredths(f"{name}", getattr(self, name))
        for side in fields(self.margins_mm):
            hundredths(side.name, getattr(self.margins_mm, side.name))
        m = self.margins_mm
        if self.width_mm - m.left - m.right < 40 or self.height_mm - m.top - m.bottom < 40:
            raise ValueError("the margins leave less than 40 mm of the page to print on")


@dataclass(frozen=True)
class Words:
    """Every printed sentence of one language, found by a dotted key.

    A sentence may hold slots such as ``{count}``, which are filled when it is said. ``paper``
    is what is usual where the language is read.
    """

    language: str
    entries: Mapping[str, str | tuple[str, ...]] = field(hash=False)
    paper: str = "a4"

    def __call__(self, key: str, /, **slots: object) -> str:
        """Say the sentence of ``key`` with its slots filled. Raises ``KeyError``."""
        entry = self.entries[key]
        if not isinstance(entry, str):
            raise KeyError(f"{key} is a list of sentences, not one")
        return _filled(entry, slots)

    def lines(self, key: str, /, **slots: object) -> tuple[str, ...]:
        """Say the list of sentences of ``key``, each with its slots filled."""
        entry = self.entries[key]
        if isinstance(entry, str):
            raise KeyError(f"{key} is one sentence, not a list")
        return tuple(_filled(line, slots) for line in entry)

    def count(self, key: str, count: int) -> str:
        """Say the sentence of ``key`` for ``count`` things: its ``one`` or ``many`` form."""
        return self(f"{key}.{'one' if count == 1 else 'many'}", count=count)


@cache
def folder() -> Traversable:
    """Return the folder of designs: inside the installed package, or beside it in a checkout."""
    installed = files("kitbuilder") / "_designs"
    return installed if installed.is_dir() else Path(__file__).parents[2] / "designs"


def names(kind: str) -> tuple[str, ...]:
    """Return the names of the designs of a kind (``paper``, ``looks``, ``words``, ``kits``)."""
    listed = (folder() / kind).iterdir()
    return tuple(sorted(f.name[:-5] for f in listed if f.name.endswith(".toml")))


def paper(name: str) -> Paper:
    """Return the paper called ``name``: a shipped one, a profile file, or a size.

    A profile file ends in ``.toml`` and has the form of those in ``designs/paper/``. A size is
    width and height with their measure, as ``215x330mm``. Paper given lying is set upright.
    """
    size = _SIZE.fullmatch(name.strip().lower())
    if size:
        return _sized(*sorted(float(side) * _MM[size[3]] for side in size.group(1, 2)))
    also = ", a size such as 215x330mm"
    return _upright(built(Paper, _table("paper", name, "paper", also), f"The paper {name}"))


def _upright(paper: Paper) -> Paper:
    """Return ``paper`` with its longer side down: lying paper is turned a quarter to the left."""
    if paper.width_mm <= paper.height_mm:
        return paper
    m = paper.margins_mm
    turned = Margins(left=m.top, right=m.bottom, top=m.right, bottom=m.left)
    return replace(paper, width_mm=paper.height_mm, height_mm=paper.width_mm, margins_mm=turned)


def _sized(width: float, height: float) -> Paper:
    """Return upright paper of that size in mm, 5 mm unprinted on each side.

    The unit is 10 mm, or the largest of whole half millimetres at which a hundred fits.
    """
    margin = 5.0
    unit = min(10.0, math.floor((width - 2 * margin) / 10 * 2 + 1e-9) / 2)
    name = f"{width:g} × {height:g} mm"
    if unit < 5:
        raise RefusedError(
            f"Paper of {name} is too small: a hundred at the smallest unit of 5 mm needs 60 mm."
        )
    try:
        margins = Margins(margin, margin, margin, margin)
        return Paper(name, width, height, unit, "measured", margins)
    except ValueError as error:
        raise RefusedError(f"Paper of {name} cannot be used: {error}.") from None


def look(name: str = "plain") -> Look:
    """Return the look called ``name``: a shipped one or a file of the same form."""
    return built(Look, _table("looks", name, "look"), f"The look {name}")


@cache
def words(name: str = "en-GB") -> Words:
    """Return the words of the language called ``name``, shipped or in a file of that form."""
    table = _table("words", name, "language")
    if "language" not in table:
        raise RefusedError(f"The words file {name} lacks 'language'; add it, as in en-GB.toml.")
    language, paper_name = table.pop("language"), table.pop("paper", "a4")
    read = Words(str(language), dict(_flat(table, "")), str(paper_name))
    if not _LANGUAGE.fullmatch(read.language):
        raise RefusedError(
            f"The words file {name} has language = {read.language[:40]!r}; "
            "it must be a tag such as en-GB or es."
        )
    if name != "en-GB":
        _complete(read, words(), name)
    if name.lower().endswith(".toml"):
        check_words(read.entries, look().type_mm, name)
    return read


def _complete(read: Words, whole: Words, where: str) -> None:
    """Refuse words that lack a sentence of ``whole``, or one of its slots, or hold others."""
    for key in read.entries:
        if key not in whole.entries:
            raise RefusedError(
                f"The words file {where} holds {key[:60]!r}, which is never said; take it out."
            )
    for key, entry in whole.entries.items():
        if key not in read.entries:
            raise RefusedError(f"The words file {where} lacks {key!r}; add it as in en-GB.toml.")
        if type(read.entries[key]) is not type(entry):
            form = "words in quotes" if isinstance(entry, str) else "a list of lines in brackets"
            raise RefusedError(f"The words file {where} has {key!r} in another form; give {form}.")
        lines = len(read.entries[key])
        if not isinstance(entry, str) and lines != len(entry):
            raise RefusedError(
                f"The words file {where} has {counted(lines, 'line')} in {key!r}; "
                f"there must be {len(entry)}."
            )
        for number, (said, model) in enumerate(
            zip(_lines(read.entries[key]), _lines(entry), strict=True), 1
        ):
            place = repr(key) if isinstance(entry, str) else f"line {number} of {key!r}"
            _same_slots(said, model, f"The words file {where}", place)


def _lines(entry: str | tuple[str, ...]) -> tuple[str, ...]:
    return (entry,) if isinstance(entry, str) else entry


def _same_slots(said: str, model: str, file: str, place: str) -> None:
    """Refuse a sentence that has another slot than ``model``, or lacks one of its slots."""
    known, used = _SLOT.findall(model), _SLOT.findall(said)
    for slot in used:
        if slot not in known:
            raise RefusedError(
                f"{file} has {{{slot[:40]}}} in {place}, which is not filled there; take it out."
            )
    lost = sorted(set(known) - set(used))
    if lost:
        raise RefusedError(f"{file} lacks {{{lost[0]}}} in {place}; add it.")


def kit_table(name: str) -> dict[str, Any]:
    """Return the table of the ready-made request called ``name``."""
    return _shipped("kits", name, "ready-made kit")


def _table(kind: str, name: str, noun: str, also: str = "") -> dict[str, Any]:
    """Return the table of a shipped design, or of a file of one's own (its path ends .toml)."""
    if name.lower().endswith(".toml"):
        return read_toml(Path(name))
    return _shipped(kind, name, noun, f"{also}, or give the path of a file (.toml)")


def _shipped(kind: str, name: str, noun: str, also: str = "") -> dict[str, Any]:
    known = {shipped.lower(): shipped for shipped in names(kind)}
    if name.lower() not in known:
        choice = ", ".join(known.values())
        raise RefusedError(
            f"There is no {noun} called {name[:60]!r}; choose one of {choice}{also}."
        )
    file = f"{known[name.lower()]}.toml"
    return parse_toml((folder() / kind / file).read_text("utf-8"), file)


def built(cls: type[R], table: Mapping[str, Any], where: str) -> R:
    """Make the record ``cls`` from a TOML table with exactly its fields."""
    hints = get_type_hints(cls)
    for key in table:
        if key not in hints:
            raise RefusedError(f"{where} holds {key[:40]!r}; it may hold {', '.join(hints)}.")
    values: dict[str, Any] = {}
    for key, kind in hints.items():
        if key not in table:
            raise RefusedError(f"{where} lacks {key!r}; it must hold {', '.join(hints)}.")
        value = table[key]
        if is_dataclass(kind) and isinstance(value, dict):
            value = built(cast(type[Any], kind), value, f"{where}, {key},")
        elif kind is float and isinstance(value, int) and not isinstance(value, bool):
            value = float(value)
        if not isinstance(value, kind):
            noun = {float: "a number", str: "words in quotes"}.get(kind, "a table")
            told = repr(value[:40]) if isinstance(value, str) else str(value)[:40]
            raise RefusedError(f"{where} has {key} = {told}; it must be {noun}.")
        values[key] = value
    try:
        return cls(**values)
    except ValueError as error:
        raise RefusedError(f"{where} cannot be used: {error}.") from None


def _flat(table: Mapping[str, Any], before: str) -> Iterator[tuple[str, str | tuple[str, ...]]]:
    for key, value in table.items():
        name = f"{before}{key}"
        if isinstance(value, dict):
            yield from _flat(value, f"{name}.")
        elif isinstance(value, str):
            yield name, value
        elif isinstance(value, list) and all(isinstance(line, str) for line in value):
            yield name, tuple(value)
        else:
            raise RefusedError(
                f"The words file has {name[:60]} = {str(value)[:40]!r}; it must be words in quotes."
            )


def _filled(sentence: str, slots: Mapping[str, object]) -> str:
    return _SLOT.sub(lambda slot: str(slots[slot[1]]), sentence)
