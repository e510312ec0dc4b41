"""Turns a request file, and the ready-made kit's, into wishes under the options' names."""

import json
from dataclasses import dataclass, field, fields
from pathlib import Path
from typing import Any, cast

from kitbuilder.design import load as designs
from kitbuilder.errors import RefusedError
from kitbuilder.formats.textfile import read_toml
from kitbuilder.number import Sum
from kitbuilder.press.printing import Printing
from kitbuilder.request.request import DEFAULT_PARTS, Part, read_parts, read_sum, shown


@dataclass(frozen=True, slots=True)
class Wishes:
    """A request file's wishes before the command line's are laid over them.

    ``options`` are the further options of ``kitbuilder kit`` by name, as typed.
    """

    sums: tuple[Sum, ...] = ()
    within: int | None = None
    parts: tuple[Part, ...] = DEFAULT_PARTS
    printing: Printing = field(default_factory=Printing)
    options: tuple[tuple[str, str | float | bool], ...] = ()


_KEYS: dict[str, tuple[type, ...]] = {
    "sums": (list,),
    "within": (int,),
    "only": (list,),
    **dict.fromkeys(("paper", "printer", "look", "words", "sturdy"), (str,)),
    **dict.fromkeys(("margin", "unit", "kerf"), (int, float)),
    **dict.fromkeys(("svg", "dxf", "png", "ink"), (bool,)),
    "dpi": (int,),
}

_OPTIONS: dict[str, tuple[type, ...]] = {
    **dict.fromkeys(("mat", "mats", "headings", "kinds", "stage", "backs", "facts"), (str,)),
    **dict.fromkeys(("kits", "children", "share", "layers"), (int,)),
    **dict.fromkeys(("spares", "cuts_per_minute", "grammage", "per_sheet"), (int, float)),
    **dict.fromkeys(("same_sheets", "collated", "mini"), (bool,)),
}


_NOUNS: dict[tuple[type, ...], str] = {
    (list,): "a list of words in quotes",
    (str,): "words in quotes",
    (bool,): "true or false",
    (int,): "a whole number",
}


def read_wishes(path: Path) -> Wishes:
    """Return the wishes in the request file at ``path`` (TOML)."""
    return wishes(read_toml(path), str(path))


def first_wishes() -> Wishes:
    """Return the wishes of the ready-made first kit."""
    return wishes(designs.kit_table("first"), "the ready-made kit")


def wishes(table: dict[str, Any], where: str) -> Wishes:
    """Return the wishes in a request file's table; ``where`` names it in a refusal."""
    known = {**_KEYS, **_OPTIONS}
    for key, value in table.items():
        if key not in known:
            raise RefusedError(f"{where} holds {shown(key)}; it may hold {', '.join(known)}.")
        strings = not isinstance(value, list) or all(isinstance(v, str) for v in value)
        kinds = known[key]
        mixed = isinstance(value, bool) and bool not in kinds
        if not isinstance(value, kinds) or mixed or not strings:
            noun = _NOUNS.get(kinds, "a number")
            if isinstance(value, list) and str in kinds:
                noun += ", with commas between them"
            given = shown(value) if isinstance(value, str) else json.dumps(value, default=str)[:40]
            raise RefusedError(f"{where} has {key} = {given}; it must be {noun}.")
    if not table.get("sums") and "within" not in table:
        raise RefusedError(f'{where} asks for no sums; add a line sums = ["634 - 258"].')
    try:
        return Wishes(
            sums=tuple(read_sum(text) for text in table.get("sums", [])),
            within=table.get("within"),
            parts=read_parts(cast("list[str]", table["only"]))
            if "only" in table
            else DEFAULT_PARTS,
            printing=Printing(**{f.name: table.get(f.name) for f in fields(Printing)}),
            options=tuple((key, table[key]) for key in _OPTIONS if key in table),
        )
    except RefusedError as error:
        raise RefusedError(f"{where}: {error}") from None
