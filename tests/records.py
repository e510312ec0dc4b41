"""Holds a kit's record against its schema."""

import json
from typing import Any

from jsonschema import Draft202012Validator

from kitbuilder.design import load as designs

SCHEMA = json.loads((designs.folder() / "record.schema.json").read_text("utf-8"))
_VALID = Draft202012Validator(SCHEMA)


def faults(record: Any) -> list[str]:  # noqa: ANN401 - any JSON
    """Return where ``record`` does not keep to the schema."""
    return [f"{error.json_path}: {error.message[:200]}" for error in _VALID.iter_errors(record)]
