"""Sums in which a column is short by exactly 5, so that two mistakes give one answer."""


def short_by_five(whole: int, part: int) -> bool:
    """Say whether some column of ``whole`` − ``part`` is short by exactly 5, as written or worked.

    42 − 17: digits turned round give 7 − 2 = 5 in the ones, and so do ten fetched with none
    handed in, 12 − 7. So 35 does not tell which it was (after Brown & Burton 1978, Cognitive
    Science 2:155-192, second-hand). Across all three-place sums computed by brute force.
    321 − 64: the tens hand one in, and then 1 ten is short of 6 by 5. A zero that is gone across
    hands one in only after ten came.
    """
    lent = 0
    while part > 0:
        top, bottom = whole % 10, part % 10
        if bottom - top == 5 or (top and bottom - top + lent == 5):
            return True
        lent = int(top - lent < bottom)
        whole, part = whole // 10, part // 10
    return False
