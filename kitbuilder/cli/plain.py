"""Text for a terminal, in letters it can show, and an end where it takes none."""

import codecs
import io
import os
import sys
import unicodedata

_SIGNS = {"−": "-", "–": "-", "—": "-", "×": "x", "²": "2", "‘": "'", "’": "'", "“": '"', "”": '"'}


def fit_terminal() -> None:
    """Let standard output and error write near letters where theirs has no such letter."""
    codecs.register_error("kitbuilder", _nearest)
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="kitbuilder")


def leave_terminal() -> None:
    """Drop what standard output or error cannot take, which Python would try once more at its end.

    That would end in words of its own and its status 120.
    """
    for stream in (sys.stdout, sys.stderr):
        if stream is None:  # as Python has it where the shell closed it
            continue
        try:
            stream.flush()
        except OSError:
            nowhere = os.open(os.devnull, os.O_WRONLY)
            os.dup2(nowhere, stream.fileno())
            os.close(nowhere)


def _nearest(error: UnicodeError) -> tuple[str, int]:
    """Return the nearest ASCII for what cannot be encoded: - for −, e for é, ? for others."""
    if not isinstance(error, UnicodeEncodeError):
        raise error
    found = ""
    for letter in error.object[error.start : error.end]:
        apart = unicodedata.normalize("NFKD", letter).encode("ascii", "ignore").decode()
        found += _SIGNS.get(letter) or apart or "?"
    return found, error.end
