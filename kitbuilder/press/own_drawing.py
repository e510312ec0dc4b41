"""Someone's own drawing (SVG) as a PDF page of vectors, made by CairoSVG in a process of its own.

The file is a stranger's: it is looked through before anything draws it, and what draws it has
ten seconds, so much memory, and no way out: nothing outside the file is fetched.
"""

import subprocess
import sys
from pathlib import Path
from xml.parsers import expat

from kitbuilder.errors import RefusedError
from kitbuilder.formats.textfile import read_text
from kitbuilder.frozen import frozen

LARGEST_DRAWING = 1_000_000
"""Bytes an SVG file may have."""

LARGEST_PAGE = 2_000_000
"""Bytes its vectors may take in a PDF."""

MOST_ELEMENTS = 20_000
DEEPEST = 100
"""How many elements an SVG may have, and how many may lie in each other."""

SECONDS = 10
"""How long the drawing may take."""

_PICTURES = ("data:image/png", "data:image/jpeg")
_CHILD = "from kitbuilder.press.own_drawing_child import main; main()"
_LACKING, _FAILED = 3, 4


@frozen
class OwnDrawing:
    """A drawing to put on labels and cards: the one page of the PDF that holds its vectors."""

    pdf: bytes


def own_drawing(path: Path) -> OwnDrawing:
    """Return the drawing in the SVG file at ``path``. Raises ``RefusedError``."""
    svg = read_text(path, LARGEST_DRAWING).encode()
    check_svg(svg, path)
    try:
        done = subprocess.run(
            [sys.executable, "-c", _CHILD],
            input=svg,
            capture_output=True,
            timeout=SECONDS + 5,
            check=False,
            env=_environment(),
        )
    except (subprocess.TimeoutExpired, OSError):
        raise RefusedError("drawing.too-much", where=path, field="picture") from None
    if done.returncode == _LACKING:
        raise RefusedError("drawing.no-library", option="picture")
    if done.returncode == _FAILED:
        raise RefusedError("drawing.not-drawn", where=path, field="picture")
    if done.returncode or not 0 < len(done.stdout) <= LARGEST_PAGE:
        raise RefusedError("drawing.too-much", where=path, field="picture")
    return OwnDrawing(done.stdout)


def _environment() -> dict[str, str]:
    import os

    return {**os.environ, "PYTHONPATH": os.pathsep.join(p for p in sys.path if p)}


def check_svg(svg: bytes, where: Path) -> None:
    """Raise ``RefusedError`` for what is no SVG, or brings more than shapes of its own.

    Refused are entities, scripts, references to anything outside, and very many or very deep
    elements.
    """
    seen, depth = 0, 0

    def begins(tag: str, attributes: dict[str, str]) -> None:
        nonlocal seen, depth
        seen, depth = seen + 1, depth + 1
        name = tag.rpartition(":")[2].lower()
        if seen == 1 and name != "svg":
            raise RefusedError("drawing.no-svg", where=where, field="picture")
        if seen > MOST_ELEMENTS or depth > DEEPEST:
            raise RefusedError("drawing.too-much", where=where, field="picture")
        if name in ("script", "foreignobject") or any(key.startswith("on") for key in attributes):
            raise RefusedError("drawing.script", where=where, field="picture")
        for key, value in attributes.items():
            if key.rpartition(":")[2] == "href" and not value.strip().startswith(("#", *_PICTURES)):
                raise RefusedError("drawing.outside", where=where, field="picture")

    def ends(tag: str) -> None:
        nonlocal depth
        depth -= 1

    def entity(*_: object) -> int:
        raise RefusedError("drawing.entities", where=where, field="picture")

    parser = expat.ParserCreate()
    parser.StartElementHandler, parser.EndElementHandler = begins, ends
    parser.EntityDeclHandler = parser.ExternalEntityRefHandler = entity
    try:
        parser.Parse(svg, True)
    except RefusedError:
        raise
    except (expat.ExpatError, ValueError, LookupError):  # these two: an encoding nobody knows
        raise RefusedError("drawing.no-svg", where=where, field="picture") from None
    if b"@import" in svg.lower() or b"<?xml-stylesheet" in svg.lower():
        raise RefusedError("drawing.outside", where=where, field="picture")
