"""The TOML files in designs/, read into checked, frozen records."""

import math
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, fields, is_dataclass, replace
from functools import cache, cached_property, lru_cache
from pathlib import Path
from sys import intern
from typing import TYPE_CHECKING, Any, TypeVar, cast, get_type_hints

from kitbuilder.design.bounds import bounds, hundredths, readable
from kitbuilder.design.look import Look as Look
from kitbuilder.design.shipped_files import PACKAGE, held
from kitbuilder.design.words_check import check_words
from kitbuilder.errors import RefusedError, Said, Where
from kitbuilder.formats.textfile import parse_toml, read_toml
from kitbuilder.formats.toml_table import NUMBER, Kinds, check_table
from kitbuilder.frozen import frozen
from kitbuilder.number.scale import HUNDREDTHS, WHOLE, Scale
from kitbuilder.number.sums import PLACES

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable

R = TypeVar("R")

_SIZE = re.compile(r"(\d+(?:\.\d+)?)\s*[x×]\s*(\d+(?:\.\d+)?)\s*(mm|cm|in)", re.ASCII)
_MM = {"mm": 1.0, "cm": 10.0, "in": 25.4}
_LANGUAGE = re.compile(r"[A-Za-z]{2,8}(-[A-Za-z0-9]{1,8}){0,4}")
"""A language tag, as RFC 5646 has them (from memory)."""

_SLOT = re.compile(r"\{([a-z_]+)\}")
_AMOUNT = re.compile(r"(\d+)([.,])(\d\d)", re.ASCII)


LEAST_UNIT = 5.0
"""The least width of a one in mm: smaller pieces are hard to cut and to hold."""


@frozen
class Margins:
    """What stays unprinted at each side of an upright page, in millimetres."""

    left: float
    right: float
    top: float
    bottom: float

    def __post_init__(self) -> None:
        bounds(self, 0, 100, "mm")


@frozen
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
            raise RefusedError("paper.margins", least=40)


@dataclass(frozen=True)
class Words:
    """Every printed sentence of one language, found by a dotted key.

    A sentence may hold slots such as ``{count}``, which are filled when it is said. ``paper``
    is what is usual where the language is read. ``scale`` is how the numbers of sums are written;
    with decimals the places bear other names.
    """

    language: str
    entries: Mapping[str, str | tuple[str, ...]] = field(hash=False)
    paper: str = "a4"
    scale: Scale = WHOLE

    @cached_property
    def decimal(self) -> "Words":
        """These words for sums with tenths and hundredths, under ``decimal`` in a words file."""
        if self.scale.decimals:
            return self
        before = "decimal."
        renamed = {k[len(before) :]: v for k, v in self.entries.items() if k.startswith(before)}
        scale = replace(HUNDREDTHS, point=self("number.point"))
        return replace(self, entries={**self.entries, **renamed}, scale=scale)

    def counting(self, decimals: int) -> "Words":
        """Return these words for numbers with so many ``decimals``, up to three.

        The smallest place takes the first name. What only tenths or thousandths are called
        stands under ``tenth`` and ``thousandth`` in a words file.
        """
        plain = self.decimal
        if plain.scale.decimals == decimals:
            return plain
        moved = dict(_moved(self.entries, HUNDREDTHS.decimals - decimals))
        name = {1: "tenth", 3: "thousandth"}.get(decimals)
        own = {k.partition(".")[2]: v for k, v in self.entries.items() if k.split(".")[0] == name}
        scale = replace(plain.scale, decimals=decimals)
        return replace(plain, entries={**plain.entries, **moved, **own}, scale=scale)

    def money(self, currency: str) -> "Words":
        """Return the words for amounts of ``currency``, written as the words file shows one."""
        form = self(f"money.{currency}")
        ones, point, hundredths = _AMOUNT.findall(form)[0]
        number = form.replace(f"{ones}{point}{hundredths}", "{number}")
        coins = {"cover.without": self(f"coins.{currency}")}
        scale = Scale(HUNDREDTHS.decimals, point, number)
        return replace(self.decimal, entries={**self.decimal.entries, **coins}, scale=scale)

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


_PLACED = re.compile(rf"decimal\.(place|single|opened|column|patterns|count)\.({'|'.join(PLACES)})")
"""Keys of what is said of a place, where numbers have decimals."""


def _moved(
    entries: Mapping[str, str | tuple[str, ...]], by: int
) -> Iterator[tuple[str, str | tuple[str, ...]]]:
    """Yield what is said of each place, under the key of the one ``by`` places below it."""
    for key, entry in entries.items():
        found = _PLACED.match(key)
        at = PLACES.index(found[2]) - by if found else -1
        if found and 0 <= at < len(PLACES):
            yield f"{found[1]}.{PLACES[at]}{key[found.end() :]}", entry


@cache
def folder() -> "Traversable":
    """Return the folder of designs: inside the installed package, or beside it in a checkout."""
    installed = held("_designs")
    return installed if installed.is_dir() else PACKAGE.parent / "designs"


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
    return _upright(built(Paper, _table("paper", name), _where("paper", name)))


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
        raise RefusedError("paper.too-small", field="paper", size=name)
    try:
        margins = Margins(margin, margin, margin, margin)
        return Paper(name, width, height, unit, "measured", margins)
    except RefusedError as error:
        raise error.at(Said("where.paper-of", size=name), field="paper") from None


def look(name: str = "plain") -> Look:
    """Return the look called ``name``: a shipped one or a file of the same form."""
    return _own_look(name) if name.lower().endswith(".toml") else _shipped_look(name)


@cache
def _shipped_look(name: str) -> Look:
    """Return a shipped look, one record for all who ask: what is kept for it is found at once."""
    return _own_look(name)


def _own_look(name: str) -> Look:
    return built(Look, _table("looks", name), _where("looks", name))


@lru_cache(16)  # the shipped ones and a few files of one's own
def entries(kind: str, name: str) -> Mapping[str, str | tuple[str, ...]]:
    """Return what a file of a language holds (``words``, ``said``, ``page``), by dotted key.

    Where it names a shipped language with ``over``, it holds only what differs from that one.
    """
    own = dict(_flat(_table(kind, name), "", _where(kind, name)))
    if "over" not in own:
        return own
    over = str(own.pop("over"))
    if over not in names(kind):
        raise RefusedError("words.over", where=_where(kind, name), given=over, known=names(kind))
    return {**entries(kind, over), **own}


@lru_cache(16)  # the shipped ones and a few files of one's own
def words(name: str = "en-GB") -> Words:
    """Return the words of the language called ``name``, shipped or in a file of that form."""
    where = _where("words", name)
    said = dict(entries("words", name))
    if "language" not in said:
        raise RefusedError("words.lacks-language", where=where)
    language, paper_name = said.pop("language"), said.pop("paper", "a4")
    read = Words(str(language), said, str(paper_name))
    if not _LANGUAGE.fullmatch(read.language):
        raise RefusedError("words.language", where=where, given=read.language)
    if name != "en-GB":
        _complete(read, words(), where)
    if name.lower().endswith(".toml"):
        check_words(read.entries, where)
    return read


def _complete(read: Words, whole: Words, where: Where) -> None:
    """Refuse words that lack a sentence of ``whole``, or one of its slots, or hold others."""
    for key in read.entries:
        if key not in whole.entries:
            raise RefusedError("words.never-said", where=where, key=key)
    for key, entry in whole.entries.items():
        if key not in read.entries:
            raise RefusedError("words.lacks", where=where, key=key)
        if type(read.entries[key]) is not type(entry):
            form = Said("kind.words") if isinstance(entry, str) else Said("kind.lines")
            raise RefusedError("words.another-form", where=where, key=key, form=form)
        lines = len(read.entries[key])
        if not isinstance(entry, str) and lines != len(entry):
            raise RefusedError("words.lines", where=where, key=key, lines=lines, due=len(entry))
        for number, (said, model) in enumerate(
            zip(_lines(read.entries[key]), _lines(entry), strict=True), 1
        ):
            one, line = Said("words.key", key=key), Said("words.line", line=number, key=key)
            _same_slots(said, model, where, one if isinstance(entry, str) else line)


def _lines(entry: str | tuple[str, ...]) -> tuple[str, ...]:
    return (entry,) if isinstance(entry, str) else entry


def _same_slots(said: str, model: str, where: Where, place: Said) -> None:
    """Refuse a sentence that has another slot than ``model``, or lacks one of its slots.

    Beside a length in centimetres or millimetres it may tell it in inches.
    """
    known, used = _SLOT.findall(model), _SLOT.findall(said)
    allowed = {*known, "inches"} if {"cm", "length"} & set(known) else {*known}
    for slot in used:
        if slot not in allowed:
            raise RefusedError("words.strange-slot", where=where, given=slot, place=place)
    lost = sorted(set(known) - set(used))
    if lost:
        raise RefusedError("words.lacks-slot", where=where, lacking=lost[0], place=place)


def kit_table(name: str) -> dict[str, Any]:
    """Return the table of the ready-made request called ``name``."""
    return _table("kits", name)


def _where(kind: str, name: str) -> Said:
    """Return how a design is called in a refusal."""
    called: str | Path = Path(name) if name.lower().endswith(".toml") else name
    return {
        "paper": Said("where.paper", name=called),
        "looks": Said("where.look", name=called),
    }.get(kind, Said("where.words", name=called))


def _unknown(kind: str, name: str, known: tuple[str, ...]) -> RefusedError:
    """Return the refusal of a ``name`` that no shipped design of the kind has."""
    if kind == "paper":
        return RefusedError("paper.unknown", field="paper", given=name, known=known)
    if kind == "looks":
        return RefusedError("look.unknown", field="look", given=name, known=known)
    return RefusedError("words.unknown", field="words", given=name, known=known)


def _table(kind: str, name: str) -> dict[str, Any]:
    """Return the table of a shipped design, or of a file of one's own (its path ends .toml)."""
    if name.lower().endswith(".toml"):
        return read_toml(Path(name))
    known = {shipped.lower(): shipped for shipped in names(kind)}
    if name.lower() not in known:
        raise _unknown(kind, name, tuple(known.values()))
    file = f"{known[name.lower()]}.toml"
    return parse_toml((folder() / kind / file).read_text("utf-8"), Path(file))


_KINDS: dict[object, Kinds] = {float: NUMBER, str: (str,)}


def built(cls: type[R], table: Mapping[str, Any], where: Where) -> R:
    """Make the record ``cls`` from a TOML table with exactly its fields."""
    hints = get_type_hints(cls)
    check_table(
        table, {k: _KINDS.get(kind, (dict,)) for k, kind in hints.items()}, where, whole=True
    )
    values: dict[str, Any] = {}
    for key, kind in hints.items():
        inner = Said("where.key", where=where, key=key)
        made = is_dataclass(kind)
        values[key] = built(cast(type[Any], kind), table[key], inner) if made else kind(table[key])
    try:
        return cls(**values)
    except RefusedError as error:
        raise error.at(where) from None


def _flat(
    table: Mapping[str, Any], before: str, where: Where
) -> Iterator[tuple[str, str | tuple[str, ...]]]:
    for key, value in table.items():
        name = f"{before}{key}"
        if isinstance(value, dict):
            yield from _flat(value, f"{name}.", where)
        elif isinstance(value, str):
            yield name, value
        elif isinstance(value, list) and all(isinstance(line, str) for line in value):
            yield name, tuple(value)
        else:
            raise RefusedError(
                "toml.wrong-kind",
                where=where,
                key=name,
                given=str(value)[:40],
                kind=Said("kind.words"),
            )


def _filled(sentence: str, slots: Mapping[str, object]) -> str:
    """Return ``sentence`` with its slots filled; thousands of cards share the few that differ."""
    return intern(_SLOT.sub(lambda slot: str(slots[slot[1]]), sentence))
