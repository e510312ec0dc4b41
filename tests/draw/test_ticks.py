"""Ticks in the offcuts: beyond every line's end, never on a piece, never in the margins."""

from kitbuilder.draw.ticks import TICK, ticks
from kitbuilder.layout.model import Rect

INSIDE = Rect(5, 5, 90, 90)


def test_two_tens_side_by_side_have_a_tick_at_every_line() -> None:
    pair = [Rect(20, 20, 10, 50), Rect(30, 20, 10, 50)]
    found = ticks(pair, INSIDE)
    down = {(x, 20 - TICK, x, 20) for x in (20, 30, 40)} | {
        (x, 70, x, 70 + TICK) for x in (20, 30, 40)
    }
    across = {(20 - TICK, y, 20, y) for y in (20, 70)} | {(40, y, 40 + TICK, y) for y in (20, 70)}
    assert set(found) == down | across


def test_no_tick_lies_on_a_piece_or_in_the_margin() -> None:
    # the left piece stands at the margin; the lower one closes the line between the upper two
    pieces = [Rect(5, 5, 10, 30), Rect(15, 5, 10, 30), Rect(5, 35, 20, 10)]
    for x1, y1, x2, y2 in ticks(pieces, INSIDE):
        assert INSIDE.x <= min(x1, x2) and INSIDE.y <= min(y1, y2)
        middle = ((x1 + x2) / 2, (y1 + y2) / 2)
        for piece in pieces:
            assert not (piece.x < middle[0] < piece.right and piece.y < middle[1] < piece.bottom)
    assert (15, 35, 15, 35 + TICK) not in ticks(pieces, INSIDE)
