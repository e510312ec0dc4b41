"""How the numbers of a sum are written: as they are, or as a decimal with tenths and hundredths."""

from dataclasses import field
from typing import Self

from kitbuilder.frozen import frozen


@frozen
class Scale:
    """How a number is written that counts ones, or hundredths.

    Of ``decimals`` places, none or two, zeros at the end are left out; they are written in
    ``full``, and with a ``money`` form, such as "£{number}". ``point`` stands after the ones.
    """

    decimals: int = 0
    point: str = "."
    money: str = ""
    full: bool = field(default=False, compare=False)

    def __post_init__(self) -> None:
        if self.decimals not in (0, 2):
            raise ValueError(f"Scale.decimals is {self.decimals}; it must be 0 or 2")

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
        ones, hundredths = divmod(int(value), 100)
        text = f"{ones}.{hundredths:02}"
        if self.money:
            return self.money.replace("{number}", text.replace(".", self.point))
        if self.full:
            return text.replace(".", self.point)
        return text.rstrip("0").removesuffix(".").replace(".", self.point)


WHOLE, HUNDREDTHS = Scale(), Scale(2)


class Scaled(int):
    """A whole number of hundredths that is written as its scale says; it is reckoned with as is."""

    scale: Scale

    def __new__(cls, value: int, scale: Scale) -> Self:
        """Return ``value`` hundredths."""
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
