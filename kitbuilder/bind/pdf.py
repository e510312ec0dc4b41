"""Turns drawings into a finished PDF: titled, outlined, numbered, and not to be scaled."""

import logging
from collections.abc import Iterable, Iterator, Sequence
from datetime import UTC, datetime
from hashlib import sha256
from io import BytesIO
from itertools import groupby
from typing import TYPE_CHECKING, cast

from kitbuilder import __version__, measure
from kitbuilder.bind import cairo
from kitbuilder.draw.canvas import Drawing

if TYPE_CHECKING:
    from pypdf import PdfReader, PdfWriter
    from pypdf.generic import DictionaryObject, IndirectObject


def pdf(drawings: Iterable[Drawing], title: str, language: str, made: int | None = None) -> bytes:
    """Return ``drawings`` as one PDF 1.7 with title, language, outline and page labels.

    The document asks viewers to print it at actual size. It bears the date ``made`` (seconds
    since the start of 1970, UTC), or none. The same drawings give the same bytes. Raises
    ``ValueError`` where a typeface other than the shipped one was embedded.
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

    # Cairo names a figure in a page's resources as often as it stands there; pypdf says so
    # each time, reads the names as one and writes it once.
    logging.getLogger("pypdf.generic").setLevel(logging.ERROR)
    marks: list[tuple[str, str]] = []
    drawn = cairo.pages(_noted(drawings, marks))
    reader = PdfReader(BytesIO(drawn))
    writer = PdfWriter()
    for page in reader.pages:
        writer.add_page(page)
    writer.pdf_header = "%PDF-1.7"
    writer.metadata = {"/Title": title, "/Producer": f"kitbuilder {__version__}", **dates(made)}
    writer.root_object[NameObject("/Lang")] = TextStringObject(language)
    writer.root_object[NameObject("/ViewerPreferences")] = DictionaryObject(
        {
            NameObject("/PrintScaling"): NameObject("/None"),
            NameObject("/Enforce"): ArrayObject([NameObject("/PrintScaling")]),
            NameObject("/DisplayDocTitle"): BooleanObject(True),
        }
    )
    writer.set_page_label(0, len(marks) - 1, style=PageLabelStyle.DECIMAL)
    _outline(writer, marks)
    mark = ByteStringObject(sha256(f"{title}{language}".encode() + drawn).digest()[:16])
    writer._ID = ArrayObject([mark, mark])
    check_typefaces(embedded(reader))
    output = BytesIO()
    writer.write(output)
    return output.getvalue()


def dates(made: int | None) -> dict[str, str]:
    """Return a PDF's two dates as ISO 32000-1, 7.9.4, writes them (from memory)."""
    if made is None:
        return {}
    day = f"{datetime.fromtimestamp(made, UTC):D:%Y%m%d%H%M%SZ}"
    return {"/CreationDate": day, "/ModDate": day}


def _noted(drawings: Iterable[Drawing], marks: list[tuple[str, str]]) -> Iterator[Drawing]:
    """Pass ``drawings`` on, noting each one's section and title."""
    for drawing in drawings:
        marks.append((drawing.section, drawing.title))
        yield drawing


def _outline(writer: "PdfWriter", marks: Sequence[tuple[str, str]]) -> None:
    """Add an entry for each run of one title, below the one entry of its section if it has one."""
    start = 0
    parents: dict[str, IndirectObject] = {}
    for (section, title), group in groupby(marks):
        if section and section not in parents:
            parents[section] = writer.add_outline_item(title=section, page_number=start)
        writer.add_outline_item(title=title, page_number=start, parent=parents.get(section))
        start += len(list(group))


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
    """Raise ``ValueError`` for a typeface that is not one of ours."""
    for name in names:
        if not name.startswith((measure.FAMILY, measure.WIDE_FAMILY.replace(" ", ""))):
            raise ValueError(
                f"the typeface {name!r} was embedded; "
                f"only {measure.FAMILY} and {measure.WIDE_FAMILY} may be"
            )
