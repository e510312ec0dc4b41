"""Turns drawings into one PDF document: every page on one cairo surface, fonts embedded once.

CairoSVG makes a document a page and shows text letter by letter. Here all pages share one
surface, so that each typeface is embedded once, and a plain run of text is shown at once.
"""

import os
import tempfile
from collections.abc import Iterable
from functools import cache
from io import BytesIO
from pathlib import Path
from typing import Any
from xml.sax.saxutils import escape

from kitbuilder import measure
from kitbuilder.bind.wide import add_wide_typeface
from kitbuilder.draw.canvas import Drawing
from kitbuilder.errors import RefusedError
from kitbuilder.printers import Correction

POINTS_PER_MM = 72 / 25.4

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
        raise RefusedError(
            "The cairo library, which draws the pages, was not found; install it "
            "(Debian and Ubuntu: sudo apt install libcairo2; macOS: brew install cairo) "
            "and try again."
        ) from None
    return _page_surface(cairosvg.surface), Tree, cairo


def _only_our_fonts() -> None:
    """Point fontconfig, before cairo first asks it, to the folder of the shipped typeface.

    With no other font in sight the pages come out alike on every machine.
    """
    folder = Path(tempfile.mkdtemp(prefix="kitbuilder-fonts-"))
    import atexit
    import shutil

    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    config = folder / "fonts.conf"
    fonts = escape(str(measure.typeface().parent))
    config.write_text(_FONTS.format(fonts=fonts, cache=escape(str(folder / "cache"))), "utf-8")
    os.environ["FONTCONFIG_FILE"] = str(config)


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
            else:
                super().draw(node)

        def _show(self, node: Any) -> None:
            """Show a plain run of text: one x and y, size and fill, no spacing or rotation."""
            context = self.context
            if node["font-family"] == measure.WIDE_FAMILY:
                add_wide_typeface()
            context.save()
            context.select_font_face(node["font-family"])
            context.set_font_size(float(node["font-size"]))
            context.set_source_rgba(*self.map_color(node["fill"]))
            context.move_to(float(node["x"]), float(node["y"]))
            context.show_text(node.text)
            context.restore()

    return PageSurface
