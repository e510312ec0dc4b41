"""The record of every kind of kit keeps to its schema, which refuses other records."""

import json
from pathlib import Path
from typing import Any

import pytest
import samples
from jsonschema import Draft202012Validator

from kitbuilder.design import load as designs

SCHEMA = json.loads((designs.folder() / "record.schema.json").read_text("utf-8"))
VALID = Draft202012Validator(SCHEMA)
KINDS = [name for name in samples.SAMPLES if name not in ("check", "marks")]


def faults(record: Any) -> list[str]:  # noqa: ANN401 - any JSON
    return [f"{error.json_path}: {error.message[:200]}" for error in VALID.iter_errors(record)]


def test_the_schema_is_one() -> None:
    Draft202012Validator.check_schema(SCHEMA)


@pytest.mark.parametrize("name", KINDS)
def test_every_kind_of_kit_keeps_to_the_schema(name: str, tmp_path: Path) -> None:
    samples.make(name, tmp_path)
    (file,) = tmp_path.glob("*.json")
    assert faults(json.loads(file.read_text("utf-8"))) == []


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"unit_mm": 0}, "$.unit_mm: "),
        ({"pages": 3}, "$: Additional properties"),
        ({"sums": [{"whole": 7, "part": 3}]}, "$.sums[0]: 'rest' is a required property"),
        ({"files": {"kit.pdf": {"sha256": "0"}}}, "$.files"),
        ({"schema_version": 2}, "$.schema_version: "),
    ],
)
def test_another_record_is_refused(change: dict[str, Any], says: str) -> None:
    record = json.loads((samples.FOLDER / "first" / "kit.json").read_text("utf-8"))
    assert faults({**record, **change})[0].startswith(says)


def test_a_kit_lacks_none_of_its_parts() -> None:
    record = json.loads((samples.FOLDER / "first" / "kit.json").read_text("utf-8"))
    del record["cutting"]
    assert "'cutting' is a dependency of 'sheets'" in faults(record)[0]
