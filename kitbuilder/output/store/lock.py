"""Exclusive lock on the output folder.

The lock is the operating system's own, so it ends with the process that held it, however that
ends: on POSIX it lies on the folder itself, on Windows on a file that vanishes with its holder.
"""

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from kitbuilder.errors import RefusedError


@contextmanager
def locked(folder: Path) -> Iterator[None]:
    """Hold ``folder`` while the block runs.

    Raises ``RefusedError`` where another run holds it. A file system without locks is used
    without: every file is still moved to its place whole.
    """
    try:
        handle = _held(folder)
    except (BlockingIOError, FileExistsError):
        raise RefusedError("output.locked", field="out", folder=folder) from None
    except OSError:
        handle = None
    try:
        yield
    finally:
        if handle is not None:
            os.close(handle)


if sys.platform == "win32":

    def _held(folder: Path) -> int:
        flags = os.O_CREAT | os.O_EXCL | os.O_RDWR | os.O_TEMPORARY
        return os.open(folder / ".lock.kitbuilder", flags)

else:

    def _held(folder: Path) -> int:
        import fcntl

        handle = os.open(folder, os.O_RDONLY)
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError:
            os.close(handle)
            raise
        return handle
