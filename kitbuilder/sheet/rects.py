"""Turns a number of equal cards into the least sheets, with straight cuts in order."""

from kitbuilder.errors import RefusedError
from kitbuilder.sheet.bound import least_strokes
from kitbuilder.sheet.grid import MOST_PIECES, Page
from kitbuilder.sheet.parts import OFFCUT, Axis, Part, cut_types, join, leaf, strokes_needed
from kitbuilder.sheet.plan import Count, CutPlan, Wish, make_plan, page_size

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
