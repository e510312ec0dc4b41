"""The fewest different sheets that hold a demand, each printed in copies.

Pieces beyond the demand are allowed: a sheet may hold a few more so that all are alike. Only
the counts are reckoned here; by the three bounds of ``grid.holds`` a sheet
can be cut into any counts that keep them. For copies c₁ … cⱼ and hundreds on each, tens
and then ones only need sums Σ cᵢ·tᵢ that reach the demand and leave room for the rest, with
each tᵢ up to its own limit. The sums that can be reached are the bits of one whole number.
"""

from collections.abc import Iterator
from itertools import islice, product

from kitbuilder.frozen import frozen
from kitbuilder.layout.packing.grid import Counts, holds

MOST_DIFFERENT = 3  # different sheets that are searched for; more are left to the spread
MOST_LOOKED_AT = 20_000  # ways to share out copies and hundreds
MOST_WEIGHED = 600  # of those, ways whose tens are reckoned

Layouts = tuple[tuple[int, Counts], ...]
"""Pairs of (copies, counts on each copy)."""


def fewest_layouts(
    demand: Counts, sheets: int, across: int, down: int, wanted: int
) -> list[Layouts]:
    """Return up to ``wanted`` ways to hold ``demand`` on ``sheets`` in the fewest layouts.

    All have equally many layouts; those with the fewest pieces come first. Up to
    ``MOST_DIFFERENT`` layouts every way is tried, unless there are more than the limits of
    this module; the list is empty if none was found.
    """
    for different in range(1, min(MOST_DIFFERENT, sheets) + 1):
        search = _Search(demand, sheets, holds(across, down))
        found = list(islice(search.ways(different), MOST_WEIGHED))
        if found:
            return sorted(dict.fromkeys(found), key=_pieces)[:wanted]
    return []


def _pieces(layouts: Layouts) -> tuple[int, Layouts]:
    return sum(copies * sum(counts) for copies, counts in layouts), layouts


@frozen
class _Search:
    demand: Counts
    sheets: int
    room: tuple[int, int, int]

    def ways(self, different: int) -> Iterator[Layouts]:
        weighed = 0
        for copies, hundreds in islice(self._shares(different), MOST_LOOKED_AT):
            made = sum(c * h for c, h in zip(copies, hundreds, strict=True))
            tens, ones = self.demand[1:]
            strips = self.room[1] * self.sheets - 10 * made
            area = self.room[2] * self.sheets - 100 * made - ones
            if strips < tens or area < 10 * tens:
                continue
            weighed += 1
            if weighed > MOST_WEIGHED:
                return
            layouts = self._filled(copies, hundreds, area // 10)
            if layouts:
                yield layouts

    def _shares(self, different: int) -> Iterator[tuple[tuple[int, ...], tuple[int, ...]]]:
        """Yield copies of each layout, and hundreds on each: no more than must be on the last."""
        most, need = self.room[0], self.demand[0]
        for copies in _parted(self.sheets, different):
            for first in product(range(most, -1, -1), repeat=different - 1):
                left = need - sum(c * h for c, h in zip(copies[:-1], first, strict=True))
                last = max(0, -(-left // copies[-1]))
                if last <= most:
                    yield copies, (*first, last)

    def _filled(
        self, copies: tuple[int, ...], hundreds: tuple[int, ...], most: int
    ) -> Layouts | None:
        """Return the layouts with tens, ``most`` in all, and ones; None if they do not fit."""
        limits = [self.room[1] - 10 * h for h in hundreds]
        tens = least_sum(copies, limits, self.demand[1])
        if tens is None or sum(c * t for c, t in zip(copies, tens, strict=True)) > most:
            return None
        held = list(zip(hundreds, tens, strict=True))
        ones = least_sum(copies, [self.room[2] - 100 * h - 10 * t for h, t in held], self.demand[2])
        if ones is None:
            return None
        counts = [(h, t, o) for (h, t), o in zip(held, ones, strict=True)]
        return tuple(sorted(zip(copies, counts, strict=True), reverse=True))


def _parted(sheets: int, different: int, most: int | None = None) -> Iterator[tuple[int, ...]]:
    """Yield the ways to write ``sheets`` as a sum of ``different`` numbers, largest first."""
    if different == 1:
        if most is None or sheets <= most:
            yield (sheets,)
        return
    top = sheets - different + 1 if most is None else min(most, sheets - different + 1)
    for first in range(top, -(-sheets // different) - 1, -1):
        for rest in _parted(sheets - first, different - 1, first):
            yield (first, *rest)


def least_sum(weights: tuple[int, ...], limits: list[int], need: int) -> tuple[int, ...] | None:
    """Return whole numbers up to ``limits`` whose weighted sum is least but at least ``need``.

    None if the limits do not let it reach ``need``.
    """
    reached = [1]  # bit s is set: the weights so far can make s
    for weight, limit in zip(weights, limits, strict=True):
        limit = min(limit, -(-need // weight))
        sums, step = reached[-1], 1
        while limit:
            step = min(step, limit)
            sums |= sums << step * weight
            limit, step = limit - step, 2 * step
        reached.append(sums)
    above = reached[-1] >> need
    if not above:
        return None
    total = need + (above & -above).bit_length() - 1
    chosen: list[int] = []
    for weight, limit, before in reversed(list(zip(weights, limits, reached[:-1], strict=True))):
        # A number near an even share keeps the sheets much alike.
        ways = [
            n for n in range(min(limit, total // weight) + 1) if before >> (total - n * weight) & 1
        ]
        chosen.append(min(ways, key=lambda n: (abs(n * sum(weights) - need), n)))
        total -= chosen[-1] * weight
    return tuple(reversed(chosen))
