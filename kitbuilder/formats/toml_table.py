"""The one check of a TOML table against the keys it may hold and the kind of each value."""

import json
from collections.abc import Mapping
from typing import Any

from kitbuilder.errors import RefusedError, Said, Where

Kinds = tuple[type, ...]

NUMBER: Kinds = (int, float)
LIST: Kinds = (list, str)
"""A list of words, or the words in one string with commas between them."""

LONGEST_SHOWN = 40
"""Letters of a wrong value that are said back."""

_NOUNS: dict[Kinds, Said] = {
    LIST: Said("kind.list-or-commas"),
    (str,): Said("kind.words"),
    (bool,): Said("kind.truth"),
    (int,): Said("kind.whole"),
    NUMBER: Said("kind.number"),
    (dict,): Said("kind.table"),
}


def check_table(
    table: Mapping[str, Any], kinds: Mapping[str, Kinds], where: Where, *, whole: bool = False
) -> None:
    """Refuse a key of ``table`` that is not among ``kinds``, and a value of another kind.

    With ``whole`` every key must be there. Lists hold words alone. ``where`` names the table.
    """
    known = tuple(kinds)
    for key in table:
        if key not in kinds:
            raise RefusedError("toml.unknown-key", where=where, given=key, known=known)
    for key, allowed in kinds.items():
        if key in table:
            _check_value(key, table[key], allowed, where)
        elif whole:
            raise RefusedError("toml.lacks-key", where=where, given=key, known=known)


def _check_value(key: str, value: Any, allowed: Kinds, where: Where) -> None:  # noqa: ANN401
    right = isinstance(value, allowed) and (bool in allowed or not isinstance(value, bool))
    if isinstance(value, list):
        right = right and all(isinstance(one, str) for one in value)
    if not right:
        given = json.dumps(value, default=str, ensure_ascii=False)
        raise RefusedError(
            "toml.wrong-kind",
            where=where,
            key=key,
            given=given if len(given) <= LONGEST_SHOWN else f"{given[:LONGEST_SHOWN]}...",
            kind=_NOUNS[allowed],
        )


def listed(value: list[str] | str) -> tuple[str, ...]:
    """Return the words of a list, or of a string with commas between them."""
    words = value.split(",") if isinstance(value, str) else value
    return tuple(word.strip() for word in words)
