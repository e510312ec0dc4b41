"""Checks of a words file's sentences one by one: words, slots' braces, letters that can be printed.

Whether they fit their places is known when pages are laid out: see ``cli/words_trial.py``.
"""

import re
from collections.abc import Mapping

from kitbuilder.design import metrics
from kitbuilder.errors import RefusedError, Where

_SLOT = re.compile(r"\{([a-z_]+)\}")

Entries = Mapping[str, str | tuple[str, ...]]


def check_words(entries: Entries, where: Where) -> None:
    """Raise ``RefusedError`` for a sentence that cannot be printed anywhere, naming its key.

    It has no words, a brace that is no slot's, or letters that no typeface has. ``where`` names
    the words file.
    """
    for key, entry in entries.items():
        for said in (entry,) if isinstance(entry, str) else entry:
            _check_said(said, key, where)


def _check_said(said: str, key: str, where: Where) -> None:
    if not said.strip():
        raise RefusedError("words.nothing", where=where, key=key)
    if set("{}") & set(_SLOT.sub("", said)):
        raise RefusedError("words.brace", where=where, key=key)
    if lacking := metrics.unprintable(said):
        raise RefusedError("words.no-letter", where=where, key=key, given=lacking[:10])
