"""Turns a PDF into what each of three readers sees of it, and an SVG into what two see."""

import io
import re
import subprocess
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pikepdf
import pypdfium2
import resvg_py
from lxml import etree
from PIL import Image

GAP = 150
"""Thousandths of an em between two letters from which on they stand in two words."""

ALONE = 2
"""Letters of a word that stands alone, such as the head of a column or a figure in a frame.

Readers may take several of them in a row for one word.
"""

SLACK_PT = 0.01

FAR = 12
"""Greys of 255 that two pictures of a page may be apart in a cell of a twentieth of its width.

Two programs soften edges each in its own way: 8 at most in a kit (measured). A word less is 24.
"""


@dataclass(frozen=True, slots=True)
class Side:
    """One page as a reader sees it: its size in points, and its words with how often they stand."""

    width: float
    height: float
    words: Counter[str]


def by_pdfium(path: Path) -> tuple[Side, ...]:
    """Read with pdfium, which draws PDFs in Chromium."""
    with pypdfium2.PdfDocument(path) as document:
        return tuple(
            Side(
                page.get_width(),
                page.get_height(),
                Counter(page.get_textpage().get_text_bounded().split()),
            )
            for page in document
        )


def by_pikepdf(path: Path) -> tuple[Side, ...]:
    """Read with pikepdf, which is qpdf: what the file itself says is shown, page by page."""
    sides = []
    with pikepdf.open(path) as document:
        for page in document.pages:
            left, low, right, high = (float(edge) for edge in page.mediabox)
            words = Counter("".join(_shown(page)).split())
            sides.append(Side(right - left, high - low, words))
    return tuple(sides)


def by_poppler(path: Path) -> tuple[Side, ...]:
    """Read with poppler's programs, which are in most Linux desktops."""
    texts = _said("pdftotext", "-raw", path, "-").split("\f")[:-1]
    boxes = re.findall(
        r"^Page +\d+ size: +([\d.]+) x ([\d.]+) pts", _said("pdfinfo", "-l", "-1", path), re.M
    )
    return tuple(
        Side(float(width), float(height), Counter(text.split()))
        for (width, height), text in zip(boxes, texts, strict=True)
    )


def _said(*words: str | Path) -> str:
    return subprocess.run(words, capture_output=True, text=True, check=True).stdout


def _shown(page: pikepdf.Page) -> Iterator[str]:
    """Yield the letters that ``page`` shows, with a space between words set apart."""
    fonts = {name: _letters(font) for name, font in page.resources.get("/Font", {}).items()}
    letters: dict[bytes, str] = {}
    for step in pikepdf.parse_content_stream(page):
        match str(step.operator):
            case "Tf":
                letters = fonts[str(step.operands[0])]
            case "Tj" | "TJ" as name:
                shown: Any = step.operands[0] if name == "TJ" else step.operands
                yield from _decoded(shown, letters)
            case "Td" | "Tm":
                yield " "


def _decoded(parts: Any, letters: dict[bytes, str]) -> Iterator[str]:  # noqa: ANN401
    step = len(next(iter(letters)))
    for part in parts:
        if isinstance(part, pikepdf.String):
            codes = bytes(part)
            yield from (letters[codes[at : at + step]] for at in range(0, len(codes), step))
        elif abs(float(part)) > GAP:
            yield " "


def _letters(font: Any) -> dict[bytes, str]:  # noqa: ANN401
    """Return the letter of each code of ``font``, as its ToUnicode table tells them."""
    table = font.ToUnicode.read_bytes().decode("ascii")
    blocks = re.findall(r"beginbfchar(.*?)endbfchar", table, re.DOTALL)
    pairs = re.findall(r"<(\w+)>\s*<(\w+)>", "".join(blocks))
    ((first, last, letter),) = re.findall(r"<(\w+)> <(\w+)> <(\w+)>\nendbfrange", table)
    run = range(int(first, 16), int(last, 16) + 1)
    row = {bytes([code]): chr(int(letter, 16) + code - run[0]) for code in run}
    return row | {bytes.fromhex(code): bytes.fromhex(u).decode("utf-16-be") for code, u in pairs}


def differences(left: tuple[Side, ...], right: tuple[Side, ...]) -> list[str]:
    """Return in what two readers differ: pages, their sizes in points, their words."""
    if len(left) != len(right):
        return [f"{len(left)} and {len(right)} pages"]
    found = []
    for number, (one, other) in enumerate(zip(left, right, strict=True), 1):
        sizes = (one.width - other.width, one.height - other.height)
        if max(map(abs, sizes)) > SLACK_PT:
            found.append(f"page {number}: sizes differ by {sizes} pt")
        apart = one.words - other.words, other.words - one.words
        if not _only_joined(*apart):
            found.append(f"page {number}: {dict(apart[0])} and {dict(apart[1])}")
    return found


def _only_joined(one: Counter[str], other: Counter[str]) -> bool:
    """Tell whether both are the same letters, standing alone in one and in a row in the other."""
    alone = any(all(len(word) <= ALONE for word in words) for words in (one, other))
    return alone and Counter("".join(one.elements())) == Counter("".join(other.elements()))


def typefaces(path: Path) -> set[str]:
    """Return the names of the typefaces embedded in a PDF, without the tags of their subsets."""
    with pikepdf.open(path) as document:
        fonts = [
            thing
            for thing in document.objects
            if isinstance(thing, pikepdf.Dictionary) and "/FontFile2" in thing
        ]
        return {str(font.FontName).lstrip("/").partition("+")[2] for font in fonts}


def qpdf_faults(path: Path) -> list[str]:
    """Return what ``qpdf --check`` would find, through the library: errors and warnings."""
    with pikepdf.open(path) as document:
        return [*document.check_pdf_syntax(), *map(str, document.get_warnings())]


def svg_size(raw: bytes) -> tuple[str | None, str | None]:
    """Return the width and height that an SVG tells, read by libxml2 with nothing let in.

    Raises ``XMLSyntaxError`` where it is not well formed, ``ValueError`` for a document type.
    """
    parser = etree.XMLParser(resolve_entities=False, no_network=True, load_dtd=False)
    root = etree.fromstring(raw, parser)
    if root.getroottree().docinfo.doctype:
        raise ValueError("it brings a document type")
    return root.get("width"), root.get("height")


def svg_picture(raw: bytes, width: int) -> Image.Image:
    """Return an SVG in greys, ``width`` pixels wide, drawn by resvg (in Rust; it knows no cairo).

    No typeface is given to it: letters must be outlines.
    """
    png = resvg_py.svg_to_bytes(
        svg_string=raw.decode(), background="white", width=width, dpi=96, skip_system_fonts=True
    )
    return Image.open(io.BytesIO(png)).convert("L")


def pdf_picture(path: Path, page: int, width: int) -> Image.Image:
    """Return a page (from 0) in greys, ``width`` pixels wide, drawn by pdfium."""
    with pypdfium2.PdfDocument(path) as document:
        side = document[page]
        drawn: Image.Image = side.render(scale=width / side.get_width()).to_pil()
        return drawn.convert("L")


def most_apart(one: Image.Image, other: Image.Image, cells: int = 20) -> int:
    """Return how far, in greys of 255, two pictures are apart at most in a grid of cells."""
    size = (cells, cells * one.height // one.width)
    near, far = (p.resize(size, Image.Resampling.BOX).tobytes() for p in (one, other))
    return max(abs(a - b) for a, b in zip(near, far, strict=True))
