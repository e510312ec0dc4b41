"""The four pictures of how a thousand is folded."""

from itertools import pairwise

from kitbuilder.design.style import Style
from kitbuilder.layout.model import Item, Rect
from kitbuilder.layout.parts.block import Block
from kitbuilder.layout.parts.contents import Arrow, Outline, Panel, Rule, SmallPieces
from kitbuilder.layout.parts.furniture import pictogram
from kitbuilder.layout.parts.settings import settings
from kitbuilder.layout.parts.words import fitted, lines, placed_line, wide
from kitbuilder.layout.pieces.thousand import FOLDS, SLIT

_UNIT = 1.15
"""Width of a one in the pictures of the sheet laid open, in mm."""

_SIDE = 36.0
"""Side of a folded thousand in a picture, in mm."""

_STEP = 1.1
"""How far apart layers are drawn, in mm."""

_EPS = 0.01

_USUAL = 87.5
# Width in mm of a picture's room on A4.


def scale(width: float) -> float:
    """Return how much larger than on A4 pictures in a room of ``width`` mm are drawn."""
    return min(1.7, max(0.9, width / _USUAL))


def _rule(x1: float, y1: float, x2: float, y2: float, kind: str) -> Item:
    rect = Rect(min(x1, x2), min(y1, y2), max(_EPS, abs(x2 - x1)), max(_EPS, abs(y2 - y1)))
    return Item("rule", rect, Rule(kind))  # type: ignore[arg-type]


def _line_box(x: float, y: float, wide_: float, high: float) -> Item:
    return Item("panel", Rect(x, y, wide_, high), Panel("paper", "write", 0.0))


def cut_out(width: float, style: Style) -> Block:
    """Return the sheet laid open: hundreds, numbered folds, the slit with scissors."""
    sets, words = settings(style.look), style.words
    unit, head, left = _UNIT * scale(width), 8.0, 10.0
    side = 10 * unit
    items = [*pictogram("scissors", 6.5, 1).at(left + side - 3.25, 0.5)]
    hundreds = [(left + c * side, head + r * side) for r in range(5) for c in range(2)]
    items += [_line_box(x, y, side, side) for x, y in hundreds]
    for k, (way, (x1, y1, x2, y2)) in enumerate(FOLDS, 1):
        ends = (left + x1 * unit, head + y1 * unit, left + x2 * unit, head + y2 * unit)
        white = Rect(ends[0], ends[1] - 0.25, max(0.5, ends[2] - ends[0]), 0.5)
        if y1 == y2:
            items.append(Item("panel", white, Panel("paper", "none", 0.0)))
            number = sets.heading
            items.append(placed_line(str(k), number, left - 4.0, ends[1], "centre"))
        else:
            narrow = Rect(ends[0] - 0.25, ends[1], 0.5, ends[3] - ends[1])
            items.append(Item("panel", narrow, Panel("paper", "none", 0.0)))
        items.append(_rule(*ends, way))
    x1, y1, x2, y2 = (unit * at for at in SLIT)
    items.append(_rule(left + x1, head + y1 - 1, left + x2, head + y2, "cut"))
    joined = Rect(left + 0.9, head + 4 * side + 0.9, 2 * side - 1.8, side - 1.8)
    items.append(Item("panel", joined, Panel("none", "loop", 1.6)))
    told = left + 2 * side + 3.0
    room = max(12.0, width - told)
    for key, y in (("across", head + 2 * side), ("joined", head + 4.5 * side)):
        said = lines(words(f"thousand.{key}"), sets.text, room)
        items += said.at(told, y - said.height / 2)
    right = max(item.rect.right for item in items)
    return Block(tuple(items), right, head + 5 * side + 0.5)


def zigzag(width: float, style: Style) -> Block:
    """Return the sheet half folded, arrows that push it together, and five layers from the side."""
    big = scale(width)
    folded = _half_folded(big, style)
    shift = (width - folded.width) / 2
    y = folded.height + 4.0 * big
    pushed = _pushed(width, style)
    told = settings(style.look).text
    wide_, said = 34.0 * big, style.words("thousand.layers")
    left = (width - wide_ - 3.0 - wide(said, told)) / 2
    below = y + pushed.height + 3.0
    layers = _layers(5, left, below, wide_)
    label = placed_line(said, told, left + wide_ + 3.0, below + 3.2)
    items = (*folded.at(shift, 0), *pushed.at(0, y), *layers, label)
    return Block(items, width, below + 8.0)


def _half_folded(big: float, style: Style) -> Block:
    """Return five panels that stand to and fro, their folds numbered as on the open sheet.

    The printed side is up: folds away are ridges. The squares show where it is seen.
    """
    dx, high, deep, rise = 8.5 * big, 17.0 * big, 34.0 * big, 10.0 * big
    number = settings(style.look).heading
    top, items = rise + 1.4 * number.size, list[Item]()
    ridges = [k for k, (way, _) in enumerate(FOLDS[:4], 1) if way == "away"]
    high_ends = {*ridges, 5}
    edge = [(3.0 + k * dx, top + (0.0 if k in high_ends else high)) for k in range(6)]
    for (ax, ay), (bx, by) in pairwise(edge):
        corners = ((ax, ay), (bx, by), (bx + deep, by - rise), (ax + deep, ay - rise))
        x, y = min(p[0] for p in corners), min(p[1] for p in corners)
        far, low = max(p[0] for p in corners), max(p[1] for p in corners)
        printed = (10, 20) if by > ay else None  # rising panels turn their blank side to you
        outline = Outline(tuple((a - x, b - y) for a, b in corners), printed)
        items.append(Item("outline", Rect(x, y, far - x, low - y), outline))
    for k in range(1, 5):
        x, y = edge[k]
        beyond = (x + deep, y - rise - 0.75 * number.size)
        spot = beyond if k in ridges else (x, y + 0.7 * number.size)
        items.append(placed_line(str(k), number, *spot, "centre"))
    return Block(tuple(items), edge[5][0] + deep, top + high + 1.3 * number.size)


def _pushed(width: float, style: Style) -> Block:
    """Return words between two arrows that point to them."""
    text, said = settings(style.look).text, style.words("thousand.push")
    half, middle = wide(said, text) / 2 + 3.0, width / 2
    shaft = min(16.0, middle - half)
    items = [placed_line(said, text, middle, text.lead / 2, "centre")]
    for x, points in (
        (middle - half - shaft, ((0.0, 0.5), (shaft, 0.5))),
        (middle + half, ((shaft, 0.5), (0.0, 0.5))),
    ):
        if shaft > 6:
            rect = Rect(x, text.lead / 2 - 0.5, shaft, 1.0)
            items.append(Item("arrow", rect, Arrow(points)))
    return Block(tuple(items), width, text.lead)


def _layers(count: int, x: float, y: float, wide_: float) -> list[Item]:
    """Return layers seen from the side: lines joined at the right and the left in turn."""
    found = []
    for k in range(count):
        at = y + 1.6 * k
        found.append(_rule(x, at, x + wide_, at, "sum"))
        if k:
            turn = x + (wide_ if k % 2 else 0.0)
            found.append(_rule(turn, at - 1.6, turn, at, "sum"))
    return found


def booked(width: float, style: Style) -> Block:
    """Return two blank stacks of five, joined, and the arrow that closes them like a book."""
    side = min(_SIDE * scale(width), (width - 6.0) / 2)
    top = 12.0
    left = (width - 2 * side) / 2
    items: list[Item] = []
    for k in range(4, 0, -1):
        for x in (left, left + side):
            items.append(_line_box(x, top + k * _STEP, side, side))
    items.append(_line_box(left, top, 2 * side, side))
    items.append(_rule(left + side, top - 2, left + side, top + side, "to"))
    points = ((1.5 * side, 9.0), (1.5 * side, 0.5), (0.5 * side, 0.5), (0.5 * side, 9.0))
    items.append(Item("arrow", Rect(left, 1.5, 2 * side, 9.0), Arrow(points)))
    return Block(tuple(items), left + 2 * side, top + side + 4 * _STEP)


def banded(width: float, style: Style) -> Block:
    """Return ten layers with the band round them, and what they are."""
    sets, words = settings(style.look), style.words
    side = min(_SIDE * scale(width), width * 0.5)
    high = 8.5
    unit = side / 10
    items = [_line_box(2.0, k * _STEP, side, side) for k in range(9, 0, -1)]
    box = Rect(2.0, 0, side, side)
    items.append(Item("small_pieces", box, SmallPieces((Rect(0, 0, side, side),), unit)))
    band = Rect(0.6, side / 2 - high / 2, side + 2.8, high)
    items.append(Item("panel", band, Panel("paper", "frame", 0.8)))
    said = fitted(words("thousand.one"), sets.text, band.width - 2, sets.least.size)
    across = min(band.width - 2, wide(words("thousand.one"), sets.text))
    items += said.at(band.x + (band.width - across) / 2, band.y + (high - said.height) / 2)
    room = width - side - 9.0
    told = lines(words("thousand.ten"), sets.heading, room)
    under = lines(words("thousand.loose"), sets.text, room)
    items += told.at(side + 8.0, side / 2 - told.height)
    items += under.at(side + 8.0, side / 2 + 1.0)
    return Block(tuple(items), width, side + 9 * _STEP)
