"""Long work that can be watched: things pass by as they are made."""

from collections.abc import Iterable
from typing import Literal, Protocol, TypeVar

Work = Literal["pages", "pictures", "packs"]
"""What is being made: the pages, a picture of each, or the packs of single pupils."""

Thing = TypeVar("Thing")


class Watch(Protocol):
    """Passes things on as they are made, told how many there will be; it may show progress."""

    def __call__(self, things: Iterable[Thing], total: int, work: Work) -> Iterable[Thing]:
        """Return ``things``, of which there will be ``total``."""


def unwatched(things: Iterable[Thing], total: int, work: Work) -> Iterable[Thing]:
    """Pass ``things`` on in silence."""
    return things
