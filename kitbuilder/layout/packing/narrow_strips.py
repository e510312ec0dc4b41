"""Rows of narrow strips, cut off one by one, so that a clamp holds all but the last two."""

from kitbuilder.layout.packing.guillotine import Axis, CutType, Part, join

CLAMP = 20.0
"""The least length in mm that a clamp can hold (common practice: 20 to 25, from memory)."""

HAND = 2
"""The most layers that a blade cuts by hand at a time, where no clamp holds them."""


def in_a_stack(kind: CutType, layers: int) -> int:
    """Return how many of up to ``layers`` parts a stroke goes through: fewer by hand."""
    return min(layers, HAND) if kind[1] - kind[2] < 100 * CLAMP else layers


def peeled(tree: Part) -> Part:
    """Return ``tree`` with each row of equal strips that no clamp holds cut off one by one.

    Halved, every second strip of a row would be cut by hand; so one of a row is. Equal parts
    stay one object.
    """
    return _Peeler().part(tree)


class _Peeler:
    def __init__(self) -> None:
        self._made: dict[int, Part] = {}
        self._rows: dict[tuple[int, Axis, int], Part] = {}

    def part(self, part: Part) -> Part:
        """Return ``part`` with its rows cut off strip by strip."""
        if id(part) not in self._made:
            self._made[id(part)] = self._new(part)
        return self._made[id(part)]

    def _new(self, part: Part) -> Part:
        if part.halves is None:
            return part
        row = _row(part)
        strip = row[0].width if part.axis == "x" else row[0].height
        if len(row) > 2 and strip < 100 * CLAMP:
            return self._row(part.axis, self.part(row[0]), len(row))
        first, second = map(self.part, part.halves)
        return join(part.axis, first, second)

    def _row(self, axis: Axis, strip: Part, count: int) -> Part:
        """Return ``count`` strips in a row, the last of which is cut off first."""
        key = id(strip), axis, count
        if key not in self._rows:
            rest = strip if count == 2 else self._row(axis, strip, count - 1)
            self._rows[key] = join(axis, rest, strip)
        return self._rows[key]


def _row(part: Part) -> list[Part]:
    """Return the equal parts, one and the same object, that ``part`` is a row of; else itself."""
    found: list[Part] = []
    stack = [part]
    while stack:
        one = stack.pop()
        if found and one is found[0]:
            found.append(one)
        elif one.halves and one.axis == part.axis:
            stack += reversed(one.halves)
        elif found:
            return [part]
        else:
            found.append(one)
    return found
