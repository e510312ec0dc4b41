"""Whole-or-nothing writing of files into a folder, the record of them last."""

import os
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from errno import EINVAL, ENOTDIR
from hashlib import sha256
from itertools import count
from pathlib import Path
from stat import S_IMODE
from typing import BinaryIO, Protocol

from kitbuilder.errors import RefusedError, Said, reason
from kitbuilder.frozen import frozen
from kitbuilder.output.store.earlier import MARK, Earlier, digest, earlier, is_record, remains
from kitbuilder.output.store.lock import locked


class Output(Protocol):
    """What the content of a file is written into."""

    def write(self, data: bytes, /) -> int:
        """Write ``data`` at the end."""


Content = bytes | Callable[[Output], None]
"""What is in a file: its bytes, or what writes them into it."""

File = tuple[str, Content]
"""A file's name in its folder and its content."""

Record = tuple[str, Callable[[Mapping[str, str]], str]]
"""The name of a record, and what writes it from the SHA-256 of each file by name."""


@frozen
class Written:
    """The files written, in order, and what became of those of earlier runs.

    ``mended`` tells that those were not as their record says. ``removed`` are files that this
    run no longer makes, ``kept`` those among them that stay since someone changed them.
    """

    files: tuple[Path, ...]
    mended: bool = False
    removed: tuple[Path, ...] = ()
    kept: tuple[Path, ...] = ()


CHOOSE_ANOTHER = Said("advice.choose-another", option="out")


@contextmanager
def in_folder(folder: Path, advice: Said = CHOOSE_ANOTHER) -> Iterator[None]:
    """Raise ``RefusedError``, with ``advice``, where the system refuses the block ``folder``."""
    try:
        yield
    except OSError as error:
        raise RefusedError(
            "output.folder", field="out", folder=folder, reason=reason(error), advice=advice
        ) from None


def write(
    folder: Path,
    files: Iterable[File],
    record: Record | None = None,
    advice: Said = CHOOSE_ANOTHER,
    private: bool = False,
) -> Written:
    """Write ``files`` and then their ``record`` into ``folder``.

    Every file is written beside its place; only when all are whole are they moved there, in
    order, the record last. So at any moment each file is old or new, never half, and a record
    that agrees with its files tells that none is missing. What killed runs left beside is
    cleared; files of an earlier record that are no longer made are removed if they are still
    as they were written. Nothing else in the folder is touched. A file keeps the rights of the
    one whose place it takes; a new one that is ``private`` is its owner's alone. Raises
    ``RefusedError`` where the folder cannot be written, another run writes into it, or, with a
    ``record``, where one of the names is taken by a file that no earlier run recorded, or that
    was changed since.
    """
    made: list[Path] = []
    try:
        with in_folder(folder, advice):
            made += [path for path in (folder, *folder.parents) if not path.exists()]
            if folder.exists() and not folder.is_dir():
                raise OSError(ENOTDIR, "it is a file")
            folder.mkdir(parents=True, exist_ok=True)
            with locked(folder):
                return _written(_Staging(folder, private), files, record)
    except _HalfWayError as error:
        raise RefusedError("output.half-way", folder=folder, reason=error.reason) from None
    finally:
        for path in made:
            with suppress(OSError):
                path.rmdir()  # does nothing unless it is still empty


def write_new(path: Path, data: bytes, option: str) -> None:
    """Write ``data`` as the file ``path``, named with ``option``.

    Raises ``RefusedError`` where ``may_hold`` does.
    """
    may_hold(path, data, option)
    if path.exists():
        return
    advice = Said("advice.choose-another", option=option)
    write(path.parent, [(path.name, data)], advice=advice)


def may_hold(path: Path, data: bytes | None, option: str) -> None:
    """Raise ``RefusedError`` where a file with other content than ``data`` is there.

    Whoever wrote it: someone may have worked on it since. Without ``data``, where any file is.
    """
    if not (path.exists() or path.is_symlink()):
        return
    if data is None or not path.is_file() or digest(path) != sha256(data).hexdigest():
        raise RefusedError("output.taken", path=path, option=option)


def may_write(path: Path, option: str) -> None:
    """Raise ``RefusedError`` where the file ``path``, named with ``option``, cannot be written.

    Nothing of the trial stays: neither a file nor a folder made for it.
    """

    def tried() -> Iterator[File]:
        yield path.name, b""
        raise _TriedError

    with suppress(_TriedError):
        write(path.parent, tried(), advice=Said("advice.choose-another", option=option))


def may_take(folder: Path, names: Sequence[str]) -> None:
    """Raise ``RefusedError`` where one of ``names``, the last a record's, is taken in ``folder``.

    That is, by a file that no earlier run recorded.
    """
    with in_folder(folder):
        before = earlier(folder, names[-1])
        for name in () if before.recorded else names:
            if not before.names(name):
                _check_free(folder / name)


class _TriedError(Exception):
    """A file could be written beside its place."""


class _HalfWayError(Exception):
    """Some files were moved to their places, others could not be."""

    def __init__(self, reason: Said) -> None:
        super().__init__(reason.code)
        self.reason = reason


class _Hashed:
    """A file to write into that reckons the SHA-256 of what is written."""

    def __init__(self, file: BinaryIO) -> None:
        self._file = file
        self._hash = sha256()

    def write(self, data: bytes) -> int:
        """Write ``data`` at the end."""
        self._hash.update(data)
        return self._file.write(data)

    def digest(self) -> str:
        """Return the SHA-256 of all that was written."""
        return self._hash.hexdigest()


class _Staging:
    """Files beside their places in ``folder``, and their moving there."""

    def __init__(self, folder: Path, private: bool) -> None:
        self.folder = folder
        self._private = private
        self.marks: dict[str, str] = {}
        self._beside: dict[Path, Path] = {}
        self._moved = 0

    def add(self, name: str, content: Content) -> None:
        """Write ``content`` beside the place of the file called ``name``."""
        path = self.folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        if path.exists() and not path.is_file():
            raise OSError(EINVAL, "not a file", path.name or str(path))
        with _new(path, self._private) as file:
            self._beside[path] = Path(file.name)
            hashed = _Hashed(file)
            hashed.write(content) if isinstance(content, bytes) else content(hashed)
            file.flush()
            os.fsync(file.fileno())
        self.marks[name] = hashed.digest()

    def move(self, leaving: Sequence[Path], last: Path | None) -> tuple[Path, ...]:
        """Move all files to their places, and remove those ``leaving`` before the ``last``."""
        try:
            for path, beside in self._beside.items():
                if path == last:
                    _remove(self.folder, leaving)
                beside.replace(path)
                self._moved += 1
        except OSError as error:
            if self._moved:
                raise _HalfWayError(reason(error)) from None
            raise
        return tuple(self._beside)

    def clear(self) -> None:
        """Remove what is still beside its place; a record stays where some files were moved.

        It tells the next run which files those are.
        """
        kept = self._moved > 0
        with suppress(OSError):
            _remove(self.folder, (p for p in self._beside.values() if not (kept and is_record(p))))


def _written(staging: _Staging, files: Iterable[File], record: Record | None) -> Written:
    folder, last = staging.folder, None
    before = earlier(folder, record[0]) if record else Earlier(folder)
    if record and not before.recorded:
        _check_free(folder / record[0])
    _remove(folder, (path for path in remains(folder) if not is_record(path)))
    try:
        for name, data in files:
            if record and not before.names(name):
                _check_free(folder / name)
            staging.add(name, data)
            if record and before.is_changed(name, staging.marks[name]):
                raise RefusedError("output.changed", path=folder / name, option="out")
        removed, kept = before.left(staging.marks)
        if record:
            last = folder / record[0]
            staging.add(last.name, record[1](dict(staging.marks)).encode())
        mended = not before.whole(kept)
        written = staging.move(removed, last)
        with suppress(OSError):
            _remove(folder, before.begun_records)
        return Written(written, mended, removed, kept)
    finally:
        staging.clear()


def _check_free(path: Path) -> None:
    """Refuse to put a file in the place of one that is none of this program's."""
    if path.is_file() or path.is_symlink():
        raise RefusedError("output.taken-folder", path=path, option="out")


def _new(path: Path, private: bool) -> BinaryIO:
    """Open a new file beside ``path``; what an earlier run left there is not touched.

    It gets the rights of the file at ``path``, if there is one.
    """
    rights = 0o600 if private else 0o666  # less what the user's mask takes off

    def opened(name: str, flags: int) -> int:
        return os.open(name, flags, rights)

    for number in count(1):
        with suppress(FileExistsError):
            beside = path.with_name(f".{path.name}.{number}.{MARK}")
            file = open(beside, "xb", opener=opened)  # noqa: SIM115  (Path has no opener)
            with suppress(OSError):
                beside.chmod(S_IMODE(path.stat().st_mode))
            return file
    raise AssertionError


def _remove(folder: Path, paths: Iterable[Path]) -> None:
    """Remove ``paths``, and the folders they lay in below ``folder`` if nothing else is there."""
    for path in tuple(paths):
        path.unlink(missing_ok=True)
        if path.parent != folder:
            with suppress(OSError):
                path.parent.rmdir()
