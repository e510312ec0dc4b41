"""What a mat must hold for its sums: the most pieces in each zone, and when.

A zone is one place (column) of one role. In arrangement ``two`` the whole is built in one
zone, the part is taken out into the other and the rest stays; in ``three`` and ``beside`` the
rest is moved into a zone of its own, column by column as it is taken from or all at the end.
To check, the parts are pushed together in the zone of the whole. ``add`` is the addition of
the parts: both are built, then pushed together in a third zone. A piece handed in leaves
before its ten are laid down.
"""

from collections.abc import Iterable, Iterator, Sequence
from itertools import permutations
from typing import Literal, get_args

from kitbuilder.frozen import frozen
from kitbuilder.number.steps import Act, Step, steps
from kitbuilder.number.stock import stock
from kitbuilder.number.sums import PLACES, Pieces, Sum, digits

Zones = Literal["two", "three", "beside"]
"""How the zones of the mat of subtraction may lie."""

ZONES: tuple[Zones, ...] = get_args(Zones)
Arrangement = Zones | Literal["add", "level"]
Role = Literal["whole", "part", "rest", "together", "first", "second"]

MatKind = Literal["subtract", "add", "exchange"]
Headings = Literal["words", "numbers", "letters"]

LARGEST_PLACES = 4
"""A mat has columns up to thousands."""

_ORDER: tuple[Role, ...] = get_args(Role)
_AGAIN = (Act.TOGETHER, Act.EXCHANGE_BACK, Act.CHECK)


@frozen
class MatWish:
    """Which mats are wanted: the kinds, how the subtraction mat is arranged, its headings.

    ``exchange`` is the exchange board: a bank for spare pieces, and frames to fill.
    """

    kinds: tuple[MatKind, ...] = ("subtract",)
    arrangement: Zones = "two"
    headings: Headings = "words"

    def __post_init__(self) -> None:
        for kind in self.kinds:
            if kind not in get_args(MatKind):
                raise ValueError(f"MatWish.kinds holds {kind!r}; choose from {get_args(MatKind)}")
        if self.arrangement not in ZONES:
            raise ValueError(f"MatWish.arrangement is {self.arrangement!r}; choose from {ZONES}")
        if self.headings not in get_args(Headings):
            raise ValueError(
                f"MatWish.headings is {self.headings!r}; choose from {get_args(Headings)}"
            )


BANDS: dict[Arrangement, tuple[tuple[Role, ...], ...]] = {
    "two": (("whole",), ("part",)),
    "three": (("whole",), ("part",), ("rest",)),
    "beside": (("whole",), ("part", "rest")),
    "add": (("together",), ("first",), ("second",)),
    "level": (("whole", "part"),),
}
"""How the zones of each arrangement lie: rows from top to bottom, in a row from left to right."""


def roles(arrangement: Arrangement) -> tuple[Role, ...]:
    """Return the roles of the zones of ``arrangement``: the whole first, wherever it lies."""
    held = {role for band in BANDS[arrangement] for role in band}
    return tuple(role for role in _ORDER if role in held)


def bands(arrangement: Arrangement) -> tuple[tuple[Role, ...], ...]:
    """Return the rows of zones from top to bottom."""
    return BANDS[arrangement]


@frozen
class Laying:
    """What lies in each zone at one moment: ``pieces`` follows ``roles(arrangement)``.

    ``act`` is the step that led to it and ``order`` the columns' order (place indexes).
    """

    act: Act
    order: tuple[int, ...]
    pieces: tuple[Pieces, ...]


@frozen
class Moment:
    """The moment of ``sum_`` that fills a zone: after ``act``.

    ``first`` is the place taken from first where ones first would hold fewer, else None.
    """

    sum_: Sum
    act: Act
    first: int | None


@frozen
class Holding:
    """The most pieces the zone of ``place`` and ``role`` ever holds; ``moment`` None if none."""

    place: int
    role: Role
    most: int
    moment: Moment | None

    def __post_init__(self) -> None:
        if not 0 <= self.place < LARGEST_PLACES:
            raise ValueError(f"Holding.place is {self.place}; it must be 0 to 3")
        if self.most < 0 or (self.moment is None) != (self.most == 0):
            raise ValueError(f"Holding.most is {self.most} at the moment {self.moment}")


@frozen
class MatNeeds:
    """What one mat must hold: its arrangement, its columns, and each zone's holding."""

    arrangement: Arrangement
    places: int
    holdings: tuple[Holding, ...]

    def __post_init__(self) -> None:
        zones = [(h.role, h.place) for h in self.holdings]
        due = [(r, k) for r in roles(self.arrangement) for k in range(self.places)]
        if zones != due:
            raise ValueError(f"MatNeeds.holdings are for {zones}; they must be for {due}")

    def holding(self, role: Role, place: int) -> Holding:
        """Return the holding of one zone."""
        return self.holdings[roles(self.arrangement).index(role) * self.places + place]


def mat_needs(sums: Iterable[Sum], arrangement: Arrangement) -> MatNeeds:
    """Return what a mat for ``sums`` must hold, over every column order and the rebuilding.

    Counts are by closed forms, proven against every laying in the tests: the zone of the
    whole holds the stock of the sum, that of the part its digits, that of the rest at most
    its digit or, when a larger column is worked before a smaller one, the digit difference
    modulo ten. Raises ``ValueError`` for no sums or sums of more than four places.
    """
    every = tuple(sums)
    if not every:
        raise ValueError("mat_needs: no sums")
    places = max(s.places for s in every)
    if places > LARGEST_PLACES:
        raise ValueError(f"mat_needs: {places} places; a mat has at most {LARGEST_PLACES}")
    best: dict[tuple[int, int], tuple[int, Sum]] = {}
    for sum_ in every:
        for row, counts in enumerate(_most(sum_, arrangement)):
            for place in range(places):
                if counts[place] > best.get((row, place), (-1, sum_))[0]:
                    best[row, place] = (counts[place], sum_)
    return MatNeeds(
        arrangement,
        places,
        tuple(
            _holding(place, role, *best[row, place], arrangement)
            for row, role in enumerate(roles(arrangement))
            for place in range(places)
        ),
    )


def filling_sums(limit: int) -> tuple[Sum, ...]:
    """Return a few sums with a whole below ``limit`` that fill every zone as far as any does.

    ``limit`` is 2 to 10000. For each place: the number with the largest digit as whole, as part
    and as rest; and, of the wholes that can exchange there, the one with the largest digit,
    less a part of only nines, which makes it exchange.
    """
    if not 2 <= limit <= 10**LARGEST_PLACES:
        raise ValueError(f"filling_sums: limit is {limit}; it must be 2 to 10000")
    found: list[Sum] = []
    for place in range(len(str(limit - 1))):
        block: int = 10 ** (place + 1)
        largest = _largest(range(1, limit), place)
        found += [Sum(largest, 1), Sum(limit - 1, largest), Sum(limit - 1, limit - 1 - largest)]
        filled = [w for w in range(block, limit) if w % block != block - 1]
        if filled:
            found.append(Sum(_largest(filled, place), block - 1))
    return tuple(found)


def fullest(sums: Iterable[Sum]) -> tuple[Sum, ...]:
    """Return few of ``sums`` that fill every zone, however they lie, as far as any of them does.

    Each in turn fills the most zones that no other has filled; what one needs, the pieces and the
    mat for these few serve.
    """
    held = {sum_: [count for row in _most(sum_, "three") for count in row] for sum_ in sums}
    most = [max(counts) for counts in zip(*held.values(), strict=True)]
    left = {zone for zone, count in enumerate(most) if count}
    found: list[Sum] = []
    while left:
        filled = {s: {zone for zone in left if of[zone] == most[zone]} for s, of in held.items()}
        found.append(max(filled, key=lambda sum_: len(filled[sum_])))
        left -= filled[found[-1]]
    return tuple(found)


def layings(sum_: Sum, arrangement: Arrangement) -> Iterator[Laying]:
    """Yield what lies in every zone at every moment of ``sum_``, over all column orders.

    For ``three`` and ``beside`` both habits are walked: the rest is moved as each column is
    taken from, and all at the end.
    """
    for order in permutations(range(sum_.places)):
        walked = steps(sum_, order)
        if arrangement == "add":
            yield from _added(sum_, walked, order)
        elif "rest" not in roles(arrangement):
            for step in walked:
                yield Laying(step.act, order, (step.table.whole, step.table.part))
        else:
            yield from _moved(walked, order, at_once=False)
            yield from _moved(walked, order, at_once=True)


def _added(sum_: Sum, walked: tuple[Step, ...], order: tuple[int, ...]) -> Iterator[Laying]:
    yield Laying(Act.BUILD, order, (Pieces(), Pieces.of(sum_.part), Pieces.of(sum_.rest)))
    for step in walked:
        if step.act in _AGAIN:
            yield Laying(step.act, order, (step.table.whole, Pieces(), Pieces()))


def _moved(walked: tuple[Step, ...], order: tuple[int, ...], *, at_once: bool) -> Iterator[Laying]:
    moved: tuple[int, ...] = (0, 0, 0, 0)
    for step in walked:
        left = step.table.whole.counts
        if step.act is Act.PARTS:
            moved = left
        elif step.act in _AGAIN:
            moved = (0, 0, 0, 0)
        elif step.act is Act.TAKE and at_once and step.place is not None:
            moved = (*moved[: step.place], left[step.place], *moved[step.place + 1 :])
        # A column that has lent hands in what still lies in the zone of the whole first.
        moved = tuple(min(m, c) for m, c in zip(moved, left, strict=True))
        stay = tuple(c - m for m, c in zip(moved, left, strict=True))
        pieces = (Pieces.by_place(stay), step.table.part, Pieces.by_place(moved))
        yield Laying(step.act, order, pieces)


def _most(sum_: Sum, arrangement: Arrangement) -> tuple[tuple[int, ...], ...]:
    n = len(PLACES)
    whole, part, rest = (digits(x, n) for x in (sum_.whole, sum_.part, sum_.rest))
    full = stock([sum_]).counts
    if arrangement == "add":
        return (full, part, rest)
    if "rest" not in roles(arrangement):
        return (full, part)
    early = tuple((w - p) % 10 for w, p in zip(whole, part, strict=True))
    left = (max(r, e) if p else r for r, e, p in zip(rest, early, part, strict=True))
    return (full, part, tuple(left))


def _holding(place: int, role: Role, most: int, sum_: Sum, arrangement: Arrangement) -> Holding:
    if most == 0:
        return Holding(place, role, 0, None)
    row = roles(arrangement).index(role)
    first = tuple(range(sum_.places))

    def rank(laying: Laying) -> tuple[bool, bool, bool]:
        order = laying.order
        return (laying.act in _AGAIN, order != first, order[0] != place)

    fits = [x for x in layings(sum_, arrangement) if x.pieces[row].counts[place] == most]
    if not fits:
        raise ValueError(f"mat_needs: {sum_} never holds {most} at place {place} of {role}")
    best = min(fits, key=rank)
    asked = best.order != first and best.act not in _AGAIN
    return Holding(place, role, most, Moment(sum_, best.act, best.order[0] if asked else None))


def _largest(numbers: Iterable[int], place: int) -> int:
    # The smallest of the numbers with the largest digit at that place.
    return max(numbers, key=lambda n: (n // 10**place % 10, -n))


def mat_places(sums: Sequence[Sum], first: Sequence[Sum], limit: int | None) -> tuple[int, int]:
    """Return the places of a kit's first mat and of its last, the same where there is but one.

    A smaller mat comes first where it will do for the sums of the ``first`` week.
    """
    within = max(3, len(str(limit - 1))) if limit else 0
    last = max((s.places for s in sums), default=within)
    early = max((s.places for s in first), default=last)
    return early, max(early, last)
