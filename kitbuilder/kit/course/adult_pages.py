"""Pages for adults alone: a parents' evening in four pictures, a lesson with a class."""

from collections.abc import Iterator, Sequence
from random import Random

from kitbuilder.design.load import Words
from kitbuilder.kit import phrases
from kitbuilder.kit.course.course_records import Evening, EveningMoment, LessonOutline
from kitbuilder.kit.lesson.moments import Mat, both_parts, building, counts, exchanging, together
from kitbuilder.kit.mat_needs import Arrangement
from kitbuilder.number import Sum
from kitbuilder.number.course.rungs import rung_of
from kitbuilder.number.course.schedule import LESSONS
from kitbuilder.number.course.suitable_sums import NoSumError, draw
from kitbuilder.number.exchange import exchanges
from kitbuilder.number.facts import CROSSING_TEN, Fact, facts
from kitbuilder.number.scale import WHOLE
from kitbuilder.number.steps import Act, steps
from kitbuilder.number.stock import stock
from kitbuilder.number.written import columns

FACTS, PAIRS = 5, 3
"""The small facts with which a lesson with a class begins, and the sums that its pairs do."""


def evening(sums: Sequence[Sum], words: Words, arrangement: Arrangement = "two") -> Evening:
    """Return the page for a parents' evening: what is done with a sum in four moments.

    It is the first of ``sums`` with one exchange, which is all that is shown, else the first
    lesson's.
    """
    shown = next((one for one in sums if len(exchanges(one)) == 1), LESSONS[0])
    mat, done = Mat.of(shown, arrangement, words), steps(shown)
    at = next(k for k, step in enumerate(done) if step.act is Act.EXCHANGE)
    parts = next(step for step in done if step.act is Act.PARTS)
    left, part = counts(parts.table.whole, mat), counts(parts.table.part, mat)
    scenes = {
        "build": building(counts(done[0].table.whole, mat), mat),
        "exchange": exchanging(done[at - 1], done[at], mat),
        "parts": both_parts(left, part, mat),
        "together": together(left, part, mat),
    }
    slots = {"whole": shown.whole, "part": shown.part, "rest": shown.rest}
    slots |= phrases.swap(words, exchanges(shown)[0].source)  # type: ignore[arg-type]
    moments = tuple(
        EveningMoment(words(f"evening.{key}"), scene, words(f"evening.{key}_told", **slots))
        for key, scene in scenes.items()
    )
    return Evening(shown, moments, columns(shown.short()))


def outline_page(sum_: Sum) -> LessonOutline:
    """Return the outline of a lesson with a class on ``sum_``, with sums for pairs and its end."""
    last, *pairs = [*_alike(sum_, PAIRS + 1)] or [sum_]
    return LessonOutline(_facts(sum_, last), sum_, stock([sum_]), tuple(pairs), last)


def _facts(*sums: Sum) -> tuple[Fact, ...]:
    """Return the small facts through ten of ``sums``, filled up with others to ``FACTS``."""
    needed = [fact for sum_ in sums for fact in facts(sum_.counted(WHOLE)) if fact.crosses_ten]
    others = Random(int(sums[0].whole)).sample(CROSSING_TEN, FACTS)
    return tuple(dict.fromkeys([*needed, *others]))[:FACTS]


def _alike(sum_: Sum, count: int) -> Iterator[Sum]:
    """Yield up to ``count`` other sums of the kind of ``sum_``, for which its pieces suffice."""
    if (rung := rung_of(sum_)) is None:
        return
    chance, wholes = Random(2), {sum_.whole}
    for _ in range(count):
        try:
            found = draw(rung, "both", stock([sum_]), chance, lambda s: s.whole not in wholes)
        except NoSumError:
            return
        wholes.add(found.whole)
        yield found
