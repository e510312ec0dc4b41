"""What the browser tests share: a browser, the page in it, and the keyboard."""

import re
import shutil
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from playwright.sync_api import Browser, BrowserContext, Locator, Page, Playwright, expect

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


@contextmanager
def opened(
    browser: Browser, address: str, width: int = 1280, locale: str = "en-GB"
) -> Iterator[Page]:
    """Open ``address``; whatever the browser complains of fails the test."""
    context: BrowserContext = browser.new_context(
        viewport={"width": width, "height": 800}, locale=locale, accept_downloads=True
    )
    context.set_default_timeout(120_000)
    page = context.new_page()
    wrong: list[str] = []
    page.on("pageerror", lambda error: wrong.append(str(error)))
    page.on("console", lambda said: wrong.append(said.text) if said.type == "error" else None)
    page.goto(address)
    try:
        yield page
        assert wrong == []
    finally:
        context.close()


def show(page: Page, view: str) -> None:
    """Go to a view as a bookmark would, and wait for it."""
    page.evaluate("view => { location.hash = view; }", view)
    expect(page.locator("h1")).to_be_visible()


def settled(page: Page) -> None:
    """Wait until the pages of the wishes can be saved."""
    expect(save_button(page)).not_to_have_attribute("aria-disabled", "true")


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


def saved_by_key(page: Page) -> tuple[str, bytes]:
    """Press Enter on the focused button when it can save, and return the file."""
    settled(page)
    with page.expect_download() as download:
        page.keyboard.press("Enter")
    return download.value.suggested_filename, download.value.path().read_bytes()
