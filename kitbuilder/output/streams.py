"""A PDF stream that is deflated at once, so that a page is held small while others are drawn."""

import zlib
from collections.abc import Mapping
from typing import Any

import pydyf

_LEVEL = 9


class Packed(pydyf.Stream):  # type: ignore[misc]  # pydyf ships no types
    """A stream of ``content``; ``extra`` is what its dictionary says besides."""

    def __init__(self, content: bytes, extra: Mapping[str, Any] | None = None) -> None:
        super().__init__()
        self._packed = zlib.compress(content, _LEVEL)
        self.extra = {**(extra or {}), "Filter": "/FlateDecode", "Length": len(self._packed)}

    @property
    def data(self) -> bytes:
        """The dictionary and the deflated content, as they stand in the file."""
        head = pydyf.Dictionary(self.extra).data
        return b"\n".join((head, b"stream", self._packed, b"endstream"))
