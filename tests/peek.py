"""Renders pages of a kit to PNG, to look at while a page is being made.

``python tests/peek.py guide --sums 43-17,305-148 --paper a5 --words es --grey --out /tmp/pages``
writes one file a page, called by its kind and number.
"""

import argparse
from collections.abc import Iterable
from pathlib import Path

import pypdfium2 as pdfium
from PIL import Image, ImageFilter

from kitbuilder.design import load as designs
from kitbuilder.draw.canvas import Drawing
from kitbuilder.draw.draw_pages import draw_pages
from kitbuilder.output.pdf.document import pdf
from kitbuilder.pipeline import held, laid_out
from kitbuilder.press.printing import Press, fitted_paper
from kitbuilder.request.request import Request, read_sum

DPI = 100


def picture(drawing: Drawing, dpi: int = DPI, grey: bool = False) -> Image.Image:
    """Return a page as it is printed: in colour, or in ``grey``, which takes half as long."""
    document = pdfium.PdfDocument(pdf([drawing], "page", "en-GB"))
    found: Image.Image = document[0].render(scale=dpi / 72, grayscale=grey).to_pil()
    document.close()
    return found.convert("L" if grey else "RGB")


def photocopied(page: Image.Image) -> Image.Image:
    """Return ``page`` after a poor photocopier: grey, blurred, then black or white."""
    radius = page.width / 210 / 12  # a twelfth of a millimetre on A4
    grey = page.convert("L").filter(ImageFilter.GaussianBlur(radius))
    return grey.point(lambda value: 0 if value < 165 else 255)


def kinds_of_pages(request: Request, kinds: Iterable[str]) -> dict[str, Drawing]:
    """Return the pages of a kit whose kind is one of ``kinds`` (all for none), by a name."""
    sheets = laid_out(held(request), request).sheets
    wanted = set(kinds)
    pages = zip(sheets, draw_pages(sheets, request.paper, request.press), strict=True)
    return {
        f"{page:02}-{sheet.kind}": drawing
        for page, (sheet, drawing) in enumerate(pages, 1)
        if not wanted or sheet.kind in wanted
    }


def main() -> None:
    """Write the pages asked for."""
    parser = argparse.ArgumentParser()
    parser.add_argument("kinds", nargs="*")
    parser.add_argument("--sums", default="43-17,305-148")
    parser.add_argument("--paper", default="a4")
    parser.add_argument("--words", default="en-GB")
    parser.add_argument("--look", default="plain")
    parser.add_argument("--grey", action="store_true")
    parser.add_argument("--copy", action="store_true")
    parser.add_argument("--dpi", type=int, default=DPI)
    parser.add_argument("--out", type=Path, default=Path("/tmp/pages"))
    asked = parser.parse_args()
    press = Press(look=designs.look(asked.look), words=designs.words(asked.words))
    sums = tuple(read_sum(text) for text in asked.sums.split(","))
    request = Request(sums, fitted_paper(asked.paper), press=press)
    asked.out.mkdir(parents=True, exist_ok=True)
    for name, drawing in kinds_of_pages(request, asked.kinds).items():
        page = picture(drawing, 300 if asked.copy else asked.dpi)
        page = photocopied(page).resize((page.width // 3, page.height // 3)) if asked.copy else page
        (page.convert("L") if asked.grey else page).save(asked.out / f"{name}.png")


if __name__ == "__main__":
    main()
