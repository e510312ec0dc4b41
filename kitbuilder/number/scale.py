"""How the numbers of a sum are written: as they are, or as decimals down to thousandths."""

from dataclasses import field
from typing import Self

from kitbuilder.frozen import frozen

MOST_DECIMALS = 3
"""Decimals a number may have: down to thousandths. Pieces go down to hundredths."""


@frozen
class Scale:
    """How a number is written that counts ones, or a smaller place: hundredths, for two decimals.

    Of ``decimals`` places, up to three, zeros at the end are left out; they are written in
    ``full``, and with a ``money`` form, such as "£{number}". ``point`` stands after the ones.
    """

    decimals: int = 0
    point: str = "."
    money: str = ""
    full: bool = field(default=False, compare=False)

    def __post_init__(self) -> None:
        if not 0 <= self.decimals <= MOST_DECIMALS:
            raise ValueError(f"Scale.decimals is {self.decimals}; it must be 0 to {MOST_DECIMALS}")

    def number(self, value: int) -> int:
        """Return ``value``, a count of the smallest place, as a number written on this scale.

        >>> str(Scale(2).number(620)), Scale(2).number(620) - 20
        ('6.2', 600)
        """
        return Scaled(value, self) if self.decimals else int(value)

    def zeros(self, value: int) -> int:
        """Return how many zeros are left out at the end of ``value``: of 3.00 two."""
        if self.money or self.full:
            return 0
        return sum(int(value) % 10**k == 0 for k in range(1, self.decimals + 1))

    def written(self, value: int) -> str:
        """Return how a count of the smallest place is written."""
        if not self.decimals:
            return f"{int(value)}"
        ones, less = divmod(int(value), 10**self.decimals)
        text = f"{ones}.{less:0{self.decimals}}"
        if self.money:
            return self.money.replace("{number}", text.replace(".", self.point))
        if self.full:
            return text.replace(".", self.point)
        return text.rstrip("0").removesuffix(".").replace(".", self.point)


WHOLE, HUNDREDTHS = Scale(), Scale(2)


class Scaled(int):
    """A count of the smallest place, written as its scale says; it is reckoned with as is."""

    scale: Scale

    def __new__(cls, value: int, scale: Scale) -> Self:
        """Return ``value`` of the smallest place."""
        made = super().__new__(cls, value)
        made.scale = scale
        return made

    def __getnewargs__(self) -> tuple[int, Scale]:  # type: ignore[override]
        """Return what a copy is made of."""
        return int(self), self.scale

    def __str__(self) -> str:
        """Return the number as it is written."""
        return self.scale.written(self)

    __repr__ = __str__
