"""Turns a record's numbers into a ValueError that names the one out of bounds."""

import math
from dataclasses import fields
from typing import Any, cast


def bounds(
    record: object, least: float, most: float, unit: str, only: tuple[str, ...] = ()
) -> None:
    """Raise ``ValueError`` for a number of ``record`` outside ``least`` to ``most``.

    Looks at the fields named in ``only``, or at all of them.
    """
    for name in only or tuple(field.name for field in fields(cast(Any, record))):
        value = getattr(record, name)
        if not (math.isfinite(value) and least <= value <= most):
            said = name.removesuffix("_mm").replace("_", " ")
            raise ValueError(f"the {said} is {value:g}; it must be {least:g} to {most:g} {unit}")


def readable(what: str, text: str, most: int = 60) -> None:
    """Raise ``ValueError`` for a name that is empty, long, or holds what is not to be seen."""
    if not 0 < len(text) <= most or not text.isprintable():
        raise ValueError(f"the {what} must have 1 to {most} letters, none of them hidden")


def hundredths(name: str, value: float) -> None:
    """Raise ``ValueError`` for millimetres with more than two decimals."""
    if abs(value * 100 - round(value * 100)) > 1e-6:
        said = name.removesuffix("_mm").replace("_", " ")
        raise ValueError(f"the {said} is {value} mm; give at most two decimals")
