"""The stock against a search, over all 500,500 pairs of whole and part below 1000 (about a minute).

Run by hand: pytest tests/bench/test_stock_whole.py
"""

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
