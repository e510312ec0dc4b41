"""Turns drawings into a finished PDF: titled, outlined, numbered, and not to be scaled."""

import re
from collections.abc import Iterable, Sequence
from datetime import UTC, datetime
from hashlib import sha256
from io import SEEK_END, BytesIO
from typing import TYPE_CHECKING, Any

from kitbuilder import __version__
from kitbuilder.design.typefaces import FAMILIES
from kitbuilder.draw.canvas import Drawing
from kitbuilder.output import cairo

if TYPE_CHECKING:
    from pypdf.generic import PdfObject

HEADER = b"%PDF-1.7"

_TYPEFACE = re.compile(rb"/BaseFont\s*/(?:[A-Z]{6}\+)?([^\s/<>()\[\]]+)")
"""A typeface in an open PDF: its name, without the tag of the letters it holds."""


def pdf(drawings: Iterable[Drawing], title: str, language: str, made: int | None = None) -> bytes:
    """Return ``drawings`` as one PDF 1.7 with title, language, outline and page labels.

    The document asks viewers to print it at actual size. It bears the date ``made`` (seconds
    since the start of 1970, UTC), or none. The same drawings give the same bytes. Raises
    ``ValueError`` where a typeface other than the shipped one was embedded.

    Cairo writes the pages and their outline; what it cannot say follows as an incremental
    update (ISO 32000-1, 7.5.6, from memory), so that no page is read or held again.
    """
    document = cairo.pages(drawings)
    check_typefaces(typefaces(document.getbuffer()))
    mark = sha256(f"{title}{language}{made}".encode())
    mark.update(document.getbuffer())
    about = {"/Title": title, "/Producer": f"kitbuilder {__version__}", **dates(made)}
    _update(document, _wishes(language), about, mark.digest()[:16])
    document.seek(0)
    document.write(HEADER)
    return document.getvalue()


def _update(document: BytesIO, wishes: dict[str, Any], about: dict[str, str], mark: bytes) -> None:
    """Put at the end of ``document`` its catalogue with ``wishes``, and what it says of itself."""
    from pypdf import PdfReader
    from pypdf.generic import IndirectObject

    reader = PdfReader(document)
    root, size = reader.trailer.raw_get("/Root"), int(str(reader.trailer["/Size"]))
    catalogue = {**reader.root_object, **wishes}
    before = int(bytes(document.getbuffer()[-40:]).rpartition(b"startxref")[2].split()[0])
    trailer = {
        "/Size": size + 1,
        "/Root": root,
        "/Info": IndirectObject(size, 0, reader),
        "/ID": [mark, mark],
        "/Prev": before,
    }
    table = "xref\n"
    document.seek(0, SEEK_END)
    for number, held in ((root.idnum, catalogue), (size, about)):
        table += f"{number} 1\n{document.tell():010} 00000 n \n"
        document.write(f"{number} 0 obj\n".encode())
        _object(held).write_to_stream(document)
        document.write(b"\nendobj\n")
    start = document.tell()
    document.write(f"{table}trailer\n".encode())
    _object(trailer).write_to_stream(document)
    document.write(f"\nstartxref\n{start}\n%%EOF\n".encode())


def _wishes(language: str) -> dict[str, Any]:
    """Return what a catalogue says of language, page labels and how to print."""
    from pypdf.generic import NameObject

    return {
        "/Lang": language,
        "/PageLabels": {"/Nums": [0, {"/S": NameObject("/D")}]},
        "/ViewerPreferences": {
            "/PrintScaling": NameObject("/None"),
            "/Enforce": [NameObject("/PrintScaling")],
            "/DisplayDocTitle": True,
        },
    }


def _object(value: Any) -> "PdfObject":  # noqa: ANN401  (whatever a PDF can hold)
    """Return ``value`` as pypdf writes it: words become strings; names must be names already."""
    from pypdf import generic

    match value:
        case generic.PdfObject():
            return value
        case dict():
            held = {generic.NameObject(key): _object(part) for key, part in value.items()}
            return generic.DictionaryObject(held)
        case list():
            return generic.ArrayObject(map(_object, value))
        case bool():
            return generic.BooleanObject(value)
        case int():
            return generic.NumberObject(value)
        case bytes():
            return generic.ByteStringObject(value)
        case _:
            return generic.TextStringObject(value)


def dates(made: int | None) -> dict[str, str]:
    """Return a PDF's two dates as ISO 32000-1, 7.9.4, writes them (from memory)."""
    if made is None:
        return {}
    day = f"{datetime.fromtimestamp(made, UTC):D:%Y%m%d%H%M%SZ}"
    return {"/CreationDate": day, "/ModDate": day}


def typefaces(document: bytes | memoryview) -> tuple[str, ...]:
    """Return the names of the typefaces that an open PDF holds, each once."""
    return tuple(dict.fromkeys(name.decode() for name in _TYPEFACE.findall(document)))


def check_typefaces(names: Sequence[str]) -> None:
    """Raise ``ValueError`` for a typeface that is not one of ours."""
    for name in names:
        if not name.startswith(tuple(family.replace(" ", "") for family in FAMILIES)):
            raise ValueError(
                f"the typeface {name!r} was embedded; only {', '.join(FAMILIES)} may be"
            )
