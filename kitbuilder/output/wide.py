"""Hands typefaces to fontconfig, so that cairo can find them."""

import atexit
import ctypes
import ctypes.util
import shutil
import tempfile
from functools import cache
from pathlib import Path

from kitbuilder.design.typefaces import font_bytes


@cache
def add_typeface(family: str) -> bool:
    """Add the typeface of ``family`` to what fontconfig knows; done once in a process.

    Returns False where fontconfig is not to be found or does not take it.
    """
    name = ctypes.util.find_library("fontconfig") or "libfontconfig.so.1"
    try:
        add = ctypes.CDLL(name).FcConfigAppFontAddFile
    except (OSError, AttributeError):
        return False
    folder = Path(tempfile.mkdtemp(prefix="kitbuilder-typeface-"))
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    path = folder / "typeface.ttf"
    path.write_bytes(font_bytes(family))
    add.argtypes, add.restype = (ctypes.c_void_p, ctypes.c_char_p), ctypes.c_int
    return bool(add(None, str(path).encode()))
