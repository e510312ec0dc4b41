"""Turns drawings into one PDF document: every page on one cairo surface, fonts embedded once.

Marks go straight to cairo, a page at a time. A figure that stands at several places is held
once, in thousandths of a millimetre, and shown wherever it stands.
"""

import math
import os
import sys
import tempfile
from collections import Counter
from collections.abc import Iterable
from functools import cache
from html import escape
from io import BytesIO
from pathlib import Path
from typing import Any

from kitbuilder.design import metrics
from kitbuilder.design.typefaces import font_bytes
from kitbuilder.draw.canvas import Drawing
from kitbuilder.draw.marks import Box, Figure, Mark, Placed, Shape, Strokes, Words
from kitbuilder.errors import RefusedError
from kitbuilder.output.outlines import draw_outlined
from kitbuilder.output.wide import add_typeface

POINTS_PER_MM = 72 / 25.4

_FINE = 1000
"""Steps to a millimetre in a figure: its lines then have whole numbers, which are short."""

_NO_DAY = "1970-01-01T00:00:00Z"
"""Cairo writes a day whatever happens; always the same one, until the binding drops it."""

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


def pages(drawings: Iterable[Drawing]) -> BytesIO:
    """Return a PDF with one page for each of ``drawings``, in true size; one is held at a time.

    Its outline names each run of pages of one title, below its section if it has one. The
    file is of version 1.4: its parts lie open, so that more can be put at its end. Raises
    ``RefusedError`` where the system has no cairo library.
    """
    cairo = _library()
    output = BytesIO()
    document = cairo.PDFSurface(output, 1, 1)  # each page sets its own size
    document.restrict_to_version(cairo.PDF_VERSION_1_4)
    document.set_metadata(cairo.PDF_METADATA_CREATE_DATE, _NO_DAY)
    brush, sections, heading = _Brush(cairo), {"": cairo.PDF_OUTLINE_ROOT}, ("", "")
    for page, drawing in enumerate(drawings, 1):
        if heading != (drawing.section, drawing.title):
            heading = drawing.section, drawing.title
            _add_heading(document, sections, drawing, f"page={page} pos=[0 0]")
        document.set_size(drawing.width * POINTS_PER_MM, drawing.height * POINTS_PER_MM)
        brush.draw(drawing, cairo.Context(document))
        document.show_page()
    document.finish()
    return output


def _add_heading(document: Any, sections: dict[str, int], drawing: Drawing, place: str) -> None:
    """Add an entry for ``drawing``, at ``place``, below that of its section."""
    root, section = sections[""], drawing.section
    if section not in sections:
        sections[section] = document.add_outline(root, section, place)
    document.add_outline(sections[section], drawing.title, place)


@cache
def _library() -> Any:
    """Import cairo with only the shipped typeface in its sight."""
    _only_our_fonts()
    try:
        import cairocffi
    except OSError:
        raise RefusedError(lacking()) from None
    return cairocffi


def lacking() -> str:
    """Say that there is no cairo library, and what to do about it on this system."""
    how = INSTALL.get(sys.platform, INSTALL["linux"])
    return f"The cairo library, which draws the pages, was not found; {how} and try again."


def is_there() -> bool:
    """Return whether the system has a cairo library."""
    try:
        _library()
    except RefusedError:
        return False
    return True


@cache
def finds_typeface() -> bool:
    """Return whether cairo sets words in the shipped typeface, by the width of some.

    It does not where its source of typefaces is another than fontconfig (Windows, macOS).
    """
    cairo = _library()
    context = cairo.Context(cairo.PDFSurface(None, 100, 100))
    context.select_font_face(metrics.FAMILY)
    context.set_font_size(100)
    found = float(context.text_extents(_PROBE)[4])
    return abs(found - metrics.width(_PROBE, 100)) < 1


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
    (folder / "plain.ttf").write_bytes(font_bytes(metrics.FAMILY))
    fonts = escape(str(folder))
    config.write_text(_FONTS.format(fonts=fonts, cache=escape(str(folder / "cache"))), "utf-8")
    os.environ["FONTCONFIG_FILE"] = str(config)
    os.environ.pop("FONTCONFIG_SYSROOT", None)  # it would stand before every path


class _Brush:
    """Draws marks in millimetres onto the pages of one document."""

    def __init__(self, cairo: Any) -> None:
        self._cairo = cairo
        self._figures: dict[Figure, list[Any]] = {}
        self._shown = Counter[Figure]()

    def draw(self, drawing: Drawing, context: Any) -> None:
        """Draw a page, stretched and shifted as the printer needs it."""
        shift = drawing.correction
        context.scale(POINTS_PER_MM, POINTS_PER_MM)
        context.translate(shift.right, shift.below)
        context.scale(shift.across, shift.down)
        self._shown.clear()
        for mark in drawing.marks:
            self._draw(mark, context)

    def _draw(self, mark: Mark, context: Any) -> None:
        match mark:
            case Strokes():
                _stroke(mark, context)
            case Words():
                _show(mark, context)
            case Placed():
                self._place(mark, context)
            case Box():
                _box(mark, context)
            case Shape():
                for x, y in mark.corners:
                    context.line_to(x, y)
                context.close_path()
                context.set_source_rgb(*_colour(mark.fill))
                context.fill()

    def _place(self, placed: Placed, context: Any) -> None:
        """Show a figure; it is recorded where it stands for the first time.

        Cairo names it in the page's resources as often as it is shown, and a dictionary may
        hold a name but once: where it stands a second time on one page, a twin is shown.
        """
        figure = placed.figure
        twins = self._figures.setdefault(figure, [])
        if self._shown[figure] == len(twins):
            twins.append(self._recorded(figure))
        context.save()
        context.translate(placed.x, placed.y)
        context.scale(1 / _FINE, 1 / _FINE)
        context.set_source_surface(twins[self._shown[figure]])
        context.paint()
        context.restore()
        self._shown[figure] += 1

    def _recorded(self, figure: Figure) -> Any:
        thick = max(strokes.width for strokes in figure.strokes)
        left, right, bottom = (
            math.ceil(_FINE * size) for size in (thick, figure.width + thick, figure.height + thick)
        )
        extents = (-left, -left, left + right, left + bottom)
        surface = self._cairo.RecordingSurface(self._cairo.CONTENT_COLOR_ALPHA, extents)
        context = self._cairo.Context(surface)
        context.scale(_FINE, _FINE)
        for strokes in figure.strokes:
            _stroke(strokes, context)
        return surface


def _stroke(mark: Strokes, context: Any) -> None:
    move, line = context.move_to, context.line_to
    for x1, y1, x2, y2 in mark.lines:
        move(x1, y1)
        line(x2, y2)
    context.set_line_width(mark.width)
    context.set_dash(mark.dash)
    context.set_source_rgb(*_colour(mark.colour))
    context.stroke()


def _show(mark: Words, context: Any) -> None:
    """Show a run of words at once; its letters stand one advance apart.

    Where cairo does not find the typeface, the letters' outlines are filled instead.
    """
    context.set_source_rgb(*_colour(mark.colour))
    if finds_typeface() and (mark.family == metrics.FAMILY or add_typeface(mark.family)):
        context.select_font_face(mark.family)
        context.set_font_size(mark.size)
        context.move_to(mark.x, mark.y)
        context.show_text(mark.text)
        context.new_path()
    else:
        draw_outlined(context, mark.text, mark.x, mark.y, mark.size, mark.family)


def _box(mark: Box, context: Any) -> None:
    if mark.radius:
        _round(mark, context)
    else:
        context.rectangle(mark.x, mark.y, mark.width, mark.height)
    if mark.fill not in ("", "none"):
        context.set_source_rgb(*_colour(mark.fill))
        context.fill_preserve()
    if mark.stroke:
        context.set_line_width(mark.line)
        context.set_dash(mark.dash)
        context.set_source_rgb(*_colour(mark.stroke))
        context.stroke_preserve()
    context.new_path()


def _round(mark: Box, context: Any) -> None:
    """Go round a rectangle with round corners, clockwise from the right of its top left."""
    radius = min(mark.radius, mark.width / 2, mark.height / 2)
    right, bottom = mark.x + mark.width - radius, mark.y + mark.height - radius
    left, top = mark.x + radius, mark.y + radius
    for turn, (x, y) in enumerate([(right, top), (right, bottom), (left, bottom), (left, top)]):
        context.arc(x, y, radius, (turn - 1) * math.pi / 2, turn * math.pi / 2)
    context.close_path()


@cache
def _colour(name: str) -> tuple[float, float, float]:
    """Return the parts of red, green and blue of ``#rrggbb``, each from 0 to 1."""
    red, green, blue = (int(name[k : k + 2], 16) / 255 for k in (1, 3, 5))
    return red, green, blue
