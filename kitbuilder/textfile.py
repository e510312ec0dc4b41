"""Turns a file that someone wrote into text or a TOML table, bounded in size."""

import tomllib
from pathlib import Path
from typing import Any

from kitbuilder.errors import RefusedError

LARGEST_FILE = 200_000
"""Bytes a file of sums, wishes or designs may have."""


def read_toml(path: Path) -> dict[str, Any]:
    """Return the table in the TOML file at ``path``; what is wrong is said in one sentence."""
    return parse_toml(read_text(path), str(path))


def read_text(path: Path, largest: int = LARGEST_FILE) -> str:
    """Return the text of the file at ``path``, at most ``largest`` bytes of UTF-8."""
    try:
        with path.open("rb") as file:
            raw = file.read(largest + 1)
    except OSError as error:
        reason = (error.strerror or "it cannot be opened").lower()
        raise RefusedError(f"{path} cannot be read ({reason}); check its name.") from None
    return decode(raw, str(path), largest)


def decode(raw: bytes, where: str, largest: int = LARGEST_FILE) -> str:
    """Return ``raw`` as text; refuse more than ``largest`` bytes and what is not UTF-8 text."""
    if len(raw) > largest:
        raise RefusedError(
            f"{where} is larger than {largest // 1000} kB; a file of sums or wishes is smaller."
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
    try:
        return tomllib.loads(text)
    except (tomllib.TOMLDecodeError, RecursionError) as error:
        raise RefusedError(f"{where} is not a TOML file: {error}.") from None
