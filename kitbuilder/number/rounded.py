"""An estimate of what will be left, as it is asked for before a sum is worked."""

from kitbuilder.number.sums import Sum


def estimate(sum_: Sum) -> int:
    """Return the rest of both numbers rounded: to tens below 100, else to hundreds.

    Halves go up. Where that leaves nothing, they are rounded to the next smaller place. Any fair
    guess of a child is as good.
    """
    step, about = 10 if sum_.whole < 100 else 100, 0
    while about <= 0 and step:
        whole, part = ((n + step // 2) // step * step for n in (sum_.whole, sum_.part))
        about, step = whole - part, step // 10
    return sum_.number(max(0, about))
