"""The schema of records refuses what is no record; every sample keeps to it: test_samples.py."""

import json
from typing import Any

import pytest
import samples
from jsonschema import Draft202012Validator
from records import SCHEMA, faults


def test_the_schema_is_one() -> None:
    Draft202012Validator.check_schema(SCHEMA)


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
