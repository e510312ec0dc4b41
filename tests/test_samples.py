"""The samples can be made: every file is there, and the record is true and valid."""

import json
from collections.abc import Callable
from pathlib import Path

import pytest
import samples
from pdf_lines import page_texts
from records import faults


@pytest.mark.parametrize("name", samples.SAMPLES)
def test_every_sample_is_made_as_its_record_tells(name: str, sample: Callable[[str], Path]) -> None:
    folder = sample(name)
    pages = page_texts(next(folder.glob("*.pdf")))
    records = list(folder.glob("*.json"))
    assert len(records) == (name != "check")
    for record in records:
        told = json.loads(record.read_text("utf-8"))
        sheets = told.get("sheets", [{"items": True}] * len(pages))
        assert all(
            page.strip() or not sheet["items"] or name == "laser"
            for page, sheet in zip(pages, sheets, strict=True)
        )
        assert "sheets" not in told or len(told["sheets"]) == len(pages)
        assert name == "marks" or faults(told) == []


def test_there_is_a_picture_of_every_sample() -> None:
    assert all((samples.FOLDER / name / "pages.png").exists() for name in samples.SAMPLES)
