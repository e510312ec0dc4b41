"""Drawings as one PDF: true size, real text, outlined, numbered, and not to be scaled.

``pydyf`` keeps the objects and writes the file; pages are deflated as they are drawn, and a
figure that stands at several places is held once.
"""

from collections.abc import Iterable
from datetime import UTC, datetime
from hashlib import sha256
from io import BytesIO

import pydyf

from kitbuilder import __version__
from kitbuilder.draw.canvas import Drawing
from kitbuilder.draw.marks import Figure
from kitbuilder.output.outline import add_outline
from kitbuilder.output.pen import POINTS_PER_MM, Pen
from kitbuilder.output.streams import Packed
from kitbuilder.output.typefaces import Typeface


def pdf(drawings: Iterable[Drawing], title: str, language: str, made: int | None = None) -> bytes:
    """Return ``drawings`` as one PDF 1.7 with title, language, outline and page labels.

    The document asks viewers to print it at actual size, and on one side or both as its pages
    are meant. It bears the date ``made`` (seconds since the start of 1970, UTC), or none. The
    same drawings give the same bytes.
    """
    document = _Document()
    for drawing in drawings:
        document.add(drawing)
    return document.finished(title, language, made)


class _Document:
    """A PDF being written, page by page."""

    def __init__(self) -> None:
        self._pdf = pydyf.PDF()
        self._typefaces: dict[str, Typeface] = {}
        self._fonts = pydyf.Dictionary()
        self._pdf.add_object(self._fonts)
        self._figures: dict[Figure, pydyf.Stream] = {}
        self._known: dict[int, tuple[Figure, pydyf.Stream]] = {}
        self._shown = pydyf.Dictionary()
        self._headings: list[tuple[str, str, bytes]] = []
        self._flips: list[str | None] = []

    def add(self, drawing: Drawing) -> None:
        """Add ``drawing`` as the next page."""
        self._shown = pydyf.Dictionary()
        pen = Pen(self._code, self._figure)
        pen.page(drawing)
        content = Packed(pen.content)
        self._pdf.add_object(content)
        held = {"Font": self._fonts.reference}
        if self._shown:
            held["XObject"] = self._shown
        size = [0, 0, *(round(mm * POINTS_PER_MM, 4) for mm in (drawing.width, drawing.height))]
        page = pydyf.Dictionary(
            {
                "Type": "/Page",
                "Parent": self._pdf.pages.reference,
                "MediaBox": pydyf.Array(size),
                "Resources": pydyf.Dictionary(held),
                "Contents": content.reference,
            }
        )
        self._pdf.add_page(page)
        self._headings.append((drawing.section, drawing.title, page.reference))
        self._flips.append(drawing.flip)

    def finished(self, title: str, language: str, made: int | None) -> bytes:
        """Return the whole document."""
        for typeface in self._typefaces.values():
            typeface.finish(self._pdf)
        self._pdf.catalog |= {
            "Lang": pydyf.String(language),
            "Outlines": add_outline(self._pdf, self._headings),
            "PageLabels": "<</Nums [0 <</S /D>>]>>",
            "ViewerPreferences": _wishes(self._flips),
        }
        about = {"Title": title, "Producer": f"kitbuilder {__version__}", **dates(made)}
        self._pdf.info |= {key: pydyf.String(value) for key, value in about.items()}
        mark = sha256(f"{title}{language}{made}".encode()).hexdigest()[:32]
        output = BytesIO()
        self._pdf.write(output, b"1.7", mark, compress=True)
        return output.getvalue()

    def _code(self, family: str, text: str) -> tuple[str, str]:
        """Return the name of a family's font in this document, and ``text`` in its codes."""
        typeface = self._typefaces.get(family)
        if typeface is None:
            typeface = Typeface(family, f"T{len(self._typefaces)}")
            self._typefaces[family] = typeface
            self._pdf.add_object(typeface.font)
            self._fonts[typeface.name] = typeface.font.reference
        return typeface.name, typeface.code(text)

    def _figure(self, figure: Figure) -> str:
        """Return the name of ``figure``, which is written where it stands for the first time."""
        _, held = self._known.get(id(figure), (figure, None))
        if held is None:
            held = self._figures.get(figure)
            if held is None:
                held = self._figures[figure] = self._drawn(figure)
                self._pdf.add_object(held)
            self._known[id(figure)] = figure, held  # hashing all its lines again costs more
        name = f"F{held.number}"
        self._shown[name] = held.reference
        return name

    def _drawn(self, figure: Figure) -> pydyf.Stream:
        pen = Pen(self._code, self._figure)
        pen.marks(figure.strokes)
        thick = max(strokes.width for strokes in figure.strokes)
        box = (-thick, -thick, figure.width + thick, figure.height + thick)
        sides = pydyf.Array(round(side, 3) for side in box)
        return Packed(pen.content, {"Type": "/XObject", "Subtype": "/Form", "BBox": sides})


def _wishes(flips: Iterable[str | None]) -> pydyf.Dictionary:
    """Return how a document wishes to be shown and printed (ISO 32000-1, 12.2, from memory).

    Where every page with an odd number has its back behind it, the paper is turned over; where
    none has one, it is printed on one side. A mixture is left to the person who prints.
    """
    sides = tuple(flips)
    wishes = {
        "PrintScaling": "/None",
        "Enforce": "[/PrintScaling]",
        "DisplayDocTitle": "true",
    }
    backs = set(sides[1::2])
    if not any(sides):
        wishes["Duplex"] = "/Simplex"
    elif len(backs) == 1 and len(sides) % 2 == 0 and not any(sides[::2]):
        edge = {"long-edge": "LongEdge", "short-edge": "ShortEdge"}[str(*backs)]
        wishes["Duplex"] = f"/DuplexFlip{edge}"
    return pydyf.Dictionary(wishes)


def dates(made: int | None) -> dict[str, str]:
    """Return a PDF's two dates as ISO 32000-1, 7.9.4, writes them (from memory)."""
    if made is None:
        return {}
    day = f"{datetime.fromtimestamp(made, UTC):D:%Y%m%d%H%M%SZ}"
    return {"CreationDate": day, "ModDate": day}
