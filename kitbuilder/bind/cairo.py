"""Turns drawings into one PDF document: every page on one cairo surface, fonts embedded once.

CairoSVG makes a document a page and shows text letter by letter. Here all pages share one
surface, so that each typeface is embedded once, and a plain run of text is shown at once.
"""

import os
import re
import sys
import tempfile
from collections.abc import Iterable
from functools import cache
from io import BytesIO
from pathlib import Path
from typing import Any
from xml.sax.saxutils import escape

from kitbuilder import measure
from kitbuilder.bind.outlines import draw_outlined
from kitbuilder.bind.wide import add_wide_typeface
from kitbuilder.draw.canvas import Drawing
from kitbuilder.errors import RefusedError
from kitbuilder.printers import Correction

POINTS_PER_MM = 72 / 25.4

_LINES = re.compile(r"(?:M-?[\d.]+ -?[\d.]+L-?[\d.]+ -?[\d.]+)+")
"""A path of separate straight lines, as a canvas writes it."""

_PLAIN = frozenset(("d", "fill", "stroke", "stroke-width", "baseProfile", "version", "viewBox"))
"""Attributes of a path that is stroked plainly; the last three come from the page."""

_PROBE = "Hamburg 0123456789 − + ="
"""Words whose width tells whether cairo found the shipped typeface."""

INSTALL = {
    "linux": "install it (Debian and Ubuntu: sudo apt install libcairo2; Fedora: "
    "sudo dnf install cairo)",
    "darwin": "install it with Homebrew (brew install cairo)",
    "win32": "install the GTK runtime, or MSYS2 with its package mingw-w64-ucrt-x86_64-cairo, "
    "and put the folder of libcairo-2.dll on the PATH",
}
"""What to do where cairo is lacking, by ``sys.platform``; other systems are told as Linux is."""

_FONTS = """<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "fonts.dtd">
<fontconfig><dir>{fonts}</dir><cachedir>{cache}</cachedir></fontconfig>
"""


def pages(drawings: Iterable[Drawing]) -> bytes:
    """Return a PDF with one page for each of ``drawings``, in true size; one is held at a time.

    Raises ``RefusedError`` where the system has no cairo library.
    """
    surface_class, tree_class, cairo = _libraries()
    output = BytesIO()
    document = cairo.PDFSurface(output, 1, 1)  # each page sets its own size
    for drawing in drawings:
        tree = tree_class(bytestring=drawing.svg.encode())
        surface_class(tree, document, drawing.correction).finish()
    document.finish()
    return output.getvalue()


@cache
def _libraries() -> tuple[Any, Any, Any]:
    """Import cairo with only the shipped typeface in its sight; return the page surface class."""
    _only_our_fonts()
    try:
        import cairocffi as cairo
        import cairosvg.surface
        from cairosvg.parser import Tree
    except OSError:
        raise RefusedError(lacking()) from None
    return _page_surface(cairosvg.surface), Tree, cairo


def lacking() -> str:
    """Say that there is no cairo library, and what to do about it on this system."""
    how = INSTALL.get(sys.platform, INSTALL["linux"])
    return f"The cairo library, which draws the pages, was not found; {how} and try again."


def is_there() -> bool:
    """Return whether the system has a cairo library."""
    try:
        _libraries()
    except RefusedError:
        return False
    return True


@cache
def finds_typeface() -> bool:
    """Return whether cairo sets words in the shipped typeface, by the width of some.

    It does not where its source of typefaces is another than fontconfig (Windows, macOS).
    """
    cairo = _libraries()[2]
    context = cairo.Context(cairo.PDFSurface(None, 100, 100))
    context.select_font_face(measure.FAMILY)
    context.set_font_size(100)
    found = float(context.text_extents(_PROBE)[4])
    return abs(found - measure.width(_PROBE, 100)) < 1


def _only_our_fonts() -> None:
    """Point fontconfig, before cairo first asks it, to the folder of the shipped typeface.

    With no other font in sight the pages come out alike on every machine.
    """
    try:
        folder = Path(tempfile.mkdtemp(prefix="kitbuilder-fonts-"))
    except OSError:
        raise RefusedError(
            "No folder for passing files can be written; name one that can be in TMPDIR."
        ) from None
    import atexit
    import shutil

    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    config = folder / "fonts.conf"
    fonts = escape(str(measure.typeface().parent))
    config.write_text(_FONTS.format(fonts=fonts, cache=escape(str(folder / "cache"))), "utf-8")
    os.environ["FONTCONFIG_FILE"] = str(config)
    os.environ.pop("FONTCONFIG_SYSROOT", None)  # it would stand before every path


def _page_surface(module: Any) -> Any:
    """Return CairoSVG's PDF surface class, changed to draw onto pages of one document."""

    class PageSurface(module.PDFSurface):  # type: ignore[misc]
        def __init__(self, tree: Any, document: Any, correction: Correction) -> None:
            self.correction = correction
            super().__init__(tree, document, 96)

        def set_context_size(self, width: Any, height: Any, viewbox: Any, tree: Any) -> None:
            """Set up millimetres, stretched and shifted as the printer needs it."""
            super().set_context_size(width, height, viewbox, tree)
            c = self.correction
            self.context.translate(c.right, c.below)
            self.context.scale(c.across, c.down)

        def _create_surface(self, width: float, height: float) -> tuple[Any, float, float]:
            self.output.set_size(width, height)
            return self.output, width, height

        def finish(self) -> None:
            self.cairo.show_page()

        def draw(self, node: Any) -> None:
            if node.tag == "text" and not node.children and node.text:
                self._show(node)
            elif node.tag == "path" and _LINES.fullmatch(node["d"]) and _PLAIN.issuperset(node):
                self._stroke(node)
            else:
                super().draw(node)

        def _show(self, node: Any) -> None:
            """Show a plain run of text: one x and y, size and fill, no spacing or rotation.

            Where cairo does not find the typeface, the letters' outlines are filled instead.
            """
            context, family = self.context, node["font-family"]
            x, y, size = (float(node[name]) for name in ("x", "y", "font-size"))
            context.save()
            context.set_source_rgba(*self.map_color(node["fill"]))
            wide = family == measure.WIDE_FAMILY
            if finds_typeface() and (not wide or add_wide_typeface()):
                context.select_font_face(family)
                context.set_font_size(size)
                context.move_to(x, y)
                context.show_text(node.text)
            else:
                draw_outlined(context, node.text, x, y, size, family)
            context.restore()

        def _stroke(self, node: Any) -> None:
            """Stroke straight lines: many at once, which CairoSVG would read bit by bit."""
            context = self.context
            context.save()
            for line in node["d"][1:].split("M"):
                start, _, end = line.partition("L")
                context.move_to(*map(float, start.split(" ")))
                context.line_to(*map(float, end.split(" ")))
            context.set_line_width(float(node["stroke-width"]))
            context.set_source_rgba(*self.map_color(node["stroke"]))
            context.stroke()
            context.restore()

    return PageSurface
