"""Pieces in pictures: what is gone or still needed can be told from what lies there."""

import pytest

from kitbuilder.design import load as designs
from kitbuilder.draw.canvas import Canvas
from kitbuilder.draw.parts.small_pieces import draw_small_pieces
from kitbuilder.draw.primitives import Box, Path, Placed, Strokes
from kitbuilder.layout.model import Rect
from kitbuilder.layout.parts.contents import SmallPieces, State

STATES: tuple[State, ...] = ("here", "new")


def drawn(
    rects: tuple[Rect, ...], state: State, look: str = "bold", unit: float = 4.0, passing: int = 0
) -> list[Strokes | Box | Path]:
    canvas = Canvas("test", 210, 297, designs.look(look))
    draw_small_pieces(canvas, SmallPieces(rects, unit, state, (), passing), Rect(0, 0, 80, 80))
    marks = canvas.drawing().marks
    every = [m for mark in marks for m in (mark.marks() if isinstance(mark, Placed) else (mark,))]
    return [m for m in every if isinstance(m, Strokes | Box | Path)]


def test_a_gone_ten_in_large_type_has_a_black_outline_and_a_short_slash() -> None:
    box, slash = drawn((Rect(0, 0, 4, 40),), "gone")
    assert isinstance(box, Box) and isinstance(slash, Path)
    assert box.stroke == slash.stroke == "#000000" and slash.line > 0.35
    ys = [y for contour in slash.contours for _, y in contour]
    assert 5 < max(ys) - min(ys) < 10, "from end to end it seemed to split the ten"


def test_a_hundred_of_which_little_is_seen_is_struck_as_high_as_a_ten() -> None:
    # the second hundred taken out is seen half as wide: its slash was half as high, and looked cut
    _, strip = drawn((Rect(0, 0, 2, 24),), "gone")
    _, ten = drawn((Rect(0, 0, 4, 40),), "gone")
    assert isinstance(strip, Path) and isinstance(ten, Path)
    high, usual = (max(y) - min(y) for y in ([y for _, y in p.contours[0]] for p in (strip, ten)))
    assert high == pytest.approx(usual)


def test_what_is_new_in_large_type_can_be_told_in_a_poor_copy() -> None:
    # its outline was 0.4 mm beside 0.25 mm; of ten tens it is finer, which together take much ink
    tens = tuple(Rect(6 * k, 0, 4.8, 48) for k in range(10))
    for rects, least in (((Rect(0, 0, 4, 4),), 0.65), (tens[:4], 0.65), (tens, 0.44)):
        here, new = (drawn(rects, state)[-1] for state in STATES)
        assert isinstance(here, Box) and isinstance(new, Box)
        assert new.line >= max(least, 2 * here.line)


@pytest.mark.parametrize("unit", [2.2, 2.5, 2.79])
def test_what_is_new_in_small_pictures_of_large_type_has_a_much_wider_outline(unit: float) -> None:
    # twice as wide, five new tens could not be picked out of nine from afar
    rects = tuple(Rect(1.16 * unit * k, 0, unit, 10 * unit) for k in range(10))
    here, new = (drawn(rects, state, "bold", unit)[-1] for state in STATES)
    assert isinstance(here, Box) and isinstance(new, Box) and new.line >= 2.49 * here.line


def test_a_ten_just_laid_down_and_gone_at_once_is_outlined_as_new_and_struck() -> None:
    rects = tuple(Rect(2.4 * k, 0, 2.0, 20) for k in range(10))
    marks = drawn(rects, "gone", "plain", 2.0, passing=1)
    lines = [m.line for m in marks if isinstance(m, Box) and m.line]
    assert len(lines) == 10 and lines[-1] > 1.8 * max(lines[:-1])
    assert sum(isinstance(m, Path) for m in marks) == 10


@pytest.mark.parametrize("look", ["plain", "outline", "spare"])
@pytest.mark.parametrize("unit", [1.95, 2.3, 2.85, 3.8])
def test_what_is_new_has_an_outline_nearly_twice_as_wide(look: str, unit: float) -> None:
    # those of tens and hundreds were 1.4 times as wide where pieces are small, lost in a poor copy
    for across, down in ((1, 1), (1, 10), (10, 10)):
        rects = (Rect(0, 0, across * unit, down * unit),)
        here, new = (drawn(rects, state, look, unit)[-1] for state in STATES)
        assert isinstance(here, Box) and isinstance(new, Box) and new.line > 1.8 * here.line


def test_the_grid_of_a_ten_in_large_type_is_black() -> None:
    # in grey its thin lines broke up in a poor copy
    (grid,) = (m for m in drawn((Rect(0, 0, 4, 40),), "here") if isinstance(m, Strokes))
    assert grid.colour == "#000000" and grid.width >= 0.155


def test_a_gone_thousand_keeps_its_layers() -> None:
    layers = [m for m in drawn((Rect(0, 0, 40, 44),), "gone") if isinstance(m, Strokes)]
    assert sum(len(m.lines) for m in layers) == 9


def test_a_gone_hundred_under_others_holds_in_a_poor_copy() -> None:
    # two sides of it are seen, which were 0.155 mm wide and faded
    hundred = (Rect(0, 0, 19, 19),)
    canvas = Canvas("test", 210, 297, designs.look())
    draw_small_pieces(canvas, SmallPieces(hundred, 1.9, "gone", hundred), hundred[0])
    (outline, *_) = (m for p in canvas.drawing().marks if isinstance(p, Placed) for m in p.marks())
    assert isinstance(outline, Box) and outline.line >= 0.19


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


def test_a_new_one_is_as_large_as_one_that_lies_there() -> None:
    canvas, one = Canvas("test", 100, 100, designs.look("plain")), Rect(0, 0, 2.0, 2.0)
    for state in STATES:
        draw_small_pieces(canvas, SmallPieces((one,), 2.0, state), one)
    drawings = [tuple(m.marks()) for m in canvas.drawing().marks if isinstance(m, Placed)]
    here, new = (m[-1] for m in drawings)
    assert isinstance(here, Box) and isinstance(new, Box) and new.line > 1.35 * here.line
    assert abs(here.x - here.line / 2 - (new.x - new.line / 2)) < 0.005
    assert abs(here.width + here.line - (new.width + new.line)) < 0.005
