"""The language that the terminal is answered in, and what is said in it."""

from collections.abc import Sequence
from itertools import zip_longest
from pathlib import Path

import click

from kitbuilder.design.saying import LANGUAGES, say
from kitbuilder.errors import RefusedError, Said


def spoken(args: Sequence[str]) -> str:
    """Return the tag of the language asked for with --words, or in a request file among ``args``.

    British English if none is; what is wrong with the words or the file is refused later.
    """
    for word, after in zip_longest(args, args[1:], fillvalue=""):
        name, joined, value = word.partition("=")
        if name == "--words":
            return _language(value if joined else after)
    request = next((word for word in args if word.lower().endswith(".toml")), "")
    return _language(_words_in(request)) if request else LANGUAGES[0]


def _words_in(request: str) -> str:
    from kitbuilder.formats.textfile import read_toml

    try:
        return str(read_toml(Path(request)).get("words", ""))
    except RefusedError:
        return ""


def _language(typed: str) -> str:
    if not typed.lower().endswith(".toml"):
        return typed or LANGUAGES[0]
    from kitbuilder.design import load as designs

    try:
        return designs.words(typed).language
    except RefusedError:
        return LANGUAGES[0]


def language() -> str:
    """Return the tag of the language in which the command that runs now is to answer."""
    here = click.get_current_context(silent=True)
    return str((here and here.find_root().obj) or LANGUAGES[0])


def speak(said: Said) -> str:
    """Return ``said`` in the terminal's language."""
    return say(said, language())


def tell(said: Said, *, err: bool = False) -> None:
    """Print ``said`` in the terminal's language, on standard error with ``err``."""
    click.echo(speak(said), err=err)
