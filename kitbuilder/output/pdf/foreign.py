"""A page of another PDF as a figure: its content and all it needs, numbered anew (by pypdf)."""

from io import BytesIO
from typing import Any

import pydyf

from kitbuilder.output.pdf.objects import Packed, WrittenObject, packed


def page_size(page: bytes) -> tuple[float, float]:
    """Return the width and height in points of the first page of the PDF ``page``."""
    from pypdf import PdfReader

    box = PdfReader(BytesIO(page)).pages[0].mediabox
    return float(box.width), float(box.height)


def foreign_form(document: pydyf.PDF, page: bytes) -> bytes:
    """Add the first page of the PDF ``page`` to ``document`` as a form; return its reference.

    Its origin is its bottom left.
    """
    from pypdf import PdfReader
    from pypdf.generic import DictionaryObject

    read = PdfReader(BytesIO(page)).pages[0]
    box = [float(side) for side in read.mediabox]
    content = read.get_contents()
    copier = _Copier(document)
    extra = {
        "Type": "/XObject",
        "Subtype": "/Form",
        "BBox": pydyf.Array(box),
        "Resources": copier.copied(read.get("/Resources", DictionaryObject())),
    }
    if "/Group" in read:  # how what is see-through is laid over what is below
        extra["Group"] = copier.copied(read["/Group"])
    form = Packed(packed(content.get_data() if content is not None else b""), extra)
    document.add_object(form)
    return bytes(form.reference)


class _Copier:
    """Copies objects of pypdf into a document, each once."""

    def __init__(self, document: pydyf.PDF) -> None:
        self._document = document
        self._copied: dict[int, bytes] = {}

    def copied(self, thing: Any) -> bytes:  # noqa: ANN401  (whatever a PDF can hold)
        """Return ``thing`` as it stands in the document; what it refers to is added."""
        from pypdf import generic

        match thing:
            case generic.IndirectObject():
                return self._referred(thing)
            case generic.StreamObject():
                raise ValueError("a stream must be referred to")
            case generic.DictionaryObject():
                pairs = (
                    str(key).encode() + b" " + self.copied(thing.raw_get(key)) for key in thing
                )
                return b"<<" + b" ".join(pairs) + b">>"
            case generic.ArrayObject():
                return b"[" + b" ".join(map(self.copied, thing)) + b"]"
            case _:
                output = BytesIO()
                thing.write_to_stream(output)
                return output.getvalue()

    def _referred(self, thing: Any) -> bytes:  # noqa: ANN401  (as above)
        from pypdf import generic

        if thing.idnum not in self._copied:
            held = thing.get_object()
            if isinstance(held, generic.StreamObject):
                told = {
                    str(key)[1:]: self.copied(held.raw_get(key))
                    for key in held
                    if key not in ("/Length", "/Filter", "/DecodeParms")
                }
                new = _stream(held, told)
                self._document.add_object(new)
                self._copied[thing.idnum] = new.reference
            else:
                new = WrittenObject(b"")
                self._document.add_object(new)
                self._copied[thing.idnum] = new.reference  # before what may refer back to it
                new.become(self.copied(held))
        return self._copied[thing.idnum]


def _stream(held: Any, told: dict[str, bytes]) -> Packed:  # noqa: ANN401  (as above)
    """Return a stream of a foreign document; a picture of a foreign encoding stays in it."""
    if str(held.get("/Filter", "")) in ("/DCTDecode", "/JPXDecode"):
        return Packed(held._data, told, filter_=str(held["/Filter"]))
    return Packed(packed(held.get_data()), told)
