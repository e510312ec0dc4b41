"""Turns what a lesson needs into checked records."""

from dataclasses import dataclass
from typing import Literal

from kitbuilder.kit.card_records import CardWishes, Pack
from kitbuilder.kit.mats import MatWish
from kitbuilder.number import Pieces, Sum

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
class CutWish:
    """How many kits to cut, through how many layers at a time, and whether same sheets come first.

    With ``same_sheets`` few different sheets matter more than few strokes.
    """

    kits: int = 1
    layers: int = 1
    same_sheets: bool = False

    def __post_init__(self) -> None:
        for name in ("kits", "layers"):
            if getattr(self, name) < 1:
                raise ValueError(f"CutWish.{name} is {getattr(self, name)}; it must be 1 or more")


@dataclass(frozen=True, slots=True)
class Kit:
    """The contents of one kit.

    ``pieces`` is what to cut (all zero when pieces are left out). ``limit`` is set when the
    kit serves every sum with numbers below it. ``mats`` says which mats, None when they are
    left out. ``packs`` are the sets of cards, made as ``cards`` wished.
    """

    sums: tuple[Sum, ...]
    limit: int | None
    pieces: Pieces
    mats: MatWish | None
    exchange_cards: tuple[ExchangeCard, ...]
    packs: tuple[Pack, ...]
    cards: CardWishes
    guide: tuple[Say, ...]
