"""Turns named bytes into files in a folder: each one whole, the last one last."""

import os
import tempfile
from collections.abc import Mapping
from pathlib import Path

from kitbuilder.errors import RefusedError


def write(
    folder: Path, files: Mapping[str, bytes], advice: str = "choose another with --out"
) -> tuple[Path, ...]:
    """Write ``files`` into ``folder`` in the order given and return their paths.

    Each file is written beside its place and moved there when whole, so that a file is old
    or new, never half. Nothing else in the folder is touched. Raises ``RefusedError`` where
    the folder cannot be written.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
        return tuple(_write(folder / name, data) for name, data in files.items())
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        raise RefusedError(f"The folder {folder} cannot be written ({reason}); {advice}.") from None


def _write(path: Path, data: bytes) -> Path:
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
        beside.replace(path)
    except BaseException:
        beside.unlink(missing_ok=True)
        raise
    return path
