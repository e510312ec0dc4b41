"""A PDF stream that is deflated already, so that a page is held small while others are drawn."""

import zlib
from collections.abc import Mapping
from typing import Any

import pydyf

_LEVEL = 9


def packed(content: bytes) -> bytes:
    """Return ``content`` deflated."""
    return zlib.compress(content, _LEVEL)


class Packed(pydyf.Stream):  # type: ignore[misc]  # pydyf ships no types
    """A stream of deflated ``content``; ``extra`` is what its dictionary says besides."""

    def __init__(self, content: bytes, extra: Mapping[str, Any] | None = None) -> None:
        super().__init__()
        self._content = content
        self.extra = {**(extra or {}), "Filter": "/FlateDecode", "Length": len(content)}

    @property
    def data(self) -> bytes:
        """The dictionary and the content, as they stand in the file."""
        head = pydyf.Dictionary(self.extra).data
        return b"\n".join((head, b"stream", self._content, b"endstream"))
