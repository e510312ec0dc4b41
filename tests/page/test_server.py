"""The local server: it answers its own page alone."""

import http.client
import json
import socket
import struct
import threading
from collections.abc import Iterator

import pytest

from kitbuilder.page.contract import Engine
from kitbuilder.page.server import PageServer


@pytest.fixture
def server() -> Iterator[PageServer]:
    with PageServer() as made:
        thread = threading.Thread(target=made.serve_forever)
        thread.start()
        yield made
        made.shutdown()
        thread.join()


def asked(
    server: PageServer, method: str, path: str, body: str = "", **headers: str
) -> tuple[int, bytes, dict[str, str]]:
    connection = http.client.HTTPConnection("127.0.0.1", server.server_port, timeout=120)
    connection.request(method, path, body.encode() or None, headers)
    response = connection.getresponse()
    found = response.status, response.read(), dict(response.getheaders())
    connection.close()
    return found


def called(server: PageServer, method: str, *args: object) -> list[dict[str, object]]:
    body = json.dumps({"method": method, "args": args})
    status, answer, _ = asked(server, "POST", f"/{server.token}/call", body, Origin=server.origin)
    assert status == 200
    return [json.loads(line) for line in answer.splitlines()]


def test_it_gives_the_page_with_its_policy(server: PageServer) -> None:
    status, body, headers = asked(server, "GET", f"/{server.token}/")
    assert status == 200
    assert b"<main" in body
    assert "frame-ancestors 'none'" in headers["Content-Security-Policy"]
    assert headers["Cache-Control"] == "no-store"
    assert server.address.startswith("http://127.0.0.1:")


def test_it_draws_with_progress(server: PageServer) -> None:
    [asked_] = called(server, "ask", {"job": "kit"})
    answer = asked_["answer"]
    assert isinstance(answer, dict)
    total = len(answer["plan"]["groups"])
    *progress, last = called(server, "draw", answer["id"])
    assert progress[-1] == {"done": total, "total": total}
    assert last["file"] == ""
    *_, last = called(server, "file", answer["id"])
    assert str(last["file"]).startswith("JVBER")  # "%PDF" in base64


@pytest.mark.parametrize("given", [("draw", 999), ("nothing",), ("ask", 3)])
def test_what_cannot_be_done_is_told_and_no_traceback(
    server: PageServer, given: tuple[object, ...], capfd: pytest.CaptureFixture[str]
) -> None:
    assert called(server, str(given[0]), *given[1:]) == [{"broken": True}]
    assert capfd.readouterr().err == ""


@pytest.mark.parametrize(
    ("method", "path", "headers"),
    [
        ("GET", "/", {}),
        ("GET", "/wrong/", {}),
        ("GET", "/{token}/", {"Host": "evil.example"}),
        ("GET", "/{token}/", {"Origin": "http://evil.example"}),
        ("POST", "/{token}/call", {}),
        ("POST", "/{token}/call", {"Origin": "http://evil.example"}),
        ("POST", "/{token}/call", {"Origin": "null"}),
        ("POST", "/call", {"Origin": "{origin}"}),
    ],
)
def test_others_are_turned_away(
    server: PageServer, method: str, path: str, headers: dict[str, str]
) -> None:
    filled = {k: v.replace("{origin}", server.origin) for k, v in headers.items()}
    body = "{}" if method == "POST" else ""
    path = path.replace("{token}", server.token)
    assert asked(server, method, path, body, **filled)[:2] == (404, b"")


@pytest.mark.parametrize("body", ["", "[]", "{", '{"method": "ask"}'])
def test_what_is_no_call_is_refused(server: PageServer, body: str) -> None:
    headers = {"Origin": server.origin, "Content-Length": str(len(body))}
    status, *_ = asked(server, "POST", f"/{server.token}/call", body, **headers)
    assert status == 400


def test_it_writes_no_log(server: PageServer, capfd: pytest.CaptureFixture[str]) -> None:
    asked(server, "GET", f"/{server.token}/")
    asked(server, "GET", "/")
    said = capfd.readouterr()
    assert (said.out, said.err) == ("", "")


def test_a_page_closed_meanwhile_is_no_error(
    server: PageServer, monkeypatch: pytest.MonkeyPatch
) -> None:
    begun, gone, ended = threading.Event(), threading.Event(), threading.Event()
    wrong: list[object] = []

    def call(*given: object) -> tuple[dict[str, object], bytes]:
        begun.set()
        gone.wait(60)
        return {}, b""

    def close(held: socket.socket) -> None:
        held.close()
        ended.set()

    monkeypatch.setattr(Engine, "call", call)
    monkeypatch.setattr(server, "handle_error", lambda *given: wrong.append(given))
    monkeypatch.setattr(server, "shutdown_request", close)
    body = b'{"method": "ask", "args": []}'
    head = f"POST /{server.token}/call HTTP/1.1\r\nHost: 127.0.0.1:{server.server_port}\r\n"
    head += f"Origin: {server.origin}\r\nContent-Length: {len(body)}\r\n\r\n"
    with socket.create_connection(("127.0.0.1", server.server_port)) as page:
        page.sendall(head.encode() + body)
        assert begun.wait(60)
        page.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, struct.pack("ii", 1, 0))  # at once
    gone.set()
    assert ended.wait(60)
    assert wrong == []
