"""Text and TOML files that someone wrote, read within bounds."""

import re
import tomllib
from pathlib import Path
from typing import Any

from kitbuilder.errors import RefusedError, Said, Where, reason

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

_PLACE = re.compile(r"at line (\d+), column \d+")
"""Where Python's reader of TOML says that it stopped; elsewhere it was the end of the text."""


def read_toml(path: Path) -> dict[str, Any]:
    """Return the table in the TOML file at ``path``; what is wrong is said in one sentence."""
    return parse_toml(read_text(path), path)


def read_text(path: Path, largest: int = LARGEST_FILE) -> str:
    """Return the text of the file at ``path``, at most ``largest`` bytes of UTF-8.

    A pipe is read where the shell made it (/dev/fd); one in a folder might never end.
    """
    try:
        if path.is_fifo() and path.parent != Path("/dev/fd"):
            raise RefusedError("file.a-pipe", where=path)
        with path.open("rb") as file:
            raw = file.read(largest + 1)
    except PermissionError as error:
        raise RefusedError("file.forbidden", where=path, reason=reason(error)) from None
    except OSError as error:
        raise RefusedError("file.unreadable", where=path, reason=reason(error)) from None
    except ValueError:  # where a name holds a null
        why = Said("reason.no-file")
        raise RefusedError("file.unreadable", where=path, reason=why) from None
    return decode(raw, path, largest)


def decode(raw: bytes, where: Where, largest: int = LARGEST_FILE) -> str:
    """Return ``raw`` as text; refuse more than ``largest`` bytes and what is not UTF-8 text."""
    if len(raw) > largest:
        raise RefusedError("file.too-large", where=where, most=largest // 1000)
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise RefusedError("file.no-text", where=where) from None
    if "\0" in text:
        raise RefusedError("file.no-text", where=where)
    return text


def parse_toml(text: str, where: Where) -> dict[str, Any]:
    """Return ``text`` parsed as TOML; ``where`` names it in the refusal."""
    too_deep = RefusedError("toml.too-deep", where=where, most=DEEPEST)
    if _LONG_KEY.search(text):
        raise too_deep
    try:
        table = tomllib.loads(text)
    except RecursionError:
        raise too_deep from None
    except tomllib.TOMLDecodeError as error:
        raise _misformed(str(error), text, where) from None
    except ValueError:  # a number too long to be read
        raise RefusedError("toml.large-number", where=where) from None
    _check(table, where, too_deep)
    return table


def _misformed(told: str, text: str, where: Where) -> RefusedError:
    """Return the refusal of text that is no TOML; the reader ``told`` where it stopped."""
    place = _PLACE.search(told)
    line = int(place[1]) if place else text.count("\n") + 1
    return RefusedError("toml.misformed", where=where, line=line)


def _check(table: dict[str, Any], where: Where, too_deep: RefusedError) -> None:
    """Refuse numbers that no design needs, and tables and lists that lie too deep."""
    level: list[Any] = [table]
    for _ in range(DEEPEST + 1):
        inner: list[Any] = []
        for value in level:
            if isinstance(value, dict | list):
                inner += value.values() if isinstance(value, dict) else value
            elif isinstance(value, int) and abs(value) >= LARGEST_NUMBER:
                raise RefusedError("toml.large-number", where=where)
        level = inner
    if level:
        raise too_deep
