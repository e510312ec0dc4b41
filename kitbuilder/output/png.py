"""Pictures of a PDF's pages, a contact sheet, and the part of each page inked."""

from collections.abc import Iterator, Sequence
from importlib import import_module
from io import BytesIO
from typing import TYPE_CHECKING

from kitbuilder.errors import RefusedError
from kitbuilder.layout.model import Sheet

if TYPE_CHECKING:
    from PIL.Image import Image

_INK_DPI = 300
"""Dots per inch at which ink is told: a coarser dot is wider than a grid's line of 0.08 mm."""

MOST_DOTS = 36_000_000
"""Dots a picture may have: a page of a4 at 600 dots per inch."""

MOST_PICTURES = 500
"""Pages of which pictures are made: all are held until the last is drawn."""

_THUMB = 330
"""Pixels of the longer side of a page on the contact sheet."""

_GAP = 12
_GROUND = "#c9c9c0"
_WIDEST = 12
"""Pages side by side on a contact sheet."""


def check_libraries() -> None:
    """Raise ``RefusedError`` where the libraries that render pages are not installed."""
    for name in ("pypdfium2", "PIL.Image"):
        try:
            import_module(name)
        except ImportError:
            raise RefusedError("output.no-pictures", field="png") from None


def check_pictures(sheets: Sequence[Sheet], dpi: int) -> None:
    """Raise ``RefusedError`` for pictures too large or too many to be held in memory."""
    if len(sheets) > MOST_PICTURES:
        raise RefusedError(
            "output.many-pictures", count=len(sheets), most=MOST_PICTURES, option="png"
        )
    inches = max(sheet.width * sheet.height for sheet in sheets) / 25.4**2
    most = int((MOST_DOTS / inches) ** 0.5)
    if dpi > most:
        raise RefusedError("output.large-pictures", option="png", given=dpi, least=20, most=most)


def pictures(pdf: bytes, dpi: int) -> Iterator[tuple[str, bytes]]:
    """Yield the name and PNG of each page at ``dpi``, and of ``pages.png`` with all of them."""
    small: list[Image] = []
    for number, picture in enumerate(_pages(pdf, dpi), 1):
        yield f"page-{number:02}.png", _png(picture, dpi)
        small.append(_thumb(picture))
    yield "pages.png", _png(_contact(small), 72)


def inked(pdf: bytes) -> tuple[float, ...]:
    """Return the part of each page that ink covers, in per cent: black is 1, grey a part of it."""
    shares = []
    for picture in _pages(pdf, _INK_DPI):
        grey = picture.convert("L").histogram()
        dark = sum((255 - level) * count for level, count in enumerate(grey))
        shares.append(round(100 * dark / 255 / sum(grey), 2))
    return tuple(shares)


def _pages(pdf: bytes, dpi: int) -> "Iterator[Image]":
    """Yield a picture of each page at ``dpi``, or at less where it would have too many dots."""
    import pypdfium2

    document = pypdfium2.PdfDocument(pdf)
    try:
        for page in document:
            width, height = page.get_size()
            scale = min(dpi / 72, (MOST_DOTS / (width * height)) ** 0.5)
            # in PIL's own order of colours, so that the picture is not held twice
            yield page.render(scale=scale, rev_byteorder=True).to_pil().convert("RGB")
            page.close()
    finally:
        document.close()


def _thumb(picture: "Image") -> "Image":
    from PIL.Image import Resampling

    scale = _THUMB / max(picture.size)
    size = (max(1, round(picture.width * scale)), max(1, round(picture.height * scale)))
    return picture.resize(size, Resampling.BOX if scale < 1 else Resampling.NEAREST)


def _contact(small: "list[Image]") -> "Image":
    """Lay the pages in rows on a grey ground, in reading order."""
    from PIL import Image

    across = min(_WIDEST, max(1, round((len(small) * 1.4) ** 0.5)))
    wide = max(p.width for p in small) + _GAP
    high = max(p.height for p in small) + _GAP
    rows = -(-len(small) // across)
    sheet = Image.new("RGB", (across * wide + _GAP, rows * high + _GAP), _GROUND)
    for index, picture in enumerate(small):
        sheet.paste(picture, (_GAP + index % across * wide, _GAP + index // across * high))
    return sheet


def _png(picture: "Image", dpi: int) -> bytes:
    output = BytesIO()
    picture.save(output, "PNG", dpi=(dpi, dpi), optimize=True)
    return output.getvalue()
