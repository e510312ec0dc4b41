"""The sheets of a mat in a small picture, as they join, each with its own cuts."""

from collections.abc import Sequence

from kitbuilder.layout.mat.mat_records import MatTile
from kitbuilder.layout.model import Item, Rect, Sheet
from kitbuilder.layout.parts.block import Block
from kitbuilder.layout.parts.contents import Panel, Rule
from kitbuilder.layout.parts.furniture import pictogram

_HIGH, _SIDE, _LEAST = 12.5, 4.2, 3.2
# How high a sheet is, and how large its scissors are and must be, in mm.


def joined_sheets(sheets: Sequence[Sheet], size: float) -> Block:
    """Return the ``sheets`` of a mat apart in their rows; scissors stand where each cut begins.

    The picture is ``size`` times as large as usual.
    """
    tile = sheets[0].items[0].content
    across = tile.mat.across if isinstance(tile, MatTile) else 1
    side = max(_LEAST, size * _SIDE)
    gap = 1.35 * side
    times = size * _HIGH / max(sheets[0].width, sheets[0].height)
    wide, high = sheets[0].width * times, sheets[0].height * times
    items: list[Item] = []
    for index, sheet in enumerate(sheets):
        row, column = divmod(index, across)
        x, y = side + column * (wide + gap), side + row * (high + gap)
        items.append(Item("sheet", Rect(x, y, wide, high), Panel("paper", "bubble", 0.0)))
        for cut in sheet.cuts:
            at = x + cut.x1 * times, y + cut.y1 * times
            if cut.x1 == cut.x2:
                rect, turn = Rect(at[0], y, 0.01, high), 1
                spot = at[0] - side / 2, y - side
            else:
                rect, turn = Rect(x, at[1], (cut.x2 - cut.x1) * times, 0.01), 0
                spot = x - side, at[1] - side / 2
            items += [
                Item("blade", rect, Rule("cut")),
                *pictogram("scissors", side, turn).at(*spot),
            ]
    rows = -(-len(sheets) // across)
    return Block(tuple(items), side + across * (wide + gap), side + rows * (high + gap))
