"""The samples agree with what the tool makes now: structure and geometry, not bytes."""

import json
from pathlib import Path

import samples
from pdf_lines import page_texts

from kitbuilder.road import build


def test_the_samples_are_what_the_tool_makes_now(tmp_path: Path) -> None:
    build(samples.request(), tmp_path)
    old, new = (json.loads((f / "kit.json").read_text()) for f in (samples.FOLDER, tmp_path))
    for record in (old, new):
        del record["files"]  # other versions of the system's cairo write other bytes
    assert old == new
    assert page_texts(samples.FOLDER / "kit.pdf") == page_texts(tmp_path / "kit.pdf")


def test_there_is_a_picture_of_every_page() -> None:
    record = json.loads((samples.FOLDER / "kit.json").read_text())
    pictures = sorted(p.name for p in samples.FOLDER.glob("page-*.png"))
    assert pictures == [f"page-{s['page']:02}.png" for s in record["sheets"]]
    assert (samples.FOLDER / "pages.png").exists()
