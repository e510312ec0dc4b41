"""What the screen says: the words of ``designs/page`` and the names of pages, a language each."""

from functools import cache

from kitbuilder.design import load as designs
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
