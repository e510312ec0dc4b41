"""What the files that the screen saves are called, in the reader's language.

On the command line, files bear one name in every language, as its options do.
"""

import re
from pathlib import PurePosixPath

from kitbuilder.design.saying import language_of
from kitbuilder.page.screen_words import screen_words


def word(language: str, name: str) -> str:
    """Return the word that stands for ``name`` in names of files; ``name`` where there is none."""
    return screen_words(language_of(language)).get(f"name.{name}", name)


def file_name(language: str, name: str) -> str:
    """Return what the program's file ``name`` is called: each of its words, not its numbers."""
    path = PurePosixPath(name)
    folders = [word(language, folder) for folder in path.parent.parts]
    stem = re.sub(r"[a-z]+", lambda found: word(language, found[0]), path.stem)
    return "/".join([*folders, f"{stem}{path.suffix}"])
