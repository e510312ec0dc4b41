"""A request file's wishes, and the ready-made kit's, under the options' names."""

import re
from dataclasses import field, replace
from pathlib import Path
from typing import Any

from kitbuilder.design import load as designs
from kitbuilder.errors import RefusedError, Said, Where
from kitbuilder.formats.textfile import read_toml
from kitbuilder.formats.toml_table import LIST, NUMBER, Kinds, check_table, listed
from kitbuilder.frozen import frozen
from kitbuilder.number import Sum
from kitbuilder.number.scale import HUNDREDTHS
from kitbuilder.press.printing import PRINTING, Printing
from kitbuilder.request.request import DEFAULT_PARTS, Part, read_parts, read_sum


@frozen
class Wishes:
    """A request file's wishes before the command line's are laid over them.

    ``options`` are the further options of ``kitbuilder kit``, as typed; ``from`` is ``first``.
    """

    sums: tuple[Sum, ...] = ()
    within: int | None = None
    parts: tuple[Part, ...] = DEFAULT_PARTS
    printing: Printing = field(default_factory=dict)
    options: dict[str, str | float | bool] = field(default_factory=dict)


_KEYS: dict[str, Kinds] = {
    "sums": LIST,
    "within": (int,),
    "only": LIST,
    **dict.fromkeys(("paper", "printer", "look", "words", "sturdy", "picture"), (str,)),
    **dict.fromkeys(("margin", "unit"), NUMBER),
    "cutter": LIST,
    "png": (int,),
    "estimate": (dict,),
}

_OPTIONS: dict[str, Kinds] = {
    **dict.fromkeys(("mat", "kinds", "skip"), LIST),
    **dict.fromkeys(("headings", "stage", "backs", "piles", "money"), (str,)),
    **dict.fromkeys(("start", "from"), (str,)),
    **dict.fromkeys(("children", "share", "layers", "weeks", "days"), (int,)),
    **dict.fromkeys(("spares",), NUMBER),
    **dict.fromkeys(("same_sheets", "mini", "home", "metre"), (bool,)),
}


_BETWEEN = re.compile(r"(?<!\d),|,(?!\d)", re.ASCII)
"""A comma between sums; one with digits at both sides is a decimal comma."""

_ESTIMATE: dict[str, Kinds] = {
    **dict.fromkeys(("cuts_per_minute", "grammage", "per_sheet"), NUMBER),
    "ink": (bool,),
}


def read_wishes(path: Path) -> Wishes:
    """Return the wishes in the request file at ``path`` (TOML)."""
    return wishes(read_toml(path), path)


def first_wishes(*, money: bool = False) -> Wishes:
    """Return the wishes of the ready-made first kit; of ``money`` 254 − 38 is 2.54 − 0.38."""
    found = wishes(designs.kit_table("first"), Said("where.ready-made"))
    if money:
        found = replace(found, sums=tuple(sum_.counted(HUNDREDTHS) for sum_ in found.sums))
    return found


def wishes(table: dict[str, Any], where: Where) -> Wishes:
    """Return the wishes in a request file's table; ``where`` names it in a refusal."""
    check_table(table, {**_KEYS, **_OPTIONS}, where)
    estimate = table.get("estimate", {})
    check_table(estimate, _ESTIMATE, Said("where.key", where=where, key="estimate"))
    held = {**table, **estimate}
    if not table.get("sums") and not {"within", "weeks"} & table.keys():
        raise RefusedError("request.no-sums", where=where, field="sums")
    try:
        return Wishes(
            sums=tuple(read_sum(text) for text in _sums(table.get("sums", []))),
            within=table.get("within"),
            parts=read_parts(listed(table["only"])) if "only" in table else DEFAULT_PARTS,
            printing={name: _typed(held[name]) for name in PRINTING if name in held},
            options={
                _argument(key): _typed(value)
                for key, value in held.items()
                if key in (*_OPTIONS, *_ESTIMATE)
            },
        )
    except RefusedError as error:
        raise error.at(where) from None


def _sums(value: list[str] | str) -> list[str]:
    """Return the sums of a list, or of a string; a comma inside a number is no comma between."""
    return _BETWEEN.split(value) if isinstance(value, str) else value


def _typed(value: Any) -> Any:  # noqa: ANN401  (a value of a checked table)
    """Return a list as it would be typed, its words with commas between; all else as it is."""
    return ",".join(value) if isinstance(value, list) else value


def _argument(option: str) -> str:
    return "first" if option == "from" else option
