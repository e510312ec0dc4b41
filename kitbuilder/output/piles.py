"""Turns a kit's PDF into the whole pile of a class set: a PDF a paper, each page in its copies."""

from collections.abc import Iterator, Sequence
from hashlib import sha256
from io import BytesIO

from kitbuilder import __version__
from kitbuilder.layout.model import Sheet, Stock
from kitbuilder.output.pdf import dates


def piles(
    document: bytes, sheets: Sequence[Sheet], title: str, made: int | None = None
) -> dict[str, bytes]:
    """Return a PDF for each paper that is printed on, every page as often as it has copies.

    ``document`` holds each of ``sheets`` once. A back follows its front, copy by copy, so
    that a pile can be printed on both sides. The content of a page is held once. ``made`` is
    the date in each, as in the document.
    """
    found = {}
    stocks: tuple[Stock, ...] = ("card", "paper")
    for stock in stocks:
        order = list(_order(sheets, stock))
        if order:
            found[f"pile-{stock}.pdf"] = _pile(document, order, title, made)
    return found


def _order(sheets: Sequence[Sheet], stock: Stock) -> Iterator[int]:
    """Yield the indexes of the pages of one pile, in order."""
    index = 0
    while index < len(sheets):
        sides = [index]
        while index + 1 < len(sheets) and sheets[index + 1].flip is not None:
            index += 1
            sides.append(index)
        if sheets[sides[0]].stock == stock:
            for _ in range(sheets[sides[0]].copies):
                yield from sides
        index += 1


def _pile(document: bytes, order: Sequence[int], title: str, made: int | None) -> bytes:
    from pypdf import PdfReader, PdfWriter
    from pypdf.generic import ArrayObject, ByteStringObject, NameObject

    reader = PdfReader(BytesIO(document))
    writer = PdfWriter()
    pages = reader.pages
    for index in order:
        writer.add_page(pages[index])
    writer.pdf_header = "%PDF-1.7"
    writer.metadata = {"/Title": title, "/Producer": f"kitbuilder {__version__}", **dates(made)}
    for key in ("/Lang", "/ViewerPreferences"):
        value = reader.root_object[key]
        writer.root_object[NameObject(key)] = value.clone(writer)
    digest = sha256(document + repr(order).encode()).digest()[:16]
    writer._ID = ArrayObject([ByteStringObject(digest), ByteStringObject(digest)])
    output = BytesIO()
    writer.write(output)
    return output.getvalue()
