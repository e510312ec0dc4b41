"""The guide: every picture from the steps, every written mark beside the act that made it."""

from pathlib import Path

import pytest
from pdf_lines import page_texts

from kitbuilder.design import load as designs
from kitbuilder.draw.canvas import Canvas
from kitbuilder.draw.marks import Placed, Strokes
from kitbuilder.draw.pages.lesson import draw_scene
from kitbuilder.kit.lesson.scenes import scenes
from kitbuilder.kit.mat_needs import Arrangement, layings, roles
from kitbuilder.kit.records import Say, Scene
from kitbuilder.layout.model import Rect, SheetKind
from kitbuilder.layout.pages.scene import Room, placed
from kitbuilder.layout.text.flow import TextBlock, flow
from kitbuilder.number import Pieces, Sum
from kitbuilder.number.steps import steps
from kitbuilder.number.written import columns, columns_after
from kitbuilder.pipeline import build
from kitbuilder.request.request import Request, fitted_paper

WORDS = designs.words()
SUMS = [Sum(42, 17), Sum(634, 258), Sum(305, 148), Sum(78, 41), Sum(500, 1), Sum(7, 3), Sum(71, 0)]


@pytest.mark.parametrize("sum_", SUMS, ids=str)
def test_scenes_follow_the_steps(sum_: Sum) -> None:
    done = steps(sum_)
    drawn = scenes(done)
    for step, scene in zip(done, drawn, strict=True):
        assert (scene.whole, scene.part) == (step.table.whole, step.table.part)
        # nothing comes from nowhere: what was laid is worth what was taken away, but when the
        # whole is first built, and when the parts are pushed together and only move
        if step.act.value in ("exchange", "take", "exchange_back"):
            assert (scene.laid_whole + scene.laid_part).value == scene.ghosts.value
    assert drawn[0].laid_whole.value == sum_.whole


@pytest.mark.parametrize("sum_", SUMS, ids=str)
def test_every_mark_is_written_when_its_exchange_is_made(sum_: Sum) -> None:
    done = steps(sum_)
    written = columns_after(sum_, done)
    assert written[-1] == columns(sum_)
    for step, now in zip(done, written, strict=True):
        for place, column in enumerate(now):
            if step.act.value in ("build", "exchange", "take", "parts"):
                held = step.table.together.counts[place]
                marks = (column.top, *column.marks)
                # the last number above a column is what lies in it, in both zones together
                assert marks[-1] == held
    assert all(column.answer is None for column in written[0])


def test_marks_of_a_crossed_zero_come_one_by_one() -> None:
    # 305 − 148: the zero receives ten tens (10), then hands one on (9)
    done = steps(Sum(305, 148))
    tens = [now[1].marks for now in columns_after(Sum(305, 148), done)]
    assert tens[:3] == [(), (10,), (10, 9)]


def test_a_scene_cannot_lay_what_is_not_there() -> None:
    with pytest.raises(ValueError, match="were laid"):
        Scene(Pieces(1), laid_whole=Pieces(2))


@pytest.mark.parametrize("arrangement", ["two", "three", "beside"])
def test_a_lesson_fills_the_zones_of_its_own_mat(arrangement: Arrangement) -> None:
    # The mat's own walk over the moments of a sum is the second opinion: what lies in each of
    # its zones, ones first, the rest moved when the part is out.
    sum_ = Sum(305, 148)
    drawn = scenes(steps(sum_), arrangement)
    on_mat = [x for x in layings(sum_, arrangement) if x.order == (0, 1, 2)][: len(drawn)]
    for scene, laying in zip(drawn, on_mat, strict=True):
        zones = (scene.whole, scene.part, scene.rest)
        assert zones[: len(roles(arrangement))] == laying.pieces
        assert scene.arrangement == arrangement


def test_a_mat_of_two_zones_has_none_for_the_rest() -> None:
    with pytest.raises(ValueError, match="not there"):
        Scene(Pieces(), rest=Pieces(1))


def test_hundreds_in_a_fan_are_strips_in_fives_and_one_whole() -> None:
    """Eight strips and a hundred with its grid: after the fifth a wider step, as with tens."""
    scene = Scene(Pieces(hundreds=9))
    drawing = placed(scene, Room.of([scene], 4.2), 1.0)
    assert [strip.width for strip in drawing.covered] == [2, 2, 2, 2, 3, 2, 2, 2]
    assert [(piece.width, piece.height) for piece in drawing.pieces] == [(10, 10)]
    canvas = Canvas("t", 60, 30, designs.look())
    draw_scene(canvas, drawing, Rect(5, 5, 50, 20))
    grids = [mark.figure for mark in canvas.drawing().marks if isinstance(mark, Placed)]
    assert [figure.width for figure in grids] == [10]  # the strips have no grid


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("sum_", SUMS, ids=str)
def test_the_guide_fits_its_pages(sum_: Sum, paper: str, tmp_path: Path) -> None:
    built = build(Request((sum_,), fitted_paper(paper), parts=("guide",)), tmp_path)
    kinds = [sheet.kind for sheet in built.laid.sheets]
    stages = 5 if sum_.places < 3 or not sum_.part else 6
    assert kinds.count(SheetKind.GUIDE) <= stages + (sum_.places == 3)
    texts = page_texts(tmp_path / "kit.pdf")
    assert sum("When the answer is wrong" in text for text in texts) == 1


@pytest.mark.parametrize("look", designs.names("looks"))
@pytest.mark.parametrize("unit", [0.8, 1.2, 2.2])
def test_what_lacks_and_what_was_just_laid_stand_out(look: str, unit: float) -> None:
    """However small the picture: a dash is shorter than a one, a laid edge 1.5 times as wide."""
    done = steps(Sum(71, 48))
    scene = next(scene for scene in scenes(done) if scene.ghosts.ones and scene.whole.ones)
    laid = next(scene for scene in scenes(done) if scene.laid_part.ones)
    canvas = Canvas("t", 100, 60, designs.look(look))
    for drawn in (scene, laid):
        draw_scene(canvas, placed(drawn, Room.of([scene, laid], 3.0), unit), Rect(1, 1, 90, 50))
    marks = canvas.drawing().marks
    dashed = [mark for mark in marks if isinstance(mark, Strokes) and mark.dash]
    assert dashed
    for mark in dashed:
        dash, gap = mark.dash
        assert dash + mark.width < unit and 2 * dash + gap == pytest.approx(unit, abs=0.02)
    edges = [
        stroke.width
        for mark in marks
        if isinstance(mark, Placed)
        for stroke in mark.figure.marks
        if isinstance(stroke, Strokes) and stroke.colour == designs.look(look).ink.frame
    ]
    thick = max(mark.width for mark in marks if isinstance(mark, Strokes) and not mark.dash)
    assert edges and thick >= 1.5 * max(edges)


def test_no_heading_is_the_last_thing_on_a_page() -> None:
    # Whatever the page's height, no heading stands at its foot, nor one under another.
    blocks: list[Say] = []
    for number in range(1, 5):
        line = f"A line of {number} and some more words than there is room for."
        blocks += (Say("heading", f"Heading {number}"), Say("under", f"Part {number}"))
        blocks += [Say("step", line, "–")] * 4
    heads = {b.text for b in blocks if b.style in ("heading", "under")}
    for high in range(90, 200, 3):
        area = Rect(0, 0, 110, high)
        for page in flow(blocks, area, designs.look("bold")):
            last = page[-1].content
            assert isinstance(last, TextBlock)
            assert " ".join(last.lines) not in heads


def test_pages_are_filled_alike_and_end_before_a_heading() -> None:
    look, area = designs.look(), Rect(0, 0, 100, 100)
    line = 1.4 * look.type_mm.adult + 0.8  # the height of a line, and the space after a step
    fit = int((100 + 0.8) / line)
    word, head = Say("step", "word"), Say("heading", "word")
    pages = flow([word] * (fit + 1), area, look)
    assert sorted(map(len, pages)) == [(fit + 1) // 2, fit + 1 - (fit + 1) // 2]
    assert len(flow([word] * fit, area, look)) == 1
    many = fit * 2 // 3
    pages = flow([*[word] * many, head, *[word] * many], area, look)
    assert [len(page) for page in pages] == [many, many + 1]
