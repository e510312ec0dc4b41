"""Pieces in pictures: what is gone or still needed can be told from what lies there."""

from kitbuilder.design import load as designs
from kitbuilder.draw.canvas import Canvas
from kitbuilder.draw.parts.small_pieces import draw_small_pieces
from kitbuilder.draw.primitives import Box, Path, Placed, Strokes
from kitbuilder.layout.model import Rect
from kitbuilder.layout.parts.contents import SmallPieces, State


def drawn(rects: tuple[Rect, ...], state: State) -> list[Strokes | Box | Path]:
    canvas = Canvas("test", 100, 100, designs.look("bold"))
    draw_small_pieces(canvas, SmallPieces(rects, 4.0, state), Rect(0, 0, 80, 80))
    marks = canvas.drawing().marks
    every = [m for mark in marks for m in (mark.marks() if isinstance(mark, Placed) else (mark,))]
    return [m for m in every if isinstance(m, Strokes | Box | Path)]


def test_a_gone_ten_in_large_type_has_an_outline_and_a_slash_from_end_to_end() -> None:
    box, slash = drawn((Rect(0, 0, 4, 40),), "gone")
    assert isinstance(box, Box) and isinstance(slash, Path)
    assert box.stroke == slash.stroke == "#000000" and slash.line > 0.35
    ys = [y for contour in slash.contours for _, y in contour]
    assert max(ys) - min(ys) > 36


def test_ones_still_needed_do_not_run_together() -> None:
    xs = [
        x
        for mark in drawn((Rect(0, 0, 4, 4), Rect(4.8, 0, 4, 4)), "needed")
        if isinstance(mark, Strokes)
        for x, y, x2, y2 in mark.lines
        if x == x2
    ]
    first, second, third, fourth = sorted(set(xs))
    assert third - second > 1.4 and second - first > 3 and fourth - third > 3
