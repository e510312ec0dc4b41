"""Turns a page rendered by pdfium into where its lines stand, in millimetres."""

from pathlib import Path

import pypdfium2 as pdfium
from PIL import Image

from kitbuilder.layout.model import Rect

DPI = 600
MM = DPI / 25.4


def rendered(path: Path, page: int) -> Image.Image:
    """Render page ``page`` (from 1) of the PDF at ``path`` in grey at 600 dots an inch."""
    with pdfium.PdfDocument(path) as document:
        shown: Image.Image = document[page - 1].render(scale=DPI / 72, grayscale=True).to_pil()
        return shown.convert("L")


def printed(picture: Image.Image, across: float, down: float) -> Image.Image:
    """Return ``picture`` as a printer gives it that stretches it so about its middle."""
    size = (round(picture.width * across), round(picture.height * down))
    small = picture.resize(size, Image.Resampling.BICUBIC)
    sheet = Image.new("L", picture.size, 255)
    sheet.paste(small, ((picture.width - size[0]) // 2, (picture.height - size[1]) // 2))
    return sheet


def line_near(picture: Image.Image, at: float, start: float, end: float, down: bool) -> float:
    """Return where the middle of the ink of a line near ``at`` stands, in mm.

    The line runs ``down`` or across, from ``start`` to ``end`` along it; what is darker than
    paper within 0.7 mm of ``at`` is weighed.
    """
    reach = 0.7
    box = (at - reach, start, at + reach, end) if down else (start, at - reach, end, at + reach)
    cut = picture.crop(tuple(round(edge * MM) for edge in box))  # type: ignore[arg-type]
    strip = cut.resize((cut.width, 1) if down else (1, cut.height), Image.Resampling.BOX)
    ink = [255 - level for level in strip.tobytes()]
    total = sum(ink)
    if total < 60:
        raise AssertionError(f"no line near {at} mm")
    middle = sum((index + 0.5) * dark for index, dark in enumerate(ink)) / total
    return round(box[0 if down else 1] * MM) / MM + middle / MM


def size_of(picture: Image.Image, rect: Rect, unit: float) -> tuple[float, float]:
    """Return the printed width and height in mm of what is outlined along ``rect``.

    The sides are looked at between the lines of its grid, 0.2 to 0.8 of the first unit.
    """
    low, high = 0.2 * unit, 0.8 * unit
    width = line_near(picture, rect.right, rect.y + low, rect.y + high, True) - line_near(
        picture, rect.x, rect.y + low, rect.y + high, True
    )
    height = line_near(picture, rect.bottom, rect.x + low, rect.x + high, False) - line_near(
        picture, rect.y, rect.x + low, rect.x + high, False
    )
    return width, height
