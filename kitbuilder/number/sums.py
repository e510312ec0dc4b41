"""A checked sum of two numbers, and a number as pieces by place."""

from collections.abc import Iterable
from dataclasses import field, replace
from typing import Self

from kitbuilder.frozen import frozen
from kitbuilder.number.scale import WHOLE, Scale

PLACES = ("ones", "tens", "hundreds", "thousands")
"""Keys of the places, smallest first; a place's index is its power of ten."""

LARGEST = 10 ** len(PLACES) - 1

LEAST_WITH_EXCHANGE = 20
"""The least whole of a sum in columns that has an exchange; 15 − 8 is a small fact."""


def most_ones(decimals: int) -> int:
    """Return the largest whole number beside so many ``decimals``: 99 beside hundredths."""
    return int(LARGEST // 10**decimals)


def digits(number: int, places: int) -> tuple[int, ...]:
    """Return the digits of ``number``, ones first, padded with zeros to ``places``.

    >>> digits(604, 3)
    (4, 0, 6)
    """
    return tuple(number // 10**k % 10 for k in range(places))


@frozen
class Pieces:
    """A count of base-ten pieces of each place.

    Counts are whole and not negative; a count may pass nine (ten tens wait to be exchanged).
    """

    ones: int = 0
    tens: int = 0
    hundreds: int = 0
    thousands: int = 0

    def __post_init__(self) -> None:
        for place in PLACES:
            count = getattr(self, place)
            if count < 0:
                raise ValueError(f"Pieces.{place} is {count}; it must be 0 or more")

    @classmethod
    def of(cls, number: int) -> Self:
        """Return the pieces that build ``number`` with fewest pieces: its digits."""
        if not 0 <= number <= LARGEST:
            raise ValueError(f"Pieces.of: number is {number}; it must be 0 to {LARGEST}")
        return cls(*digits(number, len(PLACES)))

    @classmethod
    def by_place(cls, counts: tuple[int, ...]) -> Self:
        """Return pieces from counts given ones first (one to four of them)."""
        return cls(*counts)

    @property
    def counts(self) -> tuple[int, int, int, int]:
        """The counts, ones first."""
        return (self.ones, self.tens, self.hundreds, self.thousands)

    @property
    def moved(self) -> "Pieces":
        """These pieces a place lower, without the ones: tenths and ones as ones and tens."""
        return Pieces(*self.counts[1:])

    @property
    def value(self) -> int:
        """The number these pieces stand for."""
        return sum(count * 10**k for k, count in enumerate(self.counts))

    def __add__(self, other: "Pieces") -> "Pieces":
        return Pieces(*(a + b for a, b in zip(self.counts, other.counts, strict=True)))

    def most(self, other: "Pieces") -> "Pieces":
        """Return, place by place, the larger of the two counts."""
        return Pieces(*(max(a, b) for a, b in zip(self.counts, other.counts, strict=True)))


@frozen
class Sum:
    """A subtraction: ``whole`` − ``part`` leaves ``rest``.

    ``whole`` is 0 to 9999 and ``part`` is 0 to ``whole``. On a ``scale`` with two decimals both
    count hundredths: 300 and 147 are written 3 and 1.47, and the places are hundredths, tenths,
    ones.
    """

    whole: int
    part: int
    scale: Scale = field(default=WHOLE, hash=False)

    def __post_init__(self) -> None:
        if not 0 <= self.whole <= LARGEST:
            raise ValueError(f"Sum.whole is {self.whole}; it must be 0 to {LARGEST}")
        if not 0 <= self.part <= self.whole:
            raise ValueError(f"Sum.part is {self.part}; it must be 0 to {self.whole}")
        if self.scale.decimals:
            object.__setattr__(self, "whole", self.scale.number(self.whole))
            object.__setattr__(self, "part", self.scale.number(self.part))

    @property
    def rest(self) -> int:
        """The other part: the answer."""
        return self.number(self.whole - self.part)

    @property
    def places(self) -> int:
        """How many places the whole has: 1 to 4, with decimals as far as the ones at least."""
        return self.width(self.whole)

    @property
    def with_pieces(self) -> bool:
        """Whether pieces show it: a large square that is one has none that is ten of it.

        Nor is there a piece that is a thousandth.
        """
        return not (self.scale.decimals and self.places > 3)

    def width(self, number: int) -> int:
        """Return how many digits of ``number`` are written in columns."""
        return max(len(f"{int(number)}"), self.scale.decimals + bool(self.scale.decimals))

    def in_columns(self, number: int) -> str:
        """Return the digits of ``number`` as they stand in columns: 05 tenths as 005, no point."""
        return f"{int(number):0{self.width(number)}}"

    def number(self, value: int) -> int:
        """Return ``value`` as a number that is written as this sum's are."""
        return self.scale.number(value) if self.scale.decimals else value

    @property
    def typed(self) -> str:
        """The sum as it is typed, and stands in tables and files: 634 - 258, 3 - 1.47."""
        plain = replace(self.scale, money="")
        return f"{plain.written(self.whole)} - {plain.written(self.part)}"

    def aligned(self, number: int) -> str:
        """Return ``number`` with all its decimals, as numbers stand under each other: 3.00."""
        digits, decimals = self.in_columns(number), self.scale.decimals
        return f"{digits[:-decimals]}{self.scale.point}{digits[-decimals:]}" if decimals else digits

    def counted(self, scale: Scale) -> "Sum":
        """Return the sum of the same counts on another scale: 300 − 147 as 3 − 1.47, or back."""
        return Sum(int(self.whole), int(self.part), scale)

    def short(self, *beside: int) -> "Sum":
        """Return the sum without decimal places that none of its numbers has as it is written.

        99.9 − 12.3 has no hundredths; nor have numbers that stand ``beside`` it in its columns.
        """
        scale = self.scale
        zeros = min(map(scale.zeros, (self.whole, self.part, *beside)))
        if not zeros:
            return self
        less = 10**zeros
        scale = replace(scale, decimals=scale.decimals - zeros)
        return Sum(int(self.whole) // less, int(self.part) // less, scale)

    def per(self, less: int) -> "Sum":
        """Return the sum of what is counted by so many: 350 − 170 by tens as 35 − 17."""
        return Sum(int(self.whole) // less, int(self.part) // less)

    def times(self, more: int) -> "Sum":
        """Return the sum of so many times what is counted, on the same scale."""
        return Sum(int(self.whole) * more, int(self.part) * more, self.scale)

    def on(self, scale: Scale) -> "Sum":
        """Return this sum on another scale: the same numbers, written or counted in another way.

        Decimals that were typed in full, 6.20, stay so.

        Raises ``ValueError`` where the whole is too large for it, or has decimals it lacks.
        """
        times = 10 ** max(0, scale.decimals - self.scale.decimals)
        if self.scale.decimals > scale.decimals:
            raise ValueError(f"Sum.on: {self} has decimals")
        if self.scale.full and self.scale.decimals == scale.decimals:
            scale = replace(scale, full=True)
        return Sum(int(self.whole) * times, int(self.part) * times, scale)

    def __str__(self) -> str:
        return f"{self.whole} − {self.part}"


def in_tenths(sums: Iterable[Sum]) -> bool:
    """Say whether ``sums`` have tenths and no smaller place, as they are written."""
    return max((sum_.short().scale.decimals for sum_ in sums), default=0) == 1
