"""Turns a number of equal cards into the least sheets, with straight cuts in order."""

from functools import lru_cache

from kitbuilder.errors import RefusedError
from kitbuilder.sheet.bound import least_strokes
from kitbuilder.sheet.grid import MOST_PIECES, Page, hundredths, trims_of
from kitbuilder.sheet.parts import (
    OFFCUT,
    Axis,
    Part,
    cut_types,
    join,
    leaf,
    strokes_needed,
    trimmed,
)
from kitbuilder.sheet.plan import Count, CutPlan, Wish, make_plan, page_size

MOST_PLACES = 3000  # pairs of places for a cut, across and down, in the search for rectangles

Sheets = list[tuple[int, Part]]


def pack_cards(
    count: int, page: Page, halvings: int, *, layers: int = 1, what: str = "card"
) -> CutPlan:
    """Return the plan for ``count`` cards, each a page halved ``halvings`` times.

    The longer side is halved each time, at the middle line, so cards reach the paper's edge
    and nothing is trimmed: two halvings of a4 give A6, three A7. On a last sheet that is not
    full the rest falls off, or is cut along as spares where that saves strokes or a layout.
    Raises RefusedError for sizes that do not halve in whole hundredths of a millimetre.
    """
    _check(count, layers)
    if not 1 <= halvings <= 6:
        raise ValueError(f"pack_cards: halvings is {halvings}; it must be 1 to 6")
    width, height = page_size(page)
    per_sheet = 2**halvings
    full, over = divmod(count, per_sheet)
    ways: list[Sheets] = []
    whole = _halve(width, height, halvings, per_sheet, what)
    if over == 0:
        ways.append([(full, whole)])
    else:
        part = (1, _halve(width, height, halvings, over, what))
        ways.append([(full, whole), part] if full else [part])
        ways.append([(full + 1, whole)])
    wish = Wish(page, 0, 1, layers, (Count(what, count),))
    sheets = _best(ways, layers)
    bound = max(halvings, least_strokes(count, full + (over > 0), layers, (0, 0)))
    return make_plan(wish, sheets, bound, full + (over > 0))


def pack_rects(
    count: int,
    width_mm: float,
    height_mm: float,
    page: Page,
    *,
    layers: int = 1,
    what: str = "exchange-card",
) -> CutPlan:
    """Return the plan for ``count`` rectangles inside the margins, lying or standing.

    As many go on a sheet as straight cuts allow: for every width and height that sums of the
    two sides can make, all cuts are tried (J. C. Herz 1972, Recursive computational procedure
    for two-dimensional stock cutting, IBM J. Res. Dev. 16:462-469; from memory). Raises
    RefusedError if not one fits, or if so many fit that the search would be long.
    """
    _check(count, layers)
    width, height = hundredths(width_mm), hundredths(height_mm)
    if min(width, height) <= 0:
        raise ValueError(f"pack_rects: {width_mm} by {height_mm} mm; both must be above 0")
    left, top = hundredths(page.left), hundredths(page.top)
    room_x = hundredths(page.width) - left - hundredths(page.right)
    room_y = hundredths(page.height) - top - hundredths(page.bottom)
    board = _Board(width, height, what, room_x, room_y)
    per_sheet = board.most(board.xs[-1], board.ys[-1])
    if per_sheet == 0:
        raise RefusedError(
            f"A card of {width_mm:g} by {height_mm:g} mm does not fit between the margins; "
            f"{room_x / 100:g} by {room_y / 100:g} mm is free."
        )
    full, over = divmod(count, per_sheet)
    least = full + (over > 0)

    def sheet(cards: int) -> Part:
        core = _tight(board.part(board.xs[-1], board.ys[-1], cards))
        return trimmed(core, hundredths(page.width), hundredths(page.height), left, top)

    whole = sheet(per_sheet)
    ways: list[Sheets] = [[(least, whole)]]
    if over:
        ways.append([(full, whole), (1, sheet(over))] if full else [(1, sheet(over))])
    bound = least_strokes(count, least, layers, trims_of(page))
    wish = Wish(page, 0, 1, layers, (Count(what, count),))
    return make_plan(wish, _best(ways, layers), bound, least)


def _check(count: int, layers: int) -> None:
    if not 1 <= count <= MOST_PIECES:
        raise RefusedError(f"{count} cards were asked for; it must be 1 to {MOST_PIECES}.")
    if not 1 <= layers <= 20:
        raise RefusedError(f"A stack of {layers} layers was asked for; it must be 1 to 20.")


def _best(ways: list[Sheets], layers: int) -> Sheets:
    def rank(sheets: Sheets) -> tuple[int, int, int]:
        types = cut_types(sheets)
        length = sum(-(-count // layers) * type_[0] for type_, count in types.items())
        return strokes_needed(types, layers), len(sheets), length

    return min(ways, key=rank)


def _halve(width: int, height: int, halvings: int, cards: int, what: str) -> Part:
    """Return a part with ``cards`` cards first; the rest falls off."""
    if cards == 0:
        return leaf(OFFCUT, width, height)
    if halvings == 0:
        return leaf(what, width, height)
    axis: Axis = "x" if width > height else "y"
    if (width if axis == "x" else height) % 2:
        raise RefusedError(
            f"A part of {width / 100:g} by {height / 100:g} mm cannot be halved exactly; "
            "choose a page whose sides halve in whole hundredths of a millimetre."
        )
    if axis == "x":
        width //= 2
    else:
        height //= 2
    first = min(cards, 2 ** (halvings - 1))
    return join(
        axis,
        _halve(width, height, halvings - 1, first, what),
        _halve(width, height, halvings - 1, cards - first, what),
    )


class _Board:
    """The most rectangles of one size that straight cuts can take from a rectangle."""

    def __init__(self, width: int, height: int, what: str, room_x: int, room_y: int) -> None:
        self.sides = (width, height)
        self.what = what
        self.xs = _sums(width, height, room_x)
        self.ys = _sums(width, height, room_y)
        if len(self.xs) * len(self.ys) > MOST_PLACES:
            raise RefusedError(
                f"Cards of {width / 100:g} by {height / 100:g} mm are too small for this page; "
                "choose larger cards or a smaller page."
            )
        self._best = lru_cache(maxsize=None)(self._search)

    def most(self, width: int, height: int) -> int:
        """Return how many fit."""
        return self._best(width, height)[0]

    def part(self, width: int, height: int, cards: int) -> Part:
        """Return a part of this size with ``cards`` of its cards; the rest falls off."""
        cards = min(cards, self.most(width, height))
        if cards == 0:
            return leaf(OFFCUT, width, height)
        _, axis, at = self._best(width, height)
        if axis is None:
            return leaf(self.what, width, height)
        sizes = ((at, height), (width - at, height))
        if axis == "y":
            sizes = ((width, at), (width, height - at))
        if self.most(*sizes[0]) < self.most(*sizes[1]):
            sizes = sizes[::-1]
        first = min(cards, self.most(*sizes[0]))
        return join(axis, self.part(*sizes[0], first), self.part(*sizes[1], cards - first))

    def _search(self, width: int, height: int) -> tuple[int, Axis | None, int]:
        if (width, height) in (self.sides, self.sides[::-1]):
            return 1, None, 0
        if width * height < self.sides[0] * self.sides[1]:
            return 0, None, 0
        # Of equally good cuts the one nearest the middle leaves parts that can be stacked.
        ways: list[tuple[int, int, Axis, int]] = [(0, 0, "x", 0)]
        for at in self._places(self.xs, width):
            found = self.most(at, height) + self.most(width - at, height)
            ways.append((found, -abs(width - 2 * at), "x", at))
        for at in self._places(self.ys, height):
            found = self.most(width, at) + self.most(width, height - at)
            ways.append((found, -abs(height - 2 * at), "y", at))
        found, _, axis, at = max(ways)
        return found, axis if found else None, at

    def _places(self, sums: tuple[int, ...], size: int) -> list[int]:
        """Places for a cut; what is on its far side is taken down to a sum by a further cut."""
        shorter = max(s for s in sums if s <= size)
        if 0 < shorter < size:
            return [shorter]
        return [at for at in sums if 0 < at < size]


def _sums(a: int, b: int, most: int) -> tuple[int, ...]:
    return tuple(
        sorted(
            {i * a + j * b for i in range(most // a + 1) for j in range((most - i * a) // b + 1)}
        )
    )


def _tight(part: Part) -> Part:
    """Leave away what falls off at the right or the bottom: the trims take it along."""
    while (halves := part.halves) and halves[1].what == OFFCUT:
        part = halves[0]
    return part
