"""The samples can be made: every file is there, and the record tells every page of the PDF."""

import json
from pathlib import Path

import pytest
import samples
from pdf_lines import page_texts


@pytest.mark.parametrize("name", samples.SAMPLES)
def test_every_sample_is_made_as_its_record_tells(name: str, tmp_path: Path) -> None:
    samples.make(name, tmp_path)
    pages = page_texts(next(tmp_path.glob("*.pdf")))
    assert all(page.strip() for page in pages if name != "laser")
    for record in tmp_path.glob("*.json"):
        told = json.loads(record.read_text()).get("sheets")
        assert told is None or len(told) == len(pages)


def test_there_is_a_picture_of_every_sample() -> None:
    assert all((samples.FOLDER / name / "pages.png").exists() for name in samples.SAMPLES)
