"""Mistakes that numbers with decimals of different lengths show, and their answers."""

from kitbuilder.number.sums import Sum

TWO_WHOLES, LONE_DIGIT, ALIGNED_RIGHT = "two-wholes", "lone-digit", "aligned-right"
OF_DECIMALS = (TWO_WHOLES, LONE_DIGIT, ALIGNED_RIGHT)


POINT = "point"
"""Right digits, the point missing or elsewhere (common practice)."""


def point_moved(sum_: Sum, answer: int) -> bool:
    """Say whether ``answer`` has the right digits, its point not where it belongs.

    3.55 written 355 or 35.5; zeros at either end do not count.
    """
    if not sum_.scale.decimals or answer == sum_.rest or not sum_.rest:
        return False
    digits = f"{int(sum_.rest)}".rstrip("0")
    return f"{int(answer)}".rstrip("0") == digits


def decimal_answers(sum_: Sum) -> tuple[tuple[str, int], ...]:
    """Return (key, wrong answer) of each mistake with decimals that shows in ``sum_``.

    They show where whole and part are written with different numbers of decimals, not in
    6.20 − 1.47 typed in full. In 6.2 − 1.47 they give 5.45, where what stands after the point is
    worked as a whole number; 4.87, where a digit with nothing above it is brought down; 0.85, where
    digits are lined up at the right end (published kinds, second-hand; numbers computed).
    """
    if not sum_.scale.decimals or sum_.scale.money or sum_.scale.full:
        return ()
    most = sum_.scale.decimals
    (whole, over), (part, under) = (_split(number, most) for number in (sum_.whole, sum_.part))
    if len(over) == len(under):
        return ()
    ends = 10 ** (most - max(len(over), len(under)))
    lined_up = abs(int(f"{whole}{over}") - int(f"{part}{under}")) * ends
    found = [(ALIGNED_RIGHT, lined_up)]
    if over and under:
        after = f"{abs(int(over) - int(under))}"
        found.insert(0, (TWO_WHOLES, 10**most * (whole - part) + int(after.ljust(most, "0"))))
    if len(under) > len(over):
        same = 10 ** (most - len(over))  # as far as both have digits; the rest is brought down
        down = int(sum_.part) % same
        found.insert(len(found) - 1, (LONE_DIGIT, int(sum_.whole) - int(sum_.part) + 2 * down))
    return tuple((key, answer) for key, answer in found if answer != sum_.rest)


def _split(number: int, decimals: int) -> tuple[int, str]:
    """Return what is written before the point, and the digits after it."""
    ones, less = divmod(int(number), 10**decimals)
    return ones, f"{less:0{decimals}}".rstrip("0")
