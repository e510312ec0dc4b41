"""What the screen says: the words of ``designs/page`` and the names of pages, a language each."""

import tomllib
from functools import cache
from typing import Any

from kitbuilder.design import load as designs
from kitbuilder.layout.model import SheetKind

LANGUAGES = ("en-GB", "en-US", "es")


@cache
def screen_words(language: str) -> dict[str, str]:
    """Return every sentence of the screen by its dotted key.

    American English has a file of what differs from British English. The names of pages and of
    looks are those of the printed words.
    """
    own = dict(_flat(_table(language), ""))
    usual = screen_words(LANGUAGES[0]) if language == "en-US" else {}
    words = designs.words(language)
    pages = {f"title.{kind.value}": words(f"title.{kind.value}") for kind in SheetKind}
    return {**pages, **usual, **own}


def _table(language: str) -> dict[str, Any]:
    file = designs.folder() / "page" / f"{language}.toml"
    return tomllib.loads(file.read_text("utf-8"))


def _flat(table: dict[str, Any], before: str) -> list[tuple[str, str]]:
    found: list[tuple[str, str]] = []
    for key, value in table.items():
        if isinstance(value, dict):
            found += _flat(value, f"{before}{key}.")
        else:
            found.append((f"{before}{key}", str(value)))
    return found
