"""Checks of the values in a design's record; each refusal names the one that is wrong."""

import math
from dataclasses import fields
from typing import Any, cast

from kitbuilder.errors import RefusedError

MOST_NAME = 60
"""Letters a design's name may have."""


def bounds(
    record: object, least: float, most: float, unit: str, only: tuple[str, ...] = ()
) -> None:
    """Raise ``RefusedError`` for a number of ``record`` outside ``least`` to ``most``.

    Looks at the fields named in ``only``, or at all of them.
    """
    for name in only or tuple(field.name for field in fields(cast(Any, record))):
        value = getattr(record, name)
        if not (math.isfinite(value) and least <= value <= most):
            raise RefusedError(
                "value.range", name=spoken(name), given=value, least=least, most=most, unit=unit
            )


def readable(name: str, text: str) -> None:
    """Raise ``RefusedError`` for a name that is empty, long, or holds what is not to be seen."""
    if not 0 < len(text) <= MOST_NAME or not text.isprintable():
        raise RefusedError("value.name", name=name, most=MOST_NAME)


def hundredths(name: str, value: float) -> None:
    """Raise ``RefusedError`` for millimetres with more than two decimals."""
    if abs(value * 100 - round(value * 100)) > 1e-6:
        raise RefusedError("value.decimals", name=spoken(name), given=str(value))


def spoken(name: str) -> str:
    """Return the name of a field as it is said: without its unit, in words."""
    return name.removesuffix("_mm").replace("_", " ")
