"""The page in one file: it makes what the command line makes, and nothing leaves it."""

import http.server
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from io import BytesIO
from pathlib import Path

import pikepdf
import pytest
from browsing import opened, paste, saved, settled, show
from click.testing import CliRunner
from grids import WHOLE
from playwright.sync_api import Browser, Page, Request, expect

from kitbuilder.cli import main
from kitbuilder.page.packed.pack import (
    MOST_BYTES,
    OFFLINE,
    PYODIDE_SHA512,
    _pyodide,
    service_worker,
)

pytestmark = pytest.mark.browser


def native_file(out: Path, *typed: str) -> bytes:
    result = CliRunner().invoke(main, [*typed, "--out", str(out)])
    assert result.exit_code == 0, result.output
    return next(out.glob("*.pdf")).read_bytes()


def fill(page: Page, *numbers: str) -> None:
    """Type sums over those that are there; they take the place of the examples."""
    boxes = page.locator(".sum .box")
    for place, number in enumerate(numbers):
        if place >= boxes.count():
            page.locator('[data-field="sums"] .actions .link').first.click()  # one more sum
        boxes.nth(place).fill(number)
    page.locator("h1").click()


def pack_of(cards: int) -> str:
    return "\n".join(f"Pupil {n % 230}\t{501 + n % 97} − 168" for n in range(cards))


LARGE = 690 if WHOLE else 100


ASLEEP = "delete globalThis.WebAssembly"
"""Keeps Python from starting, which takes seconds."""

BREAKING = """
const { postMessage } = Worker.prototype;
Worker.prototype.postMessage = function (data, ...more) {
  const breaks = String(data.args).includes("Zed");
  return postMessage.call(this, breaks ? { ...data, method: "nothing" } : data, ...more);
};
"""
"""Calls what Python does not know, where a pupil has a certain name."""

Awake = tuple[Page, list[str], list[str]]

_awake: list[Awake] = []
"""The page that an earlier test has left, what it asked for, and what went wrong in it."""


@contextmanager
def awake(browser: Browser, packed_file: Path, view: str) -> Iterator[Page]:
    """Go to ``view`` in the packed page where Python is awake, as a start of it takes seconds.

    One document serves test after test; what it complains of, or asks for, fails the test that
    hears of it. No other test gets the page of one that failed.
    """
    page, asked, wrong = _awake.pop() if _awake else woken(browser, packed_file)
    try:
        show(page, view)
        yield page
        assert [one for one in asked if not one.startswith(("blob:", "data:"))] == []
        assert wrong == []
    except BaseException:
        page.context.close()
        raise
    _awake.append((page, asked, wrong))


def woken(browser: Browser, packed_file: Path) -> Awake:
    """Open the packed page as somebody opens a file; only what it asks for later is listed."""
    page = browser.new_context(locale="en-GB").new_page()
    page.context.add_init_script(BREAKING)
    page.set_default_timeout(240_000)  # on two cores that others use too
    asked: list[str] = []
    wrong: list[str] = []
    page.goto(packed_file.as_uri())
    page.on("request", lambda request: asked.append(request.url))
    page.on("pageerror", lambda error: wrong.append(str(error)))
    page.on("console", lambda said: wrong.append(said.text) if said.type == "error" else None)
    return page, asked, wrong


@pytest.fixture
def visited(packed_file: Path) -> Iterator[tuple[str, list[str]]]:
    """Serve the packed file; return its address and the list of what was asked for."""
    seen: list[str] = []

    class Handler(http.server.BaseHTTPRequestHandler):
        def do_GET(self) -> None:
            seen.append(self.path)
            body = packed_file.read_bytes()
            self.send_response(200)
            self.send_header("Content-Type", "text/html; charset=utf-8")
            self.send_header("Content-Length", str(len(body)))
            self.end_headers()
            self.wfile.write(body)

        do_POST = do_GET  # noqa: N815

        def log_message(self, format: str, *args: object) -> None:
            """Say nothing."""

    with http.server.ThreadingHTTPServer(("127.0.0.1", 0), Handler) as server:
        thread = threading.Thread(target=server.serve_forever)
        thread.start()
        yield f"http://127.0.0.1:{server.server_port}/kitbuilder.html", seen
        server.shutdown()
        thread.join()


def test_it_is_small_enough_and_holds_the_licences(packed_file: Path) -> None:
    text = packed_file.read_text("utf-8")
    assert len(text.encode()) <= MOST_BYTES
    for licence in (
        "Mozilla Public",
        "SIL OPEN FONT",
        "Python Software",
        "MIT",
        "Fredoka Project",
        "Noto Project",
    ):
        assert licence in text


def test_another_archive_is_refused() -> None:
    with pytest.raises(ValueError, match="not the one known"):
        _pyodide(b"another")
    assert len(PYODIDE_SHA512) == 128


def inside(pdf: bytes) -> list[tuple[str, bytes]]:
    """Return every object of ``pdf`` as text, with what its stream holds.

    Another build of zlib may pack the same marks into other bytes, and then the places of the
    objects differ too; what is packed may not.
    """
    with pikepdf.open(BytesIO(pdf)) as document:
        found = []
        for held in document.objects:
            if not isinstance(held, pikepdf.Stream):
                found.append((repr(held), b""))
                continue
            kept = {k: repr(v) for k, v in held.stream_dict.items() if k != "/Length"}
            if kept.get("/Type") not in ("/XRef", "/ObjStm", repr(pikepdf.Name.XRef)):
                found.append((repr(sorted(kept.items())), held.read_bytes()))
        return found


def test_own_sums_make_the_same_bytes_in_two_pages_at_once_and_nothing_leaves(
    browser: Browser, visited: tuple[str, list[str]], packed_file: Path, tmp_path: Path
) -> None:
    address, seen = visited
    asked: list[str] = []

    def hear(request: Request) -> None:
        asked.append(request.url)

    with (
        awake(browser, packed_file, "kit") as first,
        opened(browser, f"{address}#kit", locale="es-MX") as second,
    ):
        second.on("request", hear)
        fill(first, "86", "28")
        fill(second, "634", "258", "71", "48")
        for page, sums in ((first, ("86 - 28",)), (second, ("634 - 258", "71 - 48"))):
            expect(page.locator(".desk .bubble")).to_be_hidden()
            spanish = ("--words", "es-MX", "--paper", "letter") if page is second else ()
            native = native_file(tmp_path / sums[0], "kit", *sums, *spanish)
            assert inside(saved(page)[1]) == inside(native)
        second.remove_listener("request", hear)
        assert [one for one in asked if not one.startswith(("blob:", "data:"))] == []
    assert seen == ["/kitbuilder.html"]


def test_the_browser_itself_refuses_every_request(
    browser: Browser, visited: tuple[str, list[str]]
) -> None:
    address, seen = visited
    context = browser.new_context()
    context.add_init_script(ASLEEP)
    page = context.new_page()
    page.goto(address)
    found = page.evaluate(
        """async address => {
          const fetched = await fetch(address + "?a").then(() => "sent", () => "refused");
          navigator.sendBeacon(address + "?b");
          const image = await new Promise(done => {
            const node = new Image();
            node.onload = () => done("sent");
            node.onerror = () => done("refused");
            node.src = address + "?c";
          });
          return [fetched, image];
        }""",
        address,
    )
    assert found == ["refused", "refused"]
    page.wait_for_timeout(300)
    assert seen == ["/kitbuilder.html"]
    context.close()


@pytest.mark.timeout(600)
def test_a_large_pack_is_made_stopped_and_made_again(
    browser: Browser, packed_file: Path, tmp_path: Path
) -> None:
    with awake(browser, packed_file, "packs") as page:
        page.locator("textarea").fill("Ada\t53 − 27")
        settled(page)
        paste(page.locator("textarea"), pack_of(2000))  # fewer are made before a person could stop
        page.get_by_role("button", name="Stop").click()
        expect(page.locator(".desk .bubble")).to_contain_text("Stopped")
        expect(page.get_by_text("for 1 pupil")).to_be_hidden()
        page.get_by_role("button", name="Make the pages").click()
        page.get_by_role("button", name="Stop").click()
        expect(page.locator(".desk .bubble")).to_contain_text("Stopped")
        page.locator("textarea").fill(pack_of(LARGE))  # what is typed is made by itself
        _, data = saved(page)
    table = tmp_path / "class.csv"
    table.write_text("name,sum\n" + pack_of(LARGE).replace("\t", ","), "utf-8")
    assert data == native_file(tmp_path / "cards", "cards", "--pupils", str(table))


def test_what_the_device_cannot_bear_and_what_no_table_holds_is_refused(
    browser: Browser, packed_file: Path, tmp_path: Path
) -> None:
    table = tmp_path / "school.txt"
    with awake(browser, packed_file, "home") as page:
        area, said = page.locator("textarea"), page.locator(".wishes .bubble.wrong:visible")
        for job, most in (("wrong", 600), ("packs", 2000)):
            show(page, job)
            before = area.input_value()
            table.write_text(pack_of(most + 1), "utf-8")
            page.locator('input[type="file"]').first.set_input_files(table)
            expect(said).to_contain_text(f"Up to {most} work")
            expect(area).to_have_value(before)  # not one row was taken
        area.fill("Ada\t53 − 27\n" + 140_000 * "B" + "\t71 − 48")
        expect(said).to_contain_text("a quotation mark is not closed")
        area.fill("Ada\t53 − 27")
        settled(page)


def test_the_ready_made_kit_is_saved_though_python_never_wakes(
    browser: Browser, packed_file: Path, tmp_path: Path
) -> None:
    context = browser.new_context(locale="en-GB")
    context.add_init_script(ASLEEP)
    page = context.new_page()
    page.goto(packed_file.as_uri())
    assert saved(page)[1] == native_file(tmp_path, "kit")
    show(page, "kit")
    kinds = page.locator(".sum .kind")
    expect(kinds.first).to_have_text("exchange 1 ten")
    page.locator(".sum").last.locator(".box").nth(1).fill("28")  # half a sum is no example
    expect(page.locator(".desk .bubble")).to_contain_text("No sum yet")
    assert kinds.all_text_contents() == ["", ""]
    page.locator(".sum .box").first.fill("86")
    expect(page.locator(".desk .bubble")).to_contain_text("cannot make new kits")
    context.close()


def test_python_begins_anew_where_it_broke(browser: Browser, packed_file: Path) -> None:
    with awake(browser, packed_file, "packs") as page:
        page.locator("textarea").fill("Zed\t53 − 27")
        expect(page.locator(".desk .bubble")).to_contain_text("That could not be made.")
        page.locator("textarea").fill("Ada\t53 − 27")
        assert saved(page)[1].startswith(b"%PDF")


def test_on_a_static_host_it_opens_without_a_network(
    browser: Browser, packed_file: Path, tmp_path: Path
) -> None:
    """The service worker keeps the page: it opens when the host is gone."""
    html = packed_file.read_text("utf-8").replace(
        "; worker-src data:", "; worker-src data: 'self'", 1
    )
    html = html.replace("</body>", '<meta name="offline" content=""></body>', 1)
    (tmp_path / "kit.html").write_text(html, "utf-8")
    worker = service_worker(html.encode(), "kit.html")
    (tmp_path / OFFLINE).write_text(worker, "utf-8")

    class Silent(http.server.SimpleHTTPRequestHandler):
        def log_message(self, format: str, *args: object) -> None:
            """Say nothing."""

    handler = partial(Silent, directory=str(tmp_path))
    context = browser.new_context()
    context.add_init_script(ASLEEP)
    page = context.new_page()
    with http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler) as server:
        thread = threading.Thread(target=server.serve_forever)
        thread.start()
        page.goto(f"http://127.0.0.1:{server.server_port}/kit.html")
        page.evaluate("navigator.serviceWorker.ready.then(() => 1)")
        server.shutdown()
        thread.join()
    page.reload()
    expect(page.locator("h1")).to_have_text("Subtraction with pieces")
    context.close()
