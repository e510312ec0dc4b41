"""The stock for sums: the most of each piece that ever lies on the table at once."""

from collections.abc import Iterable
from functools import reduce

from kitbuilder.number.sums import LARGEST, PLACES, Pieces, Sum


def stock(sums: Iterable[Sum]) -> Pieces:
    """Return, for each place, the most pieces on the table at any moment of any of ``sums``.

    Whichever column the child starts with, and when the parts are pushed together again, a
    place holds ten more than its digit at some moment exactly when the whole, cut off above
    that place, is smaller than the part cut off there; else it never holds more than its
    digit. (If it is smaller, pushing the parts together again brings all ten back before
    they are exchanged, so ten more do lie there; ten more come only by such an exchange,
    which is made once, because after it the lower places hold enough.)
    """
    return reduce(Pieces.most, (_needed(s) for s in sums), Pieces())


def stock_within(limit: int) -> Pieces:
    """Return the stock for every sum whose whole is below ``limit`` (1 to 10000).

    For 1000 it is 9 hundreds, 19 tens and 18 ones.
    """
    if not 1 <= limit <= LARGEST + 1:
        raise ValueError(f"stock_within: limit is {limit}; it must be 1 to {LARGEST + 1}")
    return Pieces(*(max(_most(w, k) for w in range(limit)) for k in range(len(PLACES))))


def _needed(sum_: Sum) -> Pieces:
    return Pieces(
        *(
            sum_.whole // 10**k % 10
            + (10 if sum_.whole % 10 ** (k + 1) < sum_.part % 10 ** (k + 1) else 0)
            for k in range(len(PLACES))
        )
    )


def _most(whole: int, place: int) -> int:
    # Some part not above the whole is larger than it in its last places: it needs a larger
    # place to take from, and last digits that are not all nines.
    block: int = 10 ** (place + 1)
    fillable = whole >= block and whole % block != block - 1
    return int(whole // 10**place % 10) + (10 if fillable else 0)
