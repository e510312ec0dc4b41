"""What was written into a folder, and what was found there, told in the terminal."""

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from kitbuilder.errors import NAMED, Said, named

if TYPE_CHECKING:
    from kitbuilder.output.store.folder import Written


def wrote(files: Sequence[Path]) -> Said:
    """Say which files were written: each by name if they are few, else counted by kind."""
    folder = _called(files[0].parent)
    if len(files) <= 2:
        return Said("told.wrote", files=files)
    if len(files) <= NAMED:
        names = [path.relative_to(files[0].parent).as_posix() for path in files]
        return Said("told.wrote-in", files=names, folder=folder)
    kinds: dict[str, list[Path]] = {}
    for path in files:
        kinds.setdefault(path.suffix, []).append(path)
    said = [
        found[0].name
        if len(found) == 1
        else Said("told.files", count=len(found), kind=suffix.lstrip(".").upper())
        for suffix, found in kinds.items()
    ]
    return Said("told.wrote-in", files=said, folder=folder)


def found_there(written: "Written") -> Iterator[Said]:
    """Yield what earlier runs had left in the folder."""
    folder = _called(written.files[0].parent)
    if written.mended:
        yield Said("note.mended", folder=folder)
    if written.removed:
        yield Said("note.removed", files=named(written.removed))
    if written.kept:
        yield Said("note.kept", files=named(written.kept))


def _called(folder: Path) -> Path | Said:
    return Said("where.this-folder") if folder == Path() else folder
