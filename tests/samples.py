"""Turns the ready-made kit into output_samples/first/: its PDF, its JSON and pictures."""

from pathlib import Path

import pypdfium2 as pdfium
from PIL import Image

from kitbuilder.request import Request
from kitbuilder.request_file import first_wishes
from kitbuilder.road import build

FOLDER = Path(__file__).parent.parent / "output_samples" / "first"
DPI = 50
GROUND = "#c9c9c0"


def request() -> Request:
    """Return the request that the samples are made from."""
    wishes = first_wishes()
    return Request(wishes.sums, wishes.printing.fitted())


def contact(pictures: list[Image.Image], across: int = 6, gap: int = 8) -> Image.Image:
    """Lay small copies of the pages in rows on a grey ground."""
    for picture in pictures:
        picture.thumbnail((220, 220))
    wide = max(p.width for p in pictures) + gap
    high = max(p.height for p in pictures) + gap
    rows = -(-len(pictures) // across)
    sheet = Image.new("RGB", (across * wide + gap, rows * high + gap), GROUND)
    for index, picture in enumerate(pictures):
        sheet.paste(picture, (gap + index % across * wide, gap + index // across * high))
    return sheet


def main() -> None:
    """Write the samples anew."""
    for old in FOLDER.glob("*.png"):
        old.unlink()
    build(request(), FOLDER)
    pictures = []
    with pdfium.PdfDocument(FOLDER / "kit.pdf") as document:
        for number, page in enumerate(document, 1):
            picture = page.render(scale=DPI / 72).to_pil().convert("P", palette=1, colors=32)
            picture.save(FOLDER / f"page-{number:02}.png", optimize=True)
            pictures.append(page.render(scale=1).to_pil())
    contact(pictures).save(FOLDER / "pages.png", optimize=True)


if __name__ == "__main__":
    main()
