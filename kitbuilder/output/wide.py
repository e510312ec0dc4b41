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

from kitbuilder.design import metrics

REGULAR = {"wght": 400, "wdth": 100}


@cache
def add_wide_typeface() -> bool:
    """Make the regular cut and add it to what fontconfig knows; done once in a process.

    Returns False where fontconfig is not to be found or does not take it.
    """
    name = ctypes.util.find_library("fontconfig") or "libfontconfig.so.1"
    try:
        add = ctypes.CDLL(name).FcConfigAppFontAddFile
    except (OSError, AttributeError):
        return False
    folder = Path(tempfile.mkdtemp(prefix="kitbuilder-wide-"))
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    path = folder / "wide.ttf"
    regular_cut(path)
    add.argtypes, add.restype = (ctypes.c_void_p, ctypes.c_char_p), ctypes.c_int
    return bool(add(None, str(path).encode()))


def regular_cut(path: Path) -> None:
    """Write the wide typeface's regular cut, reduced to ``metrics.WIDE_LETTERS``, to ``path``."""
    from fontTools import subset
    from fontTools.ttLib import TTFont
    from fontTools.varLib import instancer

    options = subset.Options(layout_features=[], hinting=False, notdef_outline=True)
    with TTFont(metrics.wide_typeface(), lazy=True, recalcTimestamp=False) as font:
        subsetter = subset.Subsetter(options)
        letters = (range(first, end) for first, end in metrics.WIDE_LETTERS)
        subsetter.populate(unicodes=[c for some in letters for c in some])
        subsetter.subset(font)
        instancer.instantiateVariableFont(font, REGULAR, inplace=True)
        font.save(path)
