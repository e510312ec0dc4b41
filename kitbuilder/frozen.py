"""Frozen records that are quick to make.

A frozen dataclass has six methods compiled for it at every start, and sets its fields by a slow
way round: for two hundred of them that was a quarter of a ready-made kit's time. Here
``__init__`` alone is compiled. That nobody changes a record is what mypy checks.
"""

from collections.abc import Callable
from dataclasses import dataclass, field, fields
from operator import attrgetter
from typing import Any, TypeVar, cast, dataclass_transform

T = TypeVar("T")


@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def frozen(cls: type[T]) -> type[T]:
    """Make ``cls`` a dataclass with slots that is compared, hashed and shown by its fields.

    A hash or a comparison of its own is kept.
    """
    made: Any = dataclass(slots=True, repr=False, eq=False)(cls)
    named = tuple(one.name for one in fields(made))
    compared = tuple(one.name for one in fields(made) if one.compare)
    values: Callable[[Any], Any] = attrgetter(*compared) if compared else lambda _: ()

    def same(self: Any, other: object) -> bool:  # noqa: ANN401  (any record)
        return values(self) == values(other) if type(other) is type(self) else NotImplemented

    def hashed(self: Any) -> int:  # noqa: ANN401  (any record)
        return hash(values(self))

    def shown(self: Any) -> str:  # noqa: ANN401  (any record)
        told = ", ".join([f"{name}={getattr(self, name)!r}" for name in named])
        return f"{type(self).__qualname__}({told})"

    for name, method in (("__eq__", same), ("__hash__", hashed), ("__repr__", shown)):
        if name not in vars(cls):
            setattr(made, name, method)
    return cast(type[T], made)
