"""Turns drawings into a finished PDF: titled, outlined, numbered, and not to be scaled."""

from collections.abc import Sequence
from hashlib import sha256
from io import BytesIO
from itertools import groupby
from typing import TYPE_CHECKING, cast

from kitbuilder import __version__, measure
from kitbuilder.bind import cairo
from kitbuilder.draw.canvas import Drawing

if TYPE_CHECKING:
    from pypdf import PdfReader
    from pypdf.generic import DictionaryObject


def pdf(drawings: Sequence[Drawing], title: str, language: str) -> bytes:
    """Return ``drawings`` as one PDF 1.7 with title, language, outline and page labels.

    The document asks viewers to print it at actual size. The same drawings give the same
    bytes. Raises ``ValueError`` where a typeface other than the shipped one was embedded.
    """
    from pypdf import PdfReader, PdfWriter
    from pypdf.constants import PageLabelStyle
    from pypdf.generic import (
        ArrayObject,
        BooleanObject,
        ByteStringObject,
        DictionaryObject,
        NameObject,
        TextStringObject,
    )

    reader = PdfReader(BytesIO(cairo.pages(drawings)))
    writer = PdfWriter()
    for page in reader.pages:
        writer.add_page(page)
    writer.pdf_header = "%PDF-1.7"
    writer.metadata = {"/Title": title, "/Producer": f"kitbuilder {__version__}"}
    writer.root_object[NameObject("/Lang")] = TextStringObject(language)
    writer.root_object[NameObject("/ViewerPreferences")] = DictionaryObject(
        {
            NameObject("/PrintScaling"): NameObject("/None"),
            NameObject("/Enforce"): ArrayObject([NameObject("/PrintScaling")]),
            NameObject("/DisplayDocTitle"): BooleanObject(True),
        }
    )
    writer.set_page_label(0, len(drawings) - 1, style=PageLabelStyle.DECIMAL)
    start = 0
    for name, same in groupby(drawings, key=lambda drawing: drawing.title):
        writer.add_outline_item(title=name, page_number=start)
        start += len(list(same))
    digest = sha256("".join(drawing.svg for drawing in drawings).encode()).digest()[:16]
    writer._ID = ArrayObject([ByteStringObject(digest), ByteStringObject(digest)])
    check_typefaces(embedded(reader))
    output = BytesIO()
    writer.write(output)
    return output.getvalue()


def embedded(reader: "PdfReader") -> tuple[str, ...]:
    """Return the names of the typefaces a PDF holds, without their subset tags."""
    names: dict[str, None] = {}
    for page in reader.pages:
        resources = cast("DictionaryObject", page["/Resources"])
        fonts = cast("DictionaryObject", resources.get("/Font", {}))
        for font in fonts.values():
            names[str(font.get_object()["/BaseFont"]).lstrip("/").partition("+")[2]] = None
    return tuple(names)


def check_typefaces(names: Sequence[str]) -> None:
    """Raise ``ValueError`` for a typeface that is not the shipped one."""
    for name in names:
        if not name.startswith(measure.FAMILY):
            raise ValueError(f"the typeface {name!r} was embedded; only {measure.FAMILY} may be")
