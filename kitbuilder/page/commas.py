"""Rows whose cells and decimals are both set apart by commas: "Ada,3,5-1,25"."""

import re
from collections.abc import Iterator, Sequence

from kitbuilder.errors import RefusedError

_DIGITS = re.compile(r"\d{1,4}", re.ASCII)
_SUM = re.compile(r"\d{1,4}\s*[-−–]\s*\d{1,4}", re.ASCII)
_EQUALS = re.compile(r"\d{1,4}\s*=", re.ASCII)  # the decimals of a part, and what is left

_SUMS = (".", "d.", ".d", "d.d")
"""How a sum may lie in cells: "." is one with a sign between numbers, "d" has digits alone."""

_ANSWERS = ("", "d", "dd")
"""How an answer may."""


def joined(cells: Sequence[str], field: str) -> list[str]:
    """Return a row's ``cells``, its numbers whole: ["Ada", "3", "5-1", "25"] has one sum 3,5-1,25.

    A name stands before them, but for sums. What is whole already stays, and a row with an equals
    sign, 5,3 - 2,7 = 3,4, is one cell. Raises ``RefusedError`` where it may be read in several
    ways, or in none.
    """
    if any(map(_EQUALS.match, cells)):
        return [",".join(cells)]
    start = 0 if _kind(cells[0]) == "." else 1
    kinds = "".join(map(_kind, cells[start:]))
    plain = re.fullmatch(r"\.+|d{0,2}" if field == "pupils" else r"\.d?|[.]+|d*", kinds)
    if plain or "?" in kinds:
        return [*cells]
    ways = [*(_of_sums(kinds) if field == "pupils" else _answered(kinds))]
    if len(ways) != 1 or (start and _kind(cells[0]) == "d"):  # a number may be no name
        raise RefusedError("screen.commas", field=field)
    found = [*cells[:start]]
    for count in ways[0]:
        found.append(",".join(cells[start : start + count]))
        start += count
    return found


def _kind(cell: str) -> str:
    return "d" if _DIGITS.fullmatch(cell) else "." if _SUM.fullmatch(cell) else "?"


def _of_sums(kinds: str) -> list[tuple[int, ...]]:
    """Return up to two ways to read cells as sums: how many each takes."""
    ways: list[list[tuple[int, ...]]] = [[] for _ in kinds] + [[()]]
    for at in reversed(range(len(kinds))):
        for form in _SUMS:
            if kinds.startswith(form, at):
                ways[at] += [(len(form), *rest) for rest in ways[at + len(form)]]
        del ways[at][2:]
    return ways[0]


def _answered(kinds: str) -> Iterator[tuple[int, ...]]:
    """Yield the ways to read cells as a sum and its answer."""
    for sum_ in _SUMS:
        for answer in _ANSWERS:
            if kinds == sum_ + answer:
                yield len(sum_), len(answer)
