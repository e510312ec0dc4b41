"""Fixtures of the browser tests: a browser, the local server, and the packed file."""

import fcntl
import tarfile
import threading
from collections.abc import Iterator
from pathlib import Path
from zlib import crc32

import pytest
from browsing import AXE, launched, npm_package
from playwright.sync_api import Browser, Playwright, expect, sync_playwright

from kitbuilder.draw.canvas import Drawing
from kitbuilder.page import leaves
from kitbuilder.page.packed.pack import PYODIDE, packed
from kitbuilder.page.preview import HEAD, preview
from kitbuilder.page.server import PageServer

expect.set_options(timeout=120_000)  # two busy cores may take their time


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Begin with the longest tests, so that no worker is left with them in the end."""
    items.sort(key=lambda item: item.path.name != "test_packed.py")


@pytest.fixture(scope="session")
def playwright() -> Iterator[Playwright]:
    with sync_playwright() as started:
        yield started


@pytest.fixture(scope="session")
def browser(playwright: Playwright) -> Iterator[Browser]:
    chromium = launched(playwright)
    yield chromium
    chromium.close()


@pytest.fixture(scope="session")
def drawn() -> Iterator[str]:
    """Return the address of the page on the local server."""
    with PageServer() as server:
        thread = threading.Thread(target=server.serve_forever)
        thread.start()
        yield server.address
        server.shutdown()
        thread.join()


@pytest.fixture
def native(drawn: str, monkeypatch: pytest.MonkeyPatch) -> str:
    """Return the address of the page on the local server, with empty pictures of its sheets.

    They are as large as the true ones, and as different from each other; what is on them took
    Chromium two fifths of the time of a visit.
    """

    def empty(drawing: Drawing, page: int) -> str:
        head = HEAD.format(drawing.width, drawing.height)
        return f"{head}<desc>{crc32(preview(drawing, page).encode())}</desc></svg>"

    monkeypatch.setattr(leaves, "preview", empty)
    return drawn


@pytest.fixture(scope="session")
def packed_file(tmp_path_factory: pytest.TempPathFactory, worker_id: str) -> Path:
    """Return the page in one file, as a release carries it; all workers share it."""
    own = tmp_path_factory.getbasetemp()
    path = (own if worker_id == "master" else own.parent) / "kitbuilder.html"
    with path.with_suffix(".lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not path.exists():
            html = packed(npm_package("pyodide", PYODIDE).read_bytes())
            path.with_suffix(".part").write_text(html, "utf-8")
            path.with_suffix(".part").rename(path)
    return path


@pytest.fixture(scope="session")
def axe() -> str:
    """Return the script that looks for what keeps people out."""
    with tarfile.open(npm_package("axe-core", AXE)) as held:
        file = held.extractfile("package/axe.min.js")
        assert file
        return file.read().decode()
