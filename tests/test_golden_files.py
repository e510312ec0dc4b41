"""The golden files: three kits and three pages are what was looked at."""

from collections.abc import Callable
from pathlib import Path

import golden
import pytest
import samples


@pytest.fixture(scope="module")
def made(sample: Callable[[str], Path]) -> Path:
    folders = {sample(name).parent for name in golden.NAMES}
    return folders.pop()


@pytest.mark.parametrize("name", golden.NAMES)
def test_a_kit_is_what_was_looked_at(name: str, made: Path) -> None:
    kept = golden.record(name, samples.FOLDER)
    found = list(golden.differences(kept, golden.record(name, made)))
    assert found[:10] == [], f"{len(found)} differences; if they are meant: pytest --golden"
    assert golden.words(name, made) == golden.words(name, samples.FOLDER)


def test_a_little_more_ink_is_no_other_word() -> None:
    ink = "Ink: {} cm² covered, {} % of what is printed. A ten is {} mm."
    held = golden.without_ink(ink.format(3764, "4.0", 100))
    assert held == golden.without_ink(ink.format(3763, "3.9", 100))
    assert held != golden.without_ink(ink.format(3764, "4.0", 99))


@pytest.mark.parametrize("kind", golden.KINDS)
def test_a_page_looks_as_it_did(kind: str, made: Path) -> None:
    shown = golden.looks_different(kind, samples.FOLDER, made)
    assert shown is None, f"the {kind} looks different: see {shown}; if it is meant: --golden"


def test_there_is_a_picture_of_every_page() -> None:
    pages = len(golden.record("first", samples.FOLDER)["sheets"])
    pictures = sorted(p.name for p in (samples.FOLDER / "first").glob("page-*.png"))
    assert pictures == [f"page-{page:02}.png" for page in range(1, pages + 1)]
