"""Objects of a PDF that are held small while others are made, and the file that numbers them."""

import zlib
from collections.abc import Mapping
from hashlib import sha256
from typing import Any

import pydyf

from kitbuilder.output.store.folder import Output

_LEVEL = 6


def packed(content: bytes) -> bytes:
    """Return ``content`` deflated."""
    return zlib.compress(content, _LEVEL)


class Packed(pydyf.Stream):  # type: ignore[misc]  # pydyf ships no types
    """A stream of deflated ``content``; ``extra`` is what its dictionary says besides.

    ``filter_`` is how it is deflated, where not as usual.
    """

    def __init__(
        self,
        content: bytes,
        extra: Mapping[str, Any] | None = None,
        filter_: str = "/FlateDecode",
    ) -> None:
        super().__init__()
        self._content = content
        told = {**(extra or {}), "Filter": filter_, "Length": len(content)}
        self._head = pydyf.Dictionary(told).data

    @property
    def data(self) -> bytes:
        """The dictionary and the content, as they stand in the file."""
        return b"\n".join((self._head, b"stream", self._content, b"endstream"))


class WrittenObject(pydyf.Object):  # type: ignore[misc]  # as above
    """An object that is written already and changes no more: a tenth of a dictionary's size."""

    def __init__(self, data: bytes) -> None:
        super().__init__()
        self._data = data

    @property
    def data(self) -> bytes:
        """The object as it stands in the file."""
        return self._data

    def become(self, data: bytes) -> None:
        """Stand in the file as ``data``, from now on."""
        self._data = data


class File(pydyf.PDF):  # type: ignore[misc]  # as above
    """A PDF whose identifier is the hash of all that is written before its last object.

    ``pydyf`` would put all objects together once more to reckon one.
    """

    def __init__(self) -> None:
        self._hash = sha256()
        super().__init__()

    def write_line(self, content: bytes, output: Output) -> None:
        """Write a line and add it to the hash."""
        self._hash.update(content)
        super().write_line(content, output)

    def add_object(self, object_: pydyf.Object) -> None:
        """Number an object; the table of references, which comes last, gets the identifier."""
        extra = getattr(object_, "extra", None) or {}
        if extra.get("Type") == "/XRef":
            mark = pydyf.String(self._hash.hexdigest()[:32]).data
            extra["ID"] = pydyf.Array([mark, mark])
        super().add_object(object_)
