"""The page served on this machine alone, with the program itself as its engine.

It listens on 127.0.0.1, on a port that the system chooses, below a path with a random token; it
answers only to its own host name and its own page, and writes no log.
"""

import json
import secrets
from base64 import b64encode
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, field
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from threading import Event, Lock
from typing import Any

from kitbuilder.page.contract import Engine, StoppedError
from kitbuilder.page.packed.screen import native_page

HOST = "127.0.0.1"
LARGEST_CALL = 8_000_000
"""Bytes that one call may have: a table of pupils and more."""


@dataclass(slots=True)
class _Run:
    """The engine, one call at a time, and the wish to stop it."""

    engine: Engine = field(default_factory=Engine)
    lock: Lock = field(default_factory=Lock)
    stop: Event = field(default_factory=Event)


class PageServer(ThreadingHTTPServer):
    """The server of one page; ``address`` is what to open."""

    daemon_threads = True

    def __init__(self) -> None:
        self.token = secrets.token_urlsafe(16)
        self.run = _Run()
        self.page, self.policy = native_page()
        super().__init__((HOST, 0), _Handler)

    @property
    def origin(self) -> str:
        """The page's origin."""
        return f"http://{HOST}:{self.server_port}"

    @property
    def address(self) -> str:
        """The address of the page."""
        return f"{self.origin}/{self.token}/"


class _Handler(BaseHTTPRequestHandler):
    server: PageServer
    protocol_version = "HTTP/1.1"
    server_version, sys_version = "kitbuilder", ""

    def do_GET(self) -> None:
        """Give the page."""
        if not self._allowed("") or self.path != f"/{self.server.token}/":
            return self._refuse(HTTPStatus.NOT_FOUND)
        return self._give(self.server.page, "text/html; charset=utf-8")

    def do_POST(self) -> None:
        """Do what the page calls for: lines of JSON, progress first, then the answer."""
        length = self.headers.get("Content-Length", "")
        if not self._allowed(self.server.origin) or self.path != f"/{self.server.token}/call":
            return self._refuse(HTTPStatus.NOT_FOUND)
        if not (length.isascii() and length.isdigit() and int(length) <= LARGEST_CALL):
            return self._refuse(HTTPStatus.REQUEST_ENTITY_TOO_LARGE)
        try:
            call = json.loads(self.rfile.read(int(length)))
            method, given = str(call["method"]), list(call["args"])
        except (ValueError, TypeError, KeyError):
            return self._refuse(HTTPStatus.BAD_REQUEST)
        if method == "stop":
            self.server.run.stop.set()
            return self._give(b"{}", "application/json")
        return self._do(method, given)

    def log_message(self, format: str, *args: Any) -> None:  # noqa: ANN401  (as declared)
        """Write no log: what a person types is nobody's business."""

    def _do(self, method: str, given: list[Any]) -> None:
        run = self.server.run
        self.send_response(HTTPStatus.OK)
        self._head("application/x-ndjson")
        self.send_header("Connection", "close")
        self.end_headers()
        self.close_connection = True
        with run.lock, suppress(OSError):  # the page was closed
            run.stop.clear()
            say = self._line
            try:
                answer, file = run.engine.call(
                    method,
                    given,
                    lambda n, total: say({"done": n, "total": total}),
                    run.stop.is_set,
                )
            except StoppedError:
                say({"stopped": True})
            except Exception:
                say({"broken": True})  # the page says so, and offers the ready-made kit
            else:
                say({"answer": answer, "file": b64encode(file).decode()})

    def _line(self, told: dict[str, Any]) -> None:
        self.wfile.write(json.dumps(told).encode() + b"\n")

    def _allowed(self, origin: str) -> bool:
        """Return whether the call is meant for this server and comes from its own page."""
        host = self.headers.get("Host") == f"{HOST}:{self.server.server_port}"
        return host and (self.headers.get("Origin") or "") in (origin, self.server.origin)

    def _give(self, body: bytes, kind: str) -> None:
        self.send_response(HTTPStatus.OK)
        self._head(kind)
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        self.wfile.write(body)

    def _head(self, kind: str) -> None:
        for name, value in (
            ("Content-Type", kind),
            ("Content-Security-Policy", f"{self.server.policy}; frame-ancestors 'none'"),
            ("X-Content-Type-Options", "nosniff"),
            ("Referrer-Policy", "no-referrer"),
            ("Cache-Control", "no-store"),
        ):
            self.send_header(name, value)

    def _refuse(self, status: HTTPStatus) -> None:
        self.send_response(status)
        self.send_header("Content-Length", "0")
        self.send_header("Connection", "close")
        self.end_headers()
        self.close_connection = True


def serve(opening: Callable[[str], object], told: Callable[[str], object]) -> None:
    """Serve the page until Ctrl-C; ``opening`` opens an address, ``told`` says it."""
    with PageServer() as server:
        told(server.address)
        opening(server.address)
        server.serve_forever()
