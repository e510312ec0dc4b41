"""Turns the wide typeface into a regular cut of its letters that cairo can find.

The typeface comes as one file whose weight varies. Cairo would pick a heavier weight than the
one measured and embed it without a name, so its regular cut is made once, when a page first
needs it, and handed to fontconfig.
"""

import atexit
import ctypes
import ctypes.util
import shutil
import tempfile
from functools import cache
from pathlib import Path

from kitbuilder import measure
from kitbuilder.errors import RefusedError

REGULAR = {"wght": 400, "wdth": 100}


@cache
def add_wide_typeface() -> None:
    """Make the regular cut and add it to what fontconfig knows; done once in a process.

    Raises ``RefusedError`` where fontconfig is not to be found.
    """
    name = ctypes.util.find_library("fontconfig") or "libfontconfig.so.1"
    folder = Path(tempfile.mkdtemp(prefix="kitbuilder-wide-"))
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    path = folder / "wide.ttf"
    regular_cut(path)
    try:
        add = ctypes.CDLL(name).FcConfigAppFontAddFile
    except (OSError, AttributeError):
        raise RefusedError(
            "The fontconfig library, which finds typefaces for names with rare letters, was not "
            "found; install it (Debian and Ubuntu: sudo apt install libfontconfig1)."
        ) from None
    add.argtypes, add.restype = (ctypes.c_void_p, ctypes.c_char_p), ctypes.c_int
    if not add(None, str(path).encode()):
        raise RefusedError(f"The typeface {measure.WIDE_FAMILY} could not be used; try again.")


def regular_cut(path: Path) -> None:
    """Write the wide typeface's regular cut, reduced to ``measure.WIDE_LETTERS``, to ``path``."""
    from fontTools import subset
    from fontTools.ttLib import TTFont
    from fontTools.varLib import instancer

    options = subset.Options(layout_features=[], hinting=False, notdef_outline=True)
    with TTFont(measure.wide_typeface(), lazy=True, recalcTimestamp=False) as font:
        subsetter = subset.Subsetter(options)
        letters = (range(first, end) for first, end in measure.WIDE_LETTERS)
        subsetter.populate(unicodes=[c for some in letters for c in some])
        subsetter.subset(font)
        instancer.instantiateVariableFont(font, REGULAR, inplace=True)
        font.save(path)
