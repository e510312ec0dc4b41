"""The guide's lesson: what is numbered, looked at, named and drawn, reckoned by hand."""

from kitbuilder.design import load as designs
from kitbuilder.kit.lesson.lessons import guide
from kitbuilder.kit.lesson.scenes import scenes
from kitbuilder.kit.lesson.script import taught
from kitbuilder.kit.lesson.writing import writing
from kitbuilder.kit.records import Scene
from kitbuilder.number import Pieces, Sum
from kitbuilder.number.steps import steps

WORDS = designs.words()
NOTHING = Pieces()


def test_the_lesson_is_the_first_sums() -> None:
    stages = guide((Sum(71, 48), Sum(634, 258)), WORDS)
    title = WORDS("guide_pages.first", sum=Sum(71, 48))
    assert stages[0] == (taught(Sum(71, 48), title, WORDS),)
    assert stages[1] == (writing((Sum(71, 48), Sum(634, 258)), WORDS),)


def test_scenes_of_42_less_17_are_as_laid_by_hand() -> None:
    # Build; a ten for ten ones; 7 ones and a ten go over; read; push together; ten ones for a
    # ten; check. What was just laid, and what was just taken away, step by step.
    two = scenes(steps(Sum(42, 17)))
    assert two == (
        Scene(Pieces(2, 4), laid_whole=Pieces(2, 4)),
        Scene(Pieces(12, 3), laid_whole=Pieces(10), ghosts=Pieces(0, 1)),
        Scene(Pieces(5, 3), Pieces(7), laid_part=Pieces(7), ghosts=Pieces(7)),
        Scene(Pieces(5, 2), Pieces(7, 1), laid_part=Pieces(0, 1), ghosts=Pieces(0, 1)),
        Scene(Pieces(5, 2), Pieces(7, 1)),
        Scene(Pieces(12, 3), laid_whole=Pieces(7, 1)),
        Scene(Pieces(2, 4), laid_whole=Pieces(0, 1), ghosts=Pieces(10)),
        Scene(Pieces(2, 4)),
    )
    # On a mat of three zones the rest moves when the part is out, and all of it comes back.
    three = scenes(steps(Sum(42, 17)), "three")
    left = Pieces(5, 2)
    assert three[4] == Scene(
        NOTHING, Pieces(7, 1), ghosts=left, rest=left, laid_rest=left, arrangement="three"
    )
    assert three[5] == Scene(Pieces(12, 3), laid_whole=Pieces(12, 3), arrangement="three")
