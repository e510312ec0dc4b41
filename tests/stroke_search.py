"""The least strokes for a few ones on one sheet, by trying every cut at every half unit.

Written apart from the code it checks. Lengths are half units; a part knows which of its edges are
the paper's, with a margin of half a unit behind each.
"""

from collections.abc import Iterator
from functools import cache
from itertools import combinations_with_replacement, product

Sheet = tuple[int, int, int, int, int, int]
"""Width, height, and for the left, right, top and bottom edge whether it is the paper's."""

Hand = tuple[Sheet, ...]


def fewest_strokes(across: int, down: int, ones: int, layers: int) -> int:
    """Return the least strokes for ``ones`` from a sheet of so many units and its margins."""
    level: set[Hand] = {(_upright((2 * across + 2, 2 * down + 2, 1, 1, 1, 1)),)}
    strokes = 0
    while not any(hand.count((2, 2, 0, 0, 0, 0)) >= ones for hand in level):
        level = {after for hand in level for after in _strokes(hand, ones, layers)}
        strokes += 1
    return strokes


def _strokes(hand: Hand, ones: int, layers: int) -> Iterator[Hand]:
    for width, height in {part[:2] for part in hand}:
        alike = [part for part in hand if part[:2] == (width, height)]
        others = [part for part in hand if part[:2] != (width, height)]
        kinds = sorted(set(alike))
        for many in product(*(range(min(layers, alike.count(kind)) + 1) for kind in kinds)):
            if not 0 < sum(many) <= layers:
                continue
            kept = [k for k, n in zip(kinds, many, strict=True) for _ in range(alike.count(k) - n)]
            for down, size in enumerate((width, height)):
                for at in range(1, size // 2 + 1):
                    choices = (
                        combinations_with_replacement(_halves(kind, down, at), n)
                        for kind, n in zip(kinds, many, strict=True)
                    )
                    for choice in product(*choices):
                        made = [half for way in choice for halves in way for half in halves]
                        after = tuple(sorted(others + kept + made))
                        if _enough(after, ones):
                            yield after


@cache
def _halves(part: Sheet, down: int, at: int) -> tuple[tuple[Sheet, ...], ...]:
    """Return what a cut ``at`` half units from either edge makes, with a half dropped or not."""
    found = set()
    turned = (part[1], part[0], *part[4:], *part[2:4])
    turns = {turned if down else part} | ({turned, part} if part[0] == part[1] else set())
    for w, h, left, right, top, bottom in turns:
        for here in (at, w - at):
            one = _upright((here, h, left, 0, top, bottom))
            two = _upright((w - here, h, 0, right, top, bottom))
            found |= {(one, two), (one,), (two,)}
    return tuple(sorted(found))


def _upright(part: Sheet) -> Sheet:
    """Return the part turned and flipped to one of the ways it can lie."""
    w, h, left, right, top, bottom = part
    left, right = sorted((left, right))
    top, bottom = sorted((top, bottom))
    return min((w, h, left, right, top, bottom), (h, w, top, bottom, left, right))


def _enough(hand: Hand, ones: int) -> bool:
    room = sum(
        max(0, (w - left - right) // 2) * max(0, (h - top - bottom) // 2)
        for w, h, left, right, top, bottom in hand
    )
    return len(hand) <= ones and room >= ones
