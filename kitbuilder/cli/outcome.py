"""Turns what was written into a folder, and what was found there, into plain lines."""

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from kitbuilder.cli.plain import plain

if TYPE_CHECKING:
    from kitbuilder.output.folder import Written

NAMED = 4
"""Files that are named before the rest are counted."""


def wrote(files: Sequence[Path]) -> str:
    """Say which files were written: each by name if they are few, else counted by kind."""
    folder = plain(str(files[0].parent))
    folder = "this folder" if folder == "." else folder
    if len(files) <= 2:
        return f"Wrote {joined([plain(str(path)) for path in files])}."
    if len(files) <= NAMED:
        return f"Wrote {joined([plain(path.name) for path in files])}, all in {folder}."
    kinds: dict[str, list[Path]] = {}
    for path in files:
        kinds.setdefault(path.suffix, []).append(path)
    said = [
        plain(found[0].name)
        if len(found) == 1
        else f"{len(found)} {suffix.lstrip('.').upper()} files"
        for suffix, found in kinds.items()
    ]
    return f"Wrote {joined(said)}, all in {folder}."


def found_there(written: "Written") -> Iterator[str]:
    """Yield a sentence for each thing that earlier runs had left in the folder."""
    folder = plain(str(written.files[0].parent))
    if written.mended:
        yield (
            f"The files in {folder} were not one whole kit (a run was interrupted, or they were "
            "changed since); now they are."
        )
    if written.removed:
        yield f"Removed what an earlier run made and this one does not: {named(written.removed)}."
    if written.kept:
        yield (
            f"Kept what was changed since an earlier run made it: {named(written.kept)}; "
            "it does not belong to this run."
        )


def named(paths: Sequence[Path]) -> str:
    """Name the first few of ``paths`` and count the rest."""
    said = [plain(str(path)) for path in paths[:NAMED]]
    if paths[NAMED:]:
        said.append(f"{len(paths) - NAMED} more")
    return joined(said)


def joined(said: Sequence[str]) -> str:
    """Return "a, b and c"."""
    return said[0] if len(said) == 1 else f"{', '.join(said[:-1])} and {said[-1]}"
