"""The packed page in Firefox, driven by WebDriver BiDi: by hand, where Debian's firefox-esr is.

pytest -n 0 tests/bench/test_firefox.py
"""

import base64
import json
import os
import re
import shutil
import socket
import struct
import subprocess
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from browsing import npm_package

from kitbuilder.page.packed.pack import PYODIDE, packed

FIREFOX = shutil.which("firefox-esr") or shutil.which("firefox")
pytestmark = pytest.mark.skipif(FIREFOX is None, reason="no Firefox on this machine")
LONGEST = 60.0
"""Seconds that anything may take."""


class Bidi:
    """A WebDriver BiDi session over a WebSocket (RFC 6455), as far as it is needed here."""

    def __init__(self, port: int) -> None:
        self._socket = socket.create_connection(("127.0.0.1", port), LONGEST)
        key = base64.b64encode(os.urandom(16)).decode()
        self._socket.sendall(
            f"GET /session HTTP/1.1\r\nHost: 127.0.0.1:{port}\r\nUpgrade: websocket\r\n"
            f"Connection: Upgrade\r\nSec-WebSocket-Key: {key}\r\n"
            "Sec-WebSocket-Version: 13\r\n\r\n".encode()
        )
        self._file = self._socket.makefile("rb")
        assert b"101" in self._file.readline()
        while self._file.readline().strip():
            pass
        self._count = 0

    def call(self, method: str, **params: object) -> dict[str, Any]:
        """Send a command and return its result."""
        self._count += 1
        body = json.dumps({"id": self._count, "method": method, "params": params}).encode()
        mask = os.urandom(4)
        told = [0x80 | len(body)] if len(body) < 126 else [0xFE, *divmod(len(body), 256)]
        size = bytes([0x81, *told])
        self._socket.sendall(size + mask + bytes(b ^ mask[n % 4] for n, b in enumerate(body)))
        while True:
            told = json.loads(self._message())
            if told.get("id") == self._count:
                assert told["type"] == "success", told
                return dict(told["result"])

    def close(self) -> None:
        """End the session's connection."""
        self._file.close()
        self._socket.close()

    def _message(self) -> bytes:
        held = b""
        while True:
            first, size = self._file.read(2)
            if size == 126:
                (size,) = struct.unpack("!H", self._file.read(2))
            elif size == 127:
                (size,) = struct.unpack("!Q", self._file.read(8))
            held += self._file.read(size)
            if first & 0x80:
                return held


@pytest.fixture
def firefox(tmp_path: Path) -> Iterator[Bidi]:
    """Return a session with a new Firefox that has no network."""
    command = [str(FIREFOX), "--headless", "--remote-debugging-port=0", "--profile", str(tmp_path)]
    said = tmp_path / "said.txt"
    with said.open("w") as log, subprocess.Popen(command, stderr=log) as running:
        began = time.monotonic()
        while not (port := re.search(r"BiDi listening on ws://[^:]+:(\d+)", said.read_text())):
            assert time.monotonic() - began < LONGEST
            time.sleep(0.1)
        session = Bidi(int(port[1]))
        session.call("session.new", capabilities={})
        try:
            yield session
        finally:
            session.close()
            running.terminate()


def test_own_sums_are_made_in_firefox(firefox: Bidi, tmp_path: Path) -> None:
    """From a file, by double click as it were: Python wakes, and own sums are laid out."""
    path = tmp_path / "kitbuilder.html"
    path.write_text(packed(npm_package("pyodide", PYODIDE).read_bytes()), "utf-8")
    [context] = firefox.call("browsingContext.getTree")["contexts"]
    target = {"context": context["context"]}

    def evaluated(script: str) -> object:
        told = firefox.call("script.evaluate", expression=script, target=target, awaitPromise=True)
        return told["result"].get("value")

    firefox.call("browsingContext.navigate", url=f"{path.as_uri()}#kit", wait="complete", **target)
    began = time.monotonic()
    evaluated(
        """{ const box = document.querySelector(".sum .box");
             box.value = "86"; box.dispatchEvent(new Event("input", { bubbles: true })); }"""
    )
    ready = 'document.querySelector(".desk .save").getAttribute("aria-disabled") === null'
    while not evaluated(ready):
        assert time.monotonic() - began < LONGEST
        time.sleep(0.1)
    print(f"\nFirefox: own sums ready {time.monotonic() - began:.1f} s after they were typed")
    assert "86" in str(evaluated('document.querySelector(".sum .box").value'))
    assert evaluated('document.querySelectorAll(".pages img[src]").length > 9')
    evaluated('document.querySelector(".desk .save").click()')
    while evaluated("location.hash") != "#kit/saved":
        assert time.monotonic() - began < LONGEST
        time.sleep(0.1)
