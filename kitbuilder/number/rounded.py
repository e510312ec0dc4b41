"""An estimate of what will be left, as it is asked for before a sum is worked."""

from kitbuilder.number.sums import Sum


def estimate(sum_: Sum) -> int:
    """Return the rest rounded: to tens below 100, else to hundreds.

    Halves go up. Where that leaves nothing, it is rounded to the next smaller place. Any fair
    guess of a child is as good.
    """
    step, about = 10 if sum_.rest < 100 else 100, 0
    while about <= 0 and step:
        about, step = (sum_.rest + step // 2) // step * step, step // 10
    return sum_.number(about)
