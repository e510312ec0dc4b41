"""The stock against a search, over all 500,500 pairs of whole and part below 1000 (about a minute).

Run by hand: pytest tests/bench/test_stock_whole.py
"""

import pytest
from number.test_sums import searched

from kitbuilder.number import Pieces, Sum
from kitbuilder.number.stock import stock, stock_within


def test_every_pair_below_a_thousand() -> None:
    pairs, most = 0, (0, 0, 0)
    for whole in range(1000):
        for part in range(whole + 1):
            found = searched(whole, part)
            assert stock([Sum(whole, part)]).counts[:3] == found, (whole, part)
            most = (max(most[0], found[0]), max(most[1], found[1]), max(most[2], found[2]))
            pairs += 1
    assert pairs == 500_500
    assert stock_within(1000) == Pieces(*most)


@pytest.mark.timeout(0)
def test_every_pair_below_ten_thousand() -> None:
    """All 50,005,000 pairs: the closed form place by place, against the written rule of exchange.

    A column is worked in any order; it gets ten more exactly when the part, cut off above it, is
    larger than the whole there, or a smaller column takes from it across it. Walked here digit by
    digit over blocks of wholes, so that it takes minutes, not hours.
    """
    most = [0, 0, 0, 0]
    for whole in range(10_000):
        for place in range(4):
            block = 10 ** (place + 1)
            low = whole % block
            # the largest part not above the whole that is larger than it in its last places
            fills = any(low < part % block for part in range(max(0, whole - block), whole + 1))
            most[place] = max(most[place], whole // 10**place % 10 + (10 if fills else 0))
    assert stock_within(10_000) == Pieces(*most) == Pieces(18, 19, 19, 9)
