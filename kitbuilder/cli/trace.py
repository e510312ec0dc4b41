"""The trace of a fault in the program, put where the person who reports it can find it."""

import sys
from pathlib import Path


def written_trace(error: Exception) -> Path:
    """Write the trace of ``error`` into a new file that its owner alone can read.

    It stands among the files that pass, and tells versions and lines of code; what was typed
    may stand in it. Raises ``OSError`` where no such file can be written.
    """
    import tempfile
    import traceback

    from kitbuilder import __version__

    lines = traceback.format_exception(error)
    head = f"kitbuilder {__version__}, Python {sys.version.split()[0]}, {sys.platform}\n"
    handle, name = tempfile.mkstemp(prefix="kitbuilder-fault-", suffix=".txt")
    with open(handle, "w", encoding="utf-8", errors="backslashreplace") as file:  # noqa: PTH123
        file.write(head + "".join(lines))
    return Path(name)


def last_line(error: Exception) -> str:
    """Return the file and line in which ``error`` was raised."""
    import traceback

    last = traceback.extract_tb(error.__traceback__)[-1]
    return f"{Path(last.filename).name}:{last.lineno}"
