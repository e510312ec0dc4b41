"""Turns named bytes into files in a folder: each one whole, the last one last."""

import os
import tempfile
from collections.abc import Iterable
from errno import EISDIR
from pathlib import Path

from kitbuilder.errors import RefusedError


def write(
    folder: Path, files: Iterable[tuple[str, bytes]], advice: str = "choose another with --out"
) -> tuple[Path, ...]:
    """Write ``files`` into ``folder`` in the order given and return their paths.

    Every file is written beside its place; only when all are whole are they moved there, in
    order. So each file is old or new, never half, and a failure while writing changes none.
    Nothing else in the folder is touched. Raises ``RefusedError`` where the folder cannot be
    written.
    """
    staged: list[tuple[Path, Path]] = []
    try:
        for name, data in files:
            staged.append((folder / name, _beside(folder / name, data)))
        for path, _ in staged:
            if path.is_dir():
                raise IsADirectoryError(EISDIR, f"{path.name} is a folder")
        for path, beside in staged:
            beside.replace(path)
        return tuple(path for path, _ in staged)
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        raise RefusedError(f"The folder {folder} cannot be written ({reason}); {advice}.") from None
    finally:
        for _, beside in staged:
            beside.unlink(missing_ok=True)


def _beside(path: Path, data: bytes) -> Path:
    """Write ``data`` to a new file beside ``path`` and return it."""
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(prefix=f".{path.name}.", suffix=".part", dir=path.parent)
    beside = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        mask = os.umask(0)
        os.umask(mask)
        beside.chmod(0o666 & ~mask)
    except BaseException:
        beside.unlink(missing_ok=True)
        raise
    return beside
