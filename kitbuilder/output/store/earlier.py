"""What earlier runs left in a folder: the files they recorded, and their remains.

A run that is killed may leave files beside their places. The record among them names all that
the run was about to move, so that its files are known even before the record is in place.
"""

import json
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import field
from hashlib import file_digest
from pathlib import Path

from kitbuilder.frozen import frozen

MARK = "kitbuilder"
"""Ends the name of a file that is not yet in its place."""

PLACES = ("", "each")
"""The folders, below the one asked for, that files may lie in."""

LARGEST_RECORD = 20_000_000
"""Bytes of a record that is read; a longer one is nothing this program wrote."""

_NAME = re.compile(r"(?:each/)?[a-z]+(?:-[a-z0-9]+)?\.(?:pdf|png|svg|dxf|csv)", re.ASCII)
_REMAINS = re.compile(rf"\..+\.\d+\.{MARK}", re.ASCII)
_HASH = re.compile(r"[0-9a-f]{64}", re.ASCII)


@frozen
class Earlier:
    """What earlier runs left in ``folder``.

    ``recorded`` are the files that the record in place names, with their hashes; ``begun`` are
    those of each record that never came to its place, found in ``begun_records``.
    """

    folder: Path
    recorded: Mapping[str, str] = field(default_factory=dict)
    begun: tuple[Mapping[str, str], ...] = ()
    begun_records: tuple[Path, ...] = ()

    def whole(self, besides: Sequence[Path] = ()) -> bool:
        """Tell whether the files, ``besides`` some, are those that the record in place names.

        Where there is no record, there must be no file of a run that was begun.
        """
        if self.recorded:
            files = ((self.folder / name, mark) for name, mark in self.recorded.items())
            return all(digest(path) == mark for path, mark in files if path not in besides)
        return not any(self._is_own(name) for files in self.begun for name in files)

    def names(self, name: str) -> bool:
        """Tell whether an earlier run made a file called ``name``."""
        return any(name in files for files in (self.recorded, *self.begun))

    def changed(self, name: str) -> bool:
        """Tell whether there is a file called ``name`` that is not as the record has it."""
        path = self.folder / name
        return path.is_file() and digest(path) != self.recorded.get(name)

    def is_changed(self, name: str, made: str) -> bool:
        """Tell whether someone changed the file called ``name`` since an earlier run made it.

        ``made`` is the hash of what shall take its place: what is that already may be replaced.
        """
        path = self.folder / name
        return (
            path.is_file() and self.names(name) and not (self._is_own(name) or digest(path) == made)
        )

    def left(self, made: Mapping[str, str]) -> tuple[tuple[Path, ...], tuple[Path, ...]]:
        """Return the files of earlier runs that ``made`` does not name.

        The first are as they were written; the second were changed since.
        """
        names = dict.fromkeys(n for files in (self.recorded, *self.begun) for n in files)
        old = [name for name in names if name not in made and (self.folder / name).is_file()]
        own = [self.folder / name for name in old if self._is_own(name)]
        return tuple(own), tuple(p for name in old if (p := self.folder / name) not in own)

    def _is_own(self, name: str) -> bool:
        mark = digest(self.folder / name)
        return any(files.get(name) == mark != "" for files in (self.recorded, *self.begun))


def earlier(folder: Path, record: str) -> Earlier:
    """Return what earlier runs left in ``folder``, where they keep their record as ``record``."""
    begun = tuple(path for path in remains(folder) if path.name.startswith(f".{record}."))
    return Earlier(folder, _files(folder / record), tuple(map(_files, begun)), begun)


def remains(folder: Path) -> Iterator[Path]:
    """Yield the files that killed runs left beside their places, in the order of their names."""
    for place in PLACES:
        for path in sorted((folder / place).glob(f".*.{MARK}")):
            if _REMAINS.fullmatch(path.name) and path.is_file():
                yield path


def is_record(beside: Path) -> bool:
    """Tell whether a file beside its place is a record."""
    return beside.name.rsplit(".", 3)[1] == "json"


def digest(path: Path) -> str:
    """Return the SHA-256 of the file at ``path``; nothing where there is none to be read."""
    if not path.is_file():
        return ""
    try:
        with path.open("rb") as file:
            return file_digest(file, "sha256").hexdigest()
    except PermissionError:
        return ""


def _files(record: Path) -> dict[str, str]:
    """Return the files a record names, with their hashes.

    Only names that this program gives are taken from it, so that nothing else is ever touched.
    """
    if not record.is_file():
        return {}
    try:
        with record.open("rb") as file:
            table = json.loads(file.read(LARGEST_RECORD))["files"]
        marks = {str(name): str(entry["sha256"]) for name, entry in table.items()}
    except (ValueError, RecursionError, LookupError, TypeError, AttributeError):
        return {}
    return {n: m for n, m in marks.items() if _NAME.fullmatch(n) and _HASH.fullmatch(m)}
