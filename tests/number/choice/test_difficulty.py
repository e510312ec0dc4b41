"""The order from easy to hard, against published results."""

from itertools import combinations

from kitbuilder.number import Sum
from kitbuilder.number.choice.difficulty import difficulty, easy_to_hard

# Share right of 294 pupils, mostly aged 8 to 9: de Chiusole & Stefanutti 2013, Electronic Notes
# in Discrete Mathematics 42:41-48; data set in the R package pks (read).
RESULTS = {
    Sum(73, 58): 90.1,
    Sum(317, 94): 83.0,
    Sum(784, 693): 82.3,
    Sum(156, 68): 82.3,
    Sum(2245, 418): 79.6,
    Sum(3642, 753): 76.5,
    Sum(253, 178): 75.9,
    Sum(507, 49): 56.8,
}


def ranks(values: list[float]) -> list[float]:
    """Return the rank of each value from 1, the middle rank where values are equal."""
    return [
        sum(other < value for other in values) + (sum(other == value for other in values) + 1) / 2
        for value in values
    ]


def spearman(first: list[float], second: list[float]) -> float:
    a, b = ranks(first), ranks(second)
    middle = (len(a) + 1) / 2
    products = sum((x - middle) * (y - middle) for x, y in zip(a, b, strict=True))
    squares = [sum((x - middle) ** 2 for x in those) for those in (a, b)]
    return float(products / (squares[0] * squares[1]) ** 0.5)


def test_agrees_with_the_results_of_294_pupils() -> None:
    order = sorted(RESULTS, key=difficulty)
    assert len({difficulty(s) for s in RESULTS}) == len(RESULTS)  # no ties hide disagreement
    rho = spearman([order.index(s) for s in RESULTS], [-share for share in RESULTS.values()])
    assert rho >= 0.85
    assert round(rho, 3) == 0.922
    against = {
        (easy, hard) for easy, hard in combinations(order, 2) if RESULTS[easy] < RESULTS[hard]
    }
    # 253 − 178 was harder than its two exchanges say: harder than two sums of four places.
    assert against == {
        (Sum(253, 178), Sum(2245, 418)),
        (Sum(253, 178), Sum(3642, 753)),
    }


def test_what_weighs_most() -> None:
    easy_first = [
        Sum(43, 18),  # one exchange, two places
        Sum(343, 118),  # one exchange, three places
        Sum(343, 158),  # two exchanges
        Sum(1343, 158),  # two exchanges, four places
        Sum(304, 118),  # across a zero
        Sum(1003, 118),  # across two zeros
    ]
    assert list(easy_to_hard(reversed(easy_first))) == easy_first


def test_an_empty_column_and_short_steps_are_easier() -> None:
    assert difficulty(Sum(317, 94)) < difficulty(Sum(317, 194))
    assert difficulty(Sum(43, 14)) < difficulty(Sum(43, 18))  # 13 − 4 goes 1 beyond ten, 13 − 8 5
    assert difficulty(Sum(58, 50)) < difficulty(Sum(58, 53))  # no ones are taken away
