"""Turns what a lesson needs into checked records."""

from dataclasses import dataclass
from typing import Literal

from kitbuilder.number import Pieces, Sum
from kitbuilder.number.written import Column

Style = Literal["title", "heading", "body", "step"]


@dataclass(frozen=True, slots=True)
class Say:
    """One paragraph for the adult; a step has a ``marker`` such as ``1.`` before it."""

    style: Style
    text: str
    marker: str = ""


@dataclass(frozen=True, slots=True)
class ExchangeCard:
    """A card that shows one piece of place ``source`` (1 or 2) beside ten of the next smaller."""

    source: int
    text: str

    def __post_init__(self) -> None:
        if self.source not in (1, 2):
            raise ValueError(f"ExchangeCard.source is {self.source}; it must be 1 or 2")


@dataclass(frozen=True, slots=True)
class TaskCard:
    """A card that asks one sum of a child: the sum on one line, then what to do."""

    sum: Sum
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Answer:
    """One sum worked for the adult: its written columns and what was exchanged."""

    sum: Sum
    columns: tuple[Column, ...]
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Kit:
    """The contents of one kit.

    ``pieces`` is what to cut (all zero when pieces are left out). ``limit`` is set when the
    kit serves every sum with numbers below it. ``mat_sums`` and ``mat_limit`` say which sums
    the mats must hold; both are empty when mats are left out.
    """

    sums: tuple[Sum, ...]
    limit: int | None
    pieces: Pieces
    mat_sums: tuple[Sum, ...]
    mat_limit: int | None
    exchange_cards: tuple[ExchangeCard, ...]
    task_cards: tuple[TaskCard, ...]
    answers: tuple[Answer, ...]
    guide: tuple[Say, ...]
