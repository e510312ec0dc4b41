"""Text for a terminal, in letters it can show."""

import codecs
import io
import sys
import unicodedata

_SIGNS = {"−": "-", "–": "-", "—": "-", "×": "x", "²": "2", "‘": "'", "’": "'", "“": '"', "”": '"'}


def fit_terminal() -> None:
    """Let standard output and error write near letters where theirs has no such letter."""
    codecs.register_error("kitbuilder", _nearest)
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="kitbuilder")


def _nearest(error: UnicodeError) -> tuple[str, int]:
    """Return the nearest ASCII for what cannot be encoded: - for −, e for é, ? for others."""
    if not isinstance(error, UnicodeEncodeError):
        raise error
    found = ""
    for letter in error.object[error.start : error.end]:
        apart = unicodedata.normalize("NFKD", letter).encode("ascii", "ignore").decode()
        found += _SIGNS.get(letter) or apart or "?"
    return found, error.end
