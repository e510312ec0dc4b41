"""Files that the program brings with it: in a folder, or in a wheel that was not unpacked."""

from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable

PACKAGE = Path(__file__).parents[1]


def held(*parts: str) -> "Traversable":
    """Return the file or folder at ``parts`` inside the package, whether or not it is there."""
    found = PACKAGE.joinpath(*parts)
    if PACKAGE.is_dir():
        return found
    from importlib.resources import files  # it loads much, for what few need

    return files("kitbuilder").joinpath(*parts)
