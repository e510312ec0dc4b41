"""An estimate of what will be left, as it is asked for before a sum is worked."""

from kitbuilder.number.sums import Sum


def estimate(sum_: Sum) -> int:
    """Return the difference of both numbers rounded to hundreds, or to tens.

    To tens where either part is below 100. Halves go up. Where that leaves nothing, they are
    rounded to the next smaller place. Any fair guess of a child is as good.
    """
    step, about = 10 if min(sum_.part, sum_.rest) < 100 else 100, 0
    while about <= 0 and step:
        whole, part = ((n + step // 2) // step * step for n in (sum_.whole, sum_.part))
        about, step = whole - part, step // 10
    return sum_.number(about)
