"""The guide's lesson: what is numbered, looked at, named and drawn, reckoned by hand."""

from kitbuilder.design import load as designs
from kitbuilder.kit.lesson.lessons import guide
from kitbuilder.kit.lesson.script import taught
from kitbuilder.kit.lesson.writing import writing
from kitbuilder.number import Pieces, Sum

WORDS = designs.words()
NOTHING = Pieces()


def test_the_lesson_is_the_first_sums() -> None:
    stages = guide((Sum(71, 48), Sum(634, 258)), WORDS)
    title = WORDS("guide_pages.first", sum=Sum(71, 48))
    assert stages[0] == taught(Sum(71, 48), title, WORDS)
    assert stages[1] == writing((Sum(71, 48), Sum(634, 258)), WORDS)
