"""What the screen says, a language each: the words of ``designs/page``, names of pages and files.

On the command line, files bear one name in every language, as its options do.
"""

import re
from functools import cache
from pathlib import PurePosixPath

from kitbuilder.design import load as designs
from kitbuilder.design.saying import language_of
from kitbuilder.layout.model import SheetKind


@cache
def screen_words(language: str) -> dict[str, str]:
    """Return every sentence of the screen by its dotted key.

    The names of pages and of looks are those of the printed words.
    """
    words = designs.words(language)
    pages = {f"title.{kind.value}": words(f"title.{kind.value}") for kind in SheetKind}
    own = designs.entries("page", language)
    return {**pages, **{key: str(said) for key, said in own.items()}}


def word(language: str, name: str) -> str:
    """Return the word that stands for ``name`` in names of files; ``name`` where there is none."""
    return screen_words(language_of(language)).get(f"name.{name}", name)


def file_name(language: str, name: str) -> str:
    """Return what the program's file ``name`` is called: each of its words, not its numbers."""
    path = PurePosixPath(name)
    folders = [word(language, folder) for folder in path.parent.parts]
    stem = re.sub(r"[a-z]+", lambda found: word(language, found[0]), path.stem)
    return "/".join([*folders, f"{stem}{path.suffix}"])
