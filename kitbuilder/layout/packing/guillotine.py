"""Guillotine trees: a sheet divided by straight cuts, and the strokes that makes.

**The stroke model.** A stroke is one straight cut from edge to edge through a stack of at most
K parts (K = layers). The parts must have congruent outlines (turned or flipped if need be) and
lie flush, so the cut divides each of them alike. Two cuts can share a stroke exactly when
their :data:`CutType` is equal. A part is smaller than the part it was cut from, so when the
types are worked off by falling area of the part, every part is at hand when its turn comes:
given the trees, the least number of strokes is the sum, over the types, of
⌈parts of that type / K⌉. At K = 1 this is parts in the end minus sheets, in whatever order.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

Axis = Literal["x", "y"]
"""Along which axis a part is divided: ``x`` by a cut that runs down, ``y`` by one across."""

CutType = tuple[int, int, int]
"""Length of the cut, size across the cut, distance to the nearer edge; hundredths of a mm."""

OFFCUT = "offcut"


@dataclass(frozen=True, slots=True, eq=False)
class Part:
    """A rectangle in hand, ``width`` × ``height`` hundredths of a mm.

    It is a piece or offcut named ``what``, or (``what`` empty) is divided at ``at`` along
    ``axis`` into ``first`` (left or top) and ``second``, in ``step`` of the work if that is set.
    """

    width: int
    height: int
    what: str = ""
    axis: Axis = "x"
    at: int = 0
    step: int = 0
    first: "Part | None" = None
    second: "Part | None" = None

    @property
    def halves(self) -> "tuple[Part, Part] | None":
        """The two parts it is cut into, or None for a piece or offcut."""
        if self.first is None or self.second is None:
            return None
        return self.first, self.second

    @property
    def type(self) -> CutType:
        """What must be equal for two cuts to share a stroke."""
        long, span = (self.height, self.width) if self.axis == "x" else (self.width, self.height)
        return long, span, min(self.at, span - self.at)


def leaf(what: str, width: int, height: int) -> Part:
    """Return a finished part: a piece or an offcut."""
    return Part(width, height, what)


def join(axis: Axis, first: Part, second: Part, step: int = 0) -> Part:
    """Return the part that one cut, made in ``step``, divides into ``first`` and ``second``."""
    if axis == "x":
        size = (first.width + second.width, first.height)
        return Part(*size, "", "x", first.width, step, first, second)
    size = (first.width, first.height + second.height)
    return Part(*size, "", "y", first.height, step, first, second)


def line_up(axis: Axis, parts: Sequence[Part]) -> Part:
    """Return one part made of ``parts`` in a row: alike neighbours are halved, others cut off."""
    if not parts:
        raise ValueError("line_up: there must be a part")
    runs: list[list[Part]] = []
    for part in parts:
        if runs and runs[-1][0] is part:
            runs[-1].append(part)
        else:
            runs.append([part])
    made = [_halved(axis, run[0], len(run)) for run in runs]
    whole = made[-1]
    for part in reversed(made[:-1]):
        whole = join(axis, part, whole)
    return whole


def _halved(axis: Axis, part: Part, count: int) -> Part:
    made = {1: part}

    def build(n: int) -> Part:
        if n not in made:
            made[n] = join(axis, build(n // 2), build(n - n // 2))
        return made[n]

    return build(count)


def trimmed(core: Part, width: int, height: int, x: int, y: int) -> Part:
    """Return a sheet ``width`` × ``height`` with ``core`` at (``x``, ``y``), trimmed all round."""
    return framed("x", framed("y", core, y, height), x, width)


def framed(axis: Axis, core: Part, start: int, size: int) -> Part:
    """Return a part as long as ``size`` with ``core`` at ``start``, offcuts before and after it."""
    across = axis == "x"

    def rim(long: int) -> Part:
        return leaf(OFFCUT, *((long, core.height) if across else (core.width, long)))

    after = size - start - (core.width if across else core.height)
    if start:
        core = join(axis, rim(start), core)
    return join(axis, core, rim(after)) if after else core


def walk(part: Part) -> Iterator[tuple[int, int, Part]]:
    """Yield (x, y, part) for ``part``, at (0, 0), and everything cut from it."""
    stack = [(0, 0, part)]
    while stack:
        x, y, part = stack.pop()
        yield x, y, part
        if halves := part.halves:
            first, second = halves
            stack.append(
                (x + first.width, y, second) if part.axis == "x" else (x, y + first.height, second)
            )
            stack.append((x, y, first))


def merged(sheets: Sequence[tuple[int, Part]]) -> list[tuple[int, Part]]:
    """Return ``(copies, sheet)`` pairs with sheets that are cut alike told once."""
    found: dict[tuple[object, ...], tuple[int, Part]] = {}
    for copies, sheet in sheets:
        cuts = tuple((x, y, part.what, part.axis, part.at) for x, y, part in walk(sheet))
        found[cuts] = (copies + (found[cuts][0] if cuts in found else 0), sheet)
    return list(found.values())


def cut_types(sheets: Sequence[tuple[int, Part]]) -> Counter[CutType]:
    """Return how many parts of each type are cut, for ``(copies, sheet)`` pairs."""
    counts: Counter[CutType] = Counter()
    many: dict[int, int] = {}
    for copies, sheet in sheets:
        many[id(sheet)] = many.get(id(sheet), 0) + copies
    # Largest first: a part's count is whole before its own halves are counted.
    order = sorted(_distinct(sheets), key=lambda part: -part.width * part.height)
    for part in order:
        count = many.get(id(part), 0)
        if halves := part.halves:
            counts[part.type] += count
            for half in halves:
                many[id(half)] = many.get(id(half), 0) + count
    return counts


def strokes_needed(counts: Counter[CutType], layers: int) -> int:
    """Return the least number of strokes for cuts of these types (see the module).

    Narrow parts are counted like others; those cut by hand take more (``narrow_strips``).
    """
    return sum(-(-count // layers) for count in counts.values())


def _distinct(sheets: Sequence[tuple[int, Part]]) -> list[Part]:
    seen: dict[int, Part] = {}
    stack = [sheet for _, sheet in sheets]
    while stack:
        part = stack.pop()
        if id(part) not in seen:
            seen[id(part)] = part
            if halves := part.halves:
                stack.extend(halves)
    return list(seen.values())
