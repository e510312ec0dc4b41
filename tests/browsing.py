"""What the browser tests share: a browser, the page in it, and the keyboard."""

import re
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, Locator, Page, Playwright, expect

CHROMIUM = shutil.which("chromium") or "/usr/bin/chromium"
FLAGS = (
    "--no-sandbox",  # for root, as in a container
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
AXE = "4.14.1"
JOBS = ("tonight", "kit", "weeks", "class", "packs", "wrong", "lost", "measure")
TABLES = {"packs": "Ada\t53 − 27\nBen\t71 − 48\nAda\t604 − 167", "wrong": "Ada\t53 − 27\t34"}
WIDTHS = (320, 360, 390, 820, 1280)
SAVE = re.compile(r"^(Save|Guardar)")


def npm_package(name: str, version: str) -> Path:
    """Return the archive of an npm package, kept beside the packages of Python."""
    folder = Path(sys.prefix) / "npm"
    archive = folder / f"{name}-{version}.tgz"
    if not archive.exists():
        folder.mkdir(exist_ok=True)
        subprocess.run(
            ["npm", "pack", "--silent", f"{name}@{version}"],
            cwd=folder,
            check=True,
            stdout=subprocess.DEVNULL,
        )
    return archive


def launched(playwright: Playwright, *flags: str) -> Browser:
    return playwright.chromium.launch(executable_path=CHROMIUM, args=[*FLAGS, *flags])


_idle: dict[tuple[Browser, str], list[Page]] = {}
"""Tabs that earlier tests have left, by the browser and its language."""


@contextmanager
def opened(
    browser: Browser, address: str, width: int = 1280, locale: str = "en-GB"
) -> Iterator[Page]:
    """Open ``address``; whatever the browser complains of fails the test.

    A tab serves one test after another, as a new one costs more than most tests: each opens a
    document of its own, and nothing is stored. No other test gets the tab of one that failed.
    """
    idle = _idle.setdefault((browser, locale), [])
    page = idle.pop() if idle else browser.new_context(locale=locale).new_page()
    wrong: list[str] = []
    heard: dict[Any, Callable[[Any], None]] = {
        "pageerror": lambda error: wrong.append(str(error)),
        "console": lambda said: wrong.append(said.text) if said.type == "error" else None,
    }
    for event, hear in heard.items():
        page.on(event, hear)
    try:
        page.set_default_timeout(120_000)
        page.set_viewport_size({"width": width, "height": 800})
        page.mouse.move(0, 0)
        page.goto(address)
        yield page
        assert wrong == []
        for event, hear in heard.items():
            page.remove_listener(event, hear)
        page.goto("about:blank")  # ends the work of this one
    except BaseException:
        page.context.close()
        raise
    idle.append(page)


def show(page: Page, view: str) -> None:
    """Go to a view as a bookmark would, and wait for it."""
    page.evaluate("view => { location.hash = view; }", view)
    expect(page.locator("h1")).to_be_visible()


def settled(page: Page) -> None:
    """Wait until the pages of the wishes can be saved."""
    expect(save_button(page)).not_to_have_attribute("aria-disabled", "true")


def paste(area: Locator, text: str) -> None:
    """Paste a long table over what stands in ``area``, as a person would.

    To ``fill`` it types its lines one by one: two thousand take Chromium minutes.
    """
    area.evaluate(
        """(area, text) => {
          area.select();
          const clipboardData = new DataTransfer();
          clipboardData.setData("text", text);
          const event = { clipboardData, bubbles: true, cancelable: true };
          area.dispatchEvent(new ClipboardEvent("paste", event));
        }""",
        text,
    )
    expect(area).to_have_value(text)


def save_button(page: Page) -> Locator:
    return page.locator("button.save:visible").first


def tab_to(page: Page, name: str | re.Pattern[str], most: int = 90) -> None:
    """Press Tab until what has the focus is called ``name``."""
    wanted = re.compile(re.escape(name)) if isinstance(name, str) else name
    for _ in range(most):
        page.keyboard.press("Tab")
        if wanted.search(focused(page)):
            return
    raise AssertionError(f"the keyboard never comes to {name!r}")


def focused(page: Page) -> str:
    """Return what the focused control is called, or its words."""
    return str(
        page.evaluate(
            """() => {
              const node = document.activeElement;
              const named = node.labels?.[0]?.textContent;
              return node.getAttribute("aria-label") || named || node.textContent || "";
            }"""
        )
    ).strip()


HEARD = """node => {
  document.heard = false;
  node.addEventListener("click", () => {
    document.heard = node.getAttribute("aria-disabled") !== "true";
  }, { capture: true });
}"""
"""Tells whether Save could save when it was pressed last."""


def saved(page: Page, press: Callable[[], object] | None = None) -> tuple[str, bytes]:
    """Press Save and return the file; a press while a large file is made is not heard."""
    button = save_button(page)
    button.evaluate(HEARD)
    with page.expect_download() as download:
        heard = False
        while not heard:
            settled(page)
            press() if press else button.click()
            heard = page.evaluate("document.heard")
    return download.value.suggested_filename, download.value.path().read_bytes()


def saved_by_key(page: Page) -> tuple[str, bytes]:
    """Press Enter on the focused button when it can save, and return the file."""
    return saved(page, lambda: page.keyboard.press("Enter"))
