"""What one child may be doing all along: one habit, one in a single column, or two habits."""

from dataclasses import replace
from functools import lru_cache
from itertools import permutations

from kitbuilder.frozen import frozen
from kitbuilder.number.mistakes.habits import (
    ALL_HABITS,
    HABITS,
    RARER,
    SPARED,
    Column,
    not_lowered,
    right,
    turned,
    zero_becomes_nine,
    zero_top_zero,
)
from kitbuilder.number.sums import Sum

RIGHT = 0
"""Index in ``PROFILES`` of the child who works every column right."""

PER_CENT_IN_ONE_COLUMN = {"turned": 0.5, "not-lowered": 0.6}
"""Share of children in whom a habit shows in one given column alone, in per cent.

Ours; that it happens is told of 357 Spanish pupils, whose errors were systematic in 55 % of
cases only (López & Sánchez 2008; abstract read).
"""

PAIRED = 0.5
"""How much rarer two habits are together than if they came independently. Ours."""


ONE_NINE = 1 / 3
"""Share of those who make a zero 9 who do so with the first of two in a row alone. Ours."""


@frozen
class Profile:
    """One way of working: the habits' ``keys`` (none where all is right), and its rules.

    ``rules`` are those of the columns, ones first, the last one for all further columns.
    ``place`` is the only column in which the habit shows, None where it shows in all.
    ``weight`` is how common the way is before any answer is seen.
    """

    keys: tuple[str, ...]
    rules: tuple[Column, ...]
    weight: float
    place: int | None = None

    @property
    def simple(self) -> bool:
        """Whether it is all right, or one habit in all columns."""
        return len(self.keys) < 2 and self.place is None

    def answer(self, whole: int, part: int) -> int | None:
        """Return what this way of working gives to ``whole`` − ``part``; None where it gets stuck.

        Plain numbers, 0 ≤ part ≤ whole ≤ 9999.
        """
        places = len(str(whole))
        full = len(str(part)) if part else 0
        total = lent = 0
        for k in range(places):
            rule = self.rules[min(k, len(self.rules) - 1)]
            top, bottom = whole // 10**k % 10, part // 10**k % 10
            digit, lent = rule(top, bottom, lent, k >= full, k == places - 1)
            if digit < 0:
                return None
            total += digit * 10**k
        return total


def _paired(first: Column, then: Column) -> Column:
    """Return the rule of a child who does what ``first`` says, where it spoils nothing ``then``."""

    def rule(top: int, bottom: int, lent: int, empty: bool, last: bool) -> tuple[int, int]:
        if lent == SPARED:
            if not top:
                return zero_becomes_nine(top, bottom, lent, empty, last)
            lent = 0
        found = first(top, bottom, lent, empty, last)
        if found == right(top, bottom, lent, empty, last):
            return then(top, bottom, lent, empty, last)
        return found

    return rule


def _skipped_to_zero(top: int, bottom: int, lent: int, empty: bool, last: bool) -> tuple[int, int]:
    """A zero that should lend is skipped, and answered 0 as every zero on top. 605 − 47 = 508.

    Who skips a zero and answers other zeros by the digit below needs no rule of its own:
    ``zero_skipped`` does so.
    """
    if lent and not top:
        return 0, lent
    return zero_top_zero(top, bottom, lent, empty, last)


AS_ONE: dict[tuple[str, str], Column] = {("zero-top-zero", "zero-skipped"): _skipped_to_zero}
"""Two habits that both have something to say of one column, and what they say of it together."""


def _turned_here(top: int, bottom: int, lent: int, empty: bool, last: bool) -> tuple[int, int]:
    held = max(top - lent, 0)
    return turned(held, bottom, 0, empty, last)


def _not_lowered_here(top: int, bottom: int, lent: int, empty: bool, last: bool) -> tuple[int, int]:
    return not_lowered(top, bottom + lent, 0, empty, last)


def _lowered_to_zero(key: str) -> Column:
    """Return a rule about zeros on top that also holds for a 1 that has been lowered to 0."""

    def rule(top: int, bottom: int, lent: int, empty: bool, last: bool) -> tuple[int, int]:
        if top == lent:
            return (bottom if key == "zero-top-bottom" else 0), 0
        return right(top, bottom, lent, empty, last)

    return rule


def _first_zero_nine(top: int, bottom: int, lent: int, empty: bool, last: bool) -> tuple[int, int]:
    """Return the column where one zero becomes 9; the next one is exchanged for, if it is short.

    3006 − 1807 = 1299 (VanLehn 1990, from memory). Where no two zeros stand together it is the
    habit itself.
    """
    if lent and not top:
        return 9 - bottom, 0
    return right(top, bottom, lent, empty, last)


def _profiles() -> tuple[Profile, ...]:
    columns = {habit.key: habit.column for habit in ALL_HABITS}
    share = {habit.key: habit.per_cent / 100 for habit in ALL_HABITS}
    one_nine = share["zero-becomes-nine"] * ONE_NINE
    found = [Profile((), (right,), 0.5)]
    found += [Profile((key,), (columns[key],), share[key]) for key in columns]
    found = [
        replace(p, weight=p.weight - one_nine) if p.keys == ("zero-becomes-nine",) else p
        for p in found
    ]
    found.append(Profile(("zero-becomes-nine",), (_first_zero_nine,), one_nine))
    for key in ("zero-top-bottom", "zero-top-zero"):
        found.append(Profile((key,), (_lowered_to_zero(key),), share[key] / 2))
    here = {"turned": _turned_here, "not-lowered": _not_lowered_here}
    for key, per_cent in PER_CENT_IN_ONE_COLUMN.items():
        for place in range(3):
            rules = (*(right,) * place, here[key], right)
            found.append(Profile((key,), rules, per_cent / 100, place))
    mixed = [habit.key for habit in HABITS if habit.key != "added"]
    mixed += [habit.key for habit in RARER if habit.special]
    for first, then in permutations(mixed, 2):
        rule = AS_ONE.get((first, then)) or _paired(columns[first], columns[then])
        weight = share[first] * share[then] * PAIRED
        found.append(Profile((first, then), (rule,), weight))
    return tuple(found)


PROFILES = _profiles()
"""Every way of working that a child's answers are held against: all right; each habit; the two
about zeros on top also where a digit was lowered to 0; of zeros in a row the first alone made 9;
turned digits and a column not lowered in one column alone; and two habits at once, the first
where both have something to say."""


def answer_of(key: str, place: int | None, sum_: Sum) -> int | None:
    """Return what the habit ``key`` gives to ``sum_``, in the column ``place`` alone or in all.

    It is the right answer where no such way of working is known, None where it gets stuck.
    """
    which = ((key,), place)
    way = next((p for p in PROFILES if (p.keys, p.place) == which), PROFILES[RIGHT])
    return way.answer(int(sum_.whole), int(sum_.part))


@lru_cache(maxsize=1 << 12)
def answers(whole: int, part: int) -> tuple[int | None, ...]:
    """Return the answer of each of ``PROFILES`` to ``whole`` − ``part``; None where it is stuck."""
    return tuple(profile.answer(whole, part) for profile in PROFILES)
