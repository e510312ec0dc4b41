"""Turns a file that someone wrote into text or a TOML table, bounded in size."""

import re
import tomllib
from pathlib import Path
from typing import Any

from kitbuilder.errors import RefusedError

LARGEST_FILE = 200_000
"""Bytes a file of sums, wishes or designs may have."""

LARGEST_NUMBER = 10**12
"""A whole number in a TOML file is smaller."""

DEEPEST = 8
"""Tables or lists in a TOML file that may lie within each other; dots in a key count too."""

_LONG_KEY = re.compile(r"(?<![\w-])(?:(?:[\w-]++|\"[^\"\n]*+\"|'[^'\n]*+')[ \t]*+\.[ \t]*+){8}")
"""A key with ``DEEPEST`` dots, more than any design has.

The TOML reader takes minutes, and all memory, for a key of 50,000 dots.
"""


def read_toml(path: Path) -> dict[str, Any]:
    """Return the table in the TOML file at ``path``; what is wrong is said in one sentence."""
    return parse_toml(read_text(path), named(path))


def read_text(path: Path, largest: int = LARGEST_FILE) -> str:
    """Return the text of the file at ``path``, at most ``largest`` bytes of UTF-8.

    A pipe is read where the shell made it (/dev/fd); one in a folder might never end.
    """
    where = named(path)
    try:
        if path.is_fifo() and path.parent != Path("/dev/fd"):
            raise RefusedError(f"{where} is a pipe, not a file; give a file of text.")
        with path.open("rb") as file:
            raw = file.read(largest + 1)
    except (OSError, ValueError) as error:  # a ValueError where a name holds a null
        reason = (getattr(error, "strerror", None) or "it cannot be opened").lower()
        there = isinstance(error, PermissionError)
        mend = "see that it is a file you may read" if there else "check its name"
        raise RefusedError(f"{where} cannot be read ({reason}); {mend}.") from None
    return decode(raw, where, largest)


def named(path: Path) -> str:
    """Return the name of ``path`` to say in a sentence, shortened where it is very long."""
    text = str(path)
    return text if len(text) <= 200 else f"{text[:100]}...{text[-50:]}"


def decode(raw: bytes, where: str, largest: int = LARGEST_FILE) -> str:
    """Return ``raw`` as text; refuse more than ``largest`` bytes and what is not UTF-8 text."""
    if len(raw) > largest:
        raise RefusedError(
            f"{where} is larger than {largest // 1000} kB, the most that is read; "
            "see that it is the right one, or split it."
        )
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise RefusedError(f"{where} is not a text file; save it as plain text (UTF-8).") from None
    if "\0" in text:
        raise RefusedError(f"{where} is not a text file; save it as plain text (UTF-8).")
    return text


def parse_toml(text: str, where: str) -> dict[str, Any]:
    """Return ``text`` parsed as TOML; ``where`` names it in the refusal."""
    too_deep = RefusedError(
        f"{where} has tables within tables, deeper than {DEEPEST}; write it as the shipped files."
    )
    if _LONG_KEY.search(text):
        raise too_deep
    try:
        table = tomllib.loads(text)
    except RecursionError:
        raise too_deep from None
    except ValueError as error:  # also a number too long to be read
        said = str(error) if isinstance(error, tomllib.TOMLDecodeError) else "a number is too long"
        raise RefusedError(f"{where} is not a TOML file: {said[:200]}; mend that place.") from None
    _check(table, where, too_deep)
    return table


def _check(table: dict[str, Any], where: str, too_deep: RefusedError) -> None:
    """Refuse numbers that no design needs, and tables and lists that lie too deep."""
    level: list[Any] = [table]
    for _ in range(DEEPEST + 1):
        inner: list[Any] = []
        for value in level:
            if isinstance(value, dict | list):
                inner += value.values() if isinstance(value, dict) else value
            elif isinstance(value, int) and abs(value) >= LARGEST_NUMBER:
                raise RefusedError(f"{where} holds a number of 13 digits or more; make it smaller.")
        level = inner
    if level:
        raise too_deep
